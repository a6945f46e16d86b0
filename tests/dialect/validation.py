"""A validator for the part of JSON Schema that the dialect's schemas use; a keyword it does not know is an error."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

_TYPES: dict[str, tuple[type, ...]] = {
    "object": (dict,), "array": (list,), "string": (str,), "boolean": (bool,),
    "number": (int, float), "integer": (int,),
}
_SILENT = {"$schema", "title", "description", "$defs", "examples", "default"}


def faults(value: Any, schema: Any, root: Any, path: str = "") -> Iterator[str]:
    """Where a value does not fit a schema."""
    if schema is False:
        yield f"{path}: nothing is allowed here"
        return
    if schema is True:
        return
    for keyword in schema:
        if keyword not in _SILENT:
            yield from _KEYWORDS[keyword](value, schema, root, path)


def _ref(value: Any, schema: Any, root: Any, path: str) -> Iterator[str]:
    yield from faults(value, root["$defs"][schema["$ref"].removeprefix("#/$defs/")], root, path)


def _type(value: Any, schema: Any, root: Any, path: str) -> Iterator[str]:
    names = schema["type"] if isinstance(schema["type"], list) else [schema["type"]]
    fitting = [name for name in names if isinstance(value, _TYPES[name])]
    if not fitting or (isinstance(value, bool) and "boolean" not in names):
        yield f"{path}: not {names}"


def _enum(value: Any, schema: Any, root: Any, path: str) -> Iterator[str]:
    if not any(value is item or (isinstance(value, str) and value == item) for item in schema["enum"]):
        yield f"{path}: {value!r} is none of {schema['enum']}"


def _pattern(value: Any, schema: Any, root: Any, path: str) -> Iterator[str]:
    if isinstance(value, str) and re.search(schema["pattern"], value) is None:
        yield f"{path}: {value!r} does not match"


def _range(value: Any, schema: Any, root: Any, path: str) -> Iterator[str]:
    if isinstance(value, int) and not schema["minimum"] <= value <= schema["maximum"]:
        yield f"{path}: {value} is out of range"


def _sizes(value: Any, schema: Any, root: Any, path: str) -> Iterator[str]:
    least = schema.get("minItems", schema.get("minProperties", 0))
    most = schema.get("maxItems", schema.get("maxProperties", 10**9))
    if isinstance(value, list | dict) and not least <= len(value) <= most:
        yield f"{path}: {len(value)} entries"


def _properties(value: Any, schema: Any, root: Any, path: str) -> Iterator[str]:
    if isinstance(value, dict):
        known = schema.get("properties", {})
        for name, item in value.items():
            rule = known.get(name, schema.get("additionalProperties", True))
            yield from faults(item, rule, root, f"{path}.{name}")
            yield from faults(name, schema.get("propertyNames", True), root, f"{path}.{name}")


def _others(value: Any, schema: Any, root: Any, path: str) -> Iterator[str]:
    """Keys of any name; where some names are known, those are looked at together with the others."""
    if "properties" not in schema:
        yield from _properties(value, schema, root, path)


def _required(value: Any, schema: Any, root: Any, path: str) -> Iterator[str]:
    if isinstance(value, dict):
        yield from (f"{path}: no {name}" for name in schema["required"] if name not in value)


def _items(value: Any, schema: Any, root: Any, path: str) -> Iterator[str]:
    if isinstance(value, list):
        first = schema.get("prefixItems", [])
        for number, item in enumerate(value):
            rule = first[number] if number < len(first) else schema.get("items", True)
            yield from faults(item, rule, root, f"{path}[{number}]")


def _nothing(value: Any, schema: Any, root: Any, path: str) -> Iterator[str]:
    yield from ()


def _alternatives(value: Any, schema: Any, root: Any, path: str) -> Iterator[str]:
    tried = [list(faults(value, item, root, path)) for item in schema.get("anyOf", schema.get("oneOf", []))]
    fitting = sum(not found for found in tried)
    if fitting == 0 or (fitting > 1 and "oneOf" in schema):
        yield f"{path}: {fitting} alternatives fit"


_KEYWORDS = {
    "$ref": _ref, "type": _type, "enum": _enum, "pattern": _pattern, "minimum": _range, "maximum": _nothing,
    "minItems": _sizes, "maxItems": _sizes, "minProperties": _sizes, "maxProperties": _sizes,
    "properties": _properties, "additionalProperties": _others, "propertyNames": _nothing, "required": _required,
    "items": _items, "prefixItems": _nothing, "anyOf": _alternatives, "oneOf": _alternatives,
}
