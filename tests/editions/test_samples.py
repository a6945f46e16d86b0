"""Samples for a class, counted by hand."""

from __future__ import annotations

import pytest

from patchwright.planning.samples import plan_class
from planning.compiling import plan_of, sample

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
        # The same without trimming: 3 + 2/2.
        ("two-at-a-time", "standard", ["mark", "place", "sew", "cut-apart", "press"], 4, 0),
        # Cut into four squares a sample takes a quarter, cut and pressed an eighth each: 3 + 1/4 + 1/8 + 1/8.
        ("eight-at-a-time", "standard", ["mark", "place", "sew", "cut-apart", "cut-apart", "press"], 4, 4),
    ],
)
def test_samples_of_half_squares(make: str, triangles: str, stages: list[str], batches: int, spare: int) -> None:
    plan = plan_of(sample(TURNS.format(make=make, triangles=triangles)))
    made = plan_class(plan, 0).units[0]
    assert [stage.kind for stage in made.stages] == stages
    assert (made.batches, made.spare) == (batches, spare)


def test_blocks_are_laid_out_sewn_and_joined() -> None:
    """Five pairs for the unit's samples, and three blocks with two units and one patch of each fabric."""
    plan = plan_of(sample(TURNS.format(make="two-at-a-time", triangles="trim")))
    made = plan_class(plan, 0)
    assert [(block.assembly, block.stages) for block in made.blocks] == [("one", ("laid-out", "sewn", "joined"))]
    cut = {plan_piece.id: plan_piece for plan_piece in plan.pieces}
    counts = {(cut[piece].fabric, cut[piece].kind): count for piece, count in made.pieces}
    assert counts == {("red", "unit"): 8, ("cream", "unit"): 8, ("red", "patch"): 3, ("cream", "patch"): 3}


def test_extra_cloth_is_laid_out() -> None:
    """Eight squares of 4 and three of 3 1/2 take 42 1/2 of 40 inches: two strips, 4 + 3 1/2 + 1 are under a quarter."""
    plan = plan_of(sample(TURNS.format(make="two-at-a-time", triangles="trim")))
    red = plan_class(plan, 0).cloth[0]
    assert (red.fabric, red.precuts) == ("red", 0)
    assert red.buy is not None
    assert str(red.buy.amount) == "1/4"
