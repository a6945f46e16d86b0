"""Reads the cases: one idea in a file, told on its first line; what is expected stands on the line it is expected on.

`# error: CODE, CODE` or `# warning: CODE` at the end of a line expects these codes there, and nothing is expected
elsewhere. A case without `dialect:` holds only the top-level keys that matter and is laid over the base pattern of the
table of codes, unless its first line begins with `# whole:`.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import yaml

from patchwright.core.codes import laid_over
from patchwright.core.diagnostics import Diagnostic
from patchwright.core.source import Source

CASES = Path(__file__).parent
WORDING = CASES.parent.parent / "compiler" / "patchwright" / "wording" / "codes-en.yaml"

_EXPECTED = re.compile(r"(?:#|  )\s*(error|warning): ([a-z0-9-]+(?:, [a-z0-9-]+)*)\s*$")

Seen = tuple[int, str, str]
"""Line, severity and code."""


@dataclass(frozen=True, slots=True)
class Case:
    name: str
    source: Source
    expected: tuple[Seen, ...]


@cache
def base() -> str:
    """The small pattern over which cases are laid."""
    return str(yaml.safe_load(WORDING.read_text(encoding="utf-8"))["base"])


def read_case(path: Path) -> Case:
    text = path.read_text(encoding="utf-8")
    if not re.search(r"^dialect:", text, re.MULTILINE) and not text.startswith("# whole:"):
        text = laid_over(text, base())
    expected = [
        (number, match[1], code)
        for number, line in enumerate(text.splitlines(), 1)
        if (match := _EXPECTED.search(line))
        for code in match[2].split(", ")
    ]
    return Case(path.stem, Source(path.name, text), tuple(expected))


def read_cases() -> list[Case]:
    return [read_case(path) for path in sorted(CASES.glob("*.yaml"))]


def differences(case: Case, found: Iterable[Diagnostic]) -> list[str]:
    """What was expected and not found, and what was found and not expected."""
    seen: Counter[Seen] = Counter((item.span.line, item.severity, item.code) for item in found)
    wanted = Counter(case.expected)
    return [f"missing: {item}" for item in (wanted - seen)] + [f"unexpected: {item}" for item in (seen - wanted)]
