"""Where a seam would rather lie, from what is on its sides: toward the darker cloth, or outward.

In: joining lines, and the seams of sewn units.
Out: 1 forward, -1 back, 0 where neither is.
Never: a direction chosen; the model only gathers what each seam would rather.
"""

from __future__ import annotations

from patchwright.planning.pressing.faces import Line, Shades
from patchwright.planning.pressing.grid import Measure, cross, sign, vector
from patchwright.planning.pressing.sewing import UnitSeam
from patchwright.planning.pressing.unit_faces import SewnUnit


def darker(line: Line, middle: Measure | None) -> tuple[int, int]:
    """Where each half of a line would lie, toward the darker cloth: 1 forward, -1 back, 0 where neither is."""
    none = line.length - line.length
    parts = ((none, line.length),) * 2 if middle is None else ((none, middle), (middle, line.length))
    before, after = (sign(_shade(line.second.shades, *part) - _shade(line.first.shades, *part)) for part in parts)
    return before, after


def outward(drawn: UnitSeam) -> int:
    """Toward the side of fewer patches, which was added to the other; of two equal ones, toward the later."""
    first, second = ((-len(patches), min(patches)) for patches in (drawn.first, drawn.second))
    return 1 if second > first else -1


def beside_seam(sewn: SewnUnit, drawn: UnitSeam, patches: tuple[int, ...]) -> list[str]:
    """The roles of the patches that a seam joins on one side: those with an edge on it."""
    along = vector(drawn.start, drawn.finish)
    return [
        sewn.roles[patch] for patch in patches
        if sum(not cross(along, vector(drawn.start, corner)) for corner in sewn.shapes[patch]) > 1
    ]


def is_plain(line: Line) -> bool:
    """Whether each side of a line is of one value; only then does the top's maker see which side is darker."""
    return all(len({value for _, value in edge.shades}) == 1 for edge in (line.first, line.second))


def _shade(shades: Shades, start: Measure, finish: Measure) -> Measure:
    """Length times value of the cloth between two places of an edge."""
    place = start - start
    made = place
    for length, value in shades:
        covered = min(place + length, finish) - max(place, start)
        if sign(covered) > 0:
            made += covered * value
        place += length
    return made
