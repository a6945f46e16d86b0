"""Sizes that are made for a bed: the table of mattresses, what is chosen, and brute force over all that may be.

The brute force lays out the pattern anew for every number of blocks, with the widths written in, and reads its size.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import product

import pytest

from patchwright.core.diagnostics import Diagnostic, Findings
from patchwright.core.length import Length
from patchwright.planning.instances import Instances, cells_of_blocks
from patchwright.planning.plan import Plan, PlannedSize
from patchwright.planning.top import TopBuilder
from patchwright.planning.verify import verify
from planning.compiling import compile_text, design_of, errors, plan_of, sample

TWIN = (Length(63), Length(87))
"""A twin mattress of 39 x 75 with a drop of 12."""


def fitting(quilt: str, size: str = "{}", blocks: str = "one: {cell: 9 in, rows: [[red]]}") -> str:
    return sample(f"blocks: {{{blocks}}}\nquilt: {{{quilt}}}\nsizes: {{only: {size}}}\n")


def only(plan: Plan) -> PlannedSize:
    return plan.sizes[0]


def finished(plan: Plan) -> tuple[Length, Length]:
    return only(plan).finished[0].length, only(plan).finished[1].length


def laid_out(text: str) -> tuple[Length, Length]:
    """The finished size of a top whose numbers are all written."""
    design = design_of(text)
    assert design.sizes[0].fit is None
    instances = Instances(design, Findings())
    top = TopBuilder(instances, Findings(), design.sizes[0], 0, cells_of_blocks(design)).build()
    assert top is not None
    return top.size


def off(size: tuple[Length, Length], target: tuple[Length, Length]) -> Length:
    return max(abs(own - wanted) for own, wanted in zip(size, target, strict=True))


SETTINGS = {
    "plain": "arrange: [[one]]",
    "sashed": "arrange: [[one]], sashing: {width: 3/2, fabric: cream, frame: yes}",
    "pieced-sashes": "arrange: [[one]], sashing: {block: rail, cornerstone: cream, frame: yes}",
    "sashed-rows": "arrange: [[one]], sashing: {width: 2, fabric: cream, between: rows}",
    "sashed-columns": "arrange: [[one]], sashing: {width: 2, fabric: cream, between: columns}",
    "unequal": "arrange: [[one, two], [three, four]]",
    "on-point": "setting: on-point, arrange: [[one]], alternate: red, setting-triangles: {fabric: cream, float: 1 in}",
    "on-point-sashed": "setting: on-point, arrange: [[one]], alternate: red, setting-triangles: {fabric: cream}, "
    "sashing: {width: 2 in, fabric: cream}",
    "strippy": "setting: strippy, arrange: [[one, two]], strips: {width: 3 in, fabric: cream, edges: {width: 2 in}}",
    "strippy-on-point": "setting: strippy, arrange: [[one]], setting-triangles: {fabric: cream, float: 1/2 in}, "
    "strips: {width: 4 in, fabric: cream}",
}
BLOCKS = (
    "one: {cell: 9 in, rows: [[red]]}, two: {cell: 1 in, rows: [[red 5x9]]}, "
    "three: {cell: 1 in, rows: [[cream 9x6]]}, four: {cell: 1 in, rows: [[cream 5x6]]}"
)


def blocks_for(quilt: str) -> str:
    if "rail" in quilt:
        return "one: {cell: 9 in, rows: [[red]]}, rail: {cell: 1 in, rows: [[red 2x9, cream 1x9]]}"
    return BLOCKS if "two" in quilt else "one: {cell: 9 in, rows: [[red]]}"


@pytest.mark.parametrize("quilt", SETTINGS.values(), ids=SETTINGS)
@pytest.mark.parametrize("border", ["", ", borders: [{width: 2 in, fabric: cream}]"], ids=["bare", "bordered"])
def test_numbers_of_blocks_are_the_closest_of_all(quilt: str, border: str) -> None:
    whole = quilt + border
    fit = ", fit: {bed: twin, drop: 12 in, within: 20 in}"
    chosen = plan_of(fitting(whole + fit, blocks=blocks_for(quilt)))
    sizes = {}
    for across, down in near(chosen):
        text = fitting(whole, f"{{across: {across}, down: {down}}}", blocks_for(quilt))
        sizes[across, down] = laid_out(text)
    best = min(off(size, TWIN) for size in sizes.values())
    assert off(finished(chosen), TWIN) == best
    assert sizes[only(chosen).across, only(chosen).down] == finished(chosen)


def near(plan: Plan) -> set[tuple[int, int]]:
    """Numbers of blocks up to one away from what was chosen; sides grow with every block, so that others are worse."""
    size = only(plan)
    return set(product(range(size.across - 1, size.across + 2), range(size.down - 1, size.down + 2)))


def test_borders_left_open_are_the_best_of_all() -> None:
    """One open border between 2 and 5: every quarter of an inch and every number of blocks, by the sums of a quilt."""
    quilt = "arrange: [[one]], borders: [{width: fit, least: 2 in, most: 5 in, fabric: cream}], "
    chosen = plan_of(fitting(quilt + "fit: {bed: twin, drop: 12 in, within: 9 in}"))
    widths = [Length(2) + Length(Fraction(step, 4)) for step in range(13)]
    sizes = {
        (across, down, width): (Length(9) * across + width * 2, Length(9) * down + width * 2)
        for across, down, width in product(range(1, 15), range(1, 15), widths)
    }
    best = min(off(size, TWIN) for size in sizes.values())
    border = only(chosen).borders[0].width.length
    assert off(finished(chosen), TWIN) == best
    assert sizes[only(chosen).across, only(chosen).down, border] == finished(chosen)


@pytest.mark.parametrize("most", ["4 in", "7 in", "11 in"])
def test_open_borders_keep_their_order_and_proportions(most: str) -> None:
    """Limits of one to two: the outer border is twice the inner one, within half a step of each."""
    outer = Length(Fraction(most.removesuffix(" in")))
    quilt = (
        f"arrange: [[one]], borders: [{{least: 1 in, most: {outer / 2} in, fabric: cream}}, "
        f"{{least: 2 in, most: {most}, fabric: red}}], fit: {{bed: twin, drop: 12 in, within: 9 in}}"
    )
    inner, around = (border.width.length for border in only(plan_of(fitting(quilt))).borders)
    assert Length(1) <= inner <= outer / 2
    assert Length(2) <= around <= outer
    assert abs(around - inner * 2) <= Length("3/8")
    assert [str(border.fabric) for border in only(plan_of(fitting(quilt))).borders] == ["cream", "red"]


@pytest.mark.parametrize("more", [
    "pieced: {repeat: [tooth], corner: red}", "along: ends, pieced: {repeat: [tooth]}",
    "along: sides, pieced: {repeat: [tooth]}",
])
def test_coping_and_pieced_borders_are_counted(more: str) -> None:
    quilt = (
        f"arrange: [[one]], borders: [{{{more}, coping: {{fabric: cream}}}}, "
        "{width: 1 in, fabric: red, along: ends}], fit: {bed: twin, drop: 12 in, within: 12 in}"
    )
    blocks = "one: {cell: 9 in, rows: [[red]]}, tooth: {cell: 2 in, rows: [[red, cream], [cream, red]]}"
    chosen = plan_of(fitting(quilt, blocks=blocks))
    sizes = [
        laid_out(fitting(quilt.partition(", fit")[0], f"{{across: {across}, down: {down}}}", blocks))
        for across, down in product(range(4, 8), range(7, 11))
    ]
    assert off(finished(chosen), TWIN) == min(off(size, TWIN) for size in sizes)
    assert verify(chosen) == ()


def test_a_medallion_grows_by_its_rounds() -> None:
    quilt = (
        "setting: medallion, arrange: [[one]], borders: [{width: 3 in, fabric: cream}, {least: 3 in, most: 30 in, "
        "fabric: red}, {width: 4 in, fabric: cream}], fit: {bed: bunk, drop: 12 in}"
    )
    size = only(plan_of(fitting(quilt), "inches: {beds: {bunk: 36 in x 47 in}}\n"))
    assert (size.across, size.down) == (1, 1)
    assert off((size.finished[0].length, size.finished[1].length), (Length(60), Length(59))) == Length("1/2")


def test_a_trimmed_medallion_is_brought_to_a_bed_by_rounds_on_two_sides() -> None:
    """The center is 18 in with any bed: 36 by 47 and 12 at three sides are 60 by 59, 21 more at both sides."""
    quilt = (
        "setting: medallion, arrange: [[one]], setting-triangles: {fabric: red, trim-to: 18 in}, "
        "borders: [{width: 20 in, fabric: cream}, {least: 1 in, most: 9 in, fabric: red, along: sides}], "
        "fit: {bed: bunk, drop: 12 in}"
    )
    size = only(plan_of(fitting(quilt), "inches: {beds: {bunk: 36 in x 47 in}}\n"))
    assert (size.finished[0].length, size.finished[1].length) == (Length(60), Length(58))
    assert not size.borders[1].ends


def test_what_is_written_stays() -> None:
    quilt = "arrange: [[one]], borders: [{width: 4 in, fabric: cream}], fit: {bed: twin, drop: 12 in, within: 9 in}"
    size = only(plan_of(fitting(quilt, "{across: 7}")))
    assert (size.across, size.borders[0].width.length) == (7, Length(4))
    assert size.fit is not None
    assert size.fit.chosen == ("down",)
    assert {proposal.across for proposal in size.fit.proposals} == {7}


def test_a_size_may_leave_open_what_the_quilt_writes() -> None:
    size = only(plan_of(fitting(
        "arrange: [[one]], across: 3, down: 10, fit: {drop: 12 in, within: 3 in}", "{across: fit, fit: {bed: twin}}"
    )))
    assert (size.across, size.down) == (7, 10)


def warnings(text: str) -> list[Diagnostic]:
    return [item for item in compile_text(text)[1] if item.code == "bed-missed"]


def test_a_written_size_is_compared_with_its_bed() -> None:
    """6 by 9 blocks of 9 in borders of 2 1/2 and 5 are 69 by 96: 6 wider and 9 longer than 63 by 87."""
    quilt = (
        "arrange: [[one]], borders: [{width: 5/2 in, fabric: cream}, {width: 5 in, fabric: red}], "
        "fit: {bed: twin, drop: 12 in}"
    )
    found = warnings(fitting(quilt, "{across: 6, down: 9}"))
    assert len(found) == 1
    assert "6 in wider and 9 in longer" in found[0].message
    assert found[0].hints
    plan = plan_of(fitting(quilt, "{across: 6, down: 9}"))
    fit = only(plan).fit
    assert fit is not None
    for proposal in fit.proposals:
        inner, outer = (width.length for width in proposal.borders)
        assert Length("5/4") <= inner <= Length("15/4")
        assert Length("5/2") <= outer <= Length("15/2")
        around = (inner + outer) * 2
        assert proposal.finished[0].length == Length(9) * proposal.across + around
        assert proposal.finished[1].length == Length(9) * proposal.down + around


def test_a_written_size_that_reaches_is_silent() -> None:
    quilt = "arrange: [[one]], fit: {bed: twin, drop: 12 in, within: 3 in}"
    assert not warnings(fitting(quilt, "{across: 7, down: 10}"))


def test_proposals_follow_the_share_of_borders() -> None:
    quilt = "arrange: [[one]], borders: [{width: 4 in, fabric: cream}], fit: {bed: twin, drop: 12 in, borders: 0 %}"
    fit = only(plan_of(fitting(quilt, "{across: 3, down: 3}"))).fit
    assert fit is not None
    assert {proposal.borders[0].length for proposal in fit.proposals} == {Length(4)}


def test_symmetric_layouts_only() -> None:
    """Two blocks by turns mirror themselves only in odd numbers."""
    quilt = "arrange: [[one, two], [two, one]], symmetric: yes, fit: {bed: twin, drop: 12 in, within: 9 in}"
    blocks = "one: {cell: 9 in, rows: [[red]]}, two: {cell: 9 in, rows: [[cream]]}"
    plan, found = compile_text(fitting(quilt, blocks=blocks))
    assert plan is not None
    assert not [item for item in found if item.code == "not-symmetric"]
    assert (only(plan).across % 2, only(plan).down % 2) == (1, 1)


def test_the_whole_arrangement_is_always_there() -> None:
    """Twelve blocks of 30 in, four rows of three, cannot reach a twin without losing some: it is refused."""
    names = ", ".join("one" for _ in range(3))
    rows = ", ".join(f"[{names}]" for _ in range(4))
    found = errors(fitting(
        f"arrange: [{rows}], fit: {{bed: twin, drop: 12 in}}", blocks="one: {cell: 30 in, rows: [[red]]}"
    ))
    assert [item.code for item in found] == ["bed-not-reached"]
    assert "3 by 4 blocks" in found[0].hints[0]


def test_the_nearest_is_named_where_nothing_reaches() -> None:
    found = errors(fitting("arrange: [[one]], fit: {bed: queen, drop: 12 in, within: 1 in}"))
    assert [item.code for item in found] == ["bed-not-reached"]
    assert "9 by 10 blocks finish 81 in by 90 in, 3 in narrower and 2 in shorter" in found[0].hints[0]
    assert any("`within: 3 in`" in hint for hint in found[0].hints)


@pytest.mark.parametrize(("written", "code"), [
    ("fit: {bed: qeen, drop: 12 in}", "unknown-bed"),
    ("fit: {bed: queen}", "missing-key"),
    ("across: fit", "fit-without-bed"),
    ("borders: [{width: fit, fabric: cream}]", "fit-without-bed"),
    ("borders: [{fabric: cream}]", "missing-key"),
    ("borders: [{fabric: cream, least: 5 in, most: 4 in}], fit: {bed: queen, drop: 12 in}", "border-limits"),
    ("borders: [{fabric: cream, corners: one}], fit: {bed: queen, drop: 12 in}", "border-limits"),
    ("borders: [{width: fit, pieced: {repeat: [red]}}], fit: {bed: queen, drop: 12 in}", "border-limits"),
    ("fit: {bed: queen, drop: 12 in, borders: 100 %}", "border-limits"),
    ("fit: {bed: queen, drop: 30 cm}", "wrong-unit"),
    ('fit: "queen, drip 12 in"', "not-a-fit"),
    ('fit: "queen, drop"', "not-a-fit"),
    ('fit: "queen, drop 12 in, drop 10 in"', "not-a-fit"),
    ('fit: "queen, drop twelve"', "not-a-length"),
    ("fit: [queen]", "wrong-shape"),
])
def test_mistakes_are_located(written: str, code: str) -> None:
    found = errors(fitting(f"arrange: [[one]], {written}"))
    assert [item.code for item in found] == [code]
    assert found[0].span.line == 9
    assert found[0].hints


def test_a_line_says_the_same_as_keys() -> None:
    line = fitting('arrange: [[one]], fit: "twin, drop 11 in, foot 9 in, tuck 10 in, within 9 in, borders 10 %"')
    keys = fitting(
        "arrange: [[one]], fit: {bed: twin, drop: 11 in, foot: 9 in, tuck: 10 in, within: 9 in, borders: 10 %}"
    )
    assert only(plan_of(line)).fit == only(plan_of(keys)).fit


def test_a_house_adds_and_changes_beds() -> None:
    text = fitting("arrange: [[one]], fit: {bed: bunk, drop: 0 in, within: 9 in}")
    house = "inches: {beds: {bunk: 27 in x 72 in, twin: 38 in x 74 in}}\n"
    fit = only(plan_of(text, house)).fit
    assert fit is not None
    assert fit.target == (Length(27), Length(72))
    fit = only(plan_of(text.replace("bunk", "twin"), house)).fit
    assert fit is not None
    assert fit.mattress == (Length(38), Length(74))
    assert "bunk" in " ".join(errors(text.replace("bunk", "bonk"), house)[0].hints)


def test_metric_patterns_have_metric_beds() -> None:
    text = fitting("arrange: [[one]], fit: {bed: single, drop: 30 cm}", blocks="one: {cell: 10 cm, rows: [[red]]}")
    size = only(plan_of(text.replace("lengths: inches", "lengths: centimeters")))
    assert (size.finished[0].length, size.finished[1].length) == (Length(150), Length(230))


def test_a_bed_for_infants_gets_the_caution() -> None:
    text = fitting("arrange: [[one]], fit: {bed: crib, drop: 0 in, within: 9 in}")
    assert only(plan_of(text)).infant


def test_the_check_finds_a_quilt_that_misses_its_bed() -> None:
    plan = plan_of(fitting("arrange: [[one]], fit: {bed: twin, drop: 12 in, within: 3 in}"))
    fit = only(plan).fit
    assert fit is not None
    for wrong in (
        replace(fit, within=Length(1)), replace(fit, mattress=(Length(38), Length(75))),
        replace(fit, proposals=fit.proposals[1:]), replace(fit, proposals=fit.proposals[::-1]),
    ):
        assert verify(replace(plan, sizes=(replace(only(plan), fit=wrong),)))
