"""A square in a square in a square: a square, triangles that set it on its corner, and triangles around those.

Cut sizes (common practice): the center at half the finished size + 2 seams; both rounds of triangles as half-square
triangles, the inner of finished size/(2√2), the outer of half the finished size.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from patchwright.core.geometry import Polygon, rectangle
from patchwright.core.length import ROOT_TWO, ZERO, Finished, Length
from patchwright.methods.allowance import half_square_cut, is_noticeable, needs_trimming, rounding_remarks
from patchwright.methods.flipping import CORNERS, corner_patch
from patchwright.methods.framing import Frame, diamond, frame_stages, framed, last_seams
from patchwright.methods.limits import refuse_unless_square, refuse_wide_seam
from patchwright.methods.method import (
    OUTWARD,
    Method,
    PatchSeam,
    Recipe,
    RecipePiece,
    Refusal,
    Request,
    Role,
    Stage,
    StageShape,
    TriangleRules,
    UnitPatch,
    unfinished_size,
)
from patchwright.methods.pressed import chained, pressing_view
from patchwright.methods.staging import at, face, finished_stage, gap, rising, square, trim_stage, view

_FIRST = (1, 3, 2, 4)
"""The inner triangles in sewing order, by their patches: opposite ones first."""
_SECOND = (5, 7, 6, 8)
"""The corners likewise."""


def _refuse(request: Request) -> tuple[Refusal, ...]:
    return refuse_unless_square(request, "a nested square") or refuse_wide_seam(
        request, request.width / 4, "an inner triangle"
    )


def _patches(request: Request) -> tuple[UnitPatch, ...]:
    side = request.width
    corners = (UnitPatch("corners", corner_patch(corner, side / 2, side, side)) for corner in CORNERS)
    inner = (UnitPatch("inner", outline) for outline in _inner(side))
    return (UnitPatch("center", rectangle(side / 2, side / 2, side / 4, side / 4)), *inner, *corners)


def _inner(side: Length) -> tuple[Polygon, ...]:
    """The four inner triangles of a unit of this finished side."""
    near, half, far = side / 4, side / 2, side * 3 / 4
    return (
        (at(half, ZERO), at(far, near), at(near, near)),
        (at(far, near), at(side, half), at(far, far)),
        (at(near, far), at(far, far), at(half, side)),
        (at(near, near), at(near, far), at(ZERO, half)),
    )


def _recipe(request: Request) -> Recipe:
    rules = request.rules
    center = Finished(request.width / 2).cut(rules.seam)
    inner = half_square_cut(request.width / ROOT_TWO / 2, _untrimmed(rules))
    corner = half_square_cut(request.width / 2, rules)
    pieces = (
        RecipePiece("center", "center", center, center, 1),
        RecipePiece("inner", "inner", inner.cut, inner.cut, 2, "once"),
        RecipePiece("corners", "corners", corner.cut, corner.cut, 2, "once"),
    )
    excess = inner.excess / ROOT_TWO + corner.excess
    notes = rounding_remarks(inner, corner) + (("center-rounded",) if is_noticeable(inner.excess, rules) else ())
    trim = needs_trimming(excess, rules)
    return Recipe("cut", pieces, 1, (0,), trim, excess, notes, leaning=("inner",))


def _untrimmed(rules: TriangleRules) -> TriangleRules:
    """The rules for the inner triangles: only the whole unit is trimmed, so these get no oversize."""
    return replace(rules, triangles="standard") if rules.triangles == "trim" else rules


def _stages(request: Request, recipe: Recipe) -> tuple[Stage, ...]:
    center, inner, corner = (piece.width.length for piece in recipe.pieces)
    seam, size, key = request.rules.seam, unfinished_size(request)[0].length, "nested-square.cut"
    first = Frame("inner", "inner", center, inner, seam, _FIRST)
    depth = (first.side - (center - seam * 2) * ROOT_TWO) / 2
    base = framed("inner", (face("center", diamond(first.side, depth)),), first.side, depth)
    second = Frame("corners", "corners", first.side, corner, seam, _SECOND)
    away = inner + gap(inner)
    squares = view(
        (face("inner", square(inner)), face("corners", square(corner, away))),
        rising("cut", inner),
        rising("cut", corner, x=away),
    )
    sewn, far = _unit(request, second.side), (second.side - request.width) / 2
    trimmed = (trim_stage("nested-square.trim", sewn, second.side, size),) if recipe.trim else ()
    return (
        Stage("cut-apart", f"{key}.cut-apart", (squares,), pieces=("inner", "corners")),
        *frame_stages(f"{key}.inner", first, (face("center", square(center)),), "center"),
        Stage("press", f"{key}.press-inner", (pressing_view(base, *last_seams(first, first.side, depth)),),
              lengths=(("inner", first.side),)),
        *frame_stages(f"{key}.outer", second, base),
        Stage("press", f"{key}.press", (pressing_view(sewn, *last_seams(second, second.side, far)),)),
        *trimmed,
        finished_stage("nested-square.finished", _unit(request, size), size),
    )


def _seams(request: Request) -> tuple[PatchSeam, ...]:
    return chained((0, *_FIRST, *_SECOND))


def _unit(request: Request, side: Length) -> tuple[StageShape, ...]:
    """The unit at a raw side, what is inside as large as it finishes."""
    depth = (side - request.width) / 2
    inside = tuple(
        face(patch.role, tuple(point.moved(depth, depth) for point in patch.outline))
        for patch in _patches(request)
        if patch.role != "corners"
    )
    return framed("corners", inside, side, depth)


NESTED_SQUARE = Method(
    name="nested-square",
    doc="A square in a square in a square: the middle one stands on its corner.",
    roles=(
        Role("center", "The square in the middle."),
        Role("inner", "The four triangles around it."),
        Role("corners", "The four corner triangles."),
    ),
    listed=False,
    keys=(),
    default_size=(Fraction(4), Fraction(4)),
    refuse=_refuse,
    patches=_patches,
    recipe=_recipe,
    stages=_stages,
    seams=_seams,
    pressed_away=(("cut", OUTWARD),),
)
