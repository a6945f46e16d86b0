"""The demo patterns, each compiled once for all tests of a session that look at what is made of it."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path

from patchwright.driver import Compiled, compile_colorways
from patchwright.files import HOUSE_FILE, find_patterns
from patchwright.planning.plan import Plan

ROOT = Path(__file__).resolve().parents[1]
DEMOS = sorted(path for path in (ROOT / "patterns").glob("*.yaml") if path.name != HOUSE_FILE)


@cache
def compiled(path: Path) -> tuple[Compiled, tuple[Plan, ...]]:
    """A pattern in its own colors, and the plans of its colorways."""
    (project,) = find_patterns((path,))
    made, ways = compile_colorways(project)
    assert made.plan is not None, made.diagnostics
    return made, ways


def in_theme(path: Path, theme: str) -> Compiled:
    """The same, as if the house had named a theme; a plan knows its theme by name and no more."""
    made, _ = compiled(path)
    assert made.plan is not None
    if not theme:
        return made
    return replace(made, plan=replace(made.plan, rules=replace(made.plan.rules, theme=theme)))
