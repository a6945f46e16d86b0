"""A kaleidoscope: eight wedges around the middle of a square, in two fabrics by turns, and its four corners.

The wedges of a regular eight-sided figure all have one shape: as high as half the unit, and √2 − 1 of its side wide.
Wedges and corners are cut with templates, one seam outside their finished lines (common practice).
"""

from __future__ import annotations

from fractions import Fraction

from patchwright.core.geometry import Orientation, Polygon
from patchwright.core.length import ROOT_TWO, ZERO, Length
from patchwright.methods.limits import refuse_unless_square, refuse_wide_seam
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
    """A wedge on each side of the square, the wedges between them, and the corners, clockwise from the top."""
    side, half = request.width, request.width / 2
    base = half * (ROOT_TWO - Length(1))
    low, high = half - base, half + base
    upright: Polygon = (at(low, ZERO), at(high, ZERO), at(half, half))
    between: Polygon = (at(high, ZERO), at(side, low), at(half, half))
    corner: Polygon = (at(high, ZERO), at(side, ZERO), at(side, low))
    made = []
    for turns in range(4):
        lay = Orientation(turns)
        made += [
            Shaped("first", "first", lay.polygon(upright, side, side), upright),
            Shaped("second", "second", lay.polygon(between, side, side), upright),
            Shaped("corners", "corners", lay.polygon(corner, side, side), corner),
        ]
    return tuple(made)


def _refuse(request: Request) -> tuple[Refusal, ...]:
    return refuse_unless_square(request, "a kaleidoscope") or refuse_wide_seam(
        request, request.width * Fraction(1, 5), "a corner"
    )


def _patches(request: Request) -> tuple[UnitPatch, ...]:
    return unit_patches(_shapes(request))


def _recipe(request: Request) -> Recipe:
    return template_recipe(request, _shapes(request))


def _seams(request: Request) -> tuple[PatchSeam, ...]:
    return template_seams(_shapes(request))


def _stages(request: Request, recipe: Recipe) -> tuple[Stage, ...]:
    return template_stages("kaleidoscope", request, recipe, _shapes(request), (unfinished_size(request)[0].length,))


KALEIDOSCOPE = Method(
    name="kaleidoscope",
    doc="A square of eight wedges in two fabrics by turns, with four corners. Cut with templates.",
    roles=(
        Role("first", "The four wedges on the sides of the square."),
        Role("second", "The four wedges between them."),
        Role("corners", "The four corner triangles."),
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
