"""A split square: half of it one large triangle, the other half two small ones; listed large, right, bottom.

It is not its own mirror image, so it is made from cut triangles, all of one hand.
Cut sizes (common practice): the large triangles as half-square triangles, the small ones as quarter-square triangles.
"""

from __future__ import annotations

from fractions import Fraction

from patchwright.core.geometry import Polygon, moved
from patchwright.core.length import ROOT_TWO, ZERO, Length
from patchwright.methods.allowance import half_square_cut, needs_trimming, quarter_square_cut, rounding_remarks
from patchwright.methods.limits import refuse_unless_square, refuse_wide_seam
from patchwright.methods.method import (
    Method,
    Recipe,
    RecipePiece,
    Refusal,
    Request,
    Role,
    SeamMark,
    Stage,
    StageMark,
    StageShape,
    StageView,
    UnitPatch,
    unfinished_size,
)
from patchwright.methods.pressed import pressing_view
from patchwright.methods.staging import (
    at,
    face,
    falling,
    finished_stage,
    gap,
    mark,
    rising,
    square,
    together,
    trim_stage,
    upper_left,
    view,
)

_ROLES = ("large", "right", "bottom")


def _refuse(request: Request) -> tuple[Refusal, ...]:
    return refuse_unless_square(request, "a split square") or refuse_wide_seam(
        request, request.width / 2, "a small triangle"
    )


def _patches(request: Request) -> tuple[UnitPatch, ...]:
    return tuple(UnitPatch(shape.role, shape.outline) for shape in _unit(request.width))


def _unit(side: Length) -> tuple[StageShape, ...]:
    """The three triangles of a square of this side."""
    middle = at(side / 2, side / 2)
    right: Polygon = (at(side, ZERO), at(side, side), middle)
    bottom: Polygon = (at(side, side), at(ZERO, side), middle)
    return face("large", upper_left(side)), face("right", right), face("bottom", bottom)


def _recipe(request: Request) -> Recipe:
    """Two large squares cut once and one small of each fabric cut twice make four."""
    rules = request.rules
    large, small = half_square_cut(request.width, rules), quarter_square_cut(request.width, rules)
    pieces = (
        RecipePiece("large", "large", large.cut, large.cut, 2, "once"),
        RecipePiece("right", "right", small.cut, small.cut, 1, "twice"),
        RecipePiece("bottom", "bottom", small.cut, small.cut, 1, "twice"),
    )
    excess = max(large.excess, small.excess)
    rounding = excess if excess > ZERO else min(large.excess, small.excess)
    trim = needs_trimming(excess, rules)
    notes = (*rounding_remarks(large, small), "one-hand")
    # A square that is cut twice has one triangle for each turn.
    each = (0, 1, 2, 3)
    apart: tuple[tuple[tuple[str, ...], tuple[int, ...]], ...] = ((("right",), each), (("bottom",), each))
    return Recipe("cut", pieces, 4, (0, 2, 0, 2), trim, rounding, notes, apart, either_hand=True)


def _stages(request: Request, recipe: Recipe) -> tuple[Stage, ...]:
    large, small = recipe.pieces[0].width.length, recipe.pieces[1].width.length
    seam, size, key = request.rules.seam, unfinished_size(request)[0].length, "split-square.cut."
    slant, seams = seam * ROOT_TWO, (("seam", seam),)
    triangle: Polygon = (at(ZERO, ZERO), at(small, ZERO), at(small / 2, small / 2))
    stitch = mark("stitch", at(small - slant, ZERO), at((small - slant) / 2, (small - slant) / 2))
    pair = together("bottom", "right", triangle, small)
    side = size + recipe.rounding
    sewn, long_seam = _unit(side), SeamMark(0, 1, (at(side, ZERO), at(ZERO, side)))
    trimmed = (trim_stage("split-square.trim", sewn, side, size, 4),) if recipe.trim else ()
    return (
        _cut_apart(key, large, small),
        Stage("sew", key + "sew-pairs", (view(pair, stitch), _pair(small - slant)), lengths=seams, apart=4),
        Stage("sew", key + "sew-halves", (view(_halves(large), *_joins(large, seam)),), lengths=seams, apart=4),
        Stage("press", key + "press", (pressing_view(sewn, long_seam),), gives=4, apart=4),
        *trimmed,
        finished_stage("split-square.finished", _unit(size), size, points=0 if trimmed else 4),
    )


def _pair(side: Length) -> StageView:
    """The two small triangles opened, as they will lie in a unit of this side."""
    _, right, bottom = _unit(side)
    return pressing_view((right, bottom), SeamMark(1, 2, (at(side, side), at(side / 2, side / 2))))


def _cut_apart(key: str, large: Length, small: Length) -> Stage:
    starts = (ZERO, large + gap(large), large + small + gap(large) * 2)
    shapes = tuple(
        face(role, square(side, x)) for role, side, x in zip(_ROLES, (large, small, small), starts, strict=True)
    )
    twice = (draw("cut", small, x=x) for x in starts[1:] for draw in (rising, falling))
    return Stage("cut-apart", key + "cut-apart", (view(shapes, rising("cut", large), *twice),), pieces=_ROLES, apart=4)


def _halves(side: Length) -> tuple[StageShape, ...]:
    """The large triangle and the sewn pair, moved apart."""
    large, right, bottom = _unit(side)
    away = gap(side) / 2
    return large, face("right", moved(right.outline, away, away)), face("bottom", moved(bottom.outline, away, away))


def _joins(side: Length, seam: Length) -> tuple[StageMark, ...]:
    away = gap(side) / 2
    return rising("stitch", side, -seam), rising("stitch", side, seam, away, away)


SPLIT_SQUARE = Method(
    name="split-square",
    doc="A square with one large triangle above its diagonal and two small ones below: listed large, right, bottom.",
    roles=(
        Role("large", "The large triangle, above the diagonal."),
        Role("right", "The small triangle at the right."),
        Role("bottom", "The small triangle at the bottom."),
    ),
    listed=True,
    keys=(),
    default_size=(Fraction(1), Fraction(1)),
    refuse=_refuse,
    patches=_patches,
    recipe=_recipe,
    stages=_stages,
)
