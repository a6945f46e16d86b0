"""Sizes: what they override, key by key; lists replace; cells, grids and arrangements."""

from __future__ import annotations

import pytest

from design.looking import only, shown
from patchwright.core.length import Length
from patchwright.design.design import Design, Size
from planning.compiling import design_of, plan_of, sample

QUILT = """\
quilt:
  arrange: [[one]]
  sashing: {width: 1 in, fabric: cream, cornerstone: red, frame: yes}
  borders: [{width: 2 in, fabric: red}, {width: 3 in, fabric: cream}]
  binding: {fabric: cream}
  backing: {usable-width: 108 in}
"""


def sized(override: str) -> Size:
    """A size with an override, of a quilt with everything."""
    design = design_of(sample(f"{QUILT}sizes:\n  plain: {{across: 2, down: 3}}\n  other: {override}\n"))
    return design.sizes[1]


def design(text: str) -> Design:
    return design_of(sample(text))


def test_a_size_keeps_everything_that_it_does_not_say() -> None:
    size = sized("{across: 4, down: 5}")
    assert size.sashing is not None
    assert (size.sashing.width, size.sashing.cornerstone, size.sashing.frame) == (Length(1), "red", True)
    assert (len(size.borders), size.across, size.down) == (2, 4, 5)


def test_mappings_merge_key_by_key() -> None:
    size = sized("{sashing: {width: 2 in}, binding: {strip: 2 1/4 in}}")
    assert size.sashing is not None
    assert (size.sashing.width, size.sashing.fabric, size.sashing.frame) == (Length(2), "cream", True)
    assert size.binding is not None
    assert (size.binding.fabric, size.binding.strip) == ("cream", Length("9/4"))


def test_a_switch_may_be_turned_off_again() -> None:
    size = sized("{sashing: {frame: no}}")
    assert size.sashing is not None
    assert not size.sashing.frame


def test_lists_replace() -> None:
    size = sized("{borders: [{width: 5 in, fabric: red}]}")
    assert [(border.width, border.fabric) for border in size.borders] == [(Length(5), "red")]


def test_an_empty_list_of_borders_takes_them_away() -> None:
    assert sized("{borders: []}").borders == ()


def test_an_arrangement_replaces_and_gives_the_count() -> None:
    size = sized("{arrange: [[one, one], [one, one], [one, one]]}")
    assert (size.across, size.down) == (2, 3)


def test_an_arrangement_is_repeated_and_cut_off() -> None:
    text = "blocks: {one: {cell: 3 in, rows: [[red]]}, two: {cell: 3 in, rows: [[cream]]}}\n"
    made = design(text + "quilt: {arrange: [[one, two], [two, one]]}\nsizes: {only: {across: 3, down: 3}}\n")
    assert [[placement.ref for placement in row] for row in made.sizes[0].grid] == [
        ["one", "two", "one"], ["two", "one", "two"], ["one", "two", "one"],
    ]


def test_rows_of_an_arrangement_count_repeats() -> None:
    found = only(sample("quilt: {arrange: [[one*3], [one, one]]}\nsizes: {only: {}}\n"))
    assert (found.code, found.at, found.notes) == ("arrange-ragged", "one", ("one*3",))
    assert "has 2 blocks, row 1 has 3" in found.message


def test_a_block_in_the_quilt_keeps_its_size() -> None:
    found = only(sample("quilt: {arrange: [[one 2x2]]}\n"))
    assert (found.code, found.at) == ("sized-placement", "one 2x2")


def test_a_half_square_in_the_quilt_needs_a_block() -> None:
    found = only(sample("quilt: {arrange: [[red/cream]]}\n"))
    assert (found.code, found.at) == ("wrong-kind", "red/cream")
    assert "rows: [[red/cream]]" in found.hints


def test_a_cell_follows_from_a_size() -> None:
    made = design("blocks: {one: {size: 9 in, rows: [[red, cream, red], [red 3x1], [red 3x1]]}}\n")
    assert dict(made.sizes[0].cells) == {"one": Length(3)}


