"""Samples of a top for a class: a row or a corner that shows what the blocks alone do not, or the layers of blocks.

In: one size of a plan.
Out: `TopSamples`: stages in the order of showing, the blocks and pieces that they take, and pieces of batting.
Rule: shown is where sashing meets its cornerstones, a diagonal row with its setting triangles, and every layer of a
block that is quilted by itself; a top of blocks alone is shown by the samples of its blocks.
Never: a part that the top does not have at that place.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

from patchwright.core.length import Length
from patchwright.planning.plan import LayeredBlocks, Plan, PlannedByBlock, PlannedSize, TopItem
from patchwright.planning.pressing.tops import TopRow, first_chain, top_rows

TRIANGLES = {"none": 1, "once": 2, "twice": 4}
"""How many parts of a top a square gives, by how often it is cut on the diagonal."""
LAYERED = {
    "rag": (("layered", 1), ("quilted", 1), ("rag-joined", 2), ("clipped", 2)),
    "quilted": (("layered", 1), ("quilted", 1), ("trimmed", 1), ("fronts-joined", 2), ("closed", 2)),
}
"""The stages of blocks that get layers of their own, with how many blocks each takes."""
Kind = Literal["corner", "row", "layers"]


@dataclass(frozen=True, slots=True)
class TopSamples:
    """Samples of a top."""

    kind: Kind
    stages: tuple[str, ...]
    """`rows`, `joined`, `row`, or those of `LAYERED`."""
    parts: tuple[tuple[str, int], ...]
    """(id of an assembly or a piece, count); of a piece that is cut on the diagonal, whole squares."""
    batting: tuple[tuple[tuple[Length, Length], int], ...] = ()
    """(cut size, count)."""


def top_samples(plan: Plan, size: PlannedSize) -> TopSamples | None:
    """What a class is shown of a top; nothing where its blocks' samples show it all."""
    if size.by_block is not None:
        return _layers(size, size.by_block)
    if size.float is not None or any(item.part == "setting-triangles" for item in size.items):
        rows = [row for row in first_chain(size) or top_rows(size) if not row.is_strip and len(row.items) > 1]
        return TopSamples("row", ("row",), _counted(plan, rows[0].items, 1)) if rows else None
    return _corner(plan, top_rows(size)) if size.setting == "straight" and size.sash_width is not None else None


def _corner(plan: Plan, rows: Sequence[TopRow]) -> TopSamples | None:
    """The first two parts of a row of blocks, and of the row of sashing beside it where that is pieced too."""
    blocks = next((row for row in rows if not row.is_strip and len(row.items) > 1), None)
    strips = next((row for row in rows if row.is_strip and len(row.items) > 1), None)
    if blocks is None or not any(item.part == "sashing" for item in blocks.items[:2]):
        return None
    if strips is None:
        return TopSamples("row", ("sashed-row",), _counted(plan, blocks.items[:2], 1))
    return TopSamples("corner", ("rows", "joined"), _counted(plan, (*blocks.items[:2], *strips.items[:2]), 2))


def _layers(size: PlannedSize, by_block: PlannedByBlock) -> TopSamples | None:
    """One block or two at every stage, with their backs and batting."""
    row = top_rows(size)[0].items
    if len(row) < 2:
        return None
    stages = LAYERED[by_block.way]
    parts: Counter[str] = Counter()
    batting: Counter[tuple[Length, Length]] = Counter()
    for _, blocks in stages:
        for item in row[:blocks]:
            layers = _layers_of(by_block.blocks, item)
            parts[item.ref] += 1
            parts[layers.piece] += 1
            batting[layers.batting] += 1
    return TopSamples("layers", tuple(key for key, _ in stages), tuple(parts.items()), tuple(batting.items()))


def _layers_of(blocks: Iterable[LayeredBlocks], item: TopItem) -> LayeredBlocks:
    return next(own for own in blocks if own.finished == (item.width, item.height))


def _counted(plan: Plan, items: Iterable[TopItem], times: int) -> tuple[tuple[str, int], ...]:
    """How many of each part; squares that are cut on the diagonal by what one gives."""
    gives = {piece.id: TRIANGLES[piece.then] for piece in plan.pieces}
    counts = Counter(item.ref for item in items)
    return tuple((ref, -(-count * times // gives.get(ref, 1))) for ref, count in counts.items())
