"""What the stated pieces give when they are laid, stitched, cut and opened, apart from the compiler."""

from __future__ import annotations

from dataclasses import replace
from math import atan2, pi
from typing import Any

import pytest
from shapely import affinity
from shapely.geometry import Polygon, box

from methods.asking import EXACT, ask
from methods.folding import Region, Seen, at_origin, box_of, by_role, outline, turned
from methods.making import (
    MAKERS,
    UnevenEdgesError,
    checkered_from_strips,
    segments,
    strip_pieces,
    strip_sets,
)
from methods.samples import samples
from methods.tracing import CURVED, on_foundation, pieced, radius_of
from patchwright.core.length import Cut, Length
from patchwright.methods.method import Recipe, Request, UnitPatch, unfinished_size
from patchwright.methods.registry import BY_NAME

SAMPLES = list(samples())
NOISE = 1e-9
SHORT = Cut("1/32")
EXACT_SAMPLES = [
    (method, name, request)
    for method, name, request in SAMPLES
    if request.rules == EXACT and request.width >= Length(3) and method != "patch"
    and not any(piece.template for piece in BY_NAME[method].recipe(request).pieces)
    and not BY_NAME[method].recipe(request).foundation
]
EXACT_ONCE_TRIMMED = ("half-square", "quarter-square", "half-rectangle")
"""Units that are exact once as much is trimmed off each side: their seams run through the middle."""


@pytest.mark.parametrize(("method", "request_"), [pytest.param(m, r, id=name) for m, name, r in SAMPLES])
def test_pieces_make_the_stated_unit(method: str, request_: Request) -> None:
    """Every unit of a batch covers its unfinished shape, each fabric in its place, within the rounding of the rule."""
    made = BY_NAME[method]
    recipe = made.recipe(request_)
    units = make(method, recipe, request_)
    assert len(units) == recipe.batch
    wanted = made.patches(request_)
    for unit in units:
        assert settle(method, unit, wanted, request_, recipe) is not None, [r.outline.wkt for r in at_origin(unit)]


@pytest.mark.parametrize("piece", [0, 1])
@pytest.mark.parametrize(("method", "request_"), [pytest.param(m, r, id=name) for m, name, r in EXACT_SAMPLES])
def test_a_short_piece_is_noticed(method: str, request_: Request, piece: int) -> None:
    """The rebuilding is a real check: a piece cut a thirty-second short no longer makes the unit, where it is exact."""
    made = BY_NAME[method]
    recipe = made.recipe(request_)
    whole = recipe.pieces[piece]
    short = replace(whole, width=whole.width - SHORT, height=whole.height - SHORT)
    pieces = (*recipe.pieces[:piece], short, *recipe.pieces[piece + 1 :])
    try:
        units = make(method, replace(recipe, pieces=pieces), request_)
    except UnevenEdgesError:
        return
    wanted = made.patches(request_)
    assert not all(settle(method, unit, wanted, request_, recipe) for unit in units)


TURNING = [
    *(("half-square", {"make": make}, ()) for make in ("two-at-a-time", "eight-at-a-time", "four-at-a-time", "singly")),
    ("quarter-square", {"make": "two-at-a-time"}, ("top", "right", "bottom")),
    ("flying-geese", {"make": "four-at-a-time"}, ()),
]


@pytest.mark.parametrize(("name", "words", "roles"), TURNING)
def test_prints_turn_as_stated(name: str, words: dict[str, str], roles: tuple[str, ...]) -> None:
    """`gives` is how the first fabric's print turns from unit to unit; a half-square's second turns the other way."""
    request = ask(name, "4", "2" if name == "flying-geese" else "4", EXACT, words=words, roles=roles)
    made = BY_NAME[name]
    recipe = made.recipe(request)
    angles: dict[str, list[float]] = {role.name: [] for role in made.roles}
    for unit in make(name, recipe, request):
        settled = settle(name, unit, made.patches(request), request, recipe)
        assert settled is not None
        for region in settled:
            angles[region.role].append(atan2(region.print[1], region.print[0]))
    offsets = {role: [round((one - found[0]) / (pi / 2)) % 4 for one in found] for role, found in angles.items()}
    first, second = (offsets[role.name] for role in made.roles[:2])
    assert sorted(first) == sorted(recipe.gives)
    assert name != "half-square" or second == [-turns % 4 for turns in first]



