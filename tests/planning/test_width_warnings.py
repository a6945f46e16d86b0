"""Warnings of strips that use the assumed width: where the plan does, once for each fabric, and never a false alarm."""

from __future__ import annotations

import pytest

from patchwright.core.diagnostics import Diagnostic
from patchwright.planning.laying import Effort
from planning.compiling import compile_text, sample

WIDE = """\
house: {{inches: {{usable-width: 40 in}}}}
blocks: {{one: {{cell: {cell}, rows: [[red]]}}}}
sizes: {{small: {{across: 3, down: 1}}, tall: {{across: 4, down: 5}}}}
"""


def told(cell: str, effort: Effort) -> list[Diagnostic]:
    _, found = compile_text(sample(WIDE.format(cell=cell)), effort=effort)
    return [one for one in found if one.code in ("whole-width-used", "near-width")]


@pytest.mark.parametrize(("cell", "code", "sizes"), [
    ("9 1/2 in", "whole-width-used", ["tall"]),
    ("9 3/8 in", "near-width", []),
    ("9 7/16 in", "near-width", ["tall"]),
    ("39 1/2 in", "whole-width-used", ["small", "tall"]),
])
def test_a_build_warns_where_its_plan_uses_the_width(cell: str, code: str, sizes: list[str]) -> None:
    """Four squares of 10 in fill 40 in; four of 9 7/8 leave half an inch, which is room enough."""
    found = told(cell, "best")
    assert [one.code for one in found] == ([code] if sizes else [])
    for one in found:
        assert [size for size in ("small", "tall") if f"`{size}`" in one.message] == sizes


@pytest.mark.parametrize(("cell", "codes"), [
    ("9 1/2 in", []), ("39 1/2 in", ["whole-width-used"]), ("39 3/16 in", ["near-width"]), ("39 in", []),
])
def test_a_check_warns_only_of_what_every_plan_needs(cell: str, codes: list[str]) -> None:
    assert [one.code for one in told(cell, "plain")] == codes
