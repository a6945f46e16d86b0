"""All fabrics in all sizes: cloth plans, precuts and packs, and the pieces with what is made of each.

In: the design and the lettered pieces with their needs.
Out: planned fabrics, packs, pieces, and sizes completed with how borders and bindings are cut.
Never: a piece that is not in the list of pieces.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import Literal

from patchwright.core.diagnostics import Findings
from patchwright.core.length import ZERO, Cut, Length
from patchwright.core.measure import plain_length
from patchwright.design.design import Design, Fabric
from patchwright.planning.cloth import ClothPlan, Flat, near_width
from patchwright.planning.finishing.buying import bought_for
from patchwright.planning.instances import COPED
from patchwright.planning.laying import Grain, Layer, Way
from patchwright.planning.lettering import Entry
from patchwright.planning.line_sums import sum_lengths
from patchwright.planning.packing import Packing
from patchwright.planning.plan import (
    Alternative,
    FabricSize,
    FabricSource,
    Piece,
    PieceSize,
    PlannedFabric,
    PlannedPack,
    PlannedSize,
    Precuts,
)


@dataclass(frozen=True, slots=True)
class Planned:
    """What comes out."""

    fabrics: tuple[PlannedFabric, ...]
    packs: tuple[PlannedPack, ...]
    pieces: tuple[Piece, ...]
    sizes: tuple[PlannedSize, ...]


@dataclass(slots=True)
class FabricPlans:
    """Works out the cloth of one design."""

    design: Design
    entries: list[Entry]
    sizes: tuple[PlannedSize, ...]
    findings: Findings
    layer: Layer
    packing: Packing
    _made: dict[tuple[str, int], int] = field(default_factory=dict)
    _joins: dict[tuple[str, int], int] = field(default_factory=dict)
    _grain: dict[tuple[str, int], Grain] = field(default_factory=dict)
    _bindings: dict[int, list[Length]] = field(default_factory=dict)
    """Lengths of the strips that a binding is joined from, where it is cut from a fabric of the top."""
    _along: dict[tuple[str, int], Flat] = field(default_factory=dict)
    """Bindings that are cut along the cloth."""
    _exact: dict[str, list[str]] = field(default_factory=dict)
    _near_width: dict[str, dict[Length, list[str]]] = field(default_factory=dict)

    def plan(self) -> Planned:
        """Plan every fabric in every size."""
        precuts, packs = self.packing.plan()
        self._made.update(self.packing.made)
        fabrics = []
        for fabric in self.design.fabrics:
            sizes = tuple(
                self._precut_size(precuts[fabric.id, index], fabric, index) if fabric.pack
                else self._yardage(fabric, index)
                for index in range(len(self.sizes))
            )
            if any(size is not None for size in sizes):
                fabrics.append(self._planned(fabric, sizes))
        self._report_widths()
        sizes_done = tuple(self._finish(index, size) for index, size in enumerate(self.sizes))
        return Planned(tuple(fabrics), packs, tuple(self._piece(entry) for entry in self.entries), sizes_done)

    def _own(self, fabric: Fabric, index: int) -> list[Entry]:
        return [entry for entry in self.entries if entry.identity.fabric == fabric.id and entry.needs[index]]

    def _yardage(self, fabric: Fabric, index: int) -> FabricSize | None:
        """The fabric's strips, cut crosswise or lengthwise where the author leaves the choice."""
        entries = self._own(fabric, index)
        extra = self._backing_length(fabric, index)
        if not entries and not extra:
            return None
        found = self._least(fabric, entries, index, extra)
        if found is None:
            return None
        self._record(entries, index, fabric, *found)
        self._warn_of_width(fabric, index, entries, found)
        return _fabric_size(found[1], extra, self.layer.matching(fabric, entries, index))

    def _least(
        self, fabric: Fabric, entries: list[Entry], index: int, extra: Length
    ) -> tuple[Way, ClothPlan] | None:
        """The better of the ways in which free pieces can be cut."""
        free = any(self.layer.is_free(entry, index, fabric) for entry in entries)
        grains: tuple[Grain, ...] = ("crosswise", "lengthwise") if free else ("crosswise",)
        binding = next((entry for entry in entries if entry.kind == "binding"), None)
        asked = binding is not None and self.layer.is_binding_along(binding, index)
        ways = [Way(grain) for grain in grains] if not asked else []
        plans = self._solved(fabric, entries, index, ways, extra)
        # Plain strips are laid to check a pattern; what is cut along the cloth unasked is decided by the best plans.
        tried = binding is not None and (asked or self.layer.effort == "best")
        counts = self.layer.bindings_along(binding, index, fabric) if binding is not None and tried else range(0)
        across = dict(plans)
        for grain in grains if counts else ():
            if plans and not self._may_save(across.get(Way(grain)), plans, fabric, entries, index, extra):
                continue
            promising = self._promising(fabric, entries, index, [Way(grain, count) for count in counts], extra)
            plans += self._solved(fabric, entries, index, promising, extra)
        return min(plans, key=_merit) if plans else None

    def _may_save(
        self, across: ClothPlan | None, plans: list[tuple[Way, ClothPlan]], fabric: Fabric, entries: list[Entry],
        index: int, extra: Length,
    ) -> bool:
        """Whether a binding along the cloth may buy less than any plan so far.

        No plan undercuts the area of all pieces; nor, where the binding lies across the cloth in one plan with the
        other pieces laid alike, what that takes at least without the whole strips that a binding alone would take.
        """
        least = self.layer.least_length(fabric, entries, index)
        if across is not None:
            least = max(least, across.bound - self.layer.binding_strips(fabric, entries, index))
        return bought_for(least + extra, self.design.rules) < min(_merit(found)[0] for found in plans)

    def _solved(
        self, fabric: Fabric, entries: list[Entry], index: int, ways: Iterable[Way], extra: Length, plain: bool = False
    ) -> list[tuple[Way, ClothPlan]]:
        effort = "plain" if plain else self.layer.effort
        plans = [(way, self.layer.solve(fabric, entries, index, way, extra, effort)) for way in ways]
        return [(way, plan) for way, plan in plans if plan is not None]

    def _promising(
        self, fabric: Fabric, entries: list[Entry], index: int, ways: list[Way], extra: Length
    ) -> list[Way]:
        """Of the ways to cut a binding along the cloth that which buys least in plain strips, and those whose strips
        just fit beside other long pieces that lie along it, with as few joins as that takes.
        """
        plans = self._solved(fabric, entries, index, ways, extra, plain=True)
        chosen = [min(plans, key=_merit)[0]] if plans else []
        for high in self.layer.long_heights(fabric, entries, index, ways):
            chosen += [way for way in ways if self.layer.binding_height(fabric, entries, index, way) <= high][:1]
        return list(dict.fromkeys(chosen))

    def _alternatives(self, fabric: Fabric) -> tuple[Alternative, ...]:
        """Other sources that the author asks for, each worked out for itself."""
        return tuple(self._alternative(fabric, name) for name in fabric.alternatives)

    def _alternative(self, fabric: Fabric, name: str) -> Alternative:
        pack = next((pack for pack in self.design.packs if pack.id == name), None)
        if pack is not None:
            uses = [self.packing.use_alone(pack, fabric, index) for index in range(len(self.sizes))]
            sizes = tuple(
                FabricSize((), ZERO, (), None, None, precuts, "", ZERO) if precuts is not None else None
                for precuts in uses
            )
            return Alternative(self._source(fabric, name), (pack.width, pack.height), pack.count, sizes)
        found = []
        for index in range(len(self.sizes)):
            entries = self._own(fabric, index)
            least = self._least(fabric, entries, index, ZERO) if entries else None
            found.append(_fabric_size(least[1], ZERO) if least is not None else None)
        return Alternative(self._source(fabric, name), (ZERO, ZERO), 0, tuple(found))

    def _record(self, entries: list[Entry], index: int, fabric: Fabric, way: Way, plan: ClothPlan) -> None:
        for entry in entries:
            laid = self.layer.on_cloth(entry, index, fabric, way)
            self._made[entry.id, index] = plan.made[entry.id] if isinstance(laid, Flat) else entry.needs[index]
            self._joins[entry.id, index] = plan.joins.get(entry.id, 0)
            if entry.kind == "binding" and way.binding and isinstance(laid, Flat):
                self._bindings[index], self._along[entry.id, index] = [laid.height] * laid.count, laid
            elif entry.kind == "binding":
                self._bindings[index] = [
                    part.length for strip in plan.strips for part in strip.segments * strip.count
                    if part.piece == entry.id
                ]
            along = isinstance(laid, Flat) and laid.height > laid.width and bool(entry.identity.long)
            self._grain[entry.id, index] = "lengthwise" if along else "crosswise"

    def _warn_of_width(self, fabric: Fabric, index: int, entries: list[Entry], found: tuple[Way, ClothPlan]) -> None:
        """Note where sub-cut strips use the assumed width completely or nearly; joined strips always may.

        Plain strips are no plan to cut from: there only pieces count that are so wide themselves, in any plan.
        """
        way, plan = found
        if self.layer.effort == "best":
            used = max((strip.used for strip in plan.strips if not strip.segments), default=ZERO)
        else:
            used = max((self.layer.least_width(entry, index, fabric, way) for entry in entries), default=ZERO)
        margin = near_width(self.design.system)
        if plan.exact and not self.design.rules.straightening:
            self._exact.setdefault(fabric.id, []).append(self.design.sizes[index].name)
        if fabric.repeat is None and used > fabric.usable_width - margin:
            self._near_width.setdefault(fabric.id, {}).setdefault(used, []).append(self.design.sizes[index].name)

    def _report_widths(self) -> None:
        """One warning for each fabric, naming the widths and the sizes."""
        system = self.design.system
        for name, sizes in self._exact.items():
            self.findings.warning(
                "whole-length-used", f"the cloth to buy of `{name}` is used up to the last thread, in "
                + ", ".join(f"`{size}`" for size in sizes), self._fabric(name).span,
                "nothing is left for a miscut; the house rule `straightening` can add some to every length",
            )
        for name, by_width in self._near_width.items():
            fabric = self._fabric(name)
            width = plain_length(fabric.usable_width, system)
            whole = fabric.usable_width in by_width
            said = "; ".join(
                ("all of " if used == fabric.usable_width else "") + plain_length(used, system)
                + f" ({', '.join(f'`{size}`' for size in sizes)})"
                for used, sizes in sorted(by_width.items(), reverse=True)
            )
            room = "an inch" if self.design.system == "in" else "2 cm"
            self.findings.warning(
                "whole-width-used" if whole else "near-width",
                f"strips of `{name}` use {said}" if whole
                else f"strips of `{name}` use nearly all of {width}: {said}",
                fabric.span,
                f"cloth that is narrower will not do: measure it before cutting, or plan for less with `usable-width`, "
                f"{room} narrower for example, which may take a little more cloth",
            )

    def _fabric(self, name: str) -> Fabric:
        return next(fabric for fabric in self.design.fabrics if fabric.id == name)

    def _backing_length(self, fabric: Fabric, index: int) -> Length:
        backing = self.sizes[index].backing
        return backing.length if backing is not None and backing.fabric == fabric.id else ZERO

    def _precut_size(self, precuts: Precuts | None, fabric: Fabric, index: int) -> FabricSize | None:
        if precuts is None:
            return None
        return FabricSize((), ZERO, (), None, None, precuts, "plain", ZERO)

    def _planned(self, fabric: Fabric, sizes: tuple[FabricSize | None, ...]) -> PlannedFabric:
        return PlannedFabric(
            id=fabric.id, letter=fabric.letter, name=fabric.name, colors=fabric.colors, value=fabric.value,
            hatch=fabric.hatch, direction=fabric.direction, source=self._source(fabric, fabric.pack),
            purpose=fabric.purpose, uses=self._uses(fabric), sizes=sizes, alternatives=self._alternatives(fabric),
            span=fabric.span, repeat=fabric.repeat,
        )

    def _source(self, fabric: Fabric, name: str) -> FabricSource:
        """Yardage, or a pack by its name."""
        pack = next((pack for pack in self.design.packs if pack.id == name), None)
        if pack is None:
            return FabricSource("yardage", "", (fabric.usable_width, ZERO))
        kind: Literal["pack", "fat-quarters", "fat-eighths", "strips", "squares"] = pack.kind if pack.single else "pack"
        return FabricSource(kind, pack.id, (pack.usable_width, pack.usable_height))

    def _uses(self, fabric: Fabric) -> tuple[str, ...]:
        """What a fabric is for, from the inside of the quilt out."""
        own = [entry for entry in self.entries if entry.identity.fabric == fabric.id]
        named = {unit.id for unit in self.design.units} | {block.id for block in self.design.blocks} | {"setting"}
        uses = ["blocks"] if any(use.removesuffix(COPED) in named for entry in own for use in entry.uses) else []
        parts = {use for entry in own for use in entry.uses}
        uses += [part for part in ("setting-triangles", "sashing", "cornerstones", "strips") if part in parts]
        uses += sorted(part for part in parts if part.startswith("border-"))
        uses += ["binding"] if any(entry.kind == "binding" for entry in own) else []
        uses += [part for part in ("hanging-sleeve", "hanging-corners", "hanging-label") if part in parts]
        backed = any(size.backing is not None and size.backing.fabric == fabric.id for size in self.sizes)
        uses += ["backs"] if "backs" in parts else []
        return tuple(uses + (["backing"] if backed else []))

    def _piece(self, entry: Entry) -> Piece:
        sizes: list[PieceSize | None] = []
        for index, (size, need) in enumerate(zip(entry.identity.sizes, entry.needs, strict=True)):
            if size is None or not need:
                sizes.append(None)
                continue
            made = self._made.get((entry.id, index), need)
            joins, template = self._joins.get((entry.id, index), 0), entry.templates[index]
            along = self._along.get((entry.id, index))
            if along is not None:
                size, need = (Cut(along.width), Cut(along.height)), along.count
            sizes.append(PieceSize(size[0], size[1], need, made, joins, template))
        return Piece(
            id=entry.id, fabric=entry.identity.fabric, then=entry.identity.then, kind=entry.kind,
            uses=tuple(entry.uses), upright=self._fabric(entry.identity.fabric).direction != "none",
            sizes=tuple(sizes), span=entry.span,
        )

    def _finish(self, index: int, size: PlannedSize) -> PlannedSize:
        """Complete borders and strips with their grain and the binding with its strips, as the cloth plans cut them."""
        borders = tuple(
            replace(border, cut=self._grain.get((border.side_piece or border.end_piece, index), "crosswise"))
            for border in size.borders
        )
        binding, lengths = size.binding, self._bindings.get(index)
        if binding is not None and lengths:
            loss = self.layer.binding_loss(binding.strip.length) * (len(lengths) - 1)
            along = self._along.get((binding.piece, index))
            binding = replace(
                binding, strips=len(lengths), joins=len(lengths) - 1, made=sum_lengths(lengths) - loss,
                cloth=(along.width, along.height) if along is not None else binding.cloth,
                cloths=along.count if along is not None else binding.cloths,
            )
        strips = tuple(
            replace(strip, cut=self._grain.get((strip.piece, index), "crosswise")) for strip in size.strips
        )
        return replace(size, borders=borders, binding=binding, strips=strips)


def _fabric_size(plan: ClothPlan, backing: Length, matching: Length = ZERO) -> FabricSize:
    extra = tuple((use, length) for use, length in (("backing", backing), ("matching", matching)) if length)
    return FabricSize(
        strips=plan.strips, length=plan.length, extra=extra, buy=plan.buy,
        smallest_width=plan.smallest_width if plan.strips else None, precuts=None, proof=plan.proof, bound=plan.bound,
    )


def _merit(found: tuple[Way, ClothPlan]) -> tuple[Fraction, bool, int, int, Length]:
    """Less to buy first, then binding across the cloth, fewer joins, less length; crosswise where all are equal."""
    way, plan = found
    bought = plan.buy.amount if plan.buy is not None else Fraction(0)
    return bought, way.binding > 0, sum(plan.joins.values()), way.binding, plan.length

