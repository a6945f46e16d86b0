"""One mapping of a theme's text: typed access to its values that notes every mistake with its place.

Never: an exception for what a theme's author wrote. A wrong value is noted and a harmless one returned in its place.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Literal

import yaml

from patchwright.core.source import Span, Text, span_of
from patchwright.core.theme import TokenMistake

LARGEST_FILE = 64 * 1024
DEEPEST = 8

_LOADER = getattr(yaml, "CBaseLoader", yaml.BaseLoader)
_COLOR = re.compile(r"#[0-9a-fA-F]{6}")
_NUMBER = re.compile(r"\d{1,6}(\.\d{1,8})?")

Value = Text | list["Value"] | dict[Text, "Value"]


class TokenTable:
    """A mapping under its full name; each access marks a key as known, and `close` reports the others."""

    def __init__(self, name: str, values: dict[Text, Value], span: Span, mistakes: list[TokenMistake]) -> None:
        self._name = name
        self._values = values
        self._span = span
        self._mistakes = mistakes
        self._known: set[str] = set()

    def number(self, key: str, low: float, high: float, default: float | None = None) -> float:
        """A number from `low` to `high`."""
        value = self._scalar(key, f"a number from {low:g} to {high:g}", optional=default is not None)
        if value is None:
            return low if default is None else default
        if _NUMBER.fullmatch(value) and low <= float(value) <= high:
            return float(value)
        self.wrong(key, f"a number from {low:g} to {high:g}", value)
        return low

    def whole(self, key: str, low: int, high: int) -> int:
        """A whole number from `low` to `high`."""
        expected = f"a whole number from {low} to {high}"
        value = self._scalar(key, expected)
        if value is None:
            return low
        if value.isdecimal() and value.isascii() and len(value) < 4 and low <= int(value) <= high:
            return int(value)
        self.wrong(key, expected, value)
        return low

    def numbers(self, key: str, low: float, high: float, default: tuple[float, ...]) -> tuple[float, ...]:
        """Numbers with spaces between them."""
        value = self._scalar(key, "numbers", optional=True)
        if value is None:
            return default
        words = value.split()
        if words and len(words) <= 8 and all(_NUMBER.fullmatch(word) and low <= float(word) <= high for word in words):
            return tuple(float(word) for word in words)
        self.wrong(key, f"numbers from {low:g} to {high:g} with spaces between them", value)
        return default

    def color(self, key: str) -> str:
        """A color as `#rrggbb`."""
        value = self._scalar(key, "a color such as `#1c2a35`")
        if value is None or _COLOR.fullmatch(value):
            return str(value or "#000000").lower()
        self.wrong(key, "a color such as `#1c2a35`", value)
        return "#000000"

    def text(self, key: str) -> str:
        """Any text that is not empty."""
        value = self._scalar(key, "a name")
        if value is not None and not value.strip():
            self.wrong(key, "a name", value)
        return value or ""

    def word(self, key: str, allowed: Sequence[str], default: str | None = None) -> str:
        """One of the allowed words."""
        expected = " or ".join(f"`{word}`" for word in allowed)
        value = self._scalar(key, expected, optional=default is not None)
        if value is None:
            return default or allowed[0]
        if value not in allowed:
            self.wrong(key, expected, value)
            return allowed[0]
        return value

    def table(self, key: str) -> TokenTable:
        """A mapping, empty where it is missing or something else."""
        self._known.add(key)
        value = self._values.get(Text(key))
        if not isinstance(value, dict):
            self._note("missing" if value is None else "wrong", key, "a mapping", _found(value))
            return _Silent(self._full(key))
        return TokenTable(self._full(key), value, self._key_span(key), self._mistakes)

    def tables(self, key: str, default: tuple[TokenTable, ...] | None = None) -> tuple[TokenTable, ...]:
        """A list of mappings."""
        self._known.add(key)
        value = self._values.get(Text(key))
        if value is None and default is not None:
            return default
        if not isinstance(value, list) or not value or not all(isinstance(one, dict) for one in value):
            self._note("missing" if value is None else "wrong", key, "a list of mappings", _found(value))
            return ()
        span = self._key_span(key)
        return tuple(
            TokenTable(f"{self._full(key)}[{number}]", one, span, self._mistakes)
            for number, one in enumerate(value)
            if isinstance(one, dict)
        )

    def wrong(self, key: str, expected: str, found: str) -> None:
        """Note a value that cannot be used."""
        self._note("wrong", key, expected, found)

    def close(self) -> None:
        """Report the keys that nothing asked for."""
        for key in self._values:
            if key not in self._known:
                expected = "one of " + ", ".join(f"`{name}`" for name in sorted(self._known))
                self._mistakes.append(TokenMistake("unknown", self._full(key), expected, key, span_of(key)))

    def _scalar(self, key: str, expected: str, optional: bool = False) -> Text | None:
        self._known.add(key)
        value = self._values.get(Text(key))
        if isinstance(value, Text):
            return value
        if value is not None or not optional:
            self._note("missing" if value is None else "wrong", key, expected, _found(value))
        return None

    def _note(self, problem: Literal["missing", "wrong"], key: str, expected: str, found: str) -> None:
        self._mistakes.append(TokenMistake(problem, self._full(key), expected, found, self._key_span(key)))

    def _full(self, key: str) -> str:
        return f"{self._name}.{key}" if self._name else key

    def _key_span(self, key: str) -> Span:
        return next((span_of(known) for known in self._values if known == key), self._span)


class _Silent(TokenTable):
    """What stands for a mapping that is missing: one mistake for it is enough."""

    def __init__(self, name: str) -> None:
        super().__init__(name, {}, Span("", 0, 0, 0, 0), [])


def read_table(text: str, path: str, mistakes: list[TokenMistake]) -> TokenTable | None:
    """Read a whole file as one mapping; None, with a mistake noted, where it is not one."""
    fault = _unsafe(text, path)
    if fault is None:
        root = yaml.compose(text, Loader=_LOADER)
        if isinstance(root, yaml.MappingNode):
            value = _value(root, path, "", mistakes)
            if isinstance(value, dict):
                return TokenTable("", value, Span(path, 1, 1, 1, 1), mistakes)
        fault = TokenMistake("unreadable", "", "a mapping of tokens", "", Span(path, 1, 1, 1, 1))
    mistakes.append(fault)
    return None


def _unsafe(text: str, path: str) -> TokenMistake | None:
    """What makes the text unfit to be composed: too long, too deep, not well formed, or with anchors."""
    if len(text) > LARGEST_FILE:
        return TokenMistake("unreadable", "", f"at most {LARGEST_FILE} characters", "", Span(path, 1, 1, 1, 1))
    depth = 0
    try:
        for event in yaml.parse(text, Loader=_LOADER):
            depth += isinstance(event, yaml.CollectionStartEvent) - isinstance(event, yaml.CollectionEndEvent)
            if depth > DEEPEST or isinstance(event, yaml.AliasEvent) or getattr(event, "anchor", None):
                expected = f"no anchors and at most {DEEPEST} levels"
                return TokenMistake("unreadable", "", expected, "", _span(event, path))
    except yaml.YAMLError as error:
        found = getattr(error, "problem_mark", None)
        line, column = (found.line + 1, found.column + 1) if found else (1, 1)
        place = Span(path, line, column, line, column + 1)
        return TokenMistake("unreadable", "", "well-formed YAML", str(getattr(error, "problem", "") or ""), place)
    return None


def _value(node: yaml.Node, path: str, name: str, mistakes: list[TokenMistake]) -> Value:
    """The plain value of a node; a key that stands twice is noted."""
    span = _span(node, path)
    if isinstance(node, yaml.SequenceNode):
        return [_value(one, path, name, mistakes) for one in node.value]
    if isinstance(node, yaml.MappingNode):
        values: dict[Text, Value] = {}
        for key_node, value_node in node.value:
            key = Text(str(key_node.value), _span(key_node, path))
            full = f"{name}.{key}" if name else str(key)
            if key in values:
                mistakes.append(TokenMistake("wrong", full, "each token once", key, key.span))
            values[key] = _value(value_node, path, full, mistakes)
        return values
    return Text(str(node.value), span)


def _span(node: yaml.Node | yaml.Event, path: str) -> Span:
    start, end = node.start_mark, node.end_mark
    if start is None or end is None:
        return Span(path, 1, 1, 1, 1)
    return Span(path, start.line + 1, start.column + 1, end.line + 1, end.column + 1)


def _found(value: Value | None) -> str:
    return "" if value is None else "a mapping" if isinstance(value, dict) else "a list"
