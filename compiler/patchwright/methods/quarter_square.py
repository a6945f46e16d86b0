"""A quarter-square triangle: a square of four triangles that meet in its middle, listed top, right, bottom, left.

A fabric that is not listed is the one across: two fabrics face each other, three repeat the second.
Cut size of a square (common practice): finished side + 1 1/4 in, exactly 2s(1+√2) more; two at a time is sewn as
half-squares that are sewn together again, which turns every second unit over, so that four fabrics need cut triangles.
Of two units from one pair, turned to look alike, one has its last seam on the one diagonal, the other on the other, and
as both half-squares are pressed to one fabric, their seams lie mirrored. (Worked out by hand; no source.)
"""

from __future__ import annotations

from fractions import Fraction

from patchwright.core.geometry import Polygon, moved
from patchwright.core.length import ROOT_TWO, ZERO, Length
from patchwright.methods.allowance import needs_trimming, quarter_square_cut, rounding_remarks
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
from patchwright.methods.pressed import pressing_view, seam_between
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

_SIDES = ("top", "right", "bottom", "left")


def _around(request: Request) -> tuple[str, ...]:
    """The roles of the four triangles, clockwise from the top."""
    bottom = "bottom" if "bottom" in request.roles else "top"
    return "top", "right", bottom, "left" if "left" in request.roles else "right"


def _refuse(request: Request) -> tuple[Refusal, ...]:
    return refuse_unless_square(request, "a quarter-square") or refuse_wide_seam(
        request, request.width / 2, "a triangle"
    )


def _patches(request: Request) -> tuple[UnitPatch, ...]:
    quarters = _quarters(request.width)
    return tuple(UnitPatch(role, outline) for role, outline in zip(_around(request), quarters, strict=True))


def _quarters(side: Length) -> tuple[Polygon, ...]:
    """The four triangles of a square, clockwise from the top."""
    corners = square(side)
    middle = at(side / 2, side / 2)
    return tuple((start, end, middle) for start, end in zip(corners, corners[1:] + corners[:1], strict=True))


