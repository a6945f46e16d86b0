"""The only module that talks to the linear and integer programming library.

Comes in: whole numbers. Goes out: prices rounded to whole numbers, and whole counts checked again in exact integers.
The solver never gets a start, runs on one thread with a fixed seed, and stops by nodes and iterations, never by time.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

Column = tuple[int, tuple[tuple[int, int], ...]]
"""The cost of a column, and its (row, coefficient) entries."""


def _quiet() -> Any:
    import highspy

    model: Any = highspy.Highs()  # type: ignore[no-untyped-call, unused-ignore]
    for option, value in (
        ("output_flag", False),
        ("log_to_console", False),
        ("threads", 1),
        ("random_seed", 7),
        ("parallel", "off"),
    ):
        model.setOptionValue(option, value)
    return model


class Covering:
    """A linear program: the least cost of columns that cover every row's demand; columns may be added later."""

    def __init__(self, demands: Sequence[int]) -> None:
        """Start with rows of these demands and no column."""
        import highspy

        self._model = _quiet()
        self._model.setOptionValue("presolve", "off")
        self._model.setOptionValue("solver", "simplex")
        self.columns = 0
        self.rows = len(demands)
        for demand in demands:
            self._model.addRow(float(demand), highspy.kHighsInf, 0, [], [])

    def add(self, column: Column) -> None:
        """Add one column."""
        import highspy

        cost, entries = column
        rows = [row for row, _ in entries]
        self._model.addCol(float(cost), 0.0, highspy.kHighsInf, len(rows), rows, [float(v) for _, v in entries])
        self.columns += 1

    def demand(self, row: int, amount: int) -> None:
        """Change what a row demands."""
        import highspy

        self._model.changeRowBounds(row, float(amount), highspy.kHighsInf)

    def allow(self, allowed: Any) -> None:
        """Let each column be used, or not."""
        import highspy
        import numpy as np

        number = len(allowed)
        most = np.where(np.asarray(allowed, dtype=bool), highspy.kHighsInf, 0.0)
        self._model.changeColsBounds(number, np.arange(number, dtype=np.int32), np.zeros(number), most)

    def solve(self, scale: int) -> tuple[list[int], list[float]]:
        """Return the prices of the rows times `scale`, rounded down to whole numbers, and the columns' values."""
        import numpy as np

        self._model.run()
        solution = self._model.getSolution()
        prices = [max(0, int(price * scale)) for price in solution.row_dual]
        values: list[float] = np.maximum(solution.col_value, 0.0).tolist()
        return prices, values


def whole_counts(
    columns: Sequence[Column], demands: Sequence[int], most: int, *, nodes: int
) -> tuple[list[int] | None, bool]:
    """Return whole counts of columns that cover all demands at a cost of at most `most`, and whether that is settled.

    The counts are None when none were found; then True means that the solver proved that there are none.
    """
    import highspy

    model, first = _counting(columns, demands, most)
    for option, value in (
        ("presolve", "off"),
        ("mip_max_nodes", nodes),
        ("mip_rel_gap", 0.0),
        ("mip_abs_gap", 0.999),
        ("mip_heuristic_effort", 0.0),
        ("mip_heuristic_run_rins", False),
        ("mip_heuristic_run_rens", False),
        ("mip_heuristic_run_root_reduced_cost", False),
        ("mip_heuristic_run_feasibility_jump", False),
        ("mip_allow_restart", False),
        ("objective_target", float(most) + 0.5),
        # A bound on the cost spares the solver its slow search for any plan at all.
        ("objective_bound", float(most) + 0.5),
    ):
        model.setOptionValue(option, value)
    model.run()
    if model.getModelStatus() == highspy.HighsModelStatus.kInfeasible:
        return None, True
    if model.getInfo().primal_solution_status != 2:
        return None, False
    counts = [max(0, round(value)) for value in model.getSolution().col_value][first:]
    return (counts, True) if _covers(columns, counts, demands, most) else (None, False)