def make(method: str, recipe: Recipe, request: Request) -> list[Seen]:
    if any(piece.template for piece in recipe.pieces):
        return [pieced(recipe, BY_NAME[method].patches(request), request)] * recipe.batch
    if recipe.foundation:
        return [on_foundation(recipe, BY_NAME[method].patches(request), request)]
    sides = {piece.id: (float(piece.width), float(piece.height)) for piece in recipe.pieces}
    seam, roles = float(request.rules.seam), {piece.id: piece.role for piece in recipe.pieces}
    if method == "strip-set" and recipe.how == "pieces":
        return strip_pieces(sides, roles, seam)
    if recipe.how == "strips" and any(name.startswith("set-") for name in sides):
        sets = strip_sets(roles, sides, seam)
        if method == "strip-set":
            return segments(sets[0], float(request.width) + 2 * seam)[: recipe.batch]
        side = {"four-patch": 2, "nine-patch": 3, "sixteen-patch": 4}[method]
        return checkered_from_strips(side, sets, float(request.width) / side + 2 * seam, seam)[: recipe.batch]
    return MAKERS[method, recipe.how](sides, seam)


def settle(method: str, unit: Seen, wanted: tuple[UnitPatch, ...], request: Request, recipe: Recipe) -> Seen | None:
    """The unit turned as it lies at @0 and centered on its finished size, or None if it fits in no turn."""
    for turn in range(4):
        laid = at_origin(turned(unit, 90 * turn + ruler_angle(method, request, recipe, turn)))
        _, _, right, bottom = box_of(laid)
        if recipe.trim and method in EXACT_ONCE_TRIMMED:
            laid = trimmed(laid, request)
            _, _, right, bottom = box_of(laid)
        dx, dy = (float(request.width) - right) / 2, (float(request.height) - bottom) / 2
        laid = [Region(r.role, affinity.translate(r.outline, dx, dy), r.print) for r in laid]
        if fits(laid, wanted, request, slack(method, request, recipe)):
            return laid
    return None


def ruler_angle(method: str, request: Request, recipe: Recipe, turn: int) -> float:
    """By how many degrees a ruler laid along the seam turns a half-rectangle whose pieces are not in its proportion."""
    if method != "half-rectangle":
        return 0.0
    piece = recipe.pieces[0]
    cut, wanted = ((float(h), float(w)) for w, h in ((piece.width, piece.height), (request.width, request.height)))
    return (atan2(*cut) - atan2(*wanted)) * 180 / pi


def trimmed(laid: Seen, request: Request) -> Seen:
    """As much cut off each side as leaves the unfinished size."""
    _, _, right, bottom = box_of(laid)
    width, height = (float(side) for side in unfinished_size(request))
    left, top = (right - width) / 2, (bottom - height) / 2
    frame = box(left, top, left + width, top + height)
    return at_origin([Region(r.role, r.outline.intersection(frame), r.print) for r in laid])


def slack(method: str, request: Request, recipe: Recipe) -> float:
    """How far a seam or an edge may lie from its exact place: the stated rounding, no more.

    Where a rule rounds down, what falls short in one piece and what is over in another can cancel in the sum: the
    shortfalls of the metric trade rule, at most 1.3 mm, are allowed on top.
    """
    if recipe.trim and method in EXACT_ONCE_TRIMMED:
        return NOISE
    if recipe.foundation:
        return 1e-6
    curved = max((radius_of(piece.template) for piece in recipe.pieces if piece.template is not None), default=0.0)
    traced = 1e-6 if any(piece.template for piece in recipe.pieces) else 0.0
    short = 0.13 if request.rules.system == "cm" and "rounded-down" in recipe.notes else 0.0
    return abs(float(recipe.rounding)) + short + curved * CURVED + traced + NOISE


def fits(laid: Seen, wanted: tuple[UnitPatch, ...], request: Request, slack: float) -> bool:
    """Whether every patch lies in cloth of its fabric, and the whole covers the unfinished size and little more."""
    shown = by_role(laid)
    for role in {patch.role for patch in wanted}:
        patches = [polygon(patch).buffer(-slack) for patch in wanted if patch.role == role]
        if not all(shown.get(role, Polygon()).buffer(NOISE).covers(patch) for patch in patches):
            return False
    return covers_unfinished(laid, request, slack)


def covers_unfinished(laid: Seen, request: Request, slack: float) -> bool:
    seam = float(request.rules.seam)
    size = [float(length) for length in unfinished_size(request)]
    unfinished = box(-seam, -seam, size[0] - seam, size[1] - seam)
    whole = outline(laid)
    return bool(
        whole.buffer(NOISE).covers(unfinished.buffer(-slack, join_style="mitre"))
        and unfinished.buffer(slack, join_style="mitre").buffer(NOISE, join_style="mitre").covers(whole)
    )


def polygon(patch: UnitPatch) -> Any:
    return Polygon([(float(point.x), float(point.y)) for point in patch.outline])
