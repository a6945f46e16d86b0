"""A foundation-pieced unit: patches sewn in numbered order to a printed foundation, which is the unit's mirror image.

Cut sizes (common practice is to cut generously; no source for the amount): the first patch as large as the box around
it, every other as long as the seam that adds it and as deep as the patch reaches from there, each with two seams on
every side: one for the allowance and one to spare. The sewn unit is trimmed to one seam outside its finished size.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from patchwright.core.geometry import Point, Polygon, rectangle
from patchwright.core.length import Cut, Length
from patchwright.methods.drawn_patches import PATCHES, drawn_polygons, refuse_drawn
from patchwright.methods.flat_shapes import adding_line, raw_outlines, sewing_order
from patchwright.methods.method import (
    OUTWARD,
    Method,
    PatchSeam,
    Recipe,
    RecipePiece,
    Refusal,
    Request,
    Stage,
    StageMark,
    StageShape,
    StageView,
    UnitPatch,
    unfinished_size,
)
from patchwright.methods.polygon import patch_roles
from patchwright.methods.pressed import chained, pressing_view, seam_between
from patchwright.methods.staging import at, back, face, finished_stage, mark, trim_rectangle, view
from patchwright.methods.template import Spot, coarse, direction, fine_spot, outward

_SPARE = 2
"""Seams that a piece is larger than its patch, on every side."""


def _refuse(request: Request) -> tuple[Refusal, ...]:
    return refuse_drawn(request, "a foundation-pieced unit") or _refuse_order(request)


def _refuse_order(request: Request) -> tuple[Refusal, ...]:
    """Every patch is added along one straight line that leaves all earlier ones on its other side."""
    polygons = drawn_polygons(request)
    stuck = next((n for n in range(1, len(polygons)) if adding_line(polygons, n, tuple(range(n))) is None), None)
    if stuck is None:
        return ()
    message = f"patch {stuck + 1} of a foundation-pieced unit cannot be added with one straight seam"
    order = sewing_order(polygons)
    if order is None:
        return (Refusal("foundation-order", "patches", message, ("no order of these patches works; divide one",)),)
    words = ", ".join(str(number + 1) for number in order)
    return (Refusal("foundation-order", "patches", message, (f"name the patches in the order {words}",)),)


def _patches(request: Request) -> tuple[UnitPatch, ...]:
    pairs = zip(request.roles, drawn_polygons(request), strict=True)
    return tuple(UnitPatch(role, polygon) for role, polygon in pairs)


@dataclass(frozen=True, slots=True)
class _Added:
    """A piece as it is laid: along the seam, and how far it reaches from there; worked out finely."""

    along: Spot
    """Direction of the seam, the patch to its right as drawn."""
    start: Spot
    """Where the piece begins: its corner on the seam's side, one seam beyond it."""
    length: Length
    depth: Length

    def corners(self, seam: Fraction, opened: bool) -> Polygon:
        """The piece opened over its patch, or before that, on what was sewn."""
        aside = outward(self.along)
        sign = -1 if opened else 1
        length, depth = (fine_spot(Point(side, side))[0] for side in (self.length, self.depth))
        near, far = -seam, depth - seam

        def spot(step: Fraction, deep: Fraction) -> Point:
            x = self.start[0] + self.along[0] * step + aside[0] * deep * sign
            y = self.start[1] + self.along[1] * step + aside[1] * deep * sign
            return Point(coarse(x), coarse(y))

        around = spot(Fraction(0), near), spot(length, near), spot(length, far), spot(Fraction(0), far)
        return around if opened else around[::-1]


def _added(request: Request, number: int) -> _Added:
    """The piece of a patch that is not the first."""
    polygons, rules = drawn_polygons(request), request.rules
    line = adding_line(polygons, number, tuple(range(number)))
    if line is None:
        raise ValueError(f"patch {number + 1} cannot be added")
    start, end = line
    along = direction(start, end)
    aside = outward(along)
    spots = [fine_spot(point) for point in polygons[number]]
    steps = [(x - start[0]) * along[0] + (y - start[1]) * along[1] for x, y in spots]
    reach = max(-((x - start[0]) * aside[0] + (y - start[1]) * aside[1]) for x, y in spots)
    spare = rules.seam * _SPARE
    length = (coarse(max(steps) - min(steps)) + spare * 2).up_to(rules.step)
    depth = (coarse(reach) + spare * 2).up_to(rules.step)
    begin = min(steps) - (fine_spot(Point(length, length))[0] - (max(steps) - min(steps))) / 2
    return _Added(along, (start[0] + along[0] * begin, start[1] + along[1] * begin), length, depth)


