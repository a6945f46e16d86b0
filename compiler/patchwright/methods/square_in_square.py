"""A square in a square: a square on its corner, its points in the middles of the sides, with four corner triangles.

Cut (common practice): the center at finished size/√2 + 2 seams, rounded up, and the corners as half-square triangles
of half the finished size. Flipped (common practice): squares of half the size flipped onto the corners of a full one.
"""

from __future__ import annotations

from fractions import Fraction

from patchwright.core.length import ROOT_TWO, ZERO, Finished, Length
from patchwright.methods.allowance import half_square_cut, is_noticeable, needs_trimming, rounded_cut, rounding_remarks
from patchwright.methods.flipping import CORNERS, Base, Flip, corner_patch, flip_seams, flip_stages, flipped_unit
from patchwright.methods.framing import Frame, diamond, frame_stages, framed, last_seams
from patchwright.methods.limits import refuse_unless_square, refuse_wide_seam
from patchwright.methods.method import (
    OUTWARD,
    Key,
    Method,
    PatchSeam,
    Recipe,
    RecipePiece,
    Refusal,
    Request,
    Role,
    Stage,
    StageShape,
    UnitPatch,
    unfinished_size,
)
from patchwright.methods.pressed import pressing_view
from patchwright.methods.staging import face, finished_stage, rising, square, trim_stage, view

_FLIPS = (
    Flip("nw", "corners", "corners", 1),
    Flip("se", "corners", "corners", 3),
    Flip("ne", "corners", "corners", 2),
    Flip("sw", "corners", "corners", 4),
)


def _refuse(request: Request) -> tuple[Refusal, ...]:
    return refuse_unless_square(request, "a square in a square") or refuse_wide_seam(
        request, request.width / ROOT_TWO / 2, "a corner triangle"
    )


def _patches(request: Request) -> tuple[UnitPatch, ...]:
    side = request.width
    corners = (UnitPatch("corners", corner_patch(corner, side / 2, side, side)) for corner in CORNERS)
    return (UnitPatch("center", diamond(side, ZERO)), *corners)


def _recipe(request: Request) -> Recipe:
    rules, how = request.rules, request.word("make")
    if how == "flipped":
        whole, half = Finished(request.width).cut(rules.seam), Finished(request.width / 2).cut(rules.seam)
        flipped = (RecipePiece("center", "center", whole, whole, 1), RecipePiece("corners", "corners", half, half, 4))
        return Recipe(how, flipped, batch=1, gives=(0,), trim=False, rounding=ZERO)
    center = rounded_cut(request.width / ROOT_TWO + rules.seam * 2, rules)
    corner = half_square_cut(request.width / 2, rules)
    pieces = (
        RecipePiece("center", "center", center.cut, center.cut, 1),
        RecipePiece("corners", "corners", corner.cut, corner.cut, 2, "once"),
    )
    excess = center.excess / ROOT_TWO + corner.excess
    notes = rounding_remarks(corner) + (("center-rounded",) if is_noticeable(center.excess, rules) else ())
    trim = needs_trimming(excess, rules)
    return Recipe(how, pieces, 1, (0,), trim, excess, notes, leaning=("center",))


def _stages(request: Request, recipe: Recipe) -> tuple[Stage, ...]:
    center, corner = (piece.width.length for piece in recipe.pieces)
    seam, size = request.rules.seam, unfinished_size(request)[0].length
    key = f"square-in-square.{recipe.how}"
    if recipe.how == "flipped":
        base = Base("center", "center", center, center)
        unit = flipped_unit(base, _FLIPS, corner)
        made = flip_stages(key, base, _FLIPS, corner, seam)
        return (*made, finished_stage("square-in-square.finished", unit, size))
    frame = Frame("corners", "corners", center, corner, seam, (1, 3, 2, 4))
    squares = view((face("corners", square(corner)),), rising("cut", corner))
    sewn, depth = _unit(request, frame.side), (frame.side - request.width) / 2
    trimmed = (trim_stage("square-in-square.trim", sewn, frame.side, size),) if recipe.trim else ()
    return (
        Stage("cut-apart", f"{key}.cut-apart", (squares,), pieces=("corners",)),
        *frame_stages(key, frame, (face("center", square(center)),), "center"),
        Stage("press", f"{key}.press", (pressing_view(sewn, *last_seams(frame, frame.side, depth)),)),
        *trimmed,
        finished_stage("square-in-square.finished", _unit(request, size), size),
    )


def _seams(request: Request) -> tuple[PatchSeam, ...]:
    """Opposite corners first, in both ways of making."""
    return flip_seams(_FLIPS)


def _unit(request: Request, side: Length) -> tuple[StageShape, ...]:
    """The unit at a raw side, its center as large as it finishes."""
    depth = (side - request.width) / 2
    return framed("corners", (face("center", diamond(side, depth)),), side, depth)


SQUARE_IN_SQUARE = Method(
    name="square-in-square",
    doc="A square on its corner inside a square.",
    roles=(Role("center", "The square on its corner."), Role("corners", "The four corner triangles.")),
    listed=False,
    keys=(
        Key(
            "make",
            "Whether the corners are cut as triangles or flipped from squares.",
            "word",
            choices=("cut", "flipped"),
            default="cut",
        ),
    ),
    default_size=(Fraction(2), Fraction(2)),
    refuse=_refuse,
    patches=_patches,
    recipe=_recipe,
    stages=_stages,
    seams=_seams,
    # A flipped corner is opened over its seam (common practice).
    pressed_away=(("cut", OUTWARD), ("flipped", "center")),
)
