"""Sashing on point: counts by another way of counting, cloth laid on its places, and what is refused.

Common practice, no source: strips on all sides of every block, cornerstones halved at the edges.
"""

from __future__ import annotations

from collections import Counter
from itertools import product

import pytest
from shapely.geometry import Polygon, box
from shapely.ops import unary_union

from patchwright.core.length import ROOT_TWO, Length
from patchwright.planning.plan import Plan, TopItem
from patchwright.planning.pressing.press import plan_pressing
from patchwright.planning.pressing.recount import recount
from patchwright.planning.verify import verify
from planning.compiling import codes, cut_sides, errors, lengths, piece_size, plan_of, sample
from planning.mutating import changed

PATTERN = """\
fabrics: {{red: {{}}, cream: {{}}, blue: {{}}, gray: {{}}}}
blocks: {{one: {{size: 6 in, rows: [[red, cream], [cream, red]]}}}}
quilt:
  setting: on-point
  arrange: [[one]]
  alternate: {alternate}
  setting-triangles: {{fabric: cream{beyond}}}
  sashing: {{width: {width} in, fabric: blue{stone}}}
sizes: {{only: {{across: {across}, down: {down}}}}}
house: {{inches: {{usable-width: 120 in}}}}
"""
STONES = ", cornerstone: gray"
GRIDS = list(product((1, 2, 4), (1, 3)))


def text(across: int, down: int, stone: str = STONES, width: str = "1 1/2", alternate: str = "one",
         beyond: str = "") -> str:
    return sample(PATTERN.format(
        across=across, down=down, stone=stone, width=width, alternate=alternate, beyond=beyond
    ))


def shape(item: TopItem) -> Polygon:
    return Polygon([(float(corner.x), float(corner.y)) for corner in item.outline])


def counted(plan: Plan) -> Counter[tuple[str, int]]:
    """Parts with the number of their corners."""
    return Counter((item.part, len(item.outline)) for item in plan.sizes[0].items)


@pytest.mark.parametrize(("across", "down"), GRIDS)
def test_every_block_has_four_strips_and_every_crossing_a_cornerstone(across: int, down: int) -> None:
    """Blocks b with four strips each, shared by two where both sides have a block; crossings by Euler's count."""
    plan = plan_of(text(across, down))
    blocks = across * down + (across - 1) * (down - 1)
    inner = 4 * (across - 1) * (down - 1)
    found = counted(plan)
    assert found["block", 4] == blocks
    assert found["sashing", 4] == 4 * blocks - inner
    assert found["cornerstones", 3] == 2 * (across + down)
    assert found["cornerstones", 4] == (across - 1) * down + across * (down - 1)
    assert found["setting-triangles", 3] == 2 * (across + down - 2) + 4


@pytest.mark.parametrize("stone", [STONES, ""])
@pytest.mark.parametrize(("across", "down"), GRIDS)
def test_parts_cover_the_top_once(across: int, down: int, stone: str) -> None:
    plan = plan_of(text(across, down, stone, "2 1/4"))
    width, height = (float(side) for side in plan.sizes[0].finished)
    assert [side.length for side in plan.sizes[0].finished] == [
        ROOT_TWO * Length("33/4") * across, ROOT_TWO * Length("33/4") * down
    ]
    shapes = [shape(item) for item in plan.sizes[0].items]
    assert sum(one.area for one in shapes) == pytest.approx(width * height)
    assert unary_union([one.buffer(1e-7) for one in shapes]).covers(box(0, 0, width, height))
    pressing = plan_pressing(plan, "nest")
    assert recount(plan, pressing) == tuple((size.nested, size.total) for size in pressing.sizes)


