"""All fabrics in all sizes: cloth plans, precuts and packs, and the pieces with what is made of each.

In: the design and the lettered pieces with their needs.
Out: planned fabrics, packs, pieces, and sizes completed with how borders and bindings are cut.
Never: a piece that is not in the list of pieces.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from typing import Literal

from patchwright.core.diagnostics import Findings
from patchwright.core.length import ZERO, Length
from patchwright.core.measure import plain_length
from patchwright.design.design import Border, Design, Fabric, Pack
from patchwright.planning import cutting
from patchwright.planning.cloth import ClothPlan, Flat, Long, TooWide, plan_cloth
from patchwright.planning.instances import sum_lengths
from patchwright.planning.lettering import Entry
from patchwright.planning.plan import (
    FabricSize,
    FabricSource,
    PackSize,
    Piece,
    PieceSize,
    PlannedFabric,
    PlannedPack,
    PlannedSize,
    Precuts,
    SheetCut,
)
from patchwright.planning.precuts import PackTooSmall, PackUse, Wanted, plan_precuts
from patchwright.planning.prints import Holder, PrintGroup, joined_by_match

Effort = Literal["plain", "best"]
Grain = Literal["crosswise", "lengthwise"]
PiecesOf = Callable[[Holder, str, int], tuple[tuple[str, int], ...]]


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
    effort: Effort
    findings: Findings
    holders: dict[str, list[tuple[Holder, ...]]]
    """For each fabric whose patches share prints, the places that do, size by size."""
    pieces_of: PiecesOf
    """The lettered pieces of a fabric that a place needs in one size."""
    _made: dict[tuple[str, int], int] = field(default_factory=dict)
    _joins: dict[tuple[str, int], int] = field(default_factory=dict)
    _grain: dict[tuple[str, int], Grain] = field(default_factory=dict)
    _bindings: dict[int, list[Length]] = field(default_factory=dict)
    """Lengths of the strips that a binding is joined from, where it is cut from a fabric of the top."""
    _full_packs: dict[str, list[str]] = field(default_factory=dict)
    _near_width: dict[tuple[str, Length], list[str]] = field(default_factory=dict)

    def plan(self) -> Planned:
        """Plan every fabric in every size."""
        precuts, packs = self._packs()
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
        ways: list[Grain] = ["crosswise"]
        if any(self._free(entry, index, fabric) for entry in entries):
            ways.append("lengthwise")
        plans: list[tuple[Grain, ClothPlan]] = []
        for way in ways:
            plan = self._solve(fabric, entries, index, way, extra)
            if plan is not None:
                plans.append((way, plan))
        if not plans:
            return None
        way, plan = min(plans, key=lambda pair: _merit(pair[1]))
        self._record(entries, index, fabric, way, plan)
        self._warn_of_width(fabric, index, plan)
        return FabricSize(
            strips=plan.strips, length=plan.length, extra=(("backing", extra),) if extra else (), buy=plan.buy,
            smallest_width=plan.smallest_width if plan.strips else None, precuts=None, proof=plan.proof,
            bound=plan.bound,
        )

    def _solve(
        self, fabric: Fabric, entries: list[Entry], index: int, way: Grain, extra: Length
    ) -> ClothPlan | None:
        laid = [self._on_cloth(entry, index, fabric, way) for entry in entries]
        solver = cutting.best if self.effort == "best" else cutting.plain
        try:
            return plan_cloth(
                tuple(made for made in laid if isinstance(made, Flat)),
                tuple(made for made in laid if isinstance(made, Long)),
                fabric.usable_width, extra, self.design.rules, solver,
            )
        except TooWide as fault:
            self._too_wide(next(entry for entry in entries if entry.id == fault.piece), index, fabric.usable_width)
            return None

    def _on_cloth(self, entry: Entry, index: int, fabric: Fabric, way: Grain) -> Flat | Long:
        """How a piece is laid: whole, or joined from strips across the cloth where it is too long for that."""
        size = entry.identity.sizes[index]
        if size is None:
            raise ValueError(f"{entry.id} is needed in a size that it has no measure for")
        width, height = size[0].length, size[1].length
        count = entry.needs[index]
        if entry.kind == "binding":
            return Long(entry.id, height, width, self._binding_loss(height), True)
        turn = fabric.direction == "none"
        if not entry.identity.long:
            return Flat(entry.id, width, height, count, turn)
        if turn:
            width, height = max(width, height), min(width, height)
            if self._grain_of(entry, index, way) == "lengthwise":
                return Flat(entry.id, height, width, count, False)
        if width <= fabric.usable_width:
            return Flat(entry.id, width, height, count, turn)
        return Long(entry.id, height, width * count, self._strip_loss(height), False)

    def _binding_loss(self, strip: Length) -> Length:
        return strip if self.design.rules.binding_join == "diagonal" else self.design.rules.seam * 2

    def _strip_loss(self, height: Length) -> Length:
        return height if self.design.rules.strip_join == "diagonal" else self.design.rules.seam * 2

    def _border(self, entry: Entry, index: int) -> Border | None:
        borders = self.design.sizes[index].borders
        number = next((int(use.removeprefix("border-")) for use in entry.uses if use.startswith("border-")), 0)
        return borders[number - 1] if 0 < number <= len(borders) else None

    def _grain_of(self, entry: Entry, index: int, way: Grain) -> Grain:
        border = self._border(entry, index)
        if border is None:
            return "crosswise"
        return way if border.cut == "auto" else border.cut

    def _free(self, entry: Entry, index: int, fabric: Fabric) -> bool:
        """Whether a long piece may be cut either way, and crosswise would need joins."""
        border, size = self._border(entry, index), entry.identity.sizes[index]
        return (
            border is not None and border.cut == "auto" and fabric.direction == "none" and bool(entry.identity.long)
            and size is not None and max(size).length > fabric.usable_width
        )

    def _record(self, entries: list[Entry], index: int, fabric: Fabric, way: Grain, plan: ClothPlan) -> None:
        for entry in entries:
            laid = self._on_cloth(entry, index, fabric, way)
            self._made[entry.id, index] = plan.made[entry.id] if isinstance(laid, Flat) else entry.needs[index]
            self._joins[entry.id, index] = plan.joins.get(entry.id, 0)
            if entry.kind == "binding":
                self._bindings[index] = [
                    part.length for strip in plan.strips for part in strip.segments * strip.count
                    if part.piece == entry.id
                ]
            along = isinstance(laid, Flat) and laid.height > laid.width and bool(entry.identity.long)
            self._grain[entry.id, index] = "lengthwise" if along else "crosswise"

    def _warn_of_width(self, fabric: Fabric, index: int, plan: ClothPlan) -> None:
        """Note where sub-cut strips use the assumed width completely or nearly; joined strips always may."""
        used = max((strip.used for strip in plan.strips if not strip.segments), default=ZERO)
        margin = Length(1) / 2 if self.design.system == "in" else Length(1)
        if used > fabric.usable_width - margin:
            self._near_width.setdefault((fabric.id, used), []).append(self.design.sizes[index].name)

    def _report_widths(self) -> None:
        """One warning for each fabric and width, and for each pack that is used to its edges, naming the sizes."""
        system = self.design.system
        for name, sizes in self._full_packs.items():
            pack = next(known for known in self.design.packs if known.id == name)
            self.findings.warning(
                "whole-width-used",
                f"some {pack.kind.replace('-', ' ')} of `{name}` are used to their full "
                f"{plain_length(pack.usable_width, system)}, in " + ", ".join(f"`{size}`" for size in sizes), pack.span,
                "measure the precuts first: what is usable may be less; state it with `usable`",
            )
        for (name, used), sizes in self._near_width.items():
            fabric = self._fabric(name)
            where = "in " + ", ".join(f"`{size}`" for size in sizes)
            if used == fabric.usable_width:
                self.findings.warning(
                    "whole-width-used", f"strips of `{name}` use all of {plain_length(used, system)}, {where}",
                    fabric.span,
                    "nothing is left to square up the ends; check the real width of the cloth before cutting",
                )
            else:
                self.findings.warning(
                    "near-width",
                    f"strips of `{name}` use {plain_length(used, system)} of "
                    f"{plain_length(fabric.usable_width, system)}, {where}", fabric.span,
                    "check the real width of the cloth before cutting",
                )

    def _too_wide(self, entry: Entry, index: int, width: Length) -> None:
        size, system = entry.identity.sizes[index], self.design.system
        if size is None:
            return
        text = " x ".join(plain_length(side.length, system) for side in size)
        one_way = self._fabric(entry.identity.fabric).direction != "none"
        self.findings.error(
            "one-way-too-long" if one_way else "piece-too-wide",
            f"a piece of `{entry.identity.fabric}` for `{', '.join(entry.uses)}` is cut {text}, and the cloth is "
            f"{plain_length(width, system)} wide, in `{self.design.sizes[index].name}`", entry.span,
            "make the piece smaller or piece it, or choose a wider cloth with `usable-width`",
        )

    def _fabric(self, name: str) -> Fabric:
        return next(fabric for fabric in self.design.fabrics if fabric.id == name)

    def _backing_length(self, fabric: Fabric, index: int) -> Length:
        backing = self.sizes[index].backing
        return backing.length if backing is not None and backing.fabric == fabric.id else ZERO

    def _packs(self) -> tuple[dict[tuple[str, int], Precuts | None], tuple[PlannedPack, ...]]:
        """Plan every pack in every size for the fabrics that share it."""
        precuts: dict[tuple[str, int], Precuts | None] = {}
        packs = []
        for pack in self.design.packs:
            sharing = [fabric for fabric in self.design.fabrics if fabric.pack == pack.id]
            uses = [self._share(pack, sharing, index) for index in range(len(self.sizes))]
            for index, use in enumerate(uses):
                precuts.update({(fabric.id, index): self._part(fabric, use, pack) for fabric in sharing})
            if sharing:
                sizes = tuple(_pack_size(use) if use is not None else None for use in uses)
                packs.append(PlannedPack(
                    pack.id, pack.kind, pack.width, pack.height, pack.count, pack.single,
                    tuple(fabric.id for fabric in sharing), sizes,
                ))
        return precuts, tuple(packs)

    def _share(self, pack: Pack, sharing: list[Fabric], index: int) -> PackUse | None:
        """One pack in one size, for all fabrics together."""
        entries = [(entry, fabric) for fabric in sharing for entry in self._own(fabric, index)]
        if not entries:
            return None
        wanted = Wanted(
            tuple(self._sheet_flat(entry, index, fabric) for entry, fabric in entries),
            self._groups(pack, sharing, index), {entry.id: fabric.pile for entry, fabric in entries},
        )
        size = self.design.sizes[index].name
        try:
            use = plan_precuts(wanted, pack)
        except TooWide as fault:
            self._too_wide(next(e for e, _ in entries if e.id == fault.piece), index, pack.usable_width)
            return None
        except PackTooSmall as fault:
            self.findings.error(
                "pack-not-enough",
                f"`{pack.id}` cannot serve `{size}`: {fault.needed} needed, and it holds {pack.count}", pack.span,
                "each pack holds the same prints; let fewer patches share a print, or use larger precuts",
            )
            return None
        self._made.update({(piece, index): count for piece, count in use.made.items()})
        self._warn_of_pack(pack, index, use.used, use.packs)
        if any(_fills(sheet, pack) for sheet in use.sheets):
            self._full_packs.setdefault(pack.id, []).append(size)
        return use

    def _groups(self, pack: Pack, sharing: list[Fabric], index: int) -> tuple[PrintGroup, ...]:
        """The groups that share a print, by lettered pieces."""
        made: list[PrintGroup] = []
        owners: dict[str, str] = {}
        for fabric in sharing:
            for group in self._fabric_groups(fabric, index):
                made.append(group)
                owners[group.key] = fabric.id
        return tuple(joined_by_match(made, pack, owners))

    def _fabric_groups(self, fabric: Fabric, index: int) -> list[PrintGroup]:
        if fabric.same_print == "none":
            return []
        if fabric.same_print == "quilt":
            needs = tuple((entry.id, entry.needs[index]) for entry in self._own(fabric, index))
            return [PrintGroup(fabric.id, needs, fabric.pile, "", "none")] if needs else []
        return [
            PrintGroup(f"{fabric.letter} {holder.label}", needs, fabric.pile, holder.block, fabric.apart)
            for holder in self.holders[fabric.id][index] if (needs := self.pieces_of(holder, fabric.id, index))
        ]

    def _part(self, fabric: Fabric, use: PackUse | None, pack: Pack) -> Precuts | None:
        """What one fabric has of a pack's sheets."""
        if use is None:
            return None
        own = {entry.id for entry in self.entries if entry.identity.fabric == fabric.id}
        sheets = tuple(sheet for sheet in use.sheets if any(part.piece in own for part in sheet.yields))
        if not sheets:
            return None
        return Precuts(sum(sheet.count for sheet in sheets), use.packs, use.left, sheets)

    def _sheet_flat(self, entry: Entry, index: int, fabric: Fabric) -> Flat:
        size = entry.identity.sizes[index]
        if size is None:
            raise ValueError(f"{entry.id} is needed in a size that it has no measure for")
        return Flat(entry.id, size[0].length, size[1].length, entry.needs[index], fabric.direction == "none")

    def _warn_of_pack(self, pack: Pack, index: int, used: int, packs: int) -> None:
        if not pack.count or (packs <= 1 and not pack.single) or (pack.single and used <= pack.count):
            return
        what = pack.kind.replace("-", " ")
        advice = f"buy {used} {what}" if pack.single else f"buy {packs} packs"
        self.findings.warning(
            "pack-not-enough",
            f"`{pack.id}` holds {pack.count} {what}, and one is not enough for `{self.design.sizes[index].name}`: "
            f"{used} needed", pack.span, f"{advice}, or make the quilt smaller",
        )

    def _precut_size(self, precuts: Precuts | None, fabric: Fabric, index: int) -> FabricSize | None:
        if precuts is None:
            return None
        return FabricSize((), ZERO, (), None, None, precuts, "plain", ZERO)

    def _planned(self, fabric: Fabric, sizes: tuple[FabricSize | None, ...]) -> PlannedFabric:
        pack = next((pack for pack in self.design.packs if pack.id == fabric.pack), None)
        if pack is None:
            source = FabricSource("yardage", "", (fabric.usable_width, ZERO))
        else:
            kind: Literal["pack", "fat-quarters", "fat-eighths", "strips", "squares"] = (
                pack.kind if pack.single else "pack"
            )
            source = FabricSource(kind, pack.id, (pack.usable_width, pack.usable_height))
        return PlannedFabric(
            id=fabric.id, letter=fabric.letter, name=fabric.name, colors=fabric.colors, value=fabric.value,
            hatch=fabric.hatch, direction=fabric.direction, source=source, purpose=fabric.purpose,
            uses=self._uses(fabric), sizes=sizes, span=fabric.span,
        )

    def _uses(self, fabric: Fabric) -> tuple[str, ...]:
        """What a fabric is for, from the inside of the quilt out."""
        own = [entry for entry in self.entries if entry.identity.fabric == fabric.id]
        uses = ["blocks"] if any(entry.kind in ("patch", "unit") for entry in own) else []
        parts = dict.fromkeys(use for entry in own if entry.kind not in ("patch", "unit") for use in entry.uses)
        uses += [part for part in ("sashing", "cornerstones") if part in parts]
        uses += sorted(part for part in parts if part.startswith("border-"))
        uses += ["binding"] if any(entry.kind == "binding" for entry in own) else []
        backed = any(size.backing is not None and size.backing.fabric == fabric.id for size in self.sizes)
        return tuple(uses + (["backing"] if backed else []))

    def _piece(self, entry: Entry) -> Piece:
        sizes: list[PieceSize | None] = []
        for index, (size, need) in enumerate(zip(entry.identity.sizes, entry.needs, strict=True)):
            if size is None or not need:
                sizes.append(None)
                continue
            made = self._made.get((entry.id, index), need)
            sizes.append(PieceSize(size[0], size[1], need, made, self._joins.get((entry.id, index), 0)))
        return Piece(
            id=entry.id, fabric=entry.identity.fabric, then=entry.identity.then, kind=entry.kind,
            uses=tuple(entry.uses), upright=self._fabric(entry.identity.fabric).direction != "none",
            sizes=tuple(sizes), span=entry.span,
        )

    def _finish(self, index: int, size: PlannedSize) -> PlannedSize:
        """Complete borders with their grain and the binding with its strips, as the cloth plans cut them."""
        borders = tuple(
            replace(border, cut=self._grain.get((border.side_piece, index), "crosswise")) for border in size.borders
        )
        binding, lengths = size.binding, self._bindings.get(index)
        if binding is not None and lengths:
            loss = self._binding_loss(binding.strip.length) * (len(lengths) - 1)
            binding = replace(
                binding, strips=len(lengths), joins=len(lengths) - 1, made=sum_lengths(lengths) - loss
            )
        return replace(size, borders=borders, binding=binding)


def _fills(sheet: SheetCut, pack: Pack) -> bool:
    """Whether pieces side by side reach across the whole precut, with nothing to spare for the cuts between them.

    A piece that is as wide as its precut is not cut there at all, as a strip sub-cut into squares is not.
    """
    across = any(x + width == pack.usable_width and x > ZERO for _, x, _, width, _ in sheet.places)
    down = any(y + height == pack.usable_height and y > ZERO for _, _, y, _, height in sheet.places)
    return across or down


def _pack_size(use: PackUse) -> PackSize:
    return PackSize(
        use.sheets, use.used, use.packs, use.left, use.scraps, use.shares, use.needed, use.bound, use.proof
    )


def _merit(plan: ClothPlan) -> tuple[object, ...]:
    """Less to buy first, then fewer joins, then less length; crosswise before lengthwise where all are equal."""
    return (plan.buy.amount if plan.buy is not None else 0, sum(plan.joins.values()), plan.length)

