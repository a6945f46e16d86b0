"""Whole plans from whole strip counts: the number of strips of each height is kept while patterns are rounded.

Comes in: a search over strip counts with counts that its relaxation can do with. Goes out: a plan; what the counts
cannot serve after all is cut from further strips by first fit.
"""

from __future__ import annotations

import random
from collections.abc import Sequence

from .columns import merged, remaining, take, whole_uses
from .patterns import Pattern
from .plain import first_fit_patterns
from .problem import Yardage
from .stripcounts import StripCountSearch

_SCALE = 10**7
_ROUNDS = 40


def counted_plan(
    search: StripCountSearch, strips: Sequence[int], chance: random.Random | None = None
) -> dict[Pattern, int]:
    """Return a plan of about these strips per height, by rounding down and solving again for what remains.

    With `chance` each call looks somewhere else; the search is left with its first demands again.
    """
    dive = _Dive(search, list(strips))
    plan = dive.run(chance)
    dive.restore()
    return plan


class _Dive:
    """What is still wanted, and the strips that are still to be filled."""

    def __init__(self, search: StripCountSearch, strips: list[int]) -> None:
        self.search, self.strips = search, strips
        self.problem: Yardage = search.problem
        self.counts, self.rests = list(search.counts), list(search.rests)

    def run(self, chance: random.Random | None) -> dict[Pattern, int]:
        """Fill all strips, or as many as anything is left to cut from."""
        plan: dict[Pattern, int] = {}
        while any(self.strips) and any(n > 0 for n in self.counts + self.rests):
            uses = self._uses()
            if not any(use > 1e-6 for use in uses):
                break
            for pattern, times in whole_uses(self.search.pool, uses, chance, first=not plan).items():
                times = min(times, self.strips[self.search.row[pattern.height]])
                if times:
                    plan[pattern] = plan.get(pattern, 0) + times
                    self.strips[self.search.row[pattern.height]] -= times
                    take(self.problem, pattern, times, self.counts, self.rests)
        return merged(plan, first_fit_patterns(remaining(self.problem, self.counts, self.rests)))

    def _uses(self) -> list[float]:
        """Return how often the relaxation within the strips left uses each pattern, new patterns among them."""
        search, model = self.search, self.search.model
        counts, rests = [max(0, n) for n in self.counts], [max(0, n) for n in self.rests]
        self._demand(counts + rests)
        ends = [max(r, j.least - j.loss) if r else 0 for r, j in zip(rests, self.problem.joined, strict=True)]
        model.allow(search.given.within(counts + ends))
        model.limit([0] * len(self.strips), self.strips)
        uses: list[float] = []
        for _ in range(_ROUNDS):
            prices, dues, _, _, uses = model.solve(_SCALE)
            worths = search.sacks.price(prices, counts, rests)
            better = [
                row for row, worth in enumerate(worths) if self.strips[row] and worth > dues[row] + search.heights[row]
            ]
            added = [search.add(search.sacks.dearest(row)) for row in better]
            if not any(added):
                break
        return uses

    def _demand(self, amounts: Sequence[int]) -> None:
        for row, amount in enumerate(amounts):
            self.search.model.demand(row, amount)

    def restore(self) -> None:
        """Give the search its first demands and all its patterns again."""
        self._demand(self.search.counts + self.search.rests)
        self.search.model.allow([True] * len(self.search.pool))
