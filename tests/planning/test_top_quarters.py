"""Tops that are sewn in quarters: when, where they are divided, that they nest, and what the booklet says of it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from patchwright.core.length import Finished, Length
from patchwright.planning.plan import Plan, PlannedSize
from patchwright.planning.pressing.press import plan_pressing, with_pressing
from patchwright.planning.pressing.recount import recount
from patchwright.planning.pressing.terms import Owner, Seam
from patchwright.planning.pressing.tops import HALF_SEAMS, MIDDLE_SEAM, quarter_rows, top_rows
from patchwright.planning.verify import verify
from patchwright.typesetting.booklet import Paragraph, Step
from patchwright.typesetting.content.editions import EDITIONS
from patchwright.typesetting.content.plain import inline_text
from patchwright.typesetting.content.scope import Scope
from patchwright.typesetting.content.top import top
from patchwright.wording import load_wording
from planning.compiling import compile_text, plan_of, sample
from pressing.generated import generated
from pressing.quilts import counts, quilt

BLOCK = "blocks:\n  four: {cell: 6 in, rows: [[dark, light], [light, dark]]}\n"
SASHED = "sashing: {width: 2 in, fabric: other, cornerstone: dark}"


def tops(layout: str, sizes: str, house: str = "") -> Plan:
    more = f", {layout}" if layout else ""
    return with_pressing(quilt(f"{BLOCK}quilt: {{arrange: [[four]]{more}}}\n{sizes}\n{house}"))


def divided(size: PlannedSize) -> tuple[str, str] | None:
    return (str(size.quarters.x), str(size.quarters.y)) if size.quarters is not None else None


@pytest.mark.parametrize(
    ("across", "down", "house", "division"),
    [
        (5, 6, "", None),  # 60 in wide: no seam is long.
        (6, 6, "", ("36", "36")),  # 72 1/2 in with its allowances: five long seams in rows, one in quarters.
        (6, 2, "", None),  # One long seam either way.
        (7, 5, "", ("48", "36")),  # Of two lines equally near to the middle, the later one.
        (6, 6, "house: {inches: {long-seam: 73 in}}", None),
        (2, 5, "house: {inches: {long-seam: 24 in}}", ("12", "36")),  # Four long seams in rows, three in quarters.
    ],
)
def test_quarters_are_sewn_where_they_have_fewer_long_seams(
    across: int, down: int, house: str, division: tuple[str, str] | None
) -> None:
    (size,) = tops("", f"sizes: {{only: {{across: {across}, down: {down}}}}}", house).sizes
    assert divided(size) == division


@pytest.mark.parametrize(
    ("layout", "division"),
    [
        (SASHED, ("42", "42")),  # Three blocks of 12 in and three sashes of 2 in: the middle one lies with the left.
        (SASHED.replace("cornerstone: dark", "cornerstone: dark, frame: yes"), ("44", "44")),
        ("sashing: {width: 2 in, fabric: other}", None),  # A long strip runs across.
        ("assemble: rows", None),
        ("borders: [{width: 3 in, fabric: dark}]", ("39", "39")),
    ],
)
def test_a_top_is_divided_where_nothing_lies_across(layout: str, division: tuple[str, str] | None) -> None:
    (size,) = tops(layout, "sizes: {only: {across: 6, down: 6}}").sizes
    assert divided(size) == division


def test_asked_for_quarters_are_sewn_however_small_the_top() -> None:
    small, large = tops("assemble: quarters", "sizes: {small: {across: 2, down: 2}, large: {across: 3, down: 4}}").sizes
    assert (divided(small), divided(large)) == (("12", "12"), ("24", "24"))
    (size,) = tops("assemble: quarters", "sizes: {small: {across: 2, down: 2, assemble: rows}}").sizes
    assert size.quarters is None


@pytest.mark.parametrize(
    ("layout", "size", "code"),
    [
        ("assemble: quarters", "{across: 1, down: 4}", "quarters-impossible"),
        ("assemble: quarters, sashing: {width: 1 in, fabric: red}", "{across: 4, down: 4}", "quarters-impossible"),
        ("setting: on-point, alternate: red, setting-triangles: {fabric: cream}, assemble: quarters",
         "{across: 3, down: 3}", "assemble-not-straight"),
        ("setting: medallion, borders: [{width: 1 in, fabric: red}], assemble: rows", "{}", "assemble-not-straight"),
    ],
)
def test_what_cannot_be_divided_is_reported_where_it_is_asked(layout: str, size: str, code: str) -> None:
    text = sample(f"quilt: {{arrange: [[one]], {layout}}}\nsizes: {{only: {size}}}\n")
    plan, found = compile_text(text)
    assert plan is None
    assert [known.code for known in found if known.severity == "error"] == [code]
    span = next(known.span for known in found if known.code == code)
    assert text.splitlines()[span.line - 1][span.column - 1 : span.end_column - 1] == "assemble"


def test_quarters_hold_every_part_once_in_the_order_of_rows() -> None:
    for size in tops(SASHED, "sizes: {odd: {across: 7, down: 8}, even: {across: 8, down: 7}}").sizes:
        halves = quarter_rows(size)
        again = [(*left.items, *right.items) for half in halves for left, right in zip(*half, strict=True)]
        assert again == [row.items for row in top_rows(size)]
        assert all(right.before == left.items for half in halves for left, right in zip(*half, strict=True))


def test_a_plain_top_of_four_patches_turned_by_turns_nests_in_quarters_as_in_rows() -> None:
    """Common practice, no source: rows by turns nest, and so do halves and quarters pressed against each other."""
    plan = with_pressing(quilt(
        f"{BLOCK}quilt: {{arrange: [[four, dark], [dark, four]]}}\nsizes: {{only: {{across: 8, down: 8}}}}\n"
    ))
    assert divided(plan.sizes[0]) == ("48", "48")
    pressing = plan_pressing(plan, "nest")
    (nested, total), = counts(pressing)
    assert nested == total > 0
    ways = [pressing.pressed(seam).way for seam in HALF_SEAMS]
    assert set(ways) == {"forward", "back"}
    joined = {side: pressing.pressed(Seam(Owner("quarter", side), "between")).way for side in ("left", "right")}
    assert set(joined.values()) == {"forward", "back"}
    assert not verify(plan)


@pytest.mark.parametrize("seed", [201, 206, 207, 208, 210, 219, 223, 232])
def test_generated_tops_in_quarters_are_counted_the_same_on_the_top(seed: int) -> None:
    plan = plan_of(generated(seed).replace("quilt:\n", "quilt:\n  assemble: quarters\n"))
    assert all(size.quarters for size in plan.sizes)
    for rule in ("nest", "dark"):
        pressing = plan_pressing(plan, rule)
        assert recount(plan, pressing) == tuple(counts(pressing))
    assert not verify(with_pressing(plan))


def test_a_wrong_division_is_found() -> None:
    plan = tops("", "sizes: {only: {across: 6, down: 6}}")
    (size,) = plan.sizes
    assert size.quarters is not None
    for x in (30, 72):
        wrong = replace(size, quarters=replace(size.quarters, x=Finished(Length(x))))
        assert verify(replace(plan, sizes=(wrong,)))
    without = replace(plan, sizes=(replace(size, quarters=None),))
    assert verify(without)  # The seams between whole rows have no direction.


def test_every_seam_between_quarters_has_a_reason() -> None:
    pressing = plan_pressing(tops(SASHED, "sizes: {only: {across: 6, down: 6}}"), "nest")
    for seam in (*HALF_SEAMS, MIDDLE_SEAM):
        found = pressing.pressed(seam)
        assert found.reason
        assert found.way in ("forward", "back")


def said(plan: Plan, edition: str, chosen: tuple[int, ...]) -> list[str]:
    figures = {f"{kind}-{size.name}": None for kind in ("layout", "top") for size in plan.sizes}
    section = top(Scope(plan, figures, load_wording("en"), EDITIONS[edition], chosen))  # type: ignore[arg-type]
    steps = [step for step in section.blocks if isinstance(step, Step)]
    told = [block for step in steps for block in step.blocks if isinstance(block, Paragraph)]
    return [inline_text(block.inlines).replace("\xa0", " ") for block in told]


def test_the_steps_say_what_stays_open_and_what_quarters_measure() -> None:
    plan = tops("", "sizes: {small: {across: 4, down: 4}, large: {across: 6, down: 7}}")
    one = said(plan, "one-size", (1,))
    assert any("after block 3 of every row open" in text for text in one)
    assert "Each half of a row should measure 36½″ × 12½″ unfinished." in one
    assert (
        "The quarters should measure 36½″ × 48½″ (upper left and upper right) and 36½″ × 36½″ "
        "(lower left and lower right) unfinished."
    ) in one
    assert any("end with row 4 of blocks" in text for text in one)
    assert not any("quarter" in text for text in said(plan, "one-size", (0,)))
    both = said(plan, "all-sizes", (0, 1))
    assert sum(text.startswith("Small only: ") for text in both) == 2
    assert sum(text.startswith("Large only: ") for text in both) == 3


@pytest.mark.parametrize(
    ("frame", "sizes", "after", "last"),
    [
        ("yes", "only: {across: 7, down: 7}", "after block 4 of every", "end with row 4 of blocks"),
        ("no", "only: {across: 6, down: 6}", "after the sashing beyond block 3 of every",
         "end with the sashing below row 3 of blocks"),
        ("no", "even: {across: 6, down: 6}, odd: {across: 7, down: 7}",
         "after the sashing beyond block 3 (Even), block 4 (Odd) of every",
         "end with the sashing below row 3 of blocks (Even), row 4 of blocks (Odd)."),
    ],
)
def test_the_open_seam_is_told_as_it_is_divided(frame: str, sizes: str, after: str, last: str) -> None:
    plan = tops(SASHED.replace("cornerstone: dark", f"cornerstone: dark, frame: {frame}"), f"sizes: {{{sizes}}}")
    for size in plan.sizes:
        (left, _), _ = quarter_rows(size)
        row = next(row for row in left if not row.is_strip)
        blocks = sum(item.part == "block" for item in row.items)
        assert f"block {blocks}" in after
        assert (row.items[-1].part == "sashing") == (size.across == 6)
    told = said(plan, "all-sizes", tuple(range(len(plan.sizes))))
    assert any(after in text for text in told)
    assert any(last in text for text in told)
