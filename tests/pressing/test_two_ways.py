"""Blocks and units pressed in two ways, where the house allows it: chosen, counted apart, placed, and told."""

from __future__ import annotations

import dataclasses
from typing import Any

import pytest

from patchwright.core.length import Length
from patchwright.planning.dump import plan_json
from patchwright.planning.plan import Plan
from patchwright.planning.pressing.alike_tops import shown_tops
from patchwright.planning.pressing.chessboard import dark_places
from patchwright.planning.pressing.explained import explained_pressing
from patchwright.planning.pressing.gathering import make_model
from patchwright.planning.pressing.press import with_pressing
from patchwright.planning.pressing.problem import make_problem
from patchwright.planning.pressing.results import Choice
from patchwright.planning.pressing.solve import solve
from patchwright.planning.verify import verify
from patchwright.typesetting.content.editions import EDITIONS
from patchwright.typesetting.content.names import varied
from patchwright.typesetting.content.pressing import sewing_words
from patchwright.typesetting.content.pressing_remarks import second_way_key
from patchwright.typesetting.content.scope import Scope
from patchwright.wording import load_wording
from planning.compiling import compile_text, sample
from pressing.generated import ALLOWED, generated
from pressing.quilts import CHECKERBOARD, FOUR_PATCH, NINE_PATCH, ON_POINT, SASHED, quilt

COLORS = """\
fabrics:
  dark: {color: 22344c, value: dark}
  light: {color: ece7db, value: light}
  other: {color: 6b7a3a, value: medium}
"""


def two_ways(fragment: str) -> Plan:
    return with_pressing(quilt(ALLOWED + fragment))


def counts(plan: Plan) -> dict[str, list[int]]:
    """How many of each block are made, by size."""
    return {known.id: [size.count if size else 0 for size in known.sizes] for known in plan.assemblies}


def pressed(plan: Plan) -> Any:
    assert plan.pressing is not None
    return plan.pressing


def test_unturned_nine_patches_take_turns_like_the_squares_of_a_chessboard() -> None:
    """Common practice, no source: two stacks of one block, pressed opposite ways, nest all over the quilt."""
    sizes = "sizes: {small: {across: 3, down: 3}, large: {across: 5, down: 6}}\n"
    plan = two_ways(NINE_PATCH.replace("sizes: {only: {across: 3, down: 2}}\n", sizes))
    assert counts(plan) == {"nine": [5, 15], "nine-second": [4, 15]}
    assert all(size.nested == size.total for size in pressed(plan).sizes)
    assert [(known.id, known.second_id) for known in pressed(plan).variants] == [("nine", "nine-second")]
    for size in plan.sizes:
        grid = {(item.x, item.y): item.ref for item in size.items}
        side = size.items[0].width
        assert all(ref == ("nine-second" if (x / side + y / side).rational() % 2 else "nine")
                   for (x, y), ref in grid.items())
    assert not verify(plan)


RAILS = """\
blocks:
  rail: {cell: 2 in, strip-piece: no, rows: [[dark 3x1], [light 3x1], [dark 3x1]]}
  post: {cell: 2 in, strip-piece: no, columns: [[light, dark, light], [other 1x3], [light, dark, light]]}
quilt: {arrange: [[rail, rail, post], [post, rail, rail]]}
sizes: {small: {across: 8, down: 3}, large: {across: 9, down: 6}}
"""
"""Two rails between posts: every pair of rails asks for both ways, and no post for two, wherever the pair begins."""


def test_blocks_lie_as_their_neighbors_ask_for_where_a_chessboard_would_take_two_kinds() -> None:
    plan = two_ways(RAILS)
    assert counts(plan) == {"rail": [9, 18], "rail-second": [8, 18], "post": [7, 18]}
    assert all(size.nested == size.total for size in pressed(plan).sizes)
    assert pressed(plan).choice.chessboard == (False, False)
    for size in plan.sizes:
        places = {(item.x / 6, item.y / 6): item.ref for item in size.items}
        lying = [[places[Length(x), Length(y)] for x in range(size.across)] for y in range(size.down)]
        pairs = [("".join(ref[:1] + ref[5:6] for ref in row)).strip("p").split("p") for row in lying]
        assert {pair for row in pairs for pair in row if len(pair) > 1} == {"rrs"}
    assert not verify(plan)


