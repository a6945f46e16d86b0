"""Cutting layouts that are kept beside a pattern are used again for the very same problem, and for no other."""

from __future__ import annotations

from dataclasses import replace

import pytest

from patchwright.planning import cutting
from patchwright.planning.kept import Kept, fingerprint, kept_text, read_kept

PROBLEM = cutting.Yardage(
    width=320,
    parts=(cutting.Part("A1", 36, 20, 84, True), cutting.Part("A2", 20, 20, 126, True)),
    joined=(cutting.Joined("A3", 16, 1032, 4, 80),),
    purchasable=tuple(36 * step for step in range(1, 40)),
)


def _unwanted(problem: cutting.Yardage) -> cutting.YardagePlan:
    raise AssertionError("the kept plan was not used")


def test_a_kept_plan_is_read_back_as_it_was() -> None:
    kept = Kept()
    plan = kept.solver(cutting.plain)(PROBLEM)
    assert read_kept(kept_text(kept.used)) == {fingerprint(PROBLEM): plan}


def test_a_kept_plan_is_used_for_its_problem_even_where_a_better_one_is_found_now() -> None:
    kept = Kept()
    plain = kept.solver(cutting.plain)(PROBLEM)
    assert Kept(dict(kept.used)).solver(_unwanted)(PROBLEM) == plain


@pytest.mark.parametrize("other", [
    replace(PROBLEM, width=328),
    replace(PROBLEM, parts=(*PROBLEM.parts[:1], replace(PROBLEM.parts[1], count=127))),
    replace(PROBLEM, parts=(replace(PROBLEM.parts[0], turn=False), PROBLEM.parts[1])),
    replace(PROBLEM, joined=(replace(PROBLEM.joined[0], total=1040),)),
    replace(PROBLEM, purchasable=PROBLEM.purchasable[1:]),
])
def test_any_change_makes_it_another_problem(other: cutting.Yardage) -> None:
    assert fingerprint(other) != fingerprint(PROBLEM)


def test_the_order_of_the_list_makes_no_other_problem() -> None:
    assert fingerprint(replace(PROBLEM, parts=PROBLEM.parts[::-1])) == fingerprint(PROBLEM)


def test_a_kept_plan_that_was_tampered_with_is_not_used() -> None:
    kept = Kept()
    plan = kept.solver(cutting.plain)(PROBLEM)
    fewer = tuple(replace(strip, count=max(1, strip.count - 1)) for strip in plan.strips)
    wider = tuple(replace(strip, cuts=tuple(replace(c, each=c.each * 3) for c in strip.cuts)) for strip in plan.strips)
    for strips in (fewer, wider):
        wrong = {fingerprint(PROBLEM): replace(plan, strips=strips)}
        assert Kept(wrong).solver(cutting.best)(PROBLEM) == cutting.best(PROBLEM)


@pytest.mark.parametrize("text", ["", "[]", "{}", '{"format": 2, "plans": {}}', '{"format": 1, "plans": {"a": 1}}'])
def test_other_files_are_refused(text: str) -> None:
    with pytest.raises(ValueError, match=r"\S|^$"):
        read_kept(text)
