"""How cloth is explained: strips and lengths, packs, other sources, kits, and the samples of a class.

In: one size of a plan.
Out: workings in the order of telling.
Never: a number worked out anew.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from patchwright.core.measure import decimal_text, plain_number
from patchwright.core.source import NOWHERE
from patchwright.planning.kits import plan_kit
from patchwright.planning.plan import (
    Alternative,
    Buy,
    FabricSize,
    PlannedFabric,
    PlannedPack,
    PrintShare,
    Strip,
    Yield,
)
from patchwright.planning.samples import plan_class
from patchwright.planning.telling import Telling, Working


@dataclass(frozen=True, slots=True)
class ClothTelling(Telling):
    """Tells of what is bought and cut up."""

    def fabric(self, fabric: PlannedFabric) -> Iterator[Working]:
        own = fabric.sizes[self.index]
        if own is None:
            return
        if own.precuts is not None:
            yield self.say(
                fabric.id, "precuts", fabric.span, pack=fabric.source.pack, used=own.precuts.used,
                packs=own.precuts.packs, left=own.precuts.left,
            )
            for sheet in own.precuts.sheets:
                yield self.say(
                    fabric.id, "sheet", fabric.span, count=sheet.count, gives=_counted(_given(sheet.yields))
                )
        for strip in own.strips:
            yield self.say(
                fabric.id, "strip", fabric.span, count=strip.count, height=strip.height, gives=self._gives(strip),
                used=strip.used,
            )
        yield from self._bought(fabric, own)
        for other in fabric.alternatives:
            yield from self._alternative(fabric, other)

    def _alternative(self, fabric: PlannedFabric, other: Alternative) -> Iterator[Working]:
        """Another way to buy a fabric, in a sentence."""
        own = other.sizes[self.index]
        if own is None:
            yield self.say(fabric.id, "alternative-none", fabric.span, pack=other.source.pack)
        elif own.precuts is not None:
            yield self.say(
                fabric.id, "alternative-precuts", fabric.span, pack=other.source.pack, used=own.precuts.used,
                packs=own.precuts.packs,
            )
        elif own.buy is not None:
            yield self.say(
                fabric.id, "alternative-yardage", fabric.span, length=own.length,
                amount=plain_number(own.buy.amount), unit=own.buy.unit,
            )

    def pack(self, pack: PlannedPack) -> Iterator[Working]:
        """A pack for all fabrics that share it: how many are needed and why, and what each print serves."""
        own = pack.sizes[self.index]
        if own is None:
            return
        fabrics = ", ".join(pack.fabrics)
        usable = next(
            (fabric.source.size for fabric in self.plan.fabrics if fabric.source.pack == pack.id),
            (pack.width, pack.height),
        )
        yield self.say(
            pack.id, "pack-need", NOWHERE, needed=own.needed, bound=own.bound, proof=own.proof, width=usable[0],
            height=usable[1], fabrics=fabrics,
        )
        key = "pack-singles" if pack.single else "pack-buy"
        yield self.say(pack.id, key, NOWHERE, used=own.used, count=pack.count, packs=own.packs, left=own.left)
        for sheet in own.sheets:
            yield self.say(pack.id, "sheet", NOWHERE, count=sheet.count, gives=_counted(_given(sheet.yields)))
        for share in own.shares:
            number = f"{share.pile} {share.number}" if share.pile not in ("", "all") else str(share.number)
            yield self.say(pack.id, "print-share", NOWHERE, print=number, places=_served(share))
        for scrap in own.scraps:
            yield self.say(
                pack.id, "scrap", NOWHERE, count=scrap.count, width=scrap.width, height=scrap.height
            )

    def _gives(self, strip: Strip) -> str:
        parts = [f"{part.each} {part.piece}" for part in strip.yields]
        parts += [f"{self.text(part.length)} of {part.piece}" for part in strip.segments]
        return ", ".join(parts)

    def _bought(self, fabric: PlannedFabric, own: FabricSize) -> Iterator[Working]:
        rules = self.plan.rules
        if fabric.repeat is not None:
            key = "repeat-motif" if fabric.repeat[1] else "repeat-stripe"
            yield self.say(fabric.id, key, fabric.span, width=fabric.repeat[0], height=fabric.repeat[1])
        for name, length in own.extra:
            yield self.say(fabric.id, "extra-length", fabric.span, part=name, length=length)
        if own.buy is not None:
            yield self.say(
                fabric.id, "yardage", fabric.span, length=own.length, straightening=rules.straightening,
                shrinkage=f"{plain_number(rules.shrinkage * 100)} %", amount=amount_text(own.buy),
                unit=own.buy.unit, bound=own.bound, proof=own.proof,
                steps=" or ".join(self.text(step) for step in rules.round_yardage),
            )
        if own.smallest_width is not None:
            yield self.say(
                fabric.id, "smallest-width", fabric.span, width=own.smallest_width, usable=fabric.source.size[0]
            )

    def kit(self) -> Iterator[Working]:
        """What a shop cuts for its kits, cloth by cloth."""
        kit = plan_kit(self.plan, self.index)
        for cloth in kit.cloths:
            cut = cloth.cut
            yield self.say(
                "kit", "kit-cloth" if cut.bolts else "kit-too-long", NOWHERE, cloth=cloth.fabric or cloth.part,
                length=cut.length, kits=cut.kits, bolt=cut.bolt, per_bolt=cut.per_bolt, bolts=cut.bolts,
                from_last=cut.from_last, left=cut.left, total=cut.total,
            )
        for pack in kit.packs:
            yield self.say(
                "kit", "kit-pack", NOWHERE, pack=pack.pack, each=pack.each, kits=kit.count, total=pack.total
            )

    def samples(self) -> Iterator[Working]:
        """What the samples of a class take, beside the quilt."""
        plan = plan_class(self.plan, self.index)
        for unit in plan.units:
            yield self.say(
                "class", "class-unit", NOWHERE, unit=unit.unit, stages=unit.count, batches=unit.batches,
                spare=unit.spare,
            )
        for block in plan.blocks:
            yield self.say("class", "class-block", NOWHERE, block=block.assembly, stages=block.count)
        yield self.say("class", "class-pieces", NOWHERE, pieces=_counted((cut.piece, cut.count) for cut in plan.pieces))
        for cloth in plan.cloth:
            if cloth.buy is not None:
                amount = f"{amount_text(cloth.buy)} {cloth.buy.unit}"
                yield self.say("class", "class-cloth", NOWHERE, fabric=cloth.fabric, amount=amount)
            else:
                yield self.say("class", "class-precuts", NOWHERE, fabric=cloth.fabric, count=cloth.precuts)


def amount_text(buy: Buy) -> str:
    """An amount to buy: meters in decimals, yards in fractions."""
    if buy.unit == "m" and 10000 % buy.amount.denominator == 0:
        return decimal_text(buy.amount)
    return plain_number(buy.amount)


def _given(yields: Iterable[Yield]) -> Iterator[tuple[str, int]]:
    return ((part.piece, part.each) for part in yields)


def _counted(pieces: Iterable[tuple[str, int]]) -> str:
    """`8 A1, 2 B1`."""
    return ", ".join(f"{count} {piece}" for piece, count in pieces)


def _served(share: PrintShare) -> str:
    """The places that a print serves, then its loose pieces."""
    return ", ".join([*share.places, *([_counted(share.loose)] if share.loose else [])])
