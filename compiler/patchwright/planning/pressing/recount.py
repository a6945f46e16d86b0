"""An independent count of the junctions that nest, from the finished top alone.

In: a plan and its pressing plan.
Out: for every size how many junctions nest, of how many.
Every seam of a size is laid out as a segment with an arrow at each end that shows where its allowance lies.
Then, for every seam, all ends of earlier seams of the same sewn thing that lie on it are found by their places.
Two that come from opposite sides at mirror-image angles are a junction; it nests if their allowances lie opposed.
Never: anything that the planner of pressing computed but the directions; no code is shared with it.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from patchwright.methods.registry import BY_NAME
from patchwright.planning.plan import Plan
from patchwright.planning.pressing.laid_parts import Laid
from patchwright.planning.pressing.laid_tops import LaidTop
from patchwright.planning.pressing.plane import Number, Pair, cross, dot, lies_on, minus, positive
from patchwright.planning.pressing.results import PressingPlan
from patchwright.planning.pressing.terms import Seam

End = tuple[Number, Number, Number, Seam, int]
"""Of the end of a seam on a joining line: how far it runs across the line and along it, how far its allowance points
along it, the seam, and the half of it that ends there: 0 for its start, 1 for its finish."""


def recount(plan: Plan, pressing: PressingPlan) -> tuple[tuple[int, int], ...]:
    """(nested, all) for every size."""
    return tuple(recount_size(plan, pressing, index) for index in range(len(plan.sizes)))


def recount_size(plan: Plan, pressing: PressingPlan, index: int) -> tuple[int, int]:
    """(nested, all) of one size; KeyError where the plan has no direction for a seam."""
    return recount_points(plan, pressing, index)[:2]


def recount_points(plan: Plan, pressing: PressingPlan, index: int) -> tuple[int, int, int]:
    """(nested, all, points where more than six seams meet) of one size."""
    found, heavy, _ = recount_meetings(plan, pressing, index)
    return sum(lie_opposed(one, two) for one, two in found), len(found), heavy


def recount_meetings(
    plan: Plan, pressing: PressingPlan, index: int
) -> tuple[list[tuple[End, End]], int, tuple[Seam, ...]]:
    """The two ends of every junction of one size, at how many points more than six seams meet, and what is spun ill."""
    walk = Walk(plan, pressing, index)
    walk.lay_top()
    numbers = range(len(walk.laid))
    found = [(one, two) for number in numbers for _, one, two in walk.meetings(number)]
    return found, sum(len(walk.heavy(number)) for number in numbers), tuple(walk.spun_ill())


def lie_opposed(one: End, two: End) -> bool:
    """Whether the allowances of two ends lie opposed along the line that they meet on, so that they nest."""
    return positive(-(one[2] * two[2]))

@dataclass(slots=True)
class Walk(LaidTop):
    """Counts on the seams that are laid out."""

    unsure: frozenset[str] | None = None

    def junctions(self, number: int) -> list[tuple[Pair, bool]]:
        """Where on a seam there is a junction, and whether it nests."""
        return [(spot, lie_opposed(one, two)) for spot, one, two in self.meetings(number)]

    def meetings(self, number: int) -> list[tuple[Pair, End, End]]:
        """Where on a seam there is a junction, and the two ends that meet there."""
        return [
            (spot, one, two) for spot, ends in self._ends_on(number).items()
            for one in ends if positive(one[0]) for two in ends
            if positive(-two[0]) and one[1] * -two[0] == two[1] * one[0]
        ]

    def crossings(self, number: int) -> list[tuple[Pair, bool]]:
        """Where one straight seam comes to a seam from each side, from its start on, and whether it is spun there well.

        Spun, all four seams turn about that point in one sense: what comes to it forces that of the seam.
        """
        line = self.laid[number]
        along = minus(line.ends[1], line.ends[0])
        found = []
        for spot, ends in self._ends_on(number).items():
            square = [end for end in ends if not end[1] and spot not in line.ends]
            sides = [sum(positive(way * end[0]) for end in square) for way in (1, -1)]
            if sides == [1, 1]:
                own = cross(line.points[0], along)
                well = all(positive(-(own * end[0] * end[2])) for end in square)
                found.append((dot(along, minus(spot, line.ends[0])), spot, well))
        return [(spot, well) for _, spot, well in sorted(found, key=lambda own: own[0])]

    def spun_ill(self) -> Iterable[Seam]:
        """Seams that are spun where nothing crosses, or against what crosses there; each told once."""
        known: set[Seam] = set()
        for number, laid in enumerate(self.laid):
            pressed = self._found(laid.seam)
            if pressed.halves[0] != pressed.halves[1] and laid.seam not in known and number not in self.copies:
                known.add(laid.seam)
                at, crossings = pressed.spun_at, self.crossings(number)
                if at is None or len(crossings) != at[1] or not crossings[at[0] - 1][1]:
                    yield laid.seam

    def spun_spot(self, number: int) -> Pair | None:
        """Where a seam is spun, if it is."""
        at, crossings = self._found(self.laid[number].seam).spun_at, self.crossings(number)
        return crossings[at[0] - 1][0] if at is not None and at[0] <= len(crossings) else None

    def heavy(self, number: int) -> list[tuple[Pair, int]]:
        """Points within a seam where more than six seams meet, the seam itself counting twice."""
        ends = self.laid[number].ends
        return [
            (spot, len(found) + 2) for spot, found in self._ends_on(number).items()
            if spot not in ends and len(found) + 2 > 6
        ]

    def _ends_on(self, number: int) -> dict[Pair, list[End]]:
        """The ends of earlier seams on a seam, by place."""
        line = self.laid[number]
        along = minus(line.ends[1], line.ends[0])
        found: dict[Pair, list[End]] = {}
        for other in (self.laid[earlier] for earlier in self._near(line, along)):
            # A seam that lies otherwise in every second unit points nowhere for certain, but on the unit's own seams.
            sure = other.seam.owner.id == line.seam.owner.id or other.seam.owner.id not in self._two_handed()
            leads = other.leads or (minus(other.ends[1], other.ends[0]), minus(other.ends[0], other.ends[1]))
            for half, (end, ray, point) in enumerate(zip(other.ends, leads, other.points, strict=True)):
                if lies_on(end, line.ends):
                    own = cross(along, ray), dot(along, ray), dot(along, point) * sure
                    found.setdefault(end, []).append((*own, other.seam, half))
        return found

    def _two_handed(self) -> frozenset[str]:
        """Units of which every second one has its last seam where the others have an earlier one."""
        if self.unsure is None:
            self.unsure = frozenset(u.id for u in self.plan.units if u.how in BY_NAME[u.method].two_hands)
        return self.unsure

    def _near(self, line: Laid, along: Pair) -> Iterable[int]:
        """The earlier seams with an end in the row or column of a line; all of them for a line that runs askew."""
        if along[0] and along[1]:
            return line.earlier
        (x, y), _ = line.ends
        return [number for number in (self.columns[x] if not along[0] else self.rows[y]) if number in line.earlier]
