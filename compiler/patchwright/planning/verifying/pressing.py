"""Checks of pressing: the junctions that nest are counted again on the finished top, seam by seam.

In: a plan.
Out: one sentence for each size whose counts do not agree, and for each seam that says two things.
Never: anything of the planner of pressing but the directions that it states.
"""

from __future__ import annotations

from collections.abc import Iterator

from patchwright.planning.plan import Assembly, Plan, PlannedUnit, UnitSize
from patchwright.planning.pressing.recount import recount_points
from patchwright.planning.pressing.results import PressingPlan

Look = tuple[object, ...]
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
            yield from self._two_ways(pressing)

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

    def _two_ways(self, pressing: PressingPlan) -> Iterator[str]:
        """What is made in two ways is otherwise alike, is really pressed in two, and only where the house allows it."""
        made: list[PlannedUnit | Assembly] = [*self.plan.units, *self.plan.assemblies]
        parts = {part.id: part for part in made}
        seconds = [part for part in made if part.second_of]
        if seconds and self.plan.rules.pressing_variants < 2:
            yield f"`{seconds[0].id}` is pressed in a second way, which the house does not allow"
        counted = {}
        for part in seconds:
            first = parts.get(part.second_of)
            if first is None or first.second_of:
                yield f"`{part.id}` is the second way of pressing of nothing that is made"
                continue
            counted[first.id, part.id] = _counts(first), _counts(part)
            if not _are_alike(first, part):
                yield f"`{part.id}` is not made as `{first.id}` is"
            if _ways(pressing, first) == _ways(pressing, part):
                yield f"`{part.id}` is pressed as `{first.id}` is"
        if counted != {(known.id, known.second_id): (known.first, known.second) for known in pressing.variants}:
            yield "the counts of what is pressed in two ways are not those of the plan"

    def _seams(self, pressing: PressingPlan) -> Iterator[str]:
        for pressed in pressing.seams:
            if _WAYS.get(pressed.halves) != pressed.way:
                yield f"a seam of {pressed.seam.owner.id} is {pressed.way} and lies {pressed.halves}"


def _are_alike(first: PlannedUnit | Assembly, second: PlannedUnit | Assembly) -> bool:
    """Whether two ways of pressing are the same thing otherwise, equally large in every size that has both."""
    pairs = zip(first.sizes, second.sizes, strict=True)
    if any(one is not None and two is not None and one.finished != two.finished for one, two in pairs):
        return False
    return _look(first) == _look(second)


def _look(part: PlannedUnit | Assembly) -> Look:
    if isinstance(part, PlannedUnit):
        return part.method, part.how, part.fabrics, part.hand, part.turn
    lines = [[(placed.kind, placed.orientation) for placed in line] for line in part.lines]
    return part.block, part.axis, part.hand, part.turn, part.coped, lines


def _ways(pressing: PressingPlan, part: PlannedUnit | Assembly) -> Look:
    """The directions of a thing's own seams, and what it is made of."""
    kind, lines = ("unit", ()) if isinstance(part, PlannedUnit) else ("assembly", part.lines)
    seams = sorted(
        (own.seam.part, own.seam.line, own.seam.place, own.halves)
        for own in pressing.seams if (own.seam.owner.kind, own.seam.owner.id) == (kind, part.id)
    )
    return seams, [[placed.ref for placed in line] for line in lines]


def _counts(part: PlannedUnit | Assembly) -> tuple[int, ...]:
    """How many are made in every size."""
    return tuple(
        0 if size is None else size.need if isinstance(size, UnitSize) else size.count for size in part.sizes
    )
