"""Turns what the validator found into diagnostics with our codes and words, at the places in the text.

In: the validator's errors, the tree that it read, and the declaration that it read it as.
Out: one diagnostic for each mistake, with the words and keys that would do.
Never: the validator's own words, or a value that has been reported as lost.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Any, Literal, get_args, get_origin

from pydantic_core import ValidationError

from patchwright.core.diagnostics import Findings, nearest_names
from patchwright.core.source import Span, Text
from patchwright.core.tree import Lost, Node, TreeList, TreeMap
from patchwright.dialect.builder import MOST_MISTAKES, report_too_many
from patchwright.dialect.declaration import Declaration, as_declaration
from patchwright.dialect.places import report_fault, report_shape

_Model = type[Declaration]


def report_mistakes(error: ValidationError, tree: TreeMap, root: _Model, findings: Findings) -> None:
    """Report every mistake."""
    for item in error.errors(include_url=False, include_input=False):
        place = _Place.at(item["loc"], tree, root)
        if len(findings.items) >= MOST_MISTAKES:
            report_too_many(place.around_span, findings)
            break
        if not isinstance(place.node, Lost):
            _report(item["type"], item.get("ctx", {}), place, findings)


@dataclass(frozen=True, slots=True)
class _Place:
    """Where a mistake is: the value, the mapping or list around it, its key, and what was expected there."""

    node: Node | None
    """`None` where a key is missing."""
    around: Node
    around_label: str
    around_span: Span
    key: str
    expected: Any
    """The annotation of the value, or nothing for an unknown key."""
    model: _Model | None
    """The declaration that the mapping around it was read as."""

    @classmethod
    def at(cls, path: tuple[int | str, ...], tree: TreeMap, root: _Model) -> _Place:
        """Follow a path of keys and numbers through the tree and the declarations side by side."""
        if path and path[-1] == "[key]":
            return cls._of_key(path[:-1], tree)
        node: Node | None = tree
        around: Node = tree
        around_span = span = first_place(tree.span)
        expected: Any = root
        model: _Model | None = None
        for step in path:
            if node is None:
                break
            around, around_span, model = node, span, as_declaration(expected)
            node, span = _child(around, step, span)
            expected = _expected_below(expected, step)
        label = ".".join(str(step) for step in path[:-1] if isinstance(step, str))
        return cls(node, around, label, around_span, str(path[-1]) if path else "", expected, model)

    @classmethod
    def _of_key(cls, path: tuple[int | str, ...], tree: TreeMap) -> _Place:
        around: Node | None = tree
        for step in path[:-1]:
            around = None if around is None else _child(around, step, tree.span)[0]
        key = around.key(str(path[-1])) if isinstance(around, TreeMap) else None
        return cls(key, around or tree, "", tree.span, str(path[-1]), None, None)


def _child(node: Node, step: int | str, span: Span) -> tuple[Node | None, Span]:
    """The value below `node`, and the span by which people know it: its key's, or for an entry its own."""
    if isinstance(node, TreeMap) and isinstance(step, str):
        key = node.key(step)
        return (None, span) if key is None else (node[key], key.span)
    if isinstance(node, TreeList) and isinstance(step, int):
        return node[step], node[step].span
    return None, span


def first_place(span: Span) -> Span:
    """The first character of a stretch of the text."""
    return Span(span.path, span.line, span.column, span.line, span.column + 1)


def _expected_below(annotation: Any, step: int | str) -> Any:
    """The annotation of what stands below a mapping's key or in a list."""
    plain = _plain(annotation)
    if get_origin(plain) in (dict, list):
        return get_args(plain)[-1]
    model = as_declaration(plain)
    info = model.keys.get(str(step)) if model else None
    return info.takes if info else None


def _plain(annotation: Any) -> Any:
    """An annotation without what is noted beside it."""
    return annotation.__origin__ if get_origin(annotation) is Annotated else annotation


def _report(kind: str, context: Any, place: _Place, findings: Findings) -> None:
    if kind == "missing":
        _missing_key(place, findings)
    elif place.node is None:
        raise TypeError(f"the validator reports `{kind}` at a place that the tree does not have: {place.key}")
    elif kind == "extra_forbidden":
        _unknown_key(place, findings)
    elif kind == "patchwright":
        report_fault(context, place.node, findings)
    elif kind == "too_short":
        message = f"{_called(place)} has no entries"
        findings.error("no-entries", message, first_place(place.node.span), "write at least one")
    elif kind == "too_long":
        message = f"{_called(place)} has {len(place.node)} entries; at most {context['max_length']} are read"
        findings.error("too-many-entries", message, first_place(place.node.span))
    else:
        _wrong_value(place, place.node, findings)


def _names(model: _Model) -> list[str]:
    return [info.name for info in model.keys.values() if not info.internal]


def _called(place: _Place) -> str:
    return f"`{place.key}`" if isinstance(place.around, TreeMap) else f"an entry of `{place.around_label}`"


def _missing_key(place: _Place, findings: Findings) -> None:
    model = place.model
    info = model.keys.get(place.key) if model else None
    doc = f": {info.doc}" if info else ""
    where = f"`{place.around_label}`" if place.around_label else "the file"
    findings.error(
        "missing-key", f"{where} has no `{place.key}`", place.around_span, f"write `{place.key}: …`{doc}"
    )


def _unknown_key(place: _Place, findings: Findings) -> None:
    written = place.around.key(place.key) if isinstance(place.around, TreeMap) else None
    allowed = _names(place.model) if place.model else []
    where = f"`{place.around_label}`" if place.around_label else "the file"
    span = written.span if written is not None else place.around_span
    findings.error("unknown-key", f"{where} has no key `{place.key}`", span, *nearest_names(place.key, allowed))


def _wrong_value(place: _Place, node: Node, findings: Findings) -> None:
    """Report a value that is a text, a list or a mapping where another of these is expected, or an unknown word."""
    expected = _plain(place.expected)
    model = as_declaration(expected)
    if get_origin(expected) is Literal:
        words = [str(word) for word in get_args(expected)]
        if isinstance(node, Text):
            message = f"{_called(place)} cannot be `{node}`"
            findings.error("unknown-word", message, node.span, *nearest_names(node, words))
        else:
            report_shape(node, f"{_called(place)} takes one word", findings, *nearest_names("", words))
    elif get_origin(expected) is list:
        hint = "write the entries in `[` and `]`, or below each other with `- `"
        if isinstance(node, Text):
            hint = f"write `[{node}]`"
        report_shape(node, f"{_called(place)} takes a list", findings, hint)
    elif model is not None:
        keys = nearest_names("", _names(model))
        report_shape(node, f"{_called(place)} takes keys with values", findings, *keys)
    else:
        message = f"{_called(place)} takes names with what they stand for"
        report_shape(node, message, findings, "write `NAME: …` for each")
