"""Laying out the seams of a whole top as segments with arrows, for the count on the finished top.

In: a plan, the directions of its pressing plan, and a size.
Out: every seam of its center, on point too, and of its borders, with the earlier seams of its sewn thing.
Never: anything that the planner of pressing computed but the directions; no code is shared with it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction

from patchwright.core.geometry import Point
from patchwright.core.length import Length
from patchwright.planning.plan import TopItem
from patchwright.planning.pressing.laid_parts import Laid, LaidParts
from patchwright.planning.pressing.plane import (
    Edges,
    Frame,
    Number,
    Slanted,
    between_edges,
    slanted,
    slanted_edges,
    straightened,
)
from patchwright.planning.pressing.terms import Owner, Seam

_SASHES = ("sashing", "cornerstones", "strips")


@dataclass(slots=True)
class LaidTop(LaidParts):
    """Lays out one size."""

    rows: dict[Number, list[int]] = field(default_factory=dict)
    columns: dict[Number, list[int]] = field(default_factory=dict)
    """Seams by the rows and columns of their ends."""
    turned: list[tuple[int, int, Point]] = field(default_factory=list)
    """Of a center on point, or each such column: up to which seam it is laid turned by an eighth, at which scale, and
    the point of the top that is nothing there."""
    straight: dict[int, Laid] = field(default_factory=dict)
    """Of the seams laid turned, those that reach an edge of their center, as they lie in the top."""
    copies: range = range(0)
    """Under which numbers those are laid once more, before anything that is joined to such an edge."""

    def lay_top(self) -> None:
        """Lay out the whole top."""
        items = self.plan.sizes[self.index].items
        self._begin()
        self._top([item for item in items if not item.part.startswith("border")])
        self._find_ends()

    def lay_thing(self, kind: str, ref: str) -> None:
        """Lay out one unit or assembly as it lies at @0."""
        self._begin()
        self._begin_at(self._scaled(()))
        none: Number = 0 if self.scale else Length()
        self._thing(kind, ref, Frame((1, 0), (0, 1), (none, none)))
        self._find_ends()

    def _find_ends(self) -> None:
        for number, laid in enumerate(self.laid):
            for places, axis in ((self.columns, 0), (self.rows, 1)):
                for place in {end[axis] for end in laid.ends}:
                    places.setdefault(place, []).append(number)

    def _top(self, center: list[TopItem]) -> None:
        """The center's rows, then border by border."""
        size = self.plan.sizes[self.index]
        sides = [side for item in size.items for side in (item.x, item.y, item.width, item.height)]
        if size.by_block is not None:
            self._begin_at(self._scaled(sides))
            for number, item in enumerate(center):  # Far apart: no seam between blocks is pressed.
                self._item(replace(item, x=item.x + size.finished[0].length * number * 2))
            return
        if size.setting == "on-point":
            self._diagonals(center)
        columns = self._by_column(center)
        for column in columns:
            if any(item.on_point for item in column):
                self._diagonals(column)
        self._begin_at(0 if self.straight else self._scaled(sides))
        self.copies = range(len(self.laid), len(self.laid) + len(self.straight))
        self.laid += self.straight.values()
        if size.setting == "strippy":
            self._columns(columns)
        elif size.quarters is not None:
            self._quarters(center, size.quarters.x.length, size.quarters.y.length)
        elif size.setting != "on-point":
            self._rows(center)
        box = [min(i.x for i in center), min(i.y for i in center)]
        box += [max(i.x + i.width for i in center), max(i.y + i.height for i in center)]
        before = {}
        for border in size.borders:
            items = [item for item in size.items if item.part == border.id]
            before[border.id] = box
            box = self._border(border.id, items, box) if items else box
            if border.corner_kind == "mitered" and border.joined[-1] == border.id:
                self._miters(border.joined, before[border.joined[0]], box)

    def _rows(self, center: list[TopItem]) -> None:
        kinds: list[bool] = []
        for y in sorted({item.y for item in center}):
            row = sorted((item for item in center if item.y == y), key=lambda item: item.x)
            strip = {item.part for item in row} <= set(_SASHES)
            self._row(row, strip, kinds.count(strip))
            if kinds:
                line = 2 if kinds[-1] else 1 if strip else 0
                seam = Seam(Owner("top", "top"), "between", line, len(kinds) - 1)
                self._level(seam, row[0].x, row[-1].x + row[-1].width, y, range(len(self.laid)))
            kinds.append(strip)

    def _quarters(self, center: list[TopItem], x: Length, y: Length) -> None:
        """Each quarter in its rows, which take turns over the whole top; then side to side, and half to half."""
        kinds = {top: {item.part for item in center if item.y == top} <= set(_SASHES) for top in (i.y for i in center)}
        left, right = min(item.x for item in center), max(item.x + item.width for item in center)
        upper, lower = min(kinds), max(item.y + item.height for item in center)
        for line, (start, end) in enumerate(((upper, y), (y, lower))):
            begun = len(self.laid)
            for side in ("left", "right"):
                first, before = len(self.laid), None
                for top in sorted(top for top in kinds if start <= top < end):
                    strip, number = kinds[top], sum(kinds[top] == kinds[other] for other in kinds if other < top)
                    parts = sorted((item for item in center if item.y == top), key=lambda item: item.x)
                    beside = [item for item in parts if item.x < x]
                    row = beside if side == "left" else parts[len(beside):]
                    self._row(row, strip, number, beside if side == "right" else [])
                    if before is not None:
                        kind, above = 2 if before else 1 if strip else 0, sum(other < top for other in kinds) - 1
                        ends = row[0].x, row[-1].x + row[-1].width
                        self._level(Seam(Owner("quarter", side), "between", kind, above), *ends, top,
                                    range(first, len(self.laid)))
                    before = strip
            self._upright(Seam(Owner("top", "quarters"), "within", line), x, start, end, range(begun, len(self.laid)))
        self._level(Seam(Owner("top", "quarters"), "between"), left, right, y, range(len(self.laid)))

    @staticmethod
    def _by_column(center: list[TopItem]) -> list[list[TopItem]]:
        """The parts of each column and strip of a strippy quilt, from top to bottom; nothing for other settings."""
        numbers = sorted({item.column for item in center if item.column is not None})
        return [sorted((i for i in center if i.column == number), key=lambda i: i.y) for number in numbers]

    def _columns(self, columns: list[list[TopItem]]) -> None:
        """Columns sewn from top to bottom, all alike, and joined from the left; those on point are laid already."""
        start, number = self.copies.start, 0
        before = False
        for place, column in enumerate(columns):
            strip = {item.part for item in column} <= set(_SASHES)
            first = len(self.laid)
            for at, item in enumerate(column if not any(item.on_point for item in column) else ()):
                self._item(item)
                if at:
                    seam = Seam(_row_owner(column, "column"), "within", 0, at - 1)
                    self._level(seam, item.x, item.x + item.width, item.y, range(first, len(self.laid)))
            if place:
                seam = Seam(Owner("top", "columns"), "between", 2 if before else 1 if strip else 0, place - 1)
                left, top = min(item.x for item in column), min(item.y for item in column)
                bottom = max(item.y + item.height for item in column)
                self._upright(seam, left, top, bottom, range(start, len(self.laid)))
            before, number = strip, number + (not strip)

    def _diagonals(self, center: list[TopItem]) -> None:
        """A center on point, turned by an eighth so that its rows lie level, and what of it comes to its edges."""
        base, first = next(item.outline[0] for item in center if item.on_point), len(self.laid)
        places: dict[int, list[Slanted]] = {}
        for item in center:
            if item.part != "setting-triangles":
                places.setdefault(item.row or 0, []).append(slanted(item, base.x, base.y))
        near = slanted_edges([item for row in places.values() for item, _ in row], base)
        outer = slanted_edges(center, base)
        self._begin_at(self._scaled([*(side for row in places.values() for spot in row for side in spot[1]), *near]))
        kinds: list[bool] = []
        for number in sorted(places):
            row = sorted(places[number], key=lambda spot: self._number(spot[1][0]))
            strip = {item.part for item, _ in row} <= set(_SASHES)
            self._diagonal_row(kinds.count(strip) + (0 if strip else 1), row, strip)
            line = 3 if not kinds else 2 if kinds[-1] else 1 if strip else 0
            self._between_rows(line, len(kinds), min(box[2] for _, box in row), first, near, outer)
            kinds.append(strip)
        self._between_rows(4, len(kinds), max(box[3] for _, box in places[max(places)]), first, near, outer)
        for number in range(first, len(self.laid)):
            if number not in self.straight:
                self._reach(number, near, outer)
        for number in [known for known in self.straight if known >= first]:
            laid = self.straight[number]
            ends = straightened(laid.ends[0], base), straightened(laid.ends[1], base)
            arrows, leads = (
                ((a + b, b - a), (c + d, d - c)) for (a, b), (c, d) in (laid.points, laid.leads or laid.points)
            )
            self.straight[number] = Laid(laid.seam, ends, arrows, (), leads if laid.leads else None)
        self.turned.append((len(self.laid), self.scale, base))

    def _between_rows(self, line: int, place: int, aside: Length, first: int, near: Edges, outer: Edges) -> None:
        """A seam from edge to edge. Where the center floats, it is laid a little beyond the last corner of a block.

        There nothing ends on it; its true ends, which may have other roots than all else, are kept beside it.
        """
        left, right = between_edges(near, aside)
        if near != outer:
            left, right = left - Length(1), right + Length(1)
        seam = Seam(Owner("top", "top"), "between", line, place)
        self._level(seam, left, right, aside, range(first, len(self.laid)))
        left, right = between_edges(outer, aside)
        self.straight[len(self.laid) - 1] = replace(self.laid[-1], ends=((right, aside), (left, aside)))

    def _reach(self, number: int, near: Edges, outer: Edges) -> None:
        """Note a seam that reaches an edge of its center with one of its ends."""
        laid = self.laid[number]
        edges = [self._number(edge) for edge in near]
        sums = [(x + y, y - x) for x, y in laid.ends]
        if not any(a <= edges[0] or a >= edges[1] or b <= edges[2] or b >= edges[3] for a, b in sums):
            return
        ends = [(self._length(x), self._length(y)) for x, y in laid.ends]
        if any(x + y in outer[:2] or y - x in outer[2:] for x, y in ends):
            self.straight[number] = replace(laid, ends=(ends[0], ends[1]))

    def _length(self, number: Number) -> Length:
        """A number of the turned center as a length again."""
        return Length(Fraction(number, self.scale)) if self.scale else number

    def _diagonal_row(self, number: int, row: list[Slanted], strip: bool) -> None:
        """Parts from the lower left; a row of blocks has a triangle before its first and after its last part."""
        start, owner = len(self.laid), _row_owner([item for item, _ in row], "on-point")
        top, bottom = max(box[2] for _, box in row), min(box[3] for _, box in row)
        for place, (item, (left, right, _, _)) in enumerate(row):
            none = self._number(left) - self._number(left)
            frame = Frame((1, 0), (0, 1), (none, none))
            wide, high = self._number(right) - self._number(left), self._number(bottom) - self._number(top)
            placed = frame.inner(self._number(left), self._number(top), wide, high, item.orientation.turns)
            if item.on_point:
                self._thing(item.kind, item.ref, placed)
            if place or not strip:
                seam = Seam(owner, "within", number % 2, place - strip)
                self._upright(seam, left, top, bottom, range(start, len(self.laid)))
        if not strip:
            last = Seam(owner, "within", number % 2, len(row))
            self._upright(last, row[-1][1][1], top, bottom, range(start, len(self.laid)))

    def _row(self, row: list[TopItem], strip: bool, number: int, beside: Sequence[TopItem] = ()) -> None:
        """A row, or what of it lies to the right of the parts beside it, which are not joined to it here."""
        owner = _row_owner([*beside, *row])
        start = len(self.laid)
        for place, item in enumerate(row):
            self._item(item)
            if place:
                seam = Seam(owner, "within", number % 2, len(beside) + place - 1)
                self._upright(seam, item.x, item.y, item.y + item.height, range(start, len(self.laid)))

    def _border(self, name: str, items: list[TopItem], box: list[Length]) -> list[Length]:
        """Strips at the sides join what is there; then those above and below."""
        owner, inside = Owner("border", name), self.copies.start
        left, top, right, bottom = box
        level = [[i for i in items if i.y + i.height <= top], [i for i in items if i.y >= bottom]]
        sides = [i for i in items if i not in level[0] and i not in level[1]]
        upright = [[i for i in sides if i.x < left], [i for i in sides if i.x >= right]]
        for place, strip in enumerate(upright if sides else ()):
            self._strip(owner, place, strip)
            seam = Seam(owner, "side", 0, place)
            self._upright(seam, (left, right)[place], top, bottom, range(inside, len(self.laid)))
        outer_left = min((i.x for i in sides), default=left)
        outer_right = max((i.x + i.width for i in sides), default=right)
        ends = (left, right) if any(i.outline for i in items) else (outer_left, outer_right)
        for place, strip in enumerate(level if level[0] else ()):
            self._strip(owner, place + 2, strip)
            seam = Seam(owner, "end", 0, place)
            self._level(seam, *ends, (top, bottom)[place], range(inside, len(self.laid)))
        return [
            outer_left, min(top, *(i.y for i in items)), outer_right, max(bottom, *(i.y + i.height for i in items))
        ]

    def _miters(self, joined: tuple[str, ...], inner: list[Length], outer: list[Length]) -> None:
        """Seams from corner to corner, past those between strips; the first strips' own end where a miter begins."""
        earlier = [
            number for number, laid in enumerate(self.laid)
            if laid.seam.owner.kind == "border" and laid.seam.owner.id in joined[1:]
        ]
        for place, (x, y) in enumerate(((0, 1), (2, 1), (2, 3), (0, 3))):
            seam = Seam(Owner("border", joined[-1]), "miter", 0, place)
            near, far = (tuple(self._number(box[side]) for side in (x, y)) for box in (inner, outer))
            forward = ((1, -1), (1, 1), (-1, 1), (-1, -1))[place]
            self._lay(seam, ((near[0], near[1]), (far[0], far[1])), forward, earlier)

    def _strip(self, owner: Owner, number: int, items: list[TopItem]) -> None:
        start = len(self.laid)
        for place, item in enumerate(sorted(items, key=lambda item: (item.y, item.x))):
            self._item(item)
            if place:
                seam, earlier = Seam(owner, "within", number, place - 1), range(start, len(self.laid))
                if number < 2:
                    self._level(seam, item.x, item.x + item.width, item.y, earlier)
                else:
                    self._upright(seam, item.x, item.y, item.y + item.height, earlier)


def _row_owner(row: Sequence[TopItem], way: str = "") -> Owner:
    """The class of a row's seams, by its kind and by whether it begins with, or holds, what lies between blocks."""
    sashes = [item.part in _SASHES for item in row]
    if all(sashes):
        held = ["framed"] if row[0].part == "cornerstones" else []
    else:
        held = ["framed"] if sashes[0] else ["sashed"] if any(sashes) else []
    return Owner("row", "-".join(["strip" if all(sashes) else "block", *([way] if way else []), *held]))
