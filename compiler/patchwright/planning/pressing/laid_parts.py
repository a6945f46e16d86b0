"""Laying out the seams of units and assemblies as segments with arrows, for the count on the finished top.

In: a plan, the directions of its pressing plan, and where a thing lies.
Out: every seam with its ends, where its allowance points at each, and the earlier seams of its sewn thing.
Never: anything that the planner of pressing computed but the directions; no code is shared with it.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from math import lcm

from patchwright.core.length import Length
from patchwright.methods.registry import BY_NAME
from patchwright.planning.plan import Assembly, Placed, Plan, PlannedUnit, TopItem, UnitSize
from patchwright.planning.pressing.plane import (
    Frame,
    Number,
    Pair,
    cross,
    minus,
    positive,
    shared,
)
from patchwright.planning.pressing.results import PressedSeam, PressingPlan
from patchwright.planning.pressing.terms import Owner, Seam


@dataclass(frozen=True, slots=True)
class Laid:
    """A seam in the top: its ends, where the allowance points at each, and the earlier seams of its sewn thing."""

    seam: Seam
    ends: tuple[Pair, Pair]
    points: tuple[Pair, Pair]
    earlier: Sequence[int]
    leads: tuple[Pair, Pair] | None = None
    """Of a curve, the way that it runs from each end."""


@dataclass(frozen=True, slots=True)
class _Drawn:
    """A seam of a unit in the unit's own frame."""

    pressed: PressedSeam
    ends: tuple[Pair, Pair]
    beyond: Pair
    """A corner on its second side."""
    earlier: list[int]
    """Places in the sewing order of the earlier seams of what it joins."""
    leads: tuple[Pair, Pair] | None
    """Of a curve, the way that it runs from each end: straight into the unit, as a quarter of a circle does."""


