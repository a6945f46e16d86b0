"""A half-square triangle: a square of two triangles, its diagonal from lower left to upper right, the first above it.

Cut size of a square for two at a time, or cut once: finished side + 7/8 in by common practice, exactly s(2+√2) more.
Eight at a time: twice that side (common practice).
Four at a time: (finished + 2 seams)·√2 + 2 seams, all outer edges on the bias (common practice).
"""

from __future__ import annotations

from fractions import Fraction

from patchwright.core.geometry import moved
from patchwright.core.length import ROOT_TWO, ZERO, Cut, Length
from patchwright.methods.allowance import half_square_cut, needs_trimming, oversized_cut, rounding_remarks
from patchwright.methods.limits import refuse_unless_square, refuse_wide_seam
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
    StageView,
    Then,
    UnitPatch,
    unfinished_size,
)
from patchwright.methods.pressed import pressing_view
from patchwright.methods.staging import (
    at,
    back,
    face,
    falling,
    finished_stage,
    gap,
    lower_right,
    mark,
    rising,
    square,
    together,
    trim_stage,
    upper_left,
    view,
)

_EACH_TURN = (0, 2, 1, 3)
"""Turns of the units from the quarters of a square; of one fabric these, of the other with 1 and 3 exchanged."""

_BOTH = ("first", "second")


def _refuse(request: Request) -> tuple[Refusal, ...]:
    return refuse_unless_square(request, "a half-square") or refuse_wide_seam(
        request, request.width / ROOT_TWO, "a triangle"
    )


def _patches(request: Request) -> tuple[UnitPatch, ...]:
    side = request.width
    return UnitPatch("first", upper_left(side)), UnitPatch("second", lower_right(side))


def _recipe(request: Request) -> Recipe:
    rules, how = request.rules, request.word("make")
    if how == "four-at-a-time":
        seams = rules.seam * 2
        whole = oversized_cut((request.width + seams) * ROOT_TWO + seams, rules)
        return _made(request, how, whole.cut, whole.excess / ROOT_TWO, _EACH_TURN, ("bias-edges",))
    part = half_square_cut(request.width, rules)
    notes = rounding_remarks(part)
    if how == "eight-at-a-time":
        return _made(request, how, part.cut * 2, part.excess, _EACH_TURN * 2, notes)
    return _made(request, how, part.cut, part.excess, (0, 2), notes)


