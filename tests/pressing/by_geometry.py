"""A third count of junctions, slow and in floats: where seams cross in the finished drawing, found by shapely.

In: a plan; the outlines of its finished patches, and the order in which they are joined.
Out: for each joining its kind, the points of its junctions, and the points where more than six seams meet.
Two parts are joined along what their outlines share. From every point of it, the seams within each part run along
sides that two patches of that part have there; two from different parts that mirror each other in the seam are a
junction. Nothing is known here of seams, ends, offsets, senses or classes, and no code of either count is used.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from math import atan2, cos, hypot, pi, sin, sqrt

from shapely import LineString, Point, STRtree

from patchwright.core.geometry import Orientation
from patchwright.methods.registry import BY_NAME
from patchwright.planning.plan import Placed, Plan, PlannedSize, TopItem

Spot = tuple[float, float]
Patch = tuple[Spot, ...]
_NEAR = 1e-6
_LEANING = 0.09
"""Rays that lie so close together, in radians, count as one: a curve is drawn by chords, the first 4° off a tangent."""


@dataclass
class Join:
    """Two parts sewn together."""

    kind: tuple[str, str]
    junctions: list[Spot]
    heavy: list[Spot]


@dataclass
class Joiner:
    """Sews one size of a plan together, from its patches."""

    plan: Plan
    index: int
    joins: list[Join] = field(default_factory=list)

    # -- what is sewn --------------------------------------------------------------------------------------------------

    def top(self) -> list[Patch]:
        """Sew it all, and give every patch of the top."""
        size = self.plan.sizes[self.index]
        center = [item for item in size.items if not item.part.startswith("border")]
        made = self._center(size, center)
        around = [center]
        for border in size.borders:
            items = [item for item in size.items if item.part == border.id]
            if border.corner_kind == "mitered":
                around.append(items)
                if border.joined[-1] == border.id:
                    made = self._mitered(made, around[-len(border.joined):])
            elif items:
                made = self._bordered(made, items)
        return made

    def _center(self, size: PlannedSize, center: list[TopItem]) -> list[Patch]:
        if size.setting == "strippy":
            columns = [[i for i in center if i.column == number] for number in sorted({i.column or 0 for i in center})]
            return self._joined([
                self._diagonal(column) if any(item.on_point for item in column) else self._line(column, "row")
                for column in columns
            ], ("top", "between"))
        if size.setting == "on-point":
            return self._diagonal(center)
        if size.quarters is None:
            return self._rows(center, ("top", "between"))
        x, y = float(size.quarters.x.length), float(size.quarters.y.length)
        halves = [
            self._joined([
                self._rows([i for i in center if (float(i.x) < x) == left and (float(i.y) < y) == upper],
                           ("quarter", "between"))
                for left in (True, False)
            ], ("top", "within"))
            for upper in (True, False)
        ]
        return self._joined(halves, ("top", "between"))

    def _rows(self, items: list[TopItem], kind: tuple[str, str]) -> list[Patch]:
        places = sorted({float(item.y) for item in items})
        return self._joined([self._line([i for i in items if float(i.y) == y], "row") for y in places], kind)

    def _diagonal(self, items: list[TopItem]) -> list[Patch]:
        rows = [[i for i in items if i.row == number] for number in sorted({i.row or 0 for i in items})]
        return self._joined([
            self._joined([self._item(i) for i in sorted(row, key=lambda i: _middle(i)[0] - _middle(i)[1])],
                         ("row", "within"))
            for row in rows
        ], ("top", "between"))

    def _line(self, items: Iterable[TopItem], owner: str) -> list[Patch]:
        ordered = sorted(items, key=lambda item: (float(item.x) + float(item.y)))
        return self._joined([self._item(item) for item in ordered], (owner, "within"))

    def _bordered(self, made: list[Patch], items: list[TopItem]) -> list[Patch]:
        left, top, _, bottom = _box(made)
        strips: dict[str, list[TopItem]] = {"left": [], "right": [], "top": [], "bottom": []}
        for item in items:
            x, y = _middle(item)
            strips["top" if y < top else "bottom" if y > bottom else "left" if x < left else "right"].append(item)
        for side, part in (("left", "side"), ("right", "side"), ("top", "end"), ("bottom", "end")):
            if strips[side]:
                made = self._join(made, self._line(strips[side], "border"), ("border", part))
        return made

    def _mitered(self, made: list[Patch], borders: Sequence[list[TopItem]]) -> list[Patch]:
        """Strips of one side together, then all four to the quilt, then corner by corner."""
        left, top, _, _ = _box(made)
        sets: dict[str, list[Patch]] = {}
        for items in borders:
            for item in items:
                x, y = _middle(item)
                flat = float(item.width) > float(item.height)
                side = ("top" if y < top else "bottom") if flat else "left" if x < left else "right"
                own = self._item(item)
                part = "end" if flat else "side"
                sets[side] = self._join(sets[side], own, ("border", part)) if side in sets else own
        for side, strips in sets.items():
            self._join(made, strips, ("border", "side" if side in ("left", "right") else "end"))
        for side, other in (("left", "top"), ("top", "right"), ("right", "bottom"), ("bottom", "left")):
            self._join(sets[side], sets[other], ("border", "miter"))
        return made + [patch for side in sets.values() for patch in side]

    def _item(self, item: TopItem) -> list[Patch]:
        x, y, width, height = (float(side) for side in (item.x, item.y, item.width, item.height))
        if item.outline and item.kind == "piece":
            return [tuple((float(corner.x), float(corner.y)) for corner in item.outline)]
        if not item.on_point:
            return self._part(item.kind, item.ref, item.orientation, (x, y, width, height), None)
        side = width / sqrt(2)
        start = x, y + height / 2  # Its upper left corner points left.
        return self._part(item.kind, item.ref, item.orientation, (0.0, 0.0, side, side), start)

    def _part(
        self, kind: str, ref: str, lay: Orientation, place: tuple[float, float, float, float], leftmost: Spot | None
    ) -> list[Patch]:
        """A part's patches where they lie; its own joins are counted there, at every place anew."""
        def laid(spot: Spot, width: float, height: float) -> Spot:
            along, down = spot
            for _ in range(lay.turns):
                along, down, width, height = height - down, along, height, width
            along, down = place[0] + along, place[1] + down
            if leftmost is None:
                return along, down
            return leftmost[0] + (along + down) / sqrt(2), leftmost[1] + (down - along) / sqrt(2)

        if kind == "piece":
            width, height = (place[3], place[2]) if lay.turns % 2 else place[2:]
            corners = ((0.0, 0.0), (width, 0.0), (width, height), (0.0, height))
            return [tuple(laid(corner, width, height) for corner in corners)]
        flat = self._unit(ref) if kind == "unit" else self._assembly(ref)
        made = [tuple(laid(spot, *flat.size) for spot in patch) for patch in flat.patches]
        for join in flat.joins:
            spots = ([laid(spot, *flat.size) for spot in own] for own in (join.junctions, join.heavy))
            self.joins.append(Join(join.kind, *spots))
        return made

    def _unit(self, ref: str) -> _Flat:
        unit = next(known for known in self.plan.units if known.id == ref)
        size = unit.sizes[self.index]
        assert size is not None
        assert self.plan.pressing is not None
        width, height = float(size.request.width), float(size.request.height)
        patches = []
        for patch in BY_NAME[unit.method].patches(size.request):
            corners = [(float(corner.x), float(corner.y)) for corner in patch.outline]
            patches.append(tuple((width - x, y) for x, y in corners) if unit.hand == "reversed" else tuple(corners))
        inner = Joiner(self.plan, self.index)
        joined = [sides for pressed in self.plan.pressing.seams_of("unit", ref) for sides in pressed.drawn]
        for sides in sorted(joined, key=lambda sides: sides.order):
            first, second = ([patches[number] for number in group] for group in (sides.first, sides.second))
            inner._join(first, second, ("unit", "join"))
        return _Flat((width, height), patches, inner.joins)

    def _assembly(self, ref: str) -> _Flat:
        made = next(known for known in self.plan.assemblies if known.id == ref)
        inner, rows, aside = Joiner(self.plan, self.index), made.axis == "rows", 0.0
        lines, along = [], 0.0
        for line in made.lines:
            parts, along, deep = [], 0.0, 0.0
            for part in line:
                wide, high = _sides(part, self.index)
                if wide:
                    x, y = (along, aside) if rows else (aside, along)
                    parts.append(inner._part(part.kind, part.ref, part.orientation, (x, y, wide, high), None))
                    along, deep = along + (wide if rows else high), high if rows else wide
            lines.append(inner._joined(parts, ("assembly", "within")))
            aside += deep
        patches = inner._joined(lines, ("assembly", "between"))
        return _Flat((along, aside) if rows else (aside, along), patches, inner.joins)

    # -- what is found -------------------------------------------------------------------------------------------------

    def _joined(self, parts: Sequence[list[Patch]], kind: tuple[str, str]) -> list[Patch]:
        made = parts[0]
        for part in parts[1:]:
            made = self._join(made, part, kind)
        return made

    def _join(self, first: list[Patch], second: list[Patch], kind: tuple[str, str]) -> list[Patch]:
        stretches = _shared(first, second)
        join = Join(kind, [], [])
        for spot in _distinct(end for stretch in stretches for end in _corners_on(stretch, first + second)):
            seam = _apart(_angle(spot, end) for stretch in stretches for end in _beyond(spot, stretch))
            rays = [
                [ray for ray in _rays(spot, part) if not any(_between(ray, way) < _LEANING for way in seam)]
                for part in (first, second)
            ]
            mirrored = [2 * seam[0] - ray for ray in rays[0]]
            join.junctions += [
                spot for ray in rays[1] for other in mirrored if _between(ray, other) < 2 * _LEANING
            ]
            if len(seam) == 2 and len(rays[0]) + len(rays[1]) + 2 > 6:
                join.heavy.append(spot)
        self.joins.append(join)
        return first + second


