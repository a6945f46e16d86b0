"""A theme's tokens and the metrics of its fonts, as plain types: the numbers and colors behind every look.

In: nothing; `patchwright.core.theme_tokens` reads these types from a theme's text.
Units: type, strokes, dashes and hatches in points (72 to the inch); pages, margins and gaps in inches.
Never: a default that hides a missing token; a theme says everything, and a mistake in it is a value with a name.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from patchwright.core.source import NOWHERE, Span

POINTS_PER_INCH = 72
LINE_STYLES = ("outline", "seam", "cut", "stitch", "mark", "fold", "dimension", "press", "grain", "edge", "scale")
PAPERS = ("letter", "a4")
LABEL_SIZES = ("small", "normal", "large")


@dataclass(frozen=True, slots=True, eq=False)
class FontMetrics:
    """What layout needs to know of one face; widths and heights in units of the em square."""

    family: str
    units_per_em: int
    ascent: int
    descent: int
    """Below the baseline, as a positive number."""
    cap_height: int
    advances: dict[int, int]
    """Advance width of every character that the face has, by code point."""

    def width(self, text: str) -> float:
        """The width of a line of text at a size of 1; a character that the face lacks counts as an average one."""
        average = self.units_per_em // 2
        return sum(self.advances.get(ord(character), average) for character in text) / self.units_per_em

    def missing(self, text: str) -> str:
        """The characters of `text` that the face has no glyph for, each once, in order."""
        return "".join(dict.fromkeys(character for character in text if ord(character) not in self.advances))


@dataclass(frozen=True, slots=True)
class Typeface:
    """A family, and the slug of the font package that holds its static faces."""

    family: str
    package: str


@dataclass(frozen=True, slots=True)
class Paper:
    """One paper's size and margins, in inches."""

    width: float
    height: float
    top: float
    bottom: float
    left: float
    right: float

    @property
    def text_width(self) -> float:
        return self.width - self.left - self.right

    @property
    def text_height(self) -> float:
        return self.height - self.top - self.bottom


@dataclass(frozen=True, slots=True)
class Folds:
    """How sheets are folded into a booklet of half their size."""

    thickness: float
    """Of one sheet, in inches; inner sheets are moved toward the fold by it, since they stand out at the edge."""
    sheets: int
    """Most sheets that are folded into one another; more are folded in several sets."""
    pages: tuple[tuple[str, Paper], ...]
    """By the paper that is folded: the half pages, with their margins."""
    whole: tuple[tuple[str, tuple[float, float]], ...]
    """By the paper: width and height of the sheet as it is printed, on its side."""

    def sheet(self, name: str) -> tuple[float, float]:
        return dict(self.whole)[name]


@dataclass(frozen=True, slots=True)
class TypeSizes:
    """Sizes of type in points; `minimum` bounds all others from below."""

    minimum: float
    cover_title: float
    section: float
    subheading: float
    lead: float
    body: float
    table: float
    caption: float
    fine: float
    label_small: float
    label_normal: float
    label_large: float
    leading: float
    """Distance of baselines as a multiple of the size."""


@dataclass(frozen=True, slots=True)
class Palette:
    """The colors of pages, as `#rrggbb`; a theme has one for light and one for dark surroundings."""

    ink: str
    quiet: str
    paper: str
    panel: str
    accent: str
    accent_pale: str
    rule: str
    caution: str
    caution_pale: str
    check: str
    check_pale: str
    tip: str
    tip_pale: str


@dataclass(frozen=True, slots=True)
class Spacing:
    """Distances between and inside the parts of a page, in inches."""

    block: float
    step: float
    subheading: float
    figure: float
    figure_gap: float
    """Between figures of one row, and between the words of a step and the drawing beside them."""
    step_gutter: float
    """Left of a step's words and drawings, for its number."""
    beside: float
    """The widest drawing that stands beside a step's words; wider ones stand below."""
    notice: float
    cell: float
    swatch_width: float
    swatch_height: float
    checkbox: float


@dataclass(frozen=True, slots=True)
class Stroke:
    """How a line is drawn: width and dashes in points, none for a solid line."""

    width: float
    color: str
    dash: tuple[float, ...] = ()
    cap: Literal["butt", "round"] = "butt"


@dataclass(frozen=True, slots=True)
class HatchLines:
    """Parallel lines: angle in degrees counterclockwise from level, spacing and dashes in points."""

    angle: float
    spacing: float
    start: float = 0
    """Offset of the first line, and so of all, across the lines."""
    on: float = 0
    off: float = 0
    """Length of dashes and gaps; no gap means solid lines."""
    shift: float = 0
    """How far the first line's dashes are moved along it."""
    stagger: float = 0
    """How far each line's dashes are moved against those of the line before."""


@dataclass(frozen=True, slots=True)
class Hatch:
    """One way to mark cloth; without lines it is plain."""

    name: str
    lines: tuple[HatchLines, ...]
    width: float
    """Of its strokes, in points."""


@dataclass(frozen=True, slots=True)
class DrawingTokens:
    """The look of drawings."""

    strokes: tuple[tuple[str, Stroke], ...]
    """By line style, one for each of `LINE_STYLES`."""
    hatches: tuple[Hatch, ...]
    hatch_dark: str
    """Ink of hatches on light cloth, and `hatch_light` on dark cloth."""
    hatch_light: str
    hatch_strength: float
    """Opacity of hatches, 0 to 1."""
    wrong_side: float
    """How far the wrong side of cloth is paled toward white, 0 to 1."""
    paper: str
    waste: str
    highlight: str
    label: str
    backing: str
    """Color behind labels over cloth."""
    backing_strength: float
    backing_padding: float
    arrow_length: float
    arrow_width: float

    def stroke(self, style: str) -> Stroke:
        return dict(self.strokes)[style]


@dataclass(frozen=True, slots=True)
class LogoPlace:
    """Where the logo of a house stands, and the room that it fits, in inches."""

    place: Literal["cover", "colophon", "both"]
    width: float
    height: float

    def stands_on(self, part: Literal["cover", "colophon"]) -> bool:
        return self.place in (part, "both")


@dataclass(frozen=True, slots=True)
class Tokens:
    """Everything that a theme's `theme.yaml` says."""

    text_face: Typeface
    label_face: Typeface
    """The face of tables, captions, small print and drawings."""
    display_face: Typeface
    """The face of titles."""
    papers: tuple[tuple[str, Paper], ...]
    folds: Folds
    type: TypeSizes
    light: Palette
    dark: Palette
    spacing: Spacing
    logo: LogoPlace
    drawing: DrawingTokens

    def paper(self, name: str) -> Paper:
        return dict(self.papers)[name]


@dataclass(frozen=True, slots=True)
class TokenMistake:
    """One thing wrong with a theme's text: the token's full name, what it is, and what was expected."""

    problem: Literal["missing", "unknown", "wrong", "unreadable", "missing-file", "unknown-theme"]
    token: str
    """The name of the file or theme where the problem is one."""
    expected: str
    found: str = ""
    span: Span = NOWHERE
