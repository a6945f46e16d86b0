"""Which way to press, in words: a sentence where a rule can be said, else seam by seam; always what the plan says."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Any

import pytest

from patchwright.planning.plan import Plan
from patchwright.planning.pressing.bulk import followed
from patchwright.planning.pressing.press import plan_pressing, with_pressing
from patchwright.planning.pressing.results import Junction
from patchwright.planning.pressing.terms import Owner, SeamEnd
from patchwright.typesetting.booklet import Block, Paragraph, Step
from patchwright.typesetting.content.chaining import alike_pairs, chained_units
from patchwright.typesetting.content.editions import EDITIONS
from patchwright.typesetting.content.grid import read_grid
from patchwright.typesetting.content.plain import inline_text
from patchwright.typesetting.content.pressing import join_words, lines_words, needs_map, row_words, sewing_words
from patchwright.typesetting.content.pressing_borders import corners_words, sets_words
from patchwright.typesetting.content.pressing_remarks import heavy_words, nesting_words
from patchwright.typesetting.content.sashing import Way, joining_steps
from patchwright.typesetting.content.scope import Scope
from patchwright.typesetting.content.units import alike_units, group_blocks
from patchwright.wording import load_wording
from pressing.quilts import NINE_PATCH, SASHED, quilt


def scope_of(plan: Plan) -> Scope:
    pressed = with_pressing(plan)
    return Scope(pressed, {}, load_wording("en"), EDITIONS["all-sizes"], tuple(range(len(plan.sizes))))


@pytest.mark.parametrize(
    ("ways", "said"),
    [
        ([["forward", "forward"], ["forward", "forward"]], "Press all seams to the right."),
        ([["back"], ["forward"], ["back"]],
         "Press the seams of the odd rows to the left, those of the even rows to the right."),
        ([["back", "forward"], ["forward", "back"]],
         "Press the seams of the odd rows away from the middle, those of the even rows toward the middle."),
        ([["open"], ["open"]], "Press all seams open."),
        ([["back"], ["forward"], ["forward"]],
         "Press the seams of row 1 to the left; the seams of rows 2 and 3 to the right."),
        ([["back", "back", "forward"]],
         "Press in row 1, counted from the start, seams 1 and 2 to the left; seam 3 to the right."),
    ],
)
def test_a_rule_is_said_in_a_sentence_where_there_is_one(ways: list[list[str]], said: str) -> None:
    assert lines_words(scope_of(quilt(NINE_PATCH)), ways, "rows") == said  # type: ignore[arg-type]


def test_rows_of_a_sashed_top_are_pressed_toward_the_sashing() -> None:
    """Common practice, no source."""
    scope = scope_of(quilt(SASHED))
    assert row_words(scope, scope.sizes, strips=False) == "Press toward the sashing."
    assert join_words(scope, scope.sizes) == "Press toward the sashing."


def test_a_nine_patch_is_pressed_to_the_dark() -> None:
    """Common practice, no source."""
    scope = scope_of(quilt(NINE_PATCH))
    assert sewing_words(scope, scope.plan.assemblies[0]) == "Press toward the darker fabric."


def test_pairs_that_are_one_another_turned_are_chained_together() -> None:
    rows = "blocks: {one: {cell: 3 in, strip-piece: no, rows: [[dark, light], [light, dark], [dark, dark]]}}\n"
    plan = quilt(rows + "quilt: {arrange: [[one]]}\n")
    free = frozenset(piece.id for piece in plan.pieces)
    assert alike_pairs(plan.assemblies[0], free) == ((1, 2), (3,))


OPEN = "house: {pressing: open}\n"
BORDERED = SASHED.replace("frame: yes}", "frame: yes}\n  borders: [{width: 2 in, fabric: light, corners: dark}]")
MITERED = SASHED.replace(
    "frame: yes}", "frame: yes}\n  borders: [{width: 2 in, fabric: light, corners: mitered}, "
    "{width: 3 in, fabric: dark, corners: mitered}]",
)


def test_rows_of_a_sashed_top_are_pressed_open_where_the_house_says_so() -> None:
    scope = scope_of(quilt(OPEN + SASHED))
    for strips in (False, True):
        assert row_words(scope, scope.sizes, strips) == "Press all seams open."
    assert join_words(scope, scope.sizes) == "Press all seams open."


def test_corners_and_mitered_sets_are_pressed_as_the_plan_says() -> None:
    by_turns = (
        "Press the seams of the sets for the sides toward the outside and those for top and bottom toward the inside, "
        "so that they nest where the sets meet at the corners."
    )
    for fragment, corners, sets in (
        ("", "Press toward the strip.", by_turns),
        (OPEN, "Press the seams open.", "Press the seams open."),
    ):
        scope = scope_of(quilt(fragment + BORDERED))
        strip = scope.plan.sizes[0].borders[0].end_piece
        assert corners_words(scope, "border-1", strip) == corners
        assert sets_words(scope_of(quilt(fragment + MITERED)), ("border-1", "border-2")) == sets
    scope = scope_of(quilt(BORDERED))
    assert scope.plan.pressing is not None
    inward = tuple(
        replace(seam, way="open", halves=(0, 0), toward=()) if seam.seam.place == 0 else seam
        for seam in scope.plan.pressing.seams
    )
    mixed = replace(scope, plan=replace(scope.plan, pressing=replace(scope.plan.pressing, seams=inward)))
    strip = scope.plan.sizes[0].borders[0].end_piece
    assert "arrow" in corners_words(mixed, "border-1", strip)


STAR = """\
units:
  star: {kaleidoscope: [dark, light, other]}