def test_setting_triangles_are_as_large_as_without_sashing() -> None:
    """Six-inch blocks: sides from 9 3/4, corners from 5 1/8; half cornerstones 1 1/2 x root 2 + 1 1/4, 3 3/8."""
    plan = plan_of(text(3, 4))
    squares = {(piece.fabric, piece.then): piece_size(piece) for piece in plan.pieces if piece.then != "none"}
    assert squares["cream", "twice"].width.length == Length("39/4")
    assert squares["cream", "twice"].need == 3
    assert squares["cream", "once"].width.length == Length("41/8")
    assert squares["gray", "twice"].width.length == Length("27/8")
    assert squares["gray", "twice"].need == 4
    assert cut_sides(plan, "blue") == {lengths("2", "6 1/2")}


@pytest.mark.parametrize(("across", "down"), GRIDS)
def test_long_strips_reach_a_seam_beyond_their_tips(across: int, down: int) -> None:
    """The cut strip holds its finished shape with a seam allowance all around, and one a step shorter does not."""
    plan = plan_of(text(across, down, ""))
    for item in plan.sizes[0].items:
        if item.part != "sashing":
            continue
        flat = Polygon([
            (float((corner.x - corner.y) * ROOT_TWO / 2), float((corner.x + corner.y) * ROOT_TWO / 2))
            for corner in item.outline
        ]).buffer(0.25, join_style=2, mitre_limit=10)
        left, top, right, bottom = flat.bounds
        piece = next(one for one in plan.pieces if one.id == item.ref)
        narrow, long = sorted(float(side) for side in (piece_size(piece).width, piece_size(piece).height))
        wide, high = sorted((right - left, bottom - top))
        assert narrow == pytest.approx(wide)
        assert -1e-9 <= long - high < 0.125


def test_the_straight_grain_of_half_cornerstones_lies_along_the_edge() -> None:
    plan = plan_of(text(2, 3))
    width, height = (side.length for side in plan.sizes[0].finished)
    for item in plan.sizes[0].items:
        if item.part == "cornerstones" and len(item.outline) == 3:
            places = [corner.x for corner in item.outline], [corner.y for corner in item.outline]
            on = [places[0].count(Length()), places[0].count(width), places[1].count(Length()), places[1].count(height)]
            assert sorted(on) == [0, 0, 0, 2]


def test_wrong_sashing_is_named() -> None:
    plan = plan_of(text(2, 3))
    items = ("sizes", 0, "items")
    strip = (*items, lambda item: item.part == "sashing", "outline")
    moved = changed(plan, strip, lambda outline: tuple(corner.moved(Length(1), Length()) for corner in outline))
    assert any("a gap or an overlap" in fault for fault in verify(moved))
    blue = ("pieces", lambda piece: piece.fabric == "blue", "sizes", 0)
    for side, told in (("width", "sashing"), ("height", "sashing")):
        wrong = changed(plan, (*blue, side), lambda length: length * 2)
        assert any(told in fault for fault in verify(wrong))
    halves = ("pieces", lambda piece: piece.fabric == "gray" and piece.then == "twice")
    assert any("bias" in fault for fault in verify(changed(plan, (*halves, "then"), lambda _: "once")))
    assert any("drawn" in fault for fault in verify(changed(plan, (*halves, "sizes", 0, "need"), lambda n: n + 1)))


def test_plain_squares_between_blocks_are_sashed_too() -> None:
    plan = plan_of(text(3, 3, alternate="cream"))
    assert counted(plan)["setting", 4] == 4


@pytest.mark.parametrize(("options", "right"), [
    ({"beyond": ", float: 1 in"}, {}),
    ({"stone": ", frame: yes"}, {"stone": ""}),
])
def test_what_has_no_meaning_is_refused(options: dict[str, str], right: dict[str, str]) -> None:
    found = errors(text(2, 2, **options))
    assert [item.code for item in found] == ["sashing-on-point"]
    assert plan_of(text(2, 2, **right)).sizes[0].sash_width is not None


def test_one_way_sashing_on_the_diagonal_is_remarked() -> None:
    pattern = text(2, 2).replace("blue: {}", "blue: {directional: lengthwise}")
    assert codes(pattern) == ["one-way-on-point"]
    plan_of(pattern)
