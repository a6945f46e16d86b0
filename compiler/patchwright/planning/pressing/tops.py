"""The sewing order of a top: rows of blocks and of sashing, then the borders from the inside out.

In: one size of a plan.
Out: its parts in rows, and each border's parts by side.
Never: a direction of pressing.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from patchwright.core.length import Length
from patchwright.planning.plan import PlannedSize, TopItem

STRIPS = ("sashing", "cornerstones")
CENTER = ("block", "setting", *STRIPS)


@dataclass(frozen=True, slots=True)
class TopRow:
    """One row of the quilt's center."""

    items: tuple[TopItem, ...]

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


def top_rows(size: PlannedSize) -> tuple[TopRow, ...]:
    """The rows of the center, from top to bottom."""
    rows: dict[Length, list[TopItem]] = {}
    for item in size.items:
        if item.part in CENTER:
            rows.setdefault(item.y, []).append(item)
    return tuple(TopRow(tuple(sorted(rows[y], key=lambda item: item.x))) for y in sorted(rows))


def top_borders(size: PlannedSize) -> tuple[TopBorder, ...]:
    """The borders, from the inside out."""
    center = [item for item in size.items if item.part in CENTER]
    top, bottom = min(item.y for item in center), max(item.y + item.height for item in center)
    made = []
    for border in size.borders:
        items = [item for item in size.items if item.part == border.id]
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
