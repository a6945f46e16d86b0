"""The independent check of a strippy top: its columns stand side by side, equally high, with the stated strips between.

In: one size of a finished plan.
Out: one sentence for each thing that does not agree; nothing for other settings.
Never: a function of the settings; only the plan's own places and cut sizes.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from itertools import pairwise

from patchwright.core.length import Length
from patchwright.planning.plan import Plan, PlannedSize, TopItem
from patchwright.planning.verifying.sums import NOTHING

STRIPS = "strips"


def column_faults(plan: Plan, index: int, size: PlannedSize) -> Iterator[str]:
    """What is wrong with the columns and strips of a size."""
    columns = {
        number: [item for item in size.items if item.column == number]
        for number in sorted({item.column for item in size.items if item.column is not None})
    }
    if size.setting != "strippy":
        if columns or size.strips:
            yield "columns and strips in a top that is not strippy"
        return
    yield from _places(plan, size, columns)
    yield from _kinds(size, columns)
    yield from _strips(plan, index, size)


def _places(plan: Plan, size: PlannedSize, columns: dict[int, list[TopItem]]) -> Iterator[str]:
    """Each begins where the last one ends, all from one edge to the other."""
    seams = plan.rules.seam * 2
    width, height = size.center[0].length - seams, size.center[1].length - seams
    reached = left = min(item.x for items in columns.values() for item in items)
    for number, items in columns.items():
        if min(item.x for item in items) != reached:
            yield f"column {number} does not begin where the last one ends"
        reached = max(item.x + item.width for item in items)
        if max(item.y + item.height for item in items) - min(item.y for item in items) != height:
            yield f"column {number} is not as high as the center"
    if reached - left != width:
        yield "the columns and strips do not add up to the width of the center"


def _kinds(size: PlannedSize, columns: dict[int, list[TopItem]]) -> Iterator[str]:
    """Strips and columns of blocks take turns."""
    kinds = [all(item.part == STRIPS for item in items) for items in columns.values()]
    if any(this == other for this, other in pairwise(kinds)):
        yield "columns and strips do not take turns"
    if kinds.count(False) != size.across or kinds[0] != kinds[-1]:
        yield f"the top has {kinds.count(False)} columns and not {size.across}"


def _strips(plan: Plan, index: int, size: PlannedSize) -> Iterator[str]:
    """The strips that the plan states are those that are drawn, as wide as they are cut less their seams."""
    drawn = Counter(item.ref for item in size.items if item.part == STRIPS)
    if drawn != Counter({strip.piece: strip.count for strip in size.strips}):
        yield "the strips that are drawn are not those that are stated"
    for strip in size.strips:
        cut = next(piece.sizes[index] for piece in plan.pieces if piece.id == strip.piece)
        sides = (cut.width.length, cut.height.length) if cut is not None else (NOTHING, NOTHING)
        excess: Length = min(sides) - strip.width.length - plan.rules.seam * 2
        if excess.sign() < 0 or excess >= Length(plan.rules.round_cuts):
            yield f"{strip.piece} is not cut as wide as its strip and two seams"
