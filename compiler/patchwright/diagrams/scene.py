"""A finished drawing: shapes at fixed places, which the writers of SVG, PNG and PDF turn into bytes.

All coordinates are inches on the page, from the upper left corner, x right, y down.
Never: a decision left to a writer. A scene names line styles and type sizes of the theme; it holds no numbers for them.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

XY = tuple[float, float]
Tone = Literal["fabric", "paper", "waste", "highlight"]
LineStyle = Literal["outline", "seam", "cut", "stitch", "mark", "fold", "dimension", "press", "grain", "edge", "scale"]
Arrow = Literal["none", "end", "both"]
TypeSize = Literal["small", "normal", "large"]


@dataclass(frozen=True, slots=True)
class Area:
    """A filled outline: a piece of cloth (right or wrong side), paper, waste, or a highlight."""

    outline: tuple[XY, ...]
    tone: Tone
    fabric: str = ""
    """The fabric's letter where the tone is `fabric`."""
    print: int = 0
    """Which of the fabric's colors, where it is many cloths."""
    wrong_side: bool = False
    style: LineStyle = "seam"
    """How the outline is stroked."""


@dataclass(frozen=True, slots=True)
class Line:
    points: tuple[XY, ...]
    style: LineStyle
    arrow: Arrow = "none"
    over: Literal["cloth", "paper"] = "paper"
    """What an arrow stands on; over cloth it gets a light backing so that it is seen on every color and hatch."""


@dataclass(frozen=True, slots=True)
class Label:
    """One line of text, centered on its place both ways unless an anchor says otherwise."""

    at: XY
    text: str
    size: TypeSize = "normal"
    anchor: Literal["start", "middle", "end"] = "middle"
    bold: bool = False
    turned: bool = False
    """Read from below upward, for dimensions along a left edge."""
    over: Literal["cloth", "paper"] = "paper"
    """What it stands on; over cloth it gets a light backing so that it reads on every color and hatch."""


Item = Area | Line | Label


@dataclass(frozen=True, slots=True)
class Swatch:
    """How one fabric is shown: its letter, name, colors (`#rrggbb`), value, and the number of its hatch."""

    letter: str
    name: str
    colors: tuple[str, ...]
    value: Literal["light", "medium", "dark"]
    hatch: int


@dataclass(frozen=True, slots=True)
class Scene:
    """A drawing of `width` x `height` inches with its title and text alternative."""

    id: str
    """Stable over sizes and editions: `block-coil`, `layout-throw`, `unit-turn-2-sew`."""
    width: float
    height: float
    items: tuple[Item, ...]
    swatches: tuple[Swatch, ...]
    title: str
    description: str
    """What a reader who cannot see the drawing needs to know, in full sentences, from the plan."""
    scale: float | None = None
    """Inches on the page per inch of cloth, where the drawing is to a scale that the booklet states."""
