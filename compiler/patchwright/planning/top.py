"""The top of one size: where every block, sash, cornerstone, setting triangle and border lies.

In: a design's size and the pattern's instances.
Out: a `Top`: placed parts with finished places, and the plain cloth (sashing, borders, setting squares) that it takes.
Never: letters of pieces or cut sizes of patches.
"""

from __future__ import annotations

from dataclasses import dataclass

from patchwright.core.diagnostics import Findings
from patchwright.core.length import ZERO
from patchwright.design.design import Size
from patchwright.planning.instances import Instances
from patchwright.planning.line_sums import Lengths
from patchwright.planning.settings.drawing import ClothKey as ClothKey
from patchwright.planning.settings.drawing import ClothNeed as ClothNeed
from patchwright.planning.settings.drawing import Drawing, Frame
from patchwright.planning.settings.drawing import Top as Top
from patchwright.planning.settings.drawing import TopPart as TopPart
from patchwright.planning.settings.laying_out import LayingOut
from patchwright.planning.settings.registry import BORDERS, SETTINGS, border_way, setting_of


@dataclass(frozen=True, slots=True)
class TopBuilder:
    """Lays out one size."""

    instances: Instances
    findings: Findings
    size: Size
    index: int
    cells: dict[str, Lengths]
    """The cell in every size of each block that has one."""

    def build(self) -> Top | None:
        """The top, or None where blocks do not fit together; the mistakes are reported."""
        laying = LayingOut(self.instances, self.findings, self.size, self.index, self.cells)
        drawing = Drawing()
        center = SETTINGS[setting_of(self.size)](laying, drawing)
        if center is None:
            return None
        frame = Frame(ZERO, ZERO, center.width, center.height)
        for number, border in enumerate(self.size.borders, 1):
            frame = BORDERS[border_way(border)](laying, drawing, number, frame)
        return Top(
            center.columns, center.rows, (center.width, center.height), (frame.width, frame.height),
            drawing.moved(-frame.x, -frame.y), drawing.cloth, drawing.spans, center.sash,
        )
