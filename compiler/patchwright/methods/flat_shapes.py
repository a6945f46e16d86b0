"""Polygons with straight sides, as patches of one unit: what shows of each once sewn, and where a seam divides them.

In: finished polygons, their corners clockwise, and the seam.
Out: outlines with their raw edges; the parts that straight seams join, innermost first.
Never: a float. Corners that are no sum of roots are worked out finely and given to the nearest billionth of the unit.
Where points lie of each other is told from whole numbers, which is many times faster than from fractions.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from math import isqrt

from patchwright.core.geometry import Point, Polygon
from patchwright.core.length import Length
from patchwright.methods.template import Spot, coarse, cut_corner, direction, fine_spot, outward

_GRID = 10**12
"""Parts of the unit in which it is told where points lie of each other."""
_NEAR = 1000
"""Lengths below this many parts, a billionth of the unit, are nothing."""
Box = tuple[Length, Length, Length, Length]
Group = tuple[int, ...]
"""Numbers of patches."""
Place = tuple[int, int]
"""A point in whole parts of the unit."""


@dataclass(frozen=True, slots=True)
class Join:
    """Two parts of a unit that one straight seam joins, and how many seams lie outside it."""

    first: Group
    second: Group
    depth: int

    @property
    def whole(self) -> Group:
        return tuple(sorted(self.first + self.second))


@lru_cache(maxsize=512)
def raw_outlines(
    polygons: tuple[Polygon, ...], group: Group, seam: Length, box: Box | None = None
) -> tuple[Polygon, ...]:
    """What shows of the patches of a sewn group: one seam more along edges that no other patch of it touches.

    With a `box` (left, top, right, bottom) all is trimmed to it.
    """
    spots, places = _laid(polygons)
    made = []
    for number in group:
        others = [places[other] for other in group if other != number]
        corners = _raw(spots[number], _free_sides(places[number], others), fine_spot(Point(seam, seam))[0])
        if box is not None:
            corners = _trimmed(corners, box)
        made.append(tuple(Point(coarse(x), coarse(y)) for x, y in corners))
    return tuple(made)


@lru_cache(maxsize=512)
def joins(polygons: tuple[Polygon, ...]) -> tuple[Join, ...] | None:
    """The straight seams that sew the patches together, innermost first; None where there is no such way."""
    places = _laid(polygons)[1]
    found: list[Join] = []
    if not _divide(places, tuple(range(len(places))), 0, found):
        return None
    return tuple(sorted(found, key=lambda join: -join.depth))


@lru_cache(maxsize=512)
def touching(polygons: tuple[Polygon, ...], first: Group, second: Group) -> tuple[Point, Point]:
    """The ends of the line along which two groups of patches touch, the second group on its left hand as drawn."""
    places = _laid(polygons)[1]
    along: tuple[int, int] | None = None
    found: list[tuple[int, Point]] = []
    for one in first:
        for at, start in enumerate(places[one]):
            end = places[one][(at + 1) % len(places[one])]
            for other in second:
                ends = _common(polygons, places, (one, at), other)
                if ends and along is None:
                    along = end[0] - start[0], end[1] - start[1]
                if along is not None:
                    found += [(along[0] * place[0] + along[1] * place[1], point) for place, point in ends]
    if not found:
        raise ValueError("the patches do not touch")
    found.sort(key=lambda pair: pair[0])
    return found[0][1], found[-1][1]


def _common(
    polygons: Sequence[Polygon], places: Sequence[Sequence[Place]], side: tuple[int, int], other: int
) -> list[tuple[Place, Point]]:
    """The ends of the stretch that a side of one patch shares with a side of another."""
    one, at = side
    start, end = places[one][at], places[one][(at + 1) % len(places[one])]
    mine = [(places[one][n % len(places[one])], polygons[one][n % len(places[one])]) for n in (at, at + 1)]
    for number, here in enumerate(places[other]):
        there = places[other][(number + 1) % len(places[other])]
        if _side_of(start, end, here) or _side_of(start, end, there):
            continue
        theirs = [(here, polygons[other][number]), (there, polygons[other][(number + 1) % len(polygons[other])])]
        ends = [pair for pair in mine if _lies_on(pair[0], here, there)]
        ends += [pair for pair in theirs if _lies_on(pair[0], start, end)]
        if len({(round(x / _NEAR), round(y / _NEAR)) for (x, y), _ in ends}) > 1:
            return ends
    return []


def adding_line(polygons: tuple[Polygon, ...], number: int, before: Group) -> tuple[Spot, Spot] | None:
    """The seam that adds a patch to those before it: a side of it with all of them beyond, the patch on its right.

    Of several the longest; it must touch a patch before it.
    """
    spots, places = _laid(polygons)
    own, others = places[number], [places[other] for other in before]
    best: tuple[Fraction, Spot, Spot] | None = None
    for at, start in enumerate(own):
        end = own[(at + 1) % len(own)]
        if any(_side_of(start, end, place) < 0 for place in own) or _is_free(start, end, others):
            continue
        if any(_side_of(start, end, place) > 0 for other in others for place in other):
            continue
        first, last = spots[number][at], spots[number][(at + 1) % len(own)]
        length = (last[0] - first[0]) ** 2 + (last[1] - first[1]) ** 2
        if best is None or length > best[0]:
            best = length, first, last
    return None if best is None else best[1:]


def sewing_order(polygons: tuple[Polygon, ...]) -> Group | None:
    """An order in which straight seams add patch to patch, or None; found from the last patch backward."""
    left, order = list(range(len(polygons))), []
    while len(left) > 1:
        last = next(
            (n for n in reversed(left) if adding_line(polygons, n, tuple(o for o in left if o != n)) is not None), None
        )
        if last is None:
            return None
        left.remove(last)
        order.append(last)
    return (*left, *reversed(order))


def is_clockwise_and_simple(polygon: Polygon) -> bool:
    """Whether the corners run clockwise as drawn and no two sides cross or touch beside their common corner."""
    spots = [fine_spot(point) for point in polygon]
    if double_area_of(spots) <= 0:
        return False
    places = [_place(spot) for spot in spots]
    sides = list(zip(places, places[1:] + places[:1], strict=True))
    count = len(sides)
    return not any(
        _meet(*sides[one], *sides[other])
        for one in range(count) for other in range(one + 2, count) if (other + 1) % count != one
    )


def overlap(one: Polygon, other: Polygon) -> bool:
    """Whether two polygons share more than edges: a side of one crosses one of the other, or one lies in the other."""
    first, second = ([_place(fine_spot(point)) for point in polygon] for polygon in (one, other))
    for start, end in zip(first, first[1:] + first[:1], strict=True):
        if any(_cross(start, end, *side) for side in zip(second, second[1:] + second[:1], strict=True)):
            return True
    ways = (first, second), (second, first)
    return any(_inside(place, other) for own, other in ways for place in _probes(own))


def double_area_of(spots: Sequence[Spot]) -> Fraction:
    """Twice the area, positive where the corners run clockwise as drawn."""
    pairs = zip(spots, (*spots[1:], spots[0]), strict=True)
    return sum((here[0] * there[1] - there[0] * here[1] for here, there in pairs), Fraction(0))


@lru_cache(maxsize=64)
def _laid(polygons: tuple[Polygon, ...]) -> tuple[tuple[tuple[Spot, ...], ...], tuple[tuple[Place, ...], ...]]:
    """The corners of polygons as fractions and as places."""
    spots = tuple(tuple(fine_spot(point) for point in polygon) for polygon in polygons)
    return spots, tuple(tuple(_place(spot) for spot in own) for own in spots)


def _place(spot: Spot) -> Place:
    x, y = spot
    return round(x * _GRID), round(y * _GRID)


def _probes(places: list[Place]) -> list[Place]:
    """Corners, the middles of sides, and the middle of all corners."""
    pairs = zip(places, places[1:] + places[:1], strict=True)
    middles = [((a[0] + b[0]) // 2, (a[1] + b[1]) // 2) for a, b in pairs]
    count = len(places)
    return [*places, *middles, (sum(x for x, _ in places) // count, sum(y for _, y in places) // count)]


def _side_of(start: Place, end: Place, place: Place) -> int:
    """-1, 0 or 1 as a place lies left of, on or right of a line as drawn."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    away = dx * (place[1] - start[1]) - dy * (place[0] - start[0])
    return 0 if abs(away) < _NEAR * (abs(dx) + abs(dy)) else 1 if away > 0 else -1


