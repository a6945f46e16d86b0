"""A plain patch: one piece of cloth.

Cut size: finished size and one seam on every side, never rounded (common practice).
"""

from __future__ import annotations

from fractions import Fraction

from patchwright.core.geometry import rectangle
from patchwright.core.length import ZERO, Finished
from patchwright.methods.limits import refuse_wide_seam
from patchwright.methods.method import Method, Recipe, RecipePiece, Refusal, Request, Role, Stage, UnitPatch


def _refuse(request: Request) -> tuple[Refusal, ...]:
    return refuse_wide_seam(request, min(request.width, request.height), "the patch")


def _patches(request: Request) -> tuple[UnitPatch, ...]:
    return (UnitPatch("fabric", rectangle(request.width, request.height)),)


def _recipe(request: Request) -> Recipe:
    seam = request.rules.seam
    width, height = Finished(request.width).cut(seam), Finished(request.height).cut(seam)
    piece = RecipePiece("fabric", "fabric", width, height, per_batch=1)
    return Recipe("plain", (piece,), batch=1, gives=(0,), trim=False, rounding=ZERO)


def _stages(request: Request, recipe: Recipe) -> tuple[Stage, ...]:
    """Nothing is done to a patch once it is cut."""
    return ()


PATCH = Method(
    name="patch",
    doc="A plain piece of one fabric.",
    roles=(Role("fabric", "The patch's fabric."),),
    listed=True,
    keys=(),
    default_size=(Fraction(1), Fraction(1)),
    refuse=_refuse,
    patches=_patches,
    recipe=_recipe,
    stages=_stages,
)