def _made(
    request: Request, how: str, side: Cut, excess: Length, gives: tuple[int, ...], notes: tuple[str, ...]
) -> Recipe:
    """One square of each fabric makes a batch; `excess` is what each side of a sewn unit measures too much."""
    then: Then = "once" if how == "singly" else "none"
    pieces = tuple(RecipePiece(role, role, side, side, 1, then) for role in _BOTH)
    # The second square's print turns the other way round: both are upright together in every other unit only.
    apart = ((_BOTH, (0, 2) * (len(gives) // 4)),) if len(gives) > 2 else ()
    return Recipe(
        how, pieces, len(gives), gives, needs_trimming(excess, request.rules), excess, notes, apart,
        leaning=_BOTH if how == "four-at-a-time" else (),
    )


def _stages(request: Request, recipe: Recipe) -> tuple[Stage, ...]:
    side, seam = recipe.pieces[0].width.length, request.rules.seam
    if recipe.how == "singly":
        made = _singly(side, seam)
    elif recipe.how == "four-at-a-time":
        made = _four(side, seam)
    elif recipe.how == "eight-at-a-time":
        made = _eight(side, seam)
    else:
        made = _two(side, seam)
    return made + _opened(request, recipe)


def _two(side: Length, seam: Length) -> tuple[Stage, ...]:
    """Squares sewn on both sides of a drawn diagonal, then cut apart on it."""
    key = "half-square.two-at-a-time."
    line, pair = rising("drawn", side), together("first", "second", square(side), side)
    sewn = rising("stitch", side, seam), rising("stitch", side, -seam)
    cut = view(pair, *sewn, rising("cut", side)), _halves(side, seam)
    return (
        Stage("mark", key + "mark", (view((back("first", square(side)),), line),), pieces=("first",)),
        Stage("place", key + "place", (view(pair, line),), pieces=_BOTH),
        Stage("sew", key + "sew", (view(pair, line, *sewn),), lengths=(("seam", seam),)),
        Stage("cut-apart", key + "cut-apart", cut, gives=2, apart=2),
    )


def _eight(side: Length, seam: Length) -> tuple[Stage, ...]:
    """Squares sewn on both sides of both diagonals, then cut into quarters and along the diagonals."""
    key = "half-square.eight-at-a-time."
    lines = rising("drawn", side), falling("drawn", side)
    pair = together("first", "second", square(side), side)
    sewn = tuple(draw("stitch", side, shift) for draw in (rising, falling) for shift in (seam, -seam))
    half = side / 2
    across = mark("cut", at(ZERO, half), at(side, half))
    down = mark("cut", at(half, ZERO), at(half, side))
    return (
        Stage("mark", key + "mark", (view((back("first", square(side)),), *lines),), pieces=("first",)),
        Stage("place", key + "place", (view(pair, *lines),), pieces=_BOTH),
        Stage("sew", key + "sew", (view(pair, *lines, *sewn),), lengths=(("seam", seam),)),
        Stage("cut-apart", key + "cut-apart", (view(pair, *lines, *sewn, across, down),), gives=4, apart=4),
        Stage("cut-apart", key + "cut-diagonals", (_quarters(half, seam),), gives=8, apart=8),
    )


def _four(side: Length, seam: Length) -> tuple[Stage, ...]:
    """Squares sewn together all around, then cut apart on both diagonals."""
    key = "half-square.four-at-a-time."
    pair = together("first", "second", square(side), side)
    far = side - seam
    sewn = tuple(
        mark("stitch", *ends)
        for ends in (
            (at(ZERO, seam), at(side, seam)),
            (at(far, ZERO), at(far, side)),
            (at(side, far), at(ZERO, far)),
            (at(seam, side), at(seam, ZERO)),
        )
    )
    cuts = rising("cut", side), falling("cut", side)
    return (
        Stage("place", key + "place", (view(pair),), pieces=_BOTH),
        Stage("sew", key + "sew", (view(pair, *sewn),), lengths=(("seam", seam),)),
        Stage("cut-apart", key + "cut-apart", (view(pair, *sewn, *cuts),), gives=4, apart=4),
    )


def _singly(side: Length, seam: Length) -> tuple[Stage, ...]:
    """Squares cut once on the diagonal, then triangles sewn together on their long edges."""
    key = "half-square.singly."
    squares = face("first", square(side)), face("second", square(side, side + gap(side)))
    cuts = rising("cut", side), rising("cut", side, x=side + gap(side))
    pair = together("first", "second", upper_left(side), side)
    return (
        Stage("cut-apart", key + "cut-apart", (view(squares, *cuts),), pieces=_BOTH, apart=2),
        Stage("place", key + "place", (view(pair),), pieces=_BOTH, apart=2),
        Stage("sew", key + "sew", (view(pair, rising("stitch", side, -seam)),), lengths=(("seam", seam),), apart=2),
    )


def _halves(side: Length, seam: Length) -> StageView:
    """The two sewn pairs of triangles after the cut, moved apart."""
    away = gap(side)
    upper = together("first", "second", upper_left(side), side)
    lower = together("first", "second", moved(lower_right(side), away, away), side)
    stitches = rising("stitch", side, -seam), rising("stitch", side, seam, away, away)
    return view(upper + lower, *stitches)


def _quarters(side: Length, seam: Length) -> StageView:
    """The four sewn quarters moved apart, each to be cut on its diagonal."""
    away = side + gap(side)
    shapes: tuple[StageShape, ...] = ()
    marks = []
    for x, y, draw in ((ZERO, ZERO, falling), (away, ZERO, rising), (ZERO, away, rising), (away, away, falling)):
        shapes += together("first", "second", square(side, x, y), side)
        marks += [draw("stitch", side, seam, x, y), draw("stitch", side, -seam, x, y), draw("cut", side, ZERO, x, y)]
    return view(shapes, *marks)


def _opened(request: Request, recipe: Recipe) -> tuple[Stage, ...]:
    """Pressing, trimming where the unit needs it, and the unit with its raw edges."""
    size = unfinished_size(request)[0].length
    sewn = size + recipe.rounding
    key = f"half-square.{recipe.how}."
    pressed = Stage("press", key + "press", (_pressed(sewn),), gives=recipe.batch, apart=recipe.batch)
    trimmed = (trim_stage("half-square.trim", _unit(sewn), sewn, size, recipe.batch),) if recipe.trim else ()
    points = 0 if trimmed else recipe.batch
    return (pressed, *trimmed, finished_stage("half-square.finished", _unit(size), size, points=points))


def _pressed(side: Length) -> StageView:
    return pressing_view(_unit(side), SeamMark(0, 1, (at(side, ZERO), at(ZERO, side))))


def _unit(side: Length) -> tuple[StageShape, ...]:
    return face("first", upper_left(side)), face("second", lower_right(side))


HALF_SQUARE = Method(
    name="half-square",
    doc="A square of two triangles; at @0 its diagonal runs from lower left to upper right, the first fabric above it.",
    roles=(Role("first", "The triangle above the diagonal."), Role("second", "The triangle below the diagonal.")),
    listed=True,
    keys=(
        Key(
            "make",
            "How many are made from one pair of squares.",
            "word",
            choices=("two-at-a-time", "eight-at-a-time", "four-at-a-time", "singly"),
            default="two-at-a-time",
        ),
    ),
    default_size=(Fraction(1), Fraction(1)),
    refuse=_refuse,
    patches=_patches,
    recipe=_recipe,
    stages=_stages,
)
