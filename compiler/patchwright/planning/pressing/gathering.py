"""Plan → everything that pressing depends on: lines, meetings, how often each occurs, and what each seam would rather.

In: a plan.
Out: a `Model`: for every size the joining lines of every pressing class with their count, and the wishes of seams.
Never: a direction chosen; nothing here knows the house's rule.

Every distinct unit and assembly is one class, pressed alike wherever it lies; turning keeps the sense of a seam's end,
and what is mirrored is a class of its own. Rows of the top take turns: the odd ones of a kind are one class, the even
ones another. Where blocks are chosen to lie the second way, they are a second variant of their class, with everything
in them; and blocks may be kept apart, so that a choice can be made.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from patchwright.core.length import Length
from patchwright.methods.method import OUTWARD
from patchwright.methods.registry import BY_NAME
from patchwright.planning.plan import Assembly, PlacedKind, PlannedSize, TopItem
from patchwright.planning.pressing.faces import Face, Line, beside, in_variant, plain_face, stacked
from patchwright.planning.pressing.grid import Grid, sign, size_grid
from patchwright.planning.pressing.miters import miter_lines, mitered, miters, with_miters
from patchwright.planning.pressing.model import Crossing, Model, SecondWays, UnitDrawing
from patchwright.planning.pressing.on_point import box_of, diagonal_row, joined_rows
from patchwright.planning.pressing.sewn import Sewn, cloth_values
from patchwright.planning.pressing.terms import Owner, Seam
from patchwright.planning.pressing.tops import (
    HALF_SEAMS,
    MIDDLE_SEAM,
    SIDES,
    Side,
    TopBorder,
    TopRow,
    column_rows,
    is_sashing,
    item_name,
    joining_seams,
    quarter_rows,
    row_name,
    row_owner,
    row_seams,
    top_borders,
    top_rows,
)
from patchwright.planning.pressing.unit_faces import SewnUnit, sewn_unit
from patchwright.planning.pressing.wishes import beside_seam, darker, is_plain, outward


def make_model(plan: Sewn, second: SecondWays = (), apart: bool = False) -> Model:
    """Walk every size of a plan once.

    `second` are the blocks that lie the second way. With `apart`, it is noted too which blocks of the center meet.
    """
    model = Model(tuple(size.name for size in plan.sizes))
    crossings: dict[Seam, set[tuple[Crossing, ...]]] = {}
    for index in range(len(plan.sizes)):
        lying = second[index] if second else frozenset()
        _SizeWalk(plan, index, lying, apart, model, crossings, size_grid(plan, index)).walk()
    for seam, found in crossings.items():
        known = next(iter(found))
        if len(found) == 1 and known and seam not in model.fixed:
            model.spins[seam] = known
    return model


@dataclass(slots=True)
class _SizeWalk:
    """Sews one size together, class by class and then the top."""

    plan: Sewn
    index: int
    second: frozenset[int]
    apart: bool
    model: Model
    crossings: dict[Seam, set[tuple[Crossing, ...]]]
    grid: Grid
    faces: dict[Owner, Face] = field(default_factory=dict)
    lines: list[tuple[Owner, Line]] = field(default_factory=list)
    used: Counter[Owner] = field(default_factory=Counter)
    places: dict[int, int] = field(default_factory=dict)
    """The places of the parts of the top, by their identity."""

    def __post_init__(self) -> None:
        self.places = {id(item): place for place, item in enumerate(self.plan.sizes[self.index].items)}

    def walk(self) -> None:
        """Sew everything, then enter every line as often as its class occurs."""
        size = self.plan.sizes[self.index]
        if not size.items:
            return
        rows, borders = top_rows(size), top_borders(size)
        if size.by_block is not None:
            for item in size.items:  # Blocks are joined with seams that stand out or lie open, and nest with nothing.
                self._item(item)
        else:
            face = self._diagonals(rows) if size.setting == "on-point" else self._straight(size, rows)
            for border in borders:
                face = self._bordered(face, border)
        chained = any(row.is_chain for row in rows)
        self._count([row for column in column_rows(size) for row in column] if chained else rows, borders)
        for owner, line in self.lines:
            self._enter(line, self.used[owner] if owner.kind in ("unit", "assembly") else 1)

    def _face(self, kind: PlacedKind, ref: str, turns: int, size: tuple[Length, Length], variant: int) -> Face:
        """The face of a part as it lies."""
        if kind == "piece":
            return plain_face(self.grid.measure(size[0]), self.grid.measure(size[1]), self._value(ref))
        owner = Owner("unit" if kind == "unit" else "assembly", ref, variant)
        if owner not in self.faces:
            self.faces[owner] = self._unit(owner) if kind == "unit" else self._assembly(owner)
        return self.faces[owner].turned(turns)

    def _value(self, piece: str) -> int:
        fabric = next(known.fabric for known in self.plan.pieces if known.id == piece)
        return cloth_values(self.plan)[fabric]

    def _unit(self, owner: Owner) -> Face:
        unit = next(known for known in self.plan.units if known.id == owner.id)
        size = unit.sizes[self.index]
        if size is None:
            raise LookupError(f"{owner.id} is not in size {self.index}")
        sewn = sewn_unit(unit, size, owner, cloth_values(self.plan), self.grid)
        if unit.how in BY_NAME[unit.method].two_hands:
            self.model.mixed.setdefault(Owner("unit", unit.id))
        self.model.units.setdefault(owner, UnitDrawing(sewn.seams, sewn.roles))
        self.lines += [(owner, line) for line in sewn.lines]
        self._enter_unit(sewn, dict(BY_NAME[unit.method].pressed_away).get(unit.how))
        return sewn.face

    def _enter_unit(self, sewn: SewnUnit, away_from: str | None) -> None:
        for seam, drawn in sewn.seams:
            sides = [beside_seam(sewn, drawn, patches) for patches in (drawn.first, drawn.second)]
            self._name(seam, *sides)
            if drawn.lies:
                self.model.fixed[seam] = drawn.lies
            elif away_from == OUTWARD:
                self.model.fixed[seam] = outward(drawn)
            elif away_from is not None and (away_from in sides[0]) != (away_from in sides[1]):
                self.model.fixed[seam] = 1 if away_from in sides[0] else -1
        for end, sense in sewn.points:
            self._wish("points", end.seam, sense * end.sign)

    def _assembly(self, owner: Owner) -> Face:
        assembly = next(known for known in self.plan.assemblies if known.id == owner.id)
        rows = assembly.axis == "rows"
        made = []
        for number, line in enumerate(assembly.lines):
            parts = [part for part in line if part.sizes[self.index] is not None]
            seams = [Seam(owner, "within", number, place) for place in range(len(parts) - 1)]
            for seam, this, other in zip(seams, parts, parts[1:], strict=False):
                self._name(seam, [this.ref], [other.ref])
            faces = [self._placed(assembly, number, place, owner.variant) for place in range(len(parts))]
            made.append(self._join(owner, faces, seams, rows))
        seams = [Seam(owner, "between", number) for number in range(len(made) - 1)]
        for number, seam in enumerate(seams, 1):
            self._name(seam, [f"line-{number}"], [f"line-{number + 1}"])
        return self._join(owner, made, seams, not rows)

    def _placed(self, assembly: Assembly, line: int, place: int, variant: int) -> Face:
        part = [known for known in assembly.lines[line] if known.sizes[self.index] is not None][place]
        size = part.sizes[self.index]
        if size is None:
            raise LookupError(f"{part.ref} is not in size {self.index}")
        sides = (size[0].length, size[1].length)
        return self._face(part.kind, part.ref, part.orientation.turns, sides, variant)

    def _join(self, owner: Owner, faces: Sequence[Face], seams: Sequence[Seam], side_by_side: bool) -> Face:
        face, lines = (beside if side_by_side else stacked)(faces, seams)
        self.lines += [(owner, line) for line in lines]
        return face

    def _straight(self, size: PlannedSize, rows: tuple[TopRow, ...]) -> Face:
        """A center sewn in rows, in columns, or in quarters."""
        if size.quarters is None:
            return self._center(rows, self._lined(size, rows))
        quarters = quarter_rows(size)
        halves = []
        for half, seam in zip(quarters, HALF_SEAMS, strict=True):
            made = [self._center(part, [*map(self._row, part)], side) for side, part in zip(SIDES, half, strict=True)]
            self._name(seam, ["left"], ["right"])
            left, right = ([row.items[place] for row in part] for part, place in zip(half, (-1, 0), strict=True))
            self._wish("sashing", seam, is_sashing(right) - is_sashing(left))
            halves.append(self._join(seam.owner, made, [seam], side_by_side=True))
        self._name(MIDDLE_SEAM, ["upper"], ["lower"])
        self._wish("sashing", MIDDLE_SEAM, quarters[1][0][0].is_strip - quarters[0][0][-1].is_strip)
        return self._join(MIDDLE_SEAM.owner, halves, [MIDDLE_SEAM], side_by_side=False)

    def _lined(self, size: PlannedSize, rows: tuple[TopRow, ...]) -> list[Face]:
        """The rows, or the columns of a strippy quilt, each sewn part by part; one on point in its diagonal rows."""
        if not any(row.is_chain for row in rows):
            return [*map(self._row, rows)]
        return [
            self._diagonals(inner) if row.is_chain else self._row(row)
            for row, inner in zip(rows, column_rows(size), strict=True)
        ]

    def _center(self, rows: tuple[TopRow, ...], made: list[Face], side: Side | None = None) -> Face:
        """Row to row, or column to column; of a quarter where a side is given."""
        seams = joining_seams(rows, side)
        self._rather(rows, seams)
        owner = seams[0].owner if seams else Owner("top", "top")
        return self._join(owner, made, seams, side_by_side=rows[0].is_column)

    def _rather(self, rows: Sequence[TopRow], seams: Sequence[Seam]) -> None:
        """Name the seams between rows, and what each would rather."""
        for seam, (this, other) in zip(seams, pairwise(rows), strict=True):
            self._name(seam, [row_name(this)], [row_name(other)])
            self._wish("sashing", seam, other.is_strip - this.is_strip)

    def _row(self, row: TopRow) -> Face:
        seams = row_seams(row)
        for seam, (this, other) in zip(seams, pairwise(row.items), strict=True):
            self._name(seam, [item_name(this)], [item_name(other)])
            self._wish("sashing", seam, (other.part == "sashing") - (this.part == "sashing"))
        faces = [
            self._lying(item, (row.lengths[place] if row.lengths else row.side, row.side))
            if row.side is not None else self._lying(item)
            for place, item in enumerate(row.items)
        ]
        return self._join(row_owner(row), faces, seams, not row.is_column)

    def _lying(self, item: TopItem, sides: tuple[Length, Length] | None = None) -> Face:
        """The face of a part of the center, in the way that is chosen for it."""
        face = self._item(item, self._way(item), sides)
        return face.in_variant(self.places[id(item)] + 1) if self.apart and item.part == "block" else face

    def _way(self, item: TopItem) -> int:
        return int(self.places[id(item)] in self.second)

    def _item(self, item: TopItem, variant: int = 0, sides: tuple[Length, Length] | None = None) -> Face:
        """The face of a part of the top; on point, of a rectangle with these sides, as it lies along its row."""
        sides = sides or (item.width, item.height)
        return self._face(item.kind, item.ref, item.orientation.turns, sides, variant)

    def _diagonals(self, rows: tuple[TopRow, ...]) -> Face:
        """Diagonal rows, then row to row."""
        made = [diagonal_row(row, self._row(row)) for row in rows]
        seams = joining_seams(rows)
        self._rather(rows, seams)
        items = [item for row in rows for item in row.items]
        cloth = [(item, self._value(item.ref)) for item in items if item.kind == "piece"]
        face, lines = joined_rows(made, seams, box_of(items), cloth)
        self.lines += [(seam.owner, line) for seam, line in zip(seams, lines, strict=True)]
        return face

    def _bordered(self, face: Face, border: TopBorder) -> Face:
        """Sides first, then top and bottom; seams lie toward the border."""
        owner = Owner("border", border.id)
        faces = [self._strip(owner, number, strip) if strip else None for number, strip in enumerate(border.strips)]
        side, end = ([Seam(owner, part, 0, place) for place in (0, 1)] for part in ("side", "end"))
        for (before, after), strip in ((side, border.strips[0]), (end, border.strips[2])):
            if not strip:
                continue
            self._name(before, [border.id], ["center"])
            self._name(after, ["center"], [border.id])
            if not (border.is_sewn_on_first and strip is border.strips[2]):  # There they may give way, to nest.
                self._wish("sashing", before, -1)
                self._wish("sashing", after, 1)
        left, right, top, bottom = faces
        if left is None or right is None or top is None or bottom is None:
            if left is not None and right is not None:
                return self._join(owner, (left, face, right), side, side_by_side=True)
            return self._join(owner, (top, face, bottom), end, side_by_side=False) if top and bottom else face
        if border.joined:
            return self._mitered(border, face, (left, right, top, bottom), (*side, *end))
        middle = self._join(owner, (left, face, right), side, side_by_side=True)
        return self._join(owner, (top, middle, bottom), end, side_by_side=False)

    def _mitered(self, border: TopBorder, face: Face, strips: Sequence[Face], seams: Sequence[Seam]) -> Face:
        """Strips with slanted ends; those mitered as one have their miters with the last of them."""
        made, lines = mitered(face, strips, seams)
        if border.id == border.joined[-1]:
            known = {one.id: one.width.length for one in self.plan.sizes[self.index].borders}
            lines += tuple(miter_lines(border.joined, [self.grid.measure(known[id]) for id in border.joined]))
            self.model.opened.update(dict.fromkeys(miters(border.id)))
            made = with_miters(made, border.id)
        self.lines += [(line.seam.owner, line) for line in lines]
        return made

    def _strip(self, owner: Owner, number: int, items: Sequence[TopItem]) -> Face:
        seams = [Seam(owner, "within", number, place) for place in range(len(items) - 1)]
        for seam, this, other in zip(seams, items, items[1:], strict=False):
            self._name(seam, [this.ref], [other.ref])
            longer = [max(item.width, item.height) for item in (this, other)]
            self._wish("sashing", seam, (longer[1] > longer[0]) - (longer[0] > longer[1]))
        return self._join(owner, [self._item(item) for item in items], seams, side_by_side=number > 1)

    def _count(self, rows: Sequence[TopRow], borders: tuple[TopBorder, ...]) -> None:
        """How often every class occurs in this size."""
        for item in (item for row in rows for item in row.items):
            self._add(item.kind, item.ref, self._way(item))
        for border in borders:
            for item in (item for strip in border.strips for item in strip):
                self._add(item.kind, item.ref, 0)
        for owner, count in self.used.items():
            self.model.counts.setdefault(owner, [0] * len(self.plan.sizes))[self.index] = count

    def _add(self, kind: PlacedKind, ref: str, variant: int) -> None:
        if kind == "piece":
            return
        self.used[Owner("unit" if kind == "unit" else "assembly", ref, variant)] += 1
        if kind == "assembly":
            assembly = next(known for known in self.plan.assemblies if known.id == ref)
            for part in (part for line in assembly.lines for part in line if part.sizes[self.index] is not None):
                if part.kind != "piece":
                    inner = Owner("unit" if part.kind == "unit" else "assembly", part.ref, variant)
                    self.model.holders.setdefault(inner, {}).setdefault(Owner("assembly", ref, variant))
                self._add(part.kind, part.ref, variant)

    def _enter(self, line: Line, times: int) -> None:
        """Enter a line's meetings, crossing, heavy points and wishes."""
        count = len(self.plan.sizes)
        for first, second in line.meetings():
            if self.apart and line.seam.owner.kind not in ("unit", "assembly"):
                self.model.apart.setdefault((line.seam, first, second), [0] * count)[self.index] += times
                first, second = in_variant(first, 0), in_variant(second, 0)
            self.model.meetings.setdefault((line.seam, first, second), [0] * count)[self.index] += times
        for seams in line.seam_counts().values():
            if seams > 6:
                self.model.heavy.setdefault((line.seam, seams), [0] * count)[self.index] += times
        if line.seam in self.model.opened:
            return
        crossings = line.crossings() if line.seam.owner.kind in ("unit", "assembly") else ()
        self.crossings.setdefault(line.seam, set()).add(tuple(
            Crossing(first, second, len(crossings) == 1 or place * 2 == line.length)
            for place, first, second in crossings
        ))
        ends = [len(edge.ends) for edge in (line.first, line.second)]
        if line.seam.owner.kind in ("unit", "assembly") or not all(ends):
            self._wish("bulk", line.seam, sign(ends[0] - ends[1]))
        if line.seam.owner.kind in ("unit", "assembly") or is_plain(line):
            for half, wish in enumerate(darker(line, crossings[0][0] if len(crossings) == 1 else None)):
                self._wish("darker", line.seam, wish, (half,))

    def _wish(self, reason: str, seam: Seam, wish: int, halves: tuple[int, ...] = (0, 1)) -> None:
        for half in halves:
            self.model.wishes.setdefault(reason, Counter())[seam, half] += wish

    def _name(self, seam: Seam, first: Sequence[str], second: Sequence[str]) -> None:
        self.model.seams.setdefault(seam)
        known = self.model.names.setdefault(seam, ({}, {}))
        for names, more in zip(known, (first, second), strict=True):
            names.update(dict.fromkeys(more))
