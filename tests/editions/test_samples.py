"""Samples for a class, counted by hand."""

from __future__ import annotations

import pytest

from patchwright.planning.plan import Plan
from patchwright.planning.sample_units import count_batches
from patchwright.planning.samples import plan_class
from planning.compiling import plan_of, sample
from pressing.quilts import NINE_PATCH, quilt

STAR = """\
units: {star: {kaleidoscope: [dark, light, other]}}
blocks: {one: {cell: 3 in, rows: [[star 2x2]]}}
quilt: {arrange: [[one]]}
sizes: {only: {across: 4, down: 4}}
"""
TURNS = """\
units: {{turn: {{half-square: [red, cream], make: {make}}}}}
blocks: {{one: {{cell: 3 in, rows: [[turn, red], [cream, turn]]}}}}
quilt: {{arrange: [[one]]}}
sizes: {{only: {{across: 4, down: 4}}}}
house: {{inches: {{triangles: {triangles}}}}}
"""


@pytest.mark.parametrize(
    ("make", "triangles", "stages", "batches", "spare"),
    [
        # Marked, placed and sewn take a pair each; cut apart, pressed and trimmed take one half each: 3 + 3/2 pairs.
        ("two-at-a-time", "trim", ["mark", "place", "sew", "cut-apart", "press", "trim"], 5, 1),
        # The same where only the points are trimmed off.
        ("two-at-a-time", "standard", ["mark", "place", "sew", "cut-apart", "press", "finished"], 5, 1),
        # Cut into four squares a sample takes a quarter; cut, pressed and without points an eighth each: 3 + 1/4 + 3/8.
        ("eight-at-a-time", "standard", ["mark", "place", "sew", "cut-apart", "cut-apart", "press", "finished"], 4, 3),
    ],
)
def test_samples_of_half_squares(make: str, triangles: str, stages: list[str], batches: int, spare: int) -> None:
    plan = plan_of(sample(TURNS.format(make=make, triangles=triangles)))
    made = plan_class(plan, 0).units[0]
    assert [stage.kind for stage in made.stages] == stages
    assert (made.batches, made.spare) == (batches, spare)


QUARTERS = """\
units: {{hourglass: {{quarter-square: {fabrics}}}}}
blocks: {{one: {{cell: 3 in, rows: [[hourglass, dark], [light, hourglass]]}}}}
quilt: {{arrange: [[one]]}}
sizes: {{only: {{across: 4, down: 4}}}}
house: {{inches: {{triangles: {triangles}}}}}
"""


@pytest.mark.parametrize(
    ("fabrics", "triangles", "stages", "batches", "spare"),
    [
        # Three pairs before they are cut; three half-squares; two half-squares laid together, and two sewn; three
        # units of four half-squares more, of which one unit is left: 3 + 2 + 2 + 4 half-squares of 3 + 11/2 pairs.
        ("[dark, light]", "standard", 11, 9, 1),
        ("[dark, light]", "trim", 11, 9, 1),
        # Two pairs to a batch, half-squares of two kinds: three batches, 5 x 1/2 of half-squares, 3 x 1/4 of units.
        ("[dark, light, other]", "standard", 11, 7, 3),
    ],
)
def test_samples_of_what_is_laid_together_again(
    fabrics: str, triangles: str, stages: int, batches: int, spare: int
) -> None:
    plan = quilt(QUARTERS.format(fabrics=fabrics, triangles=triangles))
    made = plan_class(plan, 0).units[0]
    assert (made.count, made.batches, made.spare) == (stages, batches, spare)


@pytest.mark.parametrize(
    ("parts", "batch", "batches", "spare"),
    [
        ([1, 1, 1, 2, 2, 2], 2, 5, 1),
        ([4, 4, 4, 4], 4, 1, 0),
        ([4, 4, 4, 4, 4], 4, 2, 3),
        ([1, 1, 1, 2, 2, 2, 2, 4], 4, 6, 3),
        ([1], 1, 1, 0),
    ],
)
def test_batches_are_counted_by_hand(parts: list[int], batch: int, batches: int, spare: int) -> None:
    """A sample is one of so many things of a batch."""
    assert count_batches(parts, batch) == (batches, spare)


STRIPS = """\
units: {set: {strip-set: [dark, light, other]}}
blocks: {one: {cell: 2 in, rows: [[set 1x3, set 1x3@180], [dark 2x1]]}}
quilt: {arrange: [[one]]}
sizes: {only: {across: 5, down: 5}}
"""


def test_strip_sets_are_shown_short() -> None:
    """Segments of 2 1/2 in: two and 1/2 in to square up are 5 1/2 in for each of two samples; three blocks take six."""
    plan = quilt(STRIPS)
    made = plan_class(plan, 0)
    (unit,) = made.units
    assert [stage.kind for stage in unit.stages] == ["sew", "cut-apart"]
    assert (unit.batches, unit.spare) == (2, 0)
    dark = [own for own in made.pieces if own.piece == unit_strip(plan, "first")]
    assert [(str(own.width), str(own.height), own.count) for own in dark] == [("11/2", "5/2", 2), ("31/2", "5/2", 1)]


def unit_strip(plan: Plan, role: str) -> str:
    """The piece of a strip set's strip."""
    (unit,) = plan.units
    fabric = dict(unit.fabrics)[role]
    strips = {part.piece for part in unit.pieces}
    return next(piece.id for piece in plan.pieces if piece.id in strips and piece.fabric == fabric)