@dataclass
class _Flat:
    size: Spot
    patches: list[Patch]
    joins: list[Join]


def _sides(part: Placed, index: int) -> Spot:
    size = part.sizes[index]
    return (float(size[0]), float(size[1])) if size is not None else (0.0, 0.0)


def _middle(item: TopItem) -> Spot:
    if item.outline:
        return (sum(float(corner.x) for corner in item.outline) / len(item.outline),
                sum(float(corner.y) for corner in item.outline) / len(item.outline))
    return float(item.x) + float(item.width) / 2, float(item.y) + float(item.height) / 2


def _box(patches: Iterable[Patch]) -> tuple[float, float, float, float]:
    spots = [spot for patch in patches for spot in patch]
    return (min(x for x, _ in spots) + _NEAR, min(y for _, y in spots) + _NEAR,
            max(x for x, _ in spots) - _NEAR, max(y for _, y in spots) - _NEAR)


def _edges(patches: Iterable[Patch]) -> list[LineString]:
    return [LineString(pair) for patch in patches for pair in pairwise((*patch, patch[0]))]


def _shared(first: list[Patch], second: list[Patch]) -> list[LineString]:
    """The stretches along which sides of one part lie on sides of the other."""
    edges, others = _edges(first), _edges(second)
    found = STRtree(others).query(edges, predicate="dwithin", distance=_NEAR)
    made = []
    for at, other in zip(*found, strict=True):
        stretch = edges[at].intersection(others[other].buffer(_NEAR, cap_style="flat"))
        if stretch.length > 1e-3 and stretch.hausdorff_distance(others[other].intersection(
            edges[at].buffer(_NEAR, cap_style="flat")
        )) < 1e-3:
            made.append(stretch)
    return made


