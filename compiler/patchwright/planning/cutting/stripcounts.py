"""How many strips of each height: a search over whole strip counts that proves a length to be too short.

Any whole prices give a cut on the strip counts: what the dearest patterns of the strips are worth together must reach
what all that is wanted is worth.
The search branches on the number of strips of one height and closes a branch only by such a cut, worked in integers:
the linear program proposes prices and is never believed.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from math import gcd

from .bounds import demands_of, most_worth
from .columns import Given, column_of
from .knapsack import Knapsacks
from .patterns import Pattern
from .problem import Yardage
from .solver import StripCounting

_SCALE = 10**7
_ROUNDS = 60
_LEAF = 7
"""Whole counts that the relaxation can do with are a reason to look for others, with this part of the effort more."""

Counts = tuple[int, ...]
"""Strips per height."""


@dataclass(frozen=True, slots=True)
class PriceCut:
    """What the dearest pattern of each height is worth under whole prices, and what all that is wanted is worth."""

    prices: tuple[int, ...]
    worths: tuple[int, ...]
    wanted: int


@dataclass(frozen=True, slots=True)
class Verdict:
    """What the search found out about one length.

    `refuted` means that no plan is so short. Otherwise `counts` are strips per height that the relaxation can do with,
    and `uses` how often it then uses each pattern; both are empty when the search was given up.
    """

    refuted: bool
    counts: tuple[int, ...] = ()
    uses: tuple[tuple[Pattern, float], ...] = ()


class StripCountSearch:
    """Searches the strip counts of one problem, for one length after another; cuts and patterns are kept between."""

    def __init__(self, problem: Yardage, sacks: Knapsacks, pool: Sequence[Pattern]) -> None:
        """Start from patterns already known."""
        self.problem, self.sacks, self.heights = problem, sacks, sacks.heights
        self.counts, self.rests = demands_of(problem)
        self.row = {height: row for row, height in enumerate(self.heights)}
        areas = [part.width * part.height for part in problem.parts] + [long.height for long in problem.joined]
        penalties = [max(1, 4 * area // problem.width) for area in areas]
        self.model = StripCounting(self.counts + self.rests, penalties, self.heights)
        self.cuts: list[PriceCut] = []
        self.table = CutTable(self.heights)
        self.pool: list[Pattern] = []
        self.given = Given(len(self.counts) + len(self.rests))
        self._known: set[Pattern] = set()
        for pattern in pool:
            self.add(pattern)

    def add(self, pattern: Pattern) -> bool:
        """Add a pattern unless it is known or gives nothing."""
        if pattern in self._known or not (pattern.lays or pattern.segments):
            return False
        self._known.add(pattern)
        self.pool.append(pattern)
        column = column_of(self.problem, pattern)
        self.given.add(column)
        self.model.add(column[1], self.row[pattern.height])
        return True

    def refute(self, most: int, effort: int) -> bool:
        """Tell whether plans of length `most` are soon refuted where the highest strips are counted first.

        High strips waste most where their number is no whole one.
        """
        return self.search(most, effort, lambda _: True, 1, highest_first=True).refuted

    def search(
        self, most: int, effort: int, serves: Callable[[Sequence[int]], bool], leaves: int, *,
        highest_first: bool = False,
    ) -> Verdict:
        """Refute plans of length `most`, or find strip counts for one; `effort` limits the knapsack tables filled.

        Each whole counts that the relaxation can do with are handed to `serves`, at most `leaves` of them; the search
        ends where it is content, and looks for other counts where it is not.
        """
        first: Verdict | None = None
        open_boxes = [((0,) * len(self.heights), tuple(most // height for height in self.heights))]
        complete = True
        self._effort = effort
        while open_boxes:
            low, high = open_boxes.pop()
            if self._effort <= 0:
                return first or Verdict(False)
            answer = self._solve(low, high, most)
            if answer is None:
                continue
            strips, uses, served = answer
            weights = self.heights if highest_first else (1,) * len(strips)
            place = max(range(len(strips)), key=lambda row: (_broken(strips[row]) * weights[row], row))
            if _broken(strips[place]) < 1e-5:
                complete = False
                if served:
                    counts = tuple(round(strip) for strip in strips)
                    first = first or Verdict(False, counts, tuple(zip(self.pool, uses, strict=True)))
                    leaves -= 1
                    self._effort += effort // _LEAF
                    if serves(counts) or leaves <= 0:
                        return first
                    open_boxes.extend(_beside(low, high, counts))
                continue
            below = int(strips[place])
            lower = low, (*high[:place], below, *high[place + 1 :])
            upper = (*low[:place], below + 1, *low[place + 1 :]), high
            open_boxes.extend((upper, lower) if strips[place] - below < 0.5 else (lower, upper))
        return first or Verdict(complete)

    def _solve(
        self, low: Sequence[int], high: Sequence[int], most: int
    ) -> tuple[list[float], list[float], bool] | None:
        """Return the relaxation's strips and uses within the limits, or None when a cut shows them to be hopeless."""
        if self.cuts and self.table.refutes(low, high, most):
            return None
        self.model.limit(low, high)
        for _ in range(_ROUNDS):
            prices, dues, strips, unserved, uses = self.model.solve(_SCALE)
            worths = self.sacks.price(prices, self.counts, self.rests)
            self._effort -= 1
            wanted = sum(price * amount for price, amount in zip(prices, self.counts + self.rests, strict=True))
            cut = PriceCut(tuple(prices), tuple(worths), wanted)
            self.table.add(cut)
            if self.table.refutes(low, high, most, last=True):
                self.cuts.append(cut)
                return None
            self.table.pop()
            better = [row for row, worth in enumerate(worths) if high[row] and worth > dues[row] + self.heights[row]]
            added = [self.add(self.sacks.dearest(row)) for row in better]
            if not any(added):
                break
        return strips, uses, unserved < 1e-6


