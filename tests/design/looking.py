"""Diagnostics as a reader sees them: code, what is underlined, message and hints."""

from __future__ import annotations

from dataclasses import dataclass

from patchwright.core.diagnostics import Diagnostic
from patchwright.core.source import Span
from planning.compiling import compile_text


@dataclass(frozen=True, slots=True)
class Shown:
    code: str
    at: str
    """The text that is underlined."""
    message: str
    hints: str
    notes: tuple[str, ...]
    """The text that each note underlines."""
    path: str


def shown(text: str, house: str = "", severity: str = "error") -> list[Shown]:
    """All diagnostics of this severity, in the order of the text."""
    found = [item for item in compile_text(text, house)[1] if item.severity == severity]
    return [_shown(item, {"sample.yaml": text, "house.yaml": house}) for item in found]


def only(text: str, house: str = "", severity: str = "error") -> Shown:
    """The one diagnostic of this severity."""
    found = shown(text, house, severity)
    if len(found) != 1:
        raise ValueError([(one.code, one.message) for one in found])
    return found[0]


def _shown(item: Diagnostic, texts: dict[str, str]) -> Shown:
    return Shown(
        item.code, _underlined(item.span, texts), item.message, "; ".join(item.hints),
        tuple(_underlined(note.span, texts) for note in item.notes), item.span.path,
    )


def _underlined(span: Span, texts: dict[str, str]) -> str:
    lines = texts[span.path].splitlines()
    if span.line != span.end_line:
        return lines[span.line - 1][span.column - 1 :].strip()
    return lines[span.line - 1][span.column - 1 : span.end_column - 1]
