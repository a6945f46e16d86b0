"""Dearest patterns: bounded knapsacks over all strip heights at once, in exact integers.

Comes in: a width, the heights in question, the ways each part may lie, and whole prices.
Goes out: for each height the value of its dearest pattern, and that pattern; or all patterns close to the dearest.
A strip may carry one segment for a joined piece; nothing here is a float.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from .patterns import Pattern, make_pattern, sides, turns
from .problem import Yardage


@dataclass(frozen=True, slots=True)
class Way:
    """One way of laying a part in the strips of the height rows `low` up to, not including, `high`."""

    part: int
    turned: bool
    stack: int
    width: int
    low: int
    high: int


def heights_of(problem: Yardage) -> tuple[int, ...]:
    """Return all heights that a strip may usefully have, ascending."""
    heights = {sides(part, turned)[1] for part in problem.parts for turned in turns(part, problem.width)}
    return tuple(sorted(heights | {long.height for long in problem.joined}))


def ways_of(problem: Yardage, heights: Sequence[int], stacks: bool) -> tuple[Way, ...]:
    """Return the ways to lay each part: the narrowest turn for each height, or with `stacks` every useful one."""
    found: list[Way] = []
    for i, part in enumerate(problem.parts):
        rows: dict[tuple[bool, int, int], list[int]] = {}
        for row, height in enumerate(heights):
            options = []
            for turned in turns(part, problem.width):
                along, across = sides(part, turned)
                if across <= height:
                    stack = min(height // across, part.count) if stacks else 1
                    options.append((along, -stack, turned))
            for along, stack, turned in _undominated(options):
                rows.setdefault((turned, -stack, along), []).append(row)
        for (turned, stack, along), places in rows.items():
            found.extend(Way(i, turned, stack, along, low, high) for low, high in _runs(places))
    # Wide pieces are decided last in a forward pass and so first when patterns are read back or enumerated.
    return tuple(sorted(found, key=lambda way: (way.width, way.part, way.turned, way.stack, way.low)))


def _undominated(options: list[tuple[int, int, bool]]) -> list[tuple[int, int, bool]]:
    kept: list[tuple[int, int, bool]] = []
    for option in sorted(options):
        if all(option[1] < other[1] for other in kept):
            kept.append(option)
    return kept


def _runs(places: list[int]) -> Iterator[tuple[int, int]]:
    start = last = places[0]
    for place in places[1:]:
        if place != last + 1:
            yield start, last + 1
            start = place
        last = place
    yield start, last + 1


class Knapsacks:
    """The dearest patterns of every height of one problem, for any prices and any remaining demands."""

    def __init__(self, problem: Yardage, heights: Sequence[int], *, stacks: bool = False) -> None:
        """Prepare the ways each part may lie in each height."""
        self.problem = problem
        self.heights = tuple(heights)
        self.ways = ways_of(problem, self.heights, stacks)
        self._layers: list[Any] = []
        self._table: Any = None
        self._prices: Sequence[int] = ()
        self._caps: list[int] = []
        self._rest: Sequence[int] = ()

    def of(self, problem: Yardage) -> Knapsacks:
        """Return the knapsacks of a problem with the same pieces of which other counts or lengths are wanted."""
        return Knapsacks(problem, self.heights)

    def price(self, prices: Sequence[int], counts: Sequence[int], rests: Sequence[int]) -> list[int]:
        """Return the value of the dearest pattern of each height.

        `prices` are whole numbers per piece of each part, then per unit of length of each joined piece; `counts` and
        `rests` are what is still wanted: no pattern is given credit for more.
        """
        import numpy as np

        width = self.problem.width
        table = np.zeros((len(self.heights), width + 1), dtype=np.int64)
        self._layers, self._caps = [], []
        self._prices, self._rest = prices, rests
        for way in self.ways:
            cap = min(-(-counts[way.part] // way.stack), width // way.width)
            value = prices[way.part] * way.stack
            if not value:
                cap = 0
            self._caps.append(cap)
            rows = table[way.low : way.high]
            self._layers.append(rows.copy() if cap else None)
            for times in _splits(cap):
                shift = times * way.width
                np.maximum(rows[:, shift:], rows[:, :-shift] + times * value, out=rows[:, shift:])
        self._table = table
        best = table[:, width].copy()
        for k in range(len(self.problem.joined)):
            self._add_segment(best, table, k)
        return [int(value) for value in best]

    def _add_segment(self, best: Any, table: Any, k: int) -> None:
        import numpy as np

        long, rest, price = self.problem.joined[k], self._rest[k], self._prices[len(self.problem.parts) + k]
        low = next(row for row, height in enumerate(self.heights) if height >= long.height)
        longest = min(self.problem.width, max(rest + long.loss, long.least))
        if rest <= 0 or longest < long.least or not price:
            return
        lengths = np.arange(long.least, longest + 1)
        values = table[low:, self.problem.width - lengths] + price * (lengths - long.loss)
        np.maximum(best[low:], values.max(axis=1), out=best[low:])

    def dearest(self, row: int) -> Pattern:
        """Return the dearest pattern of a height under the last prices, joined segment and all."""
        width, parts = self.problem.width, len(self.problem.parts)
        line = self._table[row]
        value, room, segment = int(line[width]), width, {}
        for k, long in enumerate(self.problem.joined):
            price = self._prices[parts + k]
            if not price or self._rest[k] <= 0 or self.heights[row] < long.height:
                continue
            longest = min(width, max(self._rest[k] + long.loss, long.least))
            for length in range(longest, long.least - 1, -1):
                with_segment = int(line[width - length]) + price * (length - long.loss)
                if with_segment > value:
                    value, room, segment = with_segment, width - length, {k: length}
        lays: dict[tuple[int, bool, int], int] = {}
        left = int(line[room])
        for way, cap, layer in zip(reversed(self.ways), reversed(self._caps), reversed(self._layers), strict=True):
            if not cap or not way.low <= row < way.high:
                continue
            before, worth, times = layer[row - way.low], self._prices[way.part] * way.stack, 0
            while before[room - times * way.width] + times * worth != left:
                times += 1
            if times:
                key = (way.part, way.turned, way.stack)
                lays[key] = lays.get(key, 0) + times
                room -= times * way.width
                left -= times * worth
        return make_pattern(self.heights[row], lays, segment)

    def near(self, row: int, least: int, limit: int) -> list[Pattern] | None:
        """Return every pattern of a height that is worth at least `least`, or None when there are more than `limit`.

        Patterns to which a piece could be added are left out, and so are segments shorter than the strip allows: the
        fuller pattern serves wherever they do.
        """
        search = _Near(self, row, least, limit)
        search.run()
        return search.found if len(search.found) <= limit and search.visits <= 40 * limit else None


def _splits(cap: int) -> Iterator[int]:
    """Yield powers of two and a rest, so that their partial sums make every number up to the cap."""
    power = 1
    while cap > 0:
        yield min(power, cap)
        cap -= power
        power *= 2


class _Near:
    """A search for all patterns of one height worth at least a given value, pruned by the knapsack's own layers."""

    def __init__(self, sacks: Knapsacks, row: int, least: int, limit: int) -> None:
        self.problem, self.height, self.least, self.limit = sacks.problem, sacks.heights[row], least, limit
        self.found: list[Pattern] = []
        self.visits = 0
        self.ends = [
            (k, long, sacks._rest[k], sacks._prices[len(self.problem.parts) + k])
            for k, long in enumerate(self.problem.joined)
            if sacks._rest[k] > 0 and long.height <= self.height
        ]
        self.steps: list[tuple[Way, int, int, list[int]]] = []
        before = sacks._table[row]
        for way, layer in zip(reversed(sacks.ways), reversed(sacks._layers), strict=True):
            if way.low <= row < way.high:
                before = layer[row - way.low] if layer is not None else before
                cap = min(-(-self.problem.parts[way.part].count // way.stack), self.problem.width // way.width)
                self.steps.append((way, cap, sacks._prices[way.part] * way.stack, self._reach(before)))
        self.steps.reverse()

    def _reach(self, line: Any) -> list[int]:
        """Return for each free width at least the most that smaller pieces and one segment can still add."""
        import numpy as np

        reach, places = line.copy(), np.arange(len(line))
        for _, long, _, price in self.ends:
            start = np.maximum.accumulate(line - price * places)[: len(line) - long.least]
            ended = start + price * (places[long.least :] - long.loss)
            np.maximum(reach[long.least :], ended, out=reach[long.least :])
        return [int(value) for value in reach]

    def run(self) -> None:
        self._descend(len(self.steps) - 1, self.problem.width, 0, [0] * len(self.steps))

    def _descend(self, index: int, room: int, worth: int, columns: list[int]) -> None:
        self.visits += 1
        if len(self.found) > self.limit or self.visits > 40 * self.limit:
            return
        if index < 0:
            self._close(room, worth, columns)
            return
        way, cap, value, reach = self.steps[index]
        for times in range(min(cap, room // way.width), -1, -1):
            left = room - times * way.width
            if worth + times * value + reach[left] >= self.least:
                columns[index] = times
                self._descend(index - 1, left, worth + times * value, columns)
        columns[index] = 0

    def _close(self, room: int, worth: int, columns: list[int]) -> None:
        lays = {
            (step[0].part, step[0].turned, step[0].stack): times
            for step, times in zip(self.steps, columns, strict=True)
            if times
        }
        for k, long, rest, price in self.ends:
            length = min(room, max(rest + long.loss, long.least))
            if length >= long.least and length > long.loss and worth + price * (length - long.loss) >= self.least:
                self.found.append(make_pattern(self.height, lays, {k: length}))
        full = all(times == step[1] or step[0].width > room for step, times in zip(self.steps, columns, strict=True))
        if full and lays and worth >= self.least:
            self.found.append(make_pattern(self.height, lays, {}))