class CutTable:
    """Many price cuts side by side, so that a box is held against all of them at once, in exact integers."""

    def __init__(self, heights: Sequence[int]) -> None:
        import numpy as np

        self._heights, self._unit, self._number = np.array(heights, dtype=np.int64), gcd(*heights), 0
        self._order = np.zeros((64, len(heights)), dtype=np.int64)
        self._worths = np.zeros((64, len(heights)), dtype=np.int64)
        self._wanted = np.zeros(64, dtype=np.int64)

    def add(self, cut: PriceCut) -> None:
        """Add a cut as the last one."""
        import numpy as np

        if self._number == len(self._wanted):
            grown = (np.concatenate([old, np.zeros_like(old)]) for old in (self._order, self._worths, self._wanted))
            self._order, self._worths, self._wanted = grown
        # Worth per height as whole numbers is exact; the densest strips meet a demand in the least length.
        density = [-(worth << 24) // int(height) for worth, height in zip(cut.worths, self._heights, strict=True)]
        order = sorted(range(len(density)), key=lambda row: density[row])
        self._order[self._number] = order
        self._worths[self._number] = [cut.worths[row] for row in order]
        self._wanted[self._number] = cut.wanted
        self._number += 1

    def pop(self) -> None:
        """Take the last cut away again."""
        self._number -= 1

    def refutes(self, low: Sequence[int], high: Sequence[int], most: int, *, last: bool = False) -> bool:
        """Tell whether strip counts within the limits need more than `most` to meet some cut, or the last one."""
        import numpy as np

        start = self._number - 1 if last else 0
        order, worths = self._order[start : self._number], self._worths[start : self._number]
        least, heights = np.array(low, dtype=np.int64), self._heights[order]
        free = (np.array(high, dtype=np.int64) - least)[order]
        wanted = self._wanted[start : self._number] - (worths * least[order]).sum(axis=1)
        given, lengths = np.cumsum(free * worths, axis=1), np.cumsum(free * heights, axis=1)
        if (given[:, -1] < wanted).any():
            return True
        rows = np.arange(len(order))
        place = (given >= wanted[:, None]).argmax(axis=1)
        # The last kind of strip that is needed is needed only in part: what the others lack, at its own density.
        lacking = wanted - (given - free * worths)[rows, place]
        length = (lengths - free * heights)[rows, place]
        worth, height = worths[rows, place], heights[rows, place]
        partly = (lacking > 0) & (worth > 0)
        length = length + np.where(partly, -(-lacking * height // np.maximum(worth, 1)), 0)
        length = np.where(wanted > 0, length, 0) + int((least * self._heights).sum())
        return bool((-(-length // self._unit) * self._unit > most).any())


def _beside(low: Counts, high: Counts, counts: Counts) -> Iterator[tuple[Counts, Counts]]:
    """Yield boxes that hold, between them, all of a box but these counts; those most alike come last."""
    start, end = low, high
    boxes = []
    for place, count in enumerate(counts):
        if count > start[place]:
            boxes.append((start, (*end[:place], count - 1, *end[place + 1 :])))
        if count < end[place]:
            boxes.append(((*start[:place], count + 1, *start[place + 1 :]), end))
        start = (*start[:place], count, *start[place + 1 :])
        end = (*end[:place], count, *end[place + 1 :])
    yield from boxes


def least_worths(cut: PriceCut, heights: Sequence[int], most: int) -> list[int]:
    """Return what a pattern of each height must at least be worth to have a part in a plan of length `most`.

    The other strips, at their dearest, must be able to make up for what it lacks.
    """
    unit, reached = most_worth(heights, cut.worths, most)
    rest = {height: int(reached[(most - height) // unit]) for height in heights if height <= most}
    return [cut.wanted - rest[height] if height in rest else cut.wanted + 1 for height in heights]


def _broken(value: float) -> float:
    """Return how far a value is from a whole number."""
    return abs(value - round(value))
