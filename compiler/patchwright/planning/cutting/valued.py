"""The dearest pieces that one sheet gives in two stages and a final trim.

Comes in: a sheet, pieces with whole values and numbers of copies. Goes out: strips, their value, and a bound on it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from .columns import column_of
from .knapsack import Knapsacks, heights_of
from .patterns import Pattern
from .problem import Part, Yardage
from .solver import Program

_SCALE = 10**6
_ROUNDS = 300
_PATTERNS = 20_000


@dataclass(frozen=True, slots=True)
class ValuedPlan:
    """The dearest plan found: strips as (height, ((part key, count), …)), its value, and whether it is the best."""

    strips: tuple[tuple[int, tuple[tuple[str, int], ...]], ...]
    value: int
    settled: bool


def dearest_sheet(
    width: int, height: int, parts: Sequence[Part], values: Sequence[int], *, nodes: int = 20_000
) -> ValuedPlan:
    """Return the dearest set of pieces that strips across the sheet give, no part beyond its count.

    Pieces that do not fit are left out.
    """
    kept = [
        (part, value)
        for part, value in zip(parts, values, strict=True)
        if part.count and any(w <= width and h <= height for w, h in _turns(part))
    ]
    if not kept:
        return ValuedPlan((), 0, True)
    search = _Valued(Yardage(width, tuple(part for part, _ in kept), (), (height,)), [value for _, value in kept])
    return search.run(nodes)


def _turns(part: Part) -> list[tuple[int, int]]:
    return [(part.width, part.height)] + [(part.height, part.width)] * part.turn


class _Valued:
    """The program over strips: its relaxation first, then every strip that a better plan could hold."""

    def __init__(self, problem: Yardage, values: list[int]) -> None:
        self.problem, self.values, self.height = problem, values, problem.purchasable[-1]
        self.counts = [part.count for part in problem.parts]
        self.sacks = Knapsacks(problem, [height for height in heights_of(problem) if height <= self.height])
        rows: list[tuple[int | None, int | None]] = [(None, count) for count in self.counts]
        self.program = Program([*rows, (None, self.height)])
        self.patterns: list[Pattern] = []
        self._known: set[Pattern] = set()
        # A copy beyond the count is allowed and worth nothing, so that no price rises above a piece's value.
        for row, value in enumerate(values):
            self.program.add(value, [(row, -1)])

    def add(self, pattern: Pattern) -> bool:
        """Add a strip unless it is known or empty."""
        if not pattern.lays or pattern in self._known:
            return False
        self._known.add(pattern)
        self.patterns.append(pattern)
        entries = column_of(self.problem, pattern)[1]
        worth = sum(self.values[row] * count for row, count in entries)
        self.program.add(-worth, [*entries, (len(self.counts), pattern.height)])
        return True

    def run(self, nodes: int) -> ValuedPlan:
        """Return the dearest plan."""
        for _ in range(_ROUNDS):
            prices, due = self._prices()
            worths = self.sacks.price(prices, self.counts, [])
            better = [r for r, (w, h) in enumerate(zip(worths, self.sacks.heights, strict=True)) if w > due * h + 100]
            added = [self.add(self.sacks.dearest(row)) for row in better]
            if not any(added):
                break
        plan = self._whole(nodes)
        prices, due = self._prices()
        worths = self.sacks.price(prices, self.counts, [])
        most = max(-(-worth // height) for worth, height in zip(worths, self.sacks.heights, strict=True))
        limit = sum((v * _SCALE - p) * c for v, p, c in zip(self.values, prices, self.counts, strict=True))
        slack = limit + most * self.height - (plan.value + 1) * _SCALE
        complete = True
        for row, height in enumerate(self.sacks.heights):
            near = self.sacks.near(row, most * height - slack, _PATTERNS)
            complete = complete and near is not None
            for pattern in near or ():
                self.add(pattern)
        whole = self._whole(nodes)
        return ValuedPlan(whole.strips, whole.value, whole.settled and complete)

    def _prices(self) -> tuple[list[int], int]:
        """Return what each piece is worth beyond its scarcity, and what a unit of height is worth, in whole numbers."""
        duals, _ = self.program.solve(_SCALE)
        scarce = [min(value * _SCALE, max(0, -dual)) for dual, value in zip(duals, self.values, strict=False)]
        return [v * _SCALE - s for v, s in zip(self.values, scarce, strict=True)], max(0, -duals[-1])

    def _whole(self, nodes: int) -> ValuedPlan:
        places = range(len(self.values), len(self.values) + len(self.patterns))
        over = range(len(self.values))
        counts, settled = self.program.whole([*over, *places], nodes=nodes)
        if counts is None:
            return ValuedPlan((), 0, False)
        left = list(self.counts)
        strips: list[tuple[int, tuple[tuple[str, int], ...]]] = []
        value = 0
        for pattern, count in zip(self.patterns, counts[len(self.values) :], strict=True):
            for _ in range(count):
                given = []
                for row, number in column_of(self.problem, pattern)[1]:
                    taken = min(number, left[row])
                    left[row] -= taken
                    value += taken * self.values[row]
                    if taken:
                        given.append((self.problem.parts[row].key, taken))
                strips.append((pattern.height, tuple(given)))
        return ValuedPlan(tuple(strips), value, settled)
