"""Then, for people: among plans within the length that is bought, the one that is easiest to cut.

In this order: fewest strip heights, fewest strips, fewest different cuts, least width used by the fullest strip, least
length. Nothing here ever makes a plan longer than what is bought anyway.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping

from .bounds import demands_of
from .columns import Relaxation, merged, remaining, rounded_plan
from .knapsack import Knapsacks
from .patterns import Pattern, make_pattern, pieces_made, sides, total_height, turns, width_used
from .plain import first_fit_patterns
from .problem import Yardage

Plan = dict[Pattern, int]
_HEIGHTS = 4


def ease(problem: Yardage, plan: Mapping[Pattern, int]) -> tuple[int, int, int, int, int]:
    """Return what makes a plan easy, most important first; less is easier."""
    return (
        len({pattern.height for pattern in plan}),
        sum(plan.values()),
        sum(1 + len(pattern.lays) + len(pattern.segments) for pattern in plan),
        max((width_used(problem, pattern) for pattern in plan), default=0),
        total_height(plan),
    )


def easiest(problem: Yardage, plans: Iterable[Mapping[Pattern, int]], most: int) -> Plan:
    """Return the easiest of the plans within the length, each evened out; at least one must be within it."""
    even = [evened(problem, plan) for plan in plans if total_height(plan) <= most]
    return min(even, key=lambda plan: (ease(problem, plan), sorted(plan.items())))


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


def evened(problem: Yardage, plan: Mapping[Pattern, int]) -> Plan:
    """Share the pieces of each part evenly over the strips that hold nothing else, and joined lengths likewise."""
    even = dict(plan)
    for part in range(len(problem.parts)):
        _even_part(problem, even, part)
    for long in range(len(problem.joined)):
        _even_joined(problem, even, long)
    return {pattern: count for pattern, count in even.items() if count}


def _even_part(problem: Yardage, plan: Plan, part: int) -> None:
    own = [p for p in plan if len(p.lays) == 1 and p.lays[0].part == part and not p.segments]
    kinds = {(p.height, p.lays[0].turned, p.lays[0].stack) for p in own}
    if len(kinds) != 1:
        return
    (height, turned, stack) = kinds.pop()
    per_strip = max(p.lays[0].columns for p in own) * stack
    given = sum(lay.columns * lay.stack * plan[p] for p in own for lay in p.lays)
    need = problem.parts[part].count - pieces_made(plan, len(problem.parts))[part] + given
    for pattern in own:
        del plan[pattern]
    if need > 0:
        strips = -(-need // per_strip)
        columns = -(-need // (strips * stack))
        fresh = make_pattern(height, {(part, turned, stack): columns}, {})
        plan[fresh] = plan.get(fresh, 0) + strips


def _even_joined(problem: Yardage, plan: Plan, long: int) -> None:
    piece = problem.joined[long]
    own = [p for p in plan if not p.lays and len(p.segments) == 1 and p.segments[0][0] == long]
    if not own or len({p.height for p in own}) != 1 or piece.total <= problem.width:
        return
    others = sum(
        (length - piece.loss) * n for p, n in plan.items() if p not in own for k, length in p.segments if k == long
    )
    need = piece.total - piece.loss - others
    height = own[0].height
    for pattern in own:
        del plan[pattern]
    if need > 0:
        strips = -(-need // (problem.width - piece.loss))
        length = max(piece.least, -(-need // strips) + piece.loss)
        fresh = make_pattern(height, {}, {long: length})
        plan[fresh] = plan.get(fresh, 0) + strips


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
