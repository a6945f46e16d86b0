"""Checks that no two units or blocks of a plan are one made thing: that turning one never gives the other.

In: a plan.
Out: a sentence for each pair that is made in the same way, of the same lines, and shows the same patches turned.
Never: anything of the pass that makes them one; names that the plan says are kept apart, one-way prints, mirror images
and second ways of pressing are not compared.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Hashable, Iterable, Iterator
from dataclasses import dataclass, field
from itertools import combinations
from typing import TypeVar

from patchwright.core.length import Length
from patchwright.methods.registry import BY_NAME
from patchwright.planning.plan import Assembly, Placed, Plan, PlannedUnit

Spot = tuple[Length, Length]
Patch = tuple[str, frozenset[Spot]]
"""A fabric and the corners of one of its patches."""
Look = frozenset[Patch]
T = TypeVar("T")
Shown = tuple[list[tuple[str, list[Spot]]], Length, Length]
"""Patches, and how wide and how high they are together."""


def made_twice(plan: Plan) -> Iterator[str]:
    """Pairs that should be one."""
    shows = _Shows(plan)
    for units in _alike((unit, _unit_key(plan, unit)) for unit in plan.units):
        for one, other in combinations(units, 2):
            index = next(at for at, size in enumerate(one.sizes) if size is not None)
            if _is_turned(shows.unit(one, index), shows.unit(other, index)):
                yield f"the units `{one.id}` and `{other.id}` are the same made thing turned"
    for blocks in _alike((made, shows.assembly_key(made)) for made in plan.assemblies):
        for first, second in combinations(blocks, 2):
            index = next(at for at, size in enumerate(first.sizes) if size is not None)
            lines = [Counter(shows.lines(made, index)) for made in (first, second)]
            if lines[0] == lines[1] and _is_turned(shows.assembly(first, index), shows.assembly(second, index)):
                yield f"the blocks `{first.id}` and `{second.id}` are the same made thing turned"


def _alike(keyed: Iterable[tuple[T, Hashable]]) -> Iterator[list[T]]:
    """What has the same key together; what has none is left out."""
    groups: dict[Hashable, list[T]] = defaultdict(list)
    for made, key in keyed:
        if key is not None:
            groups[key].append(made)
    return iter(groups.values())


def _unit_key(plan: Plan, unit: PlannedUnit) -> Hashable:
    """What is the same of units that may be one; nothing for one that is not compared."""
    upright = {fabric.id for fabric in plan.fabrics if fabric.direction != "none"}
    fabrics = sorted(fabric for _, fabric in unit.fabrics)
    if unit.name in plan.apart or unit.second_of or upright & set(fabrics):
        return None
    asked = {(size.request.words, size.request.extents) for size in unit.sizes if size is not None}
    sizes = tuple(None if size is None else frozenset(size.finished) for size in unit.sizes)
    return unit.method, unit.how, unit.hand, tuple(fabrics), frozenset(asked), sizes


@dataclass(slots=True)
class _Shows:
    """What things of one plan look like, each found once."""

    plan: Plan
    known: dict[tuple[str, int], Shown] = field(default_factory=dict)

    def unit(self, unit: PlannedUnit, index: int) -> Shown:
        size = unit.sizes[index]
        if size is None:
            raise LookupError(unit.id)
        fabrics = dict(unit.fabrics)
        patches = [
            (fabrics[patch.role], [(corner.x, corner.y) for corner in patch.outline])
            for patch in BY_NAME[unit.method].patches(size.request)
        ]
        shown = patches, size.request.width, size.request.height
        return _mirrored(shown) if unit.hand == "reversed" else shown

    def assembly(self, made: Assembly, index: int) -> Shown:
        """All lines beside each other, as they are sewn."""
        if (made.id, index) not in self.known:
            self.known[made.id, index] = _side_by_side(
                [self._line(line, index, made.axis == "rows") for line in made.lines], made.axis != "rows"
            )
        return self.known[made.id, index]

    def lines(self, made: Assembly, index: int) -> Iterator[Hashable]:
        """What each line shows when it lies level, from either end; rows of one part each are one column."""
        lines, rows = list(made.lines), made.axis == "rows"
        if len(lines) > 1 and all(len(line) == 1 for line in lines):
            lines, rows = [tuple(part for line in lines for part in line)], not rows
        for line in lines:
            shown = self._line(line, index, rows)
            level = shown if rows else _turned(shown, 3)
            refs = tuple((part.kind, part.ref) for part in line)
            yield frozenset({_look(level), _look(_turned(level, 2))}), frozenset({refs, refs[::-1]})

    def assembly_key(self, made: Assembly) -> Hashable:
        if made.block in self.plan.apart or made.second_of or made.coped or made.turn or self._is_one_way(made):
            return None
        refs = sorted((part.kind, part.ref) for line in made.lines for part in line)
        sizes = tuple(None if size is None else frozenset(size.finished) for size in made.sizes)
        return made.hand, tuple(refs), sizes

    def _line(self, line: tuple[Placed, ...], index: int, level: bool) -> Shown:
        return _side_by_side([
            self._part(part, index) for part in line if part.sizes[index] is not None
        ], level)

    def _part(self, part: Placed, index: int) -> Shown:
        """A part as it lies in its line."""
        sides = part.sizes[index]
        if sides is None:
            raise LookupError(part.ref)
        if part.kind == "piece":
            wide, high = (side.length for side in sides)
            none = Length(0)
            fabric = next(piece.fabric for piece in self.plan.pieces if piece.id == part.ref)
            return [(fabric, [(none, none), (wide, none), (wide, high), (none, high)])], wide, high
        if part.kind == "unit":
            shown = self.unit(next(unit for unit in self.plan.units if unit.id == part.ref), index)
        else:
            shown = self.assembly(next(made for made in self.plan.assemblies if made.id == part.ref), index)
        return _turned(shown, part.orientation.turns)

    def _is_one_way(self, made: Assembly) -> bool:
        upright = {fabric.id for fabric in self.plan.fabrics if fabric.direction != "none"}
        index = next(at for at, size in enumerate(made.sizes) if size is not None)
        return bool(upright) and any(fabric in upright for fabric, _ in self.assembly(made, index)[0])


def _side_by_side(parts: list[Shown], level: bool) -> Shown:
    patches: list[tuple[str, list[Spot]]] = []
    x = y = wide = high = Length(0)
    for own, width, height in parts:
        patches += [(fabric, [(a + x, b + y) for a, b in corners]) for fabric, corners in own]
        x, y = (x + width, y) if level else (x, y + height)
        wide, high = (x, max(high, height)) if level else (max(wide, width), y)
    return patches, wide, high


def _turned(shown: Shown, turns: int) -> Shown:
    """Turned clockwise by quarters."""
    patches, wide, high = shown
    for _ in range(turns):
        patches = [(fabric, [(high - y, x) for x, y in corners]) for fabric, corners in patches]
        wide, high = high, wide
    return patches, wide, high


def _mirrored(shown: Shown) -> Shown:
    patches, wide, high = shown
    return [(fabric, [(wide - x, y) for x, y in corners]) for fabric, corners in patches], wide, high


def _look(shown: Shown) -> Look:
    return frozenset((fabric, frozenset(corners)) for fabric, corners in shown[0])


def _is_turned(one: Shown, other: Shown) -> bool:
    wanted = _look(other)
    return any(_look(_turned(one, turns)) == wanted for turns in range(4))