def _recipe(request: Request) -> Recipe:
    """Squares enough for two units of two fabrics, or four of three or four."""
    around = _around(request)
    cut = quarter_square_cut(request.width, request.rules)
    how = "cut" if len(set(around)) == 4 else request.word("make")
    batch = 2 if len(set(around)) == 2 else 4
    then: Then = "twice" if how == "cut" else "none"
    counts = {role: around.count(role) * batch // 4 for role in around}
    pieces = tuple(RecipePiece(role, role, cut.cut, cut.cut, count, then) for role, count in counts.items())
    gives = tuple(range(batch))
    trim = needs_trimming(cut.excess, request.rules)
    notes = rounding_remarks(cut) + (("four-fabrics",) if how != request.word("make") else ())
    return Recipe(how, pieces, batch, gives, trim, cut.excess, notes, either_hand=how == "cut")


def _stages(request: Request, recipe: Recipe) -> tuple[Stage, ...]:
    around, side, seam = _around(request), recipe.pieces[0].width.length, request.rules.seam
    made = _cut(around, side, seam, recipe.batch) if recipe.how == "cut" else _two(around, side, seam)
    return made + _opened(request, recipe)


def _two(around: tuple[str, ...], side: Length, seam: Length) -> tuple[Stage, ...]:
    """Half-squares two at a time; then two of them laid together, seam on seam, and sewn two at a time again."""
    key, shared = "quarter-square.two-at-a-time.", around[1]
    others = tuple(dict.fromkeys((around[0], around[2])))
    line, sewn = rising("drawn", side), (rising("stitch", side, seam), rising("stitch", side, -seam))
    pairs = tuple(together(shared, other, square(side), side) for other in others)
    place = "place" if len(others) == 1 else "place-three"
    return (
        Stage("mark", key + "mark", (view((back(shared, square(side)),), line),), pieces=(shared,)),
        Stage("place", key + place, tuple(view(pair, line) for pair in pairs), pieces=(shared, *others)),
        Stage("sew", key + "sew", (view(pairs[0], line, *sewn),), lengths=(("seam", seam),)),
        Stage("cut-apart", key + "cut-apart", (view(pairs[0], *sewn, rising("cut", side)),), gives=2, apart=2),
        *_again(around, side - seam * ROOT_TWO, seam),
    )


def _again(around: tuple[str, ...], side: Length, seam: Length) -> tuple[Stage, ...]:
    """Half-squares of this side, marked across their seams, laid together, sewn on both sides and cut apart.

    A batch of three fabrics has half-squares of two kinds, and a sample of them is one of each.
    """
    key = "quarter-square.two-at-a-time."
    top, shared, bottom, _ = around
    lower_half = face(shared, lower_right(side))
    diagonal = at(side, ZERO), at(ZERO, side)
    halves = [pressing_view((face(top, upper_left(side)), lower_half), SeamMark(0, 1, diagonal))]
    if bottom != top:
        halves.append(pressing_view((face(bottom, upper_left(side)), lower_half), SeamMark(2, 3, diagonal)))
    upper = back(top, upper_left(side)), back(shared, lower_right(side))
    step = side / 16
    lower = (
        face(shared, moved(upper_left(side), step, step)),
        face(bottom, moved(lower_right(side), step, step)),
    )
    line, sewn = falling("drawn", side), (falling("stitch", side, seam), falling("stitch", side, -seam))
    kinds = len(halves)
    return (
        Stage("press", key + "press-halves", tuple(halves), lengths=(("half", side),), gives=2, apart=2),
        Stage("mark", key + "mark-again", (view(upper, line),), apart=2),
        Stage("place", key + "place-again", (view(lower + upper, line),), apart=kinds),
        Stage("sew", key + "sew-again", (view(lower + upper, line, *sewn),), lengths=(("seam", seam),), apart=kinds),
        Stage("cut-apart", key + "cut-apart-again", (view(lower + upper, *sewn, falling("cut", side)),),
              apart=2 * kinds),
    )


def _cut(around: tuple[str, ...], side: Length, seam: Length, batch: int) -> tuple[Stage, ...]:
    """Squares cut twice; triangles sewn in pairs on their short sides, then pairs on their long sides."""
    key, roles = "quarter-square.cut.", tuple(dict.fromkeys(around))
    away = side + gap(side)
    squares = tuple(face(role, square(side, away * place)) for place, role in enumerate(roles))
    cuts = [draw("cut", side, x=away * place) for place in range(len(roles)) for draw in (rising, falling)]
    top = _quarters(side)[0]
    slant = seam * ROOT_TWO
    stitch = mark("stitch", at(side - slant, ZERO), at((side - slant) / 2, (side - slant) / 2))
    pairs = ((around[1], around[0]), (around[3], around[2]))[: 1 if len(roles) == 2 else 2]
    views = tuple(view(together(over, under, top, side), stitch) for over, under in pairs)
    seams = (("seam", seam),)
    return (
        Stage("cut-apart", key + "cut-apart", (view(squares, *cuts),), pieces=roles, apart=batch),
        Stage("sew", key + "sew-pairs", (*views, _pairs(around, side - slant)), lengths=seams, apart=batch),
        Stage("sew", key + "sew-halves", (_halves(around, side - slant, seam),), lengths=seams, apart=batch),
    )


def _pairs(around: tuple[str, ...], side: Length) -> StageView:
    """The opened pairs, moved apart; only one of two that are alike."""
    apart, quarters = gap(side), _quarters(side)
    moves = (apart, ZERO), (ZERO, apart)
    shapes = tuple(
        face(role, moved(part, *moves[place // 2]))
        for place, (role, part) in enumerate(zip(around, quarters, strict=True))
    )
    marks = (
        seam_between(quarters, (0,), (1,), *moves[0]),
        seam_between(quarters, (2,), (3,), *moves[1]),
    )
    return pressing_view(shapes[:2], *marks[:1]) if around[:2] == around[2:] else pressing_view(shapes, *marks)


def _halves(around: tuple[str, ...], side: Length, seam: Length) -> StageView:
    """Two opened pairs as they will lie, moved apart, with the seams that will join them."""
    apart = gap(side) / 2
    top, right, bottom, left = _quarters(side)
    shapes = [face(role, moved(part, apart, ZERO)) for role, part in zip(around[:2], (top, right), strict=True)]
    shapes += [face(role, moved(part, ZERO, apart)) for role, part in zip(around[2:], (bottom, left), strict=True)]
    return view(
        tuple(shapes), falling("stitch", side, -seam, apart, ZERO), falling("stitch", side, seam, ZERO, apart)
    )


def _opened(request: Request, recipe: Recipe) -> tuple[Stage, ...]:
    """Pressing, trimming where the unit needs it, and the unit with its raw edges."""
    size, around = unfinished_size(request)[0].length, _around(request)
    sewn, batch = size + recipe.rounding, recipe.batch
    key, shapes = f"quarter-square.{recipe.how}.press", _unit(around, sewn)
    last = pressing_view(shapes, SeamMark(0, 2, (at(sewn, sewn), at(ZERO, ZERO))))
    pressed = Stage("press", key, (last,), gives=batch, apart=batch)
    trimmed = (trim_stage("quarter-square.trim", shapes, sewn, size, batch),) if recipe.trim else ()
    finished = finished_stage("quarter-square.finished", _unit(around, size), size, points=0 if trimmed else batch)
    return (pressed, *trimmed, finished)


def _unit(around: tuple[str, ...], side: Length) -> tuple[StageShape, ...]:
    return tuple(face(role, outline) for role, outline in zip(around, _quarters(side), strict=True))


QUARTER_SQUARE = Method(
    name="quarter-square",
    doc="A square of four triangles, listed top, right, bottom, left; one that is not listed is like the one across.",
    roles=tuple(Role(side, f"The {side} triangle.", required=side in _SIDES[:2]) for side in _SIDES),
    listed=True,
    keys=(
        Key(
            "make",
            "Whether they are sewn as squares, two at a time, or from cut triangles; four fabrics are always cut.",
            "word",
            choices=("two-at-a-time", "cut"),
            default="two-at-a-time",
        ),
    ),
    default_size=(Fraction(1), Fraction(1)),
    refuse=_refuse,
    patches=_patches,
    recipe=_recipe,
    stages=_stages,
    two_hands=("two-at-a-time",),
)
