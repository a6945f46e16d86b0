"""A half-rectangle triangle: two triangles, their diagonal from lower left to upper right, the first above it.

It is not its own mirror image: turned over it is another unit, and its rectangles are cut on the other diagonal.
Cut size (common practice is to cut generously, 1 in and 2 in more for a 1:2 shape, and to trim; the least that works
follows from the geometry): rectangles of the unit's proportion, so large that once sewn, tips even, the unfinished unit
lies inside with the seam through the corners of its finished size. With s the seam, a and b the finished sides and d
their diagonal, they are at least a + 2s(1 + b/d) by b + 2s(1 + a/d).
"""

from __future__ import annotations

from fractions import Fraction

from patchwright.core.geometry import Point, Polygon, moved, rectangle
from patchwright.core.length import ZERO, Cut, Length
from patchwright.methods.limits import refuse_wide_seam
from patchwright.methods.method import (
    Method,
    Recipe,
    RecipePiece,
    Refusal,
    Request,
    Role,
    SeamMark,
    Stage,
    StageShape,
    TriangleRules,
    UnitPatch,
    unfinished_size,
)
from patchwright.methods.pressed import pressing_view
from patchwright.methods.staging import at, back, face, finished_stage, gap, mark, trim_rectangle, view

_BOTH = ("first", "second")
_COARSEST = Fraction(1)
"""Cut sizes keep the exact proportion unless that lengthens them by more than this, in the pattern's unit."""

_FINEST = Fraction(1, 64)
"""The least step of cut sizes that do not keep it."""

_MOST = 10**10
"""Bound of the numbers under a square root, which is brought to its simplest form by trial division."""


def exact_rectangle(width: Length, height: Length, seam: Length) -> tuple[Length, Length]:
    """The rectangle that cut once gives triangles with exactly one seam around, whose tips must be sewn offset."""
    diagonal = _diagonal(width, height)
    return width + seam + seam * ((diagonal + width) / height), height + seam + seam * ((diagonal + height) / width)


def _diagonal(width: Length, height: Length) -> Length:
    square = (width * width + height * height).rational()
    return Length.root(square.numerator * square.denominator, Fraction(1, square.denominator))


def _refuse(request: Request) -> tuple[Refusal, ...]:
    width, height = request.width, request.height
    if not _is_measurable(width, height):
        message = f"a half-rectangle needs sides that a ruler shows, and these are {width} and {height}"
        return (Refusal("not-measurable", "size", message, ("give the size as lengths of its own",)),)
    if min(width, height) <= ZERO:
        return refuse_wide_seam(request, ZERO, "a triangle")
    return refuse_wide_seam(request, width * height / _diagonal(width, height), "a triangle")


def _is_measurable(width: Length, height: Length) -> bool:
    if not (width.is_rational and height.is_rational):
        return False
    square = (width * width + height * height).rational()
    return square.numerator * square.denominator <= _MOST


def _patches(request: Request) -> tuple[UnitPatch, ...]:
    upper, lower = _triangles(request.width, request.height)
    return UnitPatch("first", upper), UnitPatch("second", lower)


def _triangles(width: Length, height: Length) -> tuple[Polygon, Polygon]:
    """The halves of a rectangle above and below its rising diagonal."""
    upper: Polygon = (at(ZERO, ZERO), at(width, ZERO), at(ZERO, height))
    return upper, (at(width, ZERO), at(width, height), at(ZERO, height))


def _recipe(request: Request) -> Recipe:
    width, height = _cut_size(request.width, request.height, request.rules)
    sewn = _sewn_size(width, height, request.rules.seam)
    need = unfinished_size(request)
    rounding = max(sewn[0] - need[0].length, sewn[1] - need[1].length)
    pieces = tuple(RecipePiece(role, role, Cut(width), Cut(height), 1, "once") for role in _BOTH)
    return Recipe("cut", pieces, 2, (0, 2), trim=True, rounding=rounding, notes=("one-hand",))


def _cut_size(width: Length, height: Length, rules: TriangleRules) -> tuple[Length, Length]:
    """Both sides a whole number of steps, in the unit's proportion where that costs little, else a step longer."""
    seam, step = rules.seam, rules.step
    diagonal = _diagonal(width, height)
    wide, high = (seam + seam * height / diagonal) * 2 / width, (seam + seam * width / diagonal) * 2 / height
    factor = max(wide, high)
    exact = width + width * factor, height + height * factor
    ratio = width.rational() / height.rational()
    if max(ratio.numerator, ratio.denominator) * step <= _COARSEST:
        steps = (exact[0] / (ratio.numerator * step)).ceil() * step
        return Length(steps * ratio.numerator), Length(steps * ratio.denominator)
    step = max(step, _FINEST)
    return exact[0].up_to(step) + Length(step), exact[1].up_to(step) + Length(step)


