"""Which blocks are sewn in quarters: those whose four quarters are one sub-assembly, turned, and very large ones.

In: a design, and the instances that its layouts come to.
Out: the design with such blocks nested, their quarters blocks of their own.
Rule: long seams come last and are few. A block of rows has a seam as long as itself between any two of them, and in
quarters one. It stays in rows where a part lies across its middle, where it has two rows alone, or where its quarters
differ, unless its seams are long ones by the house rule `long-seam`.
Never: a block that an author nests; what is written there is the order of sewing.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from patchwright.core.diagnostics import Findings
from patchwright.core.geometry import UPRIGHT, Orientation
from patchwright.design.design import Block, Design, Extent, Item
from patchwright.planning.instances import Instances
from patchwright.planning.line_sums import Lengths

_FEWEST = 3
"""Rows of a block that have more long seams than its quarters."""
Lines = tuple[tuple[Item, ...], ...]


def in_quarters(design: Design, instances: Instances) -> Design:
    """The design with blocks in quarters; the same one where there are none."""
    blocks: list[Block] = []
    taken = {block.id for block in design.blocks} | {unit.id for unit in design.units}
    taken |= {fabric.id for fabric in design.fabrics}
    for block in design.blocks:
        cells = next((key.cells for key in instances.blocks if key.block == block.id), None)
        quarter = f"{block.id}-quarter"
        free = cells is not None and not any(name.startswith(quarter) for name in taken)
        made = _quartered(design, block, quarter, cells) if cells is not None and free else ()
        if made and not instances.is_one_way(block.id):
            taken |= {known.id for known in made}
        else:
            made = (block,)
        blocks += made
    return design if len(blocks) == len(design.blocks) else replace(design, blocks=tuple(blocks))


def _quartered(design: Design, block: Block, name: str, cells: Lengths) -> tuple[Block, ...]:
    """The quarter and the block made of it, or nothing."""
    nested = any(item.kind == "block" for line in block.lines for item in line)
    quarters = () if nested or len(block.lines) < _FEWEST else _quarters(block)
    if not quarters:
        return ()
    width, height = _half(block.width), _half(block.height)
    made = [
        Block(f"{name}-{number}", block.axis, lines, width, height, "no", block.span)
        for number, lines in enumerate(quarters, 1)
    ]
    placed = _alike(replace(design, blocks=(*design.blocks, *made)), made, cells)
    kinds = sorted({first for first, _ in placed})
    seam = max(width.at(cell) * 2 for cell in cells) + design.rules.seam * 2
    if len(kinds) > 1 and seam < design.rules.long_seam:
        return ()
    names = {kind: name if len(kinds) == 1 else f"{name}-{number}" for number, kind in enumerate(kinds, 1)}
    items = tuple(
        Item("block", names[first], width, height, Orientation(turn), scaled=False, span=block.span)
        for first, turn in placed
    )
    return *(replace(made[kind], id=names[kind]) for kind in kinds), replace(block, lines=(items[:2], items[2:]))


def _quarters(block: Block) -> tuple[Lines, ...]:
    """The parts of the four quarters in the order of sewing; nothing where a part lies across a middle."""
    rows = block.axis == "rows"
    middle = _place([line[0].down if rows else line[0].across for line in block.lines])
    places = {_place([item.across if rows else item.down for item in line]) for line in block.lines}
    if middle is None or None in places:
        return ()
    halves = block.lines[:middle], block.lines[middle:]
    split = [
        [(line[:place], line[place:]) for line in half
         if (place := _place([item.across if rows else item.down for item in line])) is not None]
        for half in halves
    ]
    return tuple(tuple(line[side] for line in half) for half in split for side in (0, 1))


def _place(sides: Sequence[Extent]) -> int | None:
    """After how many of these lengths half of their sum is reached, if it is."""
    whole = Extent()
    for side in sides:
        whole += side
    reached = Extent()
    for number, side in enumerate(sides, 1):
        reached += side
        if reached == _half(whole):
            return number
    return None


def _half(whole: Extent) -> Extent:
    return Extent(whole.cells / 2, whole.fixed / 2)


def _alike(design: Design, quarters: Sequence[Block], cells: Lengths) -> tuple[tuple[int, int], ...]:
    """For each quarter the first that looks the same, and by how many quarter turns that shows it."""
    instances = Instances(design, Findings())
    square = all(quarters[0].width.at(cell) == quarters[0].height.at(cell) for cell in cells)
    made: list[tuple[int, int]] = []
    for number, quarter in enumerate(quarters):
        look = instances.look(quarter.id, cells, UPRIGHT)
        made.append(next(
            (first, turn) for first in range(number + 1) for turn in (range(4) if square else (0, 2))
            if instances.look(quarters[first].id, cells, Orientation(turn)) == look
        ))
    return tuple(made)
