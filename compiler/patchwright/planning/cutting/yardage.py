"""The least yardage: which strips to cut so that the fewest steps of cloth are bought, and proof that it is so.

Comes in: a yardage problem. Goes out: a plan never worse than plain practice or first fit.
The order of means: certificates that need no solver, column generation with rounding, and last the complete set of
patterns that a shorter plan could use, decided by the integer solver.
"""

from __future__ import annotations

from collections.abc import Mapping

from .bounds import area_bounds, demands_of, priced_bound
from .columns import SCALE, Relaxation, column_of, rounded_plans, widen
from .knapsack import Knapsacks, heights_of
from .patterns import Bounds, Pattern, finished, total_height
from .plain import first_fit_patterns, plain_patterns
from .problem import Yardage, YardagePlan, checked
from .solver import whole_counts

_NODES = 1_000
_FEW = 2_500
_MANY = 15_000


def best(problem: Yardage) -> YardagePlan:
    """Return the plan that needs the fewest purchasable steps; where that is not proven the plan says so.

    Two stages of cuts and a final trim: strips across the cloth, sections of a strip, and a trim to the piece's height.
    """
    problem = checked(problem)
    return finished(problem, *_Search(problem).run())


class _Search:
    """The plan and the bounds so far, closing in on each other."""

    def __init__(self, problem: Yardage) -> None:
        self.problem = problem
        self.plan = plain_patterns(problem)
        self.bounds = area_bounds(problem)
        self.accept(first_fit_patterns(problem))

    def run(self) -> tuple[Mapping[Pattern, int], Bounds]:
        if self.settled():
            return self.plan, self.bounds
        sacks = Knapsacks(self.problem, heights_of(self.problem))
        areas = [part.width * part.height for part in self.problem.parts] + [j.height for j in self.problem.joined]
        self.raise_bound(priced_bound(self.problem, sacks, areas, self.length))
        if not self.settled():
            self.relax(sacks)
        return self.plan, self.bounds

    def relax(self, sacks: Knapsacks) -> None:
        """Close in by the linear relaxation, and then by every pattern that could still do better."""
        relaxation = Relaxation(self.problem, sacks, self.plan)
        prices, uses = relaxation.solve()
        self.raise_bound(priced_bound(self.problem, sacks, prices, self.length))
        if not self.settled():
            self.accept(rounded_plans(relaxation, uses))
        while not self.settled():
            before = self.step
            self.decide(sacks, prices, relaxation)
            if self.step == before:
                break

    def decide(self, sacks: Knapsacks, prices: list[int], relaxation: Relaxation) -> None:
        """Ask whether one step less is enough, over every pattern that a plan so short could use."""
        most = self.problem.purchasable[self.step - 2]
        counts, rests = demands_of(self.problem)
        worths = sacks.price(prices, counts, rests)
        over = max(max(0, worth - height * SCALE) for worth, height in zip(worths, sacks.heights, strict=True))
        slack = most * SCALE - sum(p * d for p, d in zip(prices, counts + rests, strict=True))
        slack += over * (most // sacks.heights[0])
        near = self._near(sacks, slack, _FEW)
        if near is not None:
            self._ask(near, most, _NODES, complete=True)
            return
        for seed, rounds in enumerate((40, 120)):
            widen(relaxation, prices, rounds, seed)
            pool = [pattern for pattern in relaxation.pool if self._excess(pattern, prices) <= slack]
            if self._ask(pool, most, _NODES, complete=False):
                return
        sacks.price(prices, counts, rests)
        near = self._near(sacks, slack, _MANY)
        if near is not None:
            self._ask(near, most, _NODES, complete=True)

    def _near(self, sacks: Knapsacks, slack: int, limit: int) -> list[Pattern] | None:
        patterns: list[Pattern] = []
        for row, height in enumerate(sacks.heights):
            near = sacks.near(row, height * SCALE - slack, limit - len(patterns))
            if near is None:
                return None
            patterns.extend(near)
        return patterns

    def _excess(self, pattern: Pattern, prices: list[int]) -> int:
        """Return by how much a pattern takes more than it is worth."""
        height, entries = column_of(self.problem, pattern)
        return height * SCALE - sum(prices[row] * value for row, value in entries)

    def _ask(self, patterns: list[Pattern], most: int, nodes: int, *, complete: bool) -> bool:
        """Ask the solver for a plan of these patterns within a length, and tell whether it found one."""
        patterns = sorted(set(patterns))
        columns = [column_of(self.problem, pattern) for pattern in patterns]
        counts, rests = demands_of(self.problem)
        found, settled = whole_counts(columns, counts + rests, most, nodes=nodes)
        if found is not None:
            self.accept({pattern: count for pattern, count in zip(patterns, found, strict=True) if count})
        elif settled and complete:
            self.bounds = Bounds(max(self.bounds.length, most + 1), self.step, True)
        return found is not None

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
        """Raise the bound to a length that is proven; a bound above the plan's length only says that it is the least."""
        length = min(length, self.length)
        if length > self.bounds.length:
            self.bounds = Bounds(length, self.problem.step(length), self.bounds.solver)

    def settled(self) -> bool:
        return self.step == self.bounds.step
