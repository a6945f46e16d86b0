"""Published values of finishing, sizes, units of measure, blocks and cautions, each with its source."""

from __future__ import annotations

import pytest

from published import (
    bed_checks,
    block_checks,
    caution_checks,
    finishing_checks,
    measure_checks,
    size_checks,
    square_checks,
)
from published.values import CHECKS, EXCLUDED, rows

WRITTEN = {"a4", "a4pt", "letter", "letter-a4", "pt", "pt-mm"} | set(caution_checks.STATED)
"""Rows that need a drawn or written booklet, which takes a while."""
MODULES = (bed_checks, block_checks, caution_checks, finishing_checks, measure_checks, size_checks, square_checks)


@pytest.mark.parametrize(
    "row_id", [pytest.param(row_id, marks=pytest.mark.slow if row_id in WRITTEN else ()) for row_id in CHECKS]
)
def test_published_value(row_id: str) -> None:
    CHECKS[row_id](rows()[row_id])


def test_no_row_is_forgotten() -> None:
    assert set(CHECKS) | set(EXCLUDED) == set(rows())


def test_every_exclusion_has_a_reason() -> None:
    assert all(len(reason) > 15 for reason in EXCLUDED.values())


def test_every_row_has_a_source() -> None:
    assert all(row.source and row.basis for row in rows().values())


@pytest.mark.slow
def test_infants_are_named_for_their_sizes_only() -> None:
    assert "12 months" in caution_checks.booklet_text("crib")
    assert "12 months" not in caution_checks.booklet_text("throw")
