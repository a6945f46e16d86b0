"""Cutting by templates and sewing what is cut, apart from the compiler: outlines are traced as polygons, arcs finely.

A piece is sewn along the line that lies one seam inside its cut edge, whatever its template says of its seam line; it
is laid where that line meets the finished patches, and only what lies outside the unit keeps its allowance.
"""

from __future__ import annotations

from itertools import pairwise
from math import atan2, cos, hypot, pi, sin
from typing import Any

from shapely import affinity
from shapely.geometry import LineString, Polygon, box

from methods.folding import Line, Region, Seen, flip, sew
from patchwright.core.geometry import Arc, Outline
from patchwright.methods.method import Recipe, RecipePiece, Request, UnitPatch
from patchwright.methods.template import Template

PARTS = 720
"""Straight parts of a traced arc."""
CURVED = 0.004
"""By how much of its radius a curve may lie beside the corners that draw it: those are on it, their sides within."""


class UnmatchedPieceError(ValueError):
    """A piece that, sewn along its seam, is none of the unit's patches."""


def traced(outline: Outline) -> Any:
    """An outline as a polygon."""
    points: list[tuple[float, float]] = []
    for side in outline:
        start, end = ((float(point.x), float(point.y)) for point in (side.start, side.end))
        points.append(start)
        if isinstance(side, Arc):
            x, y, radius = float(side.center.x), float(side.center.y), float(side.radius)
            first, last = (atan2(point[1] - y, point[0] - x) for point in (start, end))
            sweep = (last - first) % (2 * pi) if side.clockwise else -((first - last) % (2 * pi))
            angles = [first + sweep * part / PARTS for part in range(1, PARTS)]
            points += [(x + radius * cos(angle), y + radius * sin(angle)) for angle in angles]
    return Polygon(points)


def radius_of(template: Template) -> float:
    """The largest radius of a template's curves, 0 where it has none."""
    return max((float(side.radius) for side in template.cut_line if isinstance(side, Arc)), default=0.0)


def net_of(template: Template, seam: float) -> Any:
    """What is left within the seams of a piece that is cut by a template."""
    shape = traced(template.cut_line)
    # Many tiny sides confuse the library's inner offset; a ten-thousandth is far below the slack of curves.
    return (shape.simplify(1e-4) if radius_of(template) else shape).buffer(-seam, join_style="mitre", mitre_limit=20)


def pieced(recipe: Recipe, patches: tuple[UnitPatch, ...], request: Request) -> Seen:
    """The unit of all pieces of a batch; a patch that no piece is, or a piece too many, is an error.

    The slivers between two traced curves are closed.
    """
    seam = float(request.rules.seam)
    left = [(patch, Polygon([(float(p.x), float(p.y)) for p in patch.outline])) for patch in patches]
    unit: Seen = []
    for piece in recipe.pieces:
        for _ in range(piece.per_batch):
            place, found = _placed(piece, left, seam)
            left.pop(place)
            sliver = 1e-4 * radius_of(piece.template) if piece.template is not None else 0.0
            unit.append(Region(piece.role, _kept(found, request).buffer(sliver, join_style="mitre")))
    if left:
        raise UnmatchedPieceError(f"{len(left)} patches are left without a piece")
    return unit


def _placed(piece: RecipePiece, left: list[tuple[UnitPatch, Any]], seam: float) -> tuple[int, tuple[Any, Any]]:
    """The first patch that the piece fits in some turn, with the piece's net and cut shape there."""
    template = piece.template
    assert template is not None
    net, cut = net_of(template, seam), traced(template.cut_line)
    slack = 1e-6 + CURVED * radius_of(template)
    for turn in range(8):
        shape = affinity.rotate(net, 45 * turn, origin=(0, 0))
        for place, (patch, wanted) in enumerate(left):
            dx, dy = (w - s for w, s in zip(wanted.bounds[:2], shape.bounds[:2], strict=True))
            laid = affinity.translate(shape, dx, dy)
            if patch.role == piece.role and laid.hausdorff_distance(wanted) < slack:
                whole = affinity.translate(affinity.rotate(cut, 45 * turn, origin=(0, 0)), dx, dy)
                return place, (laid, whole)
    raise UnmatchedPieceError(piece.id)


def _kept(found: tuple[Any, Any], request: Request) -> Any:
    """The net of a piece, and its allowance outside the finished unit; dog ears beyond the raw edges are trimmed."""
    net, cut = found
    seam, width, height = float(request.rules.seam), float(request.width), float(request.height)
    allowance = cut.difference(box(0, 0, width, height))
    return net.union(allowance.intersection(box(-seam, -seam, width + seam, height + seam)))


def on_foundation(recipe: Recipe, patches: tuple[UnitPatch, ...], request: Request) -> Seen:
    """Pieces flipped onto a foundation in the order of the patches, then trimmed to the unfinished size.

    Each is laid along the edge that its patch shares with those before, one seam beyond it and centered on the patch.
    """
    seam, width, height = (float(length) for length in (request.rules.seam, request.width, request.height))
    shapes = [Polygon([(float(p.x), float(p.y)) for p in patch.outline]) for patch in patches]
    sides = [(float(piece.width), float(piece.height)) for piece in recipe.pieces]
    left, top, right, bottom = shapes[0].bounds
    (wide, high), (x, y) = sides[0], ((left + right) / 2, (top + bottom) / 2)
    unit = [Region(patches[0].role, box(x - wide / 2, y - high / 2, x + wide / 2, y + high / 2))]
    for number in range(1, len(patches)):
        line = _shared(shapes[number], shapes[:number])
        along = _turned_to(line, shapes[number])
        middle = (along.bounds[0] + along.bounds[2]) / 2
        long, deep = sides[number]
        laid = box(middle - long / 2, -seam, middle + long / 2, deep - seam)
        piece = [Region(patches[number].role, _turned_back(line, laid))]
        unit = sew(flip(piece, line), unit, line)
    frame = box(-seam, -seam, width + seam, height + seam)
    return [Region(region.role, region.outline.intersection(frame)) for region in unit]


def _shared(shape: Any, before: list[Any]) -> Line:
    """The line of a patch's longest side that all earlier ones lie beyond; they lie on its keeping side."""
    corners = list(shape.exterior.coords)
    found = []
    for start, end in pairwise(corners):
        for line in (Line(start, end), Line(end, start)):
            half = line.keeping().buffer(1e-7)
            if all(half.covers(other) for other in before) and half.intersection(shape).area < 1e-4:
                middle = LineString([start, end]).interpolate(0.5, normalized=True)
                if any(other.distance(middle) < 1e-7 for other in before):
                    found.append((hypot(end[0] - start[0], end[1] - start[1]), line))
    return max(found, key=lambda pair: pair[0])[1]


def _turned_to(line: Line, shape: Any) -> Any:
    """A shape in coordinates along the line and away from its keeping side."""
    (x, y), (u, v) = line.start, line.end
    c, s = (u - x) / hypot(u - x, v - y), (v - y) / hypot(u - x, v - y)
    return affinity.affine_transform(shape, [c, s, s, -c, -c * x - s * y, -s * x + c * y])


def _turned_back(line: Line, shape: Any) -> Any:
    (x, y), (u, v) = line.start, line.end
    c, s = (u - x) / hypot(u - x, v - y), (v - y) / hypot(u - x, v - y)
    return affinity.affine_transform(shape, [c, s, s, -c, x, y])
