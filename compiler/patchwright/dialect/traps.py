"""What YAML does silently, found in the text around its events, and what its errors mean for an author.

In: the text, stretches of it that hold only punctuation and comments, and the parser's own errors.
Out: comments, and diagnostics that say what was lost and how to write it.
Never: a change to the text.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from patchwright.core.diagnostics import Findings
from patchwright.core.source import Source, Span, Text
from patchwright.dialect.lines import Lines

_HEX = r"#(?:[0-9a-fA-F]{6}|[0-9a-fA-F]{3})"
_COLOR = re.compile(_HEX + r"(?![\w-])")
_LONE_COLOR = re.compile(_HEX + r"\s*(?:[,\]}].*)?$")
_COLOR_AHEAD = re.compile(rf"[ ]*({_HEX})(?![\w-])")
_PARTED_KEY = re.compile(r"([A-Za-z][\w-]*):(\S.*)", re.DOTALL)
TIGHT_COLON = re.compile(r"\s*(?:- +)?([a-z][a-z0-9-]*):([^\s:].*)")


@dataclass(frozen=True, slots=True)
class Comment:
    """A comment from its `#` to the end of its line, and what stands before it on the line, without blanks."""

    span: Span
    text: str
    before: str
    start: int = -1
    """Where it begins in the whole text."""


def comments_between(source: Source, lines: Lines, start: int, end: int) -> Iterator[Comment]:
    """The comments in a stretch of the text that holds no value."""
    at = source.text.find("#", start, end)
    while at >= 0:
        number, column = lines.place(at)
        line = lines.line(number)
        span = Span(source.path, number, column, number, len(line) + 1)
        yield Comment(span, line[column - 1 :], line[: column - 1].strip(), at)
        at = source.text.find("#", lines.end(number), end)


def holds_color(comment: Comment) -> bool:
    """Whether a comment inside brackets is a color that was meant as a value."""
    if comment.before[-1:] in (":", "[", "{", ","):
        return _COLOR.match(comment.text) is not None
    return not comment.before and _LONE_COLOR.match(comment.text) is not None


def color_of(comment: Comment) -> str:
    """The color at the start of a comment."""
    match = _COLOR.match(comment.text)
    return match[0] if match else ""


def color_after(lines: Lines, place: Span) -> Comment | None:
    """The color that follows an empty value on its line, as the comment that YAML takes it for."""
    line = lines.line(place.end_line)
    match = _COLOR_AHEAD.match(line, place.end_column - 1)
    if match is None:
        return None
    span = Span(place.path, place.end_line, match.start(1) + 1, place.end_line, match.end(1) + 1)
    return Comment(span, match[1], line[: match.start(1)].strip())


def report_vanished(comment: Comment, findings: Findings) -> None:
    """Report a color without quotes that YAML takes for a comment."""
    color = color_of(comment)
    at = comment.span
    place = Span(at.path, at.line, at.column, at.line, at.column + len(color))
    findings.error(
        "vanished-color", f"the color `{color}` is lost, since `#` begins a comment here", place,
        f'write `"{color}"` in quotes, or `{color[1:]}` without the `#`',
    )


def report_cut_off(comment: Comment, value: Span, findings: Findings) -> bool:
    """Warn of a text that ends at a ` #` which was probably part of it; whether there was such a one."""
    if comment.span.line != value.end_line or comment.text[1:2] in ("", " ", "#", "!"):
        return False
    word = comment.text.split()[0]
    findings.warning(
        "cut-off-text", f"the value ends before `{word}`, since `#` after a space begins a comment", comment.span,
        "put the value in quotes if this belongs to it; write a space after `#` if it is a comment",
    )
    return True


def part_key(key: Text) -> tuple[Text, Text] | None:
    """The key and value of `squares:10 in`, which YAML reads as one key, or `None`."""
    match = _PARTED_KEY.fullmatch(key)
    if match is None or key.span.line != key.span.end_line:
        return None
    at = key.span
    colon = at.column + match.end(1)
    name = Text(match[1], Span(at.path, at.line, at.column, at.line, colon))
    return name, Text(match[2], Span(at.path, at.line, colon + 1, at.line, at.end_column))


def report_missing_space(name: str, value: str, place: Span, findings: Findings) -> None:
    """Report `squares:10 in`."""
    findings.error(
        "missing-space", f"`{name}:{value}` is read as one word, since no space follows the colon", place,
        f"write `{name}: {value}`",
    )


def report_empty_value(key: Text, flow: bool, colon: bool, findings: Findings) -> None:
    """Report a key without a value."""
    hints = ["write a value after the colon, or leave the key out; a mapping without keys is `{}`"]
    if flow and not colon:
        hints = [f"write `{key}: value`", "if it belongs to the text before the comma, put that whole text in quotes"]
    findings.error("empty-value", f"`{key}` has no value", key.span, *hints)
