"""Plans for the tests of drawings, compiled from the patterns in `data/`."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from patchwright.core.source import Source
from patchwright.design.resolve import make_design
from patchwright.dialect.parse import read_pattern
from patchwright.planning.build import make_plan
from patchwright.planning.plan import Plan

DATA = Path(__file__).parent / "data"
NAMES = tuple(sorted(path.stem for path in DATA.glob("*.yaml")))


@cache
def sample_plan(name: str = "rope-walk") -> Plan:
    """The plan of one of the patterns in `data/`."""
    return plan_of((DATA / f"{name}.yaml").read_text(encoding="utf-8"), name)


def plan_of(text: str, name: str = "sample") -> Plan:
    """The plan of a pattern's text; raise ValueError with its mistakes if it has any."""
    declared, found = read_pattern(Source(f"{name}.yaml", text))
    if declared is None:
        raise ValueError(found)
    design, found = make_design(declared, None, name)
    if design is None:
        raise ValueError(found)
    plan, found = make_plan(design, "plain")
    if plan is None:
        raise ValueError(found)
    return plan