def _cross(start: Place, end: Place, first: Place, second: Place) -> bool:
    """Whether two sides cross in the inside of both."""
    return (
        _side_of(start, end, first) * _side_of(start, end, second) < 0
        and _side_of(first, second, start) * _side_of(first, second, end) < 0
    )


def _meet(start: Place, end: Place, first: Place, second: Place) -> bool:
    """Whether two sides have a point in common."""
    return (
        _cross(start, end, first, second)
        or any(_lies_on(spot, start, end) for spot in (first, second))
        or any(_lies_on(spot, first, second) for spot in (start, end))
    )


def _lies_on(place: Place, start: Place, end: Place) -> bool:
    if _side_of(start, end, place):
        return False
    dx, dy = end[0] - start[0], end[1] - start[1]
    at, whole = dx * (place[0] - start[0]) + dy * (place[1] - start[1]), dx * dx + dy * dy
    near = _NEAR * (abs(dx) + abs(dy))
    return -near <= at <= whole + near


def _inside(place: Place, polygon: list[Place]) -> bool:
    """Whether a place lies strictly within."""
    pairs = list(zip(polygon, polygon[1:] + polygon[:1], strict=True))
    if any(_lies_on(place, *pair) for pair in pairs):
        return False
    odd = False
    for (ax, ay), (bx, by) in pairs:
        if (ay > place[1]) != (by > place[1]):
            beyond = (place[0] - ax) * (by - ay) - (place[1] - ay) * (bx - ax)
            odd ^= (beyond < 0) == (by > ay)
    return odd


