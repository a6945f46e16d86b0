"""Turns what is wrong with a value into a diagnostic at the smallest place in the text.

In: nodes of the tree, and faults of scalars.
Out: diagnostics, unless the node stands in for a value that has been reported before.
Never: a second report of a lost value.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from pydantic_core import PydanticCustomError

from patchwright.core.diagnostics import Findings
from patchwright.core.source import Span, Text
from patchwright.core.tree import Lost, Node
from patchwright.dialect.traps import part_key, report_missing_space


def part_of(node: Text, at: tuple[int, int] | None) -> Span:
    """The place of a part of a text, where the text stands on one line as it reads; else the whole."""
    span = node.span
    width = span.end_column - span.column
    quote = (width - len(node)) // 2
    if at is None or span.line != span.end_line or width - len(node) not in (0, 2):
        return span
    start, end = at
    return Span(span.path, span.line, span.column + quote + start, span.line, span.column + quote + max(end, start + 1))


def report_fault(error: PydanticCustomError | Mapping[str, Any], node: Node, findings: Findings) -> None:
    """Report what a scalar said of its text."""
    context: Mapping[str, Any] = (error.context or {}) if isinstance(error, PydanticCustomError) else error
    if context["code"] == "wrong-shape":
        report_shape(node, str(context["message"]), findings)
    elif not isinstance(node, Lost):
        place = part_of(node, context.get("at")) if isinstance(node, Text) else node.span
        findings.error(str(context["code"]), str(context["message"]), place, *context["hints"])


def report_shape(node: Node, message: str, findings: Findings, *hints: str) -> None:
    """Report a value of the wrong shape, or the missing space that gave it this shape."""
    if isinstance(node, Lost):
        return
    parted = part_key(node) if isinstance(node, Text) else None
    if parted is not None:
        report_missing_space(*parted, node.span, findings)
    else:
        findings.error("wrong-shape", message, node.span, *hints)
