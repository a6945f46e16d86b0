"""What following the advice for heavy points changes, against a count on the top with the directions really changed."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction
from functools import cache
from typing import Any

import pytest

from patchwright.planning.plan import Plan
from patchwright.planning.pressing.bulk import followed
from patchwright.planning.pressing.press import with_pressing
from patchwright.planning.pressing.recount import lie_opposed, recount_meetings
from patchwright.planning.pressing.results import HeavyPoint, PressingPlan
from patchwright.planning.verify import verify
from pressing.quilts import NINE_PATCH, PINWHEEL, quilt

CROSSED = """\
units: {q: {quarter-square: [dark, light], make: cut}}
blocks: {b: {cell: 3 in, rows: [[q, q@90], [q@90, q]]}}
quilt: {arrange: [[b]], borders: [{width: 2 in, fabric: other}]}
sizes: {small: {across: 2, down: 2}, large: {across: 3, down: 3}}
"""
WHEELS = PINWHEEL.replace("{across: 1, down: 1}", "{across: 3, down: 2}")
CORNERS = """\
units: {c: {half-square: [dark, light]}}
blocks: {one: {cell: 3 in, rows: [[c]]}}
quilt: {arrange: [[one@90, one@180], [one, one@270]]}
sizes: {only: {across: 4, down: 4}, more: {across: 6, down: 5}}
"""
FREE_BLOCKS = CROSSED.replace("units:", "house: {pressing: dark}\nunits:")
TEXTS = {"crossed": CROSSED, "wheels": WHEELS, "corners": CORNERS, "dark": FREE_BLOCKS}


@cache
def pressed(name: str) -> tuple[Plan, PressingPlan]:
    plan = with_pressing(quilt(TEXTS[name]))
    assert plan.pressing is not None
    assert plan.pressing.heavy
    return plan, plan.pressing


def nesting(plan: Plan, pressing: PressingPlan, index: int) -> list[bool]:
    """Whether each junction of a size nests, in an order that does not hang on directions."""
    return [lie_opposed(one, two) for one, two in recount_meetings(plan, pressing, index)[0]]


def advised(pressing: PressingPlan, points: Iterable[HeavyPoint]) -> PressingPlan:
    """The plan with the advice followed: halves turned, seams opened."""
    seams = list(pressing.seams)
    for point in points:
        for at, own in enumerate(seams):
            if own.seam != point.line:
                continue
            halves = tuple(-way if half in point.turned else way for half, way in enumerate(own.halves))
            seams[at] = replace(own, halves=(0, 0) if point.advice == "open" else (halves[0], halves[1]))
    return replace(pressing, seams=tuple(seams))


def changed(plan: Plan, pressing: PressingPlan, points: Iterable[HeavyPoint]) -> tuple[tuple[int, ...], ...]:
    """Junctions lost and gained in each size, from two counts."""
    after = advised(pressing, points)
    pairs = [
        list(zip(nesting(plan, pressing, index), nesting(plan, after, index), strict=True))
        for index in range(len(plan.sizes))
    ]
    return tuple(tuple(own.count(change) for own in pairs) for change in ((True, False), (False, True)))


@pytest.mark.parametrize("name", TEXTS)
def test_each_piece_of_advice_changes_what_it_says(name: str) -> None:
    plan, pressing = pressed(name)
    assert list(verify(plan)) == []
    for point in pressing.heavy:
        assert (point.loses, point.gains) == changed(plan, pressing, [point])


@pytest.mark.parametrize("name", TEXTS)
def test_all_advice_together_changes_what_is_told(name: str) -> None:
    """A line may have several points of the same advice, which is followed once."""
    plan, pressing = pressed(name)
    lines = {(point.line, point.advice): point for point in pressing.heavy}
    assert followed(pressing, pressing.heavy) == changed(plan, pressing, lines.values())


def test_a_junction_that_two_open_seams_share_is_lost_once() -> None:
    """At the middle of four blocks, seams of two rows meet on the seam between them, and all three are opened."""
    _, pressing = pressed("crossed")
    points = [point for point in pressing.heavy if point.line.owner.kind in ("row", "top")]
    lost, _ = followed(pressing, points)
    assert 0 < sum(lost) < sum(sum(point.loses) for point in points)


WRONG: dict[str, tuple[dict[str, Any], str]] = {
    "nested": ({"nested": Fraction(1, 7)}, "but not size by size"),
    "bound": ({"bound": Fraction(0)}, "no more than 0 of"),
    "too-high": ({"bound": Fraction(99)}, "no more than 99 of"),
    "gap": ({"proof": "gap"}, "is no proof by gap"),
    "rule": ({"proof": "rule"}, "by the rule nest, proven by rule"),
}


@pytest.mark.parametrize("name", WRONG)
def test_verify_finds_what_is_wrongly_stated_of_the_whole_plan(name: str) -> None:
    plan = with_pressing(quilt(NINE_PATCH))
    assert plan.pressing is not None
    values, said = WRONG[name]
    found = list(verify(replace(plan, pressing=replace(plan.pressing, **values))))
    assert any(said in message for message in found), found


@pytest.mark.parametrize("values", [{"loses": (99, 99)}, {"gains": (7, 7)}, {"turned": (0, 1)}, {"advice": "spun"}])
def test_verify_finds_wrong_costs_of_advice(values: dict[str, Any]) -> None:
    plan, pressing = pressed("corners")
    heavy = (replace(pressing.heavy[0], **values), *pressing.heavy[1:])
    found = list(verify(replace(plan, pressing=replace(pressing, heavy=heavy))))
    assert any("where seams pile up on" in message for message in found), found
