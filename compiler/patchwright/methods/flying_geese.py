"""Flying geese: a large triangle pointing up between two small ones, its base at the bottom.

Flipped (common practice): a rectangle at finished size + 2 seams and two squares of its height.
Four at a time without waste, and from cut triangles (common practice): one square at finished width + 1 1/4 in and four
at finished height + 7/8 in, exactly 2s(1+√2) and s(2+√2) more.
"""

from __future__ import annotations

from fractions import Fraction

from patchwright.core.geometry import Polygon, rectangle
from patchwright.core.length import ROOT_TWO, ZERO, Cut, Finished, Length
from patchwright.methods.allowance import (
    TriangleCut,
    half_square_cut,
    needs_trimming,
    quarter_square_cut,
    rounding_remarks,
)
from patchwright.methods.flipping import Base, Flip, corner_patch, flip_stages, flipped_unit
from patchwright.methods.limits import refuse_wide_seam, size_text
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
from patchwright.methods.staging import (
    at,
    back,
    face,
    falling,
    finished_stage,
    gap,
    mark,
    rising,
    square,
    trim_rectangle,
    upper_left,
    view,
)

_FLIPS = (Flip("nw", "sky", "sky", 1), Flip("ne", "sky", "sky", 2))


def _refuse(request: Request) -> tuple[Refusal, ...]:
    return _refuse_proportion(request) or refuse_wide_seam(request, request.height / ROOT_TWO, "a sky triangle")


def _refuse_proportion(request: Request) -> tuple[Refusal, ...]:
    """All ways of making them need a goose that is twice as wide as high."""
    width, height, rules = request.width, request.height, request.rules
    if width == height * 2:
        return ()
    sizes = [size_text(height * 2, height, rules), size_text(width, width / 2, rules)]
    message = f"flying geese must be twice as wide as high, but these finish at {size_text(width, height, rules)}"
    hint = f"nearest sizes that work: `{sizes[0]}` or `{sizes[1]}`"
    return (Refusal("geese-not-two-to-one", "size", message, (hint,)),)


def _patches(request: Request) -> tuple[UnitPatch, ...]:
    width, height = request.width, request.height
    goose: Polygon = (at(height, ZERO), at(width, height), at(ZERO, height))
    left, right = (corner_patch(flip.corner, height, width, height) for flip in _FLIPS)
    return UnitPatch("goose", goose), UnitPatch("sky", left), UnitPatch("sky", right)


def _recipe(request: Request) -> Recipe:
    how = request.word("make")
    if how == "flipped":
        width = Finished(request.width).cut(request.rules.seam)
        height = Finished(request.height).cut(request.rules.seam)
        pieces = (RecipePiece("goose", "goose", width, height, 1), RecipePiece("sky", "sky", height, height, 2))
        return Recipe(how, pieces, batch=1, gives=(0,), trim=False, rounding=ZERO)
    large = quarter_square_cut(request.width, request.rules)
    small = _small_square(request, large)
    whole = how == "four-at-a-time"
    pieces = (
        RecipePiece("goose-square", "goose", large.cut, large.cut, 1, "none" if whole else "twice"),
        RecipePiece("sky", "sky", small.cut, small.cut, 4, "none" if whole else "once"),
    )
    excess = max(large.excess, small.excess)
    rounding = excess if excess > ZERO else min(large.excess, small.excess)
    trim = needs_trimming(excess, request.rules)
    return Recipe(how, pieces, 4, (0, 1, 2, 3), trim, rounding, rounding_remarks(large, small))


def _small_square(request: Request, large: TriangleCut) -> TriangleCut:
    """The sky's square, raised by steps until the goose's point keeps a whole seam above it."""
    small = half_square_cut(request.height, request.rules)
    short = large.excess / 2 - small.excess
    if short <= ZERO:
        return small
    more = short.up_to(request.rules.step)
    return TriangleCut(small.cut + Cut(more), small.excess + more)


def _stages(request: Request, recipe: Recipe) -> tuple[Stage, ...]:
    goose, sky = (piece.width.length for piece in recipe.pieces)
    seam = request.rules.seam
    if recipe.how == "flipped":
        width, height = goose, sky
        base = Base("goose", "goose", width, height)
        made = flip_stages("flying-geese.flipped", base, _FLIPS, height, seam)
        return (*made, finished_stage("flying-geese.finished", flipped_unit(base, _FLIPS, height), width, height))
    if recipe.how == "four-at-a-time":
        return _four(goose, sky, seam) + _opened(request, recipe)
    return _cut(goose, sky, seam) + _opened(request, recipe)


def _four(goose: Length, sky: Length, seam: Length) -> tuple[Stage, ...]:
    """Two small squares on a diagonal of the large one, sewn and cut apart; then one on each remaining corner."""
    key, far = "flying-geese.four-at-a-time.", goose - sky
    laid = face("goose", square(goose)), back("sky", square(sky, far)), back("sky", square(sky, ZERO, far))
    line, sewn = rising("drawn", goose), (rising("stitch", goose, seam), rising("stitch", goose, -seam))
    half = _heart(goose, sky, seam)
    last = (*half, back("sky", square(sky)))
    stitches = falling("stitch", sky, seam), falling("stitch", sky, -seam)
    both, seams = ("sky", "goose-square"), (("seam", seam),)
    return (
        Stage("mark", key + "mark", (view((back("sky", square(sky)),), rising("drawn", sky)),), pieces=("sky",)),
        Stage("place", key + "place", (view(laid, line),), pieces=both),
        Stage("sew", key + "sew", (view(laid, line, *sewn),), lengths=seams),
        Stage("cut-apart", key + "cut-apart", (view(laid, *sewn, rising("cut", goose)),), gives=2, apart=2),
        Stage("press", key + "press-halves", (pressing_view(half, *_heart_seams(goose, sky, seam)),), apart=2),
        Stage("place", key + "place-last", (view(last, falling("drawn", sky)),), pieces=("sky",), apart=2),
        Stage("sew", key + "sew-last", (view(last, *stitches, falling("cut", sky)),), lengths=seams, apart=2),
    )


