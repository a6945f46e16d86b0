"""Column generation: the linear relaxation over all patterns, and whole plans by rounding down what it says.

Comes in: a checked problem. Goes out: whole prices that certify a bound, a pool of useful patterns, and good plans.
"""

from __future__ import annotations

import random
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from typing import Any

from .bounds import demands_of
from .knapsack import Knapsacks
from .patterns import Pattern, own_patterns, total_height
from .plain import first_fit_patterns
from .problem import Yardage
from .solver import Column, Covering

SCALE = 10**7
"""Prices are whole numbers of this part of a grid unit of length."""

_ROUNDS = 200
_CAPS = (0, 1, 2, 3, 5, 8, 1000)


class Relaxation:
    """The linear relaxation of one problem, its pool of patterns growing as it is solved for changing demands."""

    def __init__(
        self,
        problem: Yardage,
        sacks: Knapsacks,
        start: Iterable[Pattern],
        heights: frozenset[int] | None = None,
    ) -> None:
        """Start from the patterns of plans already known, beside each size's own strips.

        With `heights` no other strips are cut; a size without one of its own is laid in the lowest that holds it.
        """
        self.heights = heights
        self.problem, self.sacks = problem, sacks
        self.counts, self.rests = demands_of(problem)
        self.pool: list[Pattern] = []
        self._known: set[Pattern] = set()
        self._given = Given(len(self.counts) + len(self.rests))
        self._master = Covering(self.counts + self.rests)
        for pattern in [*own_patterns(problem), *start]:
            self.add(self.within(pattern))

    def add(self, pattern: Pattern | None) -> bool:
        """Add a pattern to the pool unless it is there or gives nothing."""
        if pattern is None or pattern in self._known or not (pattern.lays or pattern.segments):
            return False
        self._known.add(pattern)
        self.pool.append(pattern)
        column = column_of(self.problem, pattern)
        self._given.add(column)
        self._master.add(column)
        return True

    def within(self, pattern: Pattern) -> Pattern | None:
        """Return the pattern in the lowest strip that is allowed and holds it, or None."""
        if self.heights is None:
            return pattern
        fitting = [height for height in self.heights if height >= pattern.height]
        return replace(pattern, height=min(fitting)) if fitting else None

    def want(self, counts: Sequence[int], rests: Sequence[int]) -> None:
        """Change what is still wanted; patterns that give more of anything than that are set aside."""
        self.counts, self.rests = [max(0, n) for n in counts], [max(0, n) for n in rests]
        for row, amount in enumerate(self.counts + self.rests):
            self._master.demand(row, amount)
        ends = [
            max(rest, long.least - long.loss) if rest else 0
            for rest, long in zip(self.rests, self.problem.joined, strict=True)
        ]
        self._master.allow(self._given.within(self.counts + ends))
        for pattern in own_patterns(remaining(self.problem, self.counts, self.rests)):
            self.add(self.within(pattern))

    def solve(self) -> tuple[list[int], list[float]]:
        """Add patterns until none is worth more than it takes; return the whole prices and each pattern's use."""
        prices, uses = self._master.solve(SCALE)
        for _ in range(_ROUNDS):
            worths = self.sacks.price(prices, self.counts, self.rests)
            better = [
                row
                for row, (height, worth) in enumerate(zip(self.sacks.heights, worths, strict=True))
                if worth > height * SCALE + height
            ]
            added = [self.add(self.sacks.dearest(row)) for row in better]
            if not any(added):
                break
            prices, uses = self._master.solve(SCALE)
        return prices, uses


class Given:
    """What each pattern gives to each row, in one table, so that all patterns are compared with a demand at once."""

    def __init__(self, rows: int) -> None:
        import numpy as np

        self._table, self._number = np.zeros((256, rows), dtype=np.int64), 0

    def add(self, column: Column) -> None:
        """Add a pattern's column."""
        import numpy as np

        if self._number == len(self._table):
            self._table = np.concatenate([self._table, np.zeros_like(self._table)])
        for row, value in column[1]:
            self._table[self._number, row] = value
        self._number += 1

    def within(self, most: Sequence[int]) -> Any:
        """Tell for each pattern whether it gives no more than this to any row."""
        return (self._table[: self._number] <= most).all(axis=1)


def widen(relaxation: Relaxation, prices: Sequence[int], rounds: int, seed: int) -> None:
    """Add patterns of many kinds to the pool: the dearest ones when only some of each part may be used.

    Equal patterns abound near the optimum and the knapsack always names the same few; a whole plan wants variety.
    The choice is drawn from the seed alone, so that the same problem always gets the same patterns.
    """
    chance = random.Random(seed)
    counts, rests = demands_of(relaxation.problem)
    for _ in range(rounds):
        caps = [min(count, chance.choice(_CAPS)) for count in counts]
        limits = [rest if chance.random() < 0.6 else 0 for rest in rests]
        varied = [int(price * (0.97 + 0.06 * chance.random())) for price in prices]
        relaxation.sacks.price(varied, caps, limits)
        for row in range(len(relaxation.sacks.heights)):
            relaxation.add(relaxation.sacks.dearest(row))


