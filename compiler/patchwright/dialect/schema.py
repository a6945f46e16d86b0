"""The JSON Schema of the dialect, for editors that complete and check while one types.

In: the declarations with their tables of keys, and the piecing methods.
Out: a schema (draft 2020-12) of a pattern or a house file, and its text, the same on every run.
Never: a rule that the reader of patterns does not have; but some of its rules cannot be said in a schema.
What editors take for numbers and switches is accepted, since the reader sees it as it was typed.
"""

from __future__ import annotations

import json
from typing import Any, Literal, get_args, get_origin

from patchwright.dialect.declaration import Declaration, KeyInfo, as_declaration
from patchwright.dialect.declared import HouseDeclaration, PatternDeclaration, UnitDeclaration
from patchwright.dialect.faults import NAME_PATTERN
from patchwright.dialect.scalars import LengthText, Name, Scalar
from patchwright.dialect.units import Methods
from patchwright.methods.method import Key, Method
from patchwright.methods.registry import BY_NAME

Schema = dict[str, Any]

_DRAFT = "https://json-schema.org/draft/2020-12/schema"
_SWITCH_WORDS = ("yes", "no")


def json_schema(methods: Methods = BY_NAME) -> Schema:
    """The schema of a pattern."""
    return _whole(PatternDeclaration, "A quilt pattern", methods)


def house_json_schema() -> Schema:
    """The schema of a house file."""
    return _whole(HouseDeclaration, "House rules and imprint", {})


def schema_text(schema: Schema) -> str:
    """A schema as text."""
    return json.dumps(schema, ensure_ascii=False, indent=2) + "\n"


def _whole(model: type[Declaration], title: str, methods: Methods) -> Schema:
    definitions: dict[str, Schema] = {}
    body = _object(model, definitions, methods)
    return {"$schema": _DRAFT, "title": title, **body, "$defs": dict(sorted(definitions.items()))}


def _object(model: type[Declaration], definitions: dict[str, Schema], methods: Methods) -> Schema:
    """The schema of one mapping of the dialect."""
    keys = [info for info in model.keys.values() if not info.internal]
    return {
        "description": _first_sentences(model),
        "type": "object",
        "properties": {info.name: _key(info, definitions, methods) for info in keys},
        "required": [info.name for info in keys if info.required],
        "additionalProperties": False,
    }


def _first_sentences(model: type[Declaration]) -> str:
    return " ".join((model.__doc__ or "").split())


def _key(info: KeyInfo, definitions: dict[str, Schema], methods: Methods) -> Schema:
    schema = _taken(info.takes, definitions, methods)
    bounds = ("minItems", "maxItems") if schema.get("type") == "array" else ("minProperties", "maxProperties")
    limits = zip(bounds, (info.at_least, info.at_most), strict=True)
    return {"description": info.doc, **schema, **{name: limit for name, limit in limits if limit is not None}}


def _taken(annotation: Any, definitions: dict[str, Schema], methods: Methods) -> Schema:
    """The schema of what a key takes."""
    origin = get_origin(annotation)
    model = as_declaration(annotation)
    if model is not None:
        return _reference(model, definitions, methods)
    if origin is Literal:
        return _words(get_args(annotation))
    if origin is list:
        return {"type": "array", "items": _taken(get_args(annotation)[0], definitions, methods)}
    if origin is dict:
        return {
            "type": "object",
            "propertyNames": {"pattern": f"^{NAME_PATTERN}$"},
            "additionalProperties": _taken(get_args(annotation)[1], definitions, methods),
        }
    if hasattr(annotation, "__metadata__"):
        return {**_taken(annotation.__origin__, definitions, methods), "minItems": annotation.__metadata__[0]}
    if isinstance(annotation, type) and issubclass(annotation, Scalar):
        return dict(annotation.json_schema)
    raise TypeError(f"no schema for {annotation}")


def _words(words: tuple[str, ...]) -> Schema:
    """One of several words; where `yes` and `no` are among them, editors see switches, and whole numbers as numbers."""
    switches = [True, False] if set(_SWITCH_WORDS) <= set(words) else []
    numbers = [int(word) for word in words if word.isdecimal()]
    return {"enum": [*words, *switches, *numbers]}


def _reference(model: type[Declaration], definitions: dict[str, Schema], methods: Methods) -> Schema:
    name = model.__name__.removesuffix("Declaration").lower()
    if name not in definitions:
        definitions[name] = {}
        is_unit = model is UnitDeclaration
        definitions[name] = _unit(definitions, methods) if is_unit else _object(model, definitions, methods)
    keys = {"$ref": f"#/$defs/{name}"}
    return keys if model.text_schema is None else {"anyOf": [keys, dict(model.text_schema)]}


def _unit(definitions: dict[str, Schema], methods: Methods) -> Schema:
    """A unit: one alternative for each method, with its roles and keys."""
    common = {
        info.name: _key(info, definitions, methods) for info in UnitDeclaration.keys.values() if not info.internal
    }
    return {
        "description": _first_sentences(UnitDeclaration),
        "type": "object",
        "oneOf": [_made_by(method, common) for method in methods.values()],
    }


def _made_by(method: Method, common: dict[str, Schema]) -> Schema:
    own = {key.name: _own_key(key) for key in method.keys}
    return {
        "title": method.name,
        "properties": {method.name: {"description": method.doc, **_fabrics(method)}, **own, **common},
        "required": [method.name],
        "additionalProperties": False,
    }


def _fabrics(method: Method) -> Schema:
    needed = [role.name for role in method.roles if role.required]
    places = {role.name: {"description": role.doc, **Name.json_schema} for role in method.roles}
    if not method.listed:
        return {"type": "object", "properties": places, "required": needed, "additionalProperties": False}
    listed: Schema = {"type": "array", "prefixItems": list(places.values()), "items": False, "minItems": len(needed)}
    return {"anyOf": [listed, *places.values()]} if len(method.roles) == 1 else listed


def _own_key(key: Key) -> Schema:
    default = {"default": key.default} if key.default else {}
    if key.kind == "word":
        return {"description": key.doc, **_words(key.choices), **default}
    if key.kind == "text":
        return {"description": key.doc, "type": "string", **default}
    return {"description": key.doc, **LengthText.json_schema, **default}
