"""An independent check of a finished plan: everything is added up again from the plan alone.

In: a plan.
Out: one sentence for each thing that does not agree; none for a plan that may be printed.
Never: a function of the planner; only the plan's own data, exact arithmetic, and the methods' finished patches.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from fractions import Fraction

from patchwright.core.geometry import Polygon
from patchwright.core.length import Length
from patchwright.methods.registry import BY_NAME
from patchwright.planning.covering import Shapes, is_triangle, uncovered
from patchwright.planning.plan import (
    Assembly,
    Buy,
    FabricSize,
    Piece,
    Plan,
    PlannedFabric,
    PlannedSize,
    PlannedUnit,
    Strip,
    TopItem,
    UnitSize,
)

NOTHING = Length()
INCHES_IN_A_YARD = 36
CENTIMETERS_IN_A_METER = 100
Pair = tuple[Length, Length]


def verify(plan: Plan) -> tuple[str, ...]:
    """Every disagreement found, in the order of the checks; empty when the plan adds up."""
    ledger = _Ledger(plan)
    found: list[str] = []
    for index, size in enumerate(plan.sizes):
        found.extend(f"{size.name}: {fault}" for fault in ledger.check(index, size))
    return tuple(found)


class _Ledger:
    """Looks things up by id, and checks one size at a time."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self.pieces: dict[str, Piece] = {piece.id: piece for piece in plan.pieces}
        self.units: dict[str, PlannedUnit] = {unit.id: unit for unit in plan.units}
        self.assemblies: dict[str, Assembly] = {assembly.id: assembly for assembly in plan.assemblies}
        self.directions = {fabric.id: fabric.direction for fabric in plan.fabrics}
        self.widths = {fabric.id: fabric.source.size[0] for fabric in plan.fabrics}
        self.seams = plan.rules.seam * 2
        self.shapes = Shapes(plan)

    def check(self, index: int, size: PlannedSize) -> Iterator[str]:
        yield from self._tiling(size)
        yield from self.shapes.check(index, size)
        yield from self._parts_of_top(index, size)
        yield from self._assemblies(index)
        yield from self._units(index)
        yield from self._counts(index, size)
        for fabric in self.plan.fabrics:
            own = fabric.sizes[index]
            if own is not None:
                yield from (f"{fabric.id}: {fault}" for fault in self._cloth(index, fabric, own))
        yield from self._uncut(index)
        yield from self._finishing(size)
        yield from self._bought_apart(size)
        yield from self._taken_from_fabrics(index, size)

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
                if _total(pair[along] for pair in pairs) != made.finished[along].length:
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
            area = _total(_area(patch.outline) for patch in BY_NAME[unit.method].patches(made.request))
            if area != width * height:
                yield f"the patches of `{unit.id}` do not add up to its area"
            if made.made != made.batches * made.recipe.batch or made.made < made.need:
                yield f"the batches of `{unit.id}` do not give what is needed"
            yield from self._served(index, unit, made)
            if any(f.length + self.seams != u.length for f, u in zip(made.finished, made.unfinished, strict=True)):
                yield f"the unfinished size of `{unit.id}` is not its finished one and two seams"

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

    # -- cloth ------------------------------------------------------------------------------------------------------

    def _cloth(self, index: int, fabric: PlannedFabric, own: FabricSize) -> Iterator[str]:
        if own.precuts is not None:
            yield from self._sheets(index, fabric, own)
            return
        length = NOTHING
        for strip in own.strips:
            length += strip.height * strip.count
            yield from self._strip(index, fabric, strip)
        if length != own.length:
            yield "the strips do not add up to the net length"
        yield from self._made(index, fabric, own)
        extra = _total(part for _, part in own.extra)
        if own.buy is None:
            yield "nothing is bought for it"
            return
        if not self._covers(own.buy, length + extra):
            yield "what is bought does not cover what is cut"
        widest = max((strip.used for strip in own.strips), default=NOTHING)
        if own.strips and (own.smallest_width is None or own.smallest_width < widest):
            yield "strips use more than the smallest usable width"

    def _covers(self, buy: Buy, length: Length) -> bool:
        """Whether what is left of a bought length after shrinking and straightening is enough."""
        bought = Length(buy.amount * (INCHES_IN_A_YARD if buy.unit == "yd" else CENTIMETERS_IN_A_METER))
        return bought * (1 - self.plan.rules.shrinkage) - self.plan.rules.straightening >= length

    def _strip(self, index: int, fabric: PlannedFabric, strip: Strip) -> Iterator[str]:
        """Pieces and segments lie side by side within the width; stacked rows within the height; sizes are right."""
        used = _total(segment.length for segment in strip.segments)
        for part in strip.yields:
            columns = -(-part.each // part.stack)
            used += part.width * columns
            if part.height * part.stack > strip.height:
                yield f"{part.piece} is higher than its strip"
            if not self._is_cut_so(index, fabric, part.piece, part.width, part.height):
                yield f"{part.piece} is cut in another size than it is listed"
        if used > fabric.source.size[0]:
            yield "a strip uses more than the width of the cloth"
        if used > strip.used:
            yield "a strip is said to use less width than it does"
        for segment in strip.segments:
            long = self.pieces[segment.piece].sizes[index]
            if long is None or min(long.width, long.height).length > strip.height:
                yield f"{segment.piece} is wider than the strip that it is joined from"

    def _is_cut_so(self, index: int, fabric: PlannedFabric, ref: str, width: Length, height: Length) -> bool:
        piece = self.pieces[ref].sizes[index]
        if piece is None:
            return False
        listed = (piece.width.length, piece.height.length)
        return (width, height) == listed or (fabric.direction == "none" and (height, width) == listed)

    def _made(self, index: int, fabric: PlannedFabric, own: FabricSize) -> Iterator[str]:
        """The strips give every piece as often as the list says, and long pieces reach their length when joined."""
        given: Counter[str] = Counter()
        joined: dict[str, list[tuple[int, Length]]] = {}
        for strip in own.strips:
            for part in strip.yields:
                given[part.piece] += part.each * strip.count
            for segment in strip.segments:
                joined.setdefault(segment.piece, []).append((strip.count, segment.length))
        for piece in self.plan.pieces:
            cut = piece.sizes[index]
            if piece.fabric != fabric.id or cut is None:
                continue
            if piece.id not in joined:
                if given[piece.id] != cut.made:
                    yield f"{piece.id}: the strips give {given[piece.id]}, the list says {cut.made}"
                continue
            count = sum(strips for strips, _ in joined[piece.id])
            total = _total(length * strips for strips, length in joined[piece.id])
            if total - self._loss(piece, index) * (count - 1) < max(cut.width, cut.height).length * cut.need:
                yield f"{piece.id}: the joined strips are too short"

    def _loss(self, piece: Piece, index: int) -> Length:
        cut = piece.sizes[index]
        rules = self.plan.rules
        way = rules.binding_join if piece.kind == "binding" else rules.strip_join
        if way == "straight" or cut is None:
            return self.seams
        return min(cut.width, cut.height).length

    def _sheets(self, index: int, fabric: PlannedFabric, own: FabricSize) -> Iterator[str]:
        """Precuts: pieces lie within the cloth without overlap, and give what the list says."""
        given: Counter[str] = Counter()
        precuts = own.precuts
        if precuts is None:
            return
        width, height = fabric.source.size
        for sheet in precuts.sheets:
            for part in sheet.yields:
                given[part.piece] += part.each * sheet.count
                if not self._is_cut_so(index, fabric, part.piece, part.width, part.height):
                    yield f"{part.piece} is cut in another size than it is listed"
            listed = Counter(part.piece for part in sheet.yields for _ in range(part.each))
            if Counter(place[0] for place in sheet.places) != listed:
                yield "a precut's layout does not show what it gives"
            if any(x + w > width or y + h > height for _, x, y, w, h in sheet.places):
                yield "a piece lies outside its precut"
            if _overlap([place[1:] for place in sheet.places]):
                yield "pieces overlap on a precut"
        for piece in self.plan.pieces:
            cut = piece.sizes[index]
            if piece.fabric == fabric.id and cut is not None and given[piece.id] != cut.made:
                yield f"{piece.id}: the precuts give {given[piece.id]}, the list says {cut.made}"
        if sum(sheet.count for sheet in precuts.sheets) != precuts.used:
            yield "the precuts used do not add up"

    def _uncut(self, index: int) -> Iterator[str]:
        """Every piece belongs to a fabric that is cut in this size."""
        cut = {fabric.id for fabric in self.plan.fabrics if fabric.sizes[index] is not None}
        for piece in self.plan.pieces:
            if piece.sizes[index] is not None and piece.fabric not in cut:
                yield f"{piece.id} is cut from `{piece.fabric}`, which this size does not have"
        for pack in self.plan.packs:
            use = pack.sizes[index]
            if use is None:
                continue
            if sum(sheet.count for sheet in use.sheets) != use.used:
                yield f"`{pack.id}`: the sheets do not add up to those used"
            if use.used > use.packs * (1 if pack.single else pack.count):
                yield f"`{pack.id}`: {use.used} precuts are used and {use.packs} packs bought"
            given = Counter[str]()
            for sheet in use.sheets:
                for part in sheet.yields:
                    given[part.piece] += part.each * sheet.count
            for ref, count in given.items():
                listed = self.pieces[ref].sizes[index]
                if listed is None or listed.made != count:
                    yield f"`{pack.id}`: the sheets do not give {ref} as the list says"

    # -- finishing --------------------------------------------------------------------------------------------------

    def _finishing(self, size: PlannedSize) -> Iterator[str]:
        top = (size.unfinished[0].length, size.unfinished[1].length)
        rules = self.plan.rules
        if size.batting[0] < top[0] or size.batting[1] < top[1]:
            yield "the batting is smaller than the top"
        binding = size.binding
        if binding is not None:
            if binding.made < (top[0] + top[1]) * 2 + rules.binding_extra:
                yield "the binding is shorter than the way around and its extra"
            if binding.joins != binding.strips - 1:
                yield "the joins of the binding do not fit its strips"
        backing = size.backing
        if backing is not None:
            if any(side < edge + rules.backing_overage * 2 for side, edge in zip(backing.size, top, strict=True)):
                yield "the backing is smaller than the top and its overage"
            along = 1 if backing.seams == "crosswise" else 0
            joined = _total(panel[along] for panel in backing.panels)
            joined -= rules.backing_seam * 2 * (len(backing.panels) - 1)
            if joined < backing.size[along] or any(p[1 - along] < backing.size[1 - along] for p in backing.panels):
                yield "the backing's panels do not cover it"
            across = [panel[along] if backing.seams != "none" else min(panel) for panel in backing.panels]
            if max(across) > backing.usable_width:
                yield "a backing panel is wider than its cloth"
        width, height = size.center[0].length, size.center[1].length
        for border in size.borders:
            if (border.before[0].length, border.before[1].length) != (width, height):
                yield f"{border.id} does not begin where the last one ends"
            high = border.end_width if border.end_width is not None else border.width
            width, height = width + border.width.length * 2, height + high.length * 2
        if (width, height) != top:
            yield "center and borders do not add up to the top"


    def _bought_apart(self, size: PlannedSize) -> Iterator[str]:
        """Binding and backing of cloths of their own: the strips reach around, and what is bought gives them."""
        binding, backing, rules = size.binding, size.backing, self.plan.rules
        if binding is not None and not binding.piece:
            loss = binding.strip.length if rules.binding_join == "diagonal" else self.seams
            if rules.usable_width * binding.strips - loss * (binding.strips - 1) < binding.made:
                yield "the binding's strips do not give the length that they are said to"
            if binding.buy is None or not self._covers(binding.buy, binding.strip.length * binding.strips):
                yield "what is bought for the binding does not cover its strips"
        if backing is not None:
            if not backing.fabric and (backing.buy is None or not self._covers(backing.buy, backing.length)):
                yield "what is bought for the backing does not cover its panels"
            if backing.length < min(_total(panel[side] for panel in backing.panels) for side in (0, 1)):
                yield "the backing's panels are longer than the length that is counted for them"

    def _taken_from_fabrics(self, index: int, size: PlannedSize) -> Iterator[str]:
        """Binding and backing cut from fabrics of the top: those fabrics' cutting has them."""
        for fabric in self.plan.fabrics:
            own = fabric.sizes[index]
            backing = size.backing.length if size.backing is not None and size.backing.fabric == fabric.id else NOTHING
            given = _total(part for _, part in own.extra) if own is not None else NOTHING
            if given != backing:
                yield f"{fabric.id}: the length for the backing is not the backing's"
        binding = size.binding
        if binding is not None and binding.piece:
            cloth = next((fabric.sizes[index] for fabric in self.plan.fabrics if fabric.id == binding.fabric), None)
            cut = sum(
                strip.count for strip in (cloth.strips if cloth is not None else ())
                for segment in strip.segments if segment.piece == binding.piece
            )
            if cut != binding.strips:
                yield f"the binding has {binding.strips} strips and {cut} are cut for it"


def _total(lengths: Iterable[Length]) -> Length:
    total = NOTHING
    for length in lengths:
        total += length
    return total


def _area(outline: Polygon) -> Length:
    """The area of a polygon by the shoelace rule."""
    double = NOTHING
    for here, there in zip(outline, outline[1:] + outline[:1], strict=True):
        double += here.x * there.y - there.x * here.y
    return abs(double) * Fraction(1, 2)


def _overlap(places: list[tuple[Length, Length, Length, Length]]) -> bool:
    for number, (x, y, w, h) in enumerate(places):
        for ox, oy, ow, oh in places[number + 1 :]:
            if x < ox + ow and ox < x + w and y < oy + oh and oy < y + h:
                return True
    return False
