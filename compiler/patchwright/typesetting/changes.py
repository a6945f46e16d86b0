"""What an edition changes of a theme: larger type, heavier lines, one color, another shape of page.

In: a loaded theme and an edition's changes.
Out: a theme like it, with its tokens and the look of its drawings changed; a plan drawn in lines alone.
Never: a theme's name, nor a change that one theme alone would understand.
"""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from math import inf

from patchwright.core.theme import DrawingTokens, Palette, Paper, Spacing, Tokens, TypeSizes
from patchwright.diagrams.look import Look
from patchwright.planning.plan import Plan
from patchwright.typesetting.themes import Theme

INK, QUIET, WHITE, FAINT = "#000000", "#333333", "#ffffff", "#ececec"


@dataclass(frozen=True, slots=True)
class Changes:
    """Changes to a theme's tokens; the defaults change nothing."""

    least_type: float = 0
    """No type is smaller, in points."""
    least_text: float = 0
    """Nor running text and tables, in which themes set some words smaller, than this."""
    type_scale: float = 1
    most_scaled: float = 0
    """Type is not scaled beyond this many points."""
    space_scale: float = 1
    """By how much the room around table cells, notices, steps and their numbers grows with the type."""
    line_scale: float = 1
    """By how much lines of drawings are heavier."""
    strong: bool = False
    """Quiet text and rules as dark as the others."""
    one_color: bool = False
    """Black ink on white paper, without tints."""
    line_drawings: bool = False
    """Cloth shown by its hatch alone."""
    landscape: bool = False
    folded: bool = False
    """Pages of half a sheet, to be imposed, folded and stapled."""
    beside: float = inf
    """The widest drawing, in inches, that may stand beside words, where the theme allows it."""


NO_CHANGES = Changes()


def changed_theme(theme: Theme, changes: Changes) -> Theme:
    """The theme with the changes made, and its look made anew from them."""
    tokens = changed_tokens(theme.tokens, changes)
    look = Look(tokens.drawing, tokens.type, theme.look.regular, theme.look.bold)
    return replace(theme, tokens=tokens, look=look)


def changed_tokens(tokens: Tokens, changes: Changes) -> Tokens:
    """The tokens with the changes made."""
    papers = tokens.folds.pages if changes.folded else tokens.papers
    papers = tuple((name, _turned(paper) if changes.landscape else paper) for name, paper in papers)
    return replace(
        tokens,
        papers=papers,
        type=_type(tokens.type, changes),
        light=_palette(tokens.light, changes),
        spacing=_spacing(tokens, changes),
        drawing=_drawing(tokens.drawing, changes),
    )


def drawn_plan(plan: Plan, changes: Changes) -> Plan:
    """The plan as it is drawn: with white cloth where an edition shows lines alone."""
    if not changes.line_drawings:
        return plan
    return replace(plan, fabrics=tuple(replace(fabric, colors=(WHITE,)) for fabric in plan.fabrics))


def _type(sizes: TypeSizes, changes: Changes) -> TypeSizes:
    """Sizes scaled up to a bound, or down to the minimum; the distance of lines stays a multiple of the size."""
    def scaled(size: float) -> float:
        grown = size * changes.type_scale
        if changes.type_scale < 1:
            return max(sizes.minimum, grown)
        return max(changes.least_type, size, min(grown, changes.most_scaled) if changes.most_scaled else grown)

    made = {field.name: scaled(getattr(sizes, field.name)) for field in fields(sizes)}
    made |= {name: max(made[name], changes.least_text) for name in ("lead", "body", "table")}
    minimum = max(sizes.minimum, changes.least_type)
    return TypeSizes(**(made | {"minimum": minimum, "leading": sizes.leading}))


def _turned(paper: Paper) -> Paper:
    """The paper on its side, its margins staying where they are."""
    return replace(paper, width=paper.height, height=paper.width)


def _palette(palette: Palette, changes: Changes) -> Palette:
    if changes.one_color:
        inks = {field.name: WHITE if field.name.endswith("_pale") else INK for field in fields(palette)}
        return Palette(**(inks | {"quiet": QUIET, "rule": QUIET, "paper": WHITE, "panel": WHITE}))
    return replace(palette, quiet=palette.ink, rule=palette.quiet) if changes.strong else palette


def _spacing(tokens: Tokens, changes: Changes) -> Spacing:
    """Room that grows with the type; beside a step's words stands what leaves them as large a share of the page."""
    spacing, scale = tokens.spacing, changes.space_scale
    if changes.folded:
        narrow, wide = (min(paper.text_width for _, paper in papers) for papers in (tokens.folds.pages, tokens.papers))
        spacing = replace(spacing, beside=spacing.beside * narrow / wide)
    grown = replace(
        spacing, cell=spacing.cell * scale, notice=spacing.notice * scale, step_gutter=spacing.step_gutter * scale,
        checkbox=spacing.checkbox * scale, step=spacing.step * scale,
    )
    return replace(grown, beside=min(grown.beside, changes.beside))


def _drawing(drawing: DrawingTokens, changes: Changes) -> DrawingTokens:
    scale = changes.line_scale
    strokes = tuple(
        (name, replace(stroke, width=stroke.width * scale, color=INK if changes.one_color else stroke.color))
        for name, stroke in drawing.strokes
    )
    made = replace(
        drawing,
        strokes=strokes,
        hatches=tuple(replace(hatch, width=hatch.width * scale) for hatch in drawing.hatches),
        arrow_length=drawing.arrow_length * scale,
        arrow_width=drawing.arrow_width * scale,
    )
    if not changes.one_color:
        return made
    return replace(
        made, hatch_dark=INK, hatch_light=WHITE, paper=WHITE, waste=FAINT, highlight=FAINT, label=INK, backing=WHITE
    )
