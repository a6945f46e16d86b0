"""Settings on point: counts, sizes, the grain along the edges, float, and mistakes. Common practice, no source."""

from __future__ import annotations

from itertools import product

import pytest

from patchwright.core.length import ROOT_TWO, Length
from planning.compiling import codes, errors, plan_of, sample
from settings.setting import on_point, squares, triangles


def test_five_by_seven_of_twelve_inch_blocks() -> None:
    """35 blocks, 24 between them, 20 sides from 5 squares of 18 1/4, 4 corners from 2 of 9 3/8, 84.85 x 118.79."""
    plan = on_point("12", 5, 7, alternate="cream")
    items = plan.sizes[0].items
    assert sum(item.part == "block" for item in items) == 35
    assert sum(item.part == "setting" for item in items) == 24
    assert len(triangles(plan, corners=False)) == 20
    assert len(triangles(plan, corners=True)) == 4
    assert squares(plan, "twice") == (Length("73/4"), 5)
    assert squares(plan, "once") == (Length("75/8"), 2)
    assert [side.length for side in plan.sizes[0].finished] == [ROOT_TWO * 60, ROOT_TWO * 84]
    assert [round(float(side), 2) for side in plan.sizes[0].finished] == [84.85, 118.79]


SIZES = {
    "5": ("8 3/8", "4 1/2"), "6": ("9 3/4", "5 1/8"), "8": ("12 5/8", "6 5/8"), "9": ("14", "7 1/4"),
    "10": ("15 1/2", "8"), "14": ("21 1/8", "10 7/8"), "16": ("24", "12 1/4"),
}


@pytest.mark.parametrize("side", SIZES)
def test_squares_by_block(side: str) -> None:
    plan = on_point(side)
    found = [squares(plan, then)[0] for then in ("twice", "once")]
    assert found == [sum((Length(part) for part in text.split()), Length()) for text in SIZES[side]]


@pytest.mark.parametrize(("across", "down"), list(product((1, 2, 3, 5), (1, 2, 4))))
def test_the_straight_grain_lies_along_every_edge(across: int, down: int) -> None:
    """The long edge of a side, cut from a square twice, and both short edges of a corner, cut once, are outside."""
    plan = on_point(across=across, down=down, beyond="1/2")
    width, height = (side.length for side in plan.sizes[0].finished)
    for corners in (False, True):
        for item in triangles(plan, corners):
            edges = [
                {corner.x for corner in item.outline if corner.x in (Length(), width)},
                {corner.y for corner in item.outline if corner.y in (Length(), height)},
            ]
            assert sum(map(len, edges)) == (2 if corners else 1)
    assert len(triangles(plan, corners=True)) == 4
    assert len(triangles(plan, corners=False)) == 2 * (across + down - 2)


def test_a_floating_setting_is_larger_by_the_float() -> None:
    plain, floating = on_point(), on_point(beyond="1")
    for then in ("twice", "once"):
        assert squares(floating, then)[0] == squares(plain, then)[0] + Length(2)
    for before, after in zip(plain.sizes[0].finished, floating.sizes[0].finished, strict=True):
        assert after.length == before.length + Length(2)
    blocks = [item for item in floating.sizes[0].items if item.on_point]
    assert min(item.x for item in blocks) == Length(1)


def test_rows_run_from_the_upper_left_each_from_its_lower_left_end() -> None:
    items = on_point(across=3, down=4).sizes[0].items
    rows = [[item for item in items if item.row == row] for row in range(8)]
    assert [len(row) for row in rows] == [1, 3, 5, 7, 7, 5, 3, 1]
    for row in rows[1:-1]:
        assert [item.x for item in row] == sorted(item.x for item in row)
        assert {row[0].part, row[-1].part} == {"setting-triangles"}


def test_an_arrangement_fills_the_places_between_by_its_rows() -> None:
    """Without `alternate`, rows of the arrangement are in turn those of the blocks and those between them."""
    plan = plan_of(sample("""\
blocks:
  one: {size: 4 in, rows: [[red]]}
  two: {size: 4 in, rows: [[cream]]}
quilt: {setting: on-point, arrange: [[one], [two]], setting-triangles: {fabric: red}}
sizes: {only: {across: 3, down: 3}}
"""))
    assert {one.id: one.sizes[0].count for one in plan.assemblies if one.sizes[0]} == {"one": 9, "two": 4}


def test_one_way_setting_triangles_stand_upright() -> None:
    """A square cut twice gives one triangle for each edge, so that the longest edge decides."""
    plan = on_point(across=2, down=5, direction="directional: lengthwise")
    assert squares(plan, "twice")[1] == 4
    assert squares(plan, "once")[1] == 2


def test_binding_and_backing_of_a_top_with_a_root_are_measurable() -> None:
    text = sample("""\
blocks: {one: {size: 6 in, rows: [[red]]}}
quilt:
  setting: on-point
  arrange: [[one]]
  setting-triangles: {fabric: cream}
  borders: [{width: 2 in, fabric: red}]
  binding: {}
  backing: {}
sizes: {only: {across: 2, down: 3}}
""")
    size = plan_of(text).sizes[0]
    assert not size.finished[0].length.is_rational
    assert size.binding is not None
    assert size.backing is not None
    assert size.binding.length.is_rational
    assert all(side.is_rational for side in (*size.backing.size, *size.batting))
    assert all(side >= own.length for side, own in zip(size.batting, size.unfinished, strict=True))


WRONG = {
    "sashing-on-point": "sashing: {width: 1 in, fabric: red}, setting-triangles: {fabric: red, float: 1 in}",
    "setting-triangles-missing": "alternate: cream",
    "unknown-name": "alternate: crema, setting-triangles: {fabric: red}",
    "unknown-fabric": "setting-triangles: {fabric: read}",
}


@pytest.mark.parametrize("code", WRONG)
def test_mistakes_are_located(code: str) -> None:
    found = errors(sample(f"quilt: {{setting: on-point, arrange: [[one]], {WRONG[code]}}}\n"))
    assert [item.code for item in found] == [code]
    assert found[0].span.line > 1
    assert found[0].hints


def test_a_size_may_be_straight_while_the_quilt_is_on_point() -> None:
    text = sample("""\
quilt: {setting: on-point, arrange: [[one]], alternate: cream, setting-triangles: {fabric: red}}
sizes:
  pointed: {across: 2, down: 2}
  plain: {across: 2, down: 2, setting: straight}
""")
    assert not errors(text)
    assert [size.setting for size in plan_of(text).sizes] == ["on-point", "straight"]


def test_blocks_of_two_sizes_do_not_fit() -> None:
    text = sample("""\
blocks:
  one: {size: 4 in, rows: [[red]]}
  two: {size: 5 in, rows: [[cream]]}
quilt: {setting: on-point, arrange: [[one], [two]], setting-triangles: {fabric: red}}
""")
    assert codes(text) == ["block-size-mismatch"]
