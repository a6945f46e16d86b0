"""Design → Plan, the passes in order: instances, tops, pieces, cloth, finishing.

In: a design, and how hard to look for the best cutting plans.
Out: the plan, or nothing and every mistake of this stage.
Never: a drawing, a word of a booklet, or a number that `verify` could not add up again.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field
from functools import partial
from typing import Literal

from patchwright.core.diagnostics import Diagnostic, Findings
from patchwright.core.geometry import UPRIGHT, Orientation
from patchwright.core.length import Cut, Finished, Length, Unfinished
from patchwright.core.measure import plain_length
from patchwright.core.source import NOWHERE, Span
from patchwright.design.design import Design, Fabric
from patchwright.methods.method import Recipe, RecipePiece, Request
from patchwright.methods.registry import BY_NAME
from patchwright.planning.fabrics import FabricPlans
from patchwright.planning.finishing import BindingNeed, batting_size, binding_need, buy_for, plan_backing
from patchwright.planning.instances import (
    BlockKey,
    Instances,
    Lengths,
    PatchKey,
    PlacedInstance,
    UnitInstance,
    UnitKey,
)
from patchwright.planning.kept import Kept
from patchwright.planning.laying import Effort, Layer
from patchwright.planning.lettering import PieceBook, Templates
from patchwright.planning.packing import Packing
from patchwright.planning.plan import (
    Assembly,
    AssemblySize,
    Placed,
    PlacedKind,
    Plan,
    PlannedBinding,
    PlannedSize,
    PlannedTemplate,
    PlannedUnit,
    TopItem,
    UnitPiece,
    UnitSize,
)
from patchwright.planning.prints import Holder, PrintRules
from patchwright.planning.settings.planned_borders import planned_borders
from patchwright.planning.top import ClothKey, ClothNeed, Top, TopBuilder, TopPart

MOST_PATCHES = 60000


def make_plan(
    design: Design, effort: Effort = "best", kept: Kept | None = None
) -> tuple[Plan | None, tuple[Diagnostic, ...]]:
    """Work out everything; `plain` effort lays each piece in strips of its own and is quick.

    `kept` gives cutting plans that the author keeps, and collects all that were used.
    """
    planner = _Planner(design, effort, Findings(), kept if kept is not None else Kept())
    return planner.plan(), planner.findings.ordered()


@dataclass(slots=True)
class _UnitPlan:
    """A unit over all sizes: requests, recipes and batches."""

    key: UnitKey
    instance: UnitInstance
    requests: list[Request]
    recipes: list[Recipe]
    batches: list[int]


@dataclass(slots=True)
class _Planner:
    design: Design
    effort: Effort
    findings: Findings
    kept: Kept
    instances: Instances = field(init=False)
    book: PieceBook = field(init=False)
    prints: PrintRules = field(init=False)

    def plan(self) -> Plan | None:
        design = self.design
        self.instances = Instances(design, self.findings)
        self.book = PieceBook(design.fabrics, len(design.sizes))
        self.prints = PrintRules(design, self.instances)
        tops = self._tops()
        if tops is None or self._failed():
            return None
        units = self._units(tops)
        if self._failed():
            return None
        bindings = self._bindings(tops)
        self._enter_pieces(units, tops)
        self._enter_bindings(bindings)
        entries = self.book.letter()
        self._check_steps()
        names = _names(self.instances)
        sizes = tuple(self._size(index, top, bindings[index], names) for index, top in enumerate(tops))
        made = [
            {unit.key: (unit.batches[index], unit.recipes[index].batch) for unit in units}
            for index in range(len(tops))
        ]
        holders = {
            fabric.id: [self.prints.holders(fabric, top, batches) for top, batches in zip(tops, made, strict=True)]
            for fabric in design.fabrics if fabric.pack and fabric.same_print not in ("none", "quilt")
        }
        recipes = {unit.key: unit.recipes for unit in units}
        layer = Layer(design, self.effort, self.findings, self.kept)
        packing = Packing(design, entries, layer, self.findings, holders, partial(self._pieces_of, recipes))
        planned = FabricPlans(design, entries, sizes, self.findings, layer, packing).plan()
        if self._failed():
            return None
        return Plan(
            id=design.id, title=design.title, release=design.release, summary=design.summary, skill=design.skill,
            system=design.system, rules=design.rules, packs=planned.packs, fabrics=planned.fabrics,
            pieces=planned.pieces, units=tuple(self._planned_unit(unit, names) for unit in units if any(unit.batches)),
            assemblies=self._assemblies(names), sizes=planned.sizes,
            introduction=design.introduction, notes=design.steps, finishing=design.finishing, about=design.about,
            templates=tuple(PlannedTemplate(id, shape) for shape, id in self.book.templates.items()),
        )

    def _pieces_of(
        self, recipes: dict[UnitKey, list[Recipe]], holder: Holder, fabric: str, index: int
    ) -> tuple[tuple[str, int], ...]:
        """The lettered pieces of a fabric that one place needs: its patches, and its units' batches."""
        needs: Counter[str] = Counter()
        for part, count in holder.content:
            if isinstance(part, PatchKey):
                needs[self.book.served[part].id] += count
                continue
            recipe = recipes[part][index]
            roles = {role for role, own in self.instances.units[part].unit.fabrics if own == fabric}
            for piece in recipe.pieces:
                if piece.role in roles:
                    served = self.book.served[part, piece.id].id
                    needs[served] += -(-count // recipe.batch) * piece.per_batch
        return tuple(sorted(needs.items()))

    def _failed(self) -> bool:
        return self.findings.has_errors

    def _tops(self) -> list[Top] | None:
        """Lay out every size and count what it is made of."""
        cells = self._root_cells()
        tops: list[Top] = []
        for index, size in enumerate(self.design.sizes):
            top = TopBuilder(self.instances, self.findings, size, index, cells).build()
            if top is not None:
                tops.append(top)
        if len(tops) < len(self.design.sizes):
            return None
        self._count(tops)
        patches = max(sum(counts[index] for counts in self.instances.patches.values()) for index in range(len(tops)))
        if patches > MOST_PATCHES:
            self.findings.error(
                "pattern-too-large", f"a size has {patches} patches", self.design.span, f"at most {MOST_PATCHES}"
            )
        return tops

    def _count(self, tops: list[Top]) -> None:
        totals: dict[BlockKey, list[int]] = {}
        for index, top in enumerate(tops):
            for part in top.parts:
                if isinstance(part.key, BlockKey):
                    totals.setdefault(part.key, [0] * len(tops))[index] += 1
        for key, counts in totals.items():
            self.instances.blocks[key].nested = False
            self.instances.count(key, counts, key.block, UPRIGHT)

    def _root_cells(self) -> dict[str, Lengths]:
        """Cells per size of every block that has one somewhere; a size without one borrows it, as it is not used."""
        made: dict[str, Lengths] = {}
        for block in self.design.blocks:
            cells = [dict(size.cells).get(block.id) for size in self.design.sizes]
            known = [cell for cell in cells if cell is not None]
            if known:
                made[block.id] = tuple(cell if cell is not None else known[0] for cell in cells)
        return made

    def _units(self, tops: list[Top]) -> list[_UnitPlan]:
        """Ask every unit's method for its recipe in every size; report what cannot be made."""
        made = []
        for key, instance in self.instances.units.items():
            method = BY_NAME[instance.unit.method]
            requests = [self.instances.request(key, index) for index in range(len(self.design.sizes))]
            refused = False
            for index, request in enumerate(requests):
                for refusal in method.refuse(request) if instance.counts[index] else ():
                    refused = True
                    self.findings.error(
                        refusal.code, f"`{instance.unit.id}`: {refusal.message}", instance.unit.span, *refusal.hints
                    )
            if refused or not any(instance.counts):
                continue
            recipes = [method.recipe(request) if not method.refuse(request) else None for request in requests]
            known = next(recipe for recipe in recipes if recipe is not None)
            whole = [recipe if recipe is not None else known for recipe in recipes]
            one_way = self.instances.is_one_way(key.unit)
            batches = [
                self.prints.batches_by_place(key, recipe, tops[index], _batches(instance, index, recipe, one_way))
                for index, recipe in enumerate(whole)
            ]
            made.append(_UnitPlan(key, instance, requests, whole, batches))
            self._remark(instance, whole)
        return made

    def _remark(self, instance: UnitInstance, recipes: list[Recipe]) -> None:
        notes = dict.fromkeys(note for recipe in recipes for note in recipe.notes)
        if "rounded-down" in notes:
            self.findings.warning(
                "rounded-down", f"`{instance.unit.id}` is cut by a rule that rounds down", instance.unit.span,
                "the metric rule gives slightly too little; `triangles: exact` rounds up",
            )
        if "bias-edges" in notes:
            self.findings.warning(
                "bias-edges", f"all outer edges of `{instance.unit.id}` are cut on the bias", instance.unit.span,
                "handle them gently, or choose another `make`",
            )

    def _enter_pieces(self, units: list[_UnitPlan], tops: list[Top]) -> None:
        for patch, counts in self.instances.patches.items():
            sizes = tuple(
                self._cut(patch.fabric, width, height)
                for width, height in zip(patch.widths, patch.heights, strict=True)
            )
            uses = self.instances.patch_uses[patch]
            self.book.add(patch, patch.fabric, sizes, counts, "patch", uses, self._span(uses[0]))
        for unit in units:
            self._enter_unit(unit)
        keys = dict.fromkeys(key for top in tops for key in top.cloth)
        for key in keys:
            self._enter_cloth(key, tops)

    def _enter_unit(self, unit: _UnitPlan) -> None:
        fabrics = dict(unit.instance.unit.fabrics)
        for piece in unit.recipes[0].pieces:
            own = [next(other for other in recipe.pieces if other.id == piece.id) for recipe in unit.recipes]
            fabric = fabrics[piece.role]
            sideways = unit.key.turn % 2 == 1
            sizes = tuple(self._on_cloth(fabric, *((p.height, p.width) if sideways else (p.width, p.height)))
                          for p in own)
            needs = [p.per_batch * batches for p, batches in zip(own, unit.batches, strict=True)]
            self.book.add(
                (unit.key, piece.id), fabric, sizes, needs, "unit", [unit.key.unit], unit.instance.unit.span,
                piece.then, templates=self._templates(unit.key, fabric, own),
            )

    def _templates(self, key: UnitKey, fabric: str, pieces: list[RecipePiece]) -> Templates:
        """The shapes of a unit's piece as they lie on the cloth: for the other hand mirrored, turned with a print."""
        shapes = tuple(piece.template for piece in pieces)
        if not any(shapes):
            return ()
        turns = (key.turn + (1 if self._fabric(fabric).direction == "crosswise" else 0)) % 4
        lay = Orientation(turns, key.mirror)
        return tuple(shape.laid(lay) if shape is not None else None for shape in shapes)

    def _enter_cloth(self, key: ClothKey, tops: list[Top]) -> None:
        """Enter sashing, borders and setting pieces; those longer than the cloth is wide are long."""
        found = [top.cloth.get(key) for top in tops]
        sizes = tuple(self._cut_cloth(key.fabric, need) if need is not None else None for need in found)
        usable = self._fabric(key.fabric).usable_width
        long = any(size is not None and max(side.length for side in size) > usable for size in sizes)
        kind: Literal["sashing", "cornerstone", "border", "patch"] = (
            "sashing" if key.part == "sashing" else "cornerstone" if key.part == "cornerstones"
            else "border" if key.part.startswith("border") else "patch"
        )
        span = next((top.spans[key] for top in tops if key in top.spans), NOWHERE)
        then = next(need.then for need in found if need is not None)
        shared = then != "none" or (kind == "border" and key.label == "unit")
        name = f"{key.part} {key.label} {key.number}" if (long or kind == "border") and not shared else ""
        needs = [need.count if need is not None else 0 for need in found]
        self.book.add(key, key.fabric, sizes, needs, kind, [key.part], span, then, long=name)

    def _cut_cloth(self, fabric: str, need: ClothNeed) -> tuple[Cut, Cut]:
        """The cut size of plain cloth; sides that are no rational number are rounded up and trimmed when sewn."""
        seam, step = self.design.rules.seam, self.design.rules.round_cuts
        cut = need.cut or (Finished(need.width).cut(seam), Finished(need.height).cut(seam))
        width, height = (side if side.length.is_rational else Cut(side.length.up_to(step)) for side in cut)
        return self._on_cloth(fabric, width, height)

    def _cut(self, fabric: str, width: Length, height: Length) -> tuple[Cut, Cut]:
        """The cut size of a plain patch, by width across the cloth and height along it."""
        seam = self.design.rules.seam
        return self._on_cloth(fabric, Finished(width).cut(seam), Finished(height).cut(seam))

    def _on_cloth(self, fabric: str, width: Cut, height: Cut) -> tuple[Cut, Cut]:
        """Lay an upright piece on the cloth: a print that runs across the bolt turns it sideways there."""
        return (height, width) if self._fabric(fabric).direction == "crosswise" else (width, height)

    def _fabric(self, name: str) -> Fabric:
        return next(fabric for fabric in self.design.fabrics if fabric.id == name)

    def _span(self, name: str) -> Span:
        spans = {unit.id: unit.span for unit in self.design.units} | {b.id: b.span for b in self.design.blocks}
        return spans.get(name, NOWHERE)

    def _check_steps(self) -> None:
        """Warn of plain patches whose cut size is off the house's step; they are never rounded."""
        step, system = self.design.rules.round_cuts, self.design.system
        for entry in self.book.entries.values():
            if entry.kind == "unit" or not any(entry.needs):
                continue
            sides = {side.length for size, need in zip(entry.identity.sizes, entry.needs, strict=True)
                     if size is not None and need for side in size}
            for side in sorted(sides):
                if not side.is_multiple_of(step):
                    low, high = side.down_to(step), side.up_to(step)
                    self.findings.warning(
                        "off-step", f"a piece of `{entry.identity.fabric}` is cut {plain_length(side, system)}, "
                        f"off the step of {plain_length(Length(step), system)}", entry.span,
                        f"the nearest cut sizes on it are {plain_length(low, system)} and "
                        f"{plain_length(high, system)}; change the cell or size by the difference",
                    )

    def _bindings(self, tops: list[Top]) -> list[BindingNeed | None]:
        """The binding of every size; its strips run across the width of its fabric."""
        made: list[BindingNeed | None] = []
        seam = self.design.rules.seam
        for size, top in zip(self.design.sizes, tops, strict=True):
            if size.binding is None:
                made.append(None)
                continue
            own = self._fabric(size.binding.fabric).usable_width if size.binding.fabric else None
            around = (Finished(top.size[0]).unfinished(seam), Finished(top.size[1]).unfinished(seam))
            width = own if own is not None else self.design.rules.usable_width
            made.append(binding_need(size.binding, around, width, self.design.rules))
        return made

    def _enter_bindings(self, bindings: list[BindingNeed | None]) -> None:
        """A binding that is cut from a fabric of the top is a long piece of that fabric."""
        for fabric in self.design.fabrics:
            own = [
                need if size.binding is not None and size.binding.fabric == fabric.id else None
                for size, need in zip(self.design.sizes, bindings, strict=True)
            ]
            if not any(own):
                continue
            sizes = tuple((Cut(need.needed), need.strip) if need is not None else None for need in own)
            needs = [0 if need is None else 1 for need in own]
            span = next(size.binding.span for size in self.design.sizes if size.binding is not None)
            self.book.add(
                ("binding", fabric.id), fabric.id, sizes, needs, "binding", ["binding"], span, long="binding"
            )

    def _binding(self, index: int, need: BindingNeed | None) -> PlannedBinding | None:
        declared = self.design.sizes[index].binding
        if declared is None or need is None:
            return None
        piece = self.book.served[("binding", declared.fabric)].id if declared.fabric else ""
        buy = None if piece else buy_for(need.strip.length * need.strips, self.design.rules)
        return PlannedBinding(
            declared.fabric, piece, need.strip, need.strips, need.strips - 1, need.needed, need.made, buy
        )

    def _size(self, index: int, top: Top, binding: BindingNeed | None, names: dict[object, str]) -> PlannedSize:
        size, rules = self.design.sizes[index], self.design.rules
        seam = rules.seam
        finished = (Finished(top.size[0]), Finished(top.size[1]))
        unfinished = (finished[0].unfinished(seam), finished[1].unfinished(seam))
        return PlannedSize(
            name=size.name, label=size.label, across=size.across, down=size.down, finished=finished,
            unfinished=unfinished,
            center=(Finished(top.center[0]).unfinished(seam), Finished(top.center[1]).unfinished(seam)),
            columns=tuple(Finished(side) for side in top.columns), rows=tuple(Finished(side) for side in top.rows),
            items=tuple(self._item(part, names) for part in top.parts),
            sash_width=Finished(size.sashing.width) if size.sashing is not None else None,
            sash_frame=size.sashing is not None and size.sashing.frame,
            cornerstones=size.sashing is not None and bool(size.sashing.cornerstone),
            borders=planned_borders(size, top, self._ids(names), seam),
            binding=self._binding(index, binding),
            backing=plan_backing(size.backing, unfinished, rules) if size.backing is not None else None,
            batting=batting_size(unfinished, rules), infant=size.infant,
            setting="straight" if size.on_point is None else "on-point",
            float=Finished(size.on_point.float) if size.on_point is not None else None,
        )

    def _ids(self, names: dict[object, str]) -> dict[object, str]:
        """The ids of everything that lies in a top: assemblies by name, plain pieces by letter."""
        return names | {key: entry.id for key, entry in self.book.served.items() if isinstance(key, ClothKey)}

    def _item(self, part: TopPart, names: dict[object, str]) -> TopItem:
        kind: PlacedKind = "assembly" if isinstance(part.key, BlockKey) else "piece"
        ref = names[part.key] if kind == "assembly" else self.book.served[part.key].id
        return TopItem(
            kind, ref, part.part, part.orientation, part.x, part.y, part.width, part.height, part.outline,
            part.on_point, part.row,
        )

    def _planned_unit(self, unit: _UnitPlan, names: dict[object, str]) -> PlannedUnit:
        seam = self.design.rules.seam
        sizes: list[UnitSize | None] = []
        for index, need in enumerate(unit.instance.counts):
            if not need:
                sizes.append(None)
                continue
            finished = (Finished(unit.key.widths[index]), Finished(unit.key.heights[index]))
            recipe, batches = unit.recipes[index], unit.batches[index]
            sizes.append(UnitSize(
                finished=finished, unfinished=(finished[0].unfinished(seam), finished[1].unfinished(seam)),
                need=need, batches=batches, made=batches * recipe.batch, request=unit.requests[index], recipe=recipe,
            ))
        declared = unit.instance.unit
        return PlannedUnit(
            id=names[unit.key], name=declared.id if declared.named else "", method=declared.method,
            how=unit.recipes[0].how, fabrics=declared.fabrics, hand="reversed" if unit.key.mirror else "as-drawn",
            turn=unit.key.turn,
            pieces=tuple(
                UnitPiece(piece.id, self.book.served[unit.key, piece.id].id, piece.per_batch)
                for piece in unit.recipes[0].pieces
            ),
            sizes=tuple(sizes), span=declared.span,
        )

    def _assemblies(self, names: dict[object, str]) -> tuple[Assembly, ...]:
        seam = self.design.rules.seam
        made = []
        for key, instance in self.instances.blocks.items():
            if not any(instance.counts):
                continue
            sizes = []
            for index, count in enumerate(instance.counts):
                finished = (Finished(instance.widths[index]), Finished(instance.heights[index]))
                unfinished: tuple[Unfinished, Unfinished] = (finished[0].unfinished(seam), finished[1].unfinished(seam))
                sizes.append(AssemblySize(count, finished, unfinished) if count else None)
            made.append(Assembly(
                id=names[key], block=key.block, axis="rows" if instance.axis == "rows" else "columns",
                hand="reversed" if key.mirror else "as-drawn", turn=key.turn, nested=instance.nested,
                lines=tuple(tuple(self._placed(placed, names, instance.counts) for placed in line)
                            for line in instance.lines),
                sizes=tuple(sizes), span=instance.block.span,
            ))
        return tuple(made)

    def _placed(self, placed: PlacedInstance, names: dict[object, str], counts: list[int]) -> Placed:
        kind: PlacedKind = (
            "piece" if isinstance(placed.key, PatchKey) else "unit" if isinstance(placed.key, UnitKey) else "assembly"
        )
        ref = self.book.served[placed.key].id if kind == "piece" else names[placed.key]
        return Placed(kind, ref, placed.orientation, tuple(
            (Finished(width), Finished(height)) if count else None
            for width, height, count in zip(placed.widths, placed.heights, counts, strict=True)
        ))


def _batches(instance: UnitInstance, index: int, recipe: Recipe, one_way: bool) -> int:
    """How many batches give every lay that is needed: of a one-way print a batch gives so many of each lay."""
    if not one_way:
        return -(-instance.counts[index] // recipe.batch)
    most = 0
    for offset in set(recipe.gives):
        counts = instance.lays.get((instance.key.turn + offset) % 4)
        need = counts[index] if counts is not None else 0
        most = max(most, -(-need // recipe.gives.count(offset)))
    return most


def _names(instances: Instances) -> dict[object, str]:
    """Ids of units and assemblies: the author's name, with a suffix where one name is several made things."""
    names: dict[object, str] = {}
    taken: set[str] = set()
    keys: list[UnitKey | BlockKey] = [key for key, unit in instances.units.items() if any(unit.counts)]
    keys += [key for key, block in instances.blocks.items() if any(block.counts)]
    for key in keys:
        base = key.unit if isinstance(key, UnitKey) else key.block
        name = base + ("-reversed" if key.mirror else "") + (f"-turned-{key.turn * 90}" if key.turn else "")
        number = 2
        while name in taken:
            name = f"{base}-{number}"
            number += 1
        taken.add(name)
        names[key] = name
    return names
