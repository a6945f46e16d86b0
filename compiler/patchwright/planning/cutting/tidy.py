"""Then, for people: among plans within the length that is bought, the one that is easiest to cut.

In this order: something left of the length, joined pieces from whole strips of their own, fewest strip heights, fewest
strips with something left of the width, twice as much left of it, fewest different cuts, least width that the fullest
strip needs, least length.
Nothing here ever makes a plan longer than what is bought anyway.
"""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace

from .bounds import area_length, demands_of
from .columns import Relaxation, merged, remaining, rounded_plan, take
from .dive import counted_plan
from .evening import Plan, evened
from .kinds import with_fewer_kinds
from .knapsack import Knapsacks, heights_of
from .patterns import Pattern, full_strips, make_pattern, sides, total_height, turns, width_used
from .plain import first_fit_patterns, plain_patterns
from .problem import Yardage
from .stripcounts import StripCountSearch

_HEIGHTS = 8
_HEIGHTS_OF_MANY = 3
_FEW_SIZES = 8
_FEW_PIECES = 400
"""Of lists with more sizes and more pieces, fewer heights are tried to be left out, and only one margin."""

_TRIALS_FEWER = 2
_TRIALS = 2
_SIZES = 16
"""Lists of more sizes are not planned again for ease."""

_TRIALS_NARROW = 4
_EFFORT_NARROW = 40
_LEAVES_NARROW = 4

_WIDTH_IN_STRIPS = 2
"""What had better be left of the width is worth so many more strips, but not more."""


def tidied(problem: Yardage, plan: Mapping[Pattern, int], most: int) -> Plan:
    """Return the easiest plan to cut within the length `most`; the given plan must be within it."""

    def worth(some: Mapping[Pattern, int]) -> tuple[int, ...]:
        return ease(problem, some, most)

    easy = with_fewer_kinds(problem, _tidied(problem, plan, most), worth)
    if len(problem.parts) > _SIZES:
        return easy
    for width in _less_wide(problem)[: None if _is_small(problem) else 1]:
        if max((width_used(problem, pattern) for pattern in easy), default=0) > width:
            narrower = _narrower(problem, width, most, worth)
            if narrower is None:
                break
            easy = min(easy, narrower, key=worth)
    return easy


def _is_small(problem: Yardage) -> bool:
    """Tell whether a list is small enough to be tidied with all means."""
    return len(problem.parts) <= _FEW_SIZES or sum(part.count for part in problem.parts) <= _FEW_PIECES


def _less_wide(problem: Yardage) -> tuple[int, int]:
    """Return widths that leave what had better be left unused of the usable width, and twice as much."""
    near = problem.near or problem.width // 80
    return problem.width - near, problem.width - 2 * near


def _narrower(
    problem: Yardage, width: int, most: int, worth: Callable[[Mapping[Pattern, int]], tuple[int, ...]]
) -> Plan | None:
    """Return a plan that does with less width, or None when none is found within the length."""
    narrow = replace(problem, width=width)
    if not _is_alike(problem, width) or area_length(narrow) > most:
        return None
    found = [_tidied(narrow, None, most)]
    if not found[0]:
        found = []
        for rest, plan in (_own_ends(narrow), _whole_ends(narrow)) if narrow.joined else ((narrow, Plan()),):
            other = _searched(rest, most - total_height(plan))
            found += [merged(plan, other)] if other is not None else []
    return min((with_fewer_kinds(narrow, other, worth) for other in found), key=worth, default=None)


def _searched(problem: Yardage, most: int) -> Plan | None:
    """Look for any plan within a length: by rounding, and by the strips that the relaxation can do with."""
    if area_length(problem) > most:
        return None
    sacks = Knapsacks(problem, heights_of(problem))
    relaxation = Relaxation(problem, sacks, first_fit_patterns(problem))
    _, uses = relaxation.solve()
    if sum(use * pattern.height for use, pattern in zip(uses, relaxation.pool, strict=True)) > most + 1e-6:
        return None
    plan = _rounded(relaxation, uses, most, _TRIALS_NARROW)
    if plan is not None:
        return plan
    search = StripCountSearch(problem, sacks, relaxation.pool)
    found: list[Plan] = []

    def serves(counts: Sequence[int]) -> bool:
        plan = counted_plan(search, counts)
        if total_height(plan) <= most:
            found.append(plan)
        return bool(found)

    search.search(most, _EFFORT_NARROW, serves, _LEAVES_NARROW)
    return found[0] if found else None


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


def _is_alike(problem: Yardage, width: int) -> bool:
    """Tell whether a narrower cloth gives every piece in the same turns, and joins the same pieces."""
    parts = all(list(turns(part, width)) == list(turns(part, problem.width)) for part in problem.parts)
    return parts and all(
        (long.total > problem.width or long.total <= width) and long.least <= width for long in problem.joined
    )


def ease(problem: Yardage, plan: Mapping[Pattern, int], most: int) -> tuple[int, ...]:
    """Return what makes a plan within the length `most` easy, most important first; less is easier."""
    used = max((width_used(problem, pattern) for pattern in plan), default=0)
    spared, twice = _less_wide(problem)
    strips, near = sum(plan.values()), int(used > spared)
    return (
        int(total_height(plan) == most),
        _scattered(problem, plan),
        len({pattern.height for pattern in plan}),
        strips + _WIDTH_IN_STRIPS * near,
        near,
        int(used > twice),
        sum(1 + len(pattern.lays) + len(pattern.segments) for pattern in plan),
        used,
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
    """Leave out one strip height after another, the least used first, while a plan within the length is found.

    Strips of joined pieces alone stay as they are.
    """
    own = {pattern: count for pattern, count in plan.items() if not pattern.lays}
    counts, rests = demands_of(problem)
    for pattern, count in own.items():
        take(problem, pattern, count, counts, rests)
    rest, room = remaining(problem, counts, rests), most - total_height(own)
    used = Counter[int]()
    for pattern, count in plan.items():
        used[pattern.height] += count if pattern.lays else 0
    always = {pattern.height for pattern in own}
    kept = sorted({*used, *always})
    tried = _HEIGHTS if _is_small(problem) else _HEIGHTS_OF_MANY
    for height in sorted(used, key=lambda height: (used[height], height))[:tried]:
        fewer = [other for other in kept if other != height]
        if height in always or height not in kept or not fewer or not _reachable(rest, fewer):
            continue
        found = _of_heights(rest, fewer, room)
        if found is not None:
            plan = merged(own, found)
            kept = sorted({pattern.height for pattern in plan})
    return plan


def _of_heights(problem: Yardage, heights: list[int], most: int) -> Plan | None:
    """Return a plan of strips of these heights within the length, or None when none is soon found."""
    relaxation = Relaxation(problem, Knapsacks(problem, heights), (), heights=frozenset(heights))
    _, uses = relaxation.solve()
    if sum(use * pattern.height for use, pattern in zip(uses, relaxation.pool, strict=True)) > most + 1e-6:
        return None
    return _rounded(relaxation, uses, most, _TRIALS_FEWER)


def _rounded(relaxation: Relaxation, uses: Sequence[float], most: int, trials: int) -> Plan | None:
    """A plan within the length by rounding, tried so often, at first without chance; None when none is found."""
    chance = random.Random(most)
    for trial in range(trials if any(uses) else 0):
        plan = rounded_plan(relaxation, uses, chance if trial else None)
        if total_height(plan) <= most:
            return plan
    return None


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
        any(sides(part, turned)[1] <= tallest for turned in turns(part, problem.width))
        for part in problem.parts if part.count
    ) and all(long.height <= tallest for long in problem.joined if long.total > 0)
