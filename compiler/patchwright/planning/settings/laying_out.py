"""What every setting and border has at hand while one size is laid out.

In: the instances, a size of the design, the cells of its blocks.
Out: blocks with their sizes, as they lie; mistakes reported.
Never: a place in the top.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from patchwright.core.diagnostics import Findings
from patchwright.core.geometry import UPRIGHT, Orientation
from patchwright.core.length import ZERO, Length
from patchwright.core.measure import plain_length
from patchwright.design.design import Placement, Size
from patchwright.planning.instances import BlockKey, Instances
from patchwright.planning.line_sums import Lengths


@dataclass(frozen=True, slots=True)
class Measured:
    """A placement with its made assembly, none for plain cloth, and its finished size as it lies."""

    placement: Placement
    key: BlockKey | None
    orientation: Orientation
    width: Length
    height: Length


@dataclass(frozen=True, slots=True)
class LayingOut:
    """One size at hand."""

    instances: Instances
    findings: Findings
    size: Size
    index: int
    cells: Mapping[str, Lengths]
    """The cell in every size of each block that has one."""

    def grid(self, grid: Sequence[Sequence[Placement]]) -> list[list[Measured | None]]:
        """A grid of blocks as they lie."""
        return [[self.measured(placement) for placement in line] for line in grid]

    def measured(self, placement: Placement, turned: Orientation = UPRIGHT) -> Measured | None:
        """A placement as it lies, turned further; None where its block has no size, which is reported."""
        if placement.kind == "fabric":
            return Measured(placement, None, UPRIGHT, ZERO, ZERO)
        cells = self.cells.get(placement.ref)
        if cells is None or placement.ref not in dict(self.size.cells):
            self.findings.error(
                "block-without-cell", f"`{placement.ref}` has no size in `{self.size.name}`", placement.span,
                "give the block `cell` or `size`; only a block inside another takes its cell from there",
            )
            return None
        lay = placement.orientation.then(turned)
        key, orientation = self.instances.place_block(placement.ref, cells, lay)
        instance = self.instances.blocks[key]
        width, height = orientation.size(instance.widths[self.index], instance.heights[self.index])
        return Measured(placement, key, orientation, width, height)

    def text(self, length: Length) -> str:
        """A length as an author writes it."""
        return plain_length(length, self.instances.design.system)
