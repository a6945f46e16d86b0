"""The Plan: everything that is worked out for a pattern, over all its sizes at once.

Every unit, piece and assembly stands once, with an id that does not depend on the size; what differs by size is a
tuple in the order of `Plan.sizes`, with None where a size lacks the thing.
Never: a float, a rounded patch, a sentence of a booklet.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal, TypeVar

from patchwright.core.geometry import Orientation, Polygon
from patchwright.core.length import Cut, Finished, Length, Unfinished
from patchwright.core.measure import System
from patchwright.core.source import NOWHERE, Span
from patchwright.design.design import Direction, PackKind, Prose, Value
from patchwright.design.rules import Rules
from patchwright.methods.method import Recipe, Request, Then
from patchwright.methods.template import Template

T = TypeVar("T")
PerSize = tuple[T | None, ...]
PlacedKind = Literal["piece", "unit", "assembly"]


@dataclass(frozen=True, slots=True)
class PieceSize:
    """A piece in one size. Cut sizes: width along the strip, height of the strip, before any turning."""

    width: Cut
    height: Cut
    need: int
    made: int
    joins: int
    """Joins in the strip that it is cut from; 0 for a piece cut in one."""
    template: str = ""
    """The id of the template by which it is cut to shape from this rectangle, or nothing."""

    @property
    def spare(self) -> int:
        return self.made - self.need


@dataclass(frozen=True, slots=True)
class PlannedTemplate:
    """A true shape to trace; pieces of several fabrics and sizes may share it."""

    id: str
    """`T1`, `T2` … in the order of the pieces."""
    shape: Template


@dataclass(frozen=True, slots=True)
class Piece:
    """Cloth of one fabric cut to one size: A1, A2 … in every size."""

    id: str
    fabric: str
    then: Then
    kind: Literal["patch", "unit", "sashing", "cornerstone", "border", "binding"]
    uses: tuple[str, ...]
    """Ids of the units, assemblies and parts of the quilt that it is for: `turn`, `coil`, `sashing`, `border-1`."""
    upright: bool
    """Whether it may not be turned on the cloth, since the print is one-way."""
    sizes: PerSize[PieceSize]
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class UnitSize:
    finished: tuple[Finished, Finished]
    unfinished: tuple[Unfinished, Unfinished]
    need: int
    batches: int
    made: int
    request: Request
    recipe: Recipe


@dataclass(frozen=True, slots=True)
class UnitPiece:
    """Which cut piece serves as which piece of the unit's recipe."""

    recipe_piece: str
    piece: str
    per_batch: int


@dataclass(frozen=True, slots=True)
class PlannedUnit:
    """A unit to make, at @0 (mirrored where `hand` is reversed)."""

    id: str
    name: str
    """The author's name for it, or nothing for a half-square written in a row."""
    method: str
    how: str
    fabrics: tuple[tuple[str, str], ...]
    """(role, fabric id)."""
    hand: Literal["as-drawn", "reversed"]
    turn: int
    """Quarter turns by which it lies in the quilt, where a one-way print makes that matter; else 0."""
    pieces: tuple[UnitPiece, ...]
    sizes: PerSize[UnitSize]
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Placed:
    """One part of an assembly, as it lies there, from its own @0 by turning clockwise (never mirroring)."""

    kind: PlacedKind
    ref: str
    orientation: Orientation
    sizes: PerSize[tuple[Finished, Finished]]
    """Its finished width and height as it lies."""


@dataclass(frozen=True, slots=True)
class AssemblySize:
    count: int
    finished: tuple[Finished, Finished]
    unfinished: tuple[Unfinished, Unfinished]


@dataclass(frozen=True, slots=True)
class Assembly:
    """A block, or a block within a block: parts sewn in rows (or columns), then the rows together."""

    id: str
    block: str
    """The author's name of it."""
    axis: Literal["rows", "columns"]
    hand: Literal["as-drawn", "reversed"]
    turn: int
    nested: bool
    """Whether it is only ever a part of other assemblies."""
    lines: tuple[tuple[Placed, ...], ...]
    sizes: PerSize[AssemblySize]
    span: Span = field(default=NOWHERE, compare=False)


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
    """Lengths that are not cut in strips: ("backing", …)."""
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


