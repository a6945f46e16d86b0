"""Design: a pattern with every name resolved, every default filled in and every size spelled out.

In: Declared and the house rules.
Out: frozen data that planning can trust: names exist, nesting ends, fabrics are lettered in order of use.
Never: a cut size, a count of pieces, or anything else that is worked out rather than written or implied.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from patchwright.core.geometry import Orientation
from patchwright.core.length import ZERO, Length
from patchwright.core.measure import System
from patchwright.core.source import NOWHERE, Span
from patchwright.design.design_cloth import Colorway as Colorway
from patchwright.design.design_cloth import ColorwayFabric as ColorwayFabric
from patchwright.design.design_cloth import Fabric as Fabric
from patchwright.design.design_cloth import Pack as Pack
from patchwright.design.design_cloth import PackKind as PackKind
from patchwright.design.design_cloth import Value as Value
from patchwright.design.design_finishing import Backing as Backing
from patchwright.design.design_finishing import Binding as Binding
from patchwright.design.design_finishing import BindingWay as BindingWay
from patchwright.design.design_finishing import ByBlock as ByBlock
from patchwright.design.design_finishing import Direction as Direction
from patchwright.design.design_finishing import GrainChoice as GrainChoice
from patchwright.design.design_finishing import Hanging as Hanging
from patchwright.design.rules import Rules


@dataclass(frozen=True, slots=True)
class Extent:
    """A finished length: so many cells plus a fixed part."""

    cells: Fraction = Fraction(0)
    fixed: Length = ZERO

    def __add__(self, other: Extent) -> Extent:
        return Extent(self.cells + other.cells, self.fixed + other.fixed)

    def at(self, cell: Length) -> Length:
        """The finished length where a cell has this finished side."""
        return cell * self.cells + self.fixed


@dataclass(frozen=True, slots=True)
class Unit:
    """A piecing unit as written: its method, fabrics by role, and its size at @0."""

    id: str
    method: str
    fabrics: tuple[tuple[str, str], ...]
    width: Extent
    height: Extent
    words: tuple[tuple[str, str], ...]
    extents: tuple[tuple[str, Extent], ...]
    strip_piece: Literal["auto", "yes", "no"]
    named: bool
    """False for a half-square written in a row as `red/cream`, and for a row of patches that is strip-pieced."""
    row_of: tuple[str, int] = ("", 0)
    """The block, and the number of its row or column from 1, where it is a row of patches."""
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Item:
    """One thing in a row or column: a fabric's patch, a unit or a block, with its size before turning."""

    kind: Literal["fabric", "unit", "block"]
    ref: str
    width: Extent
    height: Extent
    orientation: Orientation
    scaled: bool
    """Whether a size in cells was written, to which a nested block is scaled."""
    span: Span = field(default=NOWHERE, compare=False)

    @property
    def across(self) -> Extent:
        """Its width as it lies."""
        return self.height if self.orientation.sideways else self.width

    @property
    def down(self) -> Extent:
        """Its height as it lies."""
        return self.width if self.orientation.sideways else self.height


@dataclass(frozen=True, slots=True)
class Block:
    id: str
    axis: Literal["rows", "columns"]
    lines: tuple[tuple[Item, ...], ...]
    width: Extent
    height: Extent
    strip_piece: Literal["auto", "yes", "no"]
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Placement:
    """A block (or plain patch of a fabric) in the quilt's grid."""

    kind: Literal["block", "fabric", "unit"]
    ref: str
    orientation: Orientation
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Sashing:
    """Strips between blocks; widths finished."""

    width: Length
    """Between columns; 0 where they are blocks, whose size it follows from."""
    fabric: str
    """Nothing where the strips are blocks."""
    cornerstone: str
    """Fabric or block of the cornerstones, or nothing."""
    frame: bool
    cut: GrainChoice = "auto"
    span: Span = field(default=NOWHERE, compare=False)
    height: Length = ZERO
    """Between rows."""
    between: Literal["both", "rows"] = "both"
    """Sashing only between columns is a strippy setting."""
    block: Placement | None = None
    """The block that is a strip between two columns, and turned between rows."""
    cornerstone_block: Placement | None = None


@dataclass(frozen=True, slots=True)
class BlockCoping:
    """Strips around smaller blocks that bring all blocks to one size."""

    fabric: str
    least: Length
    """The least finished width of a strip."""
    target: tuple[Length, Length] | None
    """The finished size that all blocks are brought to; None for that of the widest and of the highest block."""
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Spacers:
    """Rectangles in the rows of a pieced border that bring whole repeats to the length of a side."""

    fabric: str
    at: Literal["ends", "middle"]
    least: Length
    """The least finished length."""
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Pieced:
    """What a pieced border repeats along each side, and the least width of the coping that makes it fit."""

    repeat: tuple[Placement, ...]
    corner: Placement
    mirrored: bool
    """Whether the second half of each side mirrors the first."""
    least_coping: Length | None
    """Finished; None where there is no coping."""
    most_coping: Length | None = None
    """Finished; None where coping may be as wide as it takes."""
    middle: Placement | None = None
    """What lies in the middle of each side, with repeats to both sides of it that mirror each other."""
    spacers: Spacers | None = None


