"""A quarter circle: a pie piece in the upper left corner of a square, and the piece around its curve.

Both are cut with templates. With r the finished radius and s the seam, the pie's curve is cut at r + s and the curve of
the piece around it at r - s (published: the two differ by 1/2 in where the seam is 1/4 in); all straight sides are cut
one seam outside the finished ones.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from patchwright.core.geometry import Arc, Outline, Point, Polygon, Side, moved, rectangle
from patchwright.core.length import ZERO, Cut, Length
from patchwright.core.measure import plain_length
from patchwright.methods.allowance import hint_step
from patchwright.methods.curves import quarter_points
from patchwright.methods.limits import refuse_unless_square, refuse_wide_seam, size_text
from patchwright.methods.method import (
    Key,
    Method,
    Recipe,
    RecipePiece,
    Refusal,
    Request,
    Role,
    SeamMark,
    Stage,
    StageShape,
    UnitPatch,
    unfinished_size,
)
from patchwright.methods.pressed import pressing_view
from patchwright.methods.staging import at, back, face, finished_stage, gap, mark, view
from patchwright.methods.template import Template, boxed, piece_rectangle

_BOTH = ("pie", "around")
_TIGHTEST = 3
"""A finished radius of fewer seams than this makes a curve that cannot be eased in: common practice, no source."""


def _refuse(request: Request) -> tuple[Refusal, ...]:
    return (
        refuse_unless_square(request, "a quarter circle")
        or refuse_wide_seam(request, request.width / (_TIGHTEST + 1), "a quarter circle's curve")
        or _refuse_radius(request)
    )


def _refuse_radius(request: Request) -> tuple[Refusal, ...]:
    """The curve has to leave the piece around it one seam at its ends, and must not be too tight to sew."""
    radius, rules = request.extent("radius"), request.rules
    least, most = rules.seam * _TIGHTEST, request.width - rules.seam
    if least <= radius <= most and _is_measurable(radius, rules.seam):
        return ()
    text, size = plain_length(radius, rules.system), size_text(request.width, request.height, rules)
    why = "is too tight on" if radius < least else "leaves no room in" if radius > most else "cannot be drawn on"
    message = f"a curve of radius {text} {why} a unit of {size}"
    low, high = least.up_to(hint_step(rules)), most.down_to(hint_step(rules))
    near = min(max(radius.nearest(hint_step(rules)), low), high)
    hint = f"nearest radius that works: `{plain_length(near, rules.system)}`"
    return (Refusal("curve-radius", "radius", message, (hint,) if low <= high else ()),)


def _is_measurable(radius: Length, seam: Length) -> bool:
    """Whether where the curve meets the cut lines can be given exactly without long work."""
    if not (radius.is_rational and seam.is_rational):
        return False
    return all((r.numerator * r.denominator) < 10**10 for r in (_reach_square(radius, seam, sign) for sign in (1, -1)))


def _reach_square(radius: Length, seam: Length, sign: int) -> Fraction:
    """The square of how far from the center, along a straight cut line, an arc offset by `sign` seams meets it."""
    return (radius * radius + seam * radius * (2 * sign)).rational()


def _reach(radius: Length, seam: Length, sign: int) -> Length:
    square = _reach_square(radius, seam, sign)
    return Length.root(square.numerator * square.denominator, Fraction(1, square.denominator))


def _patches(request: Request) -> tuple[UnitPatch, ...]:
    side, radius = request.width, request.extent("radius")
    curve = quarter_points(at(ZERO, ZERO), radius)
    around = (*reversed(curve), at(side, ZERO), at(side, side), at(ZERO, side))
    return UnitPatch("pie", (at(ZERO, ZERO), *curve)), UnitPatch("around", around)


@dataclass(frozen=True, slots=True)
class _Shapes:
    """Both templates in the unit's coordinates: outlines, and corners that draw them."""

    side: Length
    radius: Length
    seam: Length

    def pie_curve(self) -> Arc:
        """The cut curve of the pie, which ends on the straight cut lines."""
        out, far = -self.seam, _reach(self.radius, self.seam, 1)
        return Arc(at(far, out), at(out, far), at(ZERO, ZERO), self.radius + self.seam, True)

    def around_curve(self) -> Arc:
        out, far = -self.seam, _reach(self.radius, self.seam, -1)
        return Arc(at(out, far), at(far, out), at(ZERO, ZERO), self.radius - self.seam, False)

    def pie(self) -> Template:
        origin, curve, radius, out = at(ZERO, ZERO), self.pie_curve(), self.radius, -self.seam
        start, end, corner = at(radius, ZERO), at(ZERO, radius), at(out, out)
        seam_line = Side(origin, start), Arc(start, end, origin, radius, True), Side(end, origin)
        cut_line = Side(corner, curve.start), curve, Side(curve.end, corner)
        far = radius + self.seam
        return boxed(seam_line, cut_line, (corner, at(far, far)))

    def around(self) -> Template:
        origin, curve, side, radius = at(ZERO, ZERO), self.around_curve(), self.side, self.radius
        start, end = at(ZERO, radius), at(radius, ZERO)
        corners = at(side, ZERO), at(side, side), at(ZERO, side)
        seam_line = (Arc(start, end, origin, radius, False), *_sides(end, *corners, start))
        out, far = -self.seam, side + self.seam
        cut_line = (curve, *_sides(curve.end, at(far, out), at(far, far), at(out, far), curve.start))
        return boxed(seam_line, cut_line, (at(out, out), at(far, far)))

    def pie_drawn(self) -> Polygon:
        """The cut pie, in the unit's coordinates."""
        curve = self.pie_curve()
        inner = quarter_points(curve.center, curve.radius)
        return (at(-self.seam, -self.seam), curve.start, *inner, curve.end)

    def around_drawn(self) -> Polygon:
        curve, out, far = self.around_curve(), -self.seam, self.side + self.seam
        inner = reversed(quarter_points(curve.center, curve.radius))
        return (curve.start, *inner, curve.end, at(far, out), at(far, far), at(out, far))


