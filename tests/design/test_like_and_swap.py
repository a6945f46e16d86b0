"""Blocks that repeat another with other fabrics: inside its units, inside its nested blocks, and nowhere else."""

from __future__ import annotations

from design.looking import only, shown
from patchwright.core.length import Length
from planning.compiling import cuts, design_of, drawn_areas, plan_of, sample

FABRICS = "fabrics: {red: {}, cream: {}, blue: {}}\n"
SIZES = "sizes: {only: {}}\n"
DARK = "  dark: {like: one, swap: {red: blue}}\n"


def pattern(blocks: str, arrange: str, units: str = "", fabrics: str = FABRICS) -> str:
    return sample(
        f"{fabrics}units: {{turn: {{half-square: [red, cream]}}{units}}}\nblocks:\n{blocks}"
        f"quilt: {{arrange: [[{arrange}]]}}\n{SIZES}"
    )


def area(text: str, fabric: str) -> Length:
    return drawn_areas(plan_of(text)).get(fabric, Length())


def test_a_swap_reaches_into_units() -> None:
    text = pattern("  one: {cell: 2 in, rows: [[turn]]}\n  dark: {like: one, swap: {red: blue}}\n", "one, dark")
    assert [area(text, fabric) for fabric in ("red", "blue", "cream")] == [Length(2), Length(2), Length(4)]


def test_a_swap_reaches_into_nested_blocks_and_their_units() -> None:
    blocks = f"  hub: {{rows: [[turn, red]]}}\n  one: {{cell: 2 in, rows: [[hub]]}}\n{DARK}"
    text = pattern(blocks, "one, dark")
    assert area(text, "red") == area(text, "blue") == Length(6)


def test_a_swap_leaves_what_it_does_not_touch_as_it_is() -> None:
    blocks = (
        "  hub: {rows: [[cream, turn]]}\n  one: {cell: 2 in, rows: [[hub, blue]]}\n"
        "  dark: {like: one, swap: {blue: red}}\n"
    )
    plan = plan_of(pattern(blocks, "one, dark"))
    counts = {item.id: size.count for item in plan.assemblies if (size := item.sizes[0])}
    assert counts == {"hub": 2, "one": 1, "dark": 1}


def test_two_fabrics_change_places() -> None:
    blocks = "  one: {cell: 2 in, rows: [[red 3x1, cream]]}\n  dark: {like: one, swap: {red: cream, cream: red}}\n"
    assert cuts(plan_of(pattern(blocks, "dark"))) == {("cream", "13/2", "5/2"): 1, ("red", "5/2", "5/2"): 1}


def test_a_swapped_unit_that_is_declared_already_is_that_unit() -> None:
    blocks = f"  one: {{cell: 2 in, rows: [[turn]]}}\n{DARK}  two: {{cell: 2 in, rows: [[deep]]}}\n"
    plan = plan_of(pattern(blocks, "one, dark, two", ", deep: {half-square: [blue, cream]}"))
    assert [unit.id for unit in plan.units] == ["turn", "deep"]


def test_a_copy_never_takes_the_name_of_a_declared_unit() -> None:
    blocks = "  one: {cell: 2 in, rows: [[turn, turn-dark]]}\n  dark: {like: one, swap: {red: blue}}\n"
    text = pattern(blocks, "one, dark", ", turn-dark: {half-square: [cream, red]}")
    assert [area(text, fabric) for fabric in ("red", "blue", "cream")] == [Length(4), Length(4), Length(8)]


def test_a_copy_never_takes_the_name_of_a_declared_block() -> None:
    blocks = (
        "  hub: {rows: [[red]]}\n  hub-dark: {rows: [[cream]]}\n  one: {cell: 2 in, rows: [[hub, hub-dark]]}\n"
        "  dark: {like: one, swap: {red: blue}}\n"
    )
    text = pattern(blocks, "one, dark", fabrics=FABRICS).replace("units: {turn: {half-square: [red, cream]}}\n", "")
    assert [area(text, fabric) for fabric in ("red", "blue", "cream")] == [Length(4), Length(4), Length(8)]


def test_half_squares_in_rows_are_told_apart_whatever_their_fabrics_are_called() -> None:
    fabrics = "fabrics: {a: {}, a-b: {}, b-c: {}, c: {}}\n"
    text = sample(f"{fabrics}blocks: {{one: {{cell: 2 in, rows: [[a-b/c, a/b-c]]}}}}\n{SIZES}")
    assert {fabric.id: str(area(text, fabric.id)) for fabric in plan_of(text).fabrics} == {
        "a": "2", "a-b": "2", "b-c": "2", "c": "2",
    }


def test_a_half_square_in_a_row_may_be_called_like_a_fabric() -> None:
    fabrics = "fabrics: {a: {}, b: {}, a-b: {}}\n"
    text = sample(f"{fabrics}blocks: {{one: {{cell: 2 in, rows: [[a/b, a-b]]}}}}\n{SIZES}")
    assert [str(area(text, name)) for name in ("a", "b", "a-b")] == ["2", "2", "4"]


def test_swapping_blocks_of_the_same_size() -> None:
    blocks = (
        "  hub: {rows: [[red]]}\n  core: {rows: [[blue]]}\n  one: {cell: 2 in, rows: [[hub, cream]]}\n"
        "  dark: {like: one, swap: {hub: core}}\n"
    )
    assert area(pattern(blocks, "one, dark"), "blue") == Length(4)


def test_swapping_blocks_of_different_sizes_is_refused() -> None:
    blocks = (
        "  hub: {rows: [[red]]}\n  core: {rows: [[blue, cream]]}\n  one: {cell: 2 in, rows: [[hub, hub]]}\n"
        "  dark: {like: one, swap: {hub: core}}\n"
    )
    found = only(pattern(blocks, "dark"))
    assert (found.code, found.at) == ("nested-size-mismatch", "dark")
    assert "1 cell by 1 cell" in found.message
    assert "2 cells by 1 cell" in found.message


def test_swapping_units_of_different_sizes_is_refused() -> None:
    blocks = "  one: {cell: 2 in, rows: [[turn]]}\n  dark: {like: one, swap: {turn: goose}}\n"
    text = pattern(blocks, "one, dark", ", goose: {flying-geese: {goose: red, sky: cream}}")
    assert only(text).code == "nested-size-mismatch"


def test_a_swap_of_something_that_is_not_there() -> None:
    found = only(pattern("  one: {cell: 2 in, rows: [[turn]]}\n  dark: {like: one, swap: {blue: red}}\n", "one, dark"))
    assert (found.code, found.at) == ("swap-unknown", "blue")


def test_a_swap_of_another_kind() -> None:
    found = only(pattern("  one: {cell: 2 in, rows: [[turn]]}\n  dark: {like: one, swap: {turn: red}}\n", "one, dark"))
    assert (found.code, found.at) == ("wrong-kind", "red")


def test_blocks_like_each_other() -> None:
    found = shown(pattern("  one: {like: two, cell: 2 in}\n  two: {like: one}\n", "one"))
    assert [one.code for one in found] == ["circular-block"]
    assert "one → two → one" in found[0].message


def test_a_block_like_another_takes_its_cell_in_every_size() -> None:
    text = pattern("  one: {cell: 2 in, rows: [[turn]]}\n  dark: {like: one, swap: {red: blue}}\n", "one, dark")
    design = design_of(text.replace(SIZES, "sizes: {s: {}, l: {blocks: {one: {cell: 3 in}}}}\n"))
    assert [dict(size.cells) for size in design.sizes] == [
        {"one": Length(2), "dark": Length(2)}, {"one": Length(3), "dark": Length(3)},
    ]
