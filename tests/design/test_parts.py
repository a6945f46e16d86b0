"""Fabrics, units and blocks: letters, sums of rows, needless seams, and several mistakes at once."""

from __future__ import annotations

import pytest

from design.looking import only, shown
from patchwright.design.cloth import letter, value_of
from planning.compiling import codes, design_of, sample


@pytest.mark.parametrize(("index", "text"), [(0, "A"), (25, "Z"), (26, "AA"), (51, "AZ"), (52, "BA"), (701, "ZZ")])
def test_letters(index: int, text: str) -> None:
    assert letter(index) == text


@pytest.mark.parametrize(
    ("colors", "value"),
    [(("#ffffff",), "light"), (("#000000",), "dark"), (("#808080",), "medium"), (("#ffffff", "#000000"), "medium")],
)
def test_values_from_colors(colors: tuple[str, ...], value: str) -> None:
    assert value_of(colors) == value


def test_rows_that_differ_show_both_sums() -> None:
    found = only(sample("blocks: {one: {cell: 3 in, rows: [[red, cream 2x1], [cream, red]]}}\n"))
    assert found.code == "row-width-mismatch"
    assert "1 + 1 against 1 + 2" in found.message
    assert (found.at, found.notes) == ("cream", ("red",))


def test_columns_are_spoken_of_as_columns() -> None:
    found = only(sample("blocks: {one: {cell: 3 in, columns: [[red, cream], [cream]]}}\n"))
    assert "column 2 of `one` is 1 cell high, column 1 is 2 cells" in found.message


def test_an_item_of_another_height_names_its_neighbor() -> None:
    found = only(sample("blocks: {one: {cell: 3 in, rows: [[red, cream 1x2]]}}\n"))
    assert (found.code, found.at, found.notes) == ("row-height-mismatch", "cream 1x2", ("red",))


def test_lengths_and_cells_are_added_once_the_cell_is_known() -> None:
    units = "units: {side: {half-square: [red, cream], size: 2 in x 2 in}}\n"
    rows = "blocks: {one: {cell: 3 in, rows: [[side, red]]}}\n"
    found = only(sample(units + rows))
    assert found.code == "row-height-mismatch"
    assert "3 in and `side` beside it is 2 in in the size `only`" in found.message
    assert codes(sample(units + rows.replace("3 in", "2 in"))) == []


def test_a_repeated_patch_is_asked_for() -> None:
    assert "needless-seam" not in codes(sample("blocks: {one: {cell: 3 in, rows: [[red*2, cream]]}}\n"))


def test_patches_of_one_cloth_side_by_side() -> None:
    text = sample("blocks: {one: {cell: 3 in, rows: [[cream, red, red]]}}\n")
    (found,) = (one for one in shown(text, severity="warning") if one.code != "whole-length-used")
    assert (found.code, found.at) == ("needless-seam", "red")
    assert "`red 2x1`" in found.hints


def test_everything_wrong_with_a_design_is_said_at_once() -> None:
    text = """\
units: {turn: {half-square: [red, creme]}}
blocks: {one: {cell: 3 in, rows: [[red, turm], [cream]]}}
quilt: {arrange: [[one]], binding: {fabric: blau}}
text: {steps: {tern: A note.}}
"""
    found = shown(sample(text))
    assert {(one.code, one.at) for one in found} == {
        ("unknown-fabric", "creme"), ("unknown-name", "turm"), ("unknown-fabric", "blau"),
        ("unknown-step-note", "tern"),
    }
    assert all("did you mean" in one.hints for one in found if one.at != "blau")


def test_one_mistake_is_said_once() -> None:
    text = "blocks: {one: {cell: 3 in, rows: [[read, red]]}, two: {like: one}}\nquilt: {arrange: [[one, two]]}\n"
    assert [one.at for one in shown(sample(text))] == ["read"]


def test_names_of_parts_of_the_quilt_are_taken() -> None:
    text = "blocks: {sashing: {cell: 3 in, rows: [[red]]}, border-1: {cell: 3 in, rows: [[cream]]}}\n"
    assert codes(sample(text)).count("name-taken") == 2


def test_unused_things_are_warned_of() -> None:
    found = shown(sample("units: {turn: {half-square: [red, cream]}}\n"), severity="warning")
    assert [(one.code, one.at) for one in found if one.code != "whole-length-used"] == [("unused-unit", "turn")]


def test_a_block_that_only_nests_needs_no_cell() -> None:
    text = "blocks: {hub: {rows: [[red, cream]]}, one: {cell: 3 in, rows: [[hub]]}}\n"
    assert dict(design_of(sample(text)).sizes[0].cells).keys() == {"one"}