@dataclass(frozen=True, slots=True)
class TopItem:
    """One part of the top at its place, lengths finished, from the upper left corner of the whole top."""

    kind: PlacedKind
    ref: str
    part: str
    """What it is: `block`, `setting`, `setting-triangles`, `sashing`, `cornerstones`, `border-1` …"""
    orientation: Orientation
    x: Length
    y: Length
    width: Length
    height: Length
    outline: Polygon = ()
    """Its corners in the top, clockwise, where it is no upright rectangle; the lengths above are the box around it."""
    on_point: bool = False
    """Whether it lies turned by a further eighth, counterclockwise: its upper left corner points left."""
    row: int | None = None
    """On point, its diagonal row, from 1 at the upper left, each from lower left to upper right.

    The corners that end no row have the numbers before the first and after the last.
    """


@dataclass(frozen=True, slots=True)
class PlannedBorder:
    """A border: two sides first, then top and bottom; lengths finished and cut."""

    id: str
    """`border-1`, from the inside out."""
    fabric: str
    """Nothing for a pieced border."""
    width: Finished
    """At the sides, and at top and bottom too unless `end_width` differs, which only coping's does."""
    cut: Literal["crosswise", "lengthwise"]
    side_piece: str
    """Nothing for a pieced border."""
    end_piece: str
    corner: str
    """Piece or assembly of the four corners, or nothing where the border is butted or mitered."""
    corner_kind: Literal["none", "piece", "assembly", "mitered"]
    before: tuple[Unfinished, Unfinished]
    after: tuple[Unfinished, Unfinished]
    end_width: Finished | None = None
    kind: Literal["plain", "coping", "pieced"] = "plain"
    side_units: tuple[tuple[str, int], ...] = ()
    """(piece or assembly, count) of each side of a pieced border, without corners."""
    end_units: tuple[tuple[str, int], ...] = ()
    joined: tuple[str, ...] = ()
    """Ids of the mitered borders that are sewn together and mitered as one, this one among them."""

    @property
    def high(self) -> Finished:
        """The width at top and bottom."""
        return self.end_width if self.end_width is not None else self.width


@dataclass(frozen=True, slots=True)
class PlannedBinding:
    fabric: str
    piece: str
    strip: Cut
    strips: int
    joins: int
    length: Length
    """Length needed: around the quilt and the house's extra."""
    made: Length
    """Length that the joined strips give."""
    buy: Buy | None
    """Where it is a cloth of its own."""


@dataclass(frozen=True, slots=True)
class PlannedBacking:
    fabric: str
    size: tuple[Length, Length]
    seams: Literal["none", "lengthwise", "crosswise"]
    """Which way the seams run on the bolt: lengthwise seams join panels as long as the quilt."""
    panels: tuple[tuple[Length, Length], ...]
    """Width and height of each as cut and laid, left to right or top to bottom."""
    length: Length
    buy: Buy | None
    """Where it is a cloth of its own."""
    usable_width: Length
    """Width of the backing cloth that the panels are cut from."""


@dataclass(frozen=True, slots=True)
class PlannedSize:
    """One size of the quilt: the finished drawing of its top, and its finishing."""

    name: str
    label: str
    across: int
    down: int
    finished: tuple[Finished, Finished]
    unfinished: tuple[Unfinished, Unfinished]
    center: tuple[Unfinished, Unfinished]
    """The quilt's center before borders."""
    columns: tuple[Finished, ...]
    """Finished widths of the grid's columns."""
    rows: tuple[Finished, ...]
    items: tuple[TopItem, ...]
    """Blocks row by row, then sashing and cornerstones, then borders."""
    sash_width: Finished | None
    sash_frame: bool
    cornerstones: bool
    borders: tuple[PlannedBorder, ...]
    binding: PlannedBinding | None
    backing: PlannedBacking | None
    batting: tuple[Length, Length]
    infant: bool
    setting: Literal["straight", "on-point"] = "straight"
    float: Finished | None = None
    """On point, how far the edges of the center lie beyond the points of the blocks, 0 for an exact setting."""


@dataclass(frozen=True, slots=True)
class Plan:
    id: str
    title: str
    release: int
    summary: str
    skill: str
    system: System
    rules: Rules
    packs: tuple[PlannedPack, ...]
    fabrics: tuple[PlannedFabric, ...]
    pieces: tuple[Piece, ...]
    units: tuple[PlannedUnit, ...]
    assemblies: tuple[Assembly, ...]
    """Inner ones first: the order of sewing."""
    sizes: tuple[PlannedSize, ...]
    introduction: Prose | None
    notes: tuple[tuple[str, Prose], ...]
    """(unit or block name, the author's note)."""
    finishing: Prose | None
    about: Prose | None
    templates: tuple[PlannedTemplate, ...] = ()
