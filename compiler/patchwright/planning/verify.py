"""An independent check of a finished plan: everything is added up again from the plan alone.

In: a plan.
Out: one sentence for each thing that does not agree; none for a plan that may be printed.
Never: a function of the planner; only the plan's own data, exact arithmetic, and the methods' finished patches.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from patchwright.core.length import Length
from patchwright.methods.registry import BY_NAME
from patchwright.planning.covering import Shapes, is_triangle, uncovered
from patchwright.planning.plan import Assembly, Piece, Plan, PlannedSize, PlannedUnit, TopItem, UnitSize
from patchwright.planning.verifying.beds import bed_faults
from patchwright.planning.verifying.cloth import ClothCheck
from patchwright.planning.verifying.columns import column_faults
from patchwright.planning.verifying.elsewhere import check_elsewhere
from patchwright.planning.verifying.finishing import FinishingCheck
from patchwright.planning.verifying.lays import LayCheck
from patchwright.planning.verifying.made_once import made_twice
from patchwright.planning.verifying.pressing import PressingCheck
from patchwright.planning.verifying.prints import PrintCheck
from patchwright.planning.verifying.quarters import quarter_faults
from patchwright.planning.verifying.sashes import sash_faults
from patchwright.planning.verifying.strips import StripCheck
from patchwright.planning.verifying.sums import NOTHING, area, total

Pair = tuple[Length, Length]


def verify(plan: Plan) -> tuple[str, ...]:
    """Every disagreement found, in the order of the checks; empty when the plan adds up."""
    ledger = _Ledger(plan)
    found: list[str] = []
    for index, size in enumerate(plan.sizes):
        found.extend(f"{size.name}: {fault}" for fault in ledger.check(index, size))
    return (*found, *made_twice(plan), *check_elsewhere(plan))


class _Ledger:
    """Looks things up by id, and checks one size at a time."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self.pieces: dict[str, Piece] = {piece.id: piece for piece in plan.pieces}
        self.units: dict[str, PlannedUnit] = {unit.id: unit for unit in plan.units}
        self.assemblies: dict[str, Assembly] = {assembly.id: assembly for assembly in plan.assemblies}
        self.directions = {fabric.id: fabric.direction for fabric in plan.fabrics}
        self.seams = plan.rules.seam * 2
        self.shapes = Shapes(plan)
        self.cloth = ClothCheck(plan)
        self.prints = PrintCheck(plan)
        self.finishing = FinishingCheck(plan)
        self.strips = StripCheck(plan)
        self.pressing = PressingCheck(plan)
        self.lays = LayCheck(plan)

    def check(self, index: int, size: PlannedSize) -> Iterator[str]:
        yield from self._tiling(size)
        yield from self.shapes.check(index, size)
        yield from self._parts_of_top(index, size)
        yield from column_faults(self.plan, index, size)
        yield from sash_faults(size)
        yield from quarter_faults(size)
        yield from self._assemblies(index)
        yield from self._units(index)
        yield from self._counts(index, size)
        yield from self.cloth.check(index)
        yield from self.prints.check(index)
        yield from self.finishing.check(index, size)
        yield from self.strips.check(index)
        yield from self.pressing.check(index)
        yield from bed_faults(self.plan, size)
        yield from self.lays.check(index, size)

    # -- the drawing ------------------------------------------------------------------------------------------------

    def _tiling(self, size: PlannedSize) -> Iterator[str]:
        """The parts of the top leave no gap and do not overlap: they abut in every band between two edges."""
        width, height = size.finished[0].length, size.finished[1].length
        if width + self.seams != size.unfinished[0].length or height + self.seams != size.unfinished[1].length:
            yield "the unfinished top is not the finished one and two seams"
        if any(item.outline for item in size.items):
            yield from uncovered(size)
            return
        edges = sorted({item.y for item in size.items} | {item.y + item.height for item in size.items})
        if edges[0] != NOTHING or edges[-1] != height:
            yield "the parts of the top do not reach from edge to edge"
            return
        starting: dict[Length, list[TopItem]] = {}
        for item in size.items:
            starting.setdefault(item.y, []).append(item)
        active: list[TopItem] = []
        for edge in edges[:-1]:
            active = [item for item in active if item.y + item.height > edge] + starting.get(edge, [])
            reached = NOTHING
            for item in sorted(active, key=lambda item: item.x):
                if item.x != reached:
                    yield f"a gap or an overlap at {item.x} across, {edge} down"
                    return
                reached = item.x + item.width
            if reached != width:
                yield f"the parts at {edge} down do not reach the right edge"
                return

    def _size_of(self, kind: str, ref: str, index: int) -> Pair | None:
        """The finished width and height of a made thing as it lies at @0."""
        if kind == "piece":
            piece = self.pieces[ref].sizes[index]
            return None if piece is None else (piece.width.length - self.seams, piece.height.length - self.seams)
        made = (self.units[ref] if kind == "unit" else self.assemblies[ref]).sizes[index]
        return None if made is None else (made.finished[0].length, made.finished[1].length)

    def _fits(self, kind: str, ref: str, index: int, turns: int, place: Pair) -> bool:
        size = self._size_of(kind, ref, index)
        if size is None:
            return False
        if kind == "piece":
            piece = self.pieces[ref]
            if not piece.upright:
                return sorted(size) == sorted(place)
            return (size[::-1] if (turns % 2 == 1) != (self.directions[piece.fabric] == "crosswise") else size) == place
        return (size[::-1] if turns % 2 else size) == place

    def _parts_of_top(self, index: int, size: PlannedSize) -> Iterator[str]:
        wrong = {
            item.ref for item in size.items
            if not item.outline and not self.shapes.is_rounded_strip(index, item)
            and not self._fits(item.kind, item.ref, index, item.orientation.turns, (item.width, item.height))
        }
        yield from (f"`{ref}` does not fit its place in the top" for ref in sorted(wrong))

    def _assemblies(self, index: int) -> Iterator[str]:
        """In every assembly the parts of a line are equally high, and the lines equally long; all edges match."""
        for assembly in self.plan.assemblies:
            made = assembly.sizes[index]
            if made is None:
                continue
            rows = assembly.axis == "rows"
            along, aside = (0, 1) if rows else (1, 0)
            depth = NOTHING
            for line in assembly.lines:
                sides = [placed.sizes[index] for placed in line]
                if any(side is None for side in sides):
                    yield f"`{assembly.id}` is made, but a part of it has no size"
                    return
                pairs = [(side[0].length, side[1].length) for side in sides if side is not None]
                for placed, pair in zip(line, pairs, strict=True):
                    turns = assembly.turn if placed.kind == "piece" else placed.orientation.turns
                    if not self._fits(placed.kind, placed.ref, index, turns, pair):
                        yield f"`{placed.ref}` does not fit its place in `{assembly.id}`"
                if len({pair[aside] for pair in pairs}) != 1:
                    yield f"edges of a line of `{assembly.id}` do not match"
                if total(pair[along] for pair in pairs) != made.finished[along].length:
                    yield f"a line of `{assembly.id}` is not as long as the block"
                depth += pairs[0][aside]
            if depth != made.finished[aside].length:
                yield f"the lines of `{assembly.id}` do not add up to its size"
            if any(f.length + self.seams != u.length for f, u in zip(made.finished, made.unfinished, strict=True)):
                yield f"the unfinished size of `{assembly.id}` is not its finished one and two seams"

    def _units(self, index: int) -> Iterator[str]:
        """A unit's finished patches cover it: their areas add up."""
        for unit in self.plan.units:
            made = unit.sizes[index]
            if made is None:
                continue
            width, height = made.finished[0].length, made.finished[1].length
            covered = total(area(patch.outline) for patch in BY_NAME[unit.method].patches(made.request))
            if covered != width * height:
                yield f"the patches of `{unit.id}` do not add up to its area"
            if made.made != made.batches * made.recipe.batch - made.lent or made.made < made.need:
                yield f"the batches of `{unit.id}` do not give what is needed"
            lent = sum(other.lent for other in self._alike(unit, index))
            if lent or (made.lent and not made.recipe.either_hand):
                yield f"the two hands of `{unit.id}` do not share their batches as they are said to"
            yield from self._served(index, unit, made)
            if any(f.length + self.seams != u.length for f, u in zip(made.finished, made.unfinished, strict=True)):
                yield f"the unfinished size of `{unit.id}` is not its finished one and two seams"

    def _alike(self, unit: PlannedUnit, index: int) -> Iterator[UnitSize]:
        """The units that are made from the same pieces, this one among them."""
        for other in self.plan.units:
            size = other.sizes[index]
            if size is not None and (other.pieces, other.method) == (unit.pieces, unit.method):
                yield size

    def _served(self, index: int, unit: PlannedUnit, made: UnitSize) -> Iterator[str]:
        """The pieces listed for a unit are those that its way of making asks for, as large and as many."""
        fabrics = dict(unit.fabrics)
        asked = {
            piece.id: (fabrics[piece.role], sorted((piece.width, piece.height)), piece.per_batch, piece.then)
            for piece in made.recipe.pieces
        }
        listed = {}
        for served in unit.pieces:
            piece = self.pieces[served.piece]
            cut = piece.sizes[index]
            sides = sorted((cut.width, cut.height)) if cut is not None else []
            listed[served.recipe_piece] = (piece.fabric, sides, served.per_batch, piece.then)
        if listed != asked:
            yield f"the pieces of `{unit.id}` are not those that it is made from"

    # -- counts -----------------------------------------------------------------------------------------------------

    def _counts(self, index: int, size: PlannedSize) -> Iterator[str]:
        """Walk the drawing from the top down and count what it takes; the plan's counts must be the same."""
        pieces: Counter[str] = Counter()
        units: Counter[str] = Counter()
        assemblies: Counter[str] = Counter()
        waiting = Counter((item.kind, item.ref) for item in size.items if not is_triangle(item))
        pieces.update(self.shapes.squares(size))
        while waiting:
            (kind, ref), count = waiting.popitem()
            if kind == "piece":
                pieces[ref] += count
            elif kind == "unit":
                units[ref] += count
            else:
                assemblies[ref] += count
                inner = Counter((placed.kind, placed.ref) for line in self.assemblies[ref].lines for placed in line)
                for part, each in inner.items():
                    waiting[part] += each * count
        for hung in size.hanging:
            pieces[hung.piece] += hung.count
        for layered in size.by_block.blocks if size.by_block is not None else ():
            pieces[layered.piece] += layered.count
        for unit in self.plan.units:
            made = unit.sizes[index]
            if (made.need if made else 0) != units[unit.id]:
                yield f"`{unit.id}` is drawn {units[unit.id]} times and planned {made.need if made else 0} times"
            for served in unit.pieces if made else ():
                pieces[served.piece] += served.per_batch * (made.batches if made else 0)
        for assembly in self.plan.assemblies:
            whole = assembly.sizes[index]
            if (whole.count if whole else 0) != assemblies[assembly.id]:
                yield f"`{assembly.id}` is drawn {assemblies[assembly.id]} times, not as planned"
        for piece in self.plan.pieces:
            cut = piece.sizes[index]
            need = (cut.need if cut else 0) if piece.kind != "binding" else 0
            if need != pieces[piece.id]:
                yield f"{piece.id} is drawn {pieces[piece.id]} times and cut for {need}"
            if cut is not None and cut.made < cut.need:
                yield f"{piece.id}: {cut.made} are made and {cut.need} are needed"
