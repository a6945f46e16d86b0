"""Where a letter has room in a patch: the place for a box that keeps clear of all its seams.

In: an outline on the page, lines to keep clear of, outlines that cover it, and the size of a box.
Out: the best middle for the box, or nothing where it does not fit.
Never: a box that touches a seam.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from patchwright.diagrams.board import LabelSizes
from patchwright.diagrams.scene import XY, Label, TypeSize

_STEPS = 4
_ROUNDS = 4

Segment = tuple[XY, XY]


@dataclass(frozen=True, slots=True)
class Obstacles:
    """What lies over an outline: lines, and outlines of cloth."""

    lines: tuple[tuple[XY, ...], ...] = ()
    covers: tuple[tuple[XY, ...], ...] = ()

    def segments(self) -> Iterator[Segment]:
        for line in self.lines:
            yield from pairwise(line)
        for cover in self.covers:
            yield from _edges(cover)

    def brought(self, x: float, y: float) -> Obstacles:
        """The same obstacles seen from another origin."""
        return Obstacles(
            tuple(_brought(line, x, y) for line in self.lines), tuple(_brought(cover, x, y) for cover in self.covers)
        )

    def hide(self, point: XY) -> bool:
        return any(_inside(cover, point) for cover in self.covers)


CLEAR = Obstacles()


def letter(
    outline: Sequence[XY],
    texts: Iterable[str],
    type: LabelSizes,
    sizes: Sequence[TypeSize] = ("normal", "small"),
    obstacles: Obstacles = CLEAR,
) -> Label | None:
    """The first text, in the largest type, that fits an outline of cloth; `texts` from the best to the barest."""
    for text in texts:
        for size in sizes:
            place = box_place(outline, *letter_box(text, type, size), obstacles)
            if place is not None:
                return Label(place, text, size, over="cloth")
    return None


def letter_box(text: str, type: LabelSizes, size: TypeSize) -> tuple[float, float]:
    """The room that a letter takes with some air around it."""
    height = type.text_height(size)
    return type.text_width(text, size) + 0.9 * height, 1.9 * height


def box_place(outline: Sequence[XY], width: float, height: float, obstacles: Obstacles = CLEAR) -> XY | None:
    """The middle of a box inside an outline, as far from all lines as a search on a narrowing grid finds."""
    low_x, low_y, high_x, high_y = _bounds(outline)
    if width >= high_x - low_x or height >= high_y - low_y:
        return None
    middle = (low_x + high_x) / 2, (low_y + high_y) / 2
    if len(outline) == 4 and _is_upright(outline) and _is_free(middle, width, height, obstacles):
        return middle
    place = _relative_place(_brought(outline, low_x, low_y), width, height, obstacles.brought(low_x, low_y))
    return (place[0] + low_x, place[1] + low_y) if place else None


@lru_cache(maxsize=2048)
def _relative_place(outline: tuple[XY, ...], width: float, height: float, obstacles: Obstacles) -> XY | None:
    """The place in an outline that begins at the origin; equal pieces are searched once."""
    _, _, high_x, high_y = _bounds(outline)
    segments = [*_edges(outline), *obstacles.segments()]
    best = (high_x / 2, high_y / 2)
    best_room = _room(outline, best, width, height, segments, obstacles, 0.0)
    reach_x, reach_y = (high_x - width) / 2, (high_y - height) / 2
    for _ in range(_ROUNDS):
        for place in _grid(best, reach_x, reach_y):
            room = _room(outline, place, width, height, segments, obstacles, best_room)
            if room > best_room + 1e-9:
                best, best_room = place, room
        reach_x, reach_y = reach_x / _STEPS, reach_y / _STEPS
    return best if best_room > 0 else None


def _is_free(middle: XY, width: float, height: float, obstacles: Obstacles) -> bool:
    """Whether a box meets no obstacle."""
    box = _box(middle, width, height)
    if obstacles.hide(middle):
        return False
    return all(_box_gap(box, start, end) > 0 for start, end in obstacles.segments())


def _box(middle: XY, width: float, height: float) -> tuple[float, float, float, float]:
    return middle[0] - width / 2, middle[1] - height / 2, middle[0] + width / 2, middle[1] + height / 2


def _room(
    outline: Sequence[XY],
    middle: XY,
    width: float,
    height: float,
    segments: list[Segment],
    obstacles: Obstacles,
    least: float,
) -> float:
    """How far a box keeps from all segments; less than 0 where it meets one, lies outside, or beats `least` nowhere.

    The segment that was in the way goes to the front, since it is likely in the way of the next box too.
    """
    box = _box(middle, width, height)
    room = float("inf")
    for number, (start, end) in enumerate(segments):
        gap = _box_gap(box, start, end, room)
        if gap <= least or gap <= 0:
            segments.insert(0, segments.pop(number))
            return -1.0
        if gap < room:
            room = gap
    return room if _inside(outline, middle) and not obstacles.hide(middle) else -1.0


def _box_gap(
    box: tuple[float, float, float, float], start: XY, end: XY, enough: float = float("inf")
) -> float:
    """The largest distance between a box and a segment along the axes or the segment's normal; zero where they meet.

    A distance that is `enough` may be told smaller than it is, but never smaller than `enough`.
    """
    low_x, low_y, high_x, high_y = box
    (from_x, from_y), (to_x, to_y) = start, end
    left, right = (from_x, to_x) if from_x < to_x else (to_x, from_x)
    top, bottom = (from_y, to_y) if from_y < to_y else (to_y, from_y)
    gap = max(low_x - right, left - high_x, low_y - bottom, top - high_y)
    if gap >= enough:
        return gap
    dx, dy = to_x - from_x, to_y - from_y
    if not dx or not dy:
        return gap
    length = float((dx * dx + dy * dy) ** 0.5)
    near_x, far_x = (low_x - from_x) * dy, (high_x - from_x) * dy
    near_y, far_y = (low_y - from_y) * dx, (high_y - from_y) * dx
    least = (near_x if near_x < far_x else far_x) - (near_y if near_y > far_y else far_y)
    most = (near_x if near_x > far_x else far_x) - (near_y if near_y < far_y else far_y)
    return max(gap, least / length, -most / length)


def _brought(points: Sequence[XY], x: float, y: float) -> tuple[XY, ...]:
    """Points seen from an origin, rounded so that equal shapes are equal wherever they lie."""
    return tuple((round(px - x, 7), round(py - y, 7)) for px, py in points)


def _is_upright(outline: Sequence[XY]) -> bool:
    """Whether four corners make a rectangle along the axes."""
    return len({round(x, 7) for x, _ in outline}) == 2 == len({round(y, 7) for _, y in outline})


def _grid(middle: XY, reach_x: float, reach_y: float) -> Iterator[XY]:
    for column in range(-_STEPS, _STEPS + 1):
        for row in range(-_STEPS, _STEPS + 1):
            yield middle[0] + reach_x * column / _STEPS, middle[1] + reach_y * row / _STEPS


def _edges(outline: Sequence[XY]) -> Iterator[Segment]:
    yield from zip(outline, (*outline[1:], outline[0]), strict=True)


def _bounds(outline: Sequence[XY]) -> tuple[float, float, float, float]:
    xs, ys = zip(*outline, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def _inside(outline: Sequence[XY], point: XY) -> bool:
    x, y = point
    inside = False
    for (x0, y0), (x1, y1) in _edges(outline):
        if (y0 > y) != (y1 > y) and x < x0 + (y - y0) * (x1 - x0) / (y1 - y0):
            inside = not inside
    return inside
