"""How pieces, units and blocks are explained: what they are cut for, in which batches, and how many.

In: one size of a plan.
Out: workings in the order of telling.
Never: a number worked out anew.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from patchwright.core.length import ROOT_TWO, Length
from patchwright.core.measure import plain_number
from patchwright.planning.plan import Assembly, Piece, PlannedUnit, TopItem
from patchwright.planning.telling import Telling, Working


@dataclass(frozen=True, slots=True)
class PartsTelling(Telling):
    """Tells of what is cut and sewn."""

    def piece(self, piece: Piece) -> Iterator[Working]:
        own = piece.sizes[self.index]
        if own is None:
            return
        seam = self.plan.rules.seam
        yield self.say(piece.id, "piece", piece.span, fabric=piece.fabric, width=own.width, height=own.height)
        served = [
            (unit, part, made) for unit in self.plan.units for part in unit.pieces
            if part.piece == piece.id and (made := unit.sizes[self.index]) is not None
        ]
        for unit, part, made in served:
            rule = "unit-piece-rounded" if made.recipe.rounding else "unit-piece"
            yield self.say(
                piece.id, rule, unit.span, unit=unit.id, method=unit.method, how=unit.how,
                part=part.recipe_piece, finished_width=made.finished[0], finished_height=made.finished[1],
                triangles=self.plan.rules.triangles, seam=seam,
                step=plain_number(self.plan.rules.round_cuts), rounding=made.recipe.rounding,
                batches=made.batches, each=part.per_batch, count=made.batches * part.per_batch,
            )
        yield from self._plain_uses(piece, own.width.length - seam * 2, own.height.length - seam * 2)
        yield self.say(
            piece.id, "piece-total", piece.span, need=own.need, made=own.made, spare=own.spare, joins=own.joins
        )

    def _plain_uses(self, piece: Piece, width: Length, height: Length) -> Iterator[Working]:
        """Where a plain patch stands: so many in each block, and in the top."""
        seam = self.plan.rules.seam
        for assembly in self.plan.assemblies:
            made = assembly.sizes[self.index]
            each = sum(placed.ref == piece.id for line in assembly.lines for placed in line if placed.kind == "piece")
            if made is not None and each:
                yield self.say(
                    piece.id, "plain-patch", assembly.span, block=assembly.id, each=each, blocks=made.count,
                    count=each * made.count, width=width, height=height, seam=seam,
                )
        parts = Counter(item.part for item in self.size.items if item.kind == "piece" and item.ref == piece.id)
        for part, count in parts.items():
            if piece.then != "none":
                yield self._triangles(piece, part, count)
                continue
            places = [item for item in self.size.items if item.part == part and item.ref == piece.id]
            sash = part in ("sashing", "cornerstones")
            if sash and places[0].outline and (slanted := self._slanted_sash(piece, places, count)) is not None:
                yield slanted
                continue
            mitered = bool(places[0].outline) and not places[0].on_point and not sash
            rounded = not (places[0].width.is_rational and places[0].height.is_rational) and not places[0].on_point
            rounded = rounded and not sash
            if mitered or rounded:
                yield self.say(
                    piece.id, "mitered-strip" if mitered else "rounded-strip", piece.span, part=part, count=count,
                    width=places[0].width, height=places[0].height, seam=seam, extra=self.plan.rules.miter_extra,
                    step=plain_number(self.plan.rules.round_cuts),
                )
                continue
            yield self.say(
                piece.id, "plain-cloth", piece.span, part=part, count=count, width=width, height=height, seam=seam
            )

    def _slanted_sash(self, piece: Piece, places: Sequence[TopItem], count: int) -> Working | None:
        """A strip of sashing on point whose ends are slanted by the quilt's edges; None for one with square ends."""
        longest = [max(corner.x - corner.y for corner in item.outline) - min(c.x - c.y for c in item.outline)
                   for item in places]
        long, width = max(longest) * ROOT_TWO / 2, self.size.sash_width
        a, b, c, d = places[0].outline
        if width is None or (a.x + c.x, a.y + c.y) == (b.x + d.x, b.y + d.y):
            return None
        return self.say(
            piece.id, "slanted-sash", piece.span, count=count, width=width, long=long, seam=self.plan.rules.seam,
            step=plain_number(self.plan.rules.round_cuts),
        )

    def _triangles(self, piece: Piece, part: str, count: int) -> Working:
        """The triangles along the edges of a setting on point, from the diagonal of a block and the float.

        Half cornerstones follow from the diagonal of the sash alone.
        """
        size, rules = self.size, self.plan.rules
        beyond = size.float.length * 2 if size.float is not None else Length()
        sash = size.sash_width.length * ROOT_TWO if size.sash_width is not None else Length()
        if part == "cornerstones":
            return self.say(
                piece.id, "half-cornerstones", piece.span, count=count, long=sash, triangles=rules.triangles,
                seam=rules.seam, step=plain_number(rules.round_cuts),
            )
        diagonal = size.columns[0].length - sash - (beyond if size.setting == "strippy" else Length())
        corner = piece.then == "once"
        return self.say(
            piece.id, "setting-corners" if corner else "setting-sides", piece.span, count=count, diagonal=diagonal,
            beyond=beyond, long=(diagonal / 2 if corner else diagonal) + beyond, triangles=rules.triangles,
            seam=rules.seam, step=plain_number(rules.round_cuts),
        )

    def unit(self, unit: PlannedUnit) -> Iterator[Working]:
        own = unit.sizes[self.index]
        if own is None:
            return
        for assembly in self.plan.assemblies:
            made = assembly.sizes[self.index]
            each = sum(placed.ref == unit.id for line in assembly.lines for placed in line if placed.kind == "unit")
            if made is not None and each:
                yield self.say(
                    unit.id, "unit-use", assembly.span, block=assembly.id, each=each, blocks=made.count,
                    count=each * made.count,
                )
        yield self.say(
            unit.id, "unit-batches", unit.span, need=own.need, batch=own.recipe.batch, batches=own.batches,
            made=own.made, how=unit.how, width=own.unfinished[0], height=own.unfinished[1],
        )
        choice = unit.choices[self.index] if unit.choices else None
        if choice is not None:
            yield self.say(
                unit.id, "strip-pieced" if choice.strips else "not-strip-pieced", unit.span, asked=choice.asked,
                single_seams=choice.seams[0], strip_seams=choice.seams[1], single_cloth=choice.cloth[0],
                strip_cloth=choice.cloth[1],
            )

    def assembly(self, assembly: Assembly) -> Iterator[Working]:
        own = assembly.sizes[self.index]
        if own is not None:
            yield self.say(
                assembly.id, "block", assembly.span, count=own.count, width=own.finished[0], height=own.finished[1],
                raw_width=own.unfinished[0], raw_height=own.unfinished[1], seam=self.plan.rules.seam,
            )
