"""Exact plane geometry: points, polygons, and the eight ways to lay a rectangle on the grid.

The origin is the upper left corner, x runs right, y runs down.
Never: a float; drawings convert at the very end.
"""

from __future__ import annotations

from dataclasses import dataclass

from patchwright.core.length import ZERO, Length


@dataclass(frozen=True, slots=True)
class Point:
    x: Length
    y: Length

    def moved(self, dx: Length, dy: Length) -> Point:
        return Point(self.x + dx, self.y + dy)


Polygon = tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Orientation:
    """How a thing lies: mirrored left to right first, then turned clockwise by quarter turns."""

    turns: int = 0
    mirror: bool = False

    def then(self, outer: Orientation) -> Orientation:
        """The lay of something with this orientation inside something laid by `outer`."""
        turns = -self.turns if outer.mirror else self.turns
        return Orientation((turns + outer.turns) % 4, self.mirror != outer.mirror)

    @property
    def sideways(self) -> bool:
        """Whether width and height change places."""
        return self.turns % 2 == 1

    def size(self, width: Length, height: Length) -> tuple[Length, Length]:
        return (height, width) if self.sideways else (width, height)

    def point(self, point: Point, width: Length, height: Length) -> Point:
        """Where a point of a `width` x `height` rectangle comes to lie, in the turned rectangle's own coordinates."""
        x, y = (width - point.x if self.mirror else point.x), point.y
        for _ in range(self.turns):
            x, y, width, height = height - y, x, height, width
        return Point(x, y)

    def polygon(self, polygon: Polygon, width: Length, height: Length) -> Polygon:
        """The laid polygon, its corners clockwise if they were so before."""
        laid = tuple(self.point(point, width, height) for point in polygon)
        return laid[::-1] if self.mirror else laid


UPRIGHT = Orientation()


def rectangle(width: Length, height: Length, x: Length = ZERO, y: Length = ZERO) -> Polygon:
    """A rectangle's corners, clockwise from the upper left."""
    return (Point(x, y), Point(x + width, y), Point(x + width, y + height), Point(x, y + height))


def moved(polygon: Polygon, dx: Length, dy: Length) -> Polygon:
    return tuple(point.moved(dx, dy) for point in polygon)


def double_area(polygon: Polygon) -> Length:
    """Twice the area, exact and never negative."""
    total = ZERO
    for here, there in zip(polygon, polygon[1:] + polygon[:1], strict=True):
        total += here.x * there.y - there.x * here.y
    return abs(total)


def canonical(polygon: Polygon) -> Polygon:
    """The same polygon starting at its first corner in reading order, for comparison."""
    start = min(range(len(polygon)), key=lambda i: (polygon[i].y, polygon[i].x))
    return polygon[start:] + polygon[:start]


@dataclass(frozen=True, slots=True)
class Side:
    """A straight side of an outline."""

    start: Point
    end: Point


@dataclass(frozen=True, slots=True)
class Arc:
    """A side that is a part of a circle, kept as center and radius."""

    start: Point
    end: Point
    center: Point
    radius: Length
    clockwise: bool
    """Which way it runs as drawn, y downward."""


Outline = tuple[Side | Arc, ...]
"""A closed way of straight and curved sides, each beginning where the last one ends."""


def straight_outline(polygon: Polygon) -> Outline:
    """A polygon as an outline of straight sides."""
    return tuple(Side(here, there) for here, there in zip(polygon, polygon[1:] + polygon[:1], strict=True))


def moved_outline(outline: Outline, dx: Length, dy: Length) -> Outline:
    return tuple(
        Arc(side.start.moved(dx, dy), side.end.moved(dx, dy), side.center.moved(dx, dy), side.radius, side.clockwise)
        if isinstance(side, Arc)
        else Side(side.start.moved(dx, dy), side.end.moved(dx, dy))
        for side in outline
    )


def laid_outline(outline: Outline, lay: Orientation, width: Length, height: Length) -> Outline:
    """An outline in a `width` x `height` rectangle as it lies when that is mirrored and turned."""
    made: list[Side | Arc] = []
    for side in outline:
        start, end = (lay.point(point, width, height) for point in (side.start, side.end))
        if lay.mirror:
            start, end = end, start
        if isinstance(side, Arc):
            # Mirroring turns the sense of an arc around, and walking it from its other end turns it back.
            made.append(Arc(start, end, lay.point(side.center, width, height), side.radius, side.clockwise))
        else:
            made.append(Side(start, end))
    return tuple(reversed(made)) if lay.mirror else tuple(made)
