"""Seams of strip sets: pressed before the set is cut apart, so that all its segments share them, turned or not."""

from __future__ import annotations

import pytest

from patchwright.planning.plan import Plan
from patchwright.planning.pressing.press import plan_pressing
from patchwright.planning.pressing.recount import Walk, recount
from patchwright.planning.pressing.terms import Rule
from pressing.quilts import quilt

SEGMENTS = """\
blocks:
  pair: {cell: 2 in, strip-piece: yes, rows: [[dark, light], ROW]}
quilt: {arrange: [[pair]]}
sizes: {only: {across: 1, down: 4}}
"""
UNIT = """\
units: {many: {METHOD: [dark, light], strip-piece: yes}}
blocks: {one: {cell: 3 in, rows: [[many 3x3]]}}
quilt: {arrange: [[one]]}
sizes: {only: {across: 2, down: 2}}
"""


def arrows(plan: Plan, kind: str, ref: str) -> dict[str, list[tuple[int, int]]]:
    """Where the allowance of every seam points that lies in a thing, seam by seam."""
    walk = Walk(plan, plan_pressing(plan, "nest"), 0)
    walk.lay_thing(kind, ref)
    found: dict[str, list[tuple[int, int]]] = {}
    for laid in walk.laid:
        found.setdefault(f"{laid.seam.owner.kind}-{laid.seam.part}", []).append(laid.points[0])
    return found


def turned(plan: Plan) -> list[int]:
    return [placed.orientation.turns for line in plan.assemblies[0].lines for placed in line]


@pytest.mark.parametrize("rule", ["nest", "dark"])
def test_a_segment_turned_by_half_lies_the_other_way(rule: Rule) -> None:
    plan = quilt(SEGMENTS.replace("ROW", "[light, dark]"))
    assert len(plan.units) == 1
    first, second = turned(plan)
    assert (second - first) % 4 == 2
    within = arrows(plan, "assembly", "pair")["unit-join"]
    (x, y), (other_x, other_y) = within
    assert (x + other_x, y + other_y) == (0, 0) != (x, y)
    pressing = plan_pressing(plan, rule)
    inside = [junction for junction in pressing.junctions if junction.line.owner.id == "pair"]
    assert [(junction.nests, junction.counts) for junction in inside] == [(True, (4,))]
    assert recount(plan, pressing) == ((pressing.sizes[0].nested, pressing.sizes[0].total),)


def test_segments_that_lie_alike_are_pressed_alike_and_never_nest() -> None:
    plan = quilt(SEGMENTS.replace("ROW", "[dark, light]"))
    assert len(set(turned(plan))) == 1
    within = arrows(plan, "assembly", "pair")["unit-join"]
    assert within[0] == within[1]
    pressing = plan_pressing(plan, "nest")
    assert [junction.nests for junction in pressing.junctions if junction.line.owner.id == "pair"] == [False]
    assert recount(plan, pressing) == ((pressing.sizes[0].nested, pressing.sizes[0].total),)


@pytest.mark.parametrize(("method", "shared"), [("four-patch", [2, 1]), ("nine-patch", [2, 2, 1, 1, 1, 1])])
def test_segments_of_one_set_within_a_unit_share_its_seams(method: str, shared: list[int]) -> None:
    """The two rows of a four-patch are one set; so are the outer rows of a nine-patch."""
    plan = quilt(UNIT.replace("METHOD", method))
    (unit,) = plan.units
    assert unit.how == "strips"
    seams = plan_pressing(plan, "nest").seams_of("unit", unit.id)
    assert sorted((len(seam.drawn) for seam in seams), reverse=True) == shared


@pytest.mark.parametrize("seed", range(3))
def test_a_wrong_turn_is_found_by_counting_again(seed: int) -> None:
    """The count on the top knows turned segments by their places alone."""
    row = ("[light, dark]", "[light, dark, dark]", "[light 1x1, dark 2x1]")[seed]
    other = ("[dark, light]", "[dark, dark, light]", "[dark 2x1, light 1x1]")[seed]
    plan = quilt(SEGMENTS.replace("[dark, light], ROW", f"{row}, {other}"))
    pressing = plan_pressing(plan, "nest")
    assert recount(plan, pressing) == ((pressing.sizes[0].nested, pressing.sizes[0].total),)
