"""Bags hold every piece that is needed, each in exactly one, and shared units have a bag of their own."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from patchwright.planning.bags import plan_bags
from patchwright.planning.plan import Plan
from planning.compiling import plan_of, plan_of_file, sample

SHARED = """\
units: {turn: {half-square: [red, cream]}, flat: {half-square: [cream, red], make: singly}}
blocks:
  one: {cell: 3 in, rows: [[turn, red], [cream, turn]]}
  two: {cell: 3 in, rows: [[turn, flat], [red, red]]}
  big: {cell: 3 in, rows: [[one], [two]]}
quilt: {arrange: [[one, two]], sashing: {width: 1 in, fabric: cream, cornerstone: red}, binding: {fabric: red}}
sizes:
  only: {across: 4, down: 4}
"""


def packed(plan: Plan, index: int) -> dict[str, int]:
    counts: dict[str, int] = {}
    for bag in plan_bags(plan, index):
        for piece, count in bag.pieces:
            counts[piece] = counts.get(piece, 0) + count
    return counts


def needed(plan: Plan, index: int) -> dict[str, int]:
    return {piece.id: size.need for piece in plan.pieces if (size := piece.sizes[index]) is not None}


def test_units_of_several_blocks_have_their_own_bag() -> None:
    plan = plan_of(sample(SHARED))
    bags = plan_bags(plan, 0)
    assert [(bag.kind, bag.ref, bag.made) for bag in bags] == [
        ("block", "one", 8), ("block", "two", 8), ("unit", "turn", 24), ("part", "sashing", 0),
        ("part", "cornerstones", 0), ("part", "binding", 0),
    ]  # fmt: skip
    assert bags[2].roots == ("one", "two")
    assert packed(plan, 0) == needed(plan, 0)


@pytest.mark.parametrize("name", ["rope-walk"])
def test_every_piece_of_a_demo_is_in_one_bag(name: str) -> None:
    plan = plan_of_file(name)
    for index in range(len(plan.sizes)):
        assert packed(plan, index) == needed(plan, index)


@settings(max_examples=25, deadline=None)
@given(
    st.sampled_from(["[[one]]", "[[one, two]]", "[[one, two], [two, two]]", "[[big]]"]), st.integers(1, 5),
    st.integers(1, 5), st.booleans(),
)
def test_bags_add_up(arranged: str, across: int, down: int, frame: bool) -> None:
    """Whatever the blocks and their number: what lies in the bags is what is needed."""
    size = f"across: {across}, down: {down}"
    text = SHARED.replace("[[one, two]]", arranged).replace("across: 4, down: 4", size)
    text = text.replace("cornerstone: red", "cornerstone: red, frame: yes") if frame else text
    plan = plan_of(sample(text))
    assert packed(plan, 0) == needed(plan, 0)
