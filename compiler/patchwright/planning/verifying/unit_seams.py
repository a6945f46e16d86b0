"""Whether the plan has every seam of a unit: each edge that two of its patches share is looked for among its seams.

In: a plan with its pressing.
Out: a sentence for every shared edge that no seam joins, or that more than one does, and for every seam that joins
nothing.
Never: the planner's order of sewing or its lines; edges are compared by their ends alone.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

from patchwright.core.geometry import Point, Polygon
from patchwright.core.length import Length
from patchwright.methods.registry import BY_NAME
from patchwright.planning.plan import PlannedUnit, UnitSize
from patchwright.planning.pressing.results import PressingPlan

_Side = tuple[Point, Point]
_FINE = 10**9
"""Parts of the unit in which it is told whether edges meet; lengths of a few of them are nothing."""
_NEAR = 16


@dataclass(frozen=True, slots=True)
class _Spot:
    x: int
    y: int


def seam_faults(pressing: PressingPlan, unit: PlannedUnit, size: UnitSize) -> Iterator[str]:
    """What is wrong with the seams of one unit."""
    outlines = [patch.outline for patch in BY_NAME[unit.method].patches(size.request)]
    joins = [(set(sides.first), set(sides.second)) for own in pressing.seams_of("unit", unit.id) for sides in own.drawn]
    used = [0] * len(joins)
    for one, other in touching_patches(outlines):
        found = [
            number for number, (first, second) in enumerate(joins)
            if (one in first and other in second) or (other in first and one in second)
        ]
        for number in found:
            used[number] += 1
        if len(found) != 1:
            yield f"{len(found)} seams join patches {one + 1} and {other + 1} of `{unit.id}`, which share an edge"
    for number, times in enumerate(used):
        if not times:
            first, second = (sorted(patch + 1 for patch in side) for side in joins[number])
            yield f"a seam of `{unit.id}` joins patches {first} and {second}, which share no edge"


def touching_patches(outlines: Sequence[Polygon]) -> Iterator[tuple[int, int]]:
    """Pairs of patches that share a stretch of an edge."""
    spots = [[_Spot(_whole(corner.x), _whole(corner.y)) for corner in outline] for outline in outlines]
    for one, other in combinations(range(len(spots)), 2):
        if any(
            _overlap(spots[one][at - 1], here, spots[other][n - 1], there)
            for at, here in enumerate(spots[one]) for n, there in enumerate(spots[other])
        ):
            yield one, other


def _whole(length: Length) -> int:
    return (length * _FINE).floor()


def _overlap(start: _Spot, end: _Spot, first: _Spot, last: _Spot) -> bool:
    """Whether two sides lie on one line and share more than a point."""
    dx, dy = end.x - start.x, end.y - start.y
    long = max(abs(dx), abs(dy))
    for spot in (first, last):
        if abs(dx * (spot.y - start.y) - dy * (spot.x - start.x)) > _NEAR * long:
            return False
    along = sorted(dx * (spot.x - start.x) + dy * (spot.y - start.y) for spot in (first, last))
    whole = dx * dx + dy * dy
    return min(whole, along[1]) - max(0, along[0]) > _NEAR * long
