"""The drawing that a plan makes of its blocks, read from assemblies, units and pieces by sampling their patches."""

from __future__ import annotations

from patchwright.core.geometry import Polygon
from patchwright.core.length import Length
from patchwright.methods.registry import BY_NAME
from patchwright.planning.plan import Placed, Plan, PlannedUnit
from planning.compiling import unit_size
from planning.generating import Cell, Drawing, below, beside, mirrored, turned

_SAMPLES = ((0.5, 0.2), (0.8, 0.5), (0.5, 0.8), (0.2, 0.5))
"""Places in a cell that lie in its north, east, south and west quarter."""


class Seen:
    """Drawings of the assemblies of one size of a plan, whose blocks all have the same cell."""

    def __init__(self, plan: Plan, cell: Length, index: int = 0) -> None:
        self.plan, self.cell, self.index = plan, cell, index
        self.units = {unit.id: unit for unit in plan.units}
        self.assemblies = {assembly.id: assembly for assembly in plan.assemblies}
        self.pieces = {piece.id: piece for piece in plan.pieces}
        self.made: dict[tuple[str, str], Drawing] = {}

    def assembly(self, name: str) -> Drawing:
        assembly = self.assemblies[name]
        rows = assembly.axis == "rows"
        along, aside = (beside, below) if rows else (below, beside)
        return aside(*(along(*(self.placed(part) for part in line)) for line in assembly.lines))

    def placed(self, part: Placed) -> Drawing:
        if part.kind == "piece":
            size = part.sizes[self.index]
            if size is None:
                raise LookupError(part.ref)
            wide, high = (self._cells(side.length) for side in size)
            return (((self.pieces[part.ref].fabric,) * 4,) * wide,) * high
        known = (part.kind, part.ref)
        if known not in self.made:
            self.made[known] = self.assembly(part.ref) if part.kind == "assembly" else self.unit(self.units[part.ref])
        return turned(self.made[known], part.orientation.turns)

    def unit(self, unit: PlannedUnit) -> Drawing:
        request = unit_size(unit, self.index).request
        fabrics = dict(unit.fabrics)
        patches = [(fabrics[patch.role], patch.outline) for patch in BY_NAME[unit.method].patches(request)]
        drawing = tuple(
            tuple(self._cell(patches, column, row) for column in range(self._cells(request.width)))
            for row in range(self._cells(request.height))
        )
        return mirrored(drawing) if unit.hand == "reversed" else drawing

    def _cell(self, patches: list[tuple[str, Polygon]], column: int, row: int) -> Cell:
        side = float(self.cell)
        north, east, south, west = (
            next(fabric for fabric, outline in patches if _inside(outline, (column + x) * side, (row + y) * side))
            for x, y in _SAMPLES
        )
        return north, east, south, west

    def _cells(self, length: Length) -> int:
        cells = length / self.cell.rational()
        if cells.rational().denominator != 1:
            raise ValueError(f"{length} is not a whole number of cells")
        return cells.rational().numerator


def _inside(outline: Polygon, x: float, y: float) -> bool:
    """Whether a point lies in a polygon, by counting the edges to its right."""
    crossings = 0
    for here, there in zip(outline, outline[1:] + outline[:1], strict=True):
        x1, y1, x2, y2 = float(here.x), float(here.y), float(there.x), float(there.y)
        if (y1 > y) != (y2 > y) and x < x1 + (y - y1) * (x2 - x1) / (y2 - y1):
            crossings += 1
    return crossings % 2 == 1