def _raw(spots: Sequence[Spot], free: Sequence[bool], seam: Fraction) -> list[Spot]:
    made: list[Spot] = []
    for at, here in enumerate(spots):
        before, after = spots[at - 1], spots[(at + 1) % len(spots)]
        come, go = free[at - 1], free[at]
        if come and go:
            made += cut_corner(before, here, after, seam)
        elif come or go:
            made.append(_run_out(before, here, after, seam, come))
        else:
            made.append(here)
    return made


def _free_sides(places: Sequence[Place], others: Sequence[Sequence[Place]]) -> list[bool]:
    """For every side of a polygon, whether it lies along no other patch."""
    return [_is_free(start, end, others) for start, end in zip(places, (*places[1:], places[0]), strict=True)]


def _is_free(start: Place, end: Place, others: Sequence[Sequence[Place]]) -> bool:
    """Whether the middle of a side touches no other patch."""
    middle = (start[0] + end[0]) // 2, (start[1] + end[1]) // 2
    return not any(
        _lies_on(middle, *side) for other in others for side in zip(other, (*other[1:], other[0]), strict=True)
    )


def _run_out(before: Spot, here: Spot, after: Spot, seam: Fraction, come: bool) -> Spot:
    """Where a seam that ends at a free edge runs on to the raw edge."""
    edge = direction(before, here) if come else direction(here, after)
    line = direction(after, here) if come else direction(before, here)
    out = outward(edge)
    rise = line[0] * out[0] + line[1] * out[1]
    if rise < Fraction(1, 50):
        return here[0] + out[0] * seam, here[1] + out[1] * seam
    return here[0] + line[0] * seam / rise, here[1] + line[1] * seam / rise


def _trimmed(corners: list[Spot], box: Box) -> list[Spot]:
    """A polygon cut back to an upright box, side after side."""
    left, top, right, bottom = (fine_spot(Point(side, side))[0] for side in box)
    for axis, limit, sign in ((0, left, 1), (1, top, 1), (0, right, -1), (1, bottom, -1)):
        kept: list[Spot] = []
        for here, there in zip(corners, corners[1:] + corners[:1], strict=True):
            start, end = (here[axis] - limit) * sign, (there[axis] - limit) * sign
            if start >= 0:
                kept.append(here)
            if (start > 0 > end) or (start < 0 < end):
                share = start / (start - end)
                kept.append((here[0] + (there[0] - here[0]) * share, here[1] + (there[1] - here[1]) * share))
        corners = kept
    return corners


def _divide(places: Sequence[Sequence[Place]], group: Group, depth: int, found: list[Join]) -> bool:
    """Divide a group by the longest line that cuts no patch, of several by the most even, and its parts in turn."""
    if len(group) == 1:
        return True
    best: tuple[int, Group, Group] | None = None
    even = 0
    for number in group:
        corners = places[number]
        for start, end in zip(corners, (*corners[1:], corners[0]), strict=True):
            split = _split(places, group, start, end)
            if split is None:
                continue
            smaller = min(len(split[1]), len(split[2]))
            if best is None or split[0] > best[0] + _NEAR or (split[0] > best[0] - _NEAR and smaller > even):
                best, even = split, smaller
    if best is None:
        return False
    found.append(Join(best[1], best[2], depth))
    return all(_divide(places, half, depth + 1, found) for half in best[1:])


def _split(
    places: Sequence[Sequence[Place]], group: Group, start: Place, end: Place
) -> tuple[int, Group, Group] | None:
    """The length of the seam on a line in parts of the unit and the patches on both sides, if it cuts none."""
    halves: dict[int, list[int]] = {-1: [], 1: []}
    dx, dy = end[0] - start[0], end[1] - start[1]
    along = []
    known: dict[Place, int] = {}  # Patches share their corners.
    for number in group:
        sides = [known.get(place) for place in places[number]]
        for at, place in enumerate(places[number]):
            if sides[at] is None:
                sides[at] = known[place] = _side_of(start, end, place)
        signs = set(sides)
        if {1, -1} <= signs:
            return None
        along += [dx * x + dy * y for (x, y), side in zip(places[number], sides, strict=True) if not side]
        halves[1 if 1 in signs else -1].append(number)
    if not (halves[1] and halves[-1]):
        return None
    first, second = sorted((tuple(halves[1]), tuple(halves[-1])))
    return (max(along) - min(along)) // isqrt(dx * dx + dy * dy), first, second
