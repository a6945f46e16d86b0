"""Reads units: one piecing method's key with its fabrics, and the method's own keys.

In: the mapping `units` of the tree, and the methods there are.
Out: for each unit what its declaration holds, or nothing where it has been reported as wrong.
Never: knowledge of any one method.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from pydantic_core import PydanticCustomError

from patchwright.core.diagnostics import Findings, Note, nearest_names
from patchwright.core.source import Span, Text
from patchwright.core.tree import Lost, Node, TreeList, TreeMap
from patchwright.dialect.places import report_fault, report_shape
from patchwright.dialect.scalars import LengthText, Name
from patchwright.methods.method import Key, Method

COMMON_KEYS = ("size", "strip-piece")

Methods = Mapping[str, Method]


class PreparedUnit(dict[str, Any]):
    """What a unit's declaration is made from, with the unit's span and the keys as they were written."""

    def __init__(self, node: TreeMap) -> None:
        super().__init__()
        self.span: Span = node.span
        self.written: tuple[Text, ...] = tuple(node)


def prepare_units(units: TreeMap, methods: Methods, findings: Findings) -> dict[Text, PreparedUnit]:
    """Read every unit; those with mistakes are reported and stand there without a method."""
    prepared: dict[Text, PreparedUnit] = {}
    for name, node in units.items():
        if isinstance(node, TreeMap):
            prepared[name] = _prepare(name, node, methods, findings)
        else:
            prepared[name] = PreparedUnit(TreeMap(node.span))
            example = f"write a method with its fabrics, such as `{name}: {{{_example(methods)}}}`"
            report_shape(node, f"the unit `{name}` needs a piecing method", findings, example)
    return prepared


def _prepare(name: Text, node: TreeMap, methods: Methods, findings: Findings) -> PreparedUnit:
    unit = PreparedUnit(node)
    found = [key for key in node if key in methods]
    if not found:
        _report_no_method(name, node, methods, findings)
        return unit
    if len(found) > 1:
        findings.error(
            "unit-two-methods", f"the unit `{name}` has two methods, `{found[0]}` and `{found[1]}`", found[1].span,
            "one unit is made by one method; write two units", notes=(Note(found[0].span, "the first is here"),),
        )
        return unit
    method = methods[found[0]]
    unit["method"] = method.name
    unit["fabrics"] = _read_fabrics(method, node[found[0]], findings)
    own = {key.name: key for key in method.keys}
    words: list[tuple[str, str, Span]] = []
    extents: list[tuple[str, LengthText]] = []
    for key, value in node.items():
        if key in own:
            _read_own(own[key], value, words, extents, findings)
        elif key in COMMON_KEYS:
            unit[key] = value
        elif key != method.name:
            allowed = nearest_names(key, [method.name, *own, *COMMON_KEYS])
            findings.error("unknown-key", f"a unit made by `{method.name}` has no key `{key}`", key.span, *allowed)
    unit["words"], unit["extents"] = tuple(words), tuple(extents)
    return unit


def _report_no_method(name: Text, node: TreeMap, methods: Methods, findings: Findings) -> None:
    strange = [key for key in node if key not in COMMON_KEYS]
    place = strange[0].span if strange else name.span
    hints = nearest_names(strange[0], methods) if strange else nearest_names("", methods)
    message = f"`{strange[0]}` is not a piecing method" if strange else f"the unit `{name}` has no piecing method"
    findings.error("unit-without-method", message, place, *hints)


def _read_fabrics(method: Method, value: Node, findings: Findings) -> tuple[tuple[str, Name], ...]:
    if isinstance(value, Lost):
        return ()
    pairs = _listed(method, value, findings) if method.listed else _by_role(method, value, findings)
    read: dict[str, Name] = {}
    for role, node in pairs:
        try:
            if not isinstance(node, Lost):
                read[role] = Name.validate(node)
        except PydanticCustomError as error:
            report_fault(error, node, findings)
    return tuple((role.name, read[role.name]) for role in method.roles if role.name in read)


def _listed(method: Method, value: Node, findings: Findings) -> list[tuple[str, Node]]:
    required = [role for role in method.roles if role.required]
    if isinstance(value, Text) and len(method.roles) == 1:
        return [(method.roles[0].name, value)]
    if not isinstance(value, TreeList):
        report_shape(value, f"`{method.name}` takes a list of fabrics", findings, _hint(method))
        return []
    if len(value) > len(method.roles):
        extra = value[len(method.roles)]
        message = f"`{method.name}` takes {_fabrics(len(method.roles))}; here are {len(value)}"
        findings.error("too-many-fabrics", message, extra.span, _hint(method))
    elif len(value) < len(required):
        missing = ", ".join(f"`{role.name}`" for role in method.roles[len(value) :] if role.required)
        message = f"`{method.name}` takes {_fabrics(len(required))}; {missing} is missing"
        findings.error("missing-role", message, value.span, _hint(method))
    return [(role.name, node) for role, node in zip(method.roles, value, strict=False)]


def _by_role(method: Method, value: Node, findings: Findings) -> list[tuple[str, Node]]:
    if not isinstance(value, TreeMap):
        report_shape(value, f"`{method.name}` takes its fabrics by name", findings, _hint(method))
        return []
    names = [role.name for role in method.roles]
    strange = [key for key in value if key not in names]
    for key in strange:
        hints = nearest_names(key, names)
        findings.error("unknown-role", f"`{method.name}` has no place called `{key}`", key.span, *hints)
    missing = [role.name for role in method.roles if role.required and role.name not in value]
    if len(missing) > len(strange):  # Otherwise the strange ones are the missing ones, misspelled.
        listed = " and ".join(f"`{name}`" for name in missing)
        message = f"`{method.name}` needs a fabric for {listed}"
        findings.error("missing-role", message, value.span, _hint(method))
    return [(str(key), node) for key, node in value.items() if key in names]


def _read_own(
    key: Key, value: Node, words: list[tuple[str, str, Span]], extents: list[tuple[str, LengthText]], findings: Findings
) -> None:
    """Read a key of the method's own into `words` or `extents`."""
    if isinstance(value, Lost):
        return
    if key.kind == "extent":
        try:
            extents.append((key.name, LengthText.validate(value)))
        except PydanticCustomError as error:
            report_fault(error, value, findings)
    elif not isinstance(value, Text):
        takes = "a text" if key.kind == "text" else "one word"
        report_shape(value, f"`{key.name}` takes {takes}", findings, *nearest_names("", key.choices))
    elif key.kind == "word" and value not in key.choices:
        hints = nearest_names(value, key.choices)
        findings.error("unknown-word", f"`{key.name}` cannot be `{value}`", value.span, *hints)
    else:
        words.append((key.name, str(value), value.span))


def _fabrics(number: int) -> str:
    return "1 fabric" if number == 1 else f"{number} fabrics"


def _hint(method: Method) -> str:
    """How a method's fabrics are written."""
    required = [role for role in method.roles if role.required] or list(method.roles)
    fabrics = ", ".join(role.name.upper() if method.listed else f"{role.name}: FABRIC" for role in required)
    return f"write `{method.name}: {'[' + fabrics + ']' if method.listed else '{' + fabrics + '}'}`"


def _example(methods: Methods) -> str:
    return next((_hint(method).removeprefix("write `").removesuffix("`") for method in methods.values()), "")
