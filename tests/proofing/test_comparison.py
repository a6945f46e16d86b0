"""Two states of a pattern are told apart by their numbers, and by nothing else."""

from __future__ import annotations

from patchwright.planning.dump import plan_json
from patchwright.proofing.comparison import compare
from planning.compiling import plan_of, sample


def test_a_pattern_does_not_differ_from_itself() -> None:
    numbers = plan_json(plan_of(sample()))
    assert compare(numbers, numbers) == ()


def test_a_larger_quilt_differs_in_counts_but_not_in_cut_sizes() -> None:
    small = plan_json(plan_of(sample("sizes: {crib: {across: 2, down: 2}}\n")))
    large = plan_json(plan_of(sample("sizes: {crib: {across: 4, down: 2}}\n")))
    differences = {one.place: (one.old, one.new) for one in compare(small, large)}
    assert differences["sizes", "crib", "across"] == ("2", "4")
    assert not any(place[-1] == "cut" for place in differences)


def test_a_size_that_is_taken_away_is_told() -> None:
    both = plan_json(plan_of(sample("sizes: {crib: {across: 2, down: 2}, throw: {across: 3, down: 3}}\n")))
    one = plan_json(plan_of(sample("sizes: {crib: {across: 2, down: 2}}\n")))
    gone = [difference for difference in compare(both, one) if difference.new == ""]
    assert gone
    assert all(difference.place[:2] == ("sizes", "throw") for difference in gone)