def test_the_chessboard_would_take_two_kinds_there_and_nests_no_more() -> None:
    plan = quilt(RAILS)
    model = make_model(plan, tuple(dark_places(size) for size in plan.sizes))
    problem = make_problem(model, "nest")
    solution = solve(problem)
    assert problem.scale * solution.nested == pressed(two_ways(RAILS)).nested
    assert {owner.id for owner, flag in problem.flags.items() if solution.values[flag] == 1} == {"rail", "post"}


@pytest.mark.parametrize("fragment", [CHECKERBOARD, SASHED, FOUR_PATCH.replace("ARRANGE", "[[four]]")])
def test_what_nests_in_one_way_gets_no_second(fragment: str) -> None:
    assert not pressed(two_ways(fragment)).variants
    assert counts(two_ways(fragment)) == counts(quilt(fragment))


def test_a_house_that_says_nothing_allows_one_way_alone() -> None:
    assert not any(known.second_of for known in quilt(NINE_PATCH).assemblies)


def test_a_second_way_of_strip_pieced_units_takes_strip_sets_of_its_own() -> None:
    strips = NINE_PATCH.replace("strip-piece: no", "strip-piece: yes").replace("down: 2", "down: 3")
    one, two = with_pressing(quilt(strips)), two_ways(strips)
    assert pressed(two).nested > pressed(one).nested
    assert all(size.nested == size.total for size in pressed(two).sizes)
    seconds = {unit.id: unit for unit in two.units if unit.second_of}
    assert seconds
    for unit in seconds.values():
        first = next(known for known in two.units if known.id == unit.second_of)
        alone = next(known for known in one.units if known.id == unit.second_of)
        sizes = first.sizes[0], unit.sizes[0], alone.sizes[0]
        assert all(size is not None for size in sizes)
        of_first, of_second, of_one = (size for size in sizes if size is not None)
        assert of_first.need + of_second.need == of_one.need
        assert of_first.batches >= 1 <= of_second.batches
        assert first.fabrics == unit.fabrics
        assert unit.how == first.how == "strips"
    made = {piece.id: piece.sizes[0].need for piece in two.pieces if piece.sizes[0] is not None}
    asked: dict[str, int] = {}
    for unit in two.units:
        size = unit.sizes[0]
        for part in unit.pieces:
            assert size is not None
            asked[part.piece] = asked.get(part.piece, 0) + part.per_batch * size.batches
    assert {id: made[id] for id in asked} == asked
    assert not verify(two)


def test_blocks_on_point_and_between_them_are_the_two_colors_of_the_chessboard() -> None:
    same = ON_POINT.replace("alternate: four", "alternate: nine")
    plan = two_ways(same)
    assert pressed(plan).nested >= pressed(with_pressing(quilt(same))).nested
    seconds = {known.id for known in plan.assemblies if known.second_of}
    assert seconds == {"nine-second"}
    for size in plan.sizes:
        placed = [item.ref for item in size.items if item.part == "block"]
        assert placed.count("nine-second") == (size.across - 1) * (size.down - 1)
    assert not verify(plan)


def test_columns_of_blocks_take_turns_from_top_to_bottom() -> None:
    text = NINE_PATCH.replace("quilt: {arrange: [[nine]]}", """quilt:
  setting: strippy
  arrange: [[nine]]
  strips: {width: 2 in, fabric: dark}""").replace("down: 2", "down: 5")
    plan = two_ways(text)
    assert counts(plan) == {"nine": [8], "nine-second": [7]}
    assert pressed(plan).nested > pressed(with_pressing(quilt(text))).nested
    assert not verify(plan)


@pytest.mark.parametrize("seed", [201, 204, 217, 230])
def test_a_quilt_with_its_second_ways_nests_as_much_as_was_chosen(seed: int) -> None:
    two, _ = compile_text(generated(seed, two_ways=True))
    assert two is not None
    planned = with_pressing(two)
    assert pressed(planned).variants
    assert pressed(planned).nested == pressed(planned).bound
    assert not verify(planned)


