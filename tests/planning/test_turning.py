"""Which turned and mirrored things are the same thing to make, and which one-way prints keep apart."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from planning.compiling import PATTERNS, cuts, plan_of, plan_of_file, sample, unit_size

ONE_SIZE = "sizes: {only: {across: 1, down: 1}}\n"
UNITS = """\
units:
  turn: {half-square: [red, cream]}
  goose: {flying-geese: {goose: red, sky: cream}}
  lean: {flipped-corners: {base: red, ne: cream}, size: 2 x 1}
  even: {flipped-corners: {base: red, nw: cream, ne: cream}, size: 2 x 1}
"""
ONE_WAY = "fabrics: {red: {directional: lengthwise}, cream: {}}\n"


def made(rows: str, more: str = "") -> list[tuple[str, str, int, int]]:
    """Id, hand, turn and count of every unit that a block of two-inch cells needs."""
    text = sample(f"{UNITS}blocks: {{one: {{cell: 2 in, rows: {rows}}}}}\n{ONE_SIZE}{more}")
    return [(unit.id, unit.hand, unit.turn, unit_size(unit).need) for unit in plan_of(text).units]


@pytest.mark.parametrize(
    ("rows", "units"),
    [
        ("[[turn, turn@90, turn@180, turn@270]]", [("turn", "as-drawn", 0, 4)]),
        ("[[turn, turn@mirror, turn@mirror@90]]", [("turn", "as-drawn", 0, 3)]),
        ("[[goose, goose@mirror, goose@180]]", [("goose", "as-drawn", 0, 3)]),
        ("[[even, even@mirror, even@mirror@180]]", [("even", "as-drawn", 0, 3)]),
        ("[[lean, lean@180]]", [("lean", "as-drawn", 0, 2)]),
        ("[[lean, lean@mirror]]", [("lean", "as-drawn", 0, 1), ("lean-reversed", "reversed", 0, 1)]),
        ("[[lean@mirror, lean@mirror@180]]", [("lean-reversed", "reversed", 0, 2)]),
    ],
    ids=[
        "turned", "mirrored half-squares", "mirrored geese", "mirrored even corners", "turned corner", "reversed",
        "reversed alone",
    ],
)
def test_what_is_the_same_to_make(rows: str, units: list[tuple[str, str, int, int]]) -> None:
    assert made(rows) == units


def test_a_half_square_with_its_fabrics_exchanged_is_the_same_one_turned() -> None:
    assert made("[[red/cream, cream/red]]") == [("turn", "as-drawn", 0, 2)]


def test_a_mirrored_block_of_a_reversed_unit_needs_the_unit_as_drawn() -> None:
    text = sample(f"""\
{UNITS}blocks:
  inner: {{rows: [[lean@mirror]]}}
  one: {{cell: 2 in, rows: [[inner@mirror, inner@mirror@180]]}}
{ONE_SIZE}""")
    assert [(unit.hand, unit_size(unit).need) for unit in plan_of(text).units] == [("as-drawn", 2)]


def test_a_symmetric_block_mirrored_is_the_same_block() -> None:
    text = sample(f"""\
{UNITS}blocks:
  inner: {{rows: [[turn@90, turn], [turn@180, turn@270]]}}
  one: {{cell: 2 in, rows: [[inner, inner@mirror]]}}
{ONE_SIZE}""")
    counts = {assembly.id: size.count for assembly in plan_of(text).assemblies if (size := assembly.sizes[0])}
    assert counts == {"inner": 2, "one": 1}


def test_fabrics_of_a_row_mirrored_twice_stand_in_the_order_written() -> None:
    text = sample("""\
fabrics: {red: {}, cream: {}, blue: {}}
blocks:
  inner: {rows: [[red, cream, blue]], strip-piece: no}
  middle: {rows: [[inner@mirror]]}
  one: {cell: 2 in, rows: [[middle@mirror]]}