def test_a_size_that_does_not_fit_the_grid() -> None:
    found = only(sample("blocks: {one: {size: 9 in x 4 in, rows: [[red, cream]]}}\n"))
    assert (found.code, found.at) == ("size-not-square-grid", "9 in x 4 in")
    assert "2 by 1 cells" in found.message


def test_a_size_with_parts_of_fixed_length() -> None:
    units = "units: {side: {half-square: [red, cream], size: 2 in x 2 in}}\n"
    text = units + "blocks: {one: {size: 5 in x 2 in, rows: [[side, red 3x2]]}}\n"
    assert [str(side) for side in plan_of(sample(text)).sizes[0].columns] == ["5", "5"]
    assert only(sample(text.replace("5 in x 2 in", "5 in x 3 in"))).code == "size-not-square-grid"


def test_blocks_of_one_row_that_differ_in_height() -> None:
    text = """\
blocks: {one: {cell: 3 in, rows: [[red]]}, two: {cell: 4 in, rows: [[cream]]}}
quilt: {arrange: [[one, two]]}
"""
    found = shown(sample(text))
    assert [one.code for one in found] == ["block-size-mismatch"]
    assert (found[0].at, found[0].notes) == ("two", ("one",))
    assert "4 in high" in found[0].message
    assert "3 in high" in found[0].message


def test_a_size_that_forgets_one_block() -> None:
    text = """\
blocks: {one: {cell: 3 in, rows: [[red]]}, two: {cell: 3 in, rows: [[cream]]}}
quilt: {arrange: [[one, two]]}
sizes: {small: {}, large: {blocks: {one: {cell: 4 in}}}}
"""
    found = shown(sample(text))
    assert {one.code for one in found} == {"block-size-mismatch"}
    assert "in one row of `large`" in found[0].message


@pytest.mark.parametrize("name", ["crib", "baby", "cot", "small-crib", "nursery"])
def test_sizes_for_infants(name: str) -> None:
    assert design(f"sizes: {{{name}: {{across: 2, down: 2}}}}\n").sizes[0].infant


@pytest.mark.parametrize("name", ["throw", "scribble", "cottage", "twin"])
def test_sizes_for_others(name: str) -> None:
    assert not design(f"sizes: {{{name}: {{across: 2, down: 2}}}}\n").sizes[0].infant


def test_a_size_named_for_infants() -> None:
    assert design("sizes: {small: {name: Cot quilt, across: 2, down: 2}}\n").sizes[0].infant


# -- nested blocks ----------------------------------------------------------------------------------------------------

NESTED = """\
blocks:
  inner: {{rows: [[red, cream], [cream, red]]}}
  one: {{cell: 4 in, rows: [[{item}, red {rest}]]}}
"""


def test_a_nested_block_has_the_cell_of_the_outer_one() -> None:
    plan = plan_of(sample(NESTED.format(item="inner", rest="1x2")))
    assert [str(side) for side in plan.sizes[0].columns] == ["12", "12"]


def test_a_nested_block_is_scaled_to_the_size_written() -> None:
    plan = plan_of(sample(NESTED.format(item="inner 1x1", rest="1x1")))
    inner = next(assembly for assembly in plan.assemblies if assembly.id == "inner")
    assert inner.sizes[0] is not None
    assert [str(side) for side in inner.sizes[0].finished] == ["4", "4"]


def test_one_block_nested_at_two_scales_is_two_assemblies() -> None:
    text = sample("""\
blocks:
  inner: {rows: [[red, cream], [cream, red]]}
  pair: {rows: [[inner 1x1], [inner 1x1]]}
  one: {cell: 4 in, rows: [[inner, pair]]}
""")
    inner = [assembly for assembly in plan_of(text).assemblies if assembly.block == "inner"]
    assert sorted(str(size.finished[0]) for one in inner if (size := one.sizes[0])) == ["4", "8"]


def test_a_nested_block_out_of_proportion() -> None:
    found = only(sample(NESTED.format(item="inner 2x1", rest="1x1")))
    assert (found.code, found.at) == ("nested-size-mismatch", "inner 2x1")
    assert "2 by 2 cells and cannot be 2 by 1" in found.message
