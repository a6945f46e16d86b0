"""What quilters know of pressing, as facts that any plan must agree with: common practice, without a source."""

from __future__ import annotations

import pytest

from patchwright.planning.pressing.press import plan_pressing
from patchwright.planning.pressing.recount import recount
from patchwright.planning.pressing.terms import Owner, Rule
from pressing.generated import ALLOWED
from pressing.quilts import (
    CHECKERBOARD,
    NINE_PATCH,
    ON_POINT,
    PINWHEEL,
    SASHED,
    counts,
    quilt,
    seam_of,
    turned_four_patches,
)

BOARD, NINE = Owner("assembly", "board"), Owner("assembly", "nine")
WHEEL, FOUR, VANE = Owner("assembly", "wheel"), Owner("assembly", "four"), Owner("unit", "vane")
RULES: tuple[Rule, Rule] = ("nest", "dark")


@pytest.mark.parametrize("rule", RULES)
def test_rows_of_a_checkerboard_pressed_alternately_nest_everywhere(rule: Rule) -> None:
    pressing = plan_pressing(quilt(CHECKERBOARD), rule)
    assert counts(pressing) == [(16, 16)]
    for place in range(4):
        ways = [seam_of(pressing, BOARD, "within", line, place).way for line in range(5)]
        assert ways[0] == ways[2] == ways[4] != ways[1] == ways[3]


@pytest.mark.parametrize("rule", RULES)
def test_a_checkerboard_is_pressed_to_the_dark(rule: Rule) -> None:
    pressing = plan_pressing(quilt(CHECKERBOARD), rule)
    assert [seam_of(pressing, BOARD, "within", 0, place).way for place in range(4)] == [
        "back", "forward", "back", "forward"
    ]


@pytest.mark.parametrize("rule", RULES)
def test_a_nine_patch_pressed_to_the_dark_nests_inside_but_not_with_its_twin(rule: Rule) -> None:
    pressing = plan_pressing(quilt(NINE_PATCH), rule)
    inside = [junction for junction in pressing.junctions if junction.line.owner == NINE]
    assert sum(junction.counts[0] for junction in inside) == 6 * 4
    assert all(junction.nests for junction in inside)
    seams = [seam_of(pressing, NINE, "within", line, place) for line in range(3) for place in range(2)]
    assert all("darker" in (seam.reason, *seam.also) for seam in seams)
    beside = [junction for junction in pressing.junctions if junction.line.owner.kind == "row"]
    row_seams = [junction for junction in beside if junction.first.seam.part == "between"]
    assert sum(junction.counts[0] for junction in row_seams) == 2 * 4
    assert not any(junction.nests for junction in row_seams)


def test_nine_patches_pressed_in_two_ways_nest_everywhere() -> None:
    plan = quilt(ALLOWED + NINE_PATCH)
    pressing = plan_pressing(plan, "nest")
    (size,) = pressing.sizes
    assert size.nested == size.total
    assert [(known.id, known.first, known.second) for known in pressing.variants] == [("nine", (3,), (3,))]
    assert recount(plan, pressing) == ((size.nested, size.total),)


@pytest.mark.parametrize("rule", RULES)
def test_a_pinwheel_pressed_to_the_dark_nests_at_every_pair_and_is_thick_in_the_middle(rule: Rule) -> None:
    pressing = plan_pressing(quilt(PINWHEEL), rule)
    pairs = [junction for junction in pressing.junctions if junction.line.part == "within"]
    assert len(pairs) == 2
    assert all(junction.nests for junction in pairs)
    assert seam_of(pressing, VANE, "join").toward == ("first",)
    middle = [point for point in pressing.heavy if point.line.owner == WHEEL]
    assert [(point.seams, point.counts) for point in middle] == [(8, (1,))]
    assert middle[0].advice in ("spin", "spun")


def test_pressing_toward_the_sashing_nests_at_every_cornerstone() -> None:
    pressing = plan_pressing(quilt(SASHED), "nest")
    assert all(size.nested == size.total for size in pressing.sizes)
    for kind in ("block", "strip"):
        for seam in pressing.seams_of("row", kind):
            assert seam.toward == ("sashing",)
    at_cornerstones = [junction for junction in pressing.junctions if junction.first.seam.owner.kind == "row"]
    assert [sum(junction.counts[size] for junction in at_cornerstones) for size in (0, 1)] == [8 * 6, 12 * 10]


