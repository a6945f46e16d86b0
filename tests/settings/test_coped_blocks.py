"""Coping around blocks: sizes that it reaches, cloth that it takes, sizes that differ, and what is refused.

Common practice, no source: each answer follows from arithmetic.
"""

from __future__ import annotations

import pytest

from patchwright.core.length import Finished, Length
from patchwright.planning.plan import Assembly, Plan
from planning.compiling import codes, cut_sides, drawn_areas, errors, lengths, plan_of, sample

PATTERN = """\
fabrics: {{red: {{}}, cream: {{}}, blue: {{{direction}}}}}
blocks:
  four: {{{four}rows: [[red, cream], [cream, red]]}}
  five: {{{five}rows: [[red, cream, red, cream, red], [cream 5x4]]}}
  long: {{size: 6 in x 12 in, rows: [[red], [cream]]}}
quilt: {{arrange: {arrange}, {more}coping: {{fabric: blue{least}}}}}
sizes: {sizes}
"""


def text(
    arrange: str = "[[four, five]]", four: str = "size: 12 in, ", five: str = "size: 10 in, ", more: str = "",
    least: str = "", sizes: str = "{only: {}}", direction: str = "",
) -> str:
    return sample(PATTERN.format(
        arrange=arrange, four=four, five=five, more=more, least=least, sizes=sizes, direction=direction
    ))


def made(plan: Plan, id: str, index: int = 0) -> tuple[Finished, Finished] | None:
    assembly: Assembly | None = next((one for one in plan.assemblies if one.id == id), None)
    size = assembly.sizes[index] if assembly is not None else None
    return size.finished if size is not None else None


def test_a_smaller_block_gets_two_strips_each_way() -> None:
    """10 in 12: strips of 1 finished, cut 1 1/2, two as long as the block and two over the whole width."""
    plan = plan_of(text())
    assert made(plan, "five-with-coping") == (Finished(12), Finished(12))
    assert made(plan, "five") == (Finished(10), Finished(10))
    assert made(plan, "four-with-coping") is None
    assert cut_sides(plan, "blue") == {lengths("1 1/2", "10 1/2"), lengths("1 1/2", "12 1/2")}
    assert drawn_areas(plan)["blue"] == Length(12 * 12 - 10 * 10)


def test_a_block_that_is_only_narrower_gets_strips_at_its_sides() -> None:
    plan = plan_of(text(arrange="[[four, long]]"))
    assert cut_sides(plan, "blue") == {lengths("3 1/2", "12 1/2")}
    assert made(plan, "long-with-coping") == (Finished(12), Finished(12))


def test_a_turned_block_is_coped_as_it_lies() -> None:
    plan = plan_of(text(arrange="[[four, long@90, long]]"))
    assert [str(side) for side in plan.sizes[0].finished] == ["36", "12"]
    assert sum(item.ref == "long-with-coping" for item in plan.sizes[0].items) == 2


@pytest.mark.parametrize(("side", "cell"), [("12", "2"), ("9", "3/2"), ("15", "3")])
def test_with_a_block_size_the_cell_is_one_that_can_be_cut(side: str, cell: str) -> None:
    """A fifth of 12 is 2 2/5, off the step of 1/8: 2 leaves strips of 1; a fifth of 15 needs none."""
    plan = plan_of(text(four="", five="", more=f"block-size: {side} in, "))
    assert made(plan, "five") == (Finished(Length(cell) * 5), Finished(Length(cell) * 5))
    assert [str(length) for length in plan.sizes[0].finished] == [str(int(side) * 2), side]
    assert "off-step" not in codes(text(four="", five="", more=f"block-size: {side} in, "))


def test_sizes_may_differ_in_what_they_cope() -> None:
    sizes = "{a: {block-size: 12 in}, b: {block-size: 15 in}, c: {block-size: 9 in}}"
    plan = plan_of(text(four="", five="", sizes=sizes))
    assert [made(plan, "five-with-coping", index) for index in range(3)] == [
        (Finished(12), Finished(12)), None, (Finished(9), Finished(9))
    ]


def test_blocks_on_point_are_brought_to_one_square() -> None:
    setting = "setting: on-point, setting-triangles: {fabric: cream}, alternate: five, "
    plan = plan_of(text(arrange="[[four, four], [four, four]]", more=setting, sizes="{only: {across: 2, down: 2}}"))
    assert made(plan, "five-with-coping") == (Finished(12), Finished(12))


def test_one_way_coping_stays_upright_beside_turned_blocks() -> None:
    plan = plan_of(text(arrange="[[four, five@90], [five, four]]", direction="directional: lengthwise"))
    sides = {
        (str(size.width), str(size.height)) for piece in plan.pieces if piece.fabric == "blue"
        and (size := piece.sizes[0]) is not None
    }
    assert sides == {("3/2", "21/2"), ("25/2", "3/2"), ("3/2", "25/2"), ("21/2", "3/2")}


def test_coping_too_narrow_to_sew_is_refused_with_sizes_that_work() -> None:
    found = errors(text(five="size: 11 1/2 in, "))
    assert [item.code for item in found] == ["coping-too-narrow"]
    assert found[0].hints[0].startswith("make the block 12 in or at most 11 in wide")
    plan_of(text(five="size: 11 in, "))
    plan_of(text(five="size: 11 1/2 in, ", least=", least: 1/4 in"))


def test_without_coping_the_mismatch_proposes_it() -> None:
    pattern = text(arrange="[[four], [five]]").replace("coping: {fabric: blue}", "binding: {fabric: blue}")
    found = errors(pattern)
    assert [item.code for item in found] == ["block-size-mismatch"]
    assert "strips 1 in wide" in found[0].hints[1]
