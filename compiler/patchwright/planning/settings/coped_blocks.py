"""Coping around blocks: strips of one fabric that bring all blocks of a quilt to one size.

A smaller block gets two strips at its sides, then two at its top and bottom, equal on opposite sides; where only one of
its measures is smaller, two strips are enough. Common practice, no source.
In: the measured placements of one size.
Out: the same placements, those of smaller blocks with coping as assemblies of their own.
Never: a strip that is too narrow to sew; it is reported with the sizes that would work.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from patchwright.core.geometry import UPRIGHT, Orientation
from patchwright.core.length import ZERO, Length
from patchwright.design.design import BlockCoping, Size
from patchwright.planning.instances import (
    COPED,
    BlockInstance,
    BlockKey,
    Instances,
    PatchKey,
    PlacedInstance,
)
from patchwright.planning.line_sums import Lengths
from patchwright.planning.settings.laying_out import LayingOut, Measured

Grid = list[list[Measured | None]]
Strips = tuple[Length, Length]
"""Finished widths at each side, and at top and bottom."""


def coped(laying: LayingOut, grids: Sequence[Grid], square: bool = False) -> list[Grid]:
    """The grids with coping where a size asks for it; `square` brings all blocks to squares."""
    if laying.size.coping is None:
        return list(grids)
    frames = _Frames(laying, laying.size.coping, square)
    return [[[frames.around(entry) for entry in row] for row in grid] for grid in grids]


@dataclass(frozen=True, slots=True)
class _Frames:
    """Puts blocks of one size into their coping."""

    laying: LayingOut
    coping: BlockCoping
    square: bool

    def around(self, entry: Measured | None) -> Measured | None:
        """A block in its coping; what needs none, or is no block, as it is."""
        if entry is None or entry.key is None:
            return entry
        strips = self._strips(entry, self.laying.index)
        if strips is None or not any(strips):
            return entry
        narrow = [strip for strip in strips if ZERO < strip < self.coping.least]
        if narrow:
            self._report(entry, min(narrow))
        width, height = self._target(self.laying.index) or (entry.width, entry.height)
        key = self._made(entry, entry.key)
        return replace(entry, key=key, width=width, height=height)

    def _made(self, entry: Measured, inner: BlockKey) -> BlockKey:
        """The assembly of a block in its coping, as it lies before it is turned with the block."""
        instances = self.laying.instances
        sideways = entry.orientation.sideways
        per_size = [self._alike(entry, index) for index in range(instances.size_count)]
        turned = [strips[::-1] if sideways else strips for strips in per_size]
        aside, above = (tuple(strips[axis] for strips in turned) for axis in (0, 1))
        one_way = instances.is_one_way(entry.placement.ref) or instances.is_one_way(self.coping.fabric)
        lay = entry.orientation if one_way else UPRIGHT
        key = BlockKey(f"{inner.block}{COPED}", inner.cells, inner.mirror, lay.turns, (*aside, *above))
        if key not in instances.blocks:
            instances.blocks[key] = _framed(instances, key, inner, (aside, above), self.coping.fabric, lay)
        return key

    def _alike(self, entry: Measured, index: int) -> Strips:
        """The strips of a block in another size, nothing where it is not coped there on the same sides."""
        own = self._strips(entry, self.laying.index)
        there = self._strips(entry, index)
        if own is None or there is None or [bool(strip) for strip in own] != [bool(strip) for strip in there]:
            return ZERO, ZERO
        return there

    def _strips(self, entry: Measured, index: int) -> Strips | None:
        """What a block lacks at each side and at top and bottom in a size, as it lies."""
        target = self._target(index)
        if target is None or entry.key is None:
            return None
        instance = self.laying.instances.blocks[entry.key]
        width, height = entry.orientation.size(instance.widths[index], instance.heights[index])
        if width > target[0] or height > target[1]:
            return None
        return (target[0] - width) / 2, (target[1] - height) / 2

    def _target(self, index: int) -> tuple[Length, Length] | None:
        """The size that all blocks of a size of the quilt are brought to: that of the widest and of the highest."""
        size = self.laying.instances.design.sizes[index]
        if size.coping is None:
            return None
        if size.coping.target is not None:
            return size.coping.target
        sides = list(_sides(self.laying, size, index))
        if not sides:
            return None
        width, height = max(side[0] for side in sides), max(side[1] for side in sides)
        return (max(width, height),) * 2 if self.square else (width, height)

    def _report(self, entry: Measured, narrow: Length) -> None:
        laying, target = self.laying, self._target(self.laying.index)
        if target is None:
            return
        text, least = laying.text, self.coping.least
        room = max(target[0] - least * 2, ZERO)
        laying.findings.error(
            "coping-too-narrow",
            f"coping around `{entry.placement.ref}`, {text(entry.width)} by {text(entry.height)} in "
            f"`{laying.size.name}`, would be {text(narrow)} wide, too narrow to sew", entry.placement.span,
            f"make the block {text(target[0])} or at most {text(room)} wide; or allow it with `least: {text(narrow)}`",
        )


def _sides(laying: LayingOut, size: Size, index: int) -> Iterator[tuple[Length, Length]]:
    """Widths and heights of all blocks of a size, as they lie."""
    between = size.on_point.between if size.on_point is not None else ()
    placements = dict.fromkeys(
        (placement.ref, placement.orientation) for row in (*size.grid, *between) for placement in row
        if placement.kind == "block" and placement.ref in laying.cells
    )
    for name, lay in placements:
        key, orientation = laying.instances.place_block(name, laying.cells[name], lay)
        instance = laying.instances.blocks[key]
        yield orientation.size(instance.widths[index], instance.heights[index])


def _framed(
    instances: Instances, key: BlockKey, inner: BlockKey, strips: tuple[Lengths, Lengths], fabric: str,
    lay: Orientation,
) -> BlockInstance:
    """Strip, block, strip; above and below it strips over the whole width."""
    known = instances.blocks[inner]
    aside, above = strips
    widths = tuple(width + strip * 2 for width, strip in zip(known.widths, aside, strict=True))
    heights = tuple(height + strip * 2 for height, strip in zip(known.heights, above, strict=True))
    upright = instances.is_one_way(fabric) and lay.sideways

    def strip(wide: Lengths, high: Lengths) -> PlacedInstance:
        patch = PatchKey(fabric, *((high, wide) if upright else (wide, high)))
        return PlacedInstance(patch, UPRIGHT, wide, high, lay)

    # A one-way print has its turn in the key of the block already.
    block = PlacedInstance(inner, UPRIGHT, known.widths, known.heights, lay)
    middle = (strip(aside, known.heights), block, strip(aside, known.heights)) if any(aside) else (block,)
    end = (strip(widths, above),)
    lines = (end, middle, end) if any(above) else (middle,)
    drawn = replace(known.block, id=f"{known.block.id} in coping", axis="rows", lines=())
    return BlockInstance(key, drawn, "rows", lines, widths, heights, [0] * instances.size_count)
