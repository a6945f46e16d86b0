"""What the errors of the YAML parser mean for an author.

In: an error of the parser, with its marks, and the text.
Out: one diagnostic at the place where the author has to change something.
Never: the parser's own words, which speak of tokens and nodes.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

import yaml

from patchwright.core.diagnostics import Findings, Note
from patchwright.core.source import Span
from patchwright.dialect.lines import Lines
from patchwright.dialect.traps import TIGHT_COLON, report_missing_space

_QUOTES = "put the whole text in quotes"


@dataclass(frozen=True, slots=True)
class _Fault:
    """An error of the parser: its words, the place where it gave up, and where the thing began that it was reading."""

    path: str
    problem: str
    context: str
    line: int
    column: int
    begun_line: int
    begun_column: int

    @classmethod
    def of(cls, error: yaml.YAMLError, path: str) -> _Fault:
        """Take an error of the parser apart; places are counted from 1 here."""
        mark, begun = getattr(error, "problem_mark", None), getattr(error, "context_mark", None)
        line, column = (mark.line + 1, mark.column + 1) if mark else (1, 1)
        begun_line, begun_column = (begun.line + 1, begun.column + 1) if begun else (line, column)
        return cls(
            path, str(getattr(error, "problem", "") or ""), str(getattr(error, "context", "") or ""),
            line, column, begun_line, begun_column,
        )


def explain_syntax(error: yaml.YAMLError, path: str, lines: Lines, findings: Findings) -> None:
    """Report the one mistake at which the parser gave up."""
    fault = _Fault.of(error, path)
    for explain in (_tight_colon, _colon_in_text, _no_colon, _open_quote, _open_bracket, _odd_start, _backslash):
        if explain(fault, lines, findings):
            return
    _misplaced(fault, lines, findings)


def _place(path: str, lines: Lines, line: int, column: int, width: int = 1) -> Span:
    """A place that is inside the text even where the parser gave up after its end."""
    text = lines.line(line)
    while line > 1 and not text.strip():
        line -= 1
        text = lines.line(line)
        column = len(text) + 1
    column = max(1, min(column, len(text) + 1))
    return Span(path, line, column, line, column + width)


def _rest(lines: Lines, place: Span) -> str:
    """What stands from a place to the end of its line, without a comment."""
    return re.sub(r"\s+#.*$", "", lines.line(place.line)[place.column - 1 :]).rstrip()


def _tight_colon(fault: _Fault, lines: Lines, findings: Findings) -> bool:
    """`squares:10 in` on a line of its own."""
    if not ("mapping values" in fault.problem or "expected ':'" in fault.problem):
        return False
    for number in (fault.begun_line, fault.line, fault.line - 1):
        match = TIGHT_COLON.fullmatch(lines.line(number))
        if match is not None:
            value = re.sub(r"\s+#.*$", "", match[2]).rstrip()
            place = Span(fault.path, number, match.start(1) + 1, number, match.start(2) + len(value) + 1)
            report_missing_space(match[1], value, place, findings)
            return True
    return False


def _colon_in_text(fault: _Fault, lines: Lines, findings: Findings) -> bool:
    """`summary: Coils: of rope`, or a key below a key that has a value already."""
    line = lines.line(fault.line)
    in_flow = "expected ',' or '}'" in fault.problem and line[fault.column - 1 : fault.column] == ":"
    if "mapping values" not in fault.problem and not in_flow:
        return False
    place = _place(fault.path, lines, fault.line, fault.column)
    if ":" in line[: fault.column - 1]:
        hint = f"{_QUOTES}, from behind the first colon on"
        findings.error("unquoted-colon", "a second colon stands in one value", place, hint)
    else:
        findings.error(
            "yaml-syntax", "a key begins here, below a key that has a value already", place,
            "give this line the same indentation as its neighbors, or leave the value of the key above empty",
        )
    return True


def _no_colon(fault: _Fault, lines: Lines, findings: Findings) -> bool:
    """A line that is neither a key nor an entry of a list."""
    if "expected ':'" not in fault.problem:
        return False
    place = _place(fault.path, lines, fault.begun_line, fault.begun_column)
    words = _rest(lines, place)
    place = Span(place.path, place.line, place.column, place.line, place.column + max(1, len(words)))
    findings.error("yaml-syntax", f"`{words}` is not a key with a value", place, "write `key: value`")
    return True


def _open_quote(fault: _Fault, lines: Lines, findings: Findings) -> bool:
    if "quoted scalar" not in fault.context or "escape" in fault.problem:
        return False
    place = _place(fault.path, lines, fault.begun_line, fault.begun_column)
    findings.error("yaml-syntax", "the quote that opens here is not closed", place, "close it with the same quote sign")
    return True


def _open_bracket(fault: _Fault, lines: Lines, findings: Findings) -> bool:
    """A list or mapping in brackets that is not closed, or lacks a comma."""
    if "flow" not in fault.context:
        return False
    place = _place(fault.path, lines, fault.line, fault.column)
    opened = Span(fault.path, fault.begun_line, fault.begun_column, fault.begun_line, fault.begun_column + 1)
    bracket = lines.line(opened.line)[opened.column - 1 : opened.column]
    closing = {"[": "]", "{": "}"}.get(bracket)
    if closing is None:
        findings.error(
            "yaml-syntax", "a value is missing here, inside brackets", place,
            "look for a comma too many, or a bracket that is not closed",
        )
        return True
    findings.error(
        "yaml-syntax", f"a comma or `{closing}` is expected here", place,
        f"close the bracket with `{closing}`, or put quotes around a text that holds brackets, commas or quotes",
        notes=(Note(opened, f"the `{bracket}` that is open here"),),
    )
    return True


def _odd_start(fault: _Fault, lines: Lines, findings: Findings) -> bool:
    """A value that begins with a sign that YAML keeps for itself."""
    if "cannot start any token" not in fault.problem:
        return False
    place = _place(fault.path, lines, fault.line, fault.column)
    sign = lines.line(place.line)[place.column - 1 : place.column]
    shown = "a backtick" if sign == "`" else f"`{sign}`"
    hint = "in a row, write a name first, such as `turn@90`" if sign == "@" else _QUOTES
    findings.error("yaml-syntax", f"a value cannot begin with {shown}", place, hint)
    return True


def _backslash(fault: _Fault, lines: Lines, findings: Findings) -> bool:
    if "escape" not in fault.problem and "hexdecimal" not in fault.problem:
        return False
    place = _place(fault.path, lines, fault.line, fault.column)
    findings.error(
        "yaml-syntax", "a backslash has a meaning of its own inside double quotes", place,
        "write two backslashes for one, or use single quotes",
    )
    return True


def _misplaced(fault: _Fault, lines: Lines, findings: Findings) -> None:
    """Anything else: something stands where nothing fits."""
    place = _place(fault.path, lines, fault.line, fault.column)
    words = _rest(lines, place)
    if place.column > 1 and lines.line(place.line)[: place.column - 1].strip():
        hint = f"if it belongs to the value before it, {_QUOTES}; look for a bracket or quote too many"
    else:
        hint = "give this line the same indentation as its neighbors; an entry of a list begins with `- `"
    place = Span(place.path, place.line, place.column, place.line, place.column + max(1, len(words)))
    findings.error("yaml-syntax", f"`{words}` does not fit here" if words else "nothing fits here", place, hint)