blocks:
  one: {cell: 3 in, rows: [[star 2x2]]}
quilt: {arrange: [[one]]}
sizes: {only: {across: 2, down: 2}}
"""
QUARTERS = """\
units:
  hourglass: {quarter-square: [dark, light]}
blocks:
  one: {cell: 3 in, rows: [[hourglass, hourglass@90], [hourglass@90, hourglass]]}
quilt: {arrange: [[one]]}
sizes: {only: {across: 1, down: 1}}
"""


def test_points_with_many_seams_get_advice_with_what_follows_for_nesting() -> None:
    """Common practice, no source: where many layers meet, the seam is pressed open or spun."""
    scope = scope_of(quilt(QUARTERS))
    assert scope.plan.pressing is not None
    heavy = {point.line.owner for point in scope.plan.pressing.heavy}
    assert heavy
    for owner in heavy:
        said = heavy_words(scope, owner)
        assert "layers of seam allowance meet" in said
        assert "spun" in said or "open" in said or "Spin" in said
    assert not heavy_words(scope_of(quilt(OPEN + QUARTERS)), next(iter(heavy)))


def test_points_of_units_are_told_in_their_steps() -> None:
    scope = scope_of(quilt(STAR))
    assert scope.plan.pressing is not None
    owners = {point.line.owner for point in scope.plan.pressing.heavy}
    unit = Owner("unit", "star")
    assert unit in owners
    assert "8 layers of seam allowance meet where the map has a diamond" in heavy_words(scope, unit)
    assert needs_map(scope, scope.plan.units[0])


@pytest.mark.parametrize(
    ("loses", "gains", "said"),
    [
        (0, 0, "as many seams nest as before"), (3, 0, "nest at 3 fewer points"), (0, 2, "nest at 2 more points"),
        (3, 2, "3 fewer points of the quilt, which you pin, and at 2 others"),
    ],
)
def test_what_follows_for_nesting_is_counted(loses: int, gains: int, said: str) -> None:
    """The half of the last seam that is turned meets so many seams that nest now, and so many that do not."""
    scope = scope_of(quilt(STAR))
    assert scope.plan.pressing is not None
    point = replace(scope.plan.pressing.heavy[0], advice="spin", turned=(1,))
    other = next(seam.seam for seam in scope.plan.pressing.seams if seam.seam != point.line and 0 not in seam.halves)
    junctions = tuple(
        Junction(point.line, SeamEnd(point.line, 1, 1), SeamEnd(other, 0, 1), nests, (count,))
        for nests, count in ((True, loses), (False, gains))
    )
    pressing = replace(scope.plan.pressing, heavy=(point,), junctions=junctions)
    assert said in heavy_words(replace(scope, plan=replace(scope.plan, pressing=pressing)), point.line.owner)


def test_a_junction_of_two_seams_that_both_turn_nests_as_before() -> None:
    scope = scope_of(quilt(STAR))
    pressing = scope.plan.pressing
    assert pressing is not None
    point = replace(pressing.heavy[0], advice="spin", turned=(1,))
    line = next(seam.seam for seam in pressing.seams if seam.seam != point.line and 0 not in seam.halves)
    other = replace(point, line=line, turned=(0,))
    met = Junction(point.line, SeamEnd(point.line, 1, 1), SeamEnd(line, 0, 1), nests=True, counts=(5,))
    changed = replace(pressing, junctions=(met,))
    assert followed(changed, [point]) == followed(changed, [other]) == ((5,), (0,))
    assert followed(changed, [point, other]) == ((0,), (0,))
    assert followed(changed, [point, replace(other, advice="open", turned=())]) == ((5,), (0,))


TWICE = STAR.replace("across: 2, down: 2", "across: 4, down: 4") + "house: {pressing-variants: 2}\n"


def made_units(scope: Scope) -> str:
    """The words of all units, with no drawing."""
    groups = [group for group in alike_units(scope) if len(group) > 1]
    told = [inline_text(block.inlines) for group in groups for block in flat(group_blocks(scope, group))
            if isinstance(block, Paragraph)]
    return " ".join(told)


def flat(blocks: Sequence[Block]) -> Iterator[Block]:
    for block in blocks:
        yield from flat(block.blocks) if isinstance(block, Step) else [block]


def test_advice_that_two_ways_of_pressing_share_is_told_once() -> None:
    scope = scope_of(quilt(TWICE))
    assert [unit.second_of for unit in scope.plan.units] == ["", "star"]
    assert made_units(scope).count("layers of seam allowance meet") == 1


def test_advice_that_differs_is_told_with_each_way() -> None:
    """The second way is said to be spun, or to have no such point."""
    scope = scope_of(quilt(TWICE))
    pressing = scope.plan.pressing
    assert pressing is not None
    first, second = pressing.heavy[:2]
    assert (first.line.owner.id, second.line.owner.id) == ("star", "star-second")
    for heavy, said in (
        ((first, replace(second, advice="open")), "Press the last seam there open"),
        ((first,), "Here no more than six layers of seam allowance meet"),
    ):
        told = made_units(replace(scope, plan=replace(scope.plan, pressing=replace(pressing, heavy=heavy))))
        assert told.count("which is why the last seam is spun") == 1
        assert told.index("which is why the last seam is spun") < told.index(said)


def test_points_of_the_top_are_told_beside_its_map() -> None:
    corners = "units: {c: {half-square: [dark, light]}}\nblocks: {one: {cell: 3 in, rows: [[c@CORNER]]}}\n"
    text = corners.replace("@CORNER", "") + "quilt: {arrange: [[one@90, one@180], [one, one@270]]}\n"
    plan = quilt(text + "sizes: {only: {across: 4, down: 4}}\n")
    said = nesting_words(scope_of(plan))
    assert "Up to 8 layers of seam allowance meet at the points with a diamond, 5 in all." in said


@pytest.mark.parametrize(
    ("unit", "size"),
    [
        ("log-cabin: [dark, light, other], rounds: 3", "7x7"),
        ("courthouse-steps: [dark, light, other], rounds: 3", "7x7"),
        ("nested-square: {center: dark, inner: light, corners: other}", "4x4"),
        ("square-in-square: {center: dark, corners: light}, make: cut", "2x2"),
    ],
)
def test_what_the_steps_press_outward_is_planned_outward(unit: str, size: str) -> None:
    """Common practice, no source: every strip or triangle is pressed away from what it is sewn to."""
    text = f"units: {{one: {{{unit}}}}}\nblocks: {{b: {{cell: 1 in, rows: [[one {size}]]}}}}\n"
    plan = quilt(text + "quilt: {arrange: [[b]]}\nsizes: {only: {across: 2, down: 2}}\n")
    pressing = plan_pressing(plan, "nest")
    for seam in pressing.seams_of("unit", "one"):
        assert seam.reason == "fixed"
        for sides in seam.drawn:
            added, inside = (sides.second, sides.first) if seam.way == "forward" else (sides.first, sides.second)
            assert len(added) == 1
            assert added[0] > min(inside)


def said_of(steps: list[list[Any]]) -> list[str]:
    """The words of every step of a top."""
    told = [[inline_text(block.inlines) for block in body if isinstance(block, Paragraph)] for body in steps]
    return [" ".join(words).replace("\u00a0", " ") for words in told]


def way_of(scope: Scope) -> Way:
    built = tuple((size, read_grid(size)) for size in scope.sizes)
    return Way(built[0][1].way, built, named=False)


def test_rows_of_the_top_are_chained_and_measured() -> None:
    """Of a 3 x 2 quilt of 6 in blocks: rows of 18 1/2 x 6 1/2; sashed, of three blocks with four strips 1 in wide."""
    plain = scope_of(quilt(NINE_PATCH))
    rows = said_of(joining_steps(plain, way_of(plain)))[0]
    assert "the first two parts of every row go through the machine one after another, 2 pairs in all" in rows
    assert "Each row should measure 18½″ × 6½″ unfinished." in rows
    sashed = scope_of(quilt(SASHED))
    blocks, strips, _ = said_of(joining_steps(sashed, way_of(sashed)))
    assert "Each row should measure 16½″ × 4½″ (Small), 26½″ × 4½″ (Large) unfinished." in blocks
    assert "Each row should measure 16½″ × 1½″ (Small), 26½″ × 1½″ (Large) unfinished." in strips


def test_units_of_several_batches_are_chained_but_no_strip_sets() -> None:
    """Of eight hourglasses, two from a pair of squares, every seam is sewn four times over."""
    scope = scope_of(quilt(QUARTERS.replace("across: 1, down: 1", "across: 2, down: 1")))
    assert "Sew it for all 4" in chained_units(scope, scope.plan.units[0]).replace("sew it", "Sew it")
    strips = NINE_PATCH.replace("strip-piece: no", "strip-piece: yes")
    sets = scope_of(quilt(strips))
    assert sets.plan.units
    assert not any(chained_units(sets, unit) for unit in sets.plan.units)


def test_by_the_rule_dark_words_speak_of_ways_toward_the_dark_alone() -> None:
    text = "blocks: {c: {cell: 3 in, strip-piece: no, rows: [[dark, light], [dark, light], [light, other]]}}\n"
    said = nesting_words(scope_of(quilt("house: {pressing: dark}\n" + text + "quilt: {arrange: [[c]]}\n")))
    assert "no way of pressing toward the dark fabric nests more." in said
    assert "no other way" not in said
