"""Units that no straight seam divides: curves, and patches set in between the points of a star."""

from __future__ import annotations

import pytest

from patchwright.planning.plan import Plan
from patchwright.planning.pressing.press import plan_pressing
from patchwright.planning.pressing.recount import recount_points
from patchwright.planning.pressing.results import PressingPlan
from patchwright.planning.pressing.terms import Owner
from pressing.quilts import counts, quilt

CURVES = """\
units: {curve: {quarter-circle: [dark, light], radius: 1}}
blocks: {one: {cell: 2 in, rows: [ROW]}}
quilt: {arrange: [[one]]}
sizes: {only: {across: 1, down: 1}}
"""
STARS = """\
units: {star: {eight-point-star: [dark, other, light]}}
blocks: {one: {cell: 2 in, rows: [[star]]}}
quilt: {arrange: [[one]]}
sizes: {only: {across: 2, down: 2}}
"""


def assert_twice_the_same(plan: Plan, pressing: PressingPlan) -> None:
    for index, size in enumerate(pressing.sizes):
        heavy = sum(point.counts[index] for point in pressing.heavy)
        assert recount_points(plan, pressing, index) == (size.nested, size.total, heavy)


@pytest.mark.parametrize(("rows", "nested", "total"), [
    ("[curve@90, curve]", 0, 1), ("[curve@90, curve@270]", 1, 1), ("[curve@90, dark 2x2]", 0, 0),
    ("[curve@180, curve@270], [curve@90, curve]", 1, 5),
])
def test_curves_meet_at_right_angles_to_the_edge(rows: str, nested: int, total: int) -> None:
    """By hand: a curve is pressed away from its pie. Pies side by side have both allowances above the arch that they
    form, so that these do not nest; where the curve swings from one side to the other, they lie opposed and do. Four
    pies in a ring meet four times so, and in the middle their four straight seams cross and nest."""
    plan = quilt(CURVES.replace("[ROW]", f"[{rows}]"))
    pressing = plan_pressing(plan, "nest")
    assert counts(pressing) == [(nested, total)]
    assert pressing.seams_of("unit", "curve")[0].toward == ("around",)
    assert pressing.seams_of("unit", "curve")[0].reason == "fixed"
    assert_twice_the_same(plan, pressing)
    assert_twice_the_same(plan, plan_pressing(plan, "open"))


def test_a_curve_meets_a_straight_seam_that_ends_at_the_same_point() -> None:
    """The curve ends in the middle of its side, where the seam of a two-patch strip ends too."""
    plan = quilt(CURVES.replace("[ROW]", "[[curve@90, pair 2x2]]").replace(
        "blocks: {", "blocks: {pair: {strip-piece: no, rows: [[dark 2x1], [light 2x1]]}, "
    ))
    pressing = plan_pressing(plan, "nest")
    assert counts(pressing) == [(1, 1)]
    assert_twice_the_same(plan, pressing)


def test_stars_meet_their_neighbors_at_every_point() -> None:
    """By hand. In a star the seams of two pairs mirror each other across the seam of each half: two; across the last
    seam those of the pairs do so twice, and the seams of the halves cross it straight: three, so that each star has
    five. Two stars side by side touch with two points, and at each the two seams of one meet the two of the other: four
    for each of the four seams between four stars. In the middle six ends meet the last seam, which counts twice: eight.
    """
    plan = quilt(STARS)
    pressing = plan_pressing(plan, "nest")
    inside = [j for j in pressing.junctions if j.line.owner == Owner("unit", "star")]
    between = [j for j in pressing.junctions if j.line.owner.kind in ("row", "top")]
    assert sum(j.counts[0] for j in between if j.first.seam.owner.kind == "unit") == 16
    assert sum(j.counts[0] for j in inside) == 20
    assert [(point.seams, point.counts) for point in pressing.heavy if point.line.owner.kind == "unit"] == [(8, (4,))]
    assert_twice_the_same(plan, pressing)
    for rule in ("dark", "open"):
        assert_twice_the_same(plan, plan_pressing(plan, rule))
