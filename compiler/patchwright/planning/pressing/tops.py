"""The sewing order of a top: rows of blocks and of sashing, diagonal rows, or columns and strips, then the borders.

In: one size of a plan.
Out: its parts in rows, those of a top in quarters by quarter too, and each border's parts by side.
Never: a direction of pressing.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Literal

from patchwright.core.geometry import Point
from patchwright.core.length import ROOT_TWO, Length
from patchwright.planning.plan import PlannedSize, TopItem
from patchwright.planning.pressing.terms import Owner, Seam

Side = Literal["left", "right"]
SIDES: tuple[Side, Side] = ("left", "right")
_QUARTERS = Owner("top", "quarters")
HALF_SEAMS = Seam(_QUARTERS, "within", 0), Seam(_QUARTERS, "within", 1)
"""The seams that join two quarters to the upper half and to the lower one."""
MIDDLE_SEAM = Seam(_QUARTERS, "between", 0)
"""The seam that joins both halves."""
STRIPS = ("sashing", "cornerstones", "strips")
CENTER = ("block", "setting", "setting-triangles", *STRIPS)


@dataclass(frozen=True, slots=True)
class TopRow:
    """One row of the quilt's center; on point, a diagonal one from lower left to upper right."""

    items: tuple[TopItem, ...]
    side: Length | None = None
    """On point, how high it is: the side of its squares, or the width of its sashing."""
    left: Length | None = None
    """On point, how far along the diagonal it begins; None for a corner that is a row of its own."""
    lengths: tuple[Length, ...] = ()
    """On point, how long each part is along the row; triangles count as the squares that they are half of."""
    is_column: bool = False
    """Whether it is a column or a strip of a strippy quilt, from top to bottom; all columns are pressed alike."""
    number: int = 0
    """How many rows of its kind, of blocks or of sashing, come before it."""
    place: int = 0
    """How many rows come before it."""
    before: tuple[TopItem, ...] = ()
    """In a right quarter, the parts of its row in the left one; seams count on from them, the one between left out."""

    @property
    def is_corner(self) -> bool:
        return self.side is not None and self.left is None

    @property
    def is_chain(self) -> bool:
        """Whether it is a column of blocks on point, which is sewn in diagonal rows of its own."""
        return self.is_column and any(item.on_point for item in self.items)

    @property
    def is_strip(self) -> bool:
        """Whether it is a row of sashing, or a strip between columns."""
        return all(item.part in STRIPS for item in self.items)


def is_sashing(items: Iterable[TopItem]) -> bool:
    """Whether nothing but sashing and strips is among these parts."""
    return all(item.part in STRIPS for item in items)


def row_name(row: TopRow) -> str:
    """What a row is, as seams beside it name it."""
    return "sashing" if row.is_strip else "setting-triangles" if row.is_corner else "blocks"


def item_name(item: TopItem) -> str:
    """What a part of a row is, as seams beside it name it."""
    return item.ref if item.part == "block" else item.part


@dataclass(frozen=True, slots=True)
class TopBorder:
    """A border's parts, each strip from left to right or from top to bottom; corners belong to top and bottom."""

    id: str
    strips: tuple[tuple[TopItem, ...], tuple[TopItem, ...], tuple[TopItem, ...], tuple[TopItem, ...]]
    """Left, right, top, bottom; a border on two sides of the quilt lacks the others."""
    joined: tuple[str, ...] = ()
    """Of a mitered border, all that are mitered as one with it, itself among them."""

    @property
    def is_sewn_on_first(self) -> bool:
        """Whether its strips are sewn to those of another border before all are mitered."""
        return self.id in self.joined[1:]


def top_rows(size: PlannedSize) -> tuple[TopRow, ...]:
    """The rows of the center, from top to bottom, or from the upper left corner to the lower right one.

    Of a strippy quilt the columns and strips, from left to right; a column on point stands as its blocks and triangles.
    """
    if size.setting == "strippy":
        return _numbered(
            TopRow(tuple(sorted(items, key=lambda item: item.y)), is_column=True) for items in _columns(size).values()
        )
    if size.setting == "on-point":
        return _numbered(_diagonal_rows(size, size.items))
    rows: dict[Length, list[TopItem]] = {}
    for item in size.items:
        if item.part in CENTER:
            rows.setdefault(item.y, []).append(item)
    return _numbered(TopRow(tuple(sorted(rows[y], key=lambda item: item.x))) for y in sorted(rows))


def _numbered(rows: Iterable[TopRow]) -> tuple[TopRow, ...]:
    known: Counter[bool] = Counter()
    made = []
    for place, row in enumerate(rows):
        made.append(replace(row, number=known[row.is_strip], place=place))
        known[row.is_strip] += 1
    return tuple(made)


def quarter_rows(size: PlannedSize) -> tuple[tuple[tuple[TopRow, ...], ...], ...]:
    """The rows of each quarter, upper left and right, then lower left and right; nothing for a top in rows."""
    if size.quarters is None:
        return ()
    x, y = size.quarters.x.length, size.quarters.y.length
    rows = top_rows(size)
    halves = [row for row in rows if row.items[0].y < y], [row for row in rows if row.items[0].y >= y]
    return tuple(tuple(_side(half, x, right) for right in (False, True)) for half in halves)


def _side(rows: Sequence[TopRow], x: Length, right: bool) -> tuple[TopRow, ...]:
    made = []
    for row in rows:
        left = tuple(item for item in row.items if item.x < x)
        made.append(replace(row, items=row.items[len(left):], before=left) if right else replace(row, items=left))
    return tuple(made)


