"""Many sheets of several sizes: the least total cost that cuts everything, in two stages and a final trim.

Comes in: sheet sizes with whole costs, and parts. Goes out: sheets with their strips, and a bound on the cost.
Strips run across the width of a sheet; how many strips of which height a sheet holds and what a strip yields are
separate columns of one linear program, so that few of either make many whole plans.
"""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from math import gcd

from .bounds import most_worth
from .columns import column_of
from .knapsack import Knapsacks, heights_of
from .patterns import Pattern
from .problem import CannotCut, Part, Yardage, checked
from .solver import Program

_SCALE = 10**7
_ROUNDS = 400


@dataclass(frozen=True, slots=True)
class StockSheet:
    """A sheet size with what one sheet costs, in whole units of any kind."""

    width: int
    height: int
    cost: int


@dataclass(frozen=True, slots=True)
class StockStrip:
    """A strip across a sheet: its height and, per piece, key, count, width and height as laid."""

    height: int
    yields: tuple[tuple[str, int, int, int], ...]


@dataclass(frozen=True, slots=True)
class StockPlan:
    """The sheets to cut, each with its strips, what they cost, and a cost that no such plan can beat."""

    sheets: tuple[tuple[StockSheet, tuple[StockStrip, ...]], ...]
    cost: int
    bound: int


def plan_stock(sheets: Sequence[StockSheet], parts: Sequence[Part], *, nodes: int = 200) -> StockPlan:
    """Return a plan of sheets of low cost and a proven bound; raises CannotCut for a part that fits no sheet."""
    stock = _Stock(tuple(sorted(set(sheets), key=lambda s: (s.width, s.height, s.cost))), tuple(parts))
    stock.relax()
    stock.vary()
    return stock.plan(nodes)


class _Size:
    """One sheet size: the knapsacks of its strips, and its first row in the program."""

    def __init__(self, sheet: StockSheet, parts: tuple[Part, ...], row: int) -> None:
        self.sheet, self.row = sheet, row
        fitting = tuple(part if _fits(part, sheet) else Part(part.key, sheet.width, 1, 0, False) for part in parts)
        self.problem = Yardage(sheet.width, fitting, (), (sheet.height,))
        wanted = Yardage(sheet.width, tuple(part for part in fitting if part.count), (), (sheet.height,))
        self.heights = [height for height in heights_of(wanted) if height <= sheet.height]
        self.sacks = Knapsacks(self.problem, self.heights)


def _fits(part: Part, sheet: StockSheet) -> bool:
    sizes = [(part.width, part.height)] + [(part.height, part.width)] * part.turn
    return any(wide <= sheet.width and high <= sheet.height for wide, high in sizes)


