"""The base of all declarations: classes whose annotated keys describe themselves to the validator and the schema.

In: one class for each mapping of the dialect.
Out: frozen objects with spans; the table of a class's keys; the validator's schema for it.
Never: a key that the table does not have. The validator's core is used directly, since building it from these tables
costs a tenth of what building it through model classes does, and every run of the command pays for it.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from inspect import get_annotations
from types import NoneType, UnionType
from typing import Annotated, Any, ClassVar, Literal, NoReturn, Self, Union, get_args, get_origin

from pydantic_core import SchemaValidator, core_schema

from patchwright.core.source import NOWHERE, Span, span_of
from patchwright.dialect.scalars import AsGiven, KeyText, Scalar


@dataclass(frozen=True, slots=True)
class KeyInfo:
    """One key of a mapping: what it is called in the text, what it takes, and what editors say of it."""

    name: str
    attribute: str
    doc: str
    takes: Any
    """The annotation, without `None`."""
    required: bool
    at_least: int | None = None
    at_most: int | None = None
    internal: bool = False
    """Filled in by the reader, never written by an author."""


@dataclass(slots=True)
class _Written:
    """What a class says of a key beside its annotation, until its table of keys is made."""

    doc: str
    at_least: int | None
    at_most: int | None
    default: Any


_NO_DEFAULT: Any = object()


def key(doc: str, *, at_least: int | None = None, at_most: int | None = None, default: Any = _NO_DEFAULT) -> Any:
    """Declare a key with its description and, for lists and mappings, the least and most entries.

    It is required unless its annotation allows `None` or it has a default.
    """
    return _Written(doc, at_least, at_most, default)


class Declaration:
    """The base of all mappings: frozen, no unknown keys, with the spans of the mapping and of its keys."""

    keys: ClassVar[Mapping[str, KeyInfo]] = {}
    """The keys by the name that an author writes."""
    text_schema: ClassVar[Mapping[str, Any] | None] = None
    """How editors check a text that may stand in place of the keys; None where only keys are read."""
    _defaults: ClassVar[Mapping[str, Any]] = {}
    span: Span
    """Where the mapping stands."""
    key_spans: Mapping[str, Span]
    """Where its keys stand, by the name that was written."""

    def __init_subclass__(cls) -> None:
        own, defaults = dict(cls.keys), dict(cls._defaults)
        for attribute, annotation in get_annotations(cls).items():
            written = cls.__dict__.get(attribute)
            if isinstance(written, _Written):
                info, default = _key_info(attribute, annotation, written)
                own[info.name] = info
                if not info.required:
                    defaults[attribute] = default
                delattr(cls, attribute)
        cls.keys, cls._defaults = own, defaults

    def __init__(self, span: Span = NOWHERE, key_spans: Mapping[str, Span] | None = None, **values: Any) -> None:
        """Make a declaration by attributes; those left out take their defaults."""
        filled = {name: dict(value) if isinstance(value, dict) else value for name, value in self._defaults.items()}
        attributes = filled | values | {"span": span, "key_spans": dict(key_spans or {})}
        for name, value in attributes.items():
            object.__setattr__(self, name, value)

    def __setattr__(self, name: str, value: object) -> NoReturn:
        raise AttributeError(f"a declaration is never changed: {name}")

    def __eq__(self, other: object) -> bool:
        return type(other) is type(self) and self._values() == other._values()

    __hash__ = None  # type: ignore[assignment]

    def __repr__(self) -> str:
        return f"{type(self).__name__}({', '.join(f'{name}={value!r}' for name, value in self._values().items())})"

    def _values(self) -> dict[str, Any]:
        """What is compared and shown: everything but places."""
        return {info.attribute: getattr(self, info.attribute) for info in self.keys.values()}

    def key_span(self, key: str) -> Span:
        """Where a key (as written, with hyphens) stands; the mapping's own span if it is not there."""
        return self.key_spans.get(key, self.span)

    def has(self, key: str) -> bool:
        """Whether the author wrote the key."""
        return key in self.key_spans

    @classmethod
    def _make(cls, data: Any, handler: Callable[[Any], Any]) -> Self:
        values = handler(data)
        spans = {str(name): span_of(name) for name in getattr(data, "written", data)}
        return cls(span_of(data), spans, **values)


def bare(annotation: Any) -> Any:
    """An annotation without `None`."""
    if get_origin(annotation) in (Union, UnionType):
        return next(part for part in get_args(annotation) if part is not NoneType)
    return annotation


def as_declaration(annotation: Any) -> type[Declaration] | None:
    """The declaration that an annotation asks for, if it does."""
    return annotation if isinstance(annotation, type) and issubclass(annotation, Declaration) else None


def validator_of(model: type[Declaration]) -> SchemaValidator:
    """The validator that reads a tree as a declaration."""
    return SchemaValidator(_schema_of(model, None, None))


def _key_info(attribute: str, annotation: Any, written: _Written) -> tuple[KeyInfo, Any]:
    takes = bare(annotation)
    optional = takes is not annotation
    required = not optional and written.default is _NO_DEFAULT
    name = attribute.replace("_", "-")
    info = KeyInfo(
        name, attribute, written.doc, takes, required, written.at_least, written.at_most, takes_given(takes)
    )
    return info, None if optional else written.default


def takes_given(annotation: Any) -> bool:
    """Whether a value is taken as it is, having been read before."""
    return get_origin(annotation) is Annotated and AsGiven in annotation.__metadata__


def _schema_of(annotation: Any, at_least: int | None, at_most: int | None) -> core_schema.CoreSchema:
    """The validator's schema for what a key takes."""
    origin = get_origin(annotation)
    model = as_declaration(annotation)
    if model is not None:
        return core_schema.no_info_wrap_validator_function(model._make, _fields_schema(model))
    if origin is Literal:
        return core_schema.literal_schema(list(get_args(annotation)))
    if origin is list:
        entry = _schema_of(get_args(annotation)[0], None, None)
        return core_schema.list_schema(entry, min_length=at_least, max_length=at_most)
    if origin is dict:
        name, entry = (_schema_of(part, None, None) for part in get_args(annotation))
        return core_schema.dict_schema(name, entry, min_length=at_least, max_length=at_most)
    if origin is Annotated:
        return _annotated_schema(annotation)
    if isinstance(annotation, type) and issubclass(annotation, Scalar):
        return core_schema.no_info_plain_validator_function(annotation.validate)
    raise TypeError(f"no key can take {annotation}")


def _annotated_schema(annotation: Any) -> core_schema.CoreSchema:
    mark = annotation.__metadata__[0]
    if mark is AsGiven:
        return core_schema.any_schema()
    if mark is KeyText:
        return core_schema.no_info_plain_validator_function(KeyText.validate)
    return _schema_of(annotation.__origin__, int(mark), None)


def _fields_schema(model: type[Declaration]) -> core_schema.CoreSchema:
    fields = {
        info.attribute: core_schema.typed_dict_field(
            _schema_of(info.takes, info.at_least, info.at_most), required=info.required, validation_alias=info.name
        )
        for info in model.keys.values()
    }
    return core_schema.typed_dict_schema(fields, extra_behavior="forbid")