def _heart(goose: Length, sky: Length, seam: Length) -> tuple[StageShape, ...]:
    """Half of the large square with its two small triangles pressed away from it."""
    edge, depth = goose - seam * ROOT_TWO, sky - seam * ROOT_TWO
    right: Polygon = (at(edge, ZERO), at(edge, depth), at(edge - depth, depth))
    lower: Polygon = (at(ZERO, edge), at(depth, edge - depth), at(depth, edge))
    return face("goose", upper_left(edge)), face("sky", right), face("sky", lower)


def _heart_seams(goose: Length, sky: Length, seam: Length) -> tuple[SeamMark, SeamMark]:
    """The seams of such a half, each the first one of a unit."""
    edge, depth = goose - seam * ROOT_TWO, sky - seam * ROOT_TWO
    inner = at(edge - depth, depth), at(depth, edge - depth)
    return SeamMark(0, 1, (at(edge, ZERO), inner[0])), SeamMark(0, 1, (inner[1], at(ZERO, edge)))


def _cut(goose: Length, sky: Length, seam: Length) -> tuple[Stage, ...]:
    """Small triangles sewn to the short sides of a large one, which is drawn with its long side at the bottom."""
    key, half, slant = "flying-geese.cut.", goose / 2, seam * ROOT_TWO
    squares = face("goose", square(goose)), face("sky", square(sky, goose + gap(goose)))
    cuts = rising("cut", goose), falling("cut", goose), rising("cut", sky, x=goose + gap(goose))
    large: Polygon = (at(half, ZERO), at(goose, half), at(ZERO, half))
    left: Polygon = (at(sky, half - sky), at(sky, half), at(ZERO, half))
    first = face("goose", large), back("sky", left)
    stitch = mark("stitch", at(slant, half), at(sky, half - sky + slant))
    opened: Polygon = (at(slant, half - sky + slant), at(sky, half - sky + slant), at(slant, half))
    left_seam = SeamMark(0, 1, (at(slant, half), at(sky, half - sky + slant)))
    pressed = pressing_view((face("goose", large), face("sky", opened)), left_seam)
    right: Polygon = (at(goose - sky, half - sky), at(goose, half), at(goose - sky, half))
    second = face("goose", large), face("sky", opened), back("sky", right)
    stitch_right = mark("stitch", at(goose - slant, half), at(goose - sky, half - sky + slant))
    seams = (("seam", seam),)
    return (
        Stage("cut-apart", key + "cut-apart", (view(squares, *cuts),), pieces=("goose-square", "sky"), apart=4),
        Stage("sew", key + "sew", (view(first, stitch), pressed), lengths=seams, apart=4),
        Stage("sew", key + "sew-last", (view(second, stitch_right),), lengths=seams, apart=4),
    )


def _opened(request: Request, recipe: Recipe) -> tuple[Stage, ...]:
    """Pressing, trimming where the unit needs it, and the unit with its raw edges."""
    goose, sky = (piece.width.length for piece in recipe.pieces)
    seam = request.rules.seam
    slant = seam * ROOT_TWO
    sewn, point = _unit(goose - slant * 2, sky - slant), sky - goose / 2
    width, height = (side.length for side in unfinished_size(request))
    last = SeamMark(0, 2, (sewn[0].outline[0], sewn[0].outline[1]))
    pressed = (pressing_view(sewn, last),)
    stages = [Stage("press", f"flying-geese.{recipe.how}.press", pressed, gives=recipe.batch, apart=recipe.batch)]
    if recipe.trim:
        outline = rectangle(width, height, (goose - slant * 2 - width) / 2, point - seam)
        stages.append(trim_rectangle("flying-geese.trim", sewn, outline, width, height, recipe.batch))
    return (*stages, finished_stage("flying-geese.finished", _unit(width, height), width, height))


def _unit(width: Length, height: Length) -> tuple[StageShape, ...]:
    """A sewn unit with raw edges: its seams leave the lower corners and meet below the upper edge."""
    half, point = width / 2, height - width / 2
    goose: Polygon = (at(half, point), at(width, height), at(ZERO, height))
    left: Polygon = (at(ZERO, ZERO), at(half - point, ZERO), at(half, point), at(ZERO, height))
    right: Polygon = (at(half - point, ZERO), at(width, ZERO), at(width, height))
    return face("goose", goose), face("sky", left), face("sky", right)


FLYING_GEESE = Method(
    name="flying-geese",
    doc="A large triangle between two small ones; at @0 it points up.",
    roles=(Role("goose", "The large triangle."), Role("sky", "The two small triangles.")),
    listed=False,
    keys=(
        Key(
            "make",
            "How the geese are made.",
            "word",
            choices=("flipped", "four-at-a-time", "cut"),
            default="flipped",
        ),
    ),
    default_size=(Fraction(2), Fraction(1)),
    refuse=_refuse,
    patches=_patches,
    recipe=_recipe,
    stages=_stages,
    # A flipped corner is opened over its seam; geese made four at a time are pressed toward the sky before the last
    # squares are laid on (common practice).
    pressed_away=(("flipped", "goose"), ("four-at-a-time", "goose")),
)
