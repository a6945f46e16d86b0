"""The items of a scene sorted into layers, so that each layer can be written in few merged paths.

In: items in drawing order.
Out: layers in drawing order; within one, no area covers an earlier item, so areas of one cloth may be joined.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from patchwright.diagrams.scene import XY, Area, Item, Label, Line

Box = tuple[float, float, float, float]

_TOUCH = 1e-4
"""Overlaps smaller than this, in inches, are shared edges."""
_MANY_CELLS = 64


@dataclass(slots=True)
class Layer:
    """Items that can be drawn as: all areas, then all lines, then all labels."""

    areas: list[Area] = field(default_factory=list)
    lines: list[Line] = field(default_factory=list)
    labels: list[Label] = field(default_factory=list)


def layers(items: Iterable[Item]) -> Iterator[Layer]:
    """Sort items into as few layers as their overlaps allow, keeping what lies over what."""
    items = tuple(items)
    cell = _cell_size(items)
    layer, placed = Layer(), _Placed(cell)
    for item in items:
        if isinstance(item, Area):
            box = _box(item.outline)
            if placed.covered_by(box, item.outline):
                yield layer
                layer, placed = Layer(), _Placed(cell)
            placed.add(box, item.outline)
            layer.areas.append(item)
        elif isinstance(item, Line):
            placed.add(_box(item.points))
            layer.lines.append(item)
        else:
            placed.add((*item.at, *item.at))
            layer.labels.append(item)
    if layer.areas or layer.lines or layer.labels:
        yield layer


class _Placed:
    """The places of a layer's items in a coarse grid, to find quickly what a new area would cover."""

    def __init__(self, cell: float) -> None:
        self._cell = cell
        self._cells: dict[tuple[int, int], list[int]] = {}
        self._wide: list[int] = []
        self._boxes: list[Box] = []
        self._outlines: list[tuple[XY, ...] | None] = []

    def covered_by(self, box: Box, outline: tuple[XY, ...]) -> bool:
        """Whether an area in this box would lie over anything placed so far."""
        boxes, outlines = self._boxes, self._outlines
        left, top, right, bottom = box[0] + _TOUCH, box[1] + _TOUCH, box[2] - _TOUCH, box[3] - _TOUCH
        near = set(self._wide)
        for place in self._places(box):
            near.update(self._cells.get(place, ()))
        for index in near:
            other = boxes[index]
            if right > other[0] and other[2] > left and bottom > other[1] and other[3] > top:
                shape = outlines[index]
                if shape is None or not (_separated(outline, shape) or _separated(shape, outline)):
                    return True
        return False

    def add(self, box: Box, outline: tuple[XY, ...] | None = None) -> None:
        """Place an area, or the box of anything else."""
        index = len(self._boxes)
        self._boxes.append(box)
        self._outlines.append(outline)
        places = self._places(box)
        if len(places) > _MANY_CELLS:
            self._wide.append(index)
            return
        for place in places:
            self._cells.setdefault(place, []).append(index)

    def _places(self, box: Box) -> list[tuple[int, int]]:
        cell = self._cell
        columns = range(int(box[0] // cell), int(box[2] // cell) + 1)
        rows = range(int(box[1] // cell), int(box[3] // cell) + 1)
        return [(column, row) for column in columns for row in rows]


def _separated(outline: tuple[XY, ...], other: tuple[XY, ...]) -> bool:
    """Whether all of `other` lies outside one edge of `outline` that has all of `outline` on its inner side.

    For convex outlines this finds every separation; for others it may miss one, which costs a layer and no more.
    """
    x, y = outline[-1]
    for next_x, next_y in outline:
        dx, dy = next_x - x, next_y - y
        own = [(px - x) * dy - (py - y) * dx for px, py in outline]
        others = [(px - x) * dy - (py - y) * dx for px, py in other]
        slack = _TOUCH * (abs(dx) + abs(dy))
        if max(own) <= slack and min(others) >= -slack:
            return True
        if min(own) >= -slack and max(others) <= slack:
            return True
        x, y = next_x, next_y
    return False


def _box(points: Iterable[XY]) -> Box:
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def _cell_size(items: tuple[Item, ...]) -> float:
    """A grid cell about twice the usual area's width, in inches."""
    boxes = [_box(item.outline) for item in items if isinstance(item, Area)]
    sides = sorted(max(box[2] - box[0], box[3] - box[1]) for box in boxes)
    return max(sides[len(sides) // 2] * 2, 0.02) if sides else 1.0
