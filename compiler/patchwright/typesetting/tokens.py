"""A theme's `theme.yaml` → `Tokens`, or all that is wrong with it.

In: the text of the file.
Out: the tokens, and the mistakes as values; tokens only if there are no mistakes.
Never: a default for a token that the theme leaves out, except where a drawing style may be plain.
"""

from __future__ import annotations

from math import floor
from typing import Literal

from patchwright.core.theme import (
    LABEL_SIZES,
    LINE_STYLES,
    PAPERS,
    DrawingTokens,
    Folds,
    Hatch,
    HatchLines,
    LogoPlace,
    Palette,
    Paper,
    Spacing,
    Stroke,
    TokenMistake,
    Tokens,
    Typeface,
    TypeSizes,
)
from patchwright.typesetting.contrast import weak_pairs
from patchwright.typesetting.token_table import TokenTable, read_table

FORMAT = "1"
SMALLEST_TYPE = 6


def read_tokens(text: str, path: str) -> tuple[Tokens | None, tuple[TokenMistake, ...]]:
    """Read a theme's tokens; `path` is the name that messages give the file."""
    mistakes: list[TokenMistake] = []
    table = read_table(text, path, mistakes)
    if table is None:
        return None, tuple(mistakes)
    table.word("theme", (FORMAT,))
    tokens = Tokens(
        *_fonts(table.table("fonts")),
        papers=(papers := _papers(table.table("papers"))),
        folds=_folds(table.table("folds"), papers),
        type=_type_sizes(table.table("type")),
        light=_palette(light := table.table("light")),
        dark=_palette(dark := table.table("dark")),
        spacing=_spacing(table.table("spacing")),
        logo=_logo(table.table("logo")),
        drawing=_drawing(drawing := table.table("drawing")),
    )
    table.close()
    if not mistakes:
        _contrast(tokens, {"light": light, "dark": dark, "drawing": drawing})
    return (None if mistakes else tokens), tuple(mistakes)


def _contrast(tokens: Tokens, tables: dict[str, TokenTable]) -> None:
    """Note every pair of colors that is too much alike, at the first of the two."""
    for pair in weak_pairs(tokens):
        expected = f"a contrast of at least {pair.least:g} to 1 against `{pair.behind}` ({pair.use})"
        tables[pair.table].wrong(pair.token, expected, f"{floor(pair.ratio * 100) / 100:g} to 1")


FACES = ("text", "label", "display")


def _fonts(table: TokenTable) -> tuple[Typeface, Typeface, Typeface]:
    faces = []
    for key in FACES:
        face = table.table(key)
        faces.append(Typeface(face.text("family"), face.text("package")))
        face.close()
    table.close()
    return faces[0], faces[1], faces[2]


def _papers(table: TokenTable) -> tuple[tuple[str, Paper], ...]:
    papers = tuple((name, _paper(table.table(name))) for name in PAPERS)
    table.close()
    return papers


def _paper(table: TokenTable) -> Paper:
    size = [table.number(key, 4, 20) for key in ("width", "height")]
    margins = [table.number(key, 0.25, 2) for key in ("top", "bottom", "left", "right")]
    table.close()
    return Paper(*size, *margins)


def _folds(table: TokenTable, papers: tuple[tuple[str, Paper], ...]) -> Folds:
    """The half pages, none of them larger than half a sheet on its side."""
    thickness, sheets = table.number("thickness", 0, 0.03), table.whole("sheets", 1, 30)
    pages = []
    for name, paper in papers:
        half = _paper(table.table(name))
        if half.width > paper.height / 2 + 0.001 or half.height > paper.width + 0.001:
            most = f"a page of at most {paper.height / 2:g} by {paper.width:g}"
            table.wrong(name, most, f"{half.width:g} by {half.height:g}")
        pages.append((name, half))
    table.close()
    return Folds(thickness, sheets, tuple(pages), tuple((name, (one.height, one.width)) for name, one in papers))


