"""The part of the Design that follows the top: binding, backing, and what hangs the quilt.

Never: a length that depends on the size of the top.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from patchwright.core.length import Length
from patchwright.core.source import NOWHERE, Span

Direction = Literal["none", "lengthwise", "crosswise"]
GrainChoice = Literal["auto", "crosswise", "lengthwise"]
"""How a long part is asked to be cut: across the cloth, along it, or whichever takes less."""
BindingWay = Literal["straight", "bias-strips", "bias-squares", "continuous"]


@dataclass(frozen=True, slots=True)
class Binding:
    fabric: str
    """Nothing where it is a cloth of its own."""
    strip: Length
    span: Span = field(default=NOWHERE, compare=False)
    fold: Literal["double", "single"] = "double"
    way: BindingWay = "straight"
    cut: GrainChoice = "auto"
    """Of strips on the straight grain."""


@dataclass(frozen=True, slots=True)
class Backing:
    fabric: str
    usable_width: Length
    direction: Direction
    span: Span = field(default=NOWHERE, compare=False)
    seams: Literal["auto", "lengthwise", "crosswise"] = "auto"
    centered: bool = False
    """Whether a panel lies in the middle, so that no seam runs there."""
    wide: Length | None = None
    """Width by which a wide backing cloth is sold."""


@dataclass(frozen=True, slots=True)
class ByBlock:
    """A quilt whose blocks have their own batting and backs before they are joined."""

    way: Literal["rag", "quilted"]
    """Sewn with seams out and clipped, or quilted one by one and joined with the backs closed by hand."""
    inset: Length
    """How far a rag quilt's batting ends inside its seams."""
    allowance: Length
    """How far batting and back reach beyond a block that is quilted by itself, on each side."""
    fabric: str
    """Of the backs."""
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Hanging:
    """Fabrics of the sleeve, the corners and the label, each or none of them."""

    sleeve: str
    corners: str
    label: str
    label_size: tuple[Length, Length]
    """Finished width and height."""
    span: Span = field(default=NOWHERE, compare=False)
