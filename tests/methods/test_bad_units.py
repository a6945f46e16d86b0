"""Units that cannot be made, written in a pattern: each is refused at its own line, and following the hint helps."""

from __future__ import annotations

import re

import pytest

from cases.runner import Case, differences, read_cases
from patchwright.core.diagnostics import Diagnostic
from patchwright.core.source import Source
from patchwright.design.resolve import make_design
from patchwright.dialect.parse import read_pattern
from patchwright.planning.build import make_plan

CASE: Case = next(case for case in read_cases() if case.name == "units-that-cannot-be-made")
SIZED = [line for line, _, code in CASE.expected if not code.startswith("patches")]
TRIES = 3


def mistakes(text: str) -> tuple[Diagnostic, ...]:
    """What the planner says of a pattern that is well written."""
    declared, found = read_pattern(Source("case.yaml", text))
    assert declared is not None, found
    design, found = make_design(declared, None, "case")
    assert design is not None, found
    return make_plan(design, "plain")[1]


def test_each_is_refused_where_it_is_declared() -> None:
    assert differences(CASE, mistakes(CASE.source.text)) == []


@pytest.mark.parametrize("line", SIZED)
def test_the_hint_works(line: int) -> None:
    """With the size or the length that the hint names in its place, no mistake is left at the unit, in a few turns."""
    text = CASE.source.text
    for _ in range(TRIES):
        found = [item for item in mistakes(text) if item.span.line == line]
        if not found:
            return
        text = followed(text, line, " ".join(found[0].hints))
    pytest.fail(f"line {line} is still wrong: {text.splitlines()[line - 1]}")


def followed(text: str, line: int, hint: str) -> str:
    """The line with what the hint proposes: a size, or the corner, center or radius."""
    lines = text.splitlines()
    proposed = re.findall(r"`([^`]+)`", hint)[-1]
    key = r"size" if " x " in proposed else r"(?:corner|center|radius)"
    lines[line - 1], count = re.subn(rf"\b({key}): [^,}}]+", rf"\g<1>: {proposed}", lines[line - 1])
    assert count == 1, hint
    return "\n".join(lines) + "\n"
