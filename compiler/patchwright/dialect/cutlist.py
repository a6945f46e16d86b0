"""Bare lists of pieces to cut, without a pattern: text → Declared.

In: a file with `lists`, or with one list at its top.
Out: the lists with spans, or every mistake in them.
Never: a plan.
"""

from functools import cache
from typing import Literal

from pydantic_core import SchemaValidator, ValidationError

from patchwright.core.diagnostics import Diagnostic, Findings
from patchwright.core.source import Source, Text
from patchwright.core.tree import TreeList, TreeMap
from patchwright.dialect.declaration import Declaration, key, validator_of
from patchwright.dialect.mistakes import report_mistakes
from patchwright.dialect.reader import read_tree
from patchwright.dialect.scalars import Count, LengthText, PairText, Prose


class CutListDeclaration(Declaration):
    """One list: pieces from cloth of a usable width, or from precuts of one size."""

    name: Prose | None = key("what the list is called")
    lengths: Literal["inches", "centimeters"] | None = key("unit of measure (default: inches)")
    width: LengthText | None = key("usable width of the cloth")
    precut: PairText | None = key("true size of the precuts, where the pieces are cut from those")
    count: Count | None = key("how many precuts there are")
    turn: Literal["yes", "no", "true", "false"] | None = key("whether pieces may be turned on the cloth (default: yes)")
    items: list[list[LengthText]] = key("pieces, each [width, height, count]", default=[])
    join: list[list[LengthText]] = key("joined strips, each [height, total length, loss at each join]", default=[])
    step: LengthText | None = key("the step in which cloth is bought (default: an eighth of a yard, or 10 cm)")
    straightening: LengthText | None = key("taken off each length bought (default: none)")
    k: Count | None = key("the fewest steps that are known to do, for comparison")
    length: LengthText | None = key("the least length that is known to do, for comparison")


class CutListsDeclaration(Declaration):
    """A file of lists."""

    lists: list[CutListDeclaration] = key("the lists", at_least=1, at_most=200)


def read_cut_lists(source: Source) -> tuple[CutListsDeclaration | None, tuple[Diagnostic, ...]]:
    """Read a file of lists, or of one list."""
    reading = read_tree(source)
    findings = Findings(list(reading.diagnostics))
    tree = reading.tree
    if tree is None or findings.has_errors:
        return None, findings.ordered()
    if "lists" not in tree:
        tree = _wrapped(tree)
    made = None
    try:
        made = _validator().validate_python(tree)
    except ValidationError as error:
        report_mistakes(error, tree, CutListsDeclaration, findings)
    if findings.has_errors or not isinstance(made, CutListsDeclaration):
        return None, findings.ordered()
    return made, findings.ordered()


def _wrapped(tree: TreeMap) -> TreeMap:
    """A single list as a file of one."""
    lists = TreeList(tree.span)
    lists.append(tree)
    whole = TreeMap(tree.span)
    whole[Text("lists", tree.span)] = lists
    return whole


@cache
def _validator() -> SchemaValidator:
    return validator_of(CutListsDeclaration)
