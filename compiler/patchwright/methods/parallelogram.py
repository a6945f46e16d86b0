"""A parallelogram of 45° in a rectangle, with a triangle at each end; its mirror image leans the other way.

All pieces are cut with templates, one seam outside their finished lines (common practice; the strip from which
parallelograms can be cut is the finished height + 2 seams high, as published for diamonds of 45° and 60°).
"""

from __future__ import annotations

from fractions import Fraction

from patchwright.core.geometry import Polygon
from patchwright.core.length import ROOT_TWO, ZERO
from patchwright.methods.allowance import hint_step
from patchwright.methods.limits import refuse_wide_seam, size_text
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
from patchwright.methods.staging import at
from patchwright.methods.templated import Shaped, template_recipe, template_seams, template_stages, unit_patches


def _shapes(request: Request) -> tuple[Shaped, ...]:
    width, height = request.width, request.height
    slant: Polygon = (at(height, ZERO), at(width, ZERO), at(width - height, height), at(ZERO, height))
    left: Polygon = (at(ZERO, ZERO), at(height, ZERO), at(ZERO, height))
    right: Polygon = (at(width, ZERO), at(width, height), at(width - height, height))
    return Shaped("slant", "slant", slant), Shaped("ends", "end", left), Shaped("ends", "end", right, left)


def _refuse(request: Request) -> tuple[Refusal, ...]:
    return _refuse_short(request) or refuse_wide_seam(
        request, min((request.width - request.height) / ROOT_TWO, request.height / ROOT_TWO), "a piece"
    )


def _refuse_short(request: Request) -> tuple[Refusal, ...]:
    """The rectangle has to be longer than high, or nothing is left between the ends."""
    if request.width > request.height:
        return ()
    rules, step = request.rules, hint_step(request.rules)
    size = size_text(request.width, request.height, rules)
    lower = request.width.down_to(step) / 2
    message = f"a parallelogram of 45° needs a unit wider than high, and this one finishes at {size}"
    hints = [size_text(request.height * 2, request.height, rules)]
    if lower > ZERO:
        hints.append(size_text(request.width, lower, rules))
    listed = " or ".join(f"`{hint}`" for hint in hints)
    return (Refusal("not-wider-than-high", "size", message, (f"sizes that work: {listed}",)),)


def _patches(request: Request) -> tuple[UnitPatch, ...]:
    return unit_patches(_shapes(request))


def _recipe(request: Request) -> Recipe:
    return template_recipe(request, _shapes(request))


def _seams(request: Request) -> tuple[PatchSeam, ...]:
    return template_seams(_shapes(request))


def _stages(request: Request, recipe: Recipe) -> tuple[Stage, ...]:
    size = tuple(side.length for side in unfinished_size(request))
    return template_stages("parallelogram", request, recipe, _shapes(request), size)


PARALLELOGRAM = Method(
    name="parallelogram",
    doc="A parallelogram of 45° with a triangle at each end; at @0 it leans to the right. Cut with templates.",
    roles=(Role("slant", "The parallelogram."), Role("ends", "The two triangles at its ends.")),
    listed=True,
    keys=(),
    default_size=(Fraction(2), Fraction(1)),
    refuse=_refuse,
    patches=_patches,
    recipe=_recipe,
    stages=_stages,
    seams=_seams,
)