class _Stock:
    """The program of strips within sheets and its growing columns."""

    def __init__(self, sheets: tuple[StockSheet, ...], parts: tuple[Part, ...]) -> None:
        self.parts = checked(Yardage(max(s.width for s in sheets), parts, (), (1,))).parts
        for part in self.parts:
            if not any(_fits(part, sheet) for sheet in sheets):
                raise CannotCut(part.key, "too-large")
        self.demands = [part.count for part in self.parts]
        rows: list[tuple[int | None, int | None]] = [(demand, None) for demand in self.demands]
        self.sizes: list[_Size] = []
        for sheet in sheets:
            self.sizes.append(_Size(sheet, self.parts, len(rows)))
            rows += [(0, None)] * len(self.sizes[-1].heights)
        self.program = Program(rows)
        self.unit = gcd(*(sheet.cost for sheet in sheets))
        self.bound = 0
        self._known: set[object] = set()
        self._meaning: dict[int, tuple[int, Pattern | Counter[int]]] = {}
        dear = max(sheet.cost for sheet in sheets) * 4
        for row in range(len(self.parts)):
            self.program.add(dear, [(row, 1)])

    def relax(self) -> None:
        """Add strips and sheets until none is worth more than it costs, and raise the bound."""
        for _ in range(_ROUNDS):
            duals, _ = self.program.solve(_SCALE)
            prices = [max(0, dual) for dual in duals[: len(self.parts)]]
            added, dearest, cost = False, 0, 1
            for place, size in enumerate(self.sizes):
                worths = size.sacks.price(prices, self.demands, [])
                dues = [max(0, dual) for dual in duals[size.row : size.row + len(size.heights)]]
                for row, (worth, due) in enumerate(zip(worths, dues, strict=True)):
                    if worth > due + _SCALE // 10**4:
                        added |= self.add_strip(place, size.sacks.dearest(row))
                full = int(most_worth(size.heights, worths, size.sheet.height)[1][-1]) if size.heights else 0
                if full * cost > dearest * size.sheet.cost:
                    dearest, cost = full, size.sheet.cost
                best = [max(pair) for pair in zip(worths, dues, strict=True)]
                added |= self.add_sheet(place, _fill(size.heights, best, size.sheet.height))
            wanted = sum(price * demand for price, demand in zip(prices, self.demands, strict=True))
            if dearest:
                # No sheet gives more for its cost than the dearest, so that all that is wanted costs at least this.
                proven = -(-wanted * cost // dearest)
                self.bound = max(self.bound, -(-proven // self.unit) * self.unit)
            if not added:
                break

    def vary(self) -> None:
        """Add strips under varied prices and demands: whole plans want variety."""
        duals, _ = self.program.solve(_SCALE)
        prices = [max(0, dual) for dual in duals[: len(self.parts)]]
        chance = random.Random(len(self.parts))
        for _ in range(6):
            varied = [int(price * (0.97 + 0.06 * chance.random())) for price in prices]
            caps = [min(demand, chance.choice((0, 1, 2, 3, 1000))) for demand in self.demands]
            for place, size in enumerate(self.sizes):
                size.sacks.price(varied, caps, [])
                for row in range(len(size.heights)):
                    self.add_strip(place, size.sacks.dearest(row))
                best = size.sacks.price(varied, self.demands, [])
                self.add_sheet(place, _fill(size.heights, best, size.sheet.height))

    def add_strip(self, place: int, pattern: Pattern) -> bool:
        """Add a strip of one sheet size unless it is known or empty."""
        if not pattern.lays or (place, pattern) in self._known:
            return False
        self._known.add((place, pattern))
        size = self.sizes[place]
        self._meaning[len(self.program.columns)] = place, pattern
        given = column_of(size.problem, pattern)[1]
        self.program.add(0, [*given, (size.row + size.heights.index(pattern.height), -1)])
        return True

    def add_sheet(self, place: int, rows: Counter[int]) -> bool:
        """Add a sheet that holds so many strips of each height unless it is known or empty."""
        key = place, tuple(sorted(rows.items()))
        if not rows or key in self._known:
            return False
        self._known.add(key)
        self._meaning[len(self.program.columns)] = place, rows
        size = self.sizes[place]
        self.program.add(size.sheet.cost, [(size.row + row, n) for row, n in sorted(rows.items())])
        return True

    def plan(self, nodes: int) -> StockPlan:
        """Return the best whole plan of the columns at hand."""
        places = sorted(self._meaning)
        counts, _ = self.program.whole(places, nodes=nodes)
        if counts is None:
            raise ValueError("no whole plan was found within the limits")
        strips: dict[tuple[int, int], list[Pattern]] = {}
        sheets: list[tuple[int, Counter[int]]] = []
        for column, count in zip(places, counts, strict=True):
            place, meaning = self._meaning[column]
            if isinstance(meaning, Pattern):
                strips.setdefault((place, self.sizes[place].heights.index(meaning.height)), []).extend(
                    [meaning] * count
                )
            else:
                sheets += [(place, meaning)] * count
        out = []
        for place, rows in sheets:
            held = [
                strips[place, row].pop()
                for row in sorted(rows, reverse=True)
                for _ in range(rows[row])
                if strips.get((place, row))
            ]
            out.append((self.sizes[place].sheet, tuple(self._strip(place, pattern) for pattern in held)))
        return StockPlan(tuple(out), sum(sheet.cost for sheet, _ in out), self.bound)

    def _strip(self, place: int, pattern: Pattern) -> StockStrip:
        given = []
        for lay in pattern.lays:
            part = self.parts[lay.part]
            wide, high = (part.height, part.width) if lay.turned else (part.width, part.height)
            given.append((part.key, lay.columns, wide, high))
        return StockStrip(pattern.height, tuple(given))


def _fill(heights: Sequence[int], worths: Sequence[int], room: int) -> Counter[int]:
    """Return the dearest strips (counts by row) that a sheet's height holds."""
    if not heights or room < min(heights):
        return Counter()
    unit, table = most_worth(heights, worths, room)
    reached: list[int] = table.tolist()
    place, rows = len(reached) - 1, Counter[int]()
    while place > 0 and reached[place]:
        for row, height in enumerate(heights):
            before = place - height // unit
            if worths[row] and before >= 0 and reached[before] + worths[row] == reached[place]:
                rows[row] += 1
                place = before
                break
        else:
            place -= 1
    return rows
