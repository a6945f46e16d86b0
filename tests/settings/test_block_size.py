"""`block-size`: every block of the top in one size, its cell following from its own grid."""

from __future__ import annotations

from patchwright.core.length import Finished
from planning.compiling import errors, plan_of, sample

TWO = """\
blocks:
  four: {rows: [[red, cream], [cream, red]]}
  nine: {rows: [[red, cream, red], [cream, red, cream], [red, cream, red]]}
  nested: {rows: [[four 3x3, cream 1x3], [cream 4x1]]}
quilt: {arrange: [[four, nine, nested]], block-size: 6 in}
sizes:
  wall: {across: 3, down: 3}
  throw: {across: 6, down: 6, block-size: 7 1/2 in}
  odd: {across: 3, down: 3, block-size: 9 in, blocks: {four: {cell: 4 1/2 in}}}
units: {}
house: {inches: {round-cuts: 1/16 in}}
"""


def test_every_block_has_the_size_and_a_cell_of_its_own() -> None:
    plan = plan_of(sample(TWO))
    for assembly in plan.assemblies:
        if assembly.nested:
            continue
        for size, side in zip(assembly.sizes, ("6", "15/2", "9"), strict=True):
            assert size is not None
            assert size.finished == (Finished(side), Finished(side))


def test_a_grid_that_does_not_fit_is_named() -> None:
    text = TWO.replace("nine: {rows: [[red, cream, red], [cream, red, cream], [red, cream, red]]}",
                       "nine: {rows: [[red, cream, red], [cream, red, cream]]}")
    found = errors(sample(text))
    assert any(one.code == "size-not-square-grid" and "`nine`" in one.message for one in found), found
