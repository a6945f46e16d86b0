"""A strip set: strips sewn together lengthwise and cut across into units; fabrics are listed from top to bottom.

Cut sizes (common practice): every strip at its finished height + 2 seams, and so long that it gives the segments asked
for, each cut at finished width + 2 seams.
"""

from __future__ import annotations

from fractions import Fraction

from patchwright.core.geometry import rectangle
from patchwright.core.length import ZERO, Finished, Length
from patchwright.methods.limits import refuse_wide_seam
from patchwright.methods.method import Key, Method, Recipe, RecipePiece, Refusal, Request, Role, Stage, UnitPatch
from patchwright.methods.staging import at, face, finished_stage, gap, mark, view
from patchwright.methods.straight import Tile, sewn, sewn_size

_STRIPS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth")


def _tiles(request: Request, width: Length) -> tuple[Tile, ...]:
    """The strips, equally high, at a finished width."""
    height = request.height / len(request.roles)
    return tuple(Tile(role, ZERO, height * place, width, height) for place, role in enumerate(request.roles))


def _refuse(request: Request) -> tuple[Refusal, ...]:
    return refuse_wide_seam(request, min(request.width, request.height / len(request.roles)), "a strip")


def _patches(request: Request) -> tuple[UnitPatch, ...]:
    return tuple(tile.patch() for tile in _tiles(request, request.width))


def _recipe(request: Request) -> Recipe:
    seam, count = request.rules.seam, int(request.word("segments"))
    length = Finished(request.width).cut(seam) * count
    height = Finished(request.height / len(request.roles)).cut(seam)
    pieces = tuple(RecipePiece(role, role, length, height, 1) for role in request.roles)
    return Recipe("strips", pieces, count, (0,) * count, trim=False, rounding=ZERO)


def _stages(request: Request, recipe: Recipe) -> tuple[Stage, ...]:
    seam, key, segment = request.rules.seam, "strip-set.strips.", request.width + request.rules.seam * 2
    length, height = recipe.pieces[0].width.length, recipe.pieces[0].height.length
    away = gap(height)
    apart = tuple(
        face(piece.role, rectangle(length, height, ZERO, (height + away) * place))
        for place, piece in enumerate(recipe.pieces)
    )
    long = _tiles(request, length - seam * 2)
    joined, high = sewn(long, seam), sewn_size(long, seam)[1]
    cuts = [mark("cut", at(segment * number, ZERO), at(segment * number, high)) for number in range(1, recipe.batch)]
    unit = _tiles(request, request.width)
    stages = [Stage("sew", key + "sew", (view(apart), view(joined)), lengths=(("seam", seam), ("height", high)))]
    if cuts:
        views, lengths = (view(joined, *cuts),), (("segment", segment),)
        stages.append(Stage("cut-apart", key + "cut-apart", views, lengths=lengths, gives=recipe.batch))
    return (*stages, finished_stage("strip-set.finished", sewn(unit, seam), *sewn_size(unit, seam)))


STRIP_SET = Method(
    name="strip-set",
    doc="Strips of equal height sewn together and cut across; fabrics are listed from top to bottom.",
    roles=tuple(Role(name, f"The {name} strip from the top.", required=name in _STRIPS[:2]) for name in _STRIPS),
    listed=True,
    keys=(
        Key(
            "segments",
            "How many units are cut from one set of strips.",
            "word",
            choices=tuple(str(count) for count in range(1, 17)),
            default="4",
        ),
    ),
    default_size=(Fraction(2), Fraction(2)),
    refuse=_refuse,
    patches=_patches,
    recipe=_recipe,
    stages=_stages,
)
