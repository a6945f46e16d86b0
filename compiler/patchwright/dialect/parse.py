"""Reads a pattern or a house file: text → tree → Declared, with every mistake of the dialect found in one run.

In: a `Source`.
Out: the declaration, or `None` if there is any error, and all diagnostics by place.
Never: an exception for any text, a resolved name, or a default.
"""

from __future__ import annotations

from functools import cache
from typing import Any, TypeVar

from pydantic_core import SchemaValidator, ValidationError

from patchwright.core.diagnostics import Diagnostic, Findings
from patchwright.core.source import Source, Span, Text
from patchwright.core.tree import Lost, TreeMap
from patchwright.dialect.declaration import Declaration, validator_of
from patchwright.dialect.declared import HouseDeclaration, PatternDeclaration
from patchwright.dialect.mistakes import report_mistakes
from patchwright.dialect.reader import read_tree
from patchwright.dialect.units import Methods, prepare_units
from patchwright.methods.registry import BY_NAME

DIALECT = "1"

_Declared = TypeVar("_Declared", bound=Declaration)


def read_pattern(
    source: Source, methods: Methods = BY_NAME
) -> tuple[PatternDeclaration | None, tuple[Diagnostic, ...]]:
    """Read a pattern's text; `methods` are the piecing methods that units may use."""
    reading = read_tree(source)
    findings = Findings(list(reading.diagnostics))
    made = None
    tree = reading.tree
    if tree is not None and not _is_house(tree, findings) and not _other_dialect(tree, findings):
        carrier = _Carrier(tree)
        units = tree.get(Text("units"))
        if isinstance(units, TreeMap):
            carrier[Text("units")] = prepare_units(units, methods, findings)
        made = _declare(carrier, tree, PatternDeclaration, findings)
    return (None if findings.has_errors else made), findings.ordered()


def read_house(source: Source) -> tuple[HouseDeclaration | None, tuple[Diagnostic, ...]]:
    """Read a house file's text."""
    reading = read_tree(source)
    findings = Findings(list(reading.diagnostics))
    made = None
    if reading.tree is not None:
        made = _declare(reading.tree, reading.tree, HouseDeclaration, findings)
    return (None if findings.has_errors else made), findings.ordered()


def _is_house(tree: TreeMap, findings: Findings) -> bool:
    """Report house rules where a pattern is wanted: keys of a house file, and none of a pattern."""
    written = {str(name): name.span for name in tree}
    own = [name for name in written if name in HouseDeclaration.keys]
    if not own or any(name in PatternDeclaration.keys for name in written):
        return False
    findings.error(
        "house-file", "this file holds house rules, not a pattern", written[own[0]],
        "name a pattern, or the folder of the patterns; the house rules above a pattern are read and checked with it",
    )
    return True


def _other_dialect(tree: TreeMap, findings: Findings) -> bool:
    """Report a version that this program does not read; the rest of such a file is not judged."""
    version = tree.get(Text("dialect"))
    if not isinstance(version, Text) or isinstance(version, Lost) or not version.isdecimal() or version == DIALECT:
        return False
    findings.error(
        "unknown-dialect", f"dialect {version} is not known to this program", version.span,
        f"write `dialect: {DIALECT}`, or use a newer release of the program",
    )
    return True


def _declare(data: dict[Text, Any], tree: TreeMap, model: type[_Declared], findings: Findings) -> _Declared | None:
    try:
        made = _validators(model.__name__).validate_python(data)
    except ValidationError as error:
        report_mistakes(error, tree, model, findings)
        return None
    return made if isinstance(made, model) else None


@cache
def _validators(name: str) -> SchemaValidator:
    """Each validator is built once, when the first file of its kind is read."""
    return validator_of({model.__name__: model for model in (PatternDeclaration, HouseDeclaration)}[name])


class _Carrier(dict[Text, Any]):
    """The top of the tree with its span, in which prepared units replace the written ones."""

    def __init__(self, tree: TreeMap) -> None:
        super().__init__(tree)
        self.span: Span = tree.span