def _sewn_size(width: Length, height: Length, seam: Length) -> tuple[Length, Length]:
    """The rectangle inside two triangles of this cut size, sewn on their long edges with tips even, and opened.

    Opening moves the second triangle by two seams toward the first, at right angles to the diagonal.
    """
    across, down = _proportion(width, height)
    diagonal = _diagonal(across, down)
    return width - seam * 2 * down / diagonal, height - seam * 2 * across / diagonal


def _stitched(width: Length, height: Length, seam: Length) -> tuple[Length, Length]:
    """The short sides of a triangle of this cut size from its square corner to the stitches."""
    across, down = _proportion(width, height)
    diagonal = _diagonal(across, down)
    return width - seam * diagonal / down, height - seam * diagonal / across


def _proportion(width: Length, height: Length) -> tuple[Length, Length]:
    """The smallest whole numbers in the proportion of two sides."""
    ratio = width.rational() / height.rational()
    return Length(ratio.numerator), Length(ratio.denominator)


def _stages(request: Request, recipe: Recipe) -> tuple[Stage, ...]:
    width, height = recipe.pieces[0].width.length, recipe.pieces[0].height.length
    seam, key = request.rules.seam, "half-rectangle.cut."
    away = width + gap(width)
    cuts = tuple(mark("cut", at(x, height), at(x + width, ZERO)) for x in (ZERO, away))
    rectangles = face("first", rectangle(width, height)), face("second", rectangle(width, height, away))
    upper, lower = _triangles(width, height)
    pair = face("first", upper), back("second", _turned_over(lower, width, height))
    sewn = _sewn_size(width, height, seam)
    legs = _stitched(width, height, seam)
    stitch = mark("stitch", at(ZERO, legs[1]), at(legs[0], ZERO))
    opened = _opened(sewn, legs)
    line = SeamMark(0, 1, (at(legs[0], ZERO), at(ZERO, legs[1])))
    size = tuple(side.length for side in unfinished_size(request))
    outline = moved(rectangle(size[0], size[1]), (sewn[0] - size[0]) / 2, (sewn[1] - size[1]) / 2)
    return (
        Stage("cut-apart", key + "cut-apart", (view(rectangles, *cuts),), pieces=_BOTH, apart=2),
        Stage("sew", key + "sew", (view(pair, stitch),), lengths=(("seam", seam),), apart=2),
        Stage("press", key + "press", (pressing_view(opened, line),), gives=2, apart=2),
        trim_rectangle("half-rectangle.trim", opened, outline, size[0], size[1], 2),
        finished_stage("half-rectangle.finished", _trimmed(request), size[0], size[1]),
    )


def _turned_over(outline: Polygon, width: Length, height: Length) -> Polygon:
    """An outline reflected over the rising diagonal of a rectangle, still clockwise."""
    square = (width * width + height * height).rational()

    def over(point: Point) -> Point:
        distance = (point.x * height + point.y * width - width * height) * 2 / square
        return Point(point.x - distance * height, point.y - distance * width)

    return tuple(over(point) for point in reversed(outline))


def _opened(size: tuple[Length, Length], legs: tuple[Length, Length]) -> tuple[StageShape, ...]:
    """Both triangles opened: square corners `size` apart, short sides as long as the stitches leave them."""
    width, height = size
    lower: Polygon = (at(width, height - legs[1]), at(width, height), at(width - legs[0], height))
    return face("first", _triangles(*legs)[0]), face("second", lower)


def _trimmed(request: Request) -> tuple[StageShape, ...]:
    """The unfinished unit: its seam passes through the finished corners and meets the raw edges beside them."""
    width, height, seam = request.width, request.height, request.rules.seam
    full_width, full_height = width + seam * 2, height + seam * 2
    if width > height:
        start, end = (ZERO, height + seam + seam * height / width), (full_width, seam - seam * height / width)
        upper: Polygon = (at(ZERO, ZERO), at(full_width, ZERO), at(*end), at(*start))
        lower: Polygon = (at(*end), at(full_width, full_height), at(ZERO, full_height), at(*start))
    else:
        start, end = (seam - seam * width / height, full_height), (width + seam + seam * width / height, ZERO)
        upper = (at(ZERO, ZERO), at(*end), at(*start), at(ZERO, full_height))
        lower = (at(*end), at(full_width, ZERO), at(full_width, full_height), at(*start))
    return face("first", _distinct(upper)), face("second", _distinct(lower))


def _distinct(outline: Polygon) -> Polygon:
    """Without the second of two equal corners, which a square has."""
    return tuple(dict.fromkeys(outline))


HALF_RECTANGLE = Method(
    name="half-rectangle",
    doc="A rectangle of two triangles; at @0 its diagonal runs from lower left to upper right, the first above it.",
    roles=(Role("first", "The triangle above the diagonal."), Role("second", "The triangle below the diagonal.")),
    listed=True,
    keys=(),
    default_size=(Fraction(1), Fraction(2)),
    refuse=_refuse,
    patches=_patches,
    recipe=_recipe,
    stages=_stages,
)
