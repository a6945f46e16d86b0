"""The face and the joining lines of a unit, whose seams may run at any angle.

In: a planned unit in one size, and the values of its fabrics.
Out: `SewnUnit`: its face, its lines, and which seams should lie away from a point.
Never: a direction of pressing.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from itertools import pairwise

from patchwright.methods.registry import BY_NAME
from patchwright.planning.plan import PlannedUnit, UnitSize
from patchwright.planning.pressing.faces import Edge, EdgeEnd, Face, Line, Shades
from patchwright.planning.pressing.grid import Grid, Measure, Shape, Spot, cross, dot, ratio, sides, vector
from patchwright.planning.pressing.made_alike import made_alike
from patchwright.planning.pressing.sewing import UnitSeam, sewing_order, stated_order
from patchwright.planning.pressing.terms import Owner, Seam, SeamEnd


@dataclass(frozen=True, slots=True)
class SewnUnit:
    """A unit with its seams in sewing order."""

    face: Face
    lines: tuple[Line, ...]
    seams: tuple[tuple[Seam, UnitSeam], ...]
    points: tuple[tuple[SeamEnd, int], ...]
    """(end, sense in which it lies away from a point)."""
    roles: tuple[str, ...]
    """The role of each patch."""
    shapes: tuple[Shape, ...]


def sewn_unit(unit: PlannedUnit, size: UnitSize, owner: Owner, values: Mapping[str, int], grid: Grid) -> SewnUnit:
    """Sew a unit at its @0; `values` are those of the fabrics, by id."""
    roles, shapes, seams = _drawn(unit, size, grid)
    fabrics = dict(unit.fabrics)
    cloth = [fabrics.get(role, "") for role in roles]
    named = tuple((Seam(owner, "join", same), seam) for same, seam in made_alike(shapes, cloth, seams))
    drawing = _Drawing(shapes, tuple(values.get(fabric, 1) for fabric in cloth), named)
    width, height = grid.measure(size.request.width), grid.measure(size.request.height)
    none = width - width
    corners = ((none, none), (width, none), (width, height), (none, height))
    top, right, bottom, left = (drawing.edge(start, finish) for start, finish in sides(corners))
    lines = tuple(drawing.line(seam, drawn) for seam, drawn in named)
    edges = (top, right, bottom, left)
    points = [found for edge in edges for found in _points(edge)]
    for line in lines:
        points += [*_points(line.first), *_points(line.second.reversed(line.length))]
    return SewnUnit(Face(width, height, edges), lines, named, tuple(points), roles, shapes)


def _drawn(
    unit: PlannedUnit, size: UnitSize, grid: Grid
) -> tuple[tuple[str, ...], tuple[Shape, ...], tuple[UnitSeam, ...]]:
    """Roles, shapes and seams, mirrored where the unit is reversed, which exchanges the ends of every seam."""
    patches = BY_NAME[unit.method].patches(size.request)
    roles, shapes = tuple(patch.role for patch in patches), tuple(grid.shape(patch.outline) for patch in patches)
    stated = BY_NAME[unit.method].seams
    seams = sewing_order(shapes) if stated is None else stated_order(shapes, stated(size.request))
    if unit.hand == "as-drawn":
        return roles, shapes, seams
    width = grid.measure(size.request.width)

    def mirrored(spot: Spot) -> Spot:
        return width - spot[0], spot[1]

    turned = tuple(replace(s, start=mirrored(s.finish), finish=mirrored(s.start)) for s in seams)
    return roles, tuple(tuple(mirrored(corner) for corner in reversed(shape)) for shape in shapes), turned


def _points(edge: Edge) -> Iterator[tuple[SeamEnd, int]]:
    """Where two seams end in one point, the patch between them is a point, and each should lie away from it."""
    places: dict[Measure, list[EdgeEnd]] = {}
    for end in edge.ends:
        places.setdefault(end.offset, []).append(end)
    for ends in places.values():
        clockwise = sorted(ends, key=lambda end: -end.slope)
        for this, other in pairwise(clockwise):
            yield this.end, -1
            yield other.end, 1


@dataclass(frozen=True, slots=True)
class _Drawing:
    """The finished patches of a unit with its seams."""

    shapes: tuple[Shape, ...]
    values: tuple[int, ...]
    seams: tuple[tuple[Seam, UnitSeam], ...]

    def line(self, seam: Seam, drawn: UnitSeam) -> Line:
        """A seam as a joining line; its length and offsets are multiplied by its length, so that they stay exact."""
        halves = (frozenset(drawn.first), frozenset(drawn.second))
        first, second = (self.edge(drawn.start, drawn.finish, patches) for patches in halves)
        along = vector(drawn.start, drawn.finish)
        return Line(seam, dot(along, along), first, second)

    def edge(self, start: Spot, finish: Spot, among: frozenset[int] | None = None) -> Edge:
        """What a straight edge shows, of all patches (an edge of the unit) or of some (a line within it)."""
        along = vector(start, finish)
        side = abs(along[0] + along[1]) if among is None else None
        ends = [
            EdgeEnd(_place(along, vector(start, at), side), _slope(along, away), end)
            for end, at, away, patches in self._ends(along)
            if (among is None or patches <= among) and not cross(along, vector(start, at))
        ]
        shades = self._shades(start, along, among, side)
        return Edge(tuple(sorted(ends, key=lambda end: (end.offset, end.slope))), shades)

    def _ends(self, edge: Spot) -> Iterator[tuple[SeamEnd, Spot, Spot, frozenset[int]]]:
        """Each end with its place, the way of the seam from there, and its patches; a curve is straight at an edge."""
        for seam, drawn in self.seams:
            along = vector(drawn.start, drawn.finish)
            if drawn.is_curved:
                along = (-edge[1], edge[0])
            yield SeamEnd(seam, 0, -1), drawn.start, along, drawn.patches
            yield SeamEnd(seam, 1, 1), drawn.finish, (-along[0], -along[1]), drawn.patches

    def _shades(self, start: Spot, along: Spot, among: frozenset[int] | None, side: Measure | None) -> Shades:
        """The cloth of the patches that touch an edge, in order along it."""
        found = []
        for patch, shape in enumerate(self.shapes):
            for here, there in sides(shape) if among is None or patch in among else ():
                if not cross(along, vector(start, here)) and not cross(along, vector(start, there)):
                    low, high = sorted(_place(along, vector(start, end), side) for end in (here, there))
                    found.append((low, high - low, self.values[patch]))
        return tuple((length, value) for _, length, value in sorted(found))


def _place(along: Spot, away: Spot, side: Measure | None) -> Measure:
    """How far along an edge a point on it lies; multiplied by the edge's length where it runs askew."""
    return dot(along, away) if side is None else abs(away[0] + away[1])


def _slope(along: Spot, ray: Spot) -> Measure:
    return ratio(dot(ray, along), abs(cross(along, ray)))
