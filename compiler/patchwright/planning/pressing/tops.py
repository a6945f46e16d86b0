"""The sewing order of a top: rows of blocks and of sashing, diagonal rows, or columns and strips, then the borders.

In: one size of a plan.
Out: its parts in rows, and each border's parts by side.
Never: a direction of pressing.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from patchwright.core.geometry import Point
from patchwright.core.length import ROOT_TWO, Length
from patchwright.planning.plan import PlannedSize, TopItem

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


@dataclass(frozen=True, slots=True)
class TopBorder:
    """A border's parts, each strip from left to right or from top to bottom; corners belong to top and bottom."""

    id: str
    strips: tuple[tuple[TopItem, ...], tuple[TopItem, ...], tuple[TopItem, ...], tuple[TopItem, ...]]
    """Left, right, top, bottom; a border on two sides of the quilt lacks the others."""

    @property
    def is_mitered(self) -> bool:
        return any(item.outline for strip in self.strips for item in strip)


def top_rows(size: PlannedSize) -> tuple[TopRow, ...]:
    """The rows of the center, from top to bottom, or from the upper left corner to the lower right one.

    Of a strippy quilt the columns and strips, from left to right; a column on point stands as its blocks and triangles.
    """
    if size.setting == "strippy":
        return tuple(
            TopRow(tuple(sorted(items, key=lambda item: item.y)), is_column=True) for items in _columns(size).values()
        )
    if size.setting == "on-point":
        return tuple(_diagonal_rows(size, size.items))
    rows: dict[Length, list[TopItem]] = {}
    for item in size.items:
        if item.part in CENTER:
            rows.setdefault(item.y, []).append(item)
    return tuple(TopRow(tuple(sorted(rows[y], key=lambda item: item.x))) for y in sorted(rows))


def column_rows(size: PlannedSize) -> tuple[tuple[TopRow, ...], ...]:
    """The diagonal rows of each column of a strippy quilt on point; a strip is one row of one part."""
    return tuple(
        tuple(_diagonal_rows(size, items)) if any(item.on_point for item in items)
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


def line_of(row: TopRow, number: int) -> int:
    """The number under which the seams of a row are known: rows take turns, columns are all alike."""
    return 0 if row.is_column else number % 2


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
        made.append(TopBorder(border.id, (left, right, upper, lower)))
        top, bottom = min(item.y for item in items), max(item.y + item.height for item in items)
    return tuple(made)


def _across(items: Iterable[TopItem]) -> tuple[TopItem, ...]:
    return tuple(sorted(items, key=lambda item: item.x))