""")
    plan = plan_of(text)
    inner = next(assembly for assembly in plan.assemblies if assembly.block == "inner")
    fabrics = {piece.id: piece.fabric for piece in plan.pieces}
    assert inner.hand == "as-drawn"
    assert [fabrics[placed.ref] for placed in inner.lines[0]] == ["red", "cream", "blue"]


# -- one-way prints ---------------------------------------------------------------------------------------------------


def test_a_patch_of_a_one_way_print_in_a_turned_block_is_cut_the_other_way() -> None:
    text = sample(f"""\
{ONE_WAY}blocks:
  inner: {{rows: [[red 2x1], [cream 2x1]]}}
  one: {{cell: 2 in, rows: [[inner, inner@90]]}}
{ONE_SIZE}""")
    assert cuts(plan_of(text)) == {("red", "9/2", "5/2"): 1, ("red", "5/2", "9/2"): 1, ("cream", "9/2", "5/2"): 2}


def test_a_print_across_the_bolt_is_cut_sideways() -> None:
    text = sample(f"""\
fabrics: {{red: {{directional: crosswise}}, cream: {{}}}}
blocks: {{one: {{cell: 2 in, rows: [[red 2x1, cream]]}}}}
{ONE_SIZE}""")
    assert cuts(plan_of(text))["red", "5/2", "9/2"] == 1


def test_two_half_squares_of_a_batch_lie_half_a_turn_apart() -> None:
    assert made("[[turn, turn@180]]", ONE_WAY) == [("turn", "as-drawn", 0, 2)]


def test_half_squares_that_all_lie_alike_take_twice_the_batches() -> None:
    text = sample(f"{ONE_WAY}{UNITS}blocks: {{one: {{cell: 2 in, rows: [[turn*4]]}}}}\n{ONE_SIZE}")
    size = unit_size(plan_of(text).units[0])
    assert (size.need, size.batches, size.made) == (4, 4, 8)


def test_half_squares_a_quarter_turn_apart_are_made_apart() -> None:
    assert made("[[turn, turn@90]]", ONE_WAY) == [("turn", "as-drawn", 0, 1), ("turn-turned-90", "as-drawn", 1, 1)]


def test_a_one_way_sky_and_a_plain_goose_are_told_apart() -> None:
    sky = "fabrics: {red: {}, cream: {directional: lengthwise}}\n"
    assert [(unit[0], unit[2]) for unit in made("[[goose, goose@180]]", sky)] == [("goose", 0), ("goose-turned-180", 2)]


def test_a_border_of_a_one_way_print_is_cut_as_it_lies() -> None:
    text = sample(f"""\
{ONE_WAY}blocks: {{one: {{cell: 3 in, rows: [[cream]]}}}}
quilt: {{arrange: [[one]], borders: [{{width: 2 in, fabric: red}}]}}
""")
    assert cuts(plan_of(text), "border-1") == {("red", "5/2", "13/2"): 2, ("red", "21/2", "5/2"): 2}


# -- the same again ---------------------------------------------------------------------------------------------------


def test_the_example_of_the_dialect_compiles() -> None:
    plan = plan_of_file("rope-walk")
    assert [size.name for size in plan.sizes] == ["crib", "throw", "queen"]
    assert {"turn", "wave", "cleat"} <= {unit.name for unit in plan.units}


@pytest.mark.slow
def test_the_numbers_do_not_depend_on_the_hash_seed() -> None:
    compiler = Path(__file__).parents[2] / "compiler"
    command = [sys.executable, "-m", "patchwright.cli", "plan", str(PATTERNS / "rope-walk.yaml"), "--json"]
    outputs = {
        subprocess.run(
            command, env={"PYTHONPATH": str(compiler), "PYTHONHASHSEED": seed}, capture_output=True, check=True
        ).stdout
        for seed in ("0", "1", "4711")
    }
    assert len(outputs) == 1
