"""Plane geometry of the recount: whole numbers, or lengths where there are roots.

In: points and outlines.
Out: whether a point lies on a seam, where two groups of patches touch, products of vectors.
Never: anything of the planner of pressing, which has its own.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from patchwright.core.geometry import Point
from patchwright.core.length import ROOT_TWO, Length
from patchwright.planning.plan import TopItem

Number = Any
"""A whole number, or a length where there are roots."""
Pair = tuple[Number, Number]
Edges = tuple[Length, Length, Length, Length]
Slanted = tuple[TopItem, Edges]


@dataclass(frozen=True, slots=True)
class Frame:
    """Where a thing lies: its own axes, each a step right, left, up or down in the top, and its origin there."""

    right: tuple[int, int]
    down: tuple[int, int]
    origin: Pair

    def point(self, x: Number, y: Number) -> Pair:
        return (
            x * self.right[0] + y * self.down[0] + self.origin[0],
            x * self.right[1] + y * self.down[1] + self.origin[1],
        )

    def arrow(self, x: Number, y: Number) -> Pair:
        return x * self.right[0] + y * self.down[0], x * self.right[1] + y * self.down[1]

    def inner(self, x: Number, y: Number, width: Number, height: Number, turns: int) -> Frame:
        """The frame of a thing that lies in this one, `width` by `height` there, turned clockwise from its own."""
        corners = ((x, y), (x + width, y), (x + width, y + height), (x, y + height))
        axes = ((1, 0), (0, 1), (-1, 0), (0, -1))
        right, down = (self.arrow(*axes[(turns + more) % 4]) for more in (0, 1))
        return Frame(right, down, self.point(*corners[turns]))


def slanted(item: TopItem, x: Length, y: Length) -> Slanted:
    """A part with where it begins and ends along and across its diagonal row, from a point of the quilt."""
    along = [(corner.x - x - corner.y + y) * ROOT_TWO / 2 for corner in item.outline]
    aside = [(corner.x - x + corner.y - y) * ROOT_TWO / 2 for corner in item.outline]
    return item, (min(along), max(along), min(aside), max(aside))


def slanted_edges(items: Iterable[TopItem], base: Point) -> Edges:
    """How far left, right, upper and lower edge of the box around parts lie off a point, along the diagonals."""
    corners = [corner for item in items for corner in item.outline]
    xs, ys = [corner.x - base.x for corner in corners], [corner.y - base.y for corner in corners]
    return min(xs) * ROOT_TWO, max(xs) * ROOT_TWO, min(ys) * ROOT_TWO, max(ys) * ROOT_TWO


def between_edges(edges: Edges, aside: Length) -> tuple[Length, Length]:
    """Where a line along a diagonal row, so far aside, comes in at one edge of such a box and goes out at another."""
    left, right, upper, lower = edges
    return max(left - aside, aside - lower), min(right - aside, aside - upper)


def straightened(place: Pair, base: Point) -> Pair:
    """A place along and across the diagonal from a point of the quilt, in the quilt."""
    along, aside = place
    return base.x + (along + aside) * ROOT_TWO / 2, base.y + (aside - along) * ROOT_TWO / 2


def lies_on(spot: Pair, ends: tuple[Pair, Pair]) -> bool:
    """Whether a point lies on a segment: within its box, and in line with it where it runs askew."""
    (x, y), (other_x, other_y) = ends
    if not (min(x, other_x) <= spot[0] <= max(x, other_x) and min(y, other_y) <= spot[1] <= max(y, other_y)):
        return False
    return x == other_x or y == other_y or not cross(minus(ends[1], ends[0]), minus(spot, ends[0]))


def shared(outlines: list[list[Pair]], first: Iterable[int], second: Iterable[int]) -> list[Pair]:
    """The corners of the line along which two groups of patches touch, in order; more than its ends where it bends."""
    edges = [
        [(outlines[patch][at - 1], corner) for patch in group for at, corner in enumerate(outlines[patch])]
        for group in (first, second)
    ]
    common: set[Pair] = set()
    for start, finish in edges[0]:
        along = minus(finish, start)
        for other in edges[1]:
            if not any(cross(along, minus(end, start)) for end in other):
                low, high = sorted([start, finish]), sorted(other)
                if max(low[0], high[0]) < min(low[1], high[1]):
                    common |= {max(low[0], high[0]), min(low[1], high[1])}
    found = sorted(common)
    along = minus(found[-1], found[0])
    bends = any(cross(along, minus(corner, found[0])) for corner in found)
    return found if bends else [found[0], found[-1]]


def minus(first: Pair, second: Pair) -> Pair:
    return first[0] - second[0], first[1] - second[1]


def cross(first: Pair, second: Pair) -> Number:
    return first[0] * second[1] - first[1] * second[0]


def dot(first: Pair, second: Pair) -> Number:
    return first[0] * second[0] + first[1] * second[1]


def positive(number: Number) -> bool:
    return bool(number.sign() > 0) if isinstance(number, Length) else bool(number > 0)
