"""Where text came from: files as they were read, and spans that point into them.

Never: a span in a comparison or a cache key; two things that differ only in where they were written are equal.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, order=True)
class Span:
    """A stretch of one file: lines and columns from 1, the end column exclusive."""

    path: str
    line: int
    column: int
    end_line: int
    end_column: int

    def __str__(self) -> str:
        return f"{self.path}:{self.line}:{self.column}"


@dataclass(frozen=True, slots=True)
class Source:
    """One file's text under the name that messages give it."""

    path: str
    text: str

    def line(self, number: int) -> str:
        """The text of a line, counted from 1, or nothing past the end."""
        lines = self.text.splitlines()
        return lines[number - 1] if 1 <= number <= len(lines) else ""


NOWHERE = Span("", 0, 0, 0, 0)
"""The span of what no text caused, such as a rule's default."""


class Text(str):
    """A string that keeps the span it was read from; equal and hashed as the plain string."""

    span: Span

    def __new__(cls, value: str, span: Span = NOWHERE) -> Text:
        made = super().__new__(cls, value)
        made.span = span
        return made


def span_of(value: object) -> Span:
    """The span that a value carries, or `NOWHERE`."""
    span = getattr(value, "span", NOWHERE)
    return span if isinstance(span, Span) else NOWHERE
