"""Single values of the dialect: each reads one text, keeps its span, and describes itself for the JSON Schema.

In: `Text` scalars with their spans.
Out: typed values with the same spans.
Never: a value taken from a type that YAML guessed; `no`, `12:30` and `010` arrive here as they were typed.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any, ClassVar, Self

from patchwright.core.geometry import Orientation
from patchwright.core.measure import Measure, parse_measure, parse_number
from patchwright.core.source import NOWHERE, Span, span_of
from patchwright.dialect.faults import (
    NAME_PATTERN,
    NUMBER_PATTERN,
    check_leading_zero,
    check_name,
    fault,
    item_fault,
)

MOST_REPEATS = 200
_LENGTHS = "write lengths like `2 1/2`, `2½`, `2.5 in` or `6 cm`"
_COLOR = re.compile(r"#?([0-9a-fA-F]{6}|[0-9a-fA-F]{3})")
_ITEM = re.compile(
    rf"(?P<name>{NAME_PATTERN})(?:/(?P<other>{NAME_PATTERN}))?"
    rf"(?:\s+(?P<width>{NUMBER_PATTERN})\s*[x×]\s*(?P<height>{NUMBER_PATTERN}))?"
    r"\s*(?P<mirror>@mirror)?\s*(?:@(?P<turn>0|90|180|270))?\s*(?:\*(?P<repeat>\d{1,4}))?"
)


class KeyText:
    """Marks a name as a mapping's key, which stays the `Text` that it was written as."""

    @classmethod
    def validate(cls, value: str) -> str:
        """Take a key that is a name, as it is."""
        check_name(value)
        return value


class AsGiven:
    """Marks a value that has been read before and is taken as it is."""


class Scalar:
    """The base of typed scalars: subclasses read text in `read` and name their JSON Schema in `json_schema`."""

    json_schema: ClassVar[dict[str, Any]] = {"type": "string"}

    @classmethod
    def read(cls, text: str, span: Span) -> Self:
        """Read one text; raise a fault with one of our codes if it is not such a value."""
        raise TypeError(f"{cls.__name__} reads nothing")

    @classmethod
    def validate(cls, value: object) -> Self:
        """Take a node of the tree, or a value that was read before."""
        if isinstance(value, cls):
            return value
        if not isinstance(value, str):
            kind = "a mapping" if isinstance(value, Mapping) else "a list"
            raise fault("wrong-shape", f"one value is expected here, not {kind}")
        return cls.read(str(value), span_of(value))


@dataclass(frozen=True, slots=True)
class Prose(Scalar):
    """Text for people: a title, a summary, Markdown."""

    text: str
    span: Span = field(default=NOWHERE, compare=False)
    json_schema: ClassVar[dict[str, Any]] = {"type": ["string", "number"]}

    @classmethod
    def read(cls, text: str, span: Span) -> Self:
        if not text.strip():
            raise fault("empty-value", "there is no text here", "write some text, or leave the key out")
        return cls(text, span)


@dataclass(frozen=True, slots=True)
class Name(Scalar):
    """A name of a fabric, unit, block, pack or size: lower case letters, digits and single hyphens."""

    text: str
    span: Span = field(default=NOWHERE, compare=False)
    json_schema: ClassVar[dict[str, Any]] = {"type": "string", "pattern": f"^{NAME_PATTERN}$"}

    @classmethod
    def read(cls, text: str, span: Span) -> Self:
        check_name(text)
        return cls(text, span)


@dataclass(frozen=True, slots=True)
class Switch(Scalar):
    """`yes` or `no`."""

    on: bool
    span: Span = field(default=NOWHERE, compare=False)
    json_schema: ClassVar[dict[str, Any]] = {"anyOf": [{"enum": ["yes", "no"]}, {"type": "boolean"}]}

    @classmethod
    def read(cls, text: str, span: Span) -> Self:
        if text not in ("yes", "no"):
            raise fault("not-a-switch", f"`{text}` is neither `yes` nor `no`", "write `yes` or `no`")
        return cls(text == "yes", span)


@dataclass(frozen=True, slots=True)
class Count(Scalar):
    """A whole number from 1 up to 100,000."""

    number: int
    span: Span = field(default=NOWHERE, compare=False)
    json_schema: ClassVar[dict[str, Any]] = {
        "anyOf": [{"type": "integer", "minimum": 1, "maximum": 100000}, {"type": "string", "pattern": r"^\d{1,6}$"}]
    }

    @classmethod
    def read(cls, text: str, span: Span) -> Self:
        check_leading_zero(text)
        if re.fullmatch(r"[0-9]{1,6}", text) is None or not 1 <= int(text) <= 100000:
            raise fault("not-a-count", f"`{text}` is not a count", "a count is a whole number from 1 to 100000")
        return cls(int(text), span)


@dataclass(frozen=True, slots=True)
class LengthText(Scalar):
    """A length such as `2 1/2 in`, `2½` or `6 cm`."""

    measure: Measure
    text: str
    span: Span = field(default=NOWHERE, compare=False)
    json_schema: ClassVar[dict[str, Any]] = {"type": ["string", "number"], "examples": ["2 1/2 in", "2½", "6 cm"]}

    @classmethod
    def read(cls, text: str, span: Span) -> Self:
        return cls(_measure(text, text), text, span)


