"""How a number came about: the rule, what went in, the result, and the line of the pattern that caused it.

In: a plan, and the id of a piece, unit, block, fabric or pack, or one of `FINISHING`, or `pressing`.
Out: workings in order; each names its rule by a wording key, with exact values as text.
Never: a number worked out anew; it is all read from the plan.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field

from patchwright.core.length import ROOT_TWO, ZERO, Length
from patchwright.core.measure import decimal_text, plain_length, plain_number
from patchwright.core.source import NOWHERE, Span
from patchwright.planning.kits import plan_kit
from patchwright.planning.plan import (
    Alternative,
    Assembly,
    Buy,
    FabricSize,
    Piece,
    Plan,
    PlannedFabric,
    PlannedPack,
    PlannedSize,
    PlannedUnit,
    PrintShare,
    Strip,
    TopItem,
    Yield,
)
from patchwright.planning.pressing.explained import explained_pressing
from patchwright.planning.samples import plan_class


@dataclass(frozen=True, slots=True)
class Working:
    """One step of an explanation in one size of the quilt."""

    about: str
    size: str
    rule: str
    """Wording key, such as `plain-patch` or `yardage`."""
    values: tuple[tuple[str, str], ...]
    span: Span = field(default=NOWHERE, compare=False)


FINISHING = ("binding", "backing", "batting", "hanging", "size", "kit", "class")


def known_names(plan: Plan) -> tuple[str, ...]:
    """Everything that can be explained."""
    names = [piece.id for piece in plan.pieces] + [unit.id for unit in plan.units]
    names += [assembly.id for assembly in plan.assemblies] + [fabric.id for fabric in plan.fabrics]
    names += [pack.id for pack in plan.packs]
    hung = any(size.hanging for size in plan.sizes)
    finishing = (part for part in FINISHING if hung or part != "hanging")
    return (*dict.fromkeys(names), *finishing, *(["pressing"] if plan.pressing is not None else []))


def explain(plan: Plan, about: str, size_name: str | None = None) -> tuple[Working, ...]:
    """All workings of one name, size by size; empty where the name or the size is not in the plan."""
    made: list[Working] = []
    for index, size in enumerate(plan.sizes):
        if size_name in (None, size.name):
            made.extend(_Explainer(plan, index, size).about(about))
    return tuple(made)


@dataclass(frozen=True, slots=True)
class _Explainer:
    plan: Plan
    index: int
    size: PlannedSize

    def about(self, name: str) -> Iterator[Working]:
        finishing: dict[str, Callable[[], Iterator[Working]]] = {
            "binding": self._binding, "backing": self._backing, "batting": self._batting, "hanging": self._hanging,
            "size": self._whole, "kit": self._kit, "class": self._class, "pressing": self._pressing,
        }
        if name in finishing:
            yield from finishing[name]()
        for piece in self.plan.pieces:
            if piece.id == name:
                yield from self._piece(piece)
        for unit in self.plan.units:
            if unit.id == name:
                yield from self._unit(unit)
        for assembly in self.plan.assemblies:
            if assembly.id == name:
                yield from self._assembly(assembly)
        for fabric in self.plan.fabrics:
            if fabric.id == name:
                yield from self._fabric(fabric)
        for pack in self.plan.packs:
            if pack.id == name:
                yield from self._pack(pack)

    def _say(self, about: str, rule: str, span: Span, **values: object) -> Working:
        texts = tuple((key, self._text(value)) for key, value in values.items())
        return Working(about, self.size.name, rule, texts, span)

    def _text(self, value: object) -> str:
        if isinstance(value, Length):
            return plain_length(value, self.plan.system)
        length = getattr(value, "length", None)
        return plain_length(length, self.plan.system) if isinstance(length, Length) else str(value)

    def _pressing(self) -> Iterator[Working]:
        if self.plan.pressing is not None:
            for rule, values in explained_pressing(self.plan.pressing, self.index):
                yield self._say("pressing", rule, NOWHERE, **values)

    def _piece(self, piece: Piece) -> Iterator[Working]:
        own = piece.sizes[self.index]
        if own is None:
            return
        seam = self.plan.rules.seam
        yield self._say(piece.id, "piece", piece.span, fabric=piece.fabric, width=own.width, height=own.height)
        served = [
            (unit, part, made) for unit in self.plan.units for part in unit.pieces
            if part.piece == piece.id and (made := unit.sizes[self.index]) is not None
        ]
        for unit, part, made in served:
            rule = "unit-piece-rounded" if made.recipe.rounding else "unit-piece"
            yield self._say(
                piece.id, rule, unit.span, unit=unit.id, method=unit.method, how=unit.how,
                part=part.recipe_piece, finished_width=made.finished[0], finished_height=made.finished[1],
                triangles=self.plan.rules.triangles, seam=seam,
                step=plain_number(self.plan.rules.round_cuts), rounding=made.recipe.rounding,
                batches=made.batches, each=part.per_batch, count=made.batches * part.per_batch,
            )
        yield from self._plain_uses(piece, own.width.length - seam * 2, own.height.length - seam * 2)
        yield self._say(
            piece.id, "piece-total", piece.span, need=own.need, made=own.made, spare=own.spare, joins=own.joins
        )

    def _plain_uses(self, piece: Piece, width: Length, height: Length) -> Iterator[Working]:
        """Where a plain patch stands: so many in each block, and in the top."""
        seam = self.plan.rules.seam
        for assembly in self.plan.assemblies:
            made = assembly.sizes[self.index]
            each = sum(placed.ref == piece.id for line in assembly.lines for placed in line if placed.kind == "piece")
            if made is not None and each:
                yield self._say(
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
                yield self._say(
                    piece.id, "mitered-strip" if mitered else "rounded-strip", piece.span, part=part, count=count,
                    width=places[0].width, height=places[0].height, seam=seam, extra=self.plan.rules.miter_extra,
                    step=plain_number(self.plan.rules.round_cuts),
                )
                continue
            yield self._say(
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
        return self._say(
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
            return self._say(
                piece.id, "half-cornerstones", piece.span, count=count, long=sash, triangles=rules.triangles,
                seam=rules.seam, step=plain_number(rules.round_cuts),
            )
        diagonal = size.columns[0].length - sash - (beyond if size.setting == "strippy" else Length())
        corner = piece.then == "once"
        return self._say(
            piece.id, "setting-corners" if corner else "setting-sides", piece.span, count=count, diagonal=diagonal,
            beyond=beyond, long=(diagonal / 2 if corner else diagonal) + beyond, triangles=rules.triangles,
            seam=rules.seam, step=plain_number(rules.round_cuts),
        )

    def _unit(self, unit: PlannedUnit) -> Iterator[Working]:
        own = unit.sizes[self.index]
        if own is None:
            return
        for assembly in self.plan.assemblies:
            made = assembly.sizes[self.index]
            each = sum(placed.ref == unit.id for line in assembly.lines for placed in line if placed.kind == "unit")
            if made is not None and each:
                yield self._say(
                    unit.id, "unit-use", assembly.span, block=assembly.id, each=each, blocks=made.count,
                    count=each * made.count,
                )
        yield self._say(
            unit.id, "unit-batches", unit.span, need=own.need, batch=own.recipe.batch, batches=own.batches,
            made=own.made, how=unit.how, width=own.unfinished[0], height=own.unfinished[1],
        )
        choice = unit.choices[self.index] if unit.choices else None
        if choice is not None:
            yield self._say(
                unit.id, "strip-pieced" if choice.strips else "not-strip-pieced", unit.span, asked=choice.asked,
                single_seams=choice.seams[0], strip_seams=choice.seams[1], single_cloth=choice.cloth[0],
                strip_cloth=choice.cloth[1],
            )

    def _assembly(self, assembly: Assembly) -> Iterator[Working]:
        own = assembly.sizes[self.index]
        if own is not None:
            yield self._say(
                assembly.id, "block", assembly.span, count=own.count, width=own.finished[0], height=own.finished[1],
                raw_width=own.unfinished[0], raw_height=own.unfinished[1], seam=self.plan.rules.seam,
            )

    def _fabric(self, fabric: PlannedFabric) -> Iterator[Working]:
        own = fabric.sizes[self.index]
        if own is None:
            return
        if own.precuts is not None:
            yield self._say(
                fabric.id, "precuts", fabric.span, pack=fabric.source.pack, used=own.precuts.used,
                packs=own.precuts.packs, left=own.precuts.left,
            )
            for sheet in own.precuts.sheets:
                yield self._say(
                    fabric.id, "sheet", fabric.span, count=sheet.count, gives=_counted(_given(sheet.yields))
                )
        for strip in own.strips:
            yield self._say(
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
            yield self._say(fabric.id, "alternative-none", fabric.span, pack=other.source.pack)
        elif own.precuts is not None:
            yield self._say(
                fabric.id, "alternative-precuts", fabric.span, pack=other.source.pack, used=own.precuts.used,
                packs=own.precuts.packs,
            )
        elif own.buy is not None:
            yield self._say(
                fabric.id, "alternative-yardage", fabric.span, length=own.length,
                amount=plain_number(own.buy.amount), unit=own.buy.unit,
            )

    def _pack(self, pack: PlannedPack) -> Iterator[Working]:
        """A pack for all fabrics that share it: how many are needed and why, and what each print serves."""
        own = pack.sizes[self.index]
        if own is None:
            return
        fabrics = ", ".join(pack.fabrics)
        yield self._say(
            pack.id, "pack-need", NOWHERE, needed=own.needed, bound=own.bound, proof=own.proof, width=pack.width,
            height=pack.height, fabrics=fabrics,
        )
        key = "pack-singles" if pack.single else "pack-buy"
        yield self._say(pack.id, key, NOWHERE, used=own.used, count=pack.count, packs=own.packs, left=own.left)
        for sheet in own.sheets:
            yield self._say(pack.id, "sheet", NOWHERE, count=sheet.count, gives=_counted(_given(sheet.yields)))
        for share in own.shares:
            number = f"{share.pile} {share.number}" if share.pile not in ("", "all") else str(share.number)
            yield self._say(pack.id, "print-share", NOWHERE, print=number, places=_served(share))
        for scrap in own.scraps:
            yield self._say(
                pack.id, "scrap", NOWHERE, count=scrap.count, width=scrap.width, height=scrap.height
            )

    def _gives(self, strip: Strip) -> str:
        parts = [f"{part.each} {part.piece}" for part in strip.yields]
        parts += [f"{self._text(part.length)} of {part.piece}" for part in strip.segments]
        return ", ".join(parts)

    def _bought(self, fabric: PlannedFabric, own: FabricSize) -> Iterator[Working]:
        rules = self.plan.rules
        if fabric.repeat is not None:
            key = "repeat-motif" if fabric.repeat[1] else "repeat-stripe"
            yield self._say(fabric.id, key, fabric.span, width=fabric.repeat[0], height=fabric.repeat[1])
        for name, length in own.extra:
            yield self._say(fabric.id, "extra-length", fabric.span, part=name, length=length)
        if own.buy is not None:
            yield self._say(
                fabric.id, "yardage", fabric.span, length=own.length, straightening=rules.straightening,
                shrinkage=f"{plain_number(rules.shrinkage * 100)} %", amount=_amount(own.buy),
                unit=own.buy.unit, bound=own.bound, proof=own.proof,
                steps=" or ".join(self._text(step) for step in rules.round_yardage),
            )
        if own.smallest_width is not None:
            yield self._say(
                fabric.id, "smallest-width", fabric.span, width=own.smallest_width, usable=fabric.source.size[0]
            )

    def _binding(self) -> Iterator[Working]:
        binding, rules = self.size.binding, self.plan.rules
        if binding is not None:
            key = {"straight": "binding", "continuous": "binding-continuous"}.get(binding.way, "binding-bias")
            cloth = binding.cloth or (ZERO, ZERO)
            yield self._say(
                "binding", key, NOWHERE, width=self.size.unfinished[0], height=self.size.unfinished[1],
                extra=rules.binding_extra, length=binding.length, strips=binding.strips, strip=binding.strip,
                join=rules.binding_join, joins=binding.joins, made=binding.made, cloths=binding.cloths,
                cloth_width=cloth[0], cloth_height=cloth[1], lines=binding.lines, seam=rules.seam,
            )

    def _hanging(self) -> Iterator[Working]:
        rules = self.plan.rules
        for part in self.size.hanging:
            yield self._say(
                "hanging", part.part, NOWHERE, piece=part.piece, fabric=part.fabric, width=part.cut[0],
                height=part.cut[1], count=part.count, quilt=self.size.finished[0], inset=rules.sleeve_inset,
                hem=rules.sleeve_hem, seam=rules.seam,
            )

    def _backing(self) -> Iterator[Working]:
        backing, rules = self.size.backing, self.plan.rules
        if backing is not None:
            yield self._say(
                "backing", "backing", NOWHERE, overage=rules.backing_overage, width=backing.size[0],
                height=backing.size[1], panels=len(backing.panels), seams=backing.seams, seam=rules.backing_seam,
                length=backing.length, lengths=backing.lengths, usable=backing.usable_width,
                amount=f"{_amount(backing.buy)} {backing.buy.unit}" if backing.buy else "-",
            )

    def _kit(self) -> Iterator[Working]:
        """What a shop cuts for its kits, cloth by cloth."""
        kit = plan_kit(self.plan, self.index)
        for cloth in kit.cloths:
            cut = cloth.cut
            yield self._say(
                "kit", "kit-cloth" if cut.bolts else "kit-too-long", NOWHERE, cloth=cloth.fabric or cloth.part,
                length=cut.length, kits=cut.kits, bolt=cut.bolt, per_bolt=cut.per_bolt, bolts=cut.bolts,
                from_last=cut.from_last, left=cut.left, total=cut.total,
            )
        for pack in kit.packs:
            yield self._say(
                "kit", "kit-pack", NOWHERE, pack=pack.pack, each=pack.each, kits=kit.count, total=pack.total
            )

    def _class(self) -> Iterator[Working]:
        """What the samples of a class take, beside the quilt."""
        plan = plan_class(self.plan, self.index)
        for unit in plan.units:
            yield self._say(
                "class", "class-unit", NOWHERE, unit=unit.unit, stages=len(unit.stages), batches=unit.batches,
                spare=unit.spare,
            )
        for block in plan.blocks:
            yield self._say("class", "class-block", NOWHERE, block=block.assembly, stages=len(block.stages))
        yield self._say("class", "class-pieces", NOWHERE, pieces=_counted(plan.pieces))
        for cloth in plan.cloth:
            if cloth.buy is not None:
                amount = f"{_amount(cloth.buy)} {cloth.buy.unit}"
                yield self._say("class", "class-cloth", NOWHERE, fabric=cloth.fabric, amount=amount)
            else:
                yield self._say("class", "class-precuts", NOWHERE, fabric=cloth.fabric, count=cloth.precuts)

    def _batting(self) -> Iterator[Working]:
        yield self._say(
            "batting", "batting", NOWHERE, overage=self.plan.rules.batting_overage, width=self.size.batting[0],
            height=self.size.batting[1],
        )
        package, roll = self.size.batting_bought.package, self.size.batting_bought.roll
        if package is not None:
            yield self._say("batting", "batting-package", NOWHERE, width=package[0], height=package[1])
        if roll is not None:
            yield self._say(
                "batting", "batting-roll", NOWHERE, width=roll.width, length=roll.length, pieces=roll.pieces,
                amount=f"{_amount(roll.buy)} {roll.buy.unit}",
            )

    def _whole(self) -> Iterator[Working]:
        size = self.size
        yield self._say(
            "size", "quilt", NOWHERE, across=size.across, down=size.down, width=size.finished[0],
            height=size.finished[1], raw_width=size.unfinished[0], raw_height=size.unfinished[1],
        )


def _amount(buy: Buy) -> str:
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
