"""The Plan: everything that is worked out for a pattern, over all its sizes at once.

Every unit, piece and assembly stands once, with an id that does not depend on the size; what differs by size is a
tuple in the order of `Plan.sizes`, with None where a size lacks the thing.
Never: a float, a rounded patch, a sentence of a booklet.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from patchwright.core.geometry import Orientation, Polygon
from patchwright.core.length import Cut, Finished, Length, Unfinished
from patchwright.core.measure import System
from patchwright.core.source import NOWHERE, Span
from patchwright.design.design import Colorway, Prose
from patchwright.design.rules import Rules
from patchwright.methods.method import Recipe, Request, Then
from patchwright.methods.template import Template
from patchwright.planning.plan_beds import PlannedFit as PlannedFit
from patchwright.planning.plan_cloth import (
    Alternative,
    Buy,
    FabricSize,
    FabricSource,
    LeftOver,
    PackSize,
    PerSize,
    PlannedFabric,
    PlannedPack,
    Precuts,
    PrintShare,
    SheetCut,
    Strip,
    StripSegment,
    Yield,
)
from patchwright.planning.plan_finishing import (
    BattingRoll,
    Elsewhere,
    LayeredBlocks,
    PlannedBacking,
    PlannedBatting,
    PlannedBinding,
    PlannedByBlock,
    PlannedHanging,
)
from patchwright.planning.pressing.results import PressingPlan

__all__ = [
    "Alternative",
    "Assembly",
    "AssemblySize",
    "BattingRoll",
    "Buy",
    "Elsewhere",
    "FabricSize",
    "FabricSource",
    "LayeredBlocks",
    "LeftOver",
    "PackSize",
    "PerSize",
    "Piece",
    "PieceSize",
    "Placed",
    "PlacedKind",
    "Plan",
    "PlannedBacking",
    "PlannedBatting",
    "PlannedBinding",
    "PlannedBorder",
    "PlannedByBlock",
    "PlannedFabric",
    "PlannedHanging",
    "PlannedPack",
    "PlannedSize",
    "PlannedStrips",
    "PlannedTemplate",
    "PlannedUnit",
    "Precuts",
    "PrintShare",
    "SheetCut",
    "Strip",
    "StripChoice",
    "StripSegment",
    "TopItem",
    "UnitPiece",
    "UnitSize",
    "Yield",
]

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
    kind: Literal["patch", "unit", "sashing", "cornerstone", "strip", "border", "binding", "hanging", "back"]
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
    lent: int = 0
    """Units of these batches that are sewn as the other hand; below zero where the other hand's batches give them."""


@dataclass(frozen=True, slots=True)
class StripChoice:
    """Why a unit is strip-pieced or not: what both ways take in one size."""

    asked: Literal["auto", "yes", "no"]
    strips: bool
    """What was chosen, over all sizes."""
    seams: tuple[int, int]
    """To sew from single pieces, and from strips."""
    cloth: tuple[Length, Length]
    """Length of all cloths together, each cut in strips of its own, for single pieces and for strips."""


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
    row_of: tuple[str, int] = ("", 0)
    """The block, and the number of its row or column, that it is; nothing for units of the author's own."""
    choices: PerSize[StripChoice] = ()
    """Where it could be strip-pieced, what was weighed in every size."""
    second_of: str = ""
    """The unit that this one is, pressed the second of two ways; nothing for all others."""
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
    coped: bool = False
    """Whether it is a block with coping around it; the block inside is an assembly of its own."""
    second_of: str = ""
    """The assembly that this one is, pressed the second of two ways; nothing for all others."""
    span: Span = field(default=NOWHERE, compare=False)


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
    column: int | None = None
    """In a strippy quilt, the number of its column from 1 at the left, strips counted too; its rows count anew."""


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
    spacers: tuple[str, ...] = ()
    """Pieces that bring the rows of a pieced border to their length, in the order of their numbers."""
    spacers_at: Literal["", "ends", "middle", "beside-middle"] = ""
    sides: bool = True
    """Whether it runs along the two sides; `width` is nothing where it does not."""
    ends: bool = True
    """Whether it runs along top and bottom."""
    corners_turned: bool = False
    """Whether each corner block is turned further than the one before it."""
    joined: tuple[str, ...] = ()
    """Ids of the mitered borders that are sewn together and mitered as one, this one among them."""

    @property
    def high(self) -> Finished:
        """The width at top and bottom."""
        return self.end_width if self.end_width is not None else self.width

    @property
    def wide(self) -> Finished:
        """The width where it runs: at the sides, or else at top and bottom."""
        return self.width if self.sides else self.high


@dataclass(frozen=True, slots=True)
class PlannedStrips:
    """The strips of a strippy quilt that are cut alike."""

    place: Literal["inner", "edge"]
    """Between the columns, or beside the outermost ones; those there that are like the others count as inner."""
    piece: str
    width: Finished
    count: int
    cut: Literal["crosswise", "lengthwise"]


@dataclass(frozen=True, slots=True)
class PlannedQuarters:
    """Where a center that is sewn in quarters is divided, finished, from the left and the upper edge of the top."""

    x: Finished
    y: Finished


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
    """Between columns; 0 where sashing lies only between rows."""
    sash_frame: bool
    cornerstones: bool
    borders: tuple[PlannedBorder, ...]
    binding: PlannedBinding | None
    backing: PlannedBacking | None
    batting: tuple[Length, Length]
    batting_bought: PlannedBatting
    infant: bool
    hanging: tuple[PlannedHanging, ...] = ()
    by_block: PlannedByBlock | None = None
    """None for a top that is sewn whole; else `batting` is that of the largest block."""
    setting: Literal["straight", "on-point", "strippy"] = "straight"
    float: Finished | None = None
    """On point, how far the edges of the center lie beyond the points of the blocks, 0 for an exact setting.

    In a strippy quilt those of each column; None where its blocks lie straight.
    """
    sash_height: Finished | None = None
    """Between rows, the same as between columns in most quilts."""
    medallion: bool = False
    """Whether the center is that of a medallion, whose borders are its rounds."""
    strips: tuple[PlannedStrips, ...] = ()
    """In a strippy quilt, the strips between the columns and those at both edges, whichever it has."""
    fit: PlannedFit | None = None
    """None for a size that is made for no bed."""
    quarters: PlannedQuarters | None = None
    """None for a center that is sewn in rows, columns or one block."""


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
    colorways: tuple[Colorway, ...] = ()
    """The pattern's own colors and all others; nothing where it has no others."""
    colorway: str = ""
    """The id of the one that is planned here."""
    elsewhere: Elsewhere | None = None
    """What to ask for in the other system of measure, where the house tells it."""
    apart: tuple[str, ...] = ()
    """Names of units and blocks that are made apart though another is the same thing turned: the text is about both."""
    pressing: PressingPlan | None = None
    """Which way every seam lies; nothing in a plan that was made quickly, to be checked and not to be sewn."""