def _sides(*points: Point) -> Outline:
    return tuple(Side(here, there) for here, there in pairwise(points))


def _shapes(request: Request) -> _Shapes:
    return _Shapes(request.width, request.extent("radius"), request.rules.seam)


def _recipe(request: Request) -> Recipe:
    shapes, step = _shapes(request), request.rules.step
    pieces = []
    for role, template in (("pie", shapes.pie()), ("around", shapes.around())):
        width, height = piece_rectangle(template, step)
        pieces.append(RecipePiece(role, role, Cut(width), Cut(height), 1, template=template))
    return Recipe("template", tuple(pieces), batch=1, gives=(0,), trim=False, rounding=ZERO)


def _stages(request: Request, recipe: Recipe) -> tuple[Stage, ...]:
    shapes, seam, key = _shapes(request), request.rules.seam, "quarter-circle.template."
    pie, around = moved(shapes.pie_drawn(), seam, seam), moved(shapes.around_drawn(), seam, seam)
    first, second = recipe.pieces
    away = first.width.length + gap(second.width.length)
    traced = view(
        (
            face("pie", rectangle(first.width.length, first.height.length)),
            face("around", rectangle(second.width.length, second.height.length, away)),
        ),
        mark("cut", *pie, pie[0]),
        mark("cut", *moved((*around, around[0]), away, ZERO)),
    )
    shift = first.width.length / 4
    far = request.width + seam * 2
    middle = seam + request.extent("radius") * Fraction(5, 7)
    apart = moved(around, shift, shift)
    marked = view(
        (face("pie", pie), face("around", apart)),
        mark("fold", at(ZERO, ZERO), at(middle, middle)),
        mark("fold", at(middle + shift, middle + shift), at(far + shift, far + shift)),
    )
    joined = tuple(point.moved(seam, seam) for point in quarter_points(at(ZERO, ZERO), request.extent("radius")))
    pinned = view((face("pie", pie), back("around", _folded(request, shapes))), mark("stitch", *joined))
    size = unfinished_size(request)[0].length
    unit = _unit(request)
    return (
        Stage("cut-apart", key + "shape", (traced,), pieces=_BOTH),
        Stage("mark", key + "mark", (marked,), pieces=_BOTH),
        Stage("sew", key + "sew", (pinned,), _BOTH, (("seam", seam),)),
        Stage("press", key + "press", (pressing_view(unit, SeamMark(0, 1, joined)),), pieces=_BOTH),
        finished_stage("quarter-circle.finished", unit, size),
    )


def _folded(request: Request, shapes: _Shapes) -> Polygon:
    """The piece around the curve laid right side down on the pie, only its part along the curve drawn."""
    seam = request.rules.seam
    outer, inner = shapes.pie_curve(), shapes.radius - seam
    near = [point.moved(seam, seam) for point in quarter_points(at(ZERO, ZERO), inner)]
    far = [point.moved(seam, seam) for point in quarter_points(at(ZERO, ZERO), outer.radius)]
    return (*far, *reversed(near))


def _unit(request: Request) -> tuple[StageShape, ...]:
    """The unit with raw edges; the seam runs on to them."""
    side, seam, radius = request.width, request.rules.seam, request.extent("radius")
    curve = [point.moved(seam, seam) for point in quarter_points(at(ZERO, ZERO), radius)]
    start, end = at(seam + radius, ZERO), at(ZERO, seam + radius)
    far = side + seam * 2
    pie = face("pie", (at(ZERO, ZERO), start, *curve, end))
    return pie, face("around", (end, *reversed(curve), start, at(far, ZERO), at(far, far), at(ZERO, far)))


QUARTER_CIRCLE = Method(
    name="quarter-circle",
    doc="A square with a curved seam; at @0 the pie piece lies in the upper left corner. Cut with templates.",
    roles=(Role("pie", "The quarter circle."), Role("around", "The piece around its curve.")),
    listed=True,
    keys=(Key("radius", "The finished radius of the curve.", "extent", default="3/2"),),
    default_size=(Fraction(2), Fraction(2)),
    refuse=_refuse,
    patches=_patches,
    recipe=_recipe,
    stages=_stages,
    # A curve is pressed away from its pie (common practice, no source).
    pressed_away=(("template", "pie"),),
)
