"""Adds up again how the cloth is cut: strips, precuts and packs give what the list says and lie where there is cloth.

In: the plan.
Out: a sentence for each thing that does not agree.
Never: a function of the planner.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from patchwright.core.length import Length
from patchwright.planning.plan import FabricSize, Piece, Plan, PlannedFabric, Strip
from patchwright.planning.verifying.repeats import fills_repeats, repeat_faults
from patchwright.planning.verifying.sums import NOTHING, covers, total


class ClothCheck:
    """Checks the cutting of one size at a time."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self.pieces: dict[str, Piece] = {piece.id: piece for piece in plan.pieces}
        self.seams = plan.rules.seam * 2

    def check(self, index: int) -> Iterator[str]:
        for fabric in self.plan.fabrics:
            own = fabric.sizes[index]
            if own is not None:
                yield from (f"{fabric.id}: {fault}" for fault in self._cloth(index, fabric, own))
        yield from self._uncut(index)

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
        extra = total(part for _, part in own.extra)
        if fabric.repeat is not None:
            yield from repeat_faults(fabric, own, {ref: size for ref, piece in self.pieces.items()
                                                   if (size := piece.sizes[index]) is not None})
        if own.buy is None:
            yield "nothing is bought for it"
            return
        if not covers(self.plan.rules, own.buy, length + extra):
            yield "what is bought does not cover what is cut"
        widest = max((strip.used for strip in own.strips), default=NOTHING)
        if own.strips and (own.smallest_width is None or own.smallest_width < widest):
            yield "strips use more than the smallest usable width"

    def _strip(self, index: int, fabric: PlannedFabric, strip: Strip) -> Iterator[str]:
        """Pieces and segments lie side by side within the width; stacked rows within the height; sizes are right."""
        used = total(segment.length for segment in strip.segments)
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
        if fabric.repeat is not None:
            return any(fills_repeats(fabric.repeat, cut, (width, height)) for cut in (listed, listed[::-1]))
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
            reached = total(length * strips for strips, length in joined[piece.id])
            if reached - self._loss(piece, index) * (count - 1) < max(cut.width, cut.height).length * cut.need:
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


def _overlap(places: list[tuple[Length, Length, Length, Length]]) -> bool:
    for number, (x, y, w, h) in enumerate(places):
        for ox, oy, ow, oh in places[number + 1 :]:
            if x < ox + ow and ox < x + w and y < oy + oh and oy < y + h:
                return True
    return False