@dataclass(frozen=True, slots=True)
class PairText(Scalar):
    """Width x height: `2 x 1` in cells, or `3 in x 1 1/2 in` absolute; `absolute` tells which."""

    width: Measure
    height: Measure
    text: str
    span: Span = field(default=NOWHERE, compare=False)
    json_schema: ClassVar[dict[str, Any]] = {"type": ["string", "number"], "examples": ["2 x 1", "3 in x 1 1/2 in"]}

    @property
    def absolute(self) -> bool:
        """Whether the sides are lengths rather than cells."""
        return self.width.system is not None

    @classmethod
    def read(cls, text: str, span: Span) -> Self:
        parts = re.split(r"\s*[x×]\s*", text.strip())
        if len(parts) not in (1, 2):
            raise fault("not-a-size", f"`{text}` is not a size", "write width x height, such as `2 x 1` or `10 in`")
        width = _measure(parts[0], text)
        height = _measure(parts[-1], text)
        if (width.system is None) != (height.system is None):
            system = width.system or height.system
            width, height = Measure(width.value, system), Measure(height.value, system)
        return cls(width, height, text, span)


@dataclass(frozen=True, slots=True)
class Percent(Scalar):
    """A number of hundredths, such as `3 %`."""

    value: Fraction
    span: Span = field(default=NOWHERE, compare=False)
    json_schema: ClassVar[dict[str, Any]] = {"type": ["string", "number"], "examples": ["3 %"]}

    @classmethod
    def read(cls, text: str, span: Span) -> Self:
        try:
            number = parse_number(text.strip().removesuffix("%"))
        except ValueError:
            raise fault("not-a-percentage", f"`{text}` is not a percentage", "write it like `3 %`") from None
        return cls(number, span)


@dataclass(frozen=True, slots=True)
class Color(Scalar):
    """Three or six hexadecimal digits, with or without `#`; kept as lower-case `#rrggbb`."""

    value: str
    span: Span = field(default=NOWHERE, compare=False)
    json_schema: ClassVar[dict[str, Any]] = {
        "type": ["string", "number"], "examples": ["#2f6f7e", "2f6f7e"],
        "pattern": "^#?([0-9a-fA-F]{6}|[0-9a-fA-F]{3})$",
    }

    @classmethod
    def read(cls, text: str, span: Span) -> Self:
        match = _COLOR.fullmatch(text)
        if match is None:
            raise fault("not-a-color", f"`{text}` is not a color", "write six hexadecimal digits, such as `2f6f7e`")
        digits = match[1].lower()
        return cls("#" + (digits if len(digits) == 6 else "".join(digit * 2 for digit in digits)), span)


@dataclass(frozen=True, slots=True)
class ItemText(Scalar):
    """One item of a row: `deck 6x1`, `turn@90`, `wave@mirror@90*3`, `red/cream`."""

    name: str
    other: str
    """The second fabric of a half-square without a name, or nothing."""
    width: Fraction | None
    height: Fraction | None
    orientation: Orientation
    repeat: int
    text: str
    span: Span = field(default=NOWHERE, compare=False)
    json_schema: ClassVar[dict[str, Any]] = {
        "type": "string", "examples": ["deck", "deck 2x1", "turn@90", "wave@mirror@180*3", "red/cream"],
        "pattern": f"^{re.sub(r'[?]P<[a-z]+>', '', _ITEM.pattern)}$",
    }

    @classmethod
    def read(cls, text: str, span: Span) -> Self:
        match = _ITEM.fullmatch(text.strip())
        if match is None:
            raise item_fault(text.strip())
        width, height = (_cells(match[side], text) for side in ("width", "height"))
        repeat = int(match["repeat"] or 1)
        if not 1 <= repeat <= MOST_REPEATS:
            raise fault("repeat-out-of-range", f"`*{repeat}` is out of range", f"repeat from 1 to {MOST_REPEATS} times")
        lay = Orientation(int(match["turn"] or 0) // 90, match["mirror"] is not None)
        return cls(match["name"], match["other"] or "", width, height, lay, repeat, text, span)


def _cells(text: str | None, whole: str) -> Fraction | None:
    if text is None:
        return None
    check_leading_zero(whole)
    try:
        number = parse_number(text)
    except ValueError as error:
        raise fault("invalid-item", f"in `{whole}`, {error}", "a size in cells looks like `2x1`") from None
    if number <= 0:
        raise fault("size-out-of-range", f"`{whole}` has a side of no cells", "sizes are above zero")
    return number


def _measure(text: str, whole: str) -> Measure:
    check_leading_zero(whole)
    if not text.strip():
        raise fault("not-a-length", f"a length is missing in `{whole}`", _LENGTHS)
    try:
        measure = parse_measure(text)
    except ValueError as error:
        code = "unknown-length-unit" if "unit of length" in str(error) else "not-a-length"
        raise fault(
            code, f"in `{whole}`, {error}" if text != whole else str(error),
            _LENGTHS,
        ) from None
    if measure.value < 0:
        raise fault("negative-length", f"`{whole}` is below zero", "lengths are zero or more")
    return measure
