"""The least yardage: which strips to cut so that the fewest steps of cloth are bought, and proof that it is so.

Comes in: a yardage problem. Goes out: a plan never worse than plain practice or first fit.
The order of means: certificates that need no solver, column generation with rounding, and last the complete set of
patterns that a shorter plan could use, decided by the integer solver.
"""

from __future__ import annotations

import random
from collections.abc import Mapping, Sequence

from .bounds import area_bounds, demands_of, priced_bound
from .columns import Relaxation, column_of, reworked_plan, rounded_plan, widen
from .dive import counted_plan
from .knapsack import Knapsacks, heights_of
from .patterns import Bounds, Pattern, finished, total_height
from .plain import first_fit_patterns, plain_patterns
from .problem import Yardage, YardagePlan, checked
from .solver import whole_counts
from .stripcounts import PriceCut, StripCountSearch, Verdict, least_worths
from .tidy import tidied

_ROUNDINGS = 20
_TESTS = 60
_WORK = 200_000
_WIDENINGS = 60
_REWORKED = 25
_REWORKINGS = 400
_SMALL = 8
_THOROUGH = 3
_SOON = 8
_DIVES = 2
_LEAVES = 20
_LEAVES_OF_MANY = 5
_FEW = 1_000
_FEW_SMALL = 3_500
_MANY = 5_000


