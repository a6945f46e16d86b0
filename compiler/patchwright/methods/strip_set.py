"""A strip set: strips sewn together lengthwise and cut across into units; fabrics are listed from top to bottom.

Cut sizes (common practice): every strip at its finished height + 2 seams, and so long that it gives the segments asked
for, each cut at finished width + 2 seams. Made from single pieces, each is cut as wide as the unit.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from patchwright.core.length import ZERO, Length
from patchwright.methods.limits import refuse_wide_seam
from patchwright.methods.method import (
    Key,
    Method,
    PatchSeam,
    Recipe,
    Refusal,
    Request,
    Role,
    Stage,
    StripSet,
    UnitPatch,
)
from patchwright.methods.pressed import chained, pressing_view, seam_between
from patchwright.methods.staging import face, finished_stage, gap, view
from patchwright.methods.straight import Tile, raw, sewn, sewn_size
from patchwright.methods.strip_piecing import strip_recipe, strip_sets, strip_stages

ORDINALS = (
    "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth", "eleventh",
    "twelfth", "thirteenth", "fourteenth", "fifteenth", "sixteenth",
)  # fmt: skip
AS_NEEDED = "as-needed"
"""As many segments as the cloth gives and the quilt takes; without strips to cut from, the unit is sewn singly."""
_EQUAL = "equal"
_MOST_DIGITS = 9


def _shares(request: Request) -> tuple[Fraction, ...]:
    """The heights of the strips in parts of their sum; ValueError where the text is no such list."""
    text, count = request.word("heights"), len(request.roles)
    if text == _EQUAL:
        return (Fraction(1, count),) * count
    parts = text.split()
    if any(len(part) > _MOST_DIGITS or not all(sign in "0123456789./" for sign in part) for part in parts):
        raise ValueError(text)
    numbers = [Fraction(part) for part in parts]
    if len(numbers) != count or min(numbers) <= 0:
        raise ValueError(text)
    return tuple(number / sum(numbers) for number in numbers)


def _tiles(request: Request) -> tuple[Tile, ...]:
    """The strips of one unit."""
    made, y = [], ZERO
    for role, share in zip(request.roles, _shares(request), strict=True):
        height = request.height * share
        made.append(Tile(role, ZERO, y, request.width, height))
        y += height
    return tuple(made)


def _refuse(request: Request) -> tuple[Refusal, ...]:
    try:
        narrowest: Length = request.height * min(_shares(request))
    except (ValueError, ZeroDivisionError):
        message = f"the heights of a strip set of {len(request.roles)} strips are not `{request.word('heights')}`"
        example = " ".join(str(number % 2 + 1) for number in range(len(request.roles)))
        hint = f"write a number for every strip, from top to bottom, such as `heights: {example}`"
        return (Refusal("heights-not-read", "heights", message, (hint,)),)
    return refuse_wide_seam(request, min(request.width, narrowest), "a strip")


def _patches(request: Request) -> tuple[UnitPatch, ...]:
    return tuple(tile.patch() for tile in _tiles(request))


def _strip_sets(request: Request) -> tuple[StripSet, ...]:
    return strip_sets(_tiles(request))


def _units(request: Request) -> int:
    """How many units one set gives."""
    word = request.word("segments")
    if word != AS_NEEDED:
        return int(word)
    return request.strips.units if request.strips is not None else 0


def without_strips(request: Request) -> Request:
    """The request for a unit of single pieces, whatever number of segments it names."""
    words = tuple((key, AS_NEEDED if key == "segments" else word) for key, word in request.words)
    return replace(request, words=words, strips=None)


def _recipe(request: Request) -> Recipe:
    units = _units(request)
    if units:
        return strip_recipe(request, _strip_sets(request), units)
    seam = request.rules.seam
    pieces = tuple(tile.piece(f"piece-{place}", seam, 1) for place, tile in enumerate(_tiles(request), 1))
    return Recipe("pieces", pieces, batch=1, gives=(0,), trim=False, rounding=ZERO)


def _seams(request: Request) -> tuple[PatchSeam, ...]:
    return chained(range(len(request.roles)))


def _stages(request: Request, recipe: Recipe) -> tuple[Stage, ...]:
    tiles, seam = _tiles(request), request.rules.seam
    if recipe.how == "strips":
        return strip_stages("strip-set", request, tiles, recipe)
    away, apart = gap(tiles[0].height), []
    for place, tile in enumerate(tiles):
        apart.append(face(tile.role, raw(tile, seam, ZERO, (away + seam * 2) * place)))
    outlines = [tile.patch().outline for tile in tiles]
    marks = [seam_between(outlines, (end - 1,), (end,), seam, seam) for end in range(1, len(tiles))]
    views = view(tuple(apart)), pressing_view(sewn(tiles, seam), *marks)
    lengths = (("seam", seam),)
    sew = Stage("sew", "strip-set.pieces.sew", views, tuple(piece.id for piece in recipe.pieces), lengths)
    return sew, finished_stage("strip-set.finished", sewn(tiles, seam), *sewn_size(tiles, seam))


STRIP_SET = Method(
    name="strip-set",
    doc="Strips sewn together and cut across; fabrics are listed from top to bottom.",
    roles=tuple(Role(name, f"The {name} strip from the top.", required=name in ORDINALS[:2]) for name in ORDINALS),
    listed=True,
    keys=(
        Key(
            "segments",
            "How many units are cut from one set of strips; `as-needed` takes as many as the cloth gives.",
            "word",
            choices=(AS_NEEDED, *(str(number) for number in range(1, 17))),
            default=AS_NEEDED,
        ),
        Key("heights", "How high the strips are against each other, from the top: `1 2 1`.", "text", default=_EQUAL),
    ),
    default_size=(Fraction(2), Fraction(2)),
    refuse=_refuse,
    patches=_patches,
    recipe=_recipe,
    stages=_stages,
    seams=_seams,
    strip_sets=_strip_sets,
)
