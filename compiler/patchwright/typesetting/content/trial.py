"""A test block: what to cut to try one block before cutting everything.

In: the plan's assemblies, units and pieces.
Out: a proposal with the pieces for one block, worked out from its parts.
"""

from __future__ import annotations

from collections import Counter

from patchwright.planning.plan import Assembly
from patchwright.typesetting.booklet import Block, Notice
from patchwright.typesetting.content.names import plain_name
from patchwright.typesetting.content.pieces import counted_piece
from patchwright.typesetting.content.scope import Scope


def trial_block(scope: Scope) -> tuple[Block, ...]:
    """The proposal to make one block first: the one with the most kinds of units, where blocks have any."""
    blocks = [each for each in scope.plan.assemblies if not each.nested and scope.any(each.sizes)]
    if not blocks:
        return (Notice("check", scope.say("test-block.title"), (scope.paragraph("test-block.plain"),)),)
    block = max(blocks, key=lambda each: len(units_of(scope, each)))
    pieces = pieces_for_one(scope, block)
    named = scope.listed([counted_piece(scope, id, count) for id, count in pieces.items()])
    body = (
        scope.paragraph("test-block.words", name=plain_name(block.block), pieces=named),
        scope.paragraph("test-block.extra"),
    )
    return (Notice("check", scope.say("test-block.title"), body),)


def units_of(scope: Scope, block: Assembly) -> Counter[str]:
    """How many of each unit one block holds, those of its inner blocks among them."""
    units: Counter[str] = Counter()
    for part in _parts(block):
        if part[0] == "unit":
            units[part[1]] += 1
        elif part[0] == "assembly":
            units += units_of(scope, scope.assembly(part[1]))
    return units


def pieces_for_one(scope: Scope, block: Assembly) -> dict[str, int]:
    """Pieces to cut for one block, whole batches of its units, in the plan's order of pieces."""
    need = _patches_of(scope, block)
    counts: Counter[str] = Counter()
    for id, count in units_of(scope, block).items():
        counts[_source(scope, id)] += count
    for id, count in counts.items():
        unit = scope.unit(id)
        batch = next(size.recipe.batch for size in (*scope.here(unit.sizes), *unit.sizes) if size is not None)
        for piece in unit.pieces:
            need[piece.piece] += -(-count // batch) * piece.per_batch
    return {piece.id: need[piece.id] for piece in scope.plan.pieces if need[piece.id]}


def _source(scope: Scope, id: str) -> str:
    """The unit from whose batches a unit comes: itself, or its other hand where that gives all of it."""
    unit = scope.unit(id)
    sizes = [size for size in (*scope.here(unit.sizes), *unit.sizes) if size is not None]
    if sizes[0].batches:
        return id
    return next(
        other.id for other in scope.plan.units
        if (other.pieces, other.method) == (unit.pieces, unit.method) and other.hand != unit.hand
    )


def _patches_of(scope: Scope, block: Assembly) -> Counter[str]:
    need: Counter[str] = Counter()
    for kind, ref in _parts(block):
        if kind == "piece":
            need[ref] += 1
        elif kind == "assembly":
            need += _patches_of(scope, scope.assembly(ref))
    return need


def _parts(block: Assembly) -> tuple[tuple[str, str], ...]:
    return tuple((part.kind, part.ref) for line in block.lines for part in line)
