"""The chessboard over the blocks of a quilt, and whether those that are pressed the second way lie on it by turns.

In: one size of a plan, and what is pressed the second way.
Out: the places of the blocks on dark squares; whether of each kind those on one color lie the second way.
Never: a direction of pressing.

On point, blocks are the light squares and what lies between them the dark ones; rows of sashing do not count.
"""

from __future__ import annotations

from collections.abc import Mapping

from patchwright.planning.plan import Assembly, PlannedSize
from patchwright.planning.pressing.sewn import Sewn
from patchwright.planning.pressing.tops import STRIPS, TopRow, column_rows, top_rows


def dark_places(size: PlannedSize) -> frozenset[int]:
    """The places, among the parts of a size, of the blocks of its center that lie on dark squares."""
    if not size.items or size.by_block is not None:
        return frozenset()
    places = {id(item): place for place, item in enumerate(size.items)}
    rows = top_rows(size)
    if any(row.is_chain for row in rows):
        rows = tuple(row for column in column_rows(size) for row in column)
    found, number = set(), 0
    for row in rows:
        found |= {places[id(row.items[at])] for at in _dark(row, number)}
        number += not row.is_strip
    return frozenset(found)


def _dark(row: TopRow, number: int) -> list[int]:
    """The blocks on dark squares of a row; a diagonal one begins with a triangle before its first block."""
    squares = [at for at, item in enumerate(row.items) if item.part not in STRIPS]
    start = number if row.side is None else 1
    return [at for step, at in enumerate(squares) if (start + step) % 2 and row.items[at].part == "block"]


def on_chessboards(quilt: Sewn) -> tuple[bool, ...]:
    """For each size, whether what is pressed the second way lies by turns with the first, kind by kind."""
    made = {assembly.id: assembly for assembly in quilt.assemblies}
    return tuple(_by_turns(size, made) for size in quilt.sizes)


def _by_turns(size: PlannedSize, made: Mapping[str, Assembly]) -> bool:
    twice = {assembly.second_of for assembly in made.values() if assembly.second_of}
    dark = dark_places(size)
    kinds: dict[str, set[tuple[bool, bool]]] = {}
    for place, item in enumerate(size.items):
        if item.part == "block" and item.kind == "assembly":
            first = made[item.ref].second_of or item.ref
            if first in twice:
                kinds.setdefault(first, set()).add((place in dark, first != item.ref))
    return all(
        all(is_dark == second for is_dark, second in found) or all(is_dark != second for is_dark, second in found)
        for found in kinds.values()
    )
