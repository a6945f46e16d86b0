"""Blocks sewn in quarters where that takes fewer long seams, and those that stay in rows."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from patchwright.planning.plan import Assembly, Plan
from patchwright.planning.pressing.press import with_pressing
from patchwright.planning.verify import verify
from planning.compiling import compile_text
from pressing.quilts import quilt

UNITS = "units:\n  vane: {half-square: [dark, light]}\n"
ROWS = (
    ("dark", "vane", "light", "dark"), ("light", "vane@90", "vane@180", "vane@90"),
    ("vane@270", "vane", "vane@270", "light"), ("dark", "light", "vane@180", "dark"),
)


def written(lines: Sequence[Sequence[str]]) -> str:
    return "[" + ", ".join(f"[{', '.join(line)}]" for line in lines) + "]"


TURNED = written(ROWS)
SIZES = "quilt: {arrange: [[mill]]}\nsizes: {small: {across: 2, down: 3}, large: {across: 4, down: 5}}\n"


def mill(lines: str, axis: str = "rows") -> Plan:
    return with_pressing(quilt(f"{UNITS}blocks:\n  mill: {{cell: 2 in, {axis}: {lines}}}\n{SIZES}"))


def by_id(plan: Plan) -> dict[str, Assembly]:
    return {assembly.id: assembly for assembly in plan.assemblies}


@pytest.mark.parametrize("axis", ["rows", "columns"])
def test_four_quarters_that_are_one_turned_are_made_once(axis: str) -> None:
    plan = mill(written(ROWS if axis == "rows" else list(zip(*ROWS, strict=True))), axis)
    made = by_id(plan)
    assert list(made) == ["mill-quarter", "mill"]
    counts = {id: [size.count if size else 0 for size in known.sizes] for id, known in made.items()}
    assert counts == {"mill-quarter": [24, 80], "mill": [6, 20]}
    turns = [[placed.orientation.turns for placed in line] for line in made["mill"].lines]
    assert turns == ([[0, 1], [3, 2]] if axis == "rows" else [[0, 3], [1, 2]])
    assert made["mill-quarter"].nested
    assert not verify(plan)


def long_seams(plan: Plan, block: str) -> int:
    """Seams that run over the whole of a block."""
    return len(by_id(plan)[block].lines) - 1


def test_a_block_in_quarters_has_one_long_seam_where_its_rows_would_have_three() -> None:
    assert long_seams(mill(TURNED), "mill") == 1
    assert TURNED.count("],") == 3


@pytest.mark.parametrize(
    "lines",
    [
        "[[vane, vane@90], [vane@270, vane@180]]",  # two rows have one long seam already
        "[[vane, dark, vane@90], [dark, light, dark], [vane@270, dark, vane@180]]",  # a part lies across the middle
        "[[dark 2x2, light 2x2], [vane, vane, vane, vane], [vane, vane, vane, dark]]",  # its quarters differ
        TURNED.replace("[[dark, vane,", "[[light, vane,"),  # one quarter differs
    ],
)
def test_other_blocks_stay_in_rows(lines: str) -> None:
    assert list(by_id(mill(lines))) == ["mill"]


def test_an_author_who_nests_says_the_order_of_sewing() -> None:
    inner = "  strip: {rows: [[dark, vane, light, dark]]}\n"
    text = TURNED.replace("[dark, vane, light, dark]", "[strip]", 1)
    plan = quilt(f"{UNITS}blocks:\n{inner}  mill: {{cell: 2 in, rows: {text}}}\n{SIZES}")
    assert set(by_id(plan)) == {"strip", "mill"}
    assert long_seams(plan, "mill") == 3


def test_a_one_way_print_keeps_rows_since_its_quarters_cannot_turn() -> None:
    fabrics = "fabrics: {dark: {color: 22344c}, light: {color: ece7db, directional: lengthwise}}\n"
    blocks = f"{UNITS}blocks:\n  mill: {{cell: 2 in, rows: {TURNED}}}\n{SIZES}"
    head = "dialect: 1\npattern: One way\nrelease: 1\nlengths: inches\n"
    turning, _ = compile_text(head + fabrics.replace(", directional: lengthwise", "") + blocks)
    upright, _ = compile_text(head + fabrics + blocks)
    assert turning is not None
    assert upright is not None
    assert "mill-quarter" in by_id(turning)
    assert "mill-quarter" not in by_id(upright)


UNLIKE = (
    ("dark", "vane", "light", "dark"), ("light", "vane@90", "vane@180", "vane@90"),
    ("vane@270", "vane", "vane@270", "light"), ("dark", "light", "light", "dark"),
)


@pytest.mark.parametrize(
    ("cell", "made"), [("2 in", ["mill"]), ("18 in", ["mill-quarter-1", "mill-quarter-2", "mill"])]
)
def test_unlike_quarters_are_sewn_where_the_seams_of_rows_are_long(cell: str, made: list[str]) -> None:
    """72 in of finished block are a long seam by the default of the house; three quarters of this one are alike."""
    sizes = "quilt: {arrange: [[mill]]}\nsizes: {only: {across: 1, down: 1}}\n"
    plan = with_pressing(quilt(f"{UNITS}blocks:\n  mill: {{cell: {cell}, rows: {written(UNLIKE)}}}\n{sizes}"))
    assert list(by_id(plan)) == made
    counts = [size.count for known in plan.assemblies if (size := known.sizes[0]) is not None]
    assert counts == ([1] if len(made) == 1 else [3, 1, 1])
    assert not verify(plan)
