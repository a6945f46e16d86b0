"""The units, assemblies and parts of the top as the Plan states them, under ids that do not depend on the size.

In: instances with their counts, the plans of units, the lettered pieces.
Out: the Plan's own types.
Never: a count of its own.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from patchwright.core.length import Finished, Length
from patchwright.planning.instances import COPED, BlockKey, Instances, PatchKey, PlacedInstance, UnitKey
from patchwright.planning.lettering import PieceBook
from patchwright.planning.plan import (
    Assembly,
    AssemblySize,
    Placed,
    PlacedKind,
    PlannedUnit,
    TopItem,
    UnitPiece,
    UnitSize,
)
from patchwright.planning.top import ClothKey, TopPart
from patchwright.planning.unit_plans import UnitPlan


@dataclass(frozen=True, slots=True)
class MadeParts:
    """States what is made, looking ids up."""

    instances: Instances
    book: PieceBook
    names: dict[object, str]
    seam: Length

    def ids(self) -> dict[object, str]:
        """The ids of everything that lies in a top: assemblies by name, plain pieces by letter."""
        return self.names | {key: entry.id for key, entry in self.book.served.items() if isinstance(key, ClothKey)}

    def item(self, part: TopPart) -> TopItem:
        """A part of the top, as it lies there; finished sizes."""
        kind: PlacedKind = "assembly" if isinstance(part.key, BlockKey) else "piece"
        ref = self.names[part.key] if kind == "assembly" else self.book.served[part.key].id
        return TopItem(
            kind, ref, part.part, part.orientation, part.x, part.y, part.width, part.height, part.outline,
            part.on_point, part.row, part.column,
        )

    def unit(self, unit: UnitPlan) -> PlannedUnit:
        """A unit over all sizes, at @0."""
        sizes: list[UnitSize | None] = []
        for index, need in enumerate(unit.instance.counts):
            if not need:
                sizes.append(None)
                continue
            finished = (Finished(unit.key.widths[index]), Finished(unit.key.heights[index]))
            recipe, batches = unit.recipes[index], unit.batches[index]
            lent = unit.lent[index] if unit.lent else 0
            sizes.append(UnitSize(
                finished=finished, unfinished=(finished[0].unfinished(self.seam), finished[1].unfinished(self.seam)),
                need=need, batches=batches, made=batches * recipe.batch - lent, request=unit.requests[index],
                recipe=recipe, lent=lent,
            ))
        declared = unit.instance.unit
        return PlannedUnit(
            id=self.names[unit.key], name=declared.id if declared.named else "", method=declared.method,
            how=unit.recipes[0].how, fabrics=declared.fabrics, hand="reversed" if unit.key.mirror else "as-drawn",
            turn=unit.key.turn,
            pieces=tuple(
                UnitPiece(piece.id, self.book.served[unit.key, piece.id].id, piece.per_batch)
                for piece in unit.recipes[0].pieces
            ),
            sizes=tuple(sizes), row_of=declared.row_of, choices=unit.choices,
            second_of=_first(unit.key, self.names), span=declared.span,
        )

    def assemblies(self) -> tuple[Assembly, ...]:
        """Every block that is made, its parts as they lie in it."""
        made = []
        for key, instance in self.instances.blocks.items():
            if not any(instance.counts):
                continue
            sizes = []
            for index, count in enumerate(instance.counts):
                finished = (Finished(instance.widths[index]), Finished(instance.heights[index]))
                unfinished = (finished[0].unfinished(self.seam), finished[1].unfinished(self.seam))
                sizes.append(AssemblySize(count, finished, unfinished) if count else None)
            made.append(Assembly(
                id=self.names[key], block=key.block.removesuffix(COPED), coped=bool(key.coping),
                axis="rows" if instance.axis == "rows" else "columns",
                hand="reversed" if key.mirror else "as-drawn", turn=key.turn, nested=instance.nested,
                lines=tuple(tuple(self._placed(placed, instance.counts) for placed in line)
                            for line in instance.lines),
                sizes=tuple(sizes), second_of=_first(key, self.names), span=instance.block.span,
            ))
        return tuple(made)

    def _placed(self, placed: PlacedInstance, counts: list[int]) -> Placed:
        kind: PlacedKind = (
            "piece" if isinstance(placed.key, PatchKey) else "unit" if isinstance(placed.key, UnitKey) else "assembly"
        )
        ref = self.book.served[placed.key].id if kind == "piece" else self.names[placed.key]
        return Placed(kind, ref, placed.orientation, tuple(
            (Finished(width), Finished(height)) if count else None
            for width, height, count in zip(placed.widths, placed.heights, counts, strict=True)
        ))


def _first(key: UnitKey | BlockKey, names: Mapping[object, str]) -> str:
    """What this is the second way of pressing of, where that is made as well; else nothing."""
    return names.get(replace(key, variant=0), "") if key.variant else ""


def names_of(instances: Instances) -> dict[object, str]:
    """Ids of units and assemblies: the author's name, with a suffix where one name is several made things."""
    names: dict[object, str] = {}
    taken: set[str] = set()
    keys: list[UnitKey | BlockKey] = [key for key, unit in instances.units.items() if any(unit.counts)]
    keys += [key for key, block in instances.blocks.items() if any(block.counts)]
    for key in keys:
        base = key.unit if isinstance(key, UnitKey) else key.block
        name = base + ("-reversed" if key.mirror else "") + (f"-turned-{key.turn * 90}" if key.turn else "")
        name += "-second" if key.variant and replace(key, variant=0) in keys else ""
        number = 2
        while name in taken:
            name = f"{base}-{number}"
            number += 1
        taken.add(name)
        names[key] = name
    return names
