"""The part of the Plan that says how cloth is cut and what to buy: strips, precuts, fabrics, packs.

Lengths lie on the cloth: width across it, height along it.
Never: a float, or a count that comes from area.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal, TypeVar

from patchwright.core.length import Length
from patchwright.core.source import NOWHERE, Span
from patchwright.design.design import Direction, PackKind, Value

T = TypeVar("T")
PerSize = tuple[T | None, ...]
"""A value for each size of the plan, in order; None where a size lacks the thing."""


@dataclass(frozen=True, slots=True)
class Yield:
    """What one strip (or precut) gives of one piece; width and height as laid on the cloth."""

    piece: str
    each: int
    width: Length
    height: Length
    turned: bool
    stack: int = 1
    """Rows high; `each` counts all of them."""


@dataclass(frozen=True, slots=True)
class StripSegment:
    """A part of a strip that is joined with others into a long piece."""

    piece: str
    length: Length


@dataclass(frozen=True, slots=True)
class Strip:
    """Strips alike: cut across the width of fabric, then sub-cut."""

    height: Length
    count: int
    yields: tuple[Yield, ...]
    segments: tuple[StripSegment, ...]
    used: Length
    """Width that is used."""


@dataclass(frozen=True, slots=True)
class Buy:
    """A quantity to buy: yards, meters, packs or single precuts."""

    amount: Fraction
    unit: Literal["yd", "m", "pack", "piece"]


@dataclass(frozen=True, slots=True)
class SheetCut:
    """Precut pieces of cloth cut alike: how many of them, and what each gives."""

    count: int
    yields: tuple[Yield, ...]
    places: tuple[tuple[str, Length, Length, Length, Length], ...] = ()
    """(piece, x, y, width, height) of every piece on the cloth, where a layout was worked out."""
    number: int = 0
    """The number by which prints name the layout, where the pack's patches share prints; else 0."""


@dataclass(frozen=True, slots=True)
class Precuts:
    """A fabric's part of a pack: the sheets that give pieces of it, packs needed, sheets left over in those packs.

    A sheet that serves several fabrics stands with each of them.
    """

    used: int
    packs: int
    left: int
    sheets: tuple[SheetCut, ...]


@dataclass(frozen=True, slots=True)
class FabricSize:
    """One fabric's cutting in one size."""

    strips: tuple[Strip, ...]
    length: Length
    """Net length of cloth that the strips take; 0 where it is cut from precuts."""
    extra: tuple[tuple[str, Length], ...]
    """Lengths that are not cut in strips: ("backing", …), ("matching", …)."""
    buy: Buy | None
    smallest_width: Length | None
    precuts: Precuts | None
    proof: str
    """`proven`, `proven by solver`, `gap` or `plain`."""
    bound: Length
    """No plan needs less length than this, as far as is known."""


@dataclass(frozen=True, slots=True)
class FabricSource:
    kind: Literal["yardage", "pack", "fat-quarters", "fat-eighths", "strips", "squares"]
    pack: str
    size: tuple[Length, Length]
    """Usable width and, for precuts, length (0 for yardage)."""


@dataclass(frozen=True, slots=True)
class Alternative:
    """Another source of a fabric, worked out for itself: what to buy and how to cut it then."""

    source: FabricSource
    pack_size: tuple[Length, Length]
    """True size of the precuts; 0 for yardage."""
    pack_count: int
    sizes: PerSize[FabricSize]


@dataclass(frozen=True, slots=True)
class PlannedFabric:
    id: str
    letter: str
    name: str
    colors: tuple[str, ...]
    value: Value
    hatch: int
    direction: Direction
    source: FabricSource
    purpose: str
    """The author's words, or nothing."""
    uses: tuple[str, ...]
    """What it is for, in order: `blocks`, `sashing`, `cornerstones`, `border-1`, `binding`, `backing`."""
    sizes: PerSize[FabricSize]
    alternatives: tuple[Alternative, ...] = ()
    repeat: tuple[Length, Length] | None = None
    """Repeat across and along the bolt by which pieces are cut, each in whole repeats; of stripes the height is 0."""
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class LeftOver:
    """Rectangles of cloth left over from precuts that were cut into, so many of this size."""

    width: Length
    height: Length
    count: int


@dataclass(frozen=True, slots=True)
class PrintShare:
    """What one print of a pack serves: places in the quilt by name (`lantern 3`), and loose pieces."""

    number: int
    pile: str
    places: tuple[str, ...]
    loose: tuple[tuple[str, int], ...]
    layouts: tuple[int, ...] = ()
    """The number of the layout by which each of its precuts is cut."""


@dataclass(frozen=True, slots=True)
class PackSize:
    """A pack in one size, for all fabrics that share it."""

    sheets: tuple[SheetCut, ...]
    used: int
    packs: int
    """Packs to buy; single precuts where it is no bundle."""
    left: int
    """Precuts left whole."""
    scraps: tuple[LeftOver, ...]
    """What is left of those cut into, in rectangles."""
    shares: tuple[PrintShare, ...]
    """Print by print, where patches share prints."""
    needed: int
    bound: int
    proof: str


@dataclass(frozen=True, slots=True)
class PlannedPack:
    id: str
    kind: PackKind
    width: Length
    height: Length
    count: int
    single: bool
    fabrics: tuple[str, ...]
    sizes: PerSize[PackSize]
