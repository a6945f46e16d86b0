"""The list of what to have at hand follows from the units and the finishing of the sizes that a booklet covers."""

from __future__ import annotations

from functools import cache

import pytest

from content.compiled import EvenLabels, compiled, names_of
from patchwright.core.source import Source
from patchwright.diagrams.figures import booklet_figures
from patchwright.planning.plan import Plan
from patchwright.typesetting.content.editions import EDITIONS
from patchwright.typesetting.content.make import make_booklet
from patchwright.typesetting.content.plain import to_text
from patchwright.wording import load_wording

PATTERN = """\
dialect: 1
pattern: Small Sail
release: 1
lengths: inches
fabrics:
  rope: {color: a9482f}
  deck: {color: ece7db}
units:
  turn:  {half-square: [rope, deck]}
  check: {four-patch: [rope, deck], strip-piece: yes}
  curve: {quarter-circle: [rope, deck]}
  log:   {foundation: [rope, deck], patches: "0 0, 4 0, 2 12, 0 12; 4 0, 12 0, 12 12, 2 12"}
blocks:
  plain:   {cell: 3 in, strip-piece: no, rows: [[rope, deck], [deck, rope]]}
  sails:   {cell: 3 in, rows: [[turn, turn@90], [turn@270, turn@180]]}
  checks:  {cell: 3 in, rows: [[check 2x2]]}
  curves:  {cell: 3 in, rows: [[curve 2x2]]}
  papers:  {cell: 3 in, rows: [[log 2x2]]}
quilt: {arrange: [[plain]], binding: {fabric: rope}}
sizes:
  bare:    {across: 2, down: 2}
  sails:   {across: 2, down: 2, arrange: [[sails]]}
  checks:  {across: 2, down: 2, arrange: [[checks]]}
  curves:  {across: 2, down: 2, arrange: [[curves]]}
  papers:  {across: 2, down: 2, arrange: [[papers]]}
  miters:  {across: 2, down: 2, borders: [{width: 3 in, fabric: deck, corners: mitered}]}
"""
NEEDED = {
    "sails": ("marks the wrong side", "square ruler with a diagonal line"),
    "checks": ("as long as a folded strip",),
    "curves": ("clear plastic or card",),
    "papers": ("thin paper",),
    "miters": ("for the mitered corners",),
}
"""What a size needs that the plain one does not."""


@cache
def _plan() -> Plan:
    return compiled(Source("sail.yaml", PATTERN), None, "sail")


def _supplies(size: str) -> str:
    """The list as text, its spaces plain; the booklet of one size, or of all."""
    sizes = (size,) if size else names_of(_plan())
    figures = booklet_figures(_plan(), load_wording(), EvenLabels(), sizes=sizes)
    edition = EDITIONS["one-size" if size else "all-sizes"]
    said = to_text(make_booklet(_plan(), figures, load_wording(), edition, sizes)).replace("\u00a0", " ")
    return said.partition("Have at hand")[2].partition("\n#")[0].lower()


@pytest.mark.parametrize("size", ["bare", *NEEDED])
def test_each_size_lists_what_its_own_units_take(size: str) -> None:
    said = _supplies(size)
    assert "rotary cutter" in said
    for other, wanted in NEEDED.items():
        assert [text in said for text in wanted] == [other == size] * len(wanted), other


def test_all_sizes_together_list_everything_once() -> None:
    said = _supplies("")
    assert [said.count(text) for wanted in NEEDED.values() for text in wanted] == [1] * 6
