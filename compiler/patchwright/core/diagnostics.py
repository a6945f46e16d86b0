"""What is wrong with a pattern, as data: one `Diagnostic` for each mistake.

In: findings of any stage.
Out: an ordered, deduplicated list of diagnostics; how they look is decided where they are printed.
Never: an exception for a user's mistake, nor a second report of the same one.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Literal

from patchwright.core.source import Span

Severity = Literal["error", "warning"]


@dataclass(frozen=True, slots=True)
class Note:
    """A second place that disagrees with the first, and what stands there."""

    span: Span
    message: str


@dataclass(frozen=True, slots=True)
class Diagnostic:
    """One mistake or doubt: message in lower case without a full stop, code from the table of codes."""

    code: str
    message: str
    span: Span
    severity: Severity = "error"
    notes: tuple[Note, ...] = ()
    hints: tuple[str, ...] = ()


@dataclass(slots=True)
class Findings:
    """Collects the diagnostics of one stage."""

    items: list[Diagnostic] = field(default_factory=list)

    def error(
        self, code: str, message: str, span: Span, *hints: str, notes: Iterable[Note] = (), severity: Severity = "error"
    ) -> None:
        """Add an error (or, by `severity`, a warning) unless the same one is there already."""
        found = Diagnostic(code, message, span, severity, tuple(notes), tuple(hints))
        if found not in self.items:
            self.items.append(found)

    def warning(self, code: str, message: str, span: Span, *hints: str, notes: Iterable[Note] = ()) -> None:
        """Add a warning unless the same one is there already."""
        self.error(code, message, span, *hints, notes=notes, severity="warning")

    @property
    def has_errors(self) -> bool:
        return any(item.severity == "error" for item in self.items)

    def ordered(self) -> tuple[Diagnostic, ...]:
        """All findings by place in the text."""
        return tuple(sorted(self.items, key=lambda item: (item.span, item.code, item.message)))


def nearest_names(word: str, allowed: Iterable[str]) -> tuple[str, ...]:
    """The hints for an unknown word: the nearest match if there is one, then all allowed words."""
    from difflib import get_close_matches

    names = sorted(set(allowed))
    close = get_close_matches(word, names, n=1, cutoff=0.6)
    hints = [f"did you mean `{close[0]}`"] if close else []
    if names:
        hints.append("allowed here: " + ", ".join(f"`{name}`" for name in names))
    return tuple(hints)
