"""How diagnostics look: for people with the line of text and the place underlined, and in the forms that tools read.

In: diagnostics, and the sources that their places are in.
Out: text; for people as segments with roles, which the command line may color.
Never: a color code, or a character of a pattern that could move the cursor of a terminal.
"""

from __future__ import annotations

import hashlib
import json
import re
import unicodedata
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Any, Literal
from urllib.parse import quote

from patchwright.core.diagnostics import Diagnostic, Note
from patchwright.core.source import Source, Span

Role = Literal["place", "error", "warning", "message", "gutter", "source", "underline", "note", "hint"]
Sources = Mapping[str, Source]

WIDEST_LINE = 120
"""Columns of a source line that are shown; a longer line is cut around the place."""
_TAB = 4
_UNSHOWN = re.compile(r"[\x00-\x1f\x7f-\x9f\u200b-\u200f\u2028-\u202e\u2060-\u2069\ud800-\udfff\ufeff]")
_TOOL = "Patchwright"


@dataclass(frozen=True, slots=True)
class Segment:
    """A stretch of text of one role; line breaks are part of the text."""

    role: Role
    text: str


def apply_allowances(
    diagnostics: Iterable[Diagnostic], allowed: Mapping[str, Mapping[int, frozenset[str]]]
) -> tuple[Diagnostic, ...]:
    """Leave out the warnings that are allowed, by path and line; errors always stay."""
    return tuple(
        item for item in diagnostics
        if item.severity == "error" or item.code not in allowed.get(item.span.path, {}).get(item.span.line, frozenset())
    )


def raise_warnings(diagnostics: Iterable[Diagnostic]) -> tuple[Diagnostic, ...]:
    """Turn every warning into an error."""
    return tuple(replace(item, severity="error") for item in diagnostics)


def human_segments(item: Diagnostic, sources: Sources) -> tuple[Segment, ...]:
    """One diagnostic for people: the place and message, the line underlined, notes with theirs, and hints."""
    made = [*_heading(item), *_excerpt(item.span, sources, _gutter(item))]
    for note in item.notes:
        made += [Segment("note", f"note: {_shown(str(note.span))}: {_shown(note.message)}\n")]
        made += _excerpt(note.span, sources, _gutter(item))
    made += [Segment("hint", f"hint: {_shown(hint)}\n") for hint in item.hints]
    return tuple(made)


def human_text(diagnostics: Iterable[Diagnostic], sources: Sources) -> str:
    """All diagnostics for people, without colors, with a blank line between them."""
    texts = ("".join(segment.text for segment in human_segments(item, sources)) for item in diagnostics)
    return "\n".join(texts)


def short_text(diagnostics: Iterable[Diagnostic]) -> str:
    """One line for each diagnostic."""
    return "".join("".join(segment.text for segment in _heading(item)) for item in diagnostics)


def summary_text(diagnostics: Iterable[Diagnostic]) -> str:
    """How many errors and warnings there are, in words; nothing if there are none."""
    severities: list[str] = [item.severity for item in diagnostics]
    parts = []
    for word in ("error", "warning"):
        number = severities.count(word)
        if number:
            parts.append(f"{number} {word}{'' if number == 1 else 's'}")
    return " and ".join(parts)


def _heading(item: Diagnostic) -> list[Segment]:
    place = _shown(str(item.span)) if item.span.line else _shown(item.span.path)
    role: Role = "error" if item.severity == "error" else "warning"
    return [
        Segment("place", f"{place}: " if place else ""),
        Segment(role, f"{item.severity}[{item.code}]"),
        Segment("message", f": {_shown(item.message)}\n"),
    ]


def _gutter(item: Diagnostic) -> int:
    """The width of the line numbers of a diagnostic and its notes."""
    return max(len(str(span.line)) for span in (item.span, *(note.span for note in item.notes)))


def _excerpt(span: Span, sources: Sources, gutter: int) -> list[Segment]:
    """The line of a place with the place underlined, or nothing where there is no such line."""
    source = sources.get(span.path)
    line = _line(source, span.line) if source is not None else None
    if line is None:
        return []
    end = span.end_column if span.end_line == span.line else len(line) + 1
    start, end = min(span.column, len(line) + 1) - 1, min(end, len(line) + 1) - 1
    start, end, line = _window(start, max(end, start + 1), line)
    text, starts = _laid_out(line)
    first, after = starts[min(start, len(line))], starts[min(end, len(line))]
    mark = "^" + "~" * (after - first - 1)
    return [
        Segment("gutter", f"  {span.line:>{gutter}} | "), Segment("source", f"{text}\n"),
        Segment("gutter", f"  {'':>{gutter}} | "), Segment("underline", f"{' ' * first}{mark}\n"),
    ]


def _line(source: Source, number: int) -> str | None:
    """A line as YAML counts lines, so that odd characters inside a line do not shift it."""
    lines = re.split(r"\r\n|[\n\r]", source.text)
    return lines[number - 1] if 1 <= number <= len(lines) else None


