"""An independent count of the junctions that nest, from the finished top alone.

In: a plan and its pressing plan.
Out: for every size how many junctions nest, of how many.
Every seam of a size is laid out as a segment with an arrow at each end that shows where its allowance lies.
Then, for every seam, all ends of earlier seams of the same sewn thing that lie on it are found by their places.
Two that come from opposite sides at mirror-image angles are a junction; it nests if their allowances lie opposed.
Never: anything that the planner of pressing computed but the directions; no code is shared with it.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from math import lcm

from patchwright.core.geometry import Point
from patchwright.core.length import Length
from patchwright.methods.registry import BY_NAME
from patchwright.planning.plan import Assembly, Placed, Plan, PlannedUnit, TopItem, UnitSize
from patchwright.planning.pressing.plane import (
    Frame,
    Number,
    Pair,
    Slanted,
    cross,
    dot,
    lies_on,
    minus,
    positive,
    shared,
    slanted,
)
from patchwright.planning.pressing.results import PressedSeam, PressingPlan
from patchwright.planning.pressing.terms import Owner, Seam

_SASHES = ("sashing", "cornerstones", "strips")


def recount(plan: Plan, pressing: PressingPlan) -> tuple[tuple[int, int], ...]:
    """(nested, all) for every size."""
    return tuple(recount_size(plan, pressing, index) for index in range(len(plan.sizes)))


def recount_size(plan: Plan, pressing: PressingPlan, index: int) -> tuple[int, int]:
    """(nested, all) of one size; KeyError where the plan has no direction for a seam."""
    return recount_points(plan, pressing, index)[:2]


def recount_points(plan: Plan, pressing: PressingPlan, index: int) -> tuple[int, int, int]:
    """(nested, all, points where more than six seams meet) of one size."""
    walk = Walk(plan, pressing, index)
    walk.lay_top()
    numbers = range(len(walk.laid))
    found = [nests for number in numbers for _, nests in walk.junctions(number)]
    return sum(found), len(found), sum(len(walk.heavy(number)) for number in numbers)


@dataclass(frozen=True, slots=True)
class Laid:
    """A seam in the top: its ends, where the allowance points at each, and the earlier seams of its sewn thing."""

    seam: Seam
    ends: tuple[Pair, Pair]
    points: tuple[Pair, Pair]
    earlier: Sequence[int]


@dataclass(frozen=True, slots=True)
class _Drawn:
    """A seam of a unit in the unit's own frame."""

    pressed: PressedSeam
    ends: tuple[Pair, Pair]
    beyond: Pair
    """A corner on its second side."""
    earlier: list[int]
    """Places in the sewing order of the earlier seams of what it joins."""


