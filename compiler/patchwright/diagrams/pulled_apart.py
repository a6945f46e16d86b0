"""Parts in rows (or columns) pulled apart, with an arrow at every seam that says which way it is pressed.

In: pictures of the parts, line by line, and the ways of pressing.
Out: one picture.
Never: a part drawn or named here.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from patchwright.diagrams.picture import Body, Picture, moved_items
from patchwright.diagrams.pressing import AssemblyPressing, Way
from patchwright.diagrams.scene import XY, Item, Line

Axis = Literal["rows", "columns"]


@dataclass(frozen=True, slots=True)
class Gaps:
    """Distances in inches: between parts of one line, between lines, and the room of the arrows between lines."""

    within: float
    between: float
    margin: float


_HALVES: dict[Way, tuple[Way, Way]] = {"spun-forward": ("forward", "back"), "spun-back": ("back", "forward")}
"""Which way the upper or left half of a spun seam lies, and the other."""


def pulled_apart(
    lines: Sequence[Sequence[Picture]], axis: Axis, gaps: Gaps, pressing: AssemblyPressing | None = None
) -> Picture:
    """Lines of parts, each line centered; arrows between lines stand before the lines' beginnings."""
    rows = axis == "rows"
    lengths = [_length(line, rows, gaps) for line in lines]
    margin = gaps.margin if pressing and len(lines) > 1 else 0.0
    items: list[Item] = []
    across = spun = 0.0
    for number, line in enumerate(lines):
        start = margin + (max(lengths) - lengths[number]) / 2
        ways = pressing.within[number] if pressing else ()
        items.extend(_line(line, rows, gaps, start, across, ways))
        thickness = max(_across(picture, rows) for picture in line)
        if pressing and number < len(lines) - 1:
            middle = across + thickness + gaps.between / 2
            way = pressing.between[number]
            near, other = _HALVES.get(way, (way, None))
            items.append(_press((margin * 0.35, middle), not rows, gaps.between * 0.8, near, rows))
            if other is not None:
                far = margin + max(lengths) + margin * 0.65
                items.append(_press((far, middle), not rows, gaps.between * 0.8, other, rows))
                spun = margin
        across += thickness + gaps.between
    extent = (margin + max(lengths) + spun, across - gaps.between)
    width, height = extent if rows else (extent[1], extent[0])
    left, top = (margin, 0.0) if rows else (0.0, margin)
    body = Body(left, top, max(lengths) if rows else width, height if rows else max(lengths))
    return Picture(width, height, tuple(items), body)


def _line(
    line: Sequence[Picture], rows: bool, gaps: Gaps, start: float, across: float, ways: Sequence[Way]
) -> Iterator[Item]:
    """The parts of one line and the arrows in its gaps."""
    along = start
    for place, picture in enumerate(line):
        yield from moved_items(picture.items, *((along, across) if rows else (across, along)))
        along += _along(picture, rows)
        if place < len(ways) and place < len(line) - 1:
            body = picture.body
            middle = (body.center[1] if rows else body.center[0]) + across
            yield from _over(along + gaps.within / 2, middle, ways[place], rows, gaps, _across(picture, rows))
        along += gaps.within


def _over(along: float, middle: float, way: Way, rows: bool, gaps: Gaps, wide: float) -> Iterator[Line]:
    """The arrow of a seam within a line; two of a spun seam, over its halves."""
    halves = _HALVES.get(way)
    if halves is None:
        yield _press((along, middle), rows, gaps.within * 0.8, way, rows)
        return
    for half, aside in zip(halves, (-wide / 4, wide / 4), strict=True):
        yield _press((along, middle + aside), rows, gaps.within * 0.8, half, rows)


def _press(place: XY, level: bool, long: float, way: Way, rows: bool) -> Line:
    """An arrow over a seam; `place` is along and across the lines, `level` whether the arrow lies along x."""
    x, y = place if rows else (place[1], place[0])
    dx, dy = (long / 2, 0.0) if level else (0.0, long / 2)
    ends = ((x - dx, y - dy), (x + dx, y + dy))
    if way == "back":
        ends = (ends[1], ends[0])
    return Line(ends, "press", "both" if way == "open" else "end")


def _length(line: Sequence[Picture], rows: bool, gaps: Gaps) -> float:
    return sum(_along(picture, rows) for picture in line) + gaps.within * (len(line) - 1)


def _along(picture: Picture, rows: bool) -> float:
    return picture.width if rows else picture.height


def _across(picture: Picture, rows: bool) -> float:
    return picture.height if rows else picture.width