def _corners_on(stretch: LineString, patches: Iterable[Patch]) -> Iterator[Spot]:
    """The corners of patches that lie on a stretch."""
    low_x, low_y, high_x, high_y = (side + way * 1e-4 for side, way in zip(stretch.bounds, (-1, -1, 1, 1), strict=True))
    for spot in (spot for patch in patches for spot in patch):
        if low_x < spot[0] < high_x and low_y < spot[1] < high_y and _distance(spot, stretch) < 1e-4:
            yield spot


def _distance(spot: Spot, line: LineString) -> float:
    (x, y), (other_x, other_y) = line.coords[0], line.coords[-1]
    wide, high = other_x - x, other_y - y
    part = ((spot[0] - x) * wide + (spot[1] - y) * high) / (wide * wide + high * high)
    part = min(1.0, max(0.0, part))
    return hypot(spot[0] - x - wide * part, spot[1] - y - high * part)


def _distinct(spots: Iterable[Spot]) -> list[Spot]:
    return list({(round(x, 3), round(y, 3)): (x, y) for x, y in spots}.values())


def _beyond(spot: Spot, line: LineString) -> Iterator[Spot]:
    """The ends of a line through a spot that lie away from it."""
    if _distance(spot, line) < 1e-4:
        for end in (line.coords[0], line.coords[-1]):
            if hypot(end[0] - spot[0], end[1] - spot[1]) > 1e-3:
                yield end[0], end[1]


def _rays(spot: Spot, patches: Iterable[Patch]) -> list[float]:
    """The ways from a spot along which two patches lie side by side."""
    ways: list[float] = []
    for patch in patches:
        own = [
            _angle(spot, end) for pair in pairwise((*patch, patch[0])) if _is_near(spot, pair)
            for end in _beyond(spot, LineString(pair))
        ]
        ways += _apart(own)
    return [way for way in _apart(ways) if sum(_between(way, other) < _LEANING for other in ways) > 1]


def _is_near(spot: Spot, pair: tuple[Spot, Spot]) -> bool:
    return all(min(a, b) - 1e-4 < at < max(a, b) + 1e-4 for at, a, b in zip(spot, *pair, strict=True))


def _apart(ways: Iterable[float]) -> list[float]:
    found: list[float] = []
    for way in ways:
        if all(_between(way, other) > _LEANING for other in found):
            found.append(way)
    return found


def crowded(patches: list[Patch]) -> list[Spot]:
    """Where more than six seams meet in the finished drawing, whatever was joined when."""
    boxes = STRtree([LineString(patch).envelope for patch in patches])
    found = []
    for spot in _distinct(spot for patch in patches for spot in patch):
        near = boxes.query(Point(spot).buffer(1e-3))
        if len(_rays(spot, [patches[number] for number in near])) > 6:
            found.append(spot)
    return found


def _angle(start: Spot, end: Spot) -> float:
    return atan2(end[1] - start[1], end[0] - start[0])


def _between(way: float, other: float) -> float:
    return abs(atan2(sin(way - other), cos(way - other))) % (2 * pi)
