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

    model = highspy.Highs()
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

    def solve(self, scale: int) -> tuple[list[int], list[float]]:
        """Return the prices of the rows times `scale`, rounded down to whole numbers, and the columns' values."""
        self._model.run()
        solution = self._model.getSolution()
        prices = [max(0, int(price * scale)) for price in solution.row_dual]
        return prices, [max(0.0, value) for value in solution.col_value]


def whole_counts(
    columns: Sequence[Column],
    demands: Sequence[int],
    most: int,
    *,
    nodes: int,
    least_cost: bool = False,
) -> tuple[list[int] | None, bool]:
    """Return whole counts of columns that cover all demands at a cost of at most `most`, and whether that is settled.

    The counts are None when none were found; then True means that the solver proved that there are none.
    With `least_cost` it goes on to the least cost, and True means that it is.
    """
    import highspy

    model = _quiet()
    infinite = highspy.kHighsInf
    for demand in demands:
        model.addRow(float(demand), infinite, 0, [], [])
    model.addRow(-infinite, float(most), 0, [], [])
    for cost, entries in columns:
        rows = [row for row, _ in entries] + [len(demands)]
        bound = min(
            max(-(-demands[row] // value) for row, value in entries), most // cost if cost else most
        )
        model.addCol(float(cost), 0.0, float(bound), len(rows), rows, [float(v) for _, v in entries] + [float(cost)])
    count = len(columns)
    model.changeColsIntegrality(count, list(range(count)), [highspy.HighsVarType.kInteger] * count)
    model.setOptionValue("mip_max_nodes", nodes)
    model.setOptionValue("mip_rel_gap", 0.0)
    model.setOptionValue("mip_abs_gap", 0.999)
    if not least_cost:
        model.setOptionValue("objective_target", float(most) + 0.5)
    model.run()
    status = model.getModelStatus()
    if status == highspy.HighsModelStatus.kInfeasible:
        return None, True
    if model.getInfo().primal_solution_status != 2:
        return None, False
    counts = [max(0, round(value)) for value in model.getSolution().col_value]
    if not _covers(columns, counts, demands, most):
        return None, False
    return counts, not least_cost or status == highspy.HighsModelStatus.kOptimal


def _covers(columns: Sequence[Column], counts: Sequence[int], demands: Sequence[int], most: int) -> bool:
    """Check a solver's answer in exact integers: every demand met, at no more than the allowed cost."""
    rest = list(demands)
    cost = 0
    for (price, entries), count in zip(columns, counts, strict=True):
        cost += price * count
        for row, value in entries:
            rest[row] -= value * count
    return cost <= most and all(amount <= 0 for amount in rest)