@dataclass(slots=True)
class Walk:
    """Lays out one size."""

    plan: Plan
    pressing: PressingPlan
    index: int
    scale: int = 0
    laid: list[Laid] = field(default_factory=list)
    pressed: dict[Seam, PressedSeam] = field(default_factory=dict)
    drawn: dict[tuple[str, int], list[_Drawn]] = field(default_factory=dict)
    """The seams of units, by id and variant, found once."""
    rows: dict[Number, list[int]] = field(default_factory=dict)
    columns: dict[Number, list[int]] = field(default_factory=dict)
    """Seams by the rows and columns of their ends."""
    corners: dict[str, list[list[Pair]]] = field(default_factory=dict)
    turned: list[tuple[int, int, Point]] = field(default_factory=list)
    """Of a center on point, or each such column: up to which seam it is laid turned by an eighth, at which scale, and
    the point of the top that is nothing there."""

    def lay_top(self) -> None:
        """Lay out the whole top."""
        items = self.plan.sizes[self.index].items
        self._begin()
        self._top([item for item in items if not item.part.startswith("border")])
        self._find_ends()

    def lay_thing(self, kind: str, ref: str) -> None:
        """Lay out one unit or assembly as it lies at @0."""
        self._begin()
        self.scale = self._scaled(())
        none: Number = 0 if self.scale else Length()
        self._thing(kind, ref, Frame((1, 0), (0, 1), (none, none)), 0)
        self._find_ends()

    def _begin(self) -> None:
        self.pressed = {pressed.seam: pressed for pressed in self.pressing.seams}

    def _find_ends(self) -> None:
        for number, laid in enumerate(self.laid):
            for places, axis in ((self.columns, 0), (self.rows, 1)):
                for place in {end[axis] for end in laid.ends}:
                    places.setdefault(place, []).append(number)

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

    def _top(self, center: list[TopItem]) -> None:
        """The center's rows, then border by border."""
        size = self.plan.sizes[self.index]
        sides = [side for item in size.items for side in (item.x, item.y, item.width, item.height)]
        if size.setting == "on-point":
            self._diagonals(center)
        columns = self._by_column(center)
        for column in columns:
            if any(item.on_point for item in column):
                self._diagonals(column)
        self.scale = self._scaled(sides)
        if size.setting == "strippy":
            self._columns(columns)
        elif size.setting != "on-point":
            self._rows(center)
        box = [min(i.x for i in center), min(i.y for i in center)]
        box += [max(i.x + i.width for i in center), max(i.y + i.height for i in center)]
        inside = len(self.laid) if size.setting == "on-point" else self.turned[-1][0] if self.turned else 0
        for border in size.borders:
            items = [item for item in size.items if item.part == border.id]
            box = self._border(border.id, items, box, inside) if items else box

    def _rows(self, center: list[TopItem]) -> None:
        kinds: list[bool] = []
        for y in sorted({item.y for item in center}):
            row = sorted((item for item in center if item.y == y), key=lambda item: item.x)
            strip = {item.part for item in row} <= set(_SASHES)
            self._row(row, strip, kinds.count(strip))
            if kinds:
                line = 2 if kinds[-1] else 1 if strip else 0
                seam = Seam(Owner("top", "top"), "between", line)
                self._level(seam, row[0].x, row[-1].x + row[-1].width, y, range(len(self.laid)))
            kinds.append(strip)

    @staticmethod
    def _by_column(center: list[TopItem]) -> list[list[TopItem]]:
        """The parts of each column and strip of a strippy quilt, from top to bottom; nothing for other settings."""
        numbers = sorted({item.column for item in center if item.column is not None})
        return [sorted((i for i in center if i.column == number), key=lambda i: i.y) for number in numbers]

    def _columns(self, columns: list[list[TopItem]]) -> None:
        """Columns sewn from top to bottom, all alike, and joined from the left; what is turned meets nothing here."""
        start, number = len(self.laid), 0
        before = False
        for place, column in enumerate(columns):
            strip = {item.part for item in column} <= set(_SASHES)
            first = len(self.laid)
            for at, item in enumerate(column if not any(item.on_point for item in column) else ()):
                self._item(item, (number + at) % 2 if self.pressing.variants_allowed and not strip else 0)
                if at:
                    seam = Seam(Owner("row", "block"), "within", 0, at - 1)
                    self._level(seam, item.x, item.x + item.width, item.y, range(first, len(self.laid)))
            if place:
                seam = Seam(Owner("top", "top"), "between", 2 if before else 1 if strip else 0)
                left, top = min(item.x for item in column), min(item.y for item in column)
                bottom = max(item.y + item.height for item in column)
                self._upright(seam, left, top, bottom, range(start, len(self.laid)))
            before, number = strip, number + (not strip)

    def _diagonals(self, center: list[TopItem]) -> None:
        """A center on point, turned by an eighth so that its rows lie level; its edges meet no border's seams here."""
        base, first = next(item.outline[0] for item in center if item.on_point), len(self.laid)
        places: dict[int, list[Slanted]] = {}
        for item in center:
            if item.part != "setting-triangles":
                places.setdefault(item.row or 0, []).append(slanted(item, base.x, base.y))
        self.scale = self._scaled([side for row in places.values() for spot in row for side in spot[1]])
        left, right = (
            side(spot[1][at] for row in places.values() for spot in row) for side, at in ((min, 0), (max, 1))
        )
        kinds: list[bool] = []
        for number in sorted(places):
            row = sorted(places[number], key=lambda spot: self._number(spot[1][0]))
            strip = {item.part for item, _ in row} <= set(_SASHES)
            self._diagonal_row(kinds.count(strip) + (0 if strip else 1), row, strip)
            line = 3 if not kinds else 2 if kinds[-1] else 1 if strip else 0
            top = min(box[2] for _, box in row)
            self._level(Seam(Owner("top", "top"), "between", line), left, right, top, range(first, len(self.laid)))
            kinds.append(strip)
        last = Seam(Owner("top", "top"), "between", 4)
        bottom = max(box[3] for _, box in places[max(places)])
        self._level(last, left, right, bottom, range(first, len(self.laid)))
        self.turned.append((len(self.laid), self.scale, base))

    def _diagonal_row(self, number: int, row: list[Slanted], strip: bool) -> None:
        """Parts from the lower left; a row of blocks has a triangle before its first and after its last part."""
        start, owner, column = len(self.laid), Owner("row", "strip" if strip else "block"), 0
        top, bottom = max(box[2] for _, box in row), min(box[3] for _, box in row)
        for place, (item, (left, right, _, _)) in enumerate(row):
            none = self._number(left) - self._number(left)
            frame = Frame((1, 0), (0, 1), (none, none))
            wide, high = self._number(right) - self._number(left), self._number(bottom) - self._number(top)
            placed = frame.inner(self._number(left), self._number(top), wide, high, item.orientation.turns)
            if item.on_point:
                column += 1
                self._thing(item.kind, item.ref, placed, (column + 1) % 2 if self.pressing.variants_allowed else 0)
            if place or not strip:
                seam = Seam(owner, "within", number % 2, place - strip)
                self._upright(seam, left, top, bottom, range(start, len(self.laid)))
        if not strip:
            last = Seam(owner, "within", number % 2, len(row))
            self._upright(last, row[-1][1][1], top, bottom, range(start, len(self.laid)))

    def _row(self, row: list[TopItem], strip: bool, number: int) -> None:
        owner = Owner("row", "strip" if strip else "block")
        start, column = len(self.laid), 0
        for place, item in enumerate(row):
            dark = (number + column) % 2 if self.pressing.variants_allowed else 0
            self._item(item, dark if item.part not in _SASHES else 0)
            column += item.part not in _SASHES
            if place:
                seam = Seam(owner, "within", number % 2, place - 1)
                self._upright(seam, item.x, item.y, item.y + item.height, range(start, len(self.laid)))

    def _border(self, name: str, items: list[TopItem], box: list[Length], inside: int) -> list[Length]:
        """Strips at the sides join what is there, from the seam of this number on; then those above and below."""
        owner = Owner("border", name)
        left, top, right, bottom = box
        level = [[i for i in items if i.y + i.height <= top], [i for i in items if i.y >= bottom]]
        sides = [i for i in items if i not in level[0] and i not in level[1]]
        upright = [[i for i in sides if i.x < left], [i for i in sides if i.x >= right]]
        for place, strip in enumerate(upright):
            self._strip(owner, place, strip)
            seam = Seam(owner, "side", 0, place)
            self._upright(seam, (left, right)[place], top, bottom, range(inside, len(self.laid)))
        outer_left, outer_right = min(i.x for i in sides), max(i.x + i.width for i in sides)
        ends = (left, right) if any(i.outline for i in items) else (outer_left, outer_right)
        for place, strip in enumerate(level):
            self._strip(owner, place + 2, strip)
            seam = Seam(owner, "end", 0, place)
            self._level(seam, *ends, (top, bottom)[place], range(inside, len(self.laid)))
        return [outer_left, min(i.y for i in items), outer_right, max(i.y + i.height for i in items)]

    def _strip(self, owner: Owner, number: int, items: list[TopItem]) -> None:
        start = len(self.laid)
        for place, item in enumerate(sorted(items, key=lambda item: (item.y, item.x))):
            self._item(item, 0)
            if place:
                seam, earlier = Seam(owner, "within", number, place - 1), range(start, len(self.laid))
                if number < 2:
                    self._level(seam, item.x, item.x + item.width, item.y, earlier)
                else:
                    self._upright(seam, item.x, item.y, item.y + item.height, earlier)

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
        found = self.pressed.get(seam)
        return found.halves if found is not None else self.pressing.pressed(seam).halves

    def _item(self, item: TopItem, variant: int) -> None:
        x, y, width, height = (self._number(side) for side in (item.x, item.y, item.width, item.height))
        frame = Frame((1, 0), (0, 1), (x - x, y - y)).inner(x, y, width, height, item.orientation.turns)
        self._thing(item.kind, item.ref, frame, variant)

    def _thing(self, kind: str, ref: str, frame: Frame, variant: int) -> None:
        if kind == "unit":
            self._unit(next(unit for unit in self.plan.units if unit.id == ref), frame, variant)
        elif kind == "assembly":
            self._assembly(next(known for known in self.plan.assemblies if known.id == ref), frame, variant)

    def _assembly(self, assembly: Assembly, frame: Frame, variant: int) -> None:
        """Parts along each line, each seam after the parts that it joins; then line to line."""
        owner, rows = Owner("assembly", assembly.id, variant), assembly.axis == "rows"
        start = len(self.laid)
        aside: Number = 0 if self.scale else Length()
        for number, line in enumerate(assembly.lines):
            first = len(self.laid)
            along: Number = 0 if self.scale else Length()
            parts = [(part, *self._sides(part, rows)) for part in line if part.sizes[self.index] is not None]
            for place, (part, long, wide) in enumerate(parts):
                x, y, width, height = (along, aside, long, wide) if rows else (aside, along, wide, long)
                self._thing(part.kind, part.ref, frame.inner(x, y, width, height, part.orientation.turns), variant)
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

    def _unit(self, unit: PlannedUnit, frame: Frame, variant: int) -> None:
        """The seams among a unit's patches; mirrored first where the unit is reversed."""
        size = unit.sizes[self.index]
        if size is None:
            return
        start = len(self.laid)
        if (unit.id, variant) not in self.drawn:
            self.drawn[unit.id, variant] = self._drawn(unit, size, variant)
        for drawn in self.drawn[unit.id, variant]:
            self._unit_seam(drawn, frame, start)

    def _drawn(self, unit: PlannedUnit, size: UnitSize, variant: int) -> list[_Drawn]:
        """The seams of a unit in its own frame, in the order of sewing."""
        outlines = self._corners(unit, size)
        known = self.pressing.seams_of("unit", unit.id, variant)
        every = sorted(((p, sides) for p in known for sides in p.drawn), key=lambda pair: pair[1].order)
        made = []
        for pressed, sides in every:
            ends = shared(outlines, sides.first, sides.second)
            along, inside = minus(ends[1], ends[0]), set(sides.first + sides.second)
            beyond = next(c for p in sides.second for c in outlines[p] if cross(along, minus(c, ends[0])))
            earlier = [
                other.order for _, other in every
                if other.order < sides.order and set(other.first + other.second) <= inside
            ]
            made.append(_Drawn(pressed, ends, beyond, earlier))
        return made

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
        if positive(cross(along, minus(frame.point(*drawn.beyond), ends[0]))):
            ends, along = (ends[1], ends[0]), (-along[0], -along[1])
        left = (along[1], -along[0])
        points = tuple((left[0] * way, left[1] * way) for way in drawn.pressed.halves)
        earlier = [start + order for order in drawn.earlier]
        self.laid.append(Laid(drawn.pressed.seam, ends, (points[0], points[1]), earlier))

    def junctions(self, number: int) -> list[tuple[Pair, bool]]:
        """Where on a seam there is a junction, and whether it nests."""
        return [
            (spot, positive(-(one[2] * two[2]))) for spot, ends in self._ends_on(number).items()
            for one in ends if positive(one[0]) for two in ends
            if positive(-two[0]) and one[1] * -two[0] == two[1] * one[0]
        ]

    def heavy(self, number: int) -> list[tuple[Pair, int]]:
        """Points within a seam where more than six seams meet, the seam itself counting twice."""
        ends = self.laid[number].ends
        return [
            (spot, len(found) + 2) for spot, found in self._ends_on(number).items()
            if spot not in ends and len(found) + 2 > 6
        ]

    def _ends_on(self, number: int) -> dict[Pair, list[tuple[Number, Number, Number]]]:
        """The ends of earlier seams on a seam, by place: across it, along it, and where they point along it."""
        line = self.laid[number]
        along = minus(line.ends[1], line.ends[0])
        found: dict[Pair, list[tuple[Number, Number, Number]]] = {}
        for other in (self.laid[earlier] for earlier in self._near(line, along)):
            for end, far, point in zip(other.ends, other.ends[::-1], other.points, strict=True):
                if lies_on(end, line.ends):
                    ray = minus(far, end)
                    found.setdefault(end, []).append((cross(along, ray), dot(along, ray), dot(along, point)))
        return found

    def _near(self, line: Laid, along: Pair) -> Iterable[int]:
        """The earlier seams with an end in the row or column of a line; all of them for a line that runs askew."""
        if along[0] and along[1]:
            return line.earlier
        (x, y), _ = line.ends
        return [number for number in (self.columns[x] if not along[0] else self.rows[y]) if number in line.earlier]
