"""Values that a quilt's fit on a bed may leave open, and the short way of writing such a fit.

In: texts such as `fit`, `6`, `4 in`, or `queen, drop 12 in, tuck 12 in`.
Out: a count or a width that is written or left open; the keys of a fit as if they had been written one by one.
Never: a bed's size; the table of beds is in Design.
"""

# Annotations are evaluated here as they stand; the table of keys is made from them.
import re
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any, ClassVar, Self

from patchwright.core.source import NOWHERE, Span, Text
from patchwright.core.tree import TreeMap
from patchwright.dialect.declaration import Declaration, key
from patchwright.dialect.faults import fault
from patchwright.dialect.scalars import Count, LengthText, Name, Percent, Scalar

OPEN = "fit"
"""Stands for a count or a width that is left to be fitted to the bed."""
_SCALARS: dict[str, type[Name] | type[LengthText] | type[Percent]] = {
    "drop": LengthText, "foot": LengthText, "tuck": LengthText, "within": LengthText, "borders": Percent,
}
_EXAMPLE = (
    "write a bed, then what you need of `drop`, `foot`, `tuck`, `within` and `borders`, such as "
    "`queen, drop 12 in, tuck 10 in`"
)
_FIT_TEXT: dict[str, Any] = {"type": "string", "examples": ["queen, drop 12 in"]}


@dataclass(frozen=True, slots=True)
class BlockCount(Scalar):
    """A whole number of blocks, or `fit`."""

    number: int | None
    """None where it is left open."""
    span: Span = field(default=NOWHERE, compare=False)
    json_schema: ClassVar[dict[str, Any]] = {"anyOf": [{"enum": [OPEN]}, Count.json_schema]}

    @classmethod
    def read(cls, text: str, span: Span) -> Self:
        return cls(None if text == OPEN else Count.read(text, span).number, span)


@dataclass(frozen=True, slots=True)
class BorderWidth(Scalar):
    """A length, or `fit`."""

    length: LengthText | None
    """None where it is left open."""
    span: Span = field(default=NOWHERE, compare=False)
    json_schema: ClassVar[dict[str, Any]] = LengthText.json_schema

    @classmethod
    def read(cls, text: str, span: Span) -> Self:
        return cls(None if text == OPEN else LengthText.read(text, span), span)


class FitDeclaration(Declaration):
    """The bed that a quilt is made for, and how it lies there; in one line: queen, drop 12 in."""

    text_schema = _FIT_TEXT
    bed: Name | None = key("a mattress by its name, such as queen")
    drop: LengthText | None = key("how far the quilt hangs down at both sides and at the foot")
    foot: LengthText | None = key("how far it hangs down at the foot, where that differs")
    tuck: LengthText | None = key("more length at the head, to tuck under pillows (default: 0)")
    within: LengthText | None = key("how far the finished quilt may be off (default: 2 in or 5 cm)")
    borders: Percent | None = key("by how much proposals may narrow or widen borders (default: 50 %)")

    @classmethod
    def _make(cls, data: Any, handler: Callable[[Any], Any]) -> Self:
        return super()._make(_fit_keys(data) if isinstance(data, Text) else data, handler)


def _fit_keys(text: Text) -> TreeMap:
    """The keys of a fit that is written in one line; a fault names the part that is wrong."""
    made: Any = TreeMap(text.span)
    start = 0
    for part in text.split(","):
        word = part.strip()
        begin = start + len(part) - len(part.lstrip())
        at = (begin, begin + len(word))
        start += len(part) + 1
        if not made:
            made[Text("bed", text.span)] = Name.read(word, text.span)
            continue
        name, _, value = word.partition(" ")
        if name not in _SCALARS:
            raise fault("not-a-fit", f"`{word}` says nothing of how the quilt fits its bed", _EXAMPLE, at=at)
        if name in made:
            raise fault("not-a-fit", f"`{name}` stands here twice", "keep one of them", at=at)
        if not re.search(r"\S", value):
            raise fault("not-a-fit", f"`{name}` has no value", _EXAMPLE, at=at)
        made[Text(name, text.span)] = _SCALARS[name].read(value.strip(), text.span)
    return made  # type: ignore[no-any-return]
