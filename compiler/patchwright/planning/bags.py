"""Cut pieces sorted into bags: one for every block, one for each part that several blocks share, one for the rest.

In: a plan and a size.
Out: bags in sewing order; every piece that the quilt needs lies in exactly one of them.
Never: a batch split between bags; a unit that several blocks use has a bag of its own.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from patchwright.planning.plan import Assembly, Plan


@dataclass(frozen=True, slots=True)
class Bag:
    """Pieces to keep together."""

    kind: Literal["block", "unit", "part"]
    ref: str
    """Id of an assembly or a unit, or a part of the quilt: `sashing`, `border-1`, `binding`."""
    made: int
    """How many blocks, or units, the pieces make; 0 for a part of the quilt."""
    roots: tuple[str, ...]
    """Ids of the blocks that use it, where there are several."""
    pieces: tuple[tuple[str, int], ...]
    """(piece, count), in the order of the plan's pieces."""


def plan_bags(plan: Plan, index: int) -> tuple[Bag, ...]:
    """Every bag of one size."""
    return _Sorter(plan, index).bags()


@dataclass(slots=True)
class _Sorter:
    plan: Plan
    index: int

    def bags(self) -> tuple[Bag, ...]:
        contents: dict[tuple[Literal["block", "unit", "part"], str], Counter[str]] = {}
        roots = self._roots()
        for assembly in self.plan.assemblies:
            own = assembly.sizes[self.index]
            if own is not None:
                into = contents.setdefault(self._bag("block", assembly.id, roots), Counter())
                for piece in _placed(assembly, "piece"):
                    into[piece] += own.count
        for unit in self.plan.units:
            made = unit.sizes[self.index]
            if made is not None:
                into = contents.setdefault(self._bag("unit", unit.id, roots), Counter())
                for part in unit.pieces:
                    into[part.piece] += made.batches * part.per_batch
        packed: Counter[str] = Counter()
        for bag in contents.values():
            packed += bag
        for part_name, piece, count in self._rest(packed):
            contents.setdefault(("part", part_name), Counter())[piece] += count
        found = [self._made(kind, ref, pieces, roots) for (kind, ref), pieces in contents.items() if +pieces]
        return tuple(sorted(found, key=_order))

    def _bag(
        self, kind: Literal["block", "unit"], ref: str, roots: dict[str, tuple[str, ...]]
    ) -> tuple[Literal["block", "unit", "part"], str]:
        """The bag of a part: the only block of the top that uses it, or its own."""
        users = roots.get(ref, ())
        return ("block", users[0]) if len(users) == 1 else (kind, ref)

    def _roots(self) -> dict[str, tuple[str, ...]]:
        """For every assembly and unit the blocks of the top that hold it."""
        by_id = {assembly.id: assembly for assembly in self.plan.assemblies}
        found: dict[str, list[str]] = {}
        tops = dict.fromkeys(item.ref for item in self.plan.sizes[self.index].items if item.kind == "assembly")
        for top in tops:
            for part in (top, *dict.fromkeys(_within(by_id, by_id[top]))):
                found.setdefault(part, []).append(top)
        for item in self.plan.sizes[self.index].items:
            if item.kind == "unit":
                found.setdefault(item.ref, []).append("")
        return {part: tuple(dict.fromkeys(users)) for part, users in found.items()}

    def _rest(self, packed: Counter[str]) -> Iterator[tuple[str, str, int]]:
        """What no block or unit takes: (part of the quilt, piece, count)."""
        placed = Counter(
            (item.ref, item.part) for item in self.plan.sizes[self.index].items if item.kind == "piece"
        )
        for piece in self.plan.pieces:
            size = piece.sizes[self.index]
            rest = size.need - packed[piece.id] if size is not None else 0
            parts = [part for own, part in placed if own == piece.id] or list(piece.uses[-1:])
            for number, part in enumerate(parts, 1):
                count = rest if number == len(parts) else min(rest, placed[piece.id, part])
                if count > 0:
                    yield part, piece.id, count
                    rest -= count

    def _made(
        self, kind: Literal["block", "unit", "part"], ref: str, pieces: Counter[str], roots: dict[str, tuple[str, ...]]
    ) -> Bag:
        order = tuple((piece.id, pieces[piece.id]) for piece in self.plan.pieces if pieces[piece.id])
        users = tuple(user for user in roots.get(ref, ()) if user) if len(roots.get(ref, ())) > 1 else ()
        return Bag(kind, ref, self._count(kind, ref), users, order)

    def _count(self, kind: str, ref: str) -> int:
        if kind == "block":
            own = next(assembly.sizes[self.index] for assembly in self.plan.assemblies if assembly.id == ref)
            return own.count if own is not None else 0
        made = next((unit.sizes[self.index] for unit in self.plan.units if unit.id == ref), None)
        return made.need if kind == "unit" and made is not None else 0


def _order(bag: Bag) -> tuple[int, str]:
    """Blocks and units as they are sewn, then what lies between them, borders from the inside out, the rest last."""
    if bag.kind != "part":
        return 0, ""
    if bag.ref.startswith("border"):
        return 5, f"{len(bag.ref):03}{bag.ref}"
    if bag.ref.startswith("hanging"):
        return 10, bag.ref
    if bag.ref == "backs":
        return 8, bag.ref
    rank = {"setting": 1, "sashing": 3, "strips": 3, "cornerstones": 4, "binding": 9}.get(bag.ref, 2)
    return rank, f"{len(bag.ref):03}{bag.ref}"


def _placed(assembly: Assembly, kind: str) -> Iterator[str]:
    return (part.ref for line in assembly.lines for part in line if part.kind == kind)


def _within(by_id: dict[str, Assembly], assembly: Assembly) -> Iterator[str]:
    """Ids of all units and assemblies inside an assembly."""
    yield from _placed(assembly, "unit")
    for inner in _placed(assembly, "assembly"):
        yield inner
        yield from _within(by_id, by_id[inner])
