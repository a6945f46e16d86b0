"""Checks of pressing: the junctions that nest are counted again on the finished top, seam by seam.

In: a plan.
Out: one sentence for each size whose counts do not agree, and for each seam that says two things.
Never: anything of the planner of pressing but the directions that it states.
"""

from __future__ import annotations

from collections.abc import Iterator

from patchwright.planning.plan import Plan
from patchwright.planning.pressing.recount import recount_points
from patchwright.planning.pressing.results import PressingPlan

_WAYS = {(1, 1): "forward", (-1, -1): "back", (0, 0): "open", (1, -1): "spun", (-1, 1): "spun"}


class PressingCheck:
    """Checks one size at a time; a plan that was made quickly carries no pressing, and nothing is to be checked."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan

    def check(self, index: int) -> Iterator[str]:
        pressing = self.plan.pressing
        if pressing is None:
            return
        yield from self._counts(pressing, index)
        if index == 0:
            yield from self._seams(pressing)

    def _counts(self, pressing: PressingPlan, index: int) -> Iterator[str]:
        size = self.plan.sizes[index]
        stated = next(((known.nested, known.total) for known in pressing.sizes if known.size == size.name), None)
        listed = [(junction.nests, junction.counts[index]) for junction in pressing.junctions]
        summed = sum(count for nests, count in listed if nests), sum(count for _, count in listed)
        try:
            *found, heavy = recount_points(self.plan, pressing, index)
        except KeyError as missing:
            yield f"there is no direction for the seam {missing}"
            return
        listed_heavy = sum(point.counts[index] for point in pressing.heavy)
        if heavy != listed_heavy:
            yield f"more than six seams meet at {heavy} points of the top, but the plan lists {listed_heavy}"
        if tuple(found) != stated:
            yield f"{found[0]} of {found[1]} junctions nest on the top, but the plan says {stated}"
        if summed != stated:
            yield f"the junctions listed come to {summed[0]} nested of {summed[1]}, but the plan says {stated}"

    def _seams(self, pressing: PressingPlan) -> Iterator[str]:
        for pressed in pressing.seams:
            if _WAYS.get(pressed.halves) != pressed.way:
                yield f"a seam of {pressed.seam.owner.id} is {pressed.way} and lies {pressed.halves}"