def column_of(problem: Yardage, pattern: Pattern) -> Column:
    """Return the pattern as a column: its height, and what it gives to each part and joined piece."""
    given: dict[int, int] = {}
    for lay in pattern.lays:
        given[lay.part] = given.get(lay.part, 0) + lay.columns * lay.stack
    for k, length in pattern.segments:
        given[len(problem.parts) + k] = length - problem.joined[k].loss
    return pattern.height, tuple(sorted(given.items()))


def rounded_plan(
    relaxation: Relaxation, uses: Sequence[float], chance: random.Random | None = None
) -> dict[Pattern, int]:
    """Return the shortest whole plan met while rounding the uses down and solving again for what remains.

    What remains is also finished by first fit each time; the relaxation is left with its first demands again.
    With `chance` the first rounding holds back a few strips, and lone strips are drawn by their uses, so that each call
    looks somewhere else.
    """
    problem = relaxation.problem
    full = list(relaxation.counts), list(relaxation.rests)
    counts, rests = list(full[0]), list(full[1])
    plan: dict[Pattern, int] = {}
    best: dict[Pattern, int] | None = None
    while True:
        taken = whole_uses(relaxation.pool, uses, chance, first=not plan)
        for pattern, times in taken.items():
            plan[pattern] = plan.get(pattern, 0) + times
            take(problem, pattern, times, counts, rests)
        tail = first_fit_patterns(remaining(problem, counts, rests))
        heights = relaxation.heights
        if heights is None or all(pattern.height in heights for pattern in tail):
            whole = merged(plan, tail)
            if best is None or total_height(whole) < total_height(best):
                best = whole
        if not any(n > 0 for n in counts + rests):
            break
        relaxation.want(counts, rests)
        _, uses = relaxation.solve()
    relaxation.want(*full)
    assert best is not None, "when nothing remains, the plan itself is whole"
    return best


def reworked_plan(
    relaxation: Relaxation, plan: Mapping[Pattern, int], chance: random.Random, drop: int
) -> dict[Pattern, int]:
    """Return the plan with about so many of its strips, drawn by chance, taken out and planned again.

    The relaxation is left with its first demands again.
    """
    problem = relaxation.problem
    full = list(relaxation.counts), list(relaxation.rests)
    strips = [pattern for pattern, count in sorted(plan.items()) for _ in range(min(count, drop))]
    kept = dict(plan)
    for pattern in chance.sample(strips, min(drop, len(strips))):
        kept[pattern] -= 1
    kept = {pattern: count for pattern, count in kept.items() if count}
    counts, rests = list(full[0]), list(full[1])
    for pattern, count in kept.items():
        take(problem, pattern, count, counts, rests)
    if any(n > 0 for n in counts + rests):
        relaxation.want(counts, rests)
        _, uses = relaxation.solve()
        kept = merged(kept, rounded_plan(relaxation, uses, chance))
        relaxation.want(*full)
    return kept


def whole_uses(
    pool: Sequence[Pattern], uses: Sequence[float], chance: random.Random | None, *, first: bool
) -> dict[Pattern, int]:
    whole: dict[Pattern, int] = {}
    places = [place for place, use in enumerate(uses) if use > 1e-6]
    for place in places:
        times = int(uses[place] + 1e-6)
        if times and first and chance:
            times -= chance.choice((0, 0, 1, 1, 2, times // 3))
        if times > 0:
            whole[pool[place]] = times
    if whole:
        return whole
    if chance:
        return {pool[chance.choices(places, [uses[place] ** 2 for place in places])[0]]: 1}
    return {pool[max(places, key=lambda place: (round(uses[place], 6), -place))]: 1}


def take(problem: Yardage, pattern: Pattern, times: int, counts: list[int], rests: list[int]) -> None:
    parts = len(problem.parts)
    for row, given in column_of(problem, pattern)[1]:
        if row < parts:
            counts[row] -= given * times
        else:
            rests[row - parts] -= given * times


def remaining(problem: Yardage, counts: Sequence[int], rests: Sequence[int]) -> Yardage:
    """Return the problem of what is still wanted; parts and joined pieces keep their places, wanted or not."""
    parts = tuple(replace(part, count=max(0, n)) for part, n in zip(problem.parts, counts, strict=True))
    joined = tuple(
        replace(long, total=rest + long.loss if rest > 0 else 0)
        for long, rest in zip(problem.joined, rests, strict=True)
    )
    return Yardage(problem.width, parts, joined, problem.purchasable)


def merged(first: Mapping[Pattern, int], second: Mapping[Pattern, int]) -> dict[Pattern, int]:
    """Return the counts of both plans together."""
    together = dict(first)
    for pattern, count in second.items():
        together[pattern] = together.get(pattern, 0) + count
    return together
