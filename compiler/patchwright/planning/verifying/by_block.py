"""Measures the layers of blocks again that are joined with their own batting and backs.

In: the plan and one of its sizes.
Out: a sentence for each thing that does not agree.
Never: a function of the planner.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from patchwright.core.length import Length
from patchwright.planning.plan import LayeredBlocks, Plan, PlannedByBlock, PlannedSize
from patchwright.planning.verifying.sums import covers, total


def by_block_faults(plan: Plan, index: int, size: PlannedSize) -> Iterator[str]:
    """Every block of the drawing has its layers, they are as large as its way asks, and enough batting is bought."""
    made = size.by_block
    if made is None:
        return
    drawn = Counter((item.width, item.height) for item in size.items)
    if drawn != Counter({block.finished: block.count for block in made.blocks}):
        yield "the layers are not those of the blocks that are drawn"
    if size.backing is not None or size.borders:
        yield "blocks with backs of their own have a backing or borders besides"
    pieces = {piece.id: piece for piece in plan.pieces}
    for block in made.blocks:
        yield from _layers(plan, made, block)
        own = pieces[block.piece].sizes[index]
        sides = sorted((own.width.length, own.height.length)) if own is not None else []
        if own is None or pieces[block.piece].fabric != made.fabric or sides != sorted(block.back):
            yield f"{block.piece} is not cut as the backs that it is for"
    yield from _batting(plan, size, made.blocks)


def _layers(plan: Plan, made: PlannedByBlock, block: LayeredBlocks) -> Iterator[str]:
    seams, step = plan.rules.seam * 2, Length(plan.rules.round_cuts)
    for done, front, batting, back in zip(block.finished, block.front, block.batting, block.back, strict=True):
        if front != done + seams:
            yield "the front of a block is not its finished size and two seams"
        if made.way == "rag" and (back != front or batting != done - made.inset * 2):
            yield "the layers of a rag block are not those of its front and its inset"
        room = front + made.allowance * 2
        if made.way == "quilted" and not (back == batting and room <= back < room + step):
            yield "batting and back do not reach beyond the block by the allowance"


def _batting(plan: Plan, size: PlannedSize, blocks: tuple[LayeredBlocks, ...]) -> Iterator[str]:
    """Rows of equal pieces, piece after piece, reach no further than what is bought."""
    package, roll = size.batting_bought.package, size.batting_bought.roll
    rolls = [[(roll.width, roll.length)]] if roll is not None else []
    packages = [[package, package[::-1]]] if package is not None else []
    for ways in rolls + packages:
        if not any(_taken(blocks, wide) <= long for wide, long in ways):
            yield "the batting that is bought does not give all its pieces"
    if roll is not None and not covers(plan.rules, roll.buy, roll.length):
        yield "less batting is bought off the roll than it takes"


def _taken(blocks: tuple[LayeredBlocks, ...], wide: Length) -> Length:
    """The length that is taken when pieces are laid one beside the other while there is room, a row for each size."""
    lengths = []
    for block in blocks:
        tried = []
        for across, along in (block.batting, block.batting[::-1]):
            rows, left, room = 0, block.count, Length(0)
            while left and across <= wide:
                if room < across:
                    rows, room = rows + 1, wide
                room, left = room - across, left - 1
            if across <= wide:
                tried.append(along * rows)
        lengths.append(min(tried, default=wide * block.count * 1000))
    return total(lengths)