@dataclass(frozen=True, slots=True)
class Border:
    """One border, from the inside out; width finished."""

    width: Length
    """0 for coping and for pieced borders of blocks, whose width follows from what they must fit."""
    fabric: str
    """Nothing for a pieced border."""
    cut: GrainChoice
    corner: str
    """Fabric or block of its four corners, or nothing where it is butted."""
    corner_kind: Literal["none", "fabric", "block", "mitered"]
    kind: Literal["plain", "coping", "pieced"] = "plain"
    """Coping stands as a border of its own before the pieced border that it serves."""
    pieced: Pieced | None = None
    """Of a pieced border, and of its coping."""
    sides: bool = True
    """Whether it runs along the two sides; of coping, whether the border that it serves does."""
    ends: bool = True
    """Whether it runs along top and bottom."""
    corner_lay: Orientation | None = None
    """How a corner block lies in the upper left, from where it is turned clockwise; None where all lie upright."""
    limits: tuple[Length, Length] | None = None
    """The least and the most width where that is left to the fit on a bed; None where it is written."""
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class OnPoint:
    """A setting on point: what lies between the blocks and along the edges."""

    between: tuple[tuple[Placement, ...], ...]
    """`down` - 1 rows of `across` - 1 placements, each between four blocks."""
    fabric: str
    """Fabric of the setting triangles."""
    float: Length
    """Finished distance from the points of the blocks to the edge; 0 for an exact setting.

    Where the center is trimmed to a size, it follows from the blocks in planning.
    """
    trim_to: tuple[Length, Length] | None = None
    """Finished size to which the center is trimmed; None where the float is given."""
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Strips:
    """The long strips between the columns of a strippy quilt, and those beside the outermost columns; finished."""

    width: Length
    fabric: str
    cut: GrainChoice
    edge_width: Length | None
    """None where the outermost columns have no strips beside them."""
    edge_fabric: str
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Symmetry:
    """What an arrangement repeats, kept where the author asks that layouts are symmetric."""

    blocks: tuple[tuple[Placement, ...], ...]
    """The rows of blocks before they repeat."""
    between: tuple[tuple[Placement, ...], ...] = ()
    """On point, the rows between them."""
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Fit:
    """The bed that a size is made for, how far the quilt hangs down there, and what is left open for it."""

    bed: str
    mattress: tuple[Length, Length]
    drop: Length
    """At each side."""
    foot: Length
    """The drop at the foot."""
    tuck: Length
    """More length at the head."""
    within: Length
    """How far width and length may be off."""
    border_share: Fraction
    """By which part of their width proposals may narrow or widen borders."""
    open_across: bool
    open_down: bool
    blocks: tuple[tuple[Placement, ...], ...]
    """The rows of blocks before they repeat."""
    between: tuple[tuple[Placement, ...], ...]
    """On point, the rows of what lies between them."""
    span: Span = field(default=NOWHERE, compare=False)

    @property
    def target(self) -> tuple[Length, Length]:
        """Finished width and length that cover the mattress and hang down as asked."""
        width, length = self.mattress
        return width + self.drop * 2, length + self.foot + self.tuck


@dataclass(frozen=True, slots=True)
class Assemble:
    """What the author has the blocks of a top sewn into first."""

    way: Literal["rows", "quarters"]
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Size:
    """One size of the quilt, with everything that it overrides already applied."""

    name: str
    label: str
    across: int
    down: int
    grid: tuple[tuple[Placement, ...], ...]
    """`down` rows of `across` placements."""
    cells: tuple[tuple[str, Length], ...]
    """(block, finished side of its cell) of every block that has one."""
    sashing: Sashing | None
    borders: tuple[Border, ...]
    binding: Binding | None
    backing: Backing | None
    infant: bool
    """Whether its name says that it is for a crib or a baby."""
    on_point: OnPoint | None = None
    """None for blocks that lie straight; on point, `grid` holds the blocks whose points lie along the edges.

    In a strippy quilt it says what sets each column of blocks on point.
    """
    hanging: Hanging | None = None
    by_block: ByBlock | None = None
    """None for a quilt whose top is sewn whole and then layered."""
    symmetry: Symmetry | None = None
    """None where nobody asked for a symmetric layout."""
    coping: BlockCoping | None = None
    """None where all blocks must fit as they are."""
    strips: Strips | None = None
    """None but for a strippy quilt, whose `grid` is read column by column."""
    medallion: bool = False
    """Whether the grid is a center, straight or on point, and the borders are the rounds about it."""
    fit: Fit | None = None
    """None where the size is made for no bed; else planning decides what it leaves open in the grid and borders."""
    assemble: Assemble | None = None
    """None where it is left to the count of long seams."""
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Prose:
    """The author's Markdown with the span of its text."""

    text: str
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Design:
    id: str
    """From the file's name: `rope-walk`."""
    title: str
    release: int
    summary: str
    skill: str
    system: System
    rules: Rules
    packs: tuple[Pack, ...]
    fabrics: tuple[Fabric, ...]
    units: tuple[Unit, ...]
    blocks: tuple[Block, ...]
    sizes: tuple[Size, ...]
    introduction: Prose | None
    steps: tuple[tuple[str, Prose], ...]
    finishing: Prose | None
    about: Prose | None
    colorways: tuple[Colorway, ...] = ()
    """The pattern's own colors and all others; nothing where it has no others."""
    colorway: str = ""
    """The id of the one that is designed here."""
    span: Span = field(default=NOWHERE, compare=False)
