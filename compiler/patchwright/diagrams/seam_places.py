"""Where every seam of a sewn thing lies, which way it is pressed, where seams do not nest and where they pile up.

In: a plan with its pressing.
Out: places in the pattern's unit, from the upper left corner of the thing.
Never: a drawing, or a direction that the plan does not state.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import hypot, sqrt
from typing import Any

from patchwright.core.geometry import Point
from patchwright.diagrams.scene import XY
from patchwright.planning.plan import Plan
from patchwright.planning.pressing.recount import Walk
from patchwright.planning.pressing.results import PressingPlan
from patchwright.planning.pressing.terms import Seam


@dataclass(frozen=True, slots=True)
class PlacedSeam:
    """One seam: its ends, and for each of its halves a step toward which it lies; no step where it is open."""

    seam: Seam
    ends: tuple[XY, XY]
    steps: tuple[XY, XY]
    bow: XY = (0.0, 0.0)
    """Of a curve, from the middle between its ends to its own middle."""

    def at(self, part: float) -> XY:
        """The place so far along it, the whole being 1."""
        (x, y), (other_x, other_y) = self.ends
        bowed = 4 * part * (1 - part)
        return x + (other_x - x) * part + self.bow[0] * bowed, y + (other_y - y) * part + self.bow[1] * bowed

    spun: float = 0.5
    """How far along it a spun seam is spun."""

    @property
    def is_spun(self) -> bool:
        return self.steps[0] != self.steps[1]

    @property
    def is_open(self) -> bool:
        return self.steps == ((0.0, 0.0), (0.0, 0.0))

    @property
    def long(self) -> float:
        (x, y), (other_x, other_y) = self.ends
        return hypot(other_x - x, other_y - y)


@dataclass(frozen=True, slots=True)
class SeamPlaces:
    """All seams, and the points to mark."""

    seams: tuple[PlacedSeam, ...]
    missed: tuple[XY, ...]
    heavy: tuple[XY, ...]


def places_in(plan: Plan, pressing: PressingPlan, kind: str, ref: str, index: int) -> SeamPlaces:
    """The seams of a unit or an assembly at @0, those of its parts among them."""
    walk = Walk(plan, pressing, index)
    walk.lay_thing(kind, ref)
    return _places(walk, range(len(walk.laid)))


_MOST_KNOWN = 64
_known: dict[tuple[int, ...], tuple[tuple[object, ...], SeamPlaces]] = {}
"""What was found lately, by the identity of all that it depends on, which is kept with it so that it stays that."""


def places_on_top(plan: Plan, pressing: PressingPlan, index: int) -> SeamPlaces:
    """The seams of rows, top and borders, with the points on them; found once for all booklets of a plan."""
    made_from = (pressing, plan.sizes[index], plan.units, plan.assemblies, plan.pieces, index)
    key = (*map(id, made_from[:-1]), index)
    if key not in _known:
        walk = Walk(plan, pressing, index)
        walk.lay_top()
        parts = ("unit", "assembly")
        own = [
            number for number, laid in enumerate(walk.laid)
            if number not in walk.copies and laid.seam.owner.kind not in parts
        ]
        while len(_known) >= _MOST_KNOWN:
            del _known[next(iter(_known))]
        _known[key] = (made_from, _places(walk, own))
    return _known[key][1]


def _places(walk: Walk, numbers: Iterable[int]) -> SeamPlaces:
    seams: list[PlacedSeam] = []
    missed: set[XY] = set()
    heavy: set[XY] = set()
    for number in numbers:
        laid = walk.laid[number]
        turned = next((known for known in walk.turned if number < known[0]), None)
        scale, origin = (walk.scale, None) if turned is None else turned[1:]
        ends = _spot(laid.ends[0], scale, origin), _spot(laid.ends[1], scale, origin)
        if number in walk.straight:  # It may be laid longer than it is.
            true = walk.straight[number].ends
            ends = _spot(true[0], 0, None), _spot(true[1], 0, None)
        steps = _step(laid.points[0], origin is not None), _step(laid.points[1], origin is not None)
        if laid.leads is None:
            seams.append(PlacedSeam(laid.seam, ends, steps, spun=_part(walk.spun_spot(number), laid.ends)))
        else:
            lead = _step(laid.leads[0], origin is not None)
            seams.append(PlacedSeam(laid.seam, ends, (_between(*steps),) * 2, _bow(ends, lead)))
        missed.update(_spot(place, scale, origin) for place, nests in walk.junctions(number) if not nests)
        heavy.update(_spot(place, scale, origin) for place, _ in walk.heavy(number))
    return SeamPlaces(tuple(seams), tuple(sorted(missed)), tuple(sorted(heavy)))


def _part(spot: tuple[Any, Any] | None, ends: tuple[tuple[Any, Any], tuple[Any, Any]]) -> float:
    """How far along a seam a place on it is; the middle where there is none."""
    if spot is None:
        return 0.5
    (x, y), far, near = (tuple(float(side) for side in place) for place in (ends[0], ends[1], spot))
    return hypot(near[0] - x, near[1] - y) / hypot(far[0] - x, far[1] - y)


def _bow(ends: tuple[XY, XY], lead: XY) -> XY:
    """How far a quarter of a circle between two places bows out, which begins in this direction."""
    (x, y), (other_x, other_y) = ends
    ahead = (other_x - x) * lead[0] + (other_y - y) * lead[1]
    corner = x + lead[0] * ahead, y + lead[1] * ahead
    part = sqrt(2) - 1
    return (corner[0] - (x + other_x) / 2) * part, (corner[1] - (y + other_y) / 2) * part


def _between(first: XY, second: XY) -> XY:
    """The step halfway between two."""
    x, y = first[0] + second[0], first[1] + second[1]
    long = hypot(x, y) or 1.0
    return x / long, y / long


def _spot(place: tuple[Any, Any], scale: int, base: Point | None) -> XY:
    x, y = (float(side) / (scale or 1) for side in place)
    if base is None:
        return x, y
    return float(base.x) + (x + y) / sqrt(2), float(base.y) + (y - x) / sqrt(2)


def _step(step: tuple[Any, Any], is_turned: bool) -> XY:
    x, y = (float(side) for side in step)
    long = hypot(x, y) or 1.0
    if is_turned:
        x, y = (x + y) / sqrt(2), (y - x) / sqrt(2)
    return x / long, y / long