@pytest.mark.parametrize(
    "arrange", ["[[four, four@90], [four@270, four@180]]", "[[four, four@180, four@90, four]]", "[[four]]"]
)
def test_four_patches_spun_in_one_sense_nest_in_every_turn(arrange: str) -> None:
    pressing = plan_pressing(turned_four_patches(arrange), "nest")
    (size,) = pressing.sizes
    assert size.nested == size.total
    assert seam_of(pressing, FOUR, "between").way == "spun"


def test_geese_are_pressed_toward_the_sky_whether_their_making_asks_for_it_or_not() -> None:
    text = """\
units:
  goose: {flying-geese: {goose: dark, sky: light}, make: WAY}
blocks:
  flock: {cell: 2 in, rows: [[goose], [goose]]}
quilt: {arrange: [[flock]]}
sizes: {only: {across: 1, down: 3}}
"""
    for way, reason in (("flipped", "fixed"), ("four-at-a-time", "fixed"), ("cut", "points")):
        pressing = plan_pressing(quilt(text.replace("WAY", way)), "nest")
        seams = pressing.seams_of("unit", "goose")
        assert [(seam.toward, seam.reason) for seam in seams] == [(("sky",), reason)] * 2


def test_flipped_corners_lie_under_the_corner_even_where_that_does_not_nest() -> None:
    text = """\
units:
  left: {flipped-corners: {base: dark, ne: light}, size: 1 x 1, corner: 1/2}
  right: {flipped-corners: {base: dark, nw: light}, size: 1 x 1, corner: 1/2}
blocks:
  pair: {cell: 4 in, rows: [[left, right]]}
quilt: {arrange: [[pair]]}
"""
    pressing = plan_pressing(quilt(text), "nest")
    assert pressing.seams_of("unit", "left")[0].toward == ("ne",)
    assert not pressing.seams_of("unit", "right")  # The same unit, turned.
    inside = [junction for junction in pressing.junctions if junction.line.owner.id == "pair"]
    assert [junction.nests for junction in inside] == [False]


def test_borders_are_pressed_outward_and_meet_their_corner_squares() -> None:
    text = """\
quilt:
  arrange: [[one]]
  borders: [{width: 2 in, fabric: light, corners: dark}, {width: 3 in, fabric: other}]
blocks:
  one: {cell: 3 in, rows: [[dark]]}
"""
    pressing = plan_pressing(quilt(text), "nest")
    (size,) = pressing.sizes
    assert size.nested == size.total == 1 + 4
    for border in ("border-1", "border-2"):
        for part in ("side", "end"):
            seams = [seam for seam in pressing.seams_of("border", border) if seam.seam.part == part]
            assert {seam.toward for seam in seams} == {(border,)}


def test_diagonal_rows_on_point_nest_and_their_triangles_take_the_seams() -> None:
    plan = quilt(ON_POINT)
    pressing = plan_pressing(plan, "nest")
    assert all(size.nested == size.total for size in pressing.sizes)
    assert recount(plan, pressing) == tuple((size.nested, size.total) for size in pressing.sizes)
    corners = [seam for seam in pressing.seams_of("top", "top") if seam.seam.line in (3, 4)]
    assert len(corners) == 3  # The first corner of both sizes, and the last one of each.
    assert {corner.toward for corner in corners} == {("setting-triangles",)}


def test_plain_rows_take_turns() -> None:
    """Odd rows to the right, even rows to the left: the rule that can be said in a sentence."""
    text = "blocks: {one: {cell: 3 in, rows: [[dark]]}}\nquilt: {arrange: [[one]]}\n"
    text += "sizes: {only: {across: 4, down: 3}}\n"
    pressing = plan_pressing(quilt(text), "nest")
    assert counts(pressing) == [(6, 6)]
    ways = [[seam_of(pressing, Owner("row", "block"), "within", line, place).way for place in range(3)]
            for line in (0, 1)]
    assert ways == [["forward"] * 3, ["back"] * 3]


def test_a_house_that_presses_open_nests_nothing_but_keeps_what_the_method_fixes() -> None:
    pressing = plan_pressing(quilt(NINE_PATCH), "open")
    assert counts(pressing)[0][0] == 0
    assert {seam.way for seam in pressing.seams} == {"open"}
    text = "units: {c: {flipped-corners: {base: dark, ne: light}}}\nblocks: {one: {cell: 3 in, rows: [[c]]}}\n"
    fixed = plan_pressing(quilt(text + "quilt: {arrange: [[one]]}\n"), "open").seams_of("unit", "c")
    assert [(seam.way, seam.reason) for seam in fixed] == [("forward", "fixed")]
