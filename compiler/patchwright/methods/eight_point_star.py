"""An eight-point star: eight diamonds around the middle of a square, with side triangles and corner squares set in.

With d the finished side of a diamond, the unit finishes at d(2 + √2) (published as 3.41 d). All pieces are cut with
templates, one seam outside their finished lines (common practice); where seams are set in, sewing stops at a dot.
"""

from __future__ import annotations

from fractions import Fraction

from patchwright.core.geometry import Orientation, Point, Polygon, moved, rectangle
from patchwright.core.length import ROOT_TWO, ZERO, Length
from patchwright.methods.flat_shapes import Group
from patchwright.methods.limits import refuse_unless_square, refuse_wide_seam
from patchwright.methods.method import (
    Method,
    PatchSeam,
    Recipe,
    Refusal,
    Request,
    Role,
    Stage,
    StageMark,
    StageView,
    UnitPatch,
    unfinished_size,
)
from patchwright.methods.staging import at, finished_stage, mark
from patchwright.methods.templated import (
    Shaped,
    parts_apart,
    parts_pressed,
    shaping_stage,
    template_recipe,
    unit_patches,
    whole_unit,
)

_DIAMONDS: Group = tuple(range(8))
_SQUARES, _TRIANGLES = range(8, 12), range(12, 16)
_PAIRS: list[Group] = [_DIAMONDS[start : start + 2] for start in range(0, 8, 2)]
_HALVES: list[Group] = [_DIAMONDS[:4], _DIAMONDS[4:]]


def diamond_side(width: Length) -> Length:
    """The finished side of the diamonds of a unit of this finished side."""
    return width * (Length(2) - ROOT_TWO) / 2


def _shapes(request: Request) -> tuple[Shaped, ...]:
    """Diamonds clockwise from right of the middle, then squares, then triangles, each clockwise from the same place."""
    side, half = request.width, request.width / 2
    long = diamond_side(side)
    short = long / ROOT_TWO
    center = at(half, half)
    first: Polygon = (center, at(half + long, half), at(side, half + short), at(half + short, half + short))
    second: Polygon = (center, at(half + short, half + short), at(half + short, side), at(half, half + long))
    square = rectangle(long, long, half + short, half + short)
    triangle: Polygon = (at(side, half - short), at(side, half + short), at(half + long, half))
    lays = [Orientation(turns) for turns in range(4)]
    diamonds = []
    for lay in lays:
        diamonds += [
            Shaped("first", "first", lay.polygon(first, side, side), first),
            Shaped("second", "second", lay.polygon(second, side, side), first),
        ]
    squares = (Shaped("background", "square", lay.polygon(square, side, side), square) for lay in lays)
    triangles = (Shaped("background", "triangle", lay.polygon(triangle, side, side), triangle) for lay in lays)
    return (*diamonds, *squares, *triangles)


def _refuse(request: Request) -> tuple[Refusal, ...]:
    return refuse_unless_square(request, "an eight-point star") or refuse_wide_seam(
        request, request.width * Fraction(1, 5), "a diamond"
    )


def _patches(request: Request) -> tuple[UnitPatch, ...]:
    return unit_patches(_shapes(request))


def _recipe(request: Request) -> Recipe:
    return template_recipe(request, _shapes(request))


def _seams(request: Request) -> tuple[PatchSeam, ...]:
    """Pairs, halves and the whole star, then what is set in, side by side.

    The seams between diamonds lie the same way around, so that the middle can open into a small star, and set-in seams
    lie away from the points: common practice, no source. Only the long seam through the middle is free.
    """
    made = [PatchSeam(pair[:1], pair[1:], "second") for pair in _PAIRS]
    made += [PatchSeam(_PAIRS[0], _PAIRS[1], "second"), PatchSeam(_PAIRS[2], _PAIRS[3], "second")]
    made.append(PatchSeam(_HALVES[0], _HALVES[1]))
    for turns, triangle in enumerate(_TRIANGLES):
        made += [PatchSeam((beside % 8,), (triangle,), "second") for beside in (turns * 2 - 1, turns * 2)]
    for turns, square in enumerate(_SQUARES):
        made += [PatchSeam((beside,), (square,), "second") for beside in (turns * 2, turns * 2 + 1)]
    return tuple(made)


def _stages(request: Request, recipe: Recipe) -> tuple[Stage, ...]:
    shapes, seam, key = _shapes(request), request.rules.seam, "eight-point-star.template."
    lengths = (("seam", seam),)
    with_triangles = (*_DIAMONDS, *_TRIANGLES)
    steps: tuple[tuple[str, list[Group], list[Group]], ...] = (
        ("pairs", [(number,) for number in _DIAMONDS], _PAIRS),
        ("halves", _PAIRS, _HALVES),
        ("star", _HALVES, [_DIAMONDS]),
        ("triangles", [_DIAMONDS, *((number,) for number in _TRIANGLES)], [with_triangles]),
        ("squares", [with_triangles, *((number,) for number in _SQUARES)], [tuple(range(len(shapes)))]),
    )
    named = {"pairs": ("first", "second"), "triangles": ("triangle",), "squares": ("square",)}
    stages = [shaping_stage(key + "shape", recipe)]
    done: set[PatchSeam] = set()
    for name, apart, whole in steps:
        drawn = StageView(parts_apart(request, shapes, apart), _dots(request) if name in named else ())
        parts = [
            (group, [s for s in _seams(request) if {*s.first, *s.second} <= set(group) and s not in done])
            for group in whole
        ]
        pressed = parts_pressed(request, shapes, parts)
        done.update(seam for _, seams in parts for seam in seams)
        # What the drawing before shows is not drawn again.
        views = (pressed,) if name in ("halves", "star") else (drawn, pressed)
        stages.append(Stage("sew", key + name, views, named.get(name, ()), lengths))
    size = unfinished_size(request)[0].length
    return (*stages, finished_stage("eight-point-star.finished", whole_unit(request, shapes), size))


def _dots(request: Request) -> tuple[StageMark, ...]:
    """Small crosses where set-in seams meet, at the inner corners between the points of the whole star."""
    half, long = request.width / 2, diamond_side(request.width)
    short, arm = long / ROOT_TWO, request.rules.seam / 2
    spots = (at(half + long, half), at(half + short, half + short))
    marks: list[StageMark] = []
    for turns in range(4):
        for spot in spots:
            place = Orientation(turns).point(spot, request.width, request.width)
            marks += [mark("drawn", *ends) for ends in _cross(place, arm)]
    return tuple(marks)


def _cross(place: Point, arm: Length) -> tuple[Polygon, Polygon]:
    ends: tuple[Polygon, Polygon] = ((at(-arm, ZERO), at(arm, ZERO)), (at(ZERO, -arm), at(ZERO, arm)))
    return moved(ends[0], place.x, place.y), moved(ends[1], place.x, place.y)


EIGHT_POINT_STAR = Method(
    name="eight-point-star",
    doc="A star of eight diamonds in two fabrics by turns; triangles and squares are set in. Cut with templates.",
    roles=(
        Role("first", "Every second diamond."),
        Role("second", "The diamonds between them."),
        Role("background", "The four side triangles and the four corner squares."),
    ),
    listed=True,
    keys=(),
    default_size=(Fraction(4), Fraction(4)),
    refuse=_refuse,
    patches=_patches,
    recipe=_recipe,
    stages=_stages,
    seams=_seams,
)
