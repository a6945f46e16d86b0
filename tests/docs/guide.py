"""Reads the author's guide as its tests need it: its examples, and its tables of keys.

An example is a fence of `yaml`, and the words behind that say how it is compiled:
  base, finished       a whole pattern; fragments are laid over `base`
  step                 laid over the steps before it, so that the first pattern grows
  fragment             top-level keys laid over the base
  wrong CODE           the same, but it must be reported with this code
  house                a whole house file
  list                 a list of pieces without a pattern
A fence of `text message` is what the example before it makes the program say.
A table of keys follows a comment such as `<!-- keys: fabric -->`, named after the part of the JSON Schema it explains.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from patchwright.core.codes import laid_over

ROOT = Path(__file__).parents[2]
GUIDE = ROOT / "patterns" / "README.md"

_FENCE = re.compile(r"^```(?P<info>[^\n]*)\n(?P<text>.*?)^```$", re.MULTILINE | re.DOTALL)
_CODE = re.compile(r"`([^`]+)`")


@dataclass(frozen=True, slots=True)
class Example:
    """A fenced text of the guide with its place."""

    info: str
    text: str
    line: int

    @property
    def id(self) -> str:
        return f"line {self.line}: {self.info}"

    @property
    def kind(self) -> str:
        words = self.info.split()
        return words[1] if len(words) > 1 else ""


@cache
def guide() -> str:
    return GUIDE.read_text(encoding="utf-8")


@cache
def fences() -> tuple[Example, ...]:
    """All fenced texts, in order."""
    text = guide()
    return tuple(
        Example(match["info"].strip(), match["text"], text.count("\n", 0, match.start()) + 1)
        for match in _FENCE.finditer(text)
    )


def examples(kind: str) -> list[Example]:
    """The YAML examples of one kind."""
    return [fence for fence in fences() if fence.info.startswith("yaml") and fence.kind == kind]


def base() -> str:
    return examples("base")[0].text


def grown() -> list[tuple[Example, str]]:
    """Every step of the first pattern, with the pattern as it is then."""
    made: list[tuple[Example, str]] = []
    for step in examples("step"):
        made.append((step, laid_over(step.text, made[-1][1]) if made else step.text))
    return made


def table(comment: str) -> list[list[str]]:
    """The cells of the table that follows `<!-- comment -->`, without its heading."""
    _, found, rest = guide().partition(f"<!-- {comment} -->\n")
    assert found, f"the guide has no `<!-- {comment} -->`"
    return _rows(rest)


def section(heading: str) -> str:
    """The text below a heading, up to the next heading of any level."""
    _, found, rest = guide().partition(f"\n{heading}\n")
    assert found, f"the guide has no heading `{heading}`"
    return re.split(r"^#+ ", rest, maxsplit=1, flags=re.MULTILINE)[0]


def first_table(text: str) -> list[list[str]]:
    """The cells of the first table of a text, or none."""
    start = re.search(r"^\| key ", text, re.MULTILINE)
    return _rows(text[start.start() :]) if start else []


def keyed(rows: list[list[str]]) -> list[str]:
    """The names in code marks in the first column."""
    return [name for row in rows for name in marked(row[0])]


def marked(text: str) -> list[str]:
    """The names in code marks, in order."""
    return _CODE.findall(text)


def _rows(text: str) -> list[list[str]]:
    lines = []
    for line in text.splitlines():
        if not line.startswith("|"):
            break
        lines.append([cell.strip() for cell in line.strip("|").split(" | ")])
    return lines[2:]
