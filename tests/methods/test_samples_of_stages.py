"""Of how many alike things a batch is made up at every stage, for all methods and ways of making."""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path

import pytest

from demos import ROOT
from patchwright.methods.registry import BY_NAME
from patchwright.planning.plan import Plan
from planning.compiling import compile_text

GALLERY: Path = ROOT / "patterns" / "gallery" / "chandlery.yaml"


@pytest.fixture(scope="module")
def chandlery() -> Plan:
    """A pattern with units of all methods in all ways."""
    plan, found = compile_text(GALLERY.read_text("utf-8"))
    assert plan is not None, found
    return plan


def test_a_batch_comes_apart_into_its_units(chandlery: Plan) -> None:
    """Whole things at every stage, all of a batch's units at the last; strips are cut into segments instead."""
    seen = set()
    for unit in chandlery.units:
        size = unit.sizes[0]
        assert size is not None
        if unit.method == "patch" or size.recipe.pieces[0].id.startswith("set-"):
            continue
        stages = [
            stage for stage in BY_NAME[unit.method].stages(size.request, size.recipe) if stage.kind != "finished"
        ]
        assert all(size.recipe.batch % stage.apart == 0 for stage in stages), unit.id
        assert stages[-1].apart == size.recipe.batch, unit.id
        for before, after in pairwise(stages):
            # What is cut or pressed stays apart; only what is laid on each other again is whole again.
            assert after.apart >= before.apart or after.kind == "place", unit.id
        seen.add((unit.method, unit.how))
    assert {how for method, how in seen if method == "half-square"} >= {"two-at-a-time", "eight-at-a-time", "singly"}
