"""Counts again what each print of a pack serves: its precuts, cut as their layouts say, give all that its places need.

In: the plan.
Out: a sentence for each thing that does not agree.
Never: a function of the planner; needs are counted from the drawing of blocks and the recipes of units.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from patchwright.planning.plan import Assembly, PackSize, Plan, PlannedPack, PlannedUnit, PrintShare


class PrintCheck:
    """Checks the prints of one size at a time."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self.fabrics = {fabric.letter: fabric.id for fabric in plan.fabrics}
        self.owners = {piece.id: piece.fabric for piece in plan.pieces}
        self.assemblies = {assembly.id: assembly for assembly in plan.assemblies}
        self.units = {unit.id: unit for unit in plan.units}

    def check(self, index: int) -> Iterator[str]:
        for pack in self.plan.packs:
            use = pack.sizes[index]
            if use is not None and any(share.places for share in use.shares):
                yield from self._layouts(pack, use)
                yield from self._served_once(pack, use)
                for share in use.shares:
                    yield from self._print(index, pack, use, share)

    def _layouts(self, pack: PlannedPack, use: PackSize) -> Iterator[str]:
        """No layout is cut more often for prints than it is cut at all."""
        asked = Counter(number for share in use.shares for number in share.layouts)
        cut = {sheet.number: sheet.count for sheet in use.sheets}
        for number, times in asked.items():
            if times > cut.get(number, 0):
                yield f"`{pack.id}`: layout {number} is cut {cut.get(number, 0)} times and used by {times} prints"

    def _served_once(self, pack: PlannedPack, use: PackSize) -> Iterator[str]:
        places = Counter(place for share in use.shares for place in share.places)
        for place, times in places.items():
            if times > 1:
                yield f"`{pack.id}`: {place} is served by {times} prints"

    def _print(self, index: int, pack: PlannedPack, use: PackSize, share: PrintShare) -> Iterator[str]:
        """What the print's precuts give is enough for its places, in one of the ways that these are made."""
        sheets = {sheet.number: sheet for sheet in use.sheets}
        given: Counter[str] = Counter()
        for number in share.layouts:
            for part in sheets[number].yields if number in sheets else ():
                given[part.piece] += part.each
        given.subtract(dict(share.loose))
        for place in share.places:
            ways = self._needs(index, place)
            fitting = [way for way in ways if all(given[piece] >= count for piece, count in way.items())]
            if not fitting:
                yield f"`{pack.id}`: print {share.number} does not give what {place} needs"
                return
            given.subtract(min(fitting, key=lambda way: sum(way.values())))
        if any(count < 0 for count in given.values()):
            yield f"`{pack.id}`: print {share.number} gives more loose pieces than it has"

    def _needs(self, index: int, place: str) -> list[Counter[str]]:
        """The pieces of one fabric that a place takes: `B boat 3`, or the fabric's id for all of it."""
        letter, _, rest = place.partition(" ")
        name, _, number = rest.rpartition(" ")
        if not number.isdecimal():
            return [Counter({
                piece.id: cut.need for piece in self.plan.pieces
                if piece.fabric == place and (cut := piece.sizes[index]) is not None
            })]
        fabric = self.fabrics[letter]
        blocks = [
            one for one in self.plan.assemblies
            if one.block == name and not one.coped and one.sizes[index] is not None
        ]
        units = [one for one in self.plan.units if name in (one.name, one.id) and one.sizes[index] is not None]
        return [self._block(index, block, fabric) for block in blocks] + [
            self._batches(index, unit, 1, fabric) for unit in units
        ]

    def _block(self, index: int, block: Assembly, fabric: str) -> Counter[str]:
        pieces: Counter[str] = Counter()
        units: Counter[str] = Counter()
        waiting = [block]
        while waiting:
            for placed in (placed for line in waiting.pop().lines for placed in line):
                if placed.kind == "assembly":
                    waiting.append(self.assemblies[placed.ref])
                elif placed.kind == "unit":
                    units[placed.ref] += 1
                elif self.owners[placed.ref] == fabric:
                    pieces[placed.ref] += 1
        for ref, count in units.items():
            pieces.update(self._batches(index, self.units[ref], count, fabric))
        return pieces

    def _batches(self, index: int, unit: PlannedUnit, count: int, fabric: str) -> Counter[str]:
        """The pieces of a fabric in as many batches as so many units take."""
        made = unit.sizes[index]
        batches = -(-count // made.recipe.batch) if made is not None else 0
        needed: Counter[str] = Counter()
        for served in unit.pieces:
            if self.owners[served.piece] == fabric:
                needed[served.piece] += served.per_batch * batches
        return needed
