"""Count vectors that no other surpasses: the same as by holding each against every other, with far less work."""

from __future__ import annotations

import random
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from patchwright.planning.cutting import Group, PackProblem, Pile, SheetPiece, plan_pack
from patchwright.planning.cutting import largest as module
from patchwright.planning.cutting.largest import LargestRows, largest, last_places

from .test_packs import check_pack

Counts = tuple[int, ...]


def by_pairs(totals: set[Counts]) -> set[Counts]:
    """Return the same by the definition."""
    return {t for t in totals if not any(o != t and all(a <= b for a, b in zip(t, o, strict=True)) for o in totals)}


vectors = st.integers(1, 4).flatmap(lambda n: st.sets(st.tuples(*[st.integers(0, 6)] * n), max_size=150))


@settings(max_examples=60, deadline=None, derandomize=True)
@given(vectors)
def test_the_largest_are_those_by_definition(totals: set[Counts]) -> None:
    assert largest(totals) == by_pairs(totals)


@settings(max_examples=60, deadline=None, derandomize=True)
@given(
    st.integers(1, 4).flatmap(lambda n: st.tuples(*[st.sets(st.tuples(*[st.integers(0, 6)] * n), min_size=1)] * 2)),
    st.integers(1, 8),
)
def test_sums_are_kept_up_to_their_limits(tables: tuple[set[Counts], set[Counts]], limit: int) -> None:
    first, second = tables
    pairs = [(a, b) for a in first for b in second]
    found = LargestRows((limit,) * len(pairs[0][0]))
    found.add_sums(np.array(sorted(first), dtype=np.int32), np.array(sorted(second), dtype=np.int32))
    sums = {tuple(min(x + y, limit) for x, y in zip(a, b, strict=True)) for a, b in pairs}
    assert [tuple(row) for row in found.rows().tolist()] == sorted(by_pairs(sums), reverse=True)
    assert found.is_full() == ((limit,) * len(pairs[0][0]) in sums)


@pytest.mark.parametrize("limit", [9, 1 << 40])
def test_equal_rows_are_found_where_they_stand_last(limit: int) -> None:
    chance = random.Random(3)
    rows = [tuple(chance.randint(0, 9) for _ in range(3)) for _ in range(300)]
    last = {row: place for place, row in enumerate(rows)}
    places = last_places(np.array(rows, dtype=np.int64), (limit,) * 3)
    assert {rows[place]: place for place in places.tolist()} == last


def test_work_grows_with_what_is_kept_and_not_with_the_square_of_all(monkeypatch: pytest.MonkeyPatch) -> None:
    chance = random.Random(1)
    totals = {tuple(chance.randint(0, 30) for _ in range(4)) for _ in range(4000)}
    work = 0
    real = module.surpassed

    def counted(rows: Any, others: Any) -> Any:
        nonlocal work
        work += len(rows) * len(others)
        return real(rows, others)

    monkeypatch.setattr(module, "surpassed", counted)
    kept = largest(totals)
    assert kept == by_pairs(totals)
    # Every vector is held against those kept before it, and the kept ones of a block against each other.
    assert work <= len(totals) * len(kept) + module._BLOCK * len(totals)
    assert work < len(totals) ** 2 / 10


SIZES = ((20, 20), (20, 36), (16, 28), (24, 24), (12, 52), (36, 36), (12, 12), (16, 16))


@pytest.mark.parametrize(("sizes", "groups", "sheets"), [(4, 6, 12), (8, 3, 18)])
def test_groups_of_many_sizes_are_served_with_counted_work(
    sizes: int, groups: int, sheets: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A block of many sizes from one print: eight sizes are beyond listing every yield, and are still all covered."""
    sums = 0
    real = module.sums_up_to

    def counted(limits: Any, first: Any, second: Any) -> Any:
        nonlocal sums
        sums += len(first) * len(second)
        return real(limits, first, second)

    monkeypatch.setattr(module, "sums_up_to", counted)
    pieces = tuple(SheetPiece(f"p{i}", *size, True) for i, size in enumerate(SIZES[:sizes]))
    needs = tuple((one.key, 3 + i % 3) for i, one in enumerate(pieces))
    problem = PackProblem(
        80, 80, pieces, (Pile("all", 10),), tuple(Group(f"block {n}", needs) for n in range(groups))
    )
    plan = plan_pack(problem)
    check_pack(problem, plan)
    assert plan.used == plan.needed <= sheets
    assert sums < 5_000_000
