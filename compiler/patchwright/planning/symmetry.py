"""Whether the layout of each size is symmetric, where the author asks for it, and which sizes near it would be.

A layout is symmetric when its left half mirrors its right half and its upper half its lower half, block by block as
they look. A block that looks like its own mirror image however it is turned in no way, such as a pinwheel, can mirror
nothing; it counts as matched by the same block lying the same way.
In: a design and its instances.
Out: a warning for each size that is not symmetric.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterator
from dataclasses import dataclass, field

from patchwright.core.diagnostics import Findings
from patchwright.core.geometry import Orientation
from patchwright.design.design import Placement, Size, Symmetry
from patchwright.planning.instances import Instances
from patchwright.planning.line_sums import Lengths

NEAR = 8
"""How many blocks more or fewer are looked at."""
PROPOSED = 4
SIDEWAYS, DOWNWARD = Orientation(0, True), Orientation(2, True)
"""Mirroring left to right, and top to bottom."""
SIDEWAYS_ON_POINT, DOWNWARD_ON_POINT = Orientation(1, True), Orientation(3, True)
"""The same for a block that lies turned counterclockwise by an eighth: on one of its own diagonals."""

Grid = tuple[tuple[Placement, ...], ...]


def warn_of_asymmetry(instances: Instances, findings: Findings, cells: dict[str, Lengths]) -> None:
    """Warn of every size whose layout is not symmetric though it should be."""
    looks = _Looks(instances, cells)
    for size in instances.design.sizes:
        if size.symmetry is None:
            continue
        layout = _Layout(size, size.symmetry, looks)
        if layout.is_symmetric(size.across, size.down):
            continue
        near = [f"{across} by {down}" for across, down in layout.near()]
        findings.warning(
            "not-symmetric",
            f"the layout of `{size.name}`, {size.across} by {size.down} blocks, is not symmetric "
            f"{layout.failing()}", size.span,
            f"symmetric would be {_listed(near)}, across by down" if near else
            "no size near it is symmetric with this arrangement; change `arrange`, or take `symmetric` out",
        )


def symmetric_counts(instances: Instances, cells: dict[str, Lengths], size: Size) -> Callable[[int, int], bool]:
    """Whether so many blocks across and down may be: always, unless the author asks for a symmetric layout."""
    if size.symmetry is None:
        return lambda across, down: True
    return _Layout(size, size.symmetry, _Looks(instances, cells)).is_symmetric


def _listed(words: list[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} or {words[-1]}"


@dataclass(slots=True)
class _Looks:
    """What a placement looks like as it lies."""

    instances: Instances
    cells: dict[str, Lengths]
    known: dict[tuple[str, Orientation], Hashable] = field(default_factory=dict)

    def look(self, placement: Placement, lay: Orientation) -> Hashable:
        """Equal for two placements that cannot be told apart."""
        if placement.kind != "block":
            return placement.ref
        found = self.known.get((placement.ref, lay))
        if found is None:
            found = self._worked_out(placement.ref, lay)
            self.known[placement.ref, lay] = found
        return found

    def _worked_out(self, name: str, lay: Orientation) -> Hashable:
        cells = self.cells.get(name)
        if cells is None:
            return name, lay
        turned = [self.instances.look(name, cells, Orientation(turns)) for turns in range(4)]
        if lay.mirror and self.instances.look(name, cells, Orientation(0, True)) not in turned:
            return "one-handed", name
        return self.instances.look(name, cells, lay)


@dataclass(frozen=True, slots=True)
class _Layout:
    size: Size
    symmetry: Symmetry
    looks: _Looks

    def is_symmetric(self, across: int, down: int) -> bool:
        return self._holds(across, down, sideways=True) and self._holds(across, down, sideways=False)

    def failing(self) -> str:
        """From which side to which the layout of the size itself is not symmetric."""
        across, down = self.size.across, self.size.down
        found = [word for word, sideways in (("from left to right", True), ("from top to bottom", False))
                 if not self._holds(across, down, sideways)]
        return " and ".join(found)

    def near(self) -> list[tuple[int, int]]:
        """The nearest sizes that are symmetric, smaller ones first."""
        across, down = self.size.across, self.size.down
        sizes = [
            (abs(wide - across) + abs(high - down), abs(wide * high - across * down), wide, high)
            for wide in range(max(1, across - NEAR), across + NEAR + 1)
            for high in range(max(1, down - NEAR), down + NEAR + 1)
        ]
        found: list[tuple[int, int]] = []
        for _, _, wide, high in sorted(sizes):
            if self.is_symmetric(wide, high):
                found.append((wide, high))
                if len(found) == PROPOSED:
                    break
        return sorted(found, key=lambda pair: pair[0] * pair[1])

    def _holds(self, across: int, down: int, sideways: bool) -> bool:
        """Whether every placement is matched by the one at its mirrored place."""
        grids = [(self.symmetry.blocks, across, down), (self.symmetry.between, across - 1, down - 1)]
        return all(
            self._matched(one, other, sideways)
            for grid, wide, high in grids if grid for one, other in _pairs(grid, wide, high, sideways)
        )

    def _matched(self, one: Placement, other: Placement, sideways: bool) -> bool:
        if self.size.on_point is None:
            mirror = SIDEWAYS if sideways else DOWNWARD
        else:
            mirror = SIDEWAYS_ON_POINT if sideways else DOWNWARD_ON_POINT
        wanted = self.looks.look(one, one.orientation.then(mirror))
        if wanted == ("one-handed", one.ref):
            return one.ref == other.ref and one.orientation == other.orientation
        return wanted == self.looks.look(other, other.orientation)


def _pairs(grid: Grid, across: int, down: int, sideways: bool) -> Iterator[tuple[Placement, Placement]]:
    """Every placement with the one at its mirrored place; one repeat of the other direction is enough."""
    high, wide = len(grid), len(grid[0])
    rows = range(min(down, high)) if sideways else range(down // 2 + down % 2)
    columns = range(across // 2 + across % 2) if sideways else range(min(across, wide))
    for row in rows:
        for column in columns:
            other = (row, across - 1 - column) if sideways else (down - 1 - row, column)
            yield grid[row % high][column % wide], grid[other[0] % high][other[1] % wide]
