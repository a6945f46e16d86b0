"""Values that authors fill into their prose: a closed set of names, each a number or name of the plan.

In: a plan and the sizes that a booklet covers.
Out: the set of names; prose with its `{{ name }}` filled in, or the names in it that do not exist.
Never: an expression; a name is looked up and nothing else.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from patchwright.planning.plan import Plan
from patchwright.planning.prose_values import VALUE
from patchwright.typesetting.content.buying import pack_amount, shopping_amount
from patchwright.typesetting.content.editions import EDITIONS
from patchwright.typesetting.content.names import skill_text
from patchwright.typesetting.content.scope import Extent, Scope, each
from patchwright.wording import Wording, load_wording

_MARKDOWN = re.compile(r"([\\`*_{}\[\]()#+\-.!<>|&~])")


@dataclass(frozen=True, slots=True)
class UnknownValue:
    """A name between `{{` and `}}` that the plan does not have, and where it stands in the text."""

    name: str
    start: int
    end: int


def fill(text: str, plan: Plan, sizes: Sequence[str], wording: Wording | None = None) -> str | tuple[UnknownValue, ...]:
    """The text with its values printed for these sizes, or all unknown names in it.

    A value that differs by size is listed by size; none of its characters can become Markdown.
    """
    values = values_of(plan, sizes, wording or load_wording(plan.rules.language))
    found = tuple(UnknownValue(match[1], match.start(1), match.end(1)) for match in VALUE.finditer(text))
    unknown = tuple(value for value in found if value.name not in values)
    return unknown or VALUE.sub(lambda match: _MARKDOWN.sub(r"\\\1", values[match[1]]), text)


def values_of(plan: Plan, sizes: Sequence[str], wording: Wording) -> dict[str, str]:
    """Every value by its name, printed for these sizes."""
    chosen = tuple(index for index, size in enumerate(plan.sizes) if size.name in sizes)
    scope = Scope(plan, {}, wording.measured_in(plan.system), EDITIONS["all-sizes"], chosen)
    return dict((*_pattern(scope), *_sizes(scope), *_quilt(scope), *_fabrics(scope), *_blocks(scope), *_units(scope)))


def _pattern(scope: Scope) -> Iterable[tuple[str, str]]:
    plan = scope.plan
    yield "pattern.title", plan.title
    yield "pattern.skill", skill_text(scope)
    yield "pattern.sizes", scope.wording.listed_text([size.label for size in scope.sizes])
    yield "release", scope.wording.number(plan.release)
    yield "house.name", plan.rules.name
    yield "house.seam", scope.wording.length(plan.rules.seam)
    yield "house.usable-width", scope.wording.length(plan.rules.usable_width)


def _sizes(scope: Scope) -> Iterable[tuple[str, str]]:
    for size in scope.plan.sizes:
        yield f"size.{size.name}.name", size.label
        yield f"size.{size.name}.finished", scope.extent(size.finished)
        yield f"size.{size.name}.across", scope.wording.number(size.across)
        yield f"size.{size.name}.down", scope.wording.number(size.down)
        yield f"size.{size.name}.blocks", scope.wording.number(size.across * size.down)


def _quilt(scope: Scope) -> Iterable[tuple[str, str]]:
    sizes = scope.plan.sizes
    number = scope.wording.number
    yield "quilt.finished", _extents(scope, [size.finished for size in sizes])
    yield "quilt.across", scope.by_size_inline(scope.valued([size.across for size in sizes]), number)
    yield "quilt.down", scope.by_size_inline(scope.valued([size.down for size in sizes]), number)
    yield "quilt.blocks", scope.by_size_inline(scope.valued([size.across * size.down for size in sizes]), number)
    yield "quilt.batting", _extents(scope, [size.batting for size in sizes])


def _fabrics(scope: Scope) -> Iterable[tuple[str, str]]:
    for fabric in scope.plan.fabrics:
        yield f"fabric.{fabric.id}.name", fabric.name
        yield f"fabric.{fabric.id}.letter", fabric.letter
        amounts = scope.valued(
            [None if size is None else shopping_amount(scope, fabric, size) for size in fabric.sizes]
        )
        yield f"fabric.{fabric.id}.buy", scope.by_size_inline(amounts, str)
    for pack in scope.plan.packs:
        packs = scope.valued([pack_amount(scope, pack, use.packs) if use else None for use in pack.sizes])
        yield f"pack.{pack.id}.buy", scope.by_size_inline(packs, str)


def _blocks(scope: Scope) -> Iterable[tuple[str, str]]:
    for name in dict.fromkeys(assembly.block for assembly in scope.plan.assemblies):
        alike = [assembly.sizes for assembly in scope.plan.assemblies if assembly.block == name and not assembly.coped]
        first = [next((size for size in by_size if size), None) for by_size in zip(*alike, strict=True)]
        counts = [sum(size.count for size in by_size if size) or None for by_size in zip(*alike, strict=True)]
        yield f"block.{name}.size", _extents(scope, each(first, lambda size: size.finished))
        yield f"block.{name}.unfinished", _extents(scope, each(first, lambda size: size.unfinished))
        yield f"block.{name}.count", scope.by_size_inline(scope.valued(counts), scope.wording.number)


def _units(scope: Scope) -> Iterable[tuple[str, str]]:
    for name in dict.fromkeys(unit.name for unit in scope.plan.units if unit.name):
        alike = [unit.sizes for unit in scope.plan.units if unit.name == name]
        first = [next((size for size in by_size if size), None) for by_size in zip(*alike, strict=True)]
        counts = [sum(size.need for size in by_size if size) or None for by_size in zip(*alike, strict=True)]
        yield f"unit.{name}.size", _extents(scope, each(first, lambda size: size.finished))
        yield f"unit.{name}.unfinished", _extents(scope, each(first, lambda size: size.unfinished))
        yield f"unit.{name}.count", scope.by_size_inline(scope.valued(counts), scope.wording.number)


def _extents(scope: Scope, extents: Sequence[Extent | None]) -> str:
    return scope.by_size_inline(scope.valued(extents), scope.extent)
