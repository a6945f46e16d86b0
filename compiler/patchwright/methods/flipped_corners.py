"""Flipped corners: a piece with triangles sewn onto its corners by stitch-and-flip, each with the same finished leg.

Cut sizes (common practice): the base at finished size + 2 seams, each corner's square at its finished leg + 2 seams.
"""

from __future__ import annotations

from fractions import Fraction

from patchwright.core.geometry import Polygon
from patchwright.core.length import ROOT_TWO, ZERO, Finished, Length
from patchwright.core.measure import plain_length
from patchwright.methods.allowance import hint_step
from patchwright.methods.flipping import (
    CORNERS,
    Base,
    Corner,
    Flip,
    corner_patch,
    flip_seams,
    flip_stages,
    flipped_unit,
)
from patchwright.methods.limits import refuse_wide_seam, size_text
from patchwright.methods.method import (
    Key,
    Method,
    PatchSeam,
    Recipe,
    RecipePiece,
    Refusal,
    Request,
    Role,
    Stage,
    UnitPatch,
)
from patchwright.methods.staging import at, finished_stage

_ORDERS: dict[str, tuple[Corner, ...]] = {
    "clockwise": CORNERS,
    "counterclockwise": ("nw", "sw", "se", "ne"),
    "opposite": ("nw", "se", "ne", "sw"),
}


def _corners(request: Request) -> tuple[Corner, ...]:
    """The corners that have a fabric, in the order in which they are sewn."""
    return tuple(corner for corner in _ORDERS[request.word("order")] if corner in request.roles)


def _refuse(request: Request) -> tuple[Refusal, ...]:
    return (
        _refuse_cornerless(request)
        or _refuse_large(request)
        or _refuse_overlap(request)
        or refuse_wide_seam(request, request.extent("corner") / ROOT_TWO, "a flipped corner", "corner")
    )


def _refuse_cornerless(request: Request) -> tuple[Refusal, ...]:
    if _corners(request):
        return ()
    message = "flipped corners need a fabric for at least one corner"
    return (Refusal("no-corner", "flipped-corners", message, ("give one of `nw`, `ne`, `se`, `sw`",)),)


def _refuse_large(request: Request) -> tuple[Refusal, ...]:
    """A corner's leg may not be longer than a side of the unit."""
    leg, most, system = request.extent("corner"), min(request.width, request.height), request.rules.system
    if leg <= most:
        return ()
    size = size_text(request.width, request.height, request.rules)
    message = f"a corner of {plain_length(leg, system)} is larger than a unit of {size}"
    return (Refusal("corner-too-large", "corner", message, (_largest(_limit(request), request),)),)


def _refuse_overlap(request: Request) -> tuple[Refusal, ...]:
    """Two corners of one side may meet but not overlap; two opposite ones may not cover the whole unit."""
    leg, limit, system = request.extent("corner"), _limit(request), request.rules.system
    nothing_left = leg == request.width == request.height and len(_corners(request)) > 1
    if leg <= limit and not nothing_left:
        return ()
    size = size_text(request.width, request.height, request.rules)
    message = f"corners of {plain_length(leg, system)} overlap on a unit of {size}"
    hint = f"a corner smaller than `{plain_length(leg, system)}` works" if nothing_left else _largest(limit, request)
    return (Refusal("corner-overlap", "corner", message, (hint,)),)


def _limit(request: Request) -> Length:
    """The longest leg at which no two corners overlap."""
    corners = set(_corners(request))
    limit = min(request.width, request.height)
    if {"nw", "ne"} <= corners or {"sw", "se"} <= corners:
        limit = min(limit, request.width / 2)
    if {"nw", "sw"} <= corners or {"ne", "se"} <= corners:
        limit = min(limit, request.height / 2)
    return limit


def _largest(limit: Length, request: Request) -> str:
    rules = request.rules
    leg = limit if limit.is_rational else limit.down_to(hint_step(rules))
    return f"largest corner that works: `{plain_length(leg, rules.system)}`"


def _patches(request: Request) -> tuple[UnitPatch, ...]:
    width, height, leg = request.width, request.height, request.extent("corner")
    base = UnitPatch("base", _base_outline(request))
    corners = (UnitPatch(corner, corner_patch(corner, leg, width, height)) for corner in CORNERS)
    return (base, *(patch for patch in corners if patch.role in request.roles))


def _base_outline(request: Request) -> Polygon:
    """The base without its corners; where two corners meet, their common point stands once."""
    width, height, leg = request.width, request.height, request.extent("corner")
    ends = {
        "nw": (at(ZERO, leg), at(leg, ZERO), at(ZERO, ZERO)),
        "ne": (at(width - leg, ZERO), at(width, leg), at(width, ZERO)),
        "se": (at(width, height - leg), at(width - leg, height), at(width, height)),
        "sw": (at(leg, height), at(ZERO, height - leg), at(ZERO, height)),
    }
    points = []
    for corner, (start, end, square) in ends.items():
        points += [start, end] if corner in request.roles else [square]
    return tuple(point for number, point in enumerate(points) if point != points[number - 1])


def _recipe(request: Request) -> Recipe:
    seam = request.rules.seam
    width, height = Finished(request.width).cut(seam), Finished(request.height).cut(seam)
    side = Finished(request.extent("corner")).cut(seam)
    base = RecipePiece("base", "base", width, height, 1)
    corners = (RecipePiece(f"corner-{corner}", corner, side, side, 1) for corner in _corners(request))
    return Recipe("flipped", (base, *corners), batch=1, gives=(0,), trim=False, rounding=ZERO)


def _flips(request: Request) -> tuple[Flip, ...]:
    patches = [patch.role for patch in _patches(request)]
    return tuple(Flip(corner, corner, f"corner-{corner}", patches.index(corner)) for corner in _corners(request))


def _seams(request: Request) -> tuple[PatchSeam, ...]:
    return flip_seams(_flips(request))


def _stages(request: Request, recipe: Recipe) -> tuple[Stage, ...]:
    width, height, side = recipe.pieces[0].width, recipe.pieces[0].height, recipe.pieces[1].width
    base = Base("base", "base", width.length, height.length)
    flips = _flips(request)
    made = flip_stages("flipped-corners.flipped", base, flips, side.length, request.rules.seam)
    unit = flipped_unit(base, flips, side.length)
    return (*made, finished_stage("flipped-corners.finished", unit, base.width, base.height))


FLIPPED_CORNERS = Method(
    name="flipped-corners",
    doc="A piece with triangles on some of its corners, sewn by stitch-and-flip.",
    roles=(
        Role("base", "The piece itself."),
        Role("nw", "The upper left corner.", required=False),
        Role("ne", "The upper right corner.", required=False),
        Role("se", "The lower right corner.", required=False),
        Role("sw", "The lower left corner.", required=False),
    ),
    listed=False,
    keys=(
        Key("corner", "The finished leg of the corners.", "extent", default="1"),
        Key("order", "The order of sewing, from the upper left.", "word", choices=tuple(_ORDERS), default="clockwise"),
    ),
    default_size=(Fraction(2), Fraction(2)),
    refuse=_refuse,
    patches=_patches,
    recipe=_recipe,
    stages=_stages,
    seams=_seams,
    # A flipped corner is opened over its seam (common practice).
    pressed_away=(("flipped", "base"),),
)
