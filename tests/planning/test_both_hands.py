"""Units whose pieces serve either hand: both are sewn from the same batches, and nothing is cut twice."""

from __future__ import annotations

from dataclasses import replace

import pytest

from patchwright.planning.verify import verify
from planning.compiling import plan_of, sample, unit_size

SPLIT = """\
fabrics: {red: {REDS}, cream: {}, blue: {}}
units: {gaff: {split-square: [red, cream, blue], size: 2 x 2}}
blocks: {one: {cell: 2 in, rows: [[gaff, gaff@mirror], [gaff@180, gaff@mirror@180]]}}
sizes: {only: {across: ACROSS, down: 1}}
"""


@pytest.mark.parametrize(("across", "batches", "spare"), [(1, 1, 0), (2, 2, 0), (3, 3, 0)])
def test_split_squares_of_both_hands(across: int, batches: int, spare: int) -> None:
    """Two and two reversed are four, which one batch gives: two large squares and one of each small one."""
    plan = plan_of(sample(SPLIT.replace("ACROSS", str(across)).replace("REDS", "")))
    drawn, other = (unit_size(unit) for unit in plan.units)
    assert (drawn.batches, drawn.lent, drawn.made - drawn.need) == (batches, 2 * across, spare)
    assert (other.batches, other.lent, other.made) == (0, -2 * across, other.need)
    assert verify(plan) == ()


def test_one_way_prints_share_nothing() -> None:
    plan = plan_of(sample(SPLIT.replace("ACROSS", "1").replace("REDS", "directional: lengthwise")))
    assert all(unit_size(unit).batches and not unit_size(unit).lent for unit in plan.units)


@pytest.mark.parametrize("lent", [0, 1, -2])
def test_wrong_sharing_is_noticed(lent: int) -> None:
    plan = plan_of(sample(SPLIT.replace("ACROSS", "1").replace("REDS", "")))
    first, *rest = plan.units
    own = unit_size(first)
    wrong = replace(own, lent=lent, made=own.batches * own.recipe.batch - lent)
    assert verify(replace(plan, units=(replace(first, sizes=(wrong,)), *rest)))