def _counting(columns: Sequence[Column], demands: Sequence[int], most: int) -> tuple[Any, int]:
    """Return the program that counts columns, and the place of the first of them among its variables."""
    import highspy

    model = _quiet()
    infinite = highspy.kHighsInf
    costs = sorted({cost for cost, _ in columns})
    for demand in demands:
        model.addRow(float(demand), infinite, 0, [], [])
    for _ in costs:
        model.addRow(0.0, 0.0, 0, [], [])
    model.addRow(-infinite, float(most), 0, [], [])
    # Strips of one height are counted in a variable of their own, which is the best one to branch on.
    kinds = {cost: len(demands) + place for place, cost in enumerate(costs)}
    last = len(demands) + len(costs)
    for cost in costs:
        model.addCol(float(cost), 0.0, float(most // cost), 2, [kinds[cost], last], [-1.0, float(cost)])
    for cost, entries in columns:
        rows = [row for row, _ in entries] + [kinds[cost]]
        bound = min(max(-(-demands[row] // value) for row, value in entries), most // cost)
        model.addCol(0.0, 0.0, float(bound), len(rows), rows, [float(value) for _, value in entries] + [1.0])
    number = len(costs) + len(columns)
    model.changeColsIntegrality(number, list(range(number)), [highspy.HighsVarType.kInteger] * number)
    return model, len(costs)


def _covers(columns: Sequence[Column], counts: Sequence[int], demands: Sequence[int], most: int) -> bool:
    """Check a solver's answer in exact integers: every demand met, at no more than the allowed cost."""
    rest = list(demands)
    cost = 0
    for (price, entries), count in zip(columns, counts, strict=True):
        cost += price * count
        for row, value in entries:
            rest[row] -= value * count
    return cost <= most and all(amount <= 0 for amount in rest)


class StripCounting:
    """A linear program in strips per class and columns within them: the least cost of strips that serve all demands.

    Unserved demand is let through at a high price, so that every choice of limits has an answer.
    """

    def __init__(self, demands: Sequence[int], penalties: Sequence[int], costs: Sequence[int]) -> None:
        """Start without columns; a class is a strip of one cost, an unserved unit of a demand costs its penalty."""
        import highspy

        self._model = _quiet()
        self._model.setOptionValue("presolve", "off")
        self._model.setOptionValue("solver", "simplex")
        self._demands, self._classes = len(demands), len(costs)
        for demand in demands:
            self._model.addRow(float(demand), highspy.kHighsInf, 0, [], [])
        for _ in costs:
            self._model.addRow(-highspy.kHighsInf, 0.0, 0, [], [])
        for row, penalty in enumerate(penalties):
            self._model.addCol(float(penalty), 0.0, highspy.kHighsInf, 1, [row], [1.0])
        for kind, cost in enumerate(costs):
            self._model.addCol(float(cost), 0.0, 0.0, 1, [self._demands + kind], [-1.0])

    def add(self, entries: Sequence[tuple[int, int]], kind: int) -> None:
        """Add a column of a class with these (row, coefficient) entries."""
        import highspy

        rows = [row for row, _ in entries] + [self._demands + kind]
        values = [float(value) for _, value in entries] + [1.0]
        self._model.addCol(0.0, 0.0, highspy.kHighsInf, len(rows), rows, values)

    def demand(self, row: int, amount: int) -> None:
        """Change what a row demands."""
        import highspy

        self._model.changeRowBounds(row, float(amount), highspy.kHighsInf)

    def allow(self, allowed: Any) -> None:
        """Let each column be used, or not."""
        import highspy
        import numpy as np

        number, first = len(allowed), self._demands + self._classes
        most = np.where(np.asarray(allowed, dtype=bool), highspy.kHighsInf, 0.0)
        self._model.changeColsBounds(number, np.arange(first, first + number, dtype=np.int32), np.zeros(number), most)

    def limit(self, low: Sequence[int], high: Sequence[int]) -> None:
        """Bound the number of strips of each class."""
        for kind, (least, most) in enumerate(zip(low, high, strict=True)):
            self._model.changeColBounds(self._demands + kind, float(least), float(most))

    def solve(self, scale: int) -> tuple[list[int], list[int], list[float], float, list[float]]:
        """Return prices and dues (times `scale`, whole), strips per class, unserved demand, and the columns' uses."""
        self._model.run()
        solution = self._model.getSolution()
        duals, values = list(solution.row_dual), list(solution.col_value)
        prices = [max(0, int(price * scale)) for price in duals[: self._demands]]
        dues = [max(0, int(-due * scale)) for due in duals[self._demands :]]
        start = self._demands + self._classes
        return prices, dues, values[self._demands : start], sum(values[: self._demands]), values[start:]


def least_choice(
    columns: Sequence[Column], demands: Sequence[int], capacities: Sequence[tuple[int, Sequence[int]]]
) -> tuple[list[int] | None, bool]:
    """Return whole counts of columns of least cost that cover all demands, and whether that cost is settled.

    A capacity (n, places) allows at most n of the columns at these places together.
    """
    import highspy

    model = _quiet()
    infinite = highspy.kHighsInf
    for demand in demands:
        model.addRow(float(demand), infinite, 0, [], [])
    kinds: dict[int, list[int]] = {}
    for place, (most, members) in enumerate(capacities):
        model.addRow(-infinite, float(most), 0, [], [])
        for member in members:
            kinds.setdefault(member, []).append(len(demands) + place)
    for number, (cost, entries) in enumerate(columns):
        rows = [row for row, _ in entries] + kinds.get(number, [])
        values = [float(value) for _, value in entries] + [1.0] * len(kinds.get(number, []))
        bound = max(-(-demands[row] // value) for row, value in entries)
        model.addCol(float(cost), 0.0, float(bound), len(rows), rows, values)
    model.changeColsIntegrality(len(columns), list(range(len(columns))), [highspy.HighsVarType.kInteger] * len(columns))
    for option, value in (("mip_max_nodes", 2_000), ("mip_rel_gap", 0.0), ("mip_abs_gap", 0.999)):
        model.setOptionValue(option, value)
    model.run()
    if model.getInfo().primal_solution_status != 2:
        return None, model.getModelStatus() == highspy.HighsModelStatus.kInfeasible
    counts = [max(0, round(value)) for value in model.getSolution().col_value]
    cost = sum(price * count for (price, _), count in zip(columns, counts, strict=True))
    kept = all(sum(counts[place] for place in members) <= most for most, members in capacities)
    if not kept or not _covers(columns, counts, demands, cost):
        return None, False
    return counts, model.getModelStatus() == highspy.HighsModelStatus.kOptimal


class Program:
    """A linear program with rows between bounds that grows by columns: whole numbers in, whole duals out."""

    def __init__(self, rows: Sequence[tuple[int | None, int | None]]) -> None:
        """Start with these rows (least, most; None is free) and no column; the cost of the columns is minimized."""
        import highspy

        self._model = _quiet()
        self._model.setOptionValue("presolve", "off")
        self._model.setOptionValue("solver", "simplex")
        free = highspy.kHighsInf
        for least, most in rows:
            self._model.addRow(
                -free if least is None else float(least), free if most is None else float(most), 0, [], []
            )
        self.columns: list[tuple[int, tuple[tuple[int, int], ...], int | None]] = []
        self._rows = list(rows)

    def add(self, cost: int, entries: Sequence[tuple[int, int]], most: int | None = None) -> None:
        """Add a column with a cost, (row, coefficient) entries and perhaps a most."""
        import highspy

        rows = [row for row, _ in entries]
        values = [float(value) for _, value in entries]
        bound = highspy.kHighsInf if most is None else float(most)
        self._model.addCol(float(cost), 0.0, bound, len(rows), rows, values)
        self.columns.append((cost, tuple(entries), most))

    def solve(self, scale: int) -> tuple[list[int], list[float]]:
        """Return the rows' duals times `scale`, cut off to whole numbers, and the columns' values."""
        self._model.run()
        solution = self._model.getSolution()
        return [int(dual * scale) for dual in solution.row_dual], list(solution.col_value)

    def whole(self, places: Sequence[int], *, nodes: int) -> tuple[list[int] | None, bool]:
        """Return good whole values of these columns alone, in their order, checked in exact integers, or None.

        True says that the solver found them to be the best; it stops at so many nodes.
        """
        import highspy

        model = _quiet()
        free = highspy.kHighsInf
        for least, most in self._rows:
            model.addRow(-free if least is None else float(least), free if most is None else float(most), 0, [], [])
        for place in places:
            cost, entries, most = self.columns[place]
            rows, values = [row for row, _ in entries], [float(value) for _, value in entries]
            model.addCol(float(cost), 0.0, free if most is None else float(most), len(rows), rows, values)
        number = len(places)
        model.changeColsIntegrality(number, list(range(number)), [highspy.HighsVarType.kInteger] * number)
        for option, value in (("mip_max_nodes", nodes), ("mip_rel_gap", 0.0), ("mip_abs_gap", 0.999)):
            model.setOptionValue(option, value)
        model.run()
        if model.getInfo().primal_solution_status != 2:
            return None, False
        counts = [max(0, round(value)) for value in model.getSolution().col_value]
        totals = [0] * len(self._rows)
        for place, count in zip(places, counts, strict=True):
            for row, value in self.columns[place][1]:
                totals[row] += value * count
        kept = all(
            (least is None or total >= least) and (most is None or total <= most)
            for total, (least, most) in zip(totals, self._rows, strict=True)
        )
        settled = model.getModelStatus() == highspy.HighsModelStatus.kOptimal
        return (counts, settled) if kept else (None, False)
