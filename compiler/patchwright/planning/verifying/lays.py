"""Follows one-way prints to where they lie: of every unit, enough come out of its batches with their prints upright.

In: the plan.
Out: a sentence for each unit that falls short.
Never: a function of the planner; quarter turns are added up from the top down, and looks compared patch by patch.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from patchwright.core.geometry import Orientation, Polygon
from patchwright.methods.registry import BY_NAME
from patchwright.planning.plan import Plan, PlannedSize, PlannedUnit, UnitSize

Look = frozenset[tuple[str, frozenset[object]]]


class LayCheck:
    """Checks how the units of one size lie."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self.assemblies = {assembly.id: assembly for assembly in plan.assemblies}
        self.one_way = {fabric.id for fabric in plan.fabrics if fabric.direction != "none"}

    def check(self, index: int, size: PlannedSize) -> Iterator[str]:
        units = {unit.id: unit for unit in self.plan.units if self._roles(unit)}
        if not units:
            return
        needed: dict[str, Counter[int]] = {}
        waiting = Counter((item.kind, item.ref, item.orientation.turns) for item in size.items)
        while waiting:
            (kind, ref, turns), count = waiting.popitem()
            if kind == "unit" and ref in units:
                needed.setdefault(ref, Counter())[turns % 4] += count
            if kind == "assembly":
                for line in self.assemblies[ref].lines:
                    for part in line:
                        waiting[part.kind, part.ref, (turns + part.orientation.turns) % 4] += count
        for ref, counts in needed.items():
            made = units[ref].sizes[index]
            if made is None or not self._is_enough(units[ref], made, counts):
                yield f"the batches of `{ref}` do not give enough units with their prints upright"

    def _roles(self, unit: PlannedUnit) -> tuple[str, ...]:
        return tuple(role for role, fabric in unit.fabrics if fabric in self.one_way)

    def _is_enough(self, unit: PlannedUnit, made: UnitSize, counts: Counter[int]) -> bool:
        given = Counter(_look(unit, made, unit.turn + turn) for turn in made.recipe.turns(self._roles(unit)))
        wanted: Counter[Look] = Counter()
        for turns, count in counts.items():
            wanted[_look(unit, made, turns)] += count
        return all(count <= given[look] * made.batches for look, count in wanted.items())


def _look(unit: PlannedUnit, made: UnitSize, turns: int) -> Look:
    """The patches of a unit that is turned so, with their fabrics; equal for what cannot be told apart."""
    fabrics, lay = dict(unit.fabrics), Orientation(turns % 4, unit.hand == "reversed")
    width, height = (side.length for side in made.finished)
    patches: list[tuple[str, Polygon]] = [
        (fabrics[patch.role], lay.polygon(patch.outline, width, height))
        for patch in BY_NAME[unit.method].patches(made.request)
    ]
    return frozenset((fabric, frozenset(outline)) for fabric, outline in patches)
