"""The closed set of names that an author's prose may fill in, and what is wrong with the names in a text.

In: a plan, and prose with `{{ name }}` in it.
Out: the names there are; the names in the prose that there are not.
Never: a value; those are printed where booklets are made, under the same names.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from patchwright.planning.plan import Plan

VALUE = re.compile(r"\{\{\s*([^{}]*?)\s*\}\}")


def value_names(plan: Plan) -> frozenset[str]:
    """Every name that prose of this pattern may use."""
    return frozenset(_names(plan))


def unknown_values(text: str, plan: Plan) -> tuple[str, ...]:
    """The names in a text that do not exist, in order."""
    known = value_names(plan)
    return tuple(match[1] for match in VALUE.finditer(text) if match[1] not in known)


def has_open_value(text: str) -> bool:
    """Whether a `{{` lacks its `}}`, or the other way round."""
    rest = VALUE.sub("", text)
    return "{{" in rest or "}}" in rest


def _names(plan: Plan) -> Iterator[str]:
    yield from ("pattern.title", "pattern.skill", "pattern.sizes", "release")
    yield from ("house.name", "house.seam", "house.usable-width")
    yield from (f"quilt.{what}" for what in ("finished", "across", "down", "blocks", "batting"))
    for size in plan.sizes:
        yield from (f"size.{size.name}.{what}" for what in ("name", "finished", "across", "down", "blocks"))
    for fabric in plan.fabrics:
        yield from (f"fabric.{fabric.id}.{what}" for what in ("name", "letter", "buy"))
    for pack in plan.packs:
        yield f"pack.{pack.id}.buy"
    for name in dict.fromkeys(assembly.block for assembly in plan.assemblies):
        yield from (f"block.{name}.{what}" for what in ("size", "unfinished", "count"))
    for name in dict.fromkeys(unit.name for unit in plan.units if unit.name):
        yield from (f"unit.{name}.{what}" for what in ("size", "unfinished", "count"))
