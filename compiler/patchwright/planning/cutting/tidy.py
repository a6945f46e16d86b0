"""Then, for people: among plans within the length that is bought, the one that is easiest to cut.

In this order: something left of the length, joined pieces from whole strips of their own, fewest strip heights, fewest
strips, fewest different cuts, least width used by the fullest strip, least length.
Nothing here ever makes a plan longer than what is bought anyway.
"""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from .bounds import area_length, demands_of
from .columns import Relaxation, merged, remaining, rounded_plan
from .evening import Plan, evened
from .knapsack import Knapsacks, heights_of
from .patterns import Pattern, full_strips, make_pattern, sides, total_height, turns, width_used
from .plain import first_fit_patterns, plain_patterns
from .problem import Yardage

_HEIGHTS = 4
_TRIALS = 2
_SIZES = 16
"""Lists of more sizes are not planned again for ease."""

_MARGINS = (40, 80)
"""One part in so many of the width is left unused where that costs nothing: about an inch, or half an inch."""

_SAME = 4
"""So many of the first measures of ease must not suffer for the margin: all before the number of cuts."""


def tidied(problem: Yardage, plan: Mapping[Pattern, int], most: int) -> Plan:
    """Return the easiest plan to cut within the length `most`; the given plan must be within it."""
    easy = _tidied(problem, plan, most)
    return _narrower(problem, easy, most) if len(problem.parts) <= _SIZES else easy


def _tidied(problem: Yardage, plan: Mapping[Pattern, int] | None, most: int) -> Plan:
    plain_plan = plain_patterns(problem)
    plans: list[Mapping[Pattern, int]] = [plain_plan, *own_strips_first(problem)]
    if total_height(plain_plan) <= most:
        return easiest(problem, plans, most)
    plans.append(first_fit_patterns(problem))
    if plan is not None:
        plans.append(plan)
    sacks = Knapsacks(problem, heights_of(problem)) if len(problem.parts) <= _SIZES else None
    if problem.joined:
        plans += joined_first(problem, sacks)
    if sacks is None:
        return easiest(problem, plans, most)
    plans.append(own_strips_and_rounding(problem, sacks))
    easy = easiest(problem, plans, most)
    return easiest(problem, [easy, with_fewer_heights(problem, easy, most)], most) if easy else easy


