"""Published sizes and counts of setting triangles, each with its source in the table, and the rules it assumes here.

Where nothing else is said, cut sizes follow the trade's rule (the diagonal and 1 1/4; half of it and 7/8), rounded up
to an eighth.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
import yaml

from patchwright.core.length import ROOT_TWO, Length
from settings.setting import on_point, squares, triangles

Row = dict[str, Any]
ROWS: dict[str, Row] = {
    row["id"]: row
    for row in yaml.safe_load((Path(__file__).parent / "data" / "setting-triangles.yaml").read_text("utf-8"))["rows"]
}
EXACT = {"set-side-16", "set-garden-side", "set-garden-corner"}
"""Sources that round the geometry itself up to an eighth, or a diagonal with the factor 1.414; the trade's rule with
the true diagonal gives an eighth more, which is trimmed."""
ROUNDED_TO_QUARTERS = "set4-"
"""A chart that rounds to the nearest quarter, down as well as up; ours round up to quarters and may be one more."""


def length(number: object) -> Length:
    return Length(sum((Fraction(part) for part in str(number).split()), Fraction(0)))


def side_of(row: Row) -> str:
    return str(row["inputs"]["finished block"])


def is_corner(row: Row) -> bool:
    return "corner" in row["id"] or row["id"] == "set-guild-6c"


def cut(row: Row, rules: str = "") -> Length:
    return squares(on_point(side_of(row), rules=rules), "once" if is_corner(row) else "twice")[0]


def geometry(row: Row) -> Length:
    """The least square, worked out here from the finished triangle and its seams of a quarter inch."""
    diagonal = length(side_of(row)) * ROOT_TWO
    if is_corner(row):
        return diagonal / 2 + Length("1/2") + ROOT_TWO / 4
    return diagonal + Length("1/2") + ROOT_TWO / 2


def in_table(row: Row) -> None:
    rules = "triangles: exact" if row["id"] in EXACT else ""
    assert cut(row, rules) == length(row["expected"])


def in_quarters(row: Row) -> None:
    found = cut(row, "round-cuts: 1/4 in")
    assert found >= geometry(row)
    assert abs(found - length(row["expected"])) <= Length("1/4")


def by_geometry(row: Row) -> None:
    assert abs(float(geometry(row)) - row["expected"]) <= row["tolerance"]
    assert geometry(row) <= cut(row, "triangles: exact") < geometry(row) + Length("1/8")


def too_small(row: Row) -> None:
    assert cut(row) > length(row["expected"])
    assert length(row["expected"]) < geometry(row)


def before_rounding(row: Row) -> None:
    """The trade's formula; rounded up it is what is cut."""
    formula = length(side_of(row)) * ROOT_TWO + Length("5/4")
    assert abs(float(formula) - row["expected"]) <= row["tolerance"]
    assert cut(row) == formula.up_to(Fraction(1, 8))


def counted_sides(row: Row) -> None:
    plan = on_point(across=row["inputs"]["columns"], down=row["inputs"]["rows"])
    assert len(triangles(plan, corners=False)) == row["expected"]
    assert squares(plan, "twice")[1] == -(-row["expected"] // 4)


def counted_blocks(row: Row) -> None:
    plan = on_point(across=row["inputs"]["columns"], down=row["inputs"]["rows"])
    assert sum(item.on_point for item in plan.sizes[0].items) == row["expected"]


def whole_top(row: Row) -> None:
    across = row["inputs"].get("columns", 2)
    down = row["inputs"].get("rows", 2)
    size = on_point(str(row["inputs"]["block"]), across, down).sizes[0].unfinished
    assert abs(float(size[0 if "columns" in row["inputs"] else 1]) - row["expected"]) <= row["tolerance"]


def check_of(row: Row) -> Callable[[Row], None]:
    """The check that a row takes."""
    named: dict[str, Callable[[Row], None]] = {
        "set-count": counted_sides, "set-squares": counted_blocks, "set-size": whole_top, "set-exact": by_geometry,
        "set-negative": too_small, "set-10-decimal": before_rounding, ROUNDED_TO_QUARTERS: in_quarters,
    }
    return next((check for start, check in named.items() if row["id"].startswith(start)), in_table)


@pytest.mark.parametrize("row_id", ROWS)
def test_published_setting(row_id: str) -> None:
    check_of(ROWS[row_id])(ROWS[row_id])


def test_every_row_has_a_source() -> None:
    assert all(row["source"]["title"] and row["basis"] for row in ROWS.values())
