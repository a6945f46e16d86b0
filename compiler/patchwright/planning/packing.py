"""Packs of precut cloth: which pieces each serves in every size, for all fabrics that share it.

In: the design, lettered pieces, and the places whose patches share a print.
Out: the use of every pack, and each fabric's part of it.
Never: yardage.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from patchwright.core.diagnostics import Findings
from patchwright.core.length import ZERO
from patchwright.core.measure import plain_length
from patchwright.design.design import Design, Fabric, Pack
from patchwright.planning import cutting
from patchwright.planning.cloth import TooWide
from patchwright.planning.laying import Layer
from patchwright.planning.lettering import Entry
from patchwright.planning.packs import PackTooSmall, PackUse, Wanted, plan_precuts
from patchwright.planning.plan import PackSize, PlannedPack, Precuts, SheetCut
from patchwright.planning.prints import Holder, PrintGroup, joined_by_match
from patchwright.planning.shelves import on_shelves

PiecesOf = Callable[[Holder, str, int], tuple[tuple[str, int], ...]]


@dataclass(slots=True)
class Packing:
    """Plans the packs of one design."""

    design: Design
    entries: list[Entry]
    layer: Layer
    findings: Findings
    holders: dict[str, list[tuple[Holder, ...]]]
    """For each fabric whose patches share prints, the places that do, size by size."""
    pieces_of: PiecesOf
    """The lettered pieces of a fabric that a place needs in one size."""
    made: dict[tuple[str, int], int] = field(default_factory=dict)
    """How many of each piece come out, by piece and size."""
    _full_packs: dict[str, list[str]] = field(default_factory=dict)

    def plan(self) -> tuple[dict[tuple[str, int], Precuts | None], tuple[PlannedPack, ...]]:
        """Plan every pack in every size for the fabrics that share it."""
        precuts: dict[tuple[str, int], Precuts | None] = {}
        packs = []
        for pack in self.design.packs:
            sharing = [fabric for fabric in self.design.fabrics if fabric.pack == pack.id]
            uses = [self._share(pack, sharing, index) for index in range(len(self.design.sizes))]
            for index, use in enumerate(uses):
                precuts.update({(fabric.id, index): self._part(fabric, use, pack) for fabric in sharing})
            if sharing:
                sizes = tuple(_pack_size(use) if use is not None else None for use in uses)
                packs.append(PlannedPack(
                    pack.id, pack.kind, pack.width, pack.height, pack.count, pack.single,
                    tuple(fabric.id for fabric in sharing), sizes,
                ))
        self._report_full()
        return precuts, tuple(packs)

    def _own(self, fabric: Fabric, index: int) -> list[Entry]:
        return [entry for entry in self.entries if entry.identity.fabric == fabric.id and entry.needs[index]]

    def _report_full(self) -> None:
        """One warning for each pack that is used to its edges, naming the sizes."""
        system = self.design.system
        for name, sizes in self._full_packs.items():
            pack = next(known for known in self.design.packs if known.id == name)
            self.findings.warning(
                "whole-width-used",
                f"some {pack.kind.replace('-', ' ')} of `{name}` are used to their full "
                f"{plain_length(pack.usable_width, system)}, in " + ", ".join(f"`{size}`" for size in sizes), pack.span,
                "measure the precuts first: what is usable may be less; state it with `usable`",
            )

    def _share(self, pack: Pack, sharing: list[Fabric], index: int) -> PackUse | None:
        """One pack in one size, for all fabrics together."""
        entries = [(entry, fabric) for fabric in sharing for entry in self._own(fabric, index)]
        if not entries:
            return None
        wanted = Wanted(
            tuple(self.layer.sheet_flat(entry, index, fabric) for entry, fabric in entries),
            self._groups(pack, sharing, index), {entry.id: fabric.pile for entry, fabric in entries},
        )
        size = self.design.sizes[index].name
        try:
            use = (on_shelves(wanted, pack) if self.layer.effort == "plain" else None) or plan_precuts(wanted, pack)
        except TooWide as fault:
            self.layer.refuse_of_pack(next(e for e, _ in entries if e.id == fault.piece), index, pack)
            return None
        except PackTooSmall as fault:
            lacking = _lacking(fault.needed, pack)
            self.findings.error(
                "pack-not-enough", f"`{pack.id}` cannot serve `{size}`: {lacking}", pack.span,
                "each pack holds the same prints; let fewer patches share a print, or use larger precuts",
            )
            return None
        self.made.update({(piece, index): count for piece, count in use.made.items()})
        self._warn_of_pack(pack, index, use.used, use.packs)
        if any(_fills(sheet, pack) for sheet in use.sheets):
            self._full_packs.setdefault(pack.id, []).append(size)
        return use

    def use_alone(self, pack: Pack, fabric: Fabric, index: int) -> Precuts | None:
        """What a fabric would need of a pack that it had to itself; None where the pack cannot serve it."""
        entries = self._own(fabric, index)
        wanted = Wanted(
            tuple(self.layer.sheet_flat(entry, index, fabric) for entry in entries),
            self._groups(pack, [fabric], index), {entry.id: "" for entry in entries},
        )
        if not entries:
            return None
        try:
            use = (on_shelves(wanted, pack) if self.layer.effort == "plain" else None) or plan_precuts(wanted, pack)
        except TooWide as fault:
            self.layer.refuse_of_pack(next(e for e in entries if e.id == fault.piece), index, pack, other=True)
            return None
        except PackTooSmall:
            return None
        return Precuts(use.used, use.packs, use.left, use.sheets)

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
        holders = self.holders[fabric.id][index] if fabric.id in self.holders else ()
        if fabric.same_print == "quilt":
            needs = tuple((entry.id, entry.needs[index]) for entry in self._own(fabric, index))
            apart = tuple(dict.fromkeys(word for holder in holders for word in holder.apart))
            return [PrintGroup(fabric.id, needs, fabric.pile, apart, whole=True)] if needs else []
        return [
            PrintGroup(f"{fabric.letter} {holder.label}", needs, fabric.pile, holder.apart)
            for holder in holders if (needs := self.pieces_of(holder, fabric.id, index))
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

    def _warn_of_pack(self, pack: Pack, index: int, used: int, packs: int) -> None:
        if not pack.count or (packs <= 1 and not pack.single) or (pack.single and used <= pack.count):
            return
        what = pack.kind.replace("-", " ")
        matched = " with prints to match" if used <= pack.count else ""
        advice = f"buy {used} {what}" if pack.single else f"buy {packs} packs"
        self.findings.warning(
            "pack-not-enough",
            f"one `{pack.id}` of {pack.count} {what} is not enough for `{self.design.sizes[index].name}`: "
            f"{used} needed{matched}", pack.span, f"{advice}, or make the quilt smaller",
        )


def _fills(sheet: SheetCut, pack: Pack) -> bool:
    """Whether pieces side by side reach across the whole precut, with nothing to spare for the cuts between them.

    A piece that is as wide as its precut is not cut there at all, as a strip sub-cut into squares is not.
    """
    across = any(x + width == pack.usable_width and x > ZERO for _, x, _, width, _ in sheet.places)
    down = any(y + height == pack.usable_height and y > ZERO for _, _, y, _, height in sheet.places)
    return across or down


def _lacking(needed: int, pack: Pack) -> str:
    """Why no number of packs serves, when so many precuts would do with prints enough; 0 is more than are tried."""
    if not needed:
        return f"patches that share a print take more than {cutting.MOST_TOGETHER} precuts of it"
    if needed > pack.count:
        return f"{needed} needed, and it holds {pack.count}"
    prints = "its piles hold too few prints" if pack.piles else f"its {pack.prints} prints are too few"
    return f"{needed} of its {pack.count} would do, but {prints} for what must differ"


def _pack_size(use: PackUse) -> PackSize:
    return PackSize(
        use.sheets, use.used, use.packs, use.left, use.scraps, use.shares, use.needed, use.bound, use.proof
    )