def test_what_is_pressed_in_two_ways_has_one_sample_more() -> None:
    """A kaleidoscope is made one by one, in five stages; of the block two more sewn things, laid out and joined."""
    plan = quilt(STAR + "house: {pressing-variants: 2}\n")
    made = plan_class(plan, 0)
    (unit,) = made.units
    assert (unit.unit, unit.second) == ("star", "star-second")
    assert (len(unit.stages), unit.count, unit.batches, unit.spare) == (5, 6, 6, 0)
    nine = plan_class(quilt(NINE_PATCH + "house: {pressing-variants: 2}\n"), 0)
    (block,) = nine.blocks
    assert (block.taken, block.count, block.second) == (3, 4, "nine-second")
    assert sorted(own.count for own in nine.pieces) == [16, 20]


NESTED = """\
blocks:
  inner: {cell: 2 in, strip-piece: no, rows: [[dark, light], [light, other]]}
  outer: {cell: 2 in, rows: [[inner, dark 2x2], [other 2x2, inner@180]]}
quilt: {arrange: [[outer]]}
sizes: {only: {across: 2, down: 2}}
"""


def test_a_block_within_a_block_is_shown_joined_where_that_is_laid_out() -> None:
    """Two of the inner block for its own stages, six in three of the outer."""
    plan = quilt(NESTED)
    made = plan_class(plan, 0)
    inner, outer = made.blocks
    assert (inner.stages, inner.among, inner.taken) == (("laid-out", "sewn", "among"), "outer", 2)
    assert (outer.stages, outer.taken) == (("laid-out", "sewn", "joined"), 3)
    cut = {piece.id: piece for piece in plan.pieces}
    small = {cut[own.piece].fabric: own.count for own in made.pieces if str(own.width) == "5/2"}
    assert small == {"dark": 8, "light": 16, "other": 8}


def test_a_corner_of_a_sashed_top_is_shown_twice() -> None:
    """A block, two strips and a cornerstone, sewn in rows and joined."""
    text = "blocks: {one: {cell: 3 in, strip-piece: no, rows: [[dark, light], [light, dark]]}}\n"
    text += "quilt: {arrange: [[one]], sashing: {width: 1 in, fabric: other, cornerstone: dark}}\n"
    top = plan_class(quilt(text + "sizes: {only: {across: 3, down: 3}}\n"), 0).top
    assert top is not None
    assert (top.kind, top.stages) == ("corner", ("rows", "joined"))
    assert sorted(count for _, count in top.parts) == [2, 2, 4]


def test_a_diagonal_row_takes_whole_squares_for_its_triangles() -> None:
    """A block between two side triangles, four of which come from a square."""
    text = "blocks: {one: {cell: 3 in, strip-piece: no, rows: [[dark, light], [light, dark]]}}\n"
    text += "quilt: {setting: on-point, arrange: [[one]], setting-triangles: {fabric: other}}\n"
    top = plan_class(quilt(text + "sizes: {only: {across: 3, down: 3}}\n"), 0).top
    assert top is not None
    assert (top.kind, sorted(count for _, count in top.parts)) == ("row", [1, 1])


@pytest.mark.parametrize(("way", "blocks"), [("rag: {}", 6), ("quilt-as-you-go: {}", 7)])
def test_layers_of_blocks_are_shown_at_every_stage(way: str, blocks: int) -> None:
    """One block laid out and one quilted, with its own layers one trimmed; two joined, and two clipped or closed."""
    text = "blocks: {one: {cell: 3 in, strip-piece: no, rows: [[dark, light], [light, dark]]}}\n"
    text += f"quilt: {{arrange: [[one]], {way}, backing: {{fabric: other}}}}\n"
    top = plan_class(quilt(text + "sizes: {only: {across: 3, down: 3}}\n"), 0).top
    assert top is not None
    assert top.kind == "layers"
    assert [count for _, count in top.parts] == [blocks, blocks]
    assert [count for _, count in top.batting] == [blocks]


def test_blocks_are_laid_out_sewn_and_joined() -> None:
    """Five pairs for the unit's samples, and three blocks with two units and one patch of each fabric."""
    plan = plan_of(sample(TURNS.format(make="two-at-a-time", triangles="trim")))
    made = plan_class(plan, 0)
    assert [(block.assembly, block.stages) for block in made.blocks] == [("one", ("laid-out", "sewn", "joined"))]
    cut = {plan_piece.id: plan_piece for plan_piece in plan.pieces}
    counts = {(cut[own.piece].fabric, cut[own.piece].kind): own.count for own in made.pieces}
    assert counts == {("red", "unit"): 8, ("cream", "unit"): 8, ("red", "patch"): 3, ("cream", "patch"): 3}


def test_extra_cloth_is_laid_out() -> None:
    """Eight squares of 4 and three of 3 1/2 take 42 1/2 of 40 inches: two strips, 4 + 3 1/2 + 1 are under a quarter."""
    plan = plan_of(sample(TURNS.format(make="two-at-a-time", triangles="trim")))
    red = plan_class(plan, 0).cloth[0]
    assert (red.fabric, red.precuts) == ("red", 0)
    assert red.buy is not None
    assert str(red.buy.amount) == "1/4"
