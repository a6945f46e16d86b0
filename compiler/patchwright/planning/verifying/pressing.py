"""Checks of pressing: the junctions that nest are counted again on the finished top, seam by seam.

In: a plan.
Out: one sentence for each size whose counts do not agree, for each seam of a unit that is missing or joins nothing,
and for each seam that says two things.
Never: anything of the planner of pressing but the directions that it states.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from patchwright.planning.plan import Assembly, Plan, PlannedUnit, UnitSize
from patchwright.planning.pressing.recount import End, lie_opposed, recount_meetings
from patchwright.planning.pressing.results import HeavyPoint, PressingPlan
from patchwright.planning.pressing.terms import Seam, seam_name
from patchwright.planning.verifying.unit_seams import seam_faults

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
        faults = [
            fault for unit in self.plan.units if (size := unit.sizes[index]) is not None
            for fault in seam_faults(pressing, unit, size)
        ]
        yield from faults or self._counts(pressing, index)
        if index == 0:
            yield from _proof(self.plan, pressing)
            yield from self._seams(pressing)
            yield from self._two_ways(pressing)

    def _counts(self, pressing: PressingPlan, index: int) -> Iterator[str]:
        size = self.plan.sizes[index]
        stated = next(((known.nested, known.total) for known in pressing.sizes if known.size == size.name), None)
        listed = [(junction.nests, junction.counts[index]) for junction in pressing.junctions]
        summed = sum(count for nests, count in listed if nests), sum(count for _, count in listed)
        try:
            met, heavy, ill = recount_meetings(self.plan, pressing, index)
        except KeyError as missing:
            yield f"there is no direction for the seam {missing}"
            return
        yield from (f"{seam_name(seam)} is spun where what crosses it does not turn as it does" for seam in ill)
        found = sum(lie_opposed(one, two) for one, two in met), len(met)
        listed_heavy = sum(point.counts[index] for point in pressing.heavy)
        if heavy != listed_heavy:
            yield f"more than six seams meet at {heavy} points of the top, but the plan lists {listed_heavy}"
        if found != stated:
            yield f"{found[0]} of {found[1]} junctions nest on the top, but the plan says {stated}"
        if summed != stated:
            yield f"the junctions listed come to {summed[0]} nested of {summed[1]}, but the plan says {stated}"

        yield from _advice(pressing, index, met)

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


def _advice(pressing: PressingPlan, index: int, met: Sequence[tuple[End, End]]) -> Iterator[str]:
    """What following the advice for each heavy point changes, on the finished top with these directions changed."""
    by_seam: dict[Seam, dict[int, tuple[End, End]]] = {}
    for number, pair in enumerate(met) if pressing.heavy else ():
        for end in pair:
            by_seam.setdefault(end[3], {})[number] = pair
    ways = {own.seam: own.halves for own in pressing.seams}
    for point in pressing.heavy:
        name, start, finish = seam_name(point.line), *ways.get(point.line, (0, 0))
        if (point.advice == "spun") != (start != finish) or len(point.turned) != (point.advice == "spin"):
            yield f"where seams pile up on {name}, it is to be {point.advice}, but it lies {(start, finish)}"
        lost = gained = 0
        for one, two in by_seam.get(point.line, {}).values():
            before, after = lie_opposed(one, two), _nests_after(point, one, two)
            lost, gained = lost + (before and not after), gained + (after and not before)
        if (lost, gained) != (point.loses[index], point.gains[index]):
            yield (
                f"where seams pile up on {name}, the advice loses {lost} junctions and gains {gained}, "
                f"but the plan says {point.loses[index]} and {point.gains[index]}"
            )


def _nests_after(point: HeavyPoint, one: End, two: End) -> bool:
    """Whether two ends would nest if the advice for a point were followed."""
    turns = 0
    for _, _, _, seam, half in (one, two):
        if seam == point.line:
            if point.advice == "open":
                return False
            turns += half in point.turned
    return lie_opposed((one[0], one[1], -one[2], one[3], one[4]), two) if turns == 1 else lie_opposed(one, two)


def _proof(plan: Plan, pressing: PressingPlan) -> Iterator[str]:
    """What is stated of the whole plan agrees with its sizes, and the proof with the bound."""
    counted = [(size.nested, size.total) for size in pressing.sizes if size.total]
    if pressing.nested != sum((Fraction(*own) for own in counted), Fraction(0)) or pressing.total != len(counted):
        yield f"all sizes together nest {pressing.nested} of {pressing.total}, but not size by size"
    if not pressing.nested <= pressing.bound <= pressing.total:
        yield f"{pressing.nested} nests, but no more than {pressing.bound} of {pressing.total} could"
    most = pressing.choice.most if pressing.choice is not None else None
    if most is not None and not pressing.nested <= most <= pressing.total:
        yield f"{pressing.nested} nests, but with no choice of ways more than {most} of {pressing.total} could"
    if (pressing.proof == "gap") != (pressing.nested != pressing.bound):
        yield f"{pressing.nested} nests and {pressing.bound} could, which is no proof by {pressing.proof}"
    if pressing.rule != plan.rules.pressing or (pressing.proof == "rule") != (pressing.rule == "open"):
        yield f"seams are pressed by the rule {pressing.rule}, proven by {pressing.proof}"
    if pressing.choice is not None and pressing.choice.most is not None and pressing.choice.most < pressing.nested:
        yield f"{pressing.nested} nests, but no choice of two ways could nest more than {pressing.choice.most}"


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