def sewn_rows(size: PlannedSize) -> tuple[TopRow, ...]:
    """The rows as they are sewn first: those of a top in quarters in two parts each, the left ones first."""
    quarters = quarter_rows(size)
    if not quarters:
        return top_rows(size)
    return tuple(row for side in (0, 1) for half in quarters for row in half[side])


def column_rows(size: PlannedSize) -> tuple[tuple[TopRow, ...], ...]:
    """The diagonal rows of each column of a strippy quilt on point; a strip is one row of one part."""
    return tuple(
        _numbered(_diagonal_rows(size, items)) if any(item.on_point for item in items)
        else (TopRow(tuple(items), is_column=True),)
        for items in _columns(size).values()
    )


def first_chain(size: PlannedSize) -> tuple[TopRow, ...]:
    """The diagonal rows of the first column of a strippy quilt on point; nothing for other settings."""
    return next((rows for rows in column_rows(size) if not rows[0].is_column), ())


def _columns(size: PlannedSize) -> dict[int, list[TopItem]]:
    """The parts of each column and strip, by number."""
    columns: dict[int, list[TopItem]] = {}
    for item in size.items:
        if item.column is not None:
            columns.setdefault(item.column, []).append(item)
    return {number: columns[number] for number in sorted(columns)}


def line_of(row: TopRow) -> int:
    """The number under which the seams of a row are known: rows take turns, columns are all alike."""
    return 0 if row.is_column else row.number % 2


def row_owner(row: TopRow) -> Owner:
    """Whose seams those within a row are; rows that join other kinds of parts, in other places, are other classes."""
    kind, parts = "strip" if row.is_strip else "block", [item.part for item in (*row.before, *row.items)]
    way = "-column" if row.is_column else "-on-point" if row.side is not None else ""
    first = next((part for part in parts if part != "setting-triangles"), "")
    if first == "cornerstones" or (kind == "block" and first in STRIPS):
        way += "-framed"
    elif kind == "block" and any(part in STRIPS for part in parts):
        way += "-sashed"
    return Owner("row", kind + way)


def row_seams(row: TopRow) -> tuple[Seam, ...]:
    """The seams within a row, in order."""
    owner, start = row_owner(row), len(row.before)
    return tuple(Seam(owner, "within", line_of(row), start + place) for place in range(len(row.items) - 1))


def joining_seams(rows: Sequence[TopRow], side: Side | None = None) -> tuple[Seam, ...]:
    """The seams between rows, in order: of a center, or of the quarters on one side of it."""
    owner = Owner("quarter", side) if side is not None else Owner("top", "top")
    if any(row.is_column for row in rows):
        owner = Owner("top", "columns")
    return tuple(Seam(owner, "between", between_rows(this, other), this.place) for this, other in pairwise(rows))


def between_rows(this: TopRow, other: TopRow) -> int:
    """Which kind of seam joins two rows, as `Seam.line` has it."""
    if this.is_corner or other.is_corner:
        return 3 if this.is_corner else 4
    return 2 if this.is_strip else 1 if other.is_strip else 0


def _diagonal_rows(size: PlannedSize, parts: Iterable[TopItem]) -> Iterator[TopRow]:
    rows: dict[int, list[TopItem]] = {}
    for item in parts:
        if item.row is not None:
            rows.setdefault(item.row, []).append(item)
    side = next(item.width for item in size.items if item.on_point) * ROOT_TWO / 2
    sash = size.sash_width.length if size.sash_width is not None else side
    for number in sorted(rows):
        items = tuple(sorted(rows[number], key=lambda item: item.x - item.y))
        high = sash if all(item.part in STRIPS for item in items) else side
        if len(items) == 1 and items[0].part not in STRIPS:
            yield TopRow(items, high)
            continue
        lengths = tuple(_long(item, high) for item in items)
        # A triangle at the lower left end is less than its square; what follows it says where it begins.
        left = _starts(items[1]) - lengths[0] if len(items) > 1 else _starts(items[0])
        yield TopRow(items, high, left, lengths)


def _long(item: TopItem, high: Length) -> Length:
    """How long a part is along its diagonal row; a triangle is half of a square as high as the row."""
    if item.part == "setting-triangles" or item.kind != "piece":
        return high
    places = [_along(corner) for corner in item.outline]
    return max(places) - min(places)


def _starts(item: TopItem) -> Length:
    return min(_along(corner) for corner in item.outline)


def _along(point: Point) -> Length:
    """How far along the diagonal, to the upper right, a point lies."""
    return (point.x - point.y) * ROOT_TWO / 2


def top_borders(size: PlannedSize) -> tuple[TopBorder, ...]:
    """The borders, from the inside out."""
    center = [item for item in size.items if item.part in CENTER]
    top, bottom = min(item.y for item in center), max(item.y + item.height for item in center)
    made = []
    for border in size.borders:
        items = [item for item in size.items if item.part == border.id]
        if not items:
            continue
        upper = _across(item for item in items if item.y + item.height <= top)
        lower = _across(item for item in items if item.y >= bottom)
        middle = [item for item in items if item not in upper and item not in lower]
        left_edge = min((item.x for item in middle), default=None)
        left = tuple(sorted((item for item in middle if item.x == left_edge), key=lambda item: item.y))
        right = tuple(sorted((item for item in middle if item.x != left_edge), key=lambda item: item.y))
        made.append(TopBorder(border.id, (left, right, upper, lower), border.joined))
        top, bottom = min(item.y for item in items), max(item.y + item.height for item in items)
    return tuple(made)


def _across(items: Iterable[TopItem]) -> tuple[TopItem, ...]:
    return tuple(sorted(items, key=lambda item: item.x))
