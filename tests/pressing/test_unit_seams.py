"""Seams that no straight line tells: curves and set-in seams; and whether a missing seam of a unit is found."""

from __future__ import annotations

from dataclasses import replace

import pytest

from patchwright.core.length import Length
from patchwright.methods.registry import BY_NAME
from patchwright.planning.plan import Plan
from patchwright.planning.pressing.press import plan_pressing, with_pressing
from patchwright.planning.pressing.recount import recount, recount_points
from patchwright.planning.pressing.results import PressingPlan
from patchwright.planning.verify import verify
from patchwright.planning.verifying.unit_seams import touching_patches
from pressing.quilts import quilt

CIRCLES = """\
units: {pie: {quarter-circle: [dark, light]}}
blocks:
  moon: {cell: 2 in, rows: [[pie@180, pie@270], [pie@90, pie]]}
  snake: {cell: 2 in, rows: [[pie, pie@90], [pie@180, pie@mirror@90]]}
quilt: {LAYOUT}
sizes: {only: {across: 2, down: 3}}
"""
STRAIGHT = "arrange: [[moon, snake], [snake@90, moon]]"
ON_POINT = "setting: on-point, arrange: [[moon]], alternate: snake, setting-triangles: {fabric: light}"
STARS = """\
units: {star: {eight-point-star: [dark, other, light]}}
blocks: {one: {size: 12 in, rows: [[star]]}}
quilt: {arrange: [[one]]}
sizes: {only: {across: 2, down: 2}}
"""
HALVES = """\
units: {half: {half-square: [dark, light]}}
blocks: {wheel: {cell: 3 in, rows: [[half, half@90], [half@270, half@180]]}}
quilt: {arrange: [[wheel]]}
sizes: {only: {across: 2, down: 2}}
"""


def pressing_of(plan: Plan) -> PressingPlan:
    pressed = with_pressing(plan).pressing
    assert pressed is not None
    return pressed


@pytest.mark.parametrize("layout", [STRAIGHT, ON_POINT])
def test_curves_that_meet_are_junctions_and_counted_again(layout: str) -> None:
    plan = quilt(CIRCLES.replace("LAYOUT", layout))
    pressing = plan_pressing(plan, "nest")
    met = [j for j in pressing.junctions if j.first.seam.owner.id.startswith("pie") and any(j.counts)]
    assert met
    assert recount(plan, pressing) == tuple((size.nested, size.total) for size in pressing.sizes)
    assert not verify(replace(plan, pressing=pressing))


def test_a_circle_of_four_pies_meets_itself_at_every_seam_and_does_not_nest() -> None:
    """Common practice, no source: curves are pressed toward the outer piece, and so on one side where they meet."""
    pressing = pressing_of(quilt(CIRCLES.replace("LAYOUT", "arrange: [[moon]]")))
    inside = [j for j in pressing.junctions if j.line.owner.id == "moon" and j.first.seam.owner.id == "pie"]
    assert sum(at for junction in inside for at in junction.counts) == 4 * 6
    assert not any(junction.nests for junction in inside)


def test_a_star_has_all_its_seams_and_its_middle_is_heavy() -> None:
    """Seven seams join eight diamonds, and each of four triangles and four squares is set in with two (geometry)."""
    plan = quilt(STARS)
    pressing = pressing_of(plan)
    own = pressing.seams_of("unit", "star")
    assert sum(len(seam.drawn) for seam in own) == 7 + 4 * 2 + 4 * 2
    assert [seam.reason == "fixed" for seam in own].count(False) == 1
    heavy = [point for point in pressing.heavy if point.line.owner.id == "star"]
    assert [(point.seams, point.counts, point.advice) for point in heavy] == [(8, (4,), "spin")]
    assert recount_points(plan, pressing, 0) == (pressing.sizes[0].nested, pressing.sizes[0].total, 4)


def test_the_seams_of_a_stars_middle_lie_the_same_way_around() -> None:
    """Common practice, no source: so that the middle opens into a small star."""
    for seam in pressing_of(quilt(STARS)).seams_of("unit", "star"):
        for sides in seam.drawn:
            if max(*sides.first, *sides.second) < 8 and seam.reason == "fixed":
                assert seam.way == "forward"
                assert max(sides.first) + 1 == min(sides.second)


@pytest.mark.parametrize("text", [HALVES, STARS, CIRCLES.replace("LAYOUT", STRAIGHT)])
def test_a_unit_whose_seams_are_missing_is_found(text: str) -> None:
    """Even where nothing else of the plan speaks of them."""
    plan = with_pressing(quilt(text))
    pressing = pressing_of(plan)
    assert not verify(plan)
    seams = tuple(pressed for pressed in pressing.seams if pressed.seam.owner.kind != "unit")
    junctions = tuple(
        j for j in pressing.junctions if "unit" not in (j.first.seam.owner.kind, j.second.seam.owner.kind)
    )
    sizes = tuple(
        replace(
            size, nested=sum(j.counts[at] for j in junctions if j.nests), total=sum(j.counts[at] for j in junctions)
        )
        for at, size in enumerate(pressing.sizes)
    )
    bare = replace(pressing, seams=seams, junctions=junctions, sizes=sizes, heavy=())
    found = verify(replace(plan, pressing=bare))
    assert any("share an edge" in fault for fault in found)


def test_one_missing_set_in_seam_is_found_and_one_too_many() -> None:
    plan = with_pressing(quilt(STARS))
    pressing = pressing_of(plan)
    inner = next(own for own in pressing.seams if len(own.drawn) == 4 and own.seam.owner.kind == "unit")
    less = replace(inner, drawn=inner.drawn[1:])
    more = replace(inner, drawn=(*inner.drawn, replace(inner.drawn[0], first=(0,), second=(4,))))
    for changed, said in ((less, "0 seams join patches"), (more, "share no edge")):
        seams = tuple(changed if own == inner else own for own in pressing.seams)
        found = verify(replace(plan, pressing=replace(pressing, seams=seams)))
        assert any(said in fault for fault in found), found


def test_patches_that_touch_in_a_point_share_no_edge() -> None:
    plan = quilt(HALVES.replace("half-square: [dark, light]", "quarter-square: [dark, light]"))
    size = plan.units[0].sizes[0]
    assert size is not None
    outlines = [patch.outline for patch in BY_NAME["quarter-square"].patches(size.request)]
    assert set(touching_patches(outlines)) == {(0, 1), (1, 2), (2, 3), (0, 3)}
    assert size.request.width == Length(3)