def _first(request: Request) -> Polygon:
    """The first piece as it is laid over its patch."""
    points = drawn_polygons(request)[0]
    spare, step = request.rules.seam * _SPARE, request.rules.step
    left, top = min(p.x for p in points), min(p.y for p in points)
    width, height = max(p.x for p in points) - left, max(p.y for p in points) - top
    wide, high = (width + spare * 2).up_to(step), (height + spare * 2).up_to(step)
    return rectangle(wide, high, left - (wide - width) / 2, top - (high - height) / 2)


def _recipe(request: Request) -> Recipe:
    first = _first(request)
    sides = [(first[1].x - first[0].x, first[2].y - first[1].y)]
    for number in range(1, len(request.roles)):
        piece = _added(request, number)
        sides.append((piece.length, piece.depth))
    pieces = tuple(
        RecipePiece(f"piece-{number}", role, Cut(width), Cut(height), 1)
        for number, (role, (width, height)) in enumerate(zip(request.roles, sides, strict=True), 1)
    )
    width = request.width
    mirrored = tuple(
        tuple(Point(width - point.x, point.y) for point in reversed(polygon)) for polygon in drawn_polygons(request)
    )
    # A piece is cut along its seam; only along a level one does its print run up.
    leaning = tuple(role for number, role in enumerate(request.roles) if number and _added(request, number).along[1])
    return Recipe(
        "paper", pieces, batch=1, gives=(0,), trim=True, rounding=request.rules.seam, leaning=leaning,
        foundation=mirrored,
    )


def _seams(request: Request) -> tuple[PatchSeam, ...]:
    return chained(range(len(request.roles)))


def _stages(request: Request, recipe: Recipe) -> tuple[Stage, ...]:
    """The first piece, every other in its turn, trimming, and the unit."""
    seam, key = request.rules.seam, "foundation.paper."
    lengths = (("seam", seam),)
    first, last = face(request.roles[0], _first(request)), len(request.roles) - 1
    stages = [Stage("place", key + "place", (view((first,), *_lines(request)),), ("piece-1",), lengths, gives=1)]
    done: tuple[StageShape, ...] = (first,)
    wide = fine_spot(Point(seam, seam))[0]
    for number in range(1, last + 1):
        piece, role = _added(request, number), request.roles[number]
        start, end = _ends(request, number)
        laid = StageView((*done, back(role, piece.corners(wide, opened=False))), (mark("stitch", start, end),))
        done = (*_sewn(request, number), face(role, piece.corners(wide, opened=True)))
        line = seam_between(drawn_polygons(request), tuple(range(number)), (number,))
        opened = pressing_view(done, line)
        stages.append(
            Stage("sew", key + "add", (laid, opened), (f"piece-{number + 1}",), lengths, gives=number + 1)
        )
    width, height = (side.length for side in unfinished_size(request))
    whole = _whole(request, seam * _SPARE)
    return (
        *stages,
        trim_rectangle(key + "trim", whole, rectangle(width, height, -seam, -seam), width, height),
        finished_stage("foundation.finished", _moved(_whole(request, seam), seam), width, height),
    )


def _ends(request: Request, number: int) -> tuple[Point, Point]:
    line = adding_line(drawn_polygons(request), number, tuple(range(number)))
    if line is None:
        raise ValueError(f"patch {number + 1} cannot be added")
    return Point(coarse(line[0][0]), coarse(line[0][1])), Point(coarse(line[1][0]), coarse(line[1][1]))


def _lines(request: Request) -> tuple[StageMark, ...]:
    """All lines of the foundation, as seen through it."""
    return tuple(mark("drawn", *polygon, polygon[0]) for polygon in drawn_polygons(request))


def _sewn(request: Request, count: int) -> tuple[StageShape, ...]:
    """The first so many patches, trimmed."""
    polygons, seam = drawn_polygons(request), request.rules.seam
    outlines = raw_outlines(polygons, tuple(range(count)), seam)
    return tuple(face(role, outline) for role, outline in zip(request.roles, outlines, strict=False))


def _whole(request: Request, margin: Length) -> tuple[StageShape, ...]:
    """All patches with so much cloth around the unit."""
    polygons = drawn_polygons(request)
    box = -margin, -margin, request.width + margin, request.height + margin
    outlines = raw_outlines(polygons, tuple(range(len(polygons))), margin, box)
    return tuple(face(role, outline) for role, outline in zip(request.roles, outlines, strict=True))


def _moved(shapes: tuple[StageShape, ...], seam: Length) -> tuple[StageShape, ...]:
    return tuple(
        face(shape.role, tuple(at(point.x + seam, point.y + seam) for point in shape.outline)) for shape in shapes
    )


FOUNDATION = Method(
    name="foundation",
    doc="Any straight-sided patches, drawn by their corners and sewn in that order to a printed foundation.",
    roles=patch_roles(),
    listed=True,
    keys=(PATCHES,),
    default_size=(Fraction(2), Fraction(2)),
    refuse=_refuse,
    patches=_patches,
    recipe=_recipe,
    stages=_stages,
    seams=_seams,
    pressed_away=(("paper", OUTWARD),),
)