def test_the_check_finds_second_ways_that_are_none() -> None:
    plan = two_ways(NINE_PATCH)
    strict = dataclasses.replace(plan, rules=dataclasses.replace(plan.rules, pressing_variants=1))
    assert any("does not allow" in fault for fault in verify(strict))
    lost = tuple(
        dataclasses.replace(known, second_of="none") if known.second_of else known for known in plan.assemblies
    )
    assert any("of nothing that is made" in fault for fault in verify(dataclasses.replace(plan, assemblies=lost)))
    halves = {seam.seam: seam for seam in pressed(plan).seams_of("assembly", "nine")}
    alike = tuple(
        dataclasses.replace(seam, halves=halves[dataclasses.replace(seam.seam, owner=own)].halves)
        if seam.seam.owner.id == "nine-second" and (own := dataclasses.replace(seam.seam.owner, id="nine"))
        else seam
        for seam in pressed(plan).seams
    )
    same = dataclasses.replace(plan, pressing=dataclasses.replace(pressed(plan), seams=alike))
    assert any("is pressed as `nine` is" in fault for fault in verify(same))
    more = tuple(dataclasses.replace(known, second=(9,)) for known in pressed(plan).variants)
    miscounted = dataclasses.replace(plan, pressing=dataclasses.replace(pressed(plan), variants=more))
    assert any("counts of what is pressed in two ways" in fault for fault in verify(miscounted))


def test_more_ways_than_two_are_out_of_range() -> None:
    plan, found = compile_text(
        "dialect: 1\npattern: Many\nrelease: 1\nlengths: inches\nhouse: {pressing-variants: 3}\n"
        "fabrics: {one: {color: 22344c}}\nblocks: {b: {cell: 2 in, rows: [[one]]}}\n"
        "quilt: {arrange: [[b]]}\nsizes: {only: {across: 2, down: 2}}\n"
    )
    assert plan is None
    assert "house-range" in str(found)


def test_the_top_tells_where_blocks_of_the_second_way_lie() -> None:
    plan = two_ways(NINE_PATCH)
    scope = Scope(plan, {}, load_wording("en"), EDITIONS["all-sizes"], (0,))
    assert second_way_key(scope, scope.sizes) == "top.second-way"
    other = dataclasses.replace(scope, plan=two_ways(RAILS))
    assert second_way_key(other, other.sizes) == "top.second-way-marked"
    assert not second_way_key(dataclasses.replace(scope, plan=with_pressing(quilt(NINE_PATCH))), scope.sizes)
    names = [varied(scope, known, known.block) for known in plan.assemblies]
    assert names == ["nine", "nine (pressed the second way)"]
    said = [sewing_words(scope, known) for known in plan.assemblies]
    assert len(set(said)) == 2
    assert all(said)


def test_explanations_and_numbers_tell_how_the_second_ones_lie() -> None:
    plan, _ = compile_text(sample(ALLOWED + COLORS + RAILS), effort="best")
    assert plan is not None
    assert plan.pressing is not None
    told = [key for key, _ in explained_pressing(plan.pressing, 0)]
    assert "pressing-lying-free" in told
    assert "pressing-choice-best" in told
    less = dataclasses.replace(plan.pressing, choice=Choice(plan.pressing.nested + 1, (True, True)))
    told = [key for key, _ in explained_pressing(less, 0)]
    assert "pressing-lying-chessboard" in told
    assert "pressing-choice-gap" in told
    numbers = plan_json(plan)
    assert numbers["pressing"]["most"] == "2"
    small, large = (size["pressing"]["second-way"] for size in numbers["sizes"])
    assert [len(small), len(large)] == [8, 18]
    assert small[0] == {"id": "rail-second", "x": "6", "y": "0"}


def test_one_map_stands_for_sizes_only_where_the_second_ones_lie_alike() -> None:
    plan = two_ways(RAILS)
    assert plan.pressing is not None
    assert [top.stands_for for top in shown_tops(plan, plan.pressing, (0, 1))] == [(0, 1)]
    other = {"rail": "rail-second", "rail-second": "rail"}
    items = tuple(dataclasses.replace(item, ref=other.get(item.ref, item.ref)) for item in plan.sizes[1].items)
    turned = dataclasses.replace(plan, sizes=(plan.sizes[0], dataclasses.replace(plan.sizes[1], items=items)))
    assert [top.stands_for for top in shown_tops(turned, plan.pressing, (0, 1))] == [(0,), (1,)]
