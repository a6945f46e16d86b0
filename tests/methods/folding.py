"""Sewing in the plane, apart from the compiler: cloth is laid, stitched, cut and opened with floating-point polygons.

A sewn thing is the list of its patches as seen from its right side: fabric role, outline, and the way its print runs.
Nothing here knows a rule for a cut size; it finds out what a cut size gives.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import cos, hypot, pi, sin
from typing import Any

from shapely import affinity
from shapely.geometry import Polygon
from shapely.ops import unary_union

Vector = tuple[float, float]
Seen = list["Region"]

HUGE = 1e4


@dataclass(frozen=True)
class Region:
    """A patch as seen from the right side of what is sewn."""

    role: str
    outline: Any
    print: Vector = (0.0, -1.0)


@dataclass(frozen=True)
class Line:
    """A straight line; what lies to the right of its direction (clockwise, y down) is its keeping side."""

    start: Vector
    end: Vector

    def beside(self, distance: float) -> Line:
        """The parallel at a distance to the keeping side."""
        (x, y), (u, v) = self.start, self.end
        length = hypot(u - x, v - y)
        dx, dy = -(v - y) / length * distance, (u - x) / length * distance
        return Line((x + dx, y + dy), (u + dx, v + dy))

    def back(self) -> Line:
        return Line(self.end, self.start)

    def keeping(self) -> Any:
        """The half-plane on the keeping side, as a very large rectangle."""
        (x, y), (u, v) = self.start, self.end
        length = hypot(u - x, v - y)
        along, across = ((u - x) / length, (v - y) / length), (-(v - y) / length, (u - x) / length)
        near = [(x + side * HUGE * along[0], y + side * HUGE * along[1]) for side in (-1, 1)]
        far = [(px + HUGE * across[0], py + HUGE * across[1]) for px, py in reversed(near)]
        return Polygon(near + far)


def piece(role: str, width: float, height: float, x: float = 0.0, y: float = 0.0) -> Seen:
    """A rectangle of cloth, its print running up."""
    return [Region(role, Polygon([(x, y), (x + width, y), (x + width, y + height), (x, y + height)]))]


def cut(seen: Seen, line: Line) -> Seen:
    """What lies on the keeping side of a cut."""
    half = line.keeping()
    parts = (replace(region, outline=region.outline.intersection(half)) for region in seen)
    return [part for part in parts if part.outline.area > 1e-12]


def flip(seen: Seen, line: Line) -> Seen:
    """Turn a thing over along a line."""
    (x, y), (u, v) = line.start, line.end
    length = hypot(u - x, v - y)
    c, s = (u - x) / length, (v - y) / length
    a, b, d = c * c - s * s, 2 * c * s, s * s - c * c
    matrix = [a, b, b, d, x - a * x - b * y, y - b * x - d * y]
    return [
        Region(
            region.role,
            affinity.affine_transform(region.outline, matrix),
            (a * region.print[0] + b * region.print[1], b * region.print[0] + d * region.print[1]),
        )
        for region in seen
    ]


def sew(upper: Seen, lower: Seen, stitch: Line) -> Seen:
    """Sew two things that lie right sides together, and open them: the allowances beyond the stitches go under.

    Both are given as they lie, the upper one as seen through its own back.
    """
    return cut(lower, stitch) + flip(cut(upper, stitch), stitch)


def turned(seen: Seen, degrees: float) -> Seen:
    """Turn clockwise about the origin."""
    angle = degrees * pi / 180
    c, s = cos(angle), sin(angle)
    return [
        Region(
            region.role,
            affinity.affine_transform(region.outline, [c, -s, s, c, 0, 0]),
            (c * region.print[0] - s * region.print[1], s * region.print[0] + c * region.print[1]),
        )
        for region in seen
    ]


def moved(seen: Seen, dx: float, dy: float) -> Seen:
    return [replace(region, outline=affinity.translate(region.outline, dx, dy)) for region in seen]


def face_down(seen: Seen) -> Seen:
    """The thing turned over sideways in its own place."""
    left, _, right, _ = box_of(seen)
    middle = (left + right) / 2
    return flip(seen, Line((middle, 0.0), (middle, 1.0)))


def outline(seen: Sequence[Region]) -> Any:
    """The outline of everything seen; slivers of rounding between patches are closed."""
    return unary_union([region.outline.buffer(1e-10, join_style="mitre") for region in seen])


def box_of(seen: Seen) -> tuple[float, float, float, float]:
    """Left, top, right and bottom of everything seen."""
    boxes = [region.outline.bounds for region in seen]
    left, top, right, bottom = zip(*boxes, strict=True)
    return min(left), min(top), max(right), max(bottom)


def at_origin(seen: Seen) -> Seen:
    """Moved so that its box begins at the origin."""
    left, top, _, _ = box_of(seen)
    return moved(seen, -left, -top)


def by_role(seen: Seen) -> dict[str, Any]:
    """The area of every role, what lies later covering what lies before."""
    shown: dict[str, Any] = {}
    for region in seen:
        for role in shown:
            shown[role] = shown[role].difference(region.outline)
        shown[region.role] = shown[region.role].union(region.outline) if region.role in shown else region.outline
    return shown
