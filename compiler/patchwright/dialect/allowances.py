"""Comments that silence a warning on one line, with the reason: `# allow: unused-fabric because …`.

In: a source.
Out: for each line the codes that are silenced there, and diagnostics for comments that cannot be followed.
Never: an error that is silenced.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

from patchwright.core.codes import CODES
from patchwright.core.diagnostics import Diagnostic, Findings, nearest_names
from patchwright.core.source import Source, Span
from patchwright.dialect.builder import MOST_MISTAKES, report_too_many
from patchwright.dialect.lines import Lines
from patchwright.dialect.reader import read_tree
from patchwright.dialect.traps import Comment

_ALLOW = re.compile(r"#\s*allow:\s*(?P<codes>[^#]*?)(?:\s+because\b\s*(?P<reason>.*))?\s*$")
_HOW = "write `# allow: CODE because …`, with the reason"


def allowed_codes(source: Source) -> tuple[Mapping[int, frozenset[str]], tuple[Diagnostic, ...]]:
    """The codes that comments of a text silence, by line; a comment alone on its line speaks of the next one."""
    if "allow:" not in source.text:
        return {}, ()
    findings = Findings()
    allowed: dict[int, frozenset[str]] = {}
    meant = _lines_meant(Lines(source.text))
    for comment in read_tree(source).comments:
        if len(findings.items) >= MOST_MISTAKES:
            report_too_many(comment.span, findings)
            break
        codes = _codes(comment, findings)
        if codes:
            line = comment.span.line if comment.before else meant[comment.span.line]
            allowed[line] = allowed.get(line, frozenset()) | codes
    return allowed, findings.ordered()


def _codes(comment: Comment, findings: Findings) -> frozenset[str]:
    match = _ALLOW.search(comment.text)
    if match is None:
        return frozenset()
    words = [(word[0], _part(comment, match.start("codes") + word.start(), word[0]))
             for word in re.finditer(r"[^\s,]+", match["codes"])]
    if not words or not (match["reason"] or "").strip():
        what = "no code" if not words else "no reason"
        findings.error("allowance-without-reason", f"this allowance gives {what}", comment.span, _HOW)
        return frozenset()
    return frozenset(word for word, place in words if _is_warning(word, place, findings))


def _is_warning(word: str, place: Span, findings: Findings) -> bool:
    code = CODES.get(word)
    warnings = [name for name, known in CODES.items() if known.severity == "warning"]
    if code is None:
        hints = nearest_names(word, warnings)
        findings.error("allowance-unknown-code", f"there is no warning `{word}`", place, *hints)
    elif code.severity == "error":
        findings.error("allowance-of-error", f"`{word}` is an error, which cannot be silenced", place)
    return code is not None and code.severity == "warning"


def _part(comment: Comment, start: int, word: str) -> Span:
    at = comment.span
    return Span(at.path, at.line, at.column + start, at.line, at.column + start + len(word))


def _lines_meant(lines: Lines) -> list[int]:
    """For each line, counted from 1, the next line after it that holds more than a comment."""
    meant = [lines.count] * (lines.count + 1)
    for number in range(lines.count - 1, -1, -1):
        holds = lines.line(number + 1).strip()[:1] not in ("", "#")
        meant[number] = number + 1 if holds else meant[min(number + 1, lines.count)]
    return meant
