"""How a number came about: the rule, what went in, the result, and the line of the pattern that caused it.

In: a plan, and the id of a piece, unit, block, fabric or pack, or one of `FINISHING`, or `pressing`.
Out: workings in order; each names its rule by a wording key, with exact values as text.
Never: a number worked out anew; it is all read from the plan.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from patchwright.core.length import ZERO
from patchwright.core.source import NOWHERE
from patchwright.planning.beds.explained import explained_fit
from patchwright.planning.explained_cloth import ClothTelling, amount_text
from patchwright.planning.explained_parts import PartsTelling
from patchwright.planning.plan import (
    Plan,
    PlannedByBlock,
    PlannedSize,
)
from patchwright.planning.pressing.explained import explained_pressing
from patchwright.planning.telling import Telling, Working

FINISHING = ("binding", "backing", "batting", "hanging", "size", "fit", "kit", "class")


def known_names(plan: Plan) -> tuple[str, ...]:
    """Everything that can be explained."""
    names = [piece.id for piece in plan.pieces] + [unit.id for unit in plan.units]
    names += [assembly.id for assembly in plan.assemblies] + [fabric.id for fabric in plan.fabrics]
    names += [pack.id for pack in plan.packs]
    hung = any(size.hanging for size in plan.sizes)
    made_for_bed = any(size.fit is not None for size in plan.sizes)
    missing = {"hanging": not hung, "fit": not made_for_bed}
    finishing = (part for part in FINISHING if not missing.get(part, False))
    return (*dict.fromkeys(names), *finishing, *(["pressing"] if plan.pressing is not None else []))


def explain(plan: Plan, about: str, size_name: str | None = None) -> tuple[Working, ...]:
    """All workings of one name, size by size; empty where the name or the size is not in the plan."""
    made: list[Working] = []
    for index, size in enumerate(plan.sizes):
        if size_name in (None, size.name):
            made.extend(_Explainer(plan, index, size).about(about))
    return tuple(made)


@dataclass(frozen=True, slots=True)
class _Explainer(Telling):
    """Knows who tells of what; tells itself of finishing."""

    def about(self, name: str) -> Iterator[Working]:
        parts = PartsTelling(self.plan, self.index, self.size)
        cloth = ClothTelling(self.plan, self.index, self.size)
        finishing: dict[str, Callable[[], Iterator[Working]]] = {
            "binding": self._binding, "backing": self._backing, "batting": self._batting, "hanging": self._hanging,
            "size": self._whole, "fit": self._fit, "kit": cloth.kit, "class": cloth.samples, "pressing": self._pressing,
        }
        if name in finishing:
            yield from finishing[name]()
        for piece in self.plan.pieces:
            if piece.id == name:
                yield from parts.piece(piece)
        for unit in self.plan.units:
            if unit.id == name:
                yield from parts.unit(unit)
        for assembly in self.plan.assemblies:
            if assembly.id == name:
                yield from parts.assembly(assembly)
        for fabric in self.plan.fabrics:
            if fabric.id == name:
                yield from cloth.fabric(fabric)
        for pack in self.plan.packs:
            if pack.id == name:
                yield from cloth.pack(pack)

    def _pressing(self) -> Iterator[Working]:
        if self.plan.pressing is not None:
            for rule, values in explained_pressing(self.plan.pressing, self.index, self.plan.rules.spinning):
                yield self.say("pressing", rule, NOWHERE, **values)

    def _binding(self) -> Iterator[Working]:
        binding, rules = self.size.binding, self.plan.rules
        if binding is not None:
            ways = {"straight": "binding-along" if binding.is_along else "binding", "continuous": "binding-continuous"}
            key = ways.get(binding.way, "binding-bias")
            cloth = binding.cloth or (ZERO, ZERO)
            yield self.say(
                "binding", key, NOWHERE, width=self.size.unfinished[0], height=self.size.unfinished[1],
                extra=rules.binding_extra, length=binding.length, strips=binding.strips, strip=binding.strip,
                join=rules.binding_join, joins=binding.joins, made=binding.made, cloths=binding.cloths,
                cloth_width=cloth[0], cloth_height=cloth[1], lines=binding.lines, seam=rules.seam,
            )

    def _hanging(self) -> Iterator[Working]:
        rules = self.plan.rules
        for part in self.size.hanging:
            yield self.say(
                "hanging", part.part, NOWHERE, piece=part.piece, fabric=part.fabric, width=part.cut[0],
                height=part.cut[1], count=part.count, quilt=self.size.finished[0], inset=rules.sleeve_inset,
                hem=rules.sleeve_hem, seam=rules.seam,
            )

    def _backing(self) -> Iterator[Working]:
        backing, rules = self.size.backing, self.plan.rules
        if backing is not None:
            yield self.say(
                "backing", "backing", NOWHERE, overage=rules.backing_overage, width=backing.size[0],
                height=backing.size[1], panels=len(backing.panels), seams=backing.seams, seam=rules.backing_seam,
                length=backing.length, lengths=backing.lengths, usable=backing.usable_width,
                amount=f"{amount_text(backing.buy)} {backing.buy.unit}" if backing.buy else "-",
            )

    def _batting(self) -> Iterator[Working]:
        if self.size.by_block is None:
            yield self.say(
                "batting", "batting", NOWHERE, overage=self.plan.rules.batting_overage, width=self.size.batting[0],
                height=self.size.batting[1],
            )
        else:
            yield from self._by_block(self.size.by_block)
        package, roll = self.size.batting_bought.package, self.size.batting_bought.roll
        if package is not None:
            yield self.say("batting", "batting-package", NOWHERE, width=package[0], height=package[1])
        if roll is not None:
            yield self.say(
                "batting", "batting-roll", NOWHERE, width=roll.width, length=roll.length, pieces=roll.pieces,
                amount=f"{amount_text(roll.buy)} {roll.buy.unit}",
            )

    def _by_block(self, made: PlannedByBlock) -> Iterator[Working]:
        for block in made.blocks:
            yield self.say(
                "batting", f"batting-{made.way}", NOWHERE, count=block.count, piece=block.piece,
                width=block.finished[0], height=block.finished[1], seam=self.plan.rules.seam,
                inset=made.inset, allowance=made.allowance, front_width=block.front[0], front_height=block.front[1],
                batting_width=block.batting[0], batting_height=block.batting[1],
                back_width=block.back[0], back_height=block.back[1],
            )

    def _fit(self) -> Iterator[Working]:
        for rule, values in explained_fit(self.size, self.plan.system):
            yield self.say("fit", rule, NOWHERE, **values)

    def _whole(self) -> Iterator[Working]:
        size = self.size
        yield self.say(
            "size", _quilt_rule(size), NOWHERE, across=size.across, down=size.down, width=size.finished[0],
            height=size.finished[1], raw_width=size.unfinished[0], raw_height=size.unfinished[1],
        )


def _quilt_rule(size: PlannedSize) -> str:
    """Which words tell what a quilt is made of."""
    if size.setting == "strippy":
        return "quilt-strippy"
    return "quilt-medallion" if size.medallion else "quilt"
