"""The sewing order of a top: rows of blocks and of sashing, or diagonal rows, then the borders from the inside out.

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

STRIPS = ("sashing", "cornerstones")
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

    @property
    def is_corner(self) -> bool:
        return self.side is not None and self.left is None

    @property
    def is_strip(self) -> bool:
        """Whether it is a row of sashing."""
        return all(item.part in STRIPS for item in self.items)


@dataclass(frozen=True, slots=True)
class TopBorder:
    """A border's parts, each strip from left to right or from top to bottom; corners belong to top and bottom."""

    id: str
    strips: tuple[tuple[TopItem, ...], tuple[TopItem, ...], tuple[TopItem, ...], tuple[TopItem, ...]]
    """Left, right, top, bottom."""

    @property
    def is_mitered(self) -> bool:
        return any(item.outline for strip in self.strips for item in strip)


def top_rows(size: PlannedSize) -> tuple[TopRow, ...]:
    """The rows of the center, from top to bottom, or from the upper left corner to the lower right one."""
    if size.setting == "on-point":
        return tuple(_diagonal_rows(size))
    rows: dict[Length, list[TopItem]] = {}
    for item in size.items:
        if item.part in CENTER:
            rows.setdefault(item.y, []).append(item)
    return tuple(TopRow(tuple(sorted(rows[y], key=lambda item: item.x))) for y in sorted(rows))


def between_rows(this: TopRow, other: TopRow) -> int:
    """Which kind of seam joins two rows, as `Seam.line` has it."""
    if this.is_corner or other.is_corner:
        return 3 if this.is_corner else 4
    return 2 if this.is_strip else 1 if other.is_strip else 0


def _diagonal_rows(size: PlannedSize) -> Iterator[TopRow]:
    rows: dict[int, list[TopItem]] = {}
    for item in size.items:
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
        left_edge = min(item.x for item in middle)
        left = tuple(sorted((item for item in middle if item.x == left_edge), key=lambda item: item.y))
        right = tuple(sorted((item for item in middle if item.x != left_edge), key=lambda item: item.y))
        made.append(TopBorder(border.id, (left, right, upper, lower)))
        top, bottom = min(item.y for item in items), max(item.y + item.height for item in items)
    return tuple(made)


def _across(items: Iterable[TopItem]) -> tuple[TopItem, ...]:
    return tuple(sorted(items, key=lambda item: item.x))
