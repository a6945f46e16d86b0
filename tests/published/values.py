"""The rows of `values.yaml`, and the register of what checks each of them.

A check is a function of one row that is registered for the rows it can check; a row that nothing can check stands in
`EXCLUDED` with its reason.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import yaml


@dataclass(frozen=True, slots=True)
class Row:
    id: str
    topic: str
    kind: str
    inputs: dict[str, Any]
    expected: Any
    text: str
    tolerance: float
    unit: str
    basis: str
    source: str


Check = Callable[[Row], None]
CHECKS: dict[str, Check] = {}
EXCLUDED: dict[str, str] = {}


def checks(*ids: str) -> Callable[[Check], Check]:
    """Register a function as the check of these rows."""

    def register(check: Check) -> Check:
        for row_id in ids:
            if row_id in CHECKS or row_id in EXCLUDED:
                raise ValueError(f"{row_id} is registered twice")
            CHECKS[row_id] = check
        return check

    return register


def exclude(reason: str, *ids: str) -> None:
    """Say why rows are not checked."""
    for row_id in ids:
        if row_id in CHECKS or row_id in EXCLUDED:
            raise ValueError(f"{row_id} is registered twice")
        EXCLUDED[row_id] = reason


@cache
def rows() -> dict[str, Row]:
    loaded = yaml.safe_load((Path(__file__).parent / "values.yaml").read_text(encoding="utf-8"))
    return {row["id"]: _row(row) for row in loaded["rows"]}


def _row(row: dict[str, Any]) -> Row:
    source = ", ".join(str(row["source"][key]) for key in ("title", "publisher", "where") if key in row["source"])
    return Row(
        row["id"], row["topic"], row["kind"], row["inputs"], row["expected"], row.get("expected-text", ""),
        float(row["tolerance"]), row["unit"], row["basis"], source,
    )
