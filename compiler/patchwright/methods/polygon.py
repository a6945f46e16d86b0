"""A free polygon unit: any straight-sided patches that an author draws by their corners, sewn with straight seams.

Every patch is cut with a template, one seam outside its finished lines, sharp tips blunted (common practice).
"""

from __future__ import annotations

from fractions import Fraction

from patchwright.methods.drawn_patches import MOST_PATCHES, PATCHES, drawn_polygons, refuse_drawn
from patchwright.methods.flat_shapes import joins
from patchwright.methods.method import (
    Method,
    PatchSeam,
    Recipe,
    Refusal,
    Request,
    Role,
    Stage,
    UnitPatch,
    unfinished_size,
)
from patchwright.methods.templated import (
    Shaped,
    same_pieces,
    template_recipe,
    template_seams,
    template_stages,
    unit_patches,
)

ORDINALS = (
    "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth", "eleventh",
    "twelfth", "thirteenth", "fourteenth", "fifteenth", "sixteenth",
)  # fmt: skip


def patch_roles() -> tuple[Role, ...]:
    """A role for every patch that an author may draw."""
    return tuple(
        Role(name, f"The {name} patch of `patches`.", required=number < 2)
        for number, name in enumerate(ORDINALS[:MOST_PATCHES])
    )


def _refuse(request: Request) -> tuple[Refusal, ...]:
    return refuse_drawn(request, "a polygon unit") or _refuse_seams(request)


def _refuse_seams(request: Request) -> tuple[Refusal, ...]:
    if joins(drawn_polygons(request)) is not None:
        return ()
    message = "the patches of a polygon unit cannot be sewn with straight seams"
    hint = "a straight line from edge to edge must part them without cutting a patch, and each part in turn"
    return (Refusal("patches-not-sewable", "patches", message, (hint,)),)


def _shapes(request: Request) -> tuple[Shaped, ...]:
    return same_pieces(request.roles, drawn_polygons(request))


def _patches(request: Request) -> tuple[UnitPatch, ...]:
    return unit_patches(_shapes(request))


def _recipe(request: Request) -> Recipe:
    return template_recipe(request, _shapes(request))


def _seams(request: Request) -> tuple[PatchSeam, ...]:
    return template_seams(_shapes(request))


def _stages(request: Request, recipe: Recipe) -> tuple[Stage, ...]:
    size = tuple(side.length for side in unfinished_size(request))
    return template_stages("polygon", request, recipe, _shapes(request), size)


POLYGON = Method(
    name="polygon",
    doc="Any straight-sided patches, drawn by their corners. Cut with templates.",
    roles=patch_roles(),
    listed=True,
    keys=(PATCHES,),
    default_size=(Fraction(2), Fraction(2)),
    refuse=_refuse,
    patches=_patches,
    recipe=_recipe,
    stages=_stages,
    seams=_seams,
)
