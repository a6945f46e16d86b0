"""Which seams to chain-piece in units and blocks, and in straight rows of a top.

In: a unit, an assembly or the rows of a top.
Out: a sentence with the pairs that begin its rows (or columns), those that are alike together, and how many of each.
Rule: two pairs are alike when one is the other turned by half; a mirrored pair is another one.
Never: a pair of parts that lie in different rows.
"""

from __future__ import annotations

from collections.abc import Sequence

from patchwright.methods.registry import BY_NAME
from patchwright.planning.plan import Assembly, Placed, PlannedSize, PlannedUnit
from patchwright.planning.pressing.tops import sewn_rows
from patchwright.typesetting.content.scope import Scope, each

_Sewn = tuple[tuple[str, int], tuple[str, int]]


def chain_words(scope: Scope, assembly: Assembly) -> str:
    """`Chain-piece alike pairs …: 42 that begin rows 1 and 3 …`; nothing for a block that has but one such row."""
    alike = alike_pairs(assembly, _free(scope))
    if sum(map(len, alike)) < 2:
        return ""
    sizes = dict.fromkeys(map(len, alike))
    groups = [_group(scope, assembly, [lines for lines in alike if len(lines) == count]) for count in sizes]
    more = any(len(line) > 2 for line in assembly.lines)
    said = scope.say("chain.pairs", pairs=scope.say("by-size.between-long").join(groups))
    return f"{said} {scope.say('chain.more')}" if more else said


def chained_units(scope: Scope, unit: PlannedUnit) -> str:
    """How many times each seam of a unit's batches is sewn in one chain; nothing for one batch, or for strip sets."""
    counts = scope.valued(each(unit.sizes, lambda size: size.batches))
    stages = [stage for size in scope.here(unit.sizes) if size is not None
              for stage in BY_NAME[unit.method].stages(size.request, size.recipe)]
    strips = any(choice is not None and choice.strips for choice in unit.choices)
    if strips or not any(stage.kind == "sew" for stage in stages) or min(count for _, count in counts) < 2:
        return ""
    return scope.say("chain.units", total=scope.by_size_inline(counts, scope.wording.number))


def chained_rows(scope: Scope, sizes: Sequence[PlannedSize]) -> str:
    """The first pairs of the rows of the top, one after another; nothing where a size has but one row, or one part."""
    rows = [[row for row in sewn_rows(size) if not row.is_strip and len(row.items) > 1] for size in sizes]
    counts = tuple((size.label, len(own)) for size, own in zip(sizes, rows, strict=True))
    if min(count for _, count in counts) < 2:
        return ""
    said = scope.say("chain.rows", total=scope.by_size_inline(counts, scope.wording.number))
    more = any(len(row.items) > 2 for own in rows for row in own)
    return f"{said} {scope.say('chain.more')}" if more else said


def alike_pairs(assembly: Assembly, free: frozenset[str] = frozenset()) -> tuple[tuple[int, ...], ...]:
    """The lines whose first two parts are sewn alike, numbered from 1; `free` are pieces that look alike turned."""
    found: dict[_Sewn, list[int]] = {}
    for number, line in enumerate(assembly.lines, 1):
        if len(line) > 1:
            found.setdefault(_sewn(line[0], line[1], free), []).append(number)
    return tuple(tuple(lines) for lines in found.values())


def _sewn(first: Placed, second: Placed, free: frozenset[str]) -> _Sewn:
    """A pair as it is sewn, the same for the pair turned by half."""
    as_drawn = _part(first, 0, free), _part(second, 0, free)
    turned = _part(second, 2, free), _part(first, 2, free)
    return min(as_drawn, turned)


def _part(part: Placed, more: int, free: frozenset[str]) -> tuple[str, int]:
    return part.ref, 0 if part.ref in free else (part.orientation.turns + more) % 4


def _free(scope: Scope) -> frozenset[str]:
    """Plain pieces whose print has no direction."""
    return frozenset(piece.id for piece in scope.plan.pieces if not piece.upright)


def _group(scope: Scope, assembly: Assembly, kinds: Sequence[tuple[int, ...]]) -> str:
    """Kinds of pairs of which there are equally many."""
    counts = scope.valued(each(assembly.sizes, lambda size: size.count * len(kinds[0])))
    named = [
        scope.say(f"chain.group.{assembly.axis}", count=len(lines), numbers=scope.wording.listed_text(
            [str(number) for number in lines]
        ))
        for lines in kinds
    ]
    return scope.say(
        "chain.group.each" if len(kinds) > 1 else "chain.group.all", pairs=scope.wording.listed_text(named),
        total=scope.by_size_inline(counts, scope.wording.number),
    )
