"""Open instances: two-stage knapsacks reach their optimum, sheets the best known within 0.13 %, bounds within 0.01 %.

The whole sets are measured by `tests/bench/cutting.py`; here stand those that take little time.
"""

from __future__ import annotations

import json
from collections import Counter

import pytest

from patchwright.planning.cutting import CannotCut, Part
from patchwright.planning.cutting.stock import StockSheet, plan_stock
from patchwright.planning.cutting.valued import dearest_sheet

from .lists import DATA

KNAPSACKS = json.loads((DATA / "knapsack-two-stage.json").read_text())
SHEETS = json.loads((DATA / "sheets-two-stage.json").read_text())
SLOW = {"cung2000/CHL1", "cung2000/CHL6", "cung2000/CHL7", "cung2000/Hchl4s", "cung2000/Hchl6s", "cung2000/Hchl7s"}
BIG = {f"cintra2008/gcut{n}d" for n in (2, 3, 4, 7, 8, 11, 12)}


@pytest.mark.parametrize(
    "instance", [i for i in KNAPSACKS if i["name"] not in SLOW], ids=lambda i: f"{i['name']}-{i['first-cut']}"
)
def test_knapsacks_reach_their_optimum(instance: dict[str, object]) -> None:
    sheet: list[int] = instance["sheet"]  # type: ignore[assignment]
    width, height = sheet
    items: list[list[int]] = instance["items"]  # type: ignore[assignment]
    upright = instance["first-cut"] == "vertical"
    if upright:
        # A first cut along the sheet is a first cut across the sheet laid on its side.
        width, height = height, width
        items = [[item[1], item[0], *item[2:]] for item in items]
    parts = [Part(f"p{i}", item[0], item[1], item[2], False) for i, item in enumerate(items)]
    values = [item[3] if len(item) > 3 else item[0] * item[1] for item in items]
    plan = dearest_sheet(width, height, parts, values)
    assert plan.value == instance["optimum"]
    assert sum(strip for strip, _ in plan.strips) <= height
    copies: Counter[str] = Counter()
    for strip, pieces in plan.strips:
        sizes = {part.key: part for part in parts}
        assert sum(sizes[key].width * number for key, number in pieces) <= width
        assert all(sizes[key].height <= strip for key, _ in pieces)
        copies.update(dict(pieces))
    assert all(copies[part.key] <= part.count for part in parts)
    assert sum(value * copies[part.key] for part, value in zip(parts, values, strict=True)) == plan.value


@pytest.mark.parametrize(
    "instance", [i for i in SHEETS if i["name"] not in BIG], ids=lambda i: f"{i['name']}-{i['rotate']}"
)
def test_sheets_come_close_to_the_best_known(instance: dict[str, object]) -> None:
    items: list[list[int]] = instance["items"]  # type: ignore[assignment]
    sheets = [StockSheet(w, h, int(cost)) for w, h, cost in instance["sheets"]]  # type: ignore[attr-defined]
    parts = [Part(f"p{i}", w, h, n, bool(instance["rotate"])) for i, (w, h, n) in enumerate(items)]
    plan = plan_stock(sheets, parts)
    assert plan.cost <= 1.0013 * float(str(instance["best-known"]))
    assert 0.9999 * float(str(instance["bound"])) <= plan.bound <= plan.cost
    made: Counter[str] = Counter()
    for sheet, strips in plan.sheets:
        assert sheet in sheets
        assert sum(strip.height for strip in strips) <= sheet.height
        for strip in strips:
            assert sum(wide * number for _, number, wide, _ in strip.yields) <= sheet.width
            for key, number, wide, high in strip.yields:
                part = parts[int(key[1:])]
                assert high <= strip.height
                assert (wide, high) == (part.width, part.height) or (
                    part.turn and (high, wide) == (part.width, part.height)
                )
                made[key] += number
    assert all(made[part.key] >= part.count for part in parts)
    assert plan.cost == sum(sheet.cost for sheet, _ in plan.sheets)


def test_a_part_that_fits_no_sheet_is_refused() -> None:
    with pytest.raises(CannotCut) as caught:
        plan_stock([StockSheet(10, 10, 1)], [Part("a", 9, 11, 1, False)])
    assert caught.value.reason == "too-large"
