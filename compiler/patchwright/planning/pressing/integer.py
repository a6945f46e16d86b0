"""The optimum of a much entangled problem by an integer program with odd-cycle cuts.

In: a problem, and how many nodes the solver may look at.
Out: `Found`: values, re-checked in whole numbers, and the most that any values could reach on the level of nesting.
One thread, a fixed seed, no start handed to the solver, a limit of nodes and not of time; the last levels choose one of
several best plans, so that the answer does not hang on the solver. Where it finds nothing, the plan that would be best
if nothing could nest stands.
Never: a value or a bound that is believed without counting again.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from heapq import heappop, heappush
from math import floor, isfinite
from typing import Any

from patchwright.planning.pressing.parity import without_conflict
from patchwright.planning.pressing.problem import Problem

MOST_NODES = 2000
_ROUNDS = 10
_CHUNK = 20
_NEAR = 1e-6
_Row = tuple[dict[int, float], float]
"""Coefficients by column, and the least that their sum may be."""


@dataclass(frozen=True, slots=True)
class Found:
    values: tuple[int, ...]
    bound: int
    """No values nest more than this weight."""


def solve_program(problem: Problem, most_nodes: int = MOST_NODES, settled: bool = True) -> Found:
    """Level by level: the best of each among the best of those before it; `settled`, then the first of all equals."""
    program = _Program(problem, most_nodes)
    program.add_cuts()
    values = without_conflict(replace(problem, pulls=()))
    bound = problem.total
    for place, level in enumerate(problem.levels):
        found, most = program.maximize(program.objective(level))
        values = _checked(problem, found, values, place)
        if level == "nest" and isfinite(most):
            bound = min(bound, problem.constant + floor(most + _NEAR * max(1.0, abs(most))))
        program.keep(program.objective(level), problem.scores(values)[place] - program.offset(level))
    if values is None:
        raise RuntimeError("a problem of pressing without levels")
    values = program.first_of_equals(values) if settled else values
    return Found(values, max(bound, problem.nested(values)))


def _checked(
    problem: Problem, found: tuple[int, ...] | None, known: tuple[int, ...] | None, place: int
) -> tuple[int, ...]:
    """What the solver found, if it is possible and no worse on this level and those before it; else what is known."""
    usable = found is not None and problem.is_possible(found)
    if known is None:
        if found is None or not usable:
            raise RuntimeError("there is no way of pressing at all")
        return found
    if found is not None and usable:
        ours, theirs = problem.scores(known)[: place + 1], problem.scores(found)[: place + 1]
        return found if theirs >= ours else known
    return known


@dataclass(slots=True)
class _Program:
    """Columns: the values as 0 and 1, then one for each pull that holds, then one for each spin."""

    problem: Problem
    most_nodes: int
    rows: list[_Row] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.rows += self._pull_rows()
        self.rows += self._spin_rows()
        for twin in self.problem.twins:
            for low, high in ((twin.first, twin.second), (twin.second, twin.first)):
                self.rows.append(({twin.flag: float(twin.unless), low: -1.0, high: 1.0}, float(min(twin.unless, 0))))

    @property
    def pull_column(self) -> int:
        return self.problem.count

    @property
    def spin_column(self) -> int:
        return self.problem.count + len(self.problem.pulls)

    def _pull_rows(self) -> Iterator[_Row]:
        """A pull holds only where its values agree, or differ, as it asks."""
        for number, pull in enumerate(self.problem.pulls, self.pull_column):
            if pull.equal:
                yield {number: -1.0, pull.first: -1.0, pull.second: 1.0}, -1.0
                yield {number: -1.0, pull.first: 1.0, pull.second: -1.0}, -1.0
            else:
                yield {number: -1.0, pull.first: 1.0, pull.second: 1.0}, 0.0
                yield {number: -1.0, pull.first: -1.0, pull.second: -1.0}, -2.0

    def _spin_rows(self) -> Iterator[_Row]:
        for number, spin in enumerate(self.problem.spins.values(), self.spin_column):
            for low, high in ((spin.before, spin.after), (spin.after, spin.before)):
                yield {number: 1.0, low: -1.0, high: 1.0}, 0.0
            for other, sign in ((spin.first, spin.first_sign), (spin.second, spin.second_sign)):
                shift = 0.0 if sign > 0 else 1.0
                yield {number: -1.0, spin.before: -1.0, other: float(sign)}, -1.0 - shift
                yield {number: -1.0, spin.before: 1.0, other: -float(sign)}, -1.0 + shift

    def objective(self, level: str) -> dict[int, float]:
        """What a level counts, by column, in the whole numbers of `Problem.scores` but for a constant."""
        if level == "nest":
            return {number: float(p.weight) for number, p in enumerate(self.problem.pulls, self.pull_column)}
        if level == "variants":
            return dict.fromkeys(self.problem.flags.values(), -1.0)
        if level == "spun":
            return dict.fromkeys(range(self.spin_column, self.spin_column + len(self.problem.spins)), -1.0)
        return {number: 2.0 * much for number, much in dict(self.problem.wishes).get(level, {}).items()}

    def offset(self, level: str) -> int:
        """What a level's score has beyond its objective: a wish counts from -1 to 1, a column from 0 to 1."""
        if level == "nest":
            return self.problem.constant
        return -sum(dict(self.problem.wishes).get(level, {}).values())

    def keep(self, objective: dict[int, float], reached: int) -> None:
        """Ask of all that follows to reach as much on a level; half a step of room is left for the solver's floats."""
        if objective:
            largest = max(abs(much) for much in objective.values())
            row = {number: much / largest for number, much in objective.items()}
            self.rows.append((row, (reached - 0.5) / largest))

    def add_cuts(self) -> None:
        """Of a ring of pulls that cannot all hold, one fails; add the rings that the relaxed program breaks most."""
        weights = self.objective("nest")
        for _ in range(_ROUNDS):
            columns, _, _ = self._run(weights, relaxed=True)
            rings = set(self._broken_rings(columns))
            if not rings:
                return
            ordered = sorted(rings, key=lambda ring: (len(ring), ring))
            self.rows += [(dict.fromkeys(ring, -1.0), 1.0 - len(ring)) for ring in ordered]

    def _broken_rings(self, columns: list[float]) -> Iterator[tuple[int, ...]]:
        """Shortest ways through a doubled graph from each value to its opposite."""
        ways: dict[tuple[int, int], list[tuple[tuple[int, int], float, int]]] = {}
        for column, pull in enumerate(self.problem.pulls, self.pull_column):
            cost = max(0.0, 1.0 - columns[column])
            for side in (0, 1):
                here, there = (pull.first, side), (pull.second, side if pull.equal else 1 - side)
                ways.setdefault(here, []).append((there, cost, column))
                ways.setdefault(there, []).append((here, cost, column))
        for number in range(self.problem.count):
            ring = _shortest(ways, (number, 0), (number, 1)) if (number, 0) in ways else None
            if ring is not None:
                yield ring

    def maximize(self, objective: dict[int, float]) -> tuple[tuple[int, ...] | None, float]:
        """The best values found, and the solver's bound."""
        if not objective:
            objective = {0: 0.0}
        columns, bound, found = self._run(objective, relaxed=False)
        if not found:
            return None, bound
        return tuple(1 if columns[number] > 0.5 else -1 for number in range(self.problem.count)), bound

    def first_of_equals(self, values: tuple[int, ...]) -> tuple[int, ...]:
        """Of all plans that are equally good, the one that presses forward earliest in the order of the seams."""
        for start in range(0, self.problem.count, _CHUNK):
            chunk = range(start, min(start + _CHUNK, self.problem.count))
            objective = {number: float(2 ** (chunk[-1] - number)) for number in chunk}
            found, _ = self.maximize(objective)
            usable = found is not None and self.problem.is_possible(found)
            if found is not None and usable and self.problem.scores(found) >= self.problem.scores(values):
                values = found
            self.rows += [({number: float(values[number])}, float(values[number] > 0)) for number in chunk]
        return values

    def _run(self, objective: dict[int, float], relaxed: bool) -> tuple[list[float], float, bool]:
        """Columns, bound, and whether there is a solution."""
        import highspy

        solver: Any = highspy.Highs()  # type: ignore[no-untyped-call]
        for option, value in (
            ("output_flag", False), ("threads", 1), ("random_seed", 1), ("mip_rel_gap", 0.0), ("mip_abs_gap", 0.0),
            ("mip_max_nodes", self.most_nodes),
        ):
            solver.setOptionValue(option, value)
        whole = self.problem.count
        for number in range(self.spin_column + len(self.problem.spins)):
            known = self.problem.fixed.get(number)
            solver.addVar(*((0.0, 1.0) if known is None else (float(known > 0), float(known > 0))))
            solver.changeColCost(number, objective.get(number, 0.0))
            if not relaxed and (number < whole or number >= self.spin_column):
                solver.changeColIntegrality(number, highspy.HighsVarType.kInteger)
        for row, least in self.rows:
            solver.addRow(least, highspy.kHighsInf, len(row), list(row), list(row.values()))
        solver.changeObjectiveSense(highspy.ObjSense.kMaximize)
        solver.run()
        info, solution = solver.getInfo(), solver.getSolution()
        bound = float(info.objective_function_value if relaxed else info.mip_dual_bound)
        return list(solution.col_value), bound, bool(solution.value_valid)


def _shortest(
    ways: dict[tuple[int, int], list[tuple[tuple[int, int], float, int]]], start: tuple[int, int], goal: tuple[int, int]
) -> tuple[int, ...] | None:
    """The pulls along the shortest way if it is shorter than one, which no ring that can hold is."""
    queue: list[tuple[float, tuple[int, int], tuple[int, ...]]] = [(0.0, start, ())]
    seen: set[tuple[int, int]] = set()
    while queue:
        length, place, path = heappop(queue)
        if length >= 1.0 - _NEAR:
            return None
        if place == goal:
            return tuple(sorted(path)) if len(set(path)) == len(path) else None
        if place not in seen:
            seen.add(place)
            for other, cost, column in ways[place]:
                if other not in seen:
                    heappush(queue, (length + cost, other, (*path, column)))
    return None