def _effort(sacks: Knapsacks) -> int:
    """Return how many knapsack tables the search over strip counts may fill: fewer where one takes long."""
    cells = len(sacks.heights) * sacks.problem.width * max(1, len(sacks.ways))
    return max(30, min(400, 45_000_000 // cells))


def best(problem: Yardage) -> YardagePlan:
    """Return the plan that needs the fewest purchasable steps; where that is not proven the plan says so.

    Two stages of cuts and a final trim: strips across the cloth, sections of a strip, and a trim to the piece's height.
    """
    problem = checked(problem)
    search = _Search(problem)
    search.run()
    most = problem.purchasable[search.step - 1]
    return finished(problem, tidied(problem, search.plan, most), search.bounds)


class _Search:
    """The plan and the bounds so far, closing in on each other."""

    def __init__(self, problem: Yardage) -> None:
        self.problem = problem
        self.plan = plain_patterns(problem)
        self.bounds = area_bounds(problem)
        self.accept(first_fit_patterns(problem))

    def run(self) -> None:
        """Close in until the step is settled or the means are exhausted."""
        if self.settled():
            return
        sacks = Knapsacks(self.problem, heights_of(self.problem))
        areas = [part.width * part.height for part in self.problem.parts] + [j.height for j in self.problem.joined]
        self.raise_bound(priced_bound(self.problem, sacks, areas, self.length))
        if not self.settled():
            self.relax(sacks)

    def relax(self, sacks: Knapsacks) -> None:
        """Close in by the linear relaxation, the search over strip counts, and every pattern that could do better."""
        relaxation = Relaxation(self.problem, sacks, self.plan)
        prices, uses = relaxation.solve()
        self.raise_bound(priced_bound(self.problem, sacks, prices, self.length))
        if not self.settled():
            self.accept(rounded_plan(relaxation, uses))
        search = StripCountSearch(self.problem, sacks, relaxation.pool)
        thorough = False
        while not self.settled():
            most = self.problem.purchasable[self.bounds.step - 1]
            # This search is apart, so that a length it does not refute is searched as if it had not been tried.
            apart = StripCountSearch(self.problem, sacks, relaxation.pool) if not thorough else None
            if apart is not None and apart.refute(most, _effort(sacks) // _SOON):
                self.raise_bound(most + 1)
                continue
            verdict = self.count(search, most, _effort(sacks) * (_THOROUGH if thorough else 1))
            if verdict.refuted:
                self.raise_bound(most + 1)
                continue
            if thorough or self.settled():
                break
            if self.step > self.bounds.step + 1:
                self.count(search, self.problem.purchasable[self.bounds.step], _effort(sacks))
            for pattern in search.pool:
                relaxation.add(pattern)
            start = dict(verdict.uses)
            self.round(relaxation, [start.get(p, 0.0) for p in relaxation.pool] if start else uses)
            if self.step > self.bounds.step + 1 and len(self.problem.parts) > _SMALL:
                break
            if not self.settled() and not self.decide(sacks, prices, relaxation, search.cuts):
                # What cannot be decided may still be refuted by a longer search, where it was not followed to its end.
                if verdict.counts or len(self.problem.parts) > _SMALL:
                    break
                thorough = True

    def count(self, search: StripCountSearch, most: int, effort: int) -> Verdict:
        """Search the strip counts of a length, and make plans of all those that the relaxation can do with."""
        chance = random.Random(most)

        def serves(counts: Sequence[int]) -> bool:
            for trial in range(_DIVES):
                if self.length > most:
                    self.accept(counted_plan(search, counts, chance if trial else None))
            return self.length <= most

        leaves = _LEAVES if len(self.problem.parts) <= _SMALL else _LEAVES_OF_MANY
        return search.search(most, effort, serves, leaves)

    def round(self, relaxation: Relaxation, uses: list[float]) -> None:
        """Round the uses in many ways until the bound is met."""
        chance = random.Random(len(uses))
        usual = max(10, min(_ROUNDINGS, 200 // (1 + len(self.problem.parts))))
        for _ in range(usual):
            if self.settled():
                return
            self.accept(rounded_plan(relaxation, uses, chance))
        # A plan within a step of the bound is worth only the usual number of trials.
        for _ in range(_REWORKINGS // (1 + len(self.problem.parts))):
            if self.step <= self.bounds.step + 1:
                return
            self.accept(rounded_plan(relaxation, uses, chance))
            # Another plan as long may be the better start.
            other = reworked_plan(relaxation, self.plan, chance, _REWORKED)
            if total_height(other) <= self.length:
                self.plan = other

    def decide(self, sacks: Knapsacks, prices: list[int], relaxation: Relaxation, cuts: list[PriceCut]) -> bool:
        """Ask whether the bound's step is enough, over every pattern that a plan so short could use.

        Return whether the bound or the plan moved.
        """
        most = self.problem.purchasable[self.bounds.step - 1]
        counts, rests = demands_of(self.problem)
        wanted = sum(price * amount for price, amount in zip(prices, counts + rests, strict=True))
        root = PriceCut(tuple(prices), tuple(sacks.price(prices, counts, rests)), wanted)
        tests = [(cut.prices, least_worths(cut, sacks.heights, most)) for cut in [root, *cuts[-_TESTS:]]]
        row = {height: place for place, height in enumerate(sacks.heights)}

        def useful(pattern: Pattern) -> bool:
            height, entries = column_of(self.problem, pattern)
            return all(sum(p[r] * v for r, v in entries) >= least[row[height]] for p, least in tests)

        near = self._near(sacks, tests[0][1])
        if near is not None:
            near = [pattern for pattern in near if useful(pattern)]
        few = near is not None and len(near) <= (_FEW_SMALL if len(self.problem.parts) <= _SMALL else _FEW)
        for seed in range(2):
            pool = [pattern for pattern in relaxation.pool if useful(pattern)]
            if few and near is not None and len(near) <= 2 * len(pool):
                break
            if self._ask(pool, most, complete=False):
                return True
            if few:
                break
            if len(pool) <= _FEW // 2:
                widen(relaxation, prices, _WIDENINGS, seed)
        return few and near is not None and self._ask(near, most, complete=True)

    def _near(self, sacks: Knapsacks, least: list[int]) -> list[Pattern] | None:
        patterns: list[Pattern] = []
        for row, worth in enumerate(least):
            near = sacks.near(row, worth, _MANY - len(patterns))
            if near is None:
                return None
            patterns.extend(near)
        return patterns

    def _ask(self, patterns: list[Pattern], most: int, *, complete: bool) -> bool:
        """Ask the solver for a plan of these patterns within a length, and tell whether plan or bound moved."""
        if not complete and len(patterns) > _FEW // 2:
            return False
        patterns = sorted(set(patterns))
        columns = [column_of(self.problem, pattern) for pattern in patterns]
        counts, rests = demands_of(self.problem)
        nodes = max(100 if complete else 30, min(400, (_WORK if complete else _WORK // 2) // (1 + len(columns))))
        found, settled = whole_counts(columns, counts + rests, most, nodes=nodes)
        if found is not None:
            self.accept({pattern: count for pattern, count in zip(patterns, found, strict=True) if count})
        elif settled and complete:
            self.bounds = Bounds(most + 1, self.problem.step(most + 1), True)
        else:
            return False
        return True

    @property
    def length(self) -> int:
        return total_height(self.plan)

    @property
    def step(self) -> int:
        return self.problem.step(self.length)

    def accept(self, plan: Mapping[Pattern, int]) -> None:
        """Keep the plan if it takes less length."""
        if total_height(plan) < self.length:
            self.plan = dict(plan)

    def raise_bound(self, length: int) -> None:
        """Raise the bound to a proven length; one above the plan's own only says that the plan is the shortest."""
        length = min(length, self.length)
        if length > self.bounds.length:
            self.bounds = Bounds(length, self.problem.step(length), self.bounds.solver)

    def settled(self) -> bool:
        return self.step == self.bounds.step