@dataclass(slots=True)
class LaidParts:
    """Lays out the parts of one size."""

    plan: Plan
    pressing: PressingPlan
    index: int
    scale: int = 0
    laid: list[Laid] = field(default_factory=list)
    pressed: dict[Seam, PressedSeam] = field(default_factory=dict)
    drawn: dict[str, list[_Drawn]] = field(default_factory=dict)
    """The seams of units, by id, found once."""
    corners: dict[str, list[list[Pair]]] = field(default_factory=dict)

    def _begin(self) -> None:
        self.pressed = {pressed.seam: pressed for pressed in self.pressing.seams}

    def _begin_at(self, scale: int) -> None:
        """Lay what follows at this scale; what is known of units holds for the scale at which it was found."""
        self.scale = scale
        self.drawn.clear()
        self.corners.clear()

    def _scaled(self, lengths: Iterable[Length]) -> int:
        """Whole numbers to the unit, so that these lengths and all parts lie on them; 0 where there are roots."""
        known = [*lengths, *(length for unit in self.plan.units for length in self._unit_lengths(unit))]
        if not all(length.is_rational for length in known):
            return 0
        return lcm(*(length.rational().denominator for length in known), *self._assembly_denominators())

    def _unit_lengths(self, unit: PlannedUnit) -> list[Length]:
        size = unit.sizes[self.index]
        patches = BY_NAME[unit.method].patches(size.request) if size is not None else ()
        return [side for patch in patches for corner in patch.outline for side in (corner.x, corner.y)]

    def _assembly_denominators(self) -> list[int]:
        parts = (part.sizes[self.index] for made in self.plan.assemblies for line in made.lines for part in line)
        return [side.length.rational().denominator for sides in parts if sides is not None for side in sides]

    def _number(self, length: Length) -> Number:
        return length if not self.scale else int(length.rational() * self.scale)

    def _upright(self, seam: Seam, x: Length, top: Length, bottom: Length, earlier: range) -> None:
        ends = ((self._number(x), self._number(top)), (self._number(x), self._number(bottom)))
        self._lay(seam, ends, (1, 0), earlier)

    def _level(self, seam: Seam, left: Length, right: Length, y: Length, earlier: range) -> None:
        ends = ((self._number(right), self._number(y)), (self._number(left), self._number(y)))
        self._lay(seam, ends, (0, 1), earlier)

    def _lay(self, seam: Seam, ends: tuple[Pair, Pair], forward: Pair, earlier: Sequence[int]) -> None:
        """Lay a seam from its start to its finish; `forward` points to what follows it."""
        start, finish = self._ways(seam)
        arrows = tuple((forward[0] * way, forward[1] * way) for way in (start, finish))
        self.laid.append(Laid(seam, ends, (arrows[0], arrows[1]), earlier))

    def _ways(self, seam: Seam) -> tuple[int, int]:
        return self._found(seam).halves

    def _found(self, seam: Seam) -> PressedSeam:
        found = self.pressed.get(seam)
        return found if found is not None else self.pressing.pressed(seam)

    def _item(self, item: TopItem) -> None:
        x, y, width, height = (self._number(side) for side in (item.x, item.y, item.width, item.height))
        frame = Frame((1, 0), (0, 1), (x - x, y - y)).inner(x, y, width, height, item.orientation.turns)
        self._thing(item.kind, item.ref, frame)

    def _thing(self, kind: str, ref: str, frame: Frame) -> None:
        if kind == "unit":
            self._unit(next(unit for unit in self.plan.units if unit.id == ref), frame)
        elif kind == "assembly":
            self._assembly(next(known for known in self.plan.assemblies if known.id == ref), frame)

    def _assembly(self, assembly: Assembly, frame: Frame) -> None:
        """Parts along each line, each seam after the parts that it joins; then line to line."""
        owner, rows = Owner("assembly", assembly.id), assembly.axis == "rows"
        start = len(self.laid)
        aside: Number = 0 if self.scale else Length()
        for number, line in enumerate(assembly.lines):
            first = len(self.laid)
            along: Number = 0 if self.scale else Length()
            parts = [(part, *self._sides(part, rows)) for part in line if part.sizes[self.index] is not None]
            for place, (part, long, wide) in enumerate(parts):
                x, y, width, height = (along, aside, long, wide) if rows else (aside, along, wide, long)
                self._thing(part.kind, part.ref, frame.inner(x, y, width, height, part.orientation.turns))
                if place:
                    seam = Seam(owner, "within", number, place - 1)
                    self._between(seam, frame, (along, aside, wide), rows, range(first, len(self.laid)))
                along += long
            if number:
                seam = Seam(owner, "between", number - 1)
                self._between(seam, frame, (aside, along - along, along), not rows, range(start, len(self.laid)))
            aside += parts[0][2]

    def _sides(self, part: Placed, rows: bool) -> tuple[Number, Number]:
        """A part's length along its line and its width across it."""
        size = part.sizes[self.index]
        width, height = (self._number(side.length) for side in size) if size is not None else (0, 0)
        return (width, height) if rows else (height, width)

    def _between(
        self, seam: Seam, frame: Frame, place: tuple[Number, Number, Number], upright: bool, earlier: range
    ) -> None:
        """A seam at a place along the line, from so far aside, so long."""
        at, aside, length = place
        if upright:
            ends = (frame.point(at, aside), frame.point(at, aside + length))
        else:
            ends = (frame.point(aside + length, at), frame.point(aside, at))
        self._lay(seam, ends, frame.arrow(1, 0) if upright else frame.arrow(0, 1), earlier)

    def _unit(self, unit: PlannedUnit, frame: Frame) -> None:
        """The seams among a unit's patches; mirrored first where the unit is reversed."""
        size = unit.sizes[self.index]
        if size is None:
            return
        start = len(self.laid)
        if unit.id not in self.drawn:
            self.drawn[unit.id] = self._drawn(unit, size)
        for drawn in self.drawn[unit.id]:
            self._unit_seam(drawn, frame, start)

    def _drawn(self, unit: PlannedUnit, size: UnitSize) -> list[_Drawn]:
        """The seams of a unit in its own frame, in the order of sewing."""
        outlines = self._corners(unit, size)
        known = self.pressing.seams_of("unit", unit.id)
        every = sorted(((p, sides) for p in known for sides in p.drawn), key=lambda pair: pair[1].order)
        made = []
        for pressed, sides in every:
            touched = shared(outlines, sides.first, sides.second)
            ends = touched[0], touched[-1]
            leads = (self._inward(size, ends[0]), self._inward(size, ends[1])) if len(touched) > 2 else None
            along, inside = minus(ends[1], ends[0]), set(sides.first + sides.second)
            beyond = next(c for p in sides.second for c in outlines[p] if cross(along, minus(c, ends[0])))
            earlier = [
                other.order for _, other in every
                if other.order < sides.order and set(other.first + other.second) <= inside
            ]
            made.append(_Drawn(pressed, ends, beyond, earlier, leads))
        return made

    def _inward(self, size: UnitSize, end: Pair) -> Pair:
        """The way into a unit from a point of its edge."""
        x, y = end
        if x in (x - x, self._number(size.request.width)):
            return (-1 if x else 1), 0
        return 0, (-1 if y else 1)

    def _corners(self, unit: PlannedUnit, size: UnitSize) -> list[list[Pair]]:
        """The corners of a unit's patches, found once."""
        if unit.id not in self.corners:
            width = self._number(size.request.width)
            shapes = [
                [(self._number(corner.x), self._number(corner.y)) for corner in patch.outline]
                for patch in BY_NAME[unit.method].patches(size.request)
            ]
            mirrored = [[(width - x, y) for x, y in shape] for shape in shapes]
            self.corners[unit.id] = mirrored if unit.hand == "reversed" else shapes
        return self.corners[unit.id]

    def _unit_seam(self, drawn: _Drawn, frame: Frame, start: int) -> None:
        ends = (frame.point(*drawn.ends[0]), frame.point(*drawn.ends[1]))
        along = minus(ends[1], ends[0])
        leads = (frame.arrow(*drawn.leads[0]), frame.arrow(*drawn.leads[1])) if drawn.leads is not None else None
        if positive(cross(along, minus(frame.point(*drawn.beyond), ends[0]))):
            ends, along = (ends[1], ends[0]), (-along[0], -along[1])
            leads = leads[::-1] if leads is not None else None
        first, last = leads if leads is not None else (along, (-along[0], -along[1]))
        begin, finish = drawn.pressed.halves
        points = (first[1] * begin, -first[0] * begin), (-last[1] * finish, last[0] * finish)
        earlier = [start + order for order in drawn.earlier]
        self.laid.append(Laid(drawn.pressed.seam, ends, points, earlier, leads))