def _window(start: int, end: int, line: str) -> tuple[int, int, str]:
    """A line that is not too long to show, with the place in it."""
    if len(line) <= WIDEST_LINE:
        return start, end, line
    left = max(0, min(start - WIDEST_LINE // 3, len(line) - WIDEST_LINE))
    cut = line[left : left + WIDEST_LINE]
    head, tail = "…" if left else "", "…" if left + WIDEST_LINE < len(line) else ""
    return start - left + len(head), min(end - left, WIDEST_LINE) + len(head), f"{head}{cut}{tail}"


def _laid_out(line: str) -> tuple[str, list[int]]:
    """A line as it is shown, and the column at which each of its characters begins there, the end included."""
    text, starts, column = "", [], 0
    for character in line:
        starts.append(column)
        shown = " " * (_TAB - column % _TAB) if character == "\t" else _shown(character)
        text += shown
        column += len(shown) if character == "\t" else _width(shown)
    return text, [*starts, column]


def _width(character: str) -> int:
    """The columns of a terminal that a character takes."""
    if unicodedata.combining(character) or unicodedata.category(character) in ("Mn", "Me", "Cf"):
        return 0
    return 2 if unicodedata.east_asian_width(character) in ("W", "F") else 1


def _shown(text: str) -> str:
    """Text with a mark in place of each character that does not show itself."""
    return _UNSHOWN.sub("\ufffd", text)


def json_text(diagnostics: Iterable[Diagnostic]) -> str:
    """All diagnostics as one JSON object; its keys only ever grow in number."""
    items = [
        {
            "code": item.code, "severity": item.severity, "message": item.message, **_place(item.span),
            "notes": [{"message": note.message, **_place(note.span)} for note in item.notes],
            "hints": list(item.hints),
        }
        for item in diagnostics
    ]
    return _dump({"format": 1, "diagnostics": items})


def _place(span: Span) -> dict[str, Any]:
    return {
        "path": span.path, "line": span.line, "column": span.column,
        "end-line": span.end_line, "end-column": span.end_column,
    }


def github_text(diagnostics: Iterable[Diagnostic]) -> str:
    """Workflow commands that put each diagnostic beside its line in a review."""
    made = []
    for item in diagnostics:
        properties = {"file": item.span.path}
        if item.span.line:
            properties |= {"line": str(item.span.line), "endLine": str(item.span.end_line)}
            if item.span.line == item.span.end_line:
                properties |= {"col": str(item.span.column), "endColumn": str(max(item.span.end_column - 1, 1))}
        properties["title"] = item.code
        listed = ",".join(f"{name}={_escaped(value, ':,')}" for name, value in properties.items() if value)
        made.append(f"::{item.severity} {listed}::{_escaped(_with_hints(item))}\n")
    return "".join(made)


def _escaped(text: str, more: str = "") -> str:
    return re.sub(f"[%\r\n{more}]", lambda match: f"%{ord(match[0]):02X}", text)


def _with_hints(item: Diagnostic) -> str:
    return "\n".join([item.message, *(f"hint: {hint}" for hint in item.hints)])


def gitlab_text(diagnostics: Iterable[Diagnostic]) -> str:
    """A code-quality report; fingerprints stay the same when lines move."""
    seen: dict[str, int] = {}
    made = []
    for item in diagnostics:
        identity = f"{item.span.path}\n{item.code}\n{item.message}"
        seen[identity] = seen.get(identity, 0) + 1
        digest = hashlib.sha256(f"{identity}\n{seen[identity]}".encode("utf-8", "replace")).hexdigest()
        made.append({
            "description": item.message, "check_name": item.code, "fingerprint": digest,
            "severity": "major" if item.severity == "error" else "minor",
            "location": {"path": item.span.path, "lines": {"begin": max(item.span.line, 1)}},
        })
    return _dump(made)


def sarif_text(diagnostics: Iterable[Diagnostic], summaries: Mapping[str, str] | None = None, version: str = "") -> str:
    """A SARIF 2.1.0 log; `summaries` are what the codes mean, where they are at hand."""
    items = list(diagnostics)
    codes = sorted({item.code for item in items})
    rules = [
        {"id": code, **({"shortDescription": {"text": summaries[code]}} if summaries and code in summaries else {})}
        for code in codes
    ]
    driver = {"name": _TOOL, **({"version": version} if version else {}), "rules": rules}
    results = [
        {
            "ruleId": item.code, "ruleIndex": codes.index(item.code), "level": item.severity,
            "message": {"text": _with_hints(item)}, "locations": [_location(item.span)],
            **({"relatedLocations": [_related(note) for note in item.notes]} if item.notes else {}),
        }
        for item in items
    ]
    run = {"tool": {"driver": driver}, "columnKind": "unicodeCodePoints", "results": results}
    return _dump({"$schema": "https://json.schemastore.org/sarif-2.1.0.json", "version": "2.1.0", "runs": [run]})


def _location(span: Span) -> dict[str, Any]:
    physical: dict[str, Any] = {"artifactLocation": {"uri": quote(span.path.replace("\\", "/"), errors="replace")}}
    if span.line:
        physical["region"] = {
            "startLine": span.line, "startColumn": span.column,
            "endLine": span.end_line, "endColumn": span.end_column,
        }
    return {"physicalLocation": physical}


def _related(note: Note) -> dict[str, Any]:
    return {**_location(note.span), "message": {"text": note.message}}


def _dump(data: Any) -> str:
    return json.dumps(data, ensure_ascii=True, indent=2) + "\n"
