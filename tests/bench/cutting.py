"""Measures the cutting optimizer and prints its table: plain practice, first fit, ours, bound, time, strips, cuts.

Run from the repository's folder with `PYTHONPATH=compiler:tests python -m bench.cutting [strips] [everyday] [extreme]
[fresh] [fresh-extreme] [knapsack] [sheets]`; without words it runs everything, which takes some minutes.
Times are processor seconds of this machine.
"""

from __future__ import annotations

import json
import sys
import time
from collections.abc import Callable

from cutting.lists import DATA, everyday, extreme, strip_list, strip_lists
from patchwright.planning.cutting import Part, Yardage, best, first_fit, plain
from patchwright.planning.cutting.stock import StockSheet, plan_stock
from patchwright.planning.cutting.valued import dearest_sheet

_ROW = "{:<28}{:>8}{:>10}{:>7}{:>7}{:>9}{:>8}{:>8}{:>7}  {}"


def measure_yardage(name: str, problem: Yardage) -> tuple[float, bool, int, float]:
    """Print one row and return its time, whether the step is proven, the gap in steps, and the cloth saved."""
    usual, fitted = plain(problem), first_fit(problem)
    start = time.process_time()
    plan = best(problem)
    spent = time.process_time() - start
    strips = sum(strip.count for strip in plan.strips)
    cuts = sum(1 + len(strip.cuts) + len(strip.segments) for strip in plan.strips)
    print(
        _ROW.format(
            name, usual.step, fitted.step, plan.step, plan.step_bound, f"{spent:.2f} s", strips, cuts,
            len({strip.height for strip in plan.strips}), plan.proof,
        )
    )  # fmt: skip
    return spent, plan.proof != "gap", plan.step - plan.step_bound, 1 - plan.length / usual.length


def measure_lists(title: str, problems: list[tuple[str, Yardage]]) -> None:
    """Print the table of these lists and a summary."""
    print(f"\n{title}")
    print(_ROW.format("list", "plain", "first fit", "ours", "bound", "time", "strips", "cuts", "highs", "proof"))
    rows = [measure_yardage(name, problem) for name, problem in problems]
    times = sorted(row[0] for row in rows)
    print(
        f"proven {sum(row[1] for row in rows)} of {len(rows)}, largest gap {max(row[2] for row in rows)} steps, "
        f"median {times[len(times) // 2]:.2f} s, 90th percentile {times[int(0.9 * len(times))]:.2f} s, "
        f"longest {times[-1]:.2f} s, {100 * sum(row[3] for row in rows) / len(rows):.1f} % less than plain practice"
    )


def measure_knapsacks() -> None:
    """Print how many of the open two-stage knapsacks reach their optimum."""
    print("\nTwo-stage knapsacks")
    reached = 0
    instances = json.loads((DATA / "knapsack-two-stage.json").read_text())
    for instance in instances:
        width, height = instance["sheet"]
        upright = instance["first-cut"] == "vertical"
        items = [(item[1], item[0], *item[2:]) if upright else tuple(item) for item in instance["items"]]
        start = time.process_time()
        plan = dearest_sheet(
            height if upright else width,
            width if upright else height,
            [Part(f"p{i}", item[0], item[1], item[2], False) for i, item in enumerate(items)],
            [item[3] if len(item) > 3 else item[0] * item[1] for item in items],
        )
        reached += plan.value == instance["optimum"]
        spent = time.process_time() - start
        note = "" if plan.value == instance["optimum"] else "  short of the optimum"
        print(f"{instance['name']:<24}{plan.value:>8}{instance['optimum']:>8}{spent:>8.2f} s{note}")
    print(f"{reached} of {len(instances)} optima")


def measure_sheets() -> None:
    """Print the cost and bound of the open sheet instances beside the best known."""
    print("\nTwo-stage sheets")
    for instance in json.loads((DATA / "sheets-two-stage.json").read_text()):
        start = time.process_time()
        plan = plan_stock(
            [StockSheet(width, height, int(cost)) for width, height, cost in instance["sheets"]],
            [Part(f"p{i}", item[0], item[1], item[2], instance["rotate"]) for i, item in enumerate(instance["items"])],
        )
        spent = time.process_time() - start
        cost = 100 * (plan.cost / instance["best-known"] - 1)
        bound = 100 * (plan.bound / instance["bound"] - 1)
        turned = "turned" if instance["rotate"] else "fixed"
        print(f"{instance['name']:<22}{turned:<8}{plan.cost:>12} ({cost:+.3f} %)", end=" ")
        print(f"bound {plan.bound:>12} ({bound:+.4f} %){spent:>8.1f} s")


def main(words: list[str]) -> None:
    """Run the measurements named, or all."""
    runs: dict[str, Callable[[], None]] = {
        "strips": lambda: measure_lists("Strip lists", [(str(e["name"]), strip_list(e)[0]) for e in strip_lists()]),
        "everyday": lambda: measure_lists("Everyday lists", [(f"everyday {i}", everyday(i)) for i in range(200)]),
        "extreme": lambda: measure_lists("Extreme lists", [(f"extreme {i}", extreme(i)) for i in range(60)]),
        # The limits of the search were chosen on the lists above; these show what they do with others.
        "fresh": lambda: measure_lists("Fresh lists", [(f"everyday {i}", everyday(i)) for i in range(1000, 1200)]),
        "fresh-extreme": lambda: measure_lists(
            "Fresh lists", [(f"extreme {i}", extreme(i)) for i in range(1000, 1060)]
        ),
        "knapsack": measure_knapsacks,
        "sheets": measure_sheets,
    }
    for word in words or runs:
        runs[word]()


if __name__ == "__main__":
    main(sys.argv[1:])