def _narrower(problem: Yardage, plan: Plan, most: int) -> Plan:
    """Return a plan that leaves a margin of the width unused, where it is otherwise as easy, or the plan as it is."""
    for margin in _MARGINS:
        width = problem.width - -(-problem.width // margin)
        if max((width_used(problem, pattern) for pattern in plan), default=0) <= width:
            break
        narrow = replace(problem, width=width)
        if not _is_alike(problem, width) or area_length(narrow) > most:
            continue
        other = _tidied(narrow, None, most)
        if other and ease(problem, other, most)[:_SAME] <= ease(problem, plan, most)[:_SAME]:
            return other
    return plan


def _is_alike(problem: Yardage, width: int) -> bool:
    """Tell whether a narrower cloth gives every piece in the same turns, and joins the same pieces."""
    parts = all(list(turns(part, width)) == list(turns(part, problem.width)) for part in problem.parts)
    return parts and all(
        (long.total > problem.width or long.total <= width) and long.least <= width for long in problem.joined
    )


def ease(problem: Yardage, plan: Mapping[Pattern, int], most: int) -> tuple[int, ...]:
    """Return what makes a plan within the length `most` easy, most important first; less is easier."""
    return (
        int(total_height(plan) == most),
        _scattered(problem, plan),
        len({pattern.height for pattern in plan}),
        sum(plan.values()),
        sum(1 + len(pattern.lays) + len(pattern.segments) for pattern in plan),
        max((width_used(problem, pattern) for pattern in plan), default=0),
        total_height(plan),
    )


def _scattered(problem: Yardage, plan: Mapping[Pattern, int]) -> int:
    """Return how many segments of joined pieces are more than the fewest, or lie in strips higher than they need."""
    scattered = -sum(full_strips(long, problem.width) for long in problem.joined)
    for pattern, count in plan.items():
        for long, _ in pattern.segments:
            scattered += count * (2 if pattern.height > problem.joined[long].height else 1)
    return scattered


def easiest(problem: Yardage, plans: Iterable[Mapping[Pattern, int]], most: int) -> Plan:
    """Return the easiest of the plans within the length, each evened out; nothing when none is within it."""
    even = [evened(problem, plan) for plan in plans if total_height(plan) <= most]
    return min(even, key=lambda plan: (ease(problem, plan, most), sorted(plan.items())), default={})


def joined_first(problem: Yardage, sacks: Knapsacks | None = None) -> Iterator[Plan]:
    """Yield plans that take joined pieces from whole strips, and what these lack from one end of another strip.

    With `sacks` what remains is also cut as the relaxation proposes.
    """
    for rest, plan in (_own_ends(problem), _whole_ends(problem)):
        for other in own_strips_first(rest):
            yield merged(plan, other)
        yield merged(plan, first_fit_patterns(rest))
        if sacks is not None:
            relaxation = Relaxation(rest, sacks.of(rest), first_fit_patterns(rest))
            _, uses = relaxation.solve()
            chance = random.Random(len(uses))
            for trial in range(_TRIALS if any(uses) else 0):
                yield merged(plan, rounded_plan(relaxation, uses, chance if trial else None))


def _own_ends(problem: Yardage) -> tuple[Yardage, Plan]:
    """Return strips that hold joined pieces alone, and the problem of the other pieces."""
    counts, rests = demands_of(problem)
    return remaining(problem, counts, [0] * len(rests)), plain_patterns(replace(problem, parts=()))


def _whole_ends(problem: Yardage) -> tuple[Yardage, Plan]:
    """Return whole strips of joined pieces, and the problem with what these lack as one segment of each."""
    plan: Plan = {}
    joined = []
    for k, long in enumerate(problem.joined):
        total, least = long.total, long.least
        if total > problem.width:
            strips, lack = divmod(total - long.loss, problem.width - long.loss)
            plan[make_pattern(long.height, {}, {k: problem.width})] = strips
            total = least = max(least, lack + long.loss) if lack else 0
        joined.append(replace(long, total=total, least=least))
    return replace(problem, joined=tuple(joined)), plan


def own_strips_first(problem: Yardage) -> Iterator[Plan]:
    """Yield plans that cut full strips of one size while there are pieces for them, and mix sizes in the last strips.

    One plan takes the turn that wastes least of each part's strips, the other the lower strips.
    """
    for wasteful in (True, False):
        plan, counts = _full_own_strips(problem, by_waste=wasteful)
        _, rests = demands_of(problem)
        yield merged(plan, first_fit_patterns(remaining(problem, counts, rests)))


def own_strips_and_rounding(problem: Yardage, sacks: Knapsacks) -> Plan:
    """Return full strips of one size with what remains cut as the relaxation proposes."""
    plan, counts = _full_own_strips(problem, by_waste=True)
    rest = remaining(problem, counts, demands_of(problem)[1])
    relaxation = Relaxation(problem, sacks, first_fit_patterns(rest))
    relaxation.want(counts, demands_of(problem)[1])
    _, uses = relaxation.solve()
    return merged(plan, rounded_plan(relaxation, uses)) if any(uses) else plan


def with_fewer_heights(problem: Yardage, plan: Plan, most: int) -> Plan:
    """Leave out one strip height after another, the least used first, while a plan within the length is found."""
    used = Counter[int]()
    for pattern, count in plan.items():
        used[pattern.height] += count
    kept = sorted(used)
    for height in sorted(used, key=lambda height: (used[height], height))[:_HEIGHTS]:
        fewer = [other for other in kept if other != height]
        if not fewer or not _reachable(problem, fewer):
            continue
        relaxation = Relaxation(problem, Knapsacks(problem, fewer), (), heights=frozenset(fewer))
        _, uses = relaxation.solve()
        if sum(use * pattern.height for use, pattern in zip(uses, relaxation.pool, strict=True)) > most + 1e-6:
            continue
        found = rounded_plan(relaxation, uses)
        if total_height(found) <= most:
            plan, kept = found, sorted({pattern.height for pattern in found})
    return plan


def _full_own_strips(problem: Yardage, *, by_waste: bool) -> tuple[Plan, list[int]]:
    """Return as many full strips of each single size as there are pieces for, and the counts that remain."""
    plan: Plan = {}
    counts, _ = demands_of(problem)
    for i, part in enumerate(problem.parts):
        options = []
        for turned in turns(part, problem.width):
            along, height = sides(part, turned)
            waste = problem.width % along
            options.append(((waste * height, height) if by_waste else (height, waste), turned, along, height))
        _, turned, along, height = min(options)
        strips, counts[i] = divmod(part.count, problem.width // along)
        if strips:
            plan[make_pattern(height, {(i, turned, 1): problem.width // along}, {})] = strips
    return plan, counts


def _reachable(problem: Yardage, heights: list[int]) -> bool:
    tallest = max(heights)
    return all(
        any(sides(part, turned)[1] <= tallest for turned in turns(part, problem.width)) for part in problem.parts
    ) and all(long.height <= tallest for long in problem.joined)
