"""Which numbers of blocks and widths of borders bring a quilt closest to the size that a bed asks for.

Everything that may be chosen is tried, in exact arithmetic: the numbers of blocks nearest to the target on each side,
and widths of borders in steps between their limits. Borders that are free at once keep their order and their
proportions: all of them stand at the same part of the way from their least to their most, rounded to a step.
In: the measures of a top, its fit, and what may be chosen.
Out: the best choice for each number of blocks, closest first.
Never: a choice that the author did not leave open; a border outside its limits.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import islice

from patchwright.core.length import ZERO, Length
from patchwright.core.measure import System
from patchwright.design.design import Border, Fit
from patchwright.planning.beds.measuring import Pair, TopMeasures

BORDER_STEP: dict[System, Fraction] = {"in": Fraction(1, 4), "cm": Fraction(1, 2)}
"""Widths of borders that are proposed are whole numbers of these."""
MOST_WIDTHS = 200
"""How many widths of borders are tried; farther limits are stepped through more coarsely."""
NEAREST = 12
"""How many numbers of blocks are tried in each direction for one choice of borders."""
Limits = tuple[Length, Length]
Rank = tuple[Length, Length, Length, int, int, tuple[Length, ...]]


@dataclass(frozen=True, slots=True)
class Choice:
    """So many blocks, and the finished width of every border (0 where it is not plain)."""

    across: int
    down: int
    widths: tuple[Length, ...]
    finished: Pair

    def off(self, target: Pair) -> Length:
        """How far the side that is farther off is from the target."""
        return max(abs(self.finished[0] - target[0]), abs(self.finished[1] - target[1]))

    def reaches(self, fit: Fit) -> bool:
        return self.off(fit.target) <= fit.within


@dataclass(frozen=True, slots=True)
class Search:
    """What may be chosen for one size."""

    measures: TopMeasures
    fit: Fit
    system: System
    across: Sequence[int]
    """Numbers of blocks that may be chosen."""
    down: Sequence[int]
    limits: Sequence[Limits]
    """The least and the most of each border's width; both the same where nothing is to be chosen."""
    allowed: Callable[[int, int], bool]

    def best(self, most: int) -> tuple[Choice, ...]:
        """The choices closest to the target, one for each number of blocks, at most so many."""
        target = self.fit.target
        found: dict[tuple[int, int], tuple[Rank, Choice]] = {}
        for choice in self._choices():
            place, rank = (choice.across, choice.down), self._rank(choice, target)
            known = found.get(place)
            if known is None or rank < known[0]:
                found[place] = (rank, choice)
        ranked = (choice for _, choice in sorted(found.values(), key=lambda entry: entry[0]))
        return tuple(islice((choice for choice in ranked if self.allowed(choice.across, choice.down)), most))

    def _rank(self, choice: Choice, target: Pair) -> Rank:
        """Closest by the side that is farther off, then by both sides, then with the least change of borders."""
        off = abs(choice.finished[0] - target[0]) + abs(choice.finished[1] - target[1])
        changed = ZERO
        for width, border in zip(choice.widths, self.measures.borders, strict=True):
            changed += abs(width - border.width)
        return choice.off(target), off, changed, choice.across * choice.down, choice.across, choice.widths

    def _choices(self) -> Iterator[Choice]:
        lengths = [
            [(line.length(count), count) for count in counts]
            for line, counts in ((self.measures.across, self.across), (self.measures.down, self.down))
        ]
        for widths in border_widths(self.measures.borders, self.limits, BORDER_STEP[self.system]):
            added = self.measures.around(widths)
            near = [
                self._near(side, wanted - more)
                for side, wanted, more in zip(lengths, self.fit.target, added, strict=True)
            ]
            for across in near[0]:
                for down in near[1]:
                    finished = self.measures.finished(across, down, widths)
                    if finished is not None:
                        yield Choice(across, down, widths, finished)

    def _near(self, lengths: Sequence[tuple[Length, int]], wanted: Length) -> list[int]:
        """The numbers of blocks whose side may come closest, for coping may add to it."""
        slack = self.measures.slack
        apart = [(max(side - wanted, wanted - side - slack, ZERO), count) for side, count in lengths]
        return [count for _, count in sorted(apart)[:NEAREST]]


def border_widths(borders: Sequence[Border], limits: Sequence[Limits], step: Fraction) -> list[tuple[Length, ...]]:
    """Every choice of widths: as written where that is within the limits, and all steps between them."""
    written = tuple(border.width for border in borders)
    found = [written] if all(low <= own <= high for own, (low, high) in zip(written, limits, strict=True)) else []
    spans = [(high - low) / step for low, high in limits]
    steps = min(max((span.floor() for span in spans), default=0), MOST_WIDTHS)
    for number in range(steps + 1):
        part = Fraction(number, steps) if steps else Fraction(0)
        found.append(tuple(_stepped(pair, part, step) for pair in limits))
    return list(dict.fromkeys(found))


def _stepped(limits: Limits, part: Fraction, step: Fraction) -> Length:
    low, high = limits
    if low == high:
        return low
    return min(max((low + (high - low) * part).nearest(step), low), high)
