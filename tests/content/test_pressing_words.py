"""Which way to press, in words: a sentence where a rule can be said, else seam by seam; always what the plan says."""

from __future__ import annotations

import pytest

from patchwright.planning.plan import Plan
from patchwright.planning.pressing.press import with_pressing
from patchwright.typesetting.content.chaining import alike_pairs
from patchwright.typesetting.content.editions import EDITIONS
from patchwright.typesetting.content.pressing import join_words, lines_words, row_words, sewing_words
from patchwright.typesetting.content.scope import Scope
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
