"""Coping around blocks: what it is cut from, and the cells of blocks that it brings to their `block-size`.

In: the layers of one size's quilt, its blocks, the house rules.
Out: the coping of the size; the finished side of a cell.
Never: a strip of coping; its width follows in planning.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from patchwright.core.diagnostics import Findings
from patchwright.core.length import ZERO, Length
from patchwright.design.borders import LEAST_COPING
from patchwright.design.design import Block, BlockCoping
from patchwright.design.house import native_length, native_pair
from patchwright.design.names import Names
from patchwright.design.rules import Rules
from patchwright.dialect.declared import TopDeclaration

Layers = tuple[TopDeclaration, ...]
MOST_STEPS = 400
"""How many smaller cells are tried; a block is hardly cut in more steps than that."""


@dataclass(frozen=True, slots=True)
class BlockSizes:
    """Resolves the coping of blocks of one pattern."""

    names: Names
    rules: Rules
    findings: Findings

    def coping(self, layers: Layers) -> BlockCoping | None:
        """The coping of a size, or None; its keys are merged. With `block-size` it brings all blocks to that."""
        parts = tuple(part for layer in layers if (part := layer.coping) is not None)
        if not parts:
            return None
        fabric, least = _first(parts, "fabric"), _first(parts, "least")
        if fabric is None:
            self.findings.error("missing-key", "the coping has no `fabric`", parts[0].span, "write `fabric: …`")
            return None
        self.names.find(fabric.text, fabric.span, "fabric")
        narrow = LEAST_COPING[self.rules.system]
        if least is not None:
            narrow = native_length(least, self.rules.system, self.findings)
        size = _first(layers, "block_size")
        target = native_pair(size, self.rules.system, self.findings) if size is not None else None
        return BlockCoping(fabric.text, narrow, target, parts[0].span)

    def cell(self, block: Block, coping: BlockCoping) -> Length | None:
        """The largest cell with which a coped block is no larger than its size, and that can be cut well.

        A cell off the house's step gives way to the next smaller one on it whose strips are on it too.
        """
        target = coping.target
        extents = (block.width, block.height)
        if target is None or not all(extent.cells for extent in extents):
            return None
        exact = min((side - extent.fixed) / extent.cells for side, extent in zip(target, extents, strict=True))
        step = self.rules.round_cuts
        if exact <= ZERO:
            return None
        cell = exact.down_to(step)
        for _ in range(MOST_STEPS):
            if cell <= ZERO:
                break
            if all(self._fits(side - extent.at(cell), coping) for side, extent in zip(target, extents, strict=True)):
                return cell
            cell -= Length(step)
        return exact

    def _fits(self, rest: Length, coping: BlockCoping) -> bool:
        strip = rest / 2
        return not strip or (strip >= coping.least and strip.is_multiple_of(self.rules.round_cuts))


def _first(parts: tuple[Any, ...], attribute: str) -> Any:
    return next((value for part in parts if (value := getattr(part, attribute)) is not None), None)