def _type_sizes(table: TokenTable) -> TypeSizes:
    minimum = table.number("minimum", SMALLEST_TYPE, 24)
    names = ("cover-title", "section", "subheading", "lead", "body", "table", "caption", "fine")
    labels = tuple(f"label-{name}" for name in LABEL_SIZES)
    sizes = {name.replace("-", "_"): table.number(name, minimum, 96) for name in names + labels}
    leading = table.number("leading", 1, 2.5)
    table.close()
    return TypeSizes(minimum=minimum, leading=leading, **sizes)


PALETTE = (
    "ink", "quiet", "paper", "panel", "accent", "accent-pale", "rule",
    "caution", "caution-pale", "check", "check-pale", "tip", "tip-pale",
)  # fmt: skip


def _palette(table: TokenTable) -> Palette:
    colors = [table.color(name) for name in PALETTE]
    table.close()
    return Palette(*colors)


_SPACING = (
    ("block", 1.0), ("step", 2.0), ("subheading", 2.0), ("figure", 1.0), ("figure-gap", 1.0), ("step-gutter", 1.0),
    ("beside", 4.0), ("notice", 1.0), ("cell", 0.5), ("swatch-width", 2.0), ("swatch-height", 2.0), ("checkbox", 0.5),
)  # fmt: skip


def _spacing(table: TokenTable) -> Spacing:
    gaps = [table.number(name, 0, high) for name, high in _SPACING]
    table.close()
    return Spacing(*gaps)


_LOGO_PLACES: tuple[Literal["cover", "colophon", "both"], ...] = ("cover", "colophon", "both")


def _logo(table: TokenTable) -> LogoPlace:
    word = table.word("place", _LOGO_PLACES)
    place = next(one for one in _LOGO_PLACES if one == word)
    logo = LogoPlace(place, table.number("width", 0.3, 2), table.number("height", 0.2, 1))
    table.close()
    return logo


def _drawing(table: TokenTable) -> DrawingTokens:
    strokes = table.table("strokes")
    width = table.number("hatch-width", 0.1, 3)
    hatches = tuple(_hatch(one, width) for one in table.tables("hatches"))
    tokens = DrawingTokens(
        strokes=tuple((name, _stroke(strokes.table(name))) for name in LINE_STYLES),
        hatches=hatches,
        hatch_dark=table.color("hatch-dark"),
        hatch_light=table.color("hatch-light"),
        hatch_strength=table.number("hatch-strength", 0.05, 1),
        wrong_side=table.number("wrong-side", 0.1, 0.95),
        paper=table.color("paper"),
        waste=table.color("waste"),
        highlight=table.color("highlight"),
        label=table.color("label"),
        backing=table.color("backing"),
        backing_strength=table.number("backing-strength", 0, 1),
        backing_padding=table.number("backing-padding", 0, 10),
        arrow_length=table.number("arrow-length", 1, 20),
        arrow_width=table.number("arrow-width", 1, 20),
    )
    strokes.close()
    table.close()
    return tokens


def _stroke(table: TokenTable) -> Stroke:
    stroke = Stroke(
        width=table.number("width", 0.1, 6),
        color=table.color("color"),
        dash=table.numbers("dash", 0.05, 50, default=()),
        cap="round" if table.word("cap", ("butt", "round"), default="butt") == "round" else "butt",
    )
    table.close()
    return stroke


def _hatch(table: TokenTable, width: float) -> Hatch:
    lines = tuple(_hatch_lines(one) for one in table.tables("lines", default=()))
    hatch = Hatch(table.text("name"), lines, table.number("width", 0.1, 3, default=width))
    table.close()
    return hatch


def _hatch_lines(table: TokenTable) -> HatchLines:
    lines = HatchLines(
        angle=table.number("angle", 0, 180),
        spacing=table.number("spacing", 1, 50),
        start=table.number("start", 0, 50, default=0),
        on=table.number("on", 0, 50, default=0),
        off=table.number("off", 0, 50, default=0),
        shift=table.number("shift", 0, 50, default=0),
        stagger=table.number("stagger", 0, 50, default=0),
    )
    if lines.off and not lines.on:
        table.wrong("on", "a length of dashes, since there are gaps", "0")
    table.close()
    return lines
