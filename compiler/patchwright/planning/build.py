"""Design → Plan, the passes in order: instances, tops, pieces, cloth, finishing.

In: a design, and how hard to look for the best cutting plans.
Out: the plan, or nothing and every mistake of this stage.
Never: a drawing, a word of a booklet, or a number that `verify` could not add up again.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field, replace
from fractions import Fraction
from functools import partial

from patchwright.core.diagnostics import Diagnostic, Findings
from patchwright.core.geometry import UPRIGHT
from patchwright.core.length import Finished
from patchwright.core.measure import plain_length
from patchwright.core.source import Span
from patchwright.design.design import Design, Fabric, Size
from patchwright.methods.method import Recipe
from patchwright.planning.beds.fitted import fitted
from patchwright.planning.elsewhere import with_other_measures
from patchwright.planning.entering import PieceEntries
from patchwright.planning.fabrics import FabricPlans
from patchwright.planning.finishing.backing import plan_backing
from patchwright.planning.finishing.batting import batting_size, plan_batting
from patchwright.planning.finishing.binding import BindingCloth, BindingNeed, binding_need, plan_binding
from patchwright.planning.finishing.buying import is_used_up
from patchwright.planning.finishing.by_block import Group, batting_for_blocks, equal_blocks, plan_by_block
from patchwright.planning.finishing.hanging import hanging_needs, plan_hanging
from patchwright.planning.instances import (
    BlockKey,
    Instances,
    PatchKey,
    UnitKey,
    cells_of_blocks,
)
from patchwright.planning.kept import Kept
from patchwright.planning.laying import Effort, Layer
from patchwright.planning.lettering import Entry, PieceBook
from patchwright.planning.line_sums import sum_lengths
from patchwright.planning.made_once import made_once
from patchwright.planning.made_parts import MadeParts, names_of
from patchwright.planning.packing import Packing
from patchwright.planning.plan import (
    Plan,
    PlannedBinding,
    PlannedByBlock,
    PlannedFit,
    PlannedHanging,
    PlannedSize,
    PlannedTemplate,
)
from patchwright.planning.pressing.model import SecondWays
from patchwright.planning.pressing.press import plan_pressing
from patchwright.planning.pressing.sewn import SewnPiece, SewnQuilt
from patchwright.planning.pressing.variants import choose_ways, pressed_alike
from patchwright.planning.prints import Holder, PrintRules
from patchwright.planning.quarters import in_quarters
from patchwright.planning.second_ways import put_after_firsts, second_way
from patchwright.planning.settings.planned_borders import planned_borders
from patchwright.planning.settings.planned_strips import planned_strips
from patchwright.planning.settings.quartering import quartered
from patchwright.planning.settings.registry import setting_of
from patchwright.planning.strip_rows import StripRows
from patchwright.planning.symmetry import warn_of_asymmetry
from patchwright.planning.top import Top, TopBuilder, TopPart
from patchwright.planning.unit_plans import UnitPlan, UnitPlanner

MOST_PATCHES = 60000


def make_plan(
    design: Design, effort: Effort = "best", kept: Kept | None = None
) -> tuple[Plan | None, tuple[Diagnostic, ...]]:
    """Work out everything; `plain` effort lays each piece in strips of its own and is quick.

    `kept` gives cutting plans that the author keeps, and collects all that were used.
    """
    planner = _Planner(design, effort, Findings(), kept if kept is not None else Kept())
    plan = planner.plan()
    return with_other_measures(plan) if plan is not None else None, planner.findings.ordered()


@dataclass(frozen=True, slots=True)
class _Made:
    """What is sewn and from which pieces, before any cloth is planned."""

    tops: list[Top]
    units: list[UnitPlan]
    entries: list[Entry]
    parts: MadeParts
    sizes: tuple[PlannedSize, ...]


@dataclass(slots=True)
class _Planner:
    design: Design
    effort: Effort
    findings: Findings
    kept: Kept
    instances: Instances = field(init=False)
    book: PieceBook = field(init=False)
    prints: PrintRules = field(init=False)
    apart: tuple[str, ...] = ()
    """Units and blocks that are made apart though another is the same thing turned."""
    fits: tuple[PlannedFit | None, ...] = ()
    most_nested: Fraction | None = None
    """Where blocks may be pressed in two ways, the most that any choice of ways lets nest."""

    def plan(self) -> Plan | None:
        self.design, self.apart = made_once(self.design, self.findings)
        self.design, self.fits = fitted(self.design, self.findings)
        tops = self._set_out() if not self._failed() else None
        made = self._made(tops) if tops is not None and not self._failed() else None
        if made is not None and self.design.rules.pressing_variants > 1:
            made = self._in_two_ways(made)
        return self._cut(made) if made is not None and not self._failed() else None

    def _made(self, tops: list[Top]) -> _Made | None:
        """Everything that is sewn, with its lettered pieces."""
        design = self.design
        self.book = PieceBook(design.fabrics, len(design.sizes))
        self.prints = PrintRules(design, self.instances)
        units = UnitPlanner(design, self.instances, self.prints, self.findings).plan(tops)
        if self._failed():
            return None
        bindings = self._bindings(tops)
        if self._failed():
            return None
        pieces = PieceEntries(design, self.instances, self.book)
        pieces.pieces(units, tops)
        pieces.bindings(bindings)
        pieces.hangings(tops)
        pieces.backs([self._layered(index, top) for index, top in enumerate(tops)])
        entries = self.book.letter()
        pieces.check_steps(self.findings)
        pieces.check_strips(units, self.findings)
        parts = MadeParts(self.instances, self.book, names_of(self.instances), design.rules.seam)
        sizes = tuple(self._size(index, top, bindings[index], parts) for index, top in enumerate(tops))
        return _Made(tops, units, entries, parts, sizes)

    def _in_two_ways(self, made: _Made) -> _Made | None:
        """The same once more where blocks or units are pressed in two ways, each of which is counted apart."""
        rule = self.design.rules.pressing
        chosen = choose_ways(self._sewn(made), rule, self.design.rules.spinning)
        self.most_nested, twice = chosen.bound, chosen.twice
        once = self.instances, self.book, self.prints
        again = self._made_twice(made, chosen.twice, chosen.second)
        while again is not None and twice and not chosen.is_sure:
            alike = pressed_alike(self._sewn(again), rule, self.design.rules.spinning)
            if not alike:
                break
            twice -= alike
            again = self._made_twice(made, twice, chosen.second)
        if not twice:
            self.instances, self.book, self.prints = once
        return again

    def _sewn(self, made: _Made) -> SewnQuilt:
        pieces = tuple(SewnPiece(entry.id, entry.identity.fabric) for entry in made.entries)
        units = tuple(made.parts.unit(unit) for unit in made.units)
        return SewnQuilt(made.sizes, units, made.parts.assemblies(), pieces, self.design.fabrics)

    def _made_twice(self, made: _Made, twice: frozenset[str], second: SecondWays) -> _Made | None:
        """With second ways of what has these ids, in these places."""
        if not twice:
            return made
        names = made.parts.names
        keys = frozenset(key for key, name in names.items() if name in twice and isinstance(key, UnitKey | BlockKey))
        found, self.findings = self.findings, Findings()  # What there is to say of the layout has been said.
        self.instances = Instances(self.design, self.findings, keys)
        tops = self._tops(second)
        again = self._made(tops) if tops is not None else None
        if again is not None:
            self.findings = self.instances.findings = found
        return again

    def _cut(self, done: _Made) -> Plan | None:
        """The plan, with the cloth that everything is cut from."""
        design, tops, units, entries = self.design, done.tops, done.units, done.entries
        made = [
            {unit.key: (unit.batches[index], unit.recipes[index].batch) for unit in units}
            for index in range(len(tops))
        ]
        holders = {
            fabric.id: [self.prints.holders(fabric, top, batches) for top, batches in zip(tops, made, strict=True)]
            for fabric in design.fabrics if fabric.pack and fabric.same_print != "none"
        }
        recipes = {unit.key: unit.recipes for unit in units}
        layer = Layer(design, self.effort, self.findings, self.kept)
        packing = Packing(design, entries, layer, self.findings, holders, partial(self._pieces_of, recipes))
        planned = FabricPlans(design, entries, done.sizes, self.findings, layer, packing).plan()
        if self._failed():
            return None
        self._warn_of_whole_lengths(planned.sizes)
        plan = Plan(
            id=design.id, title=design.title, release=design.release, summary=design.summary, skill=design.skill,
            system=design.system, rules=design.rules, packs=planned.packs, fabrics=planned.fabrics,
            pieces=planned.pieces, units=tuple(done.parts.unit(unit) for unit in units),
            assemblies=done.parts.assemblies(), sizes=planned.sizes,
            introduction=design.introduction, notes=design.steps, finishing=design.finishing, about=design.about,
            colorways=design.colorways, colorway=design.colorway,
            templates=tuple(PlannedTemplate(id, shape) for shape, id in self.book.templates.items()),
            apart=tuple(dict.fromkeys(self.apart)),
        )
        if self.effort != "best":
            return plan
        return replace(plan, pressing=plan_pressing(plan, design.rules.pressing, self.most_nested))

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

    def _set_out(self) -> list[Top] | None:
        """Lay out every size; once more where blocks turn out to be strip-pieced, or to be sewn in quarters."""
        self.instances = Instances(self.design, self.findings)
        tops = self._tops()
        if tops is None or self._failed():
            return None
        design = StripRows(self.design, self.instances, self.findings).rewritten()
        design = in_quarters(design, self.instances)
        if design is not self.design:
            design, apart = made_once(design, Findings())
            self.apart += apart
        if design is self.design or self._failed():
            return tops
        self.design, found = design, self.findings
        self.findings = Findings()  # What there is to say of the layout has been said.
        self.instances = Instances(self.design, self.findings)
        tops = self._tops()
        self.findings = self.instances.findings = found
        return tops

    def _tops(self, second: SecondWays = ()) -> list[Top] | None:
        """Lay out every size, with blocks that are pressed the second way, and count what it is made of."""
        cells = cells_of_blocks(self.design)
        tops: list[Top] = []
        for index, size in enumerate(self.design.sizes):
            top = TopBuilder(self.instances, self.findings, size, index, cells).build()
            if top is not None:
                for place in sorted(second[index]) if second else ():
                    top.parts[place] = self._in_second_way(top.parts[place])
                tops.append(top)
        put_after_firsts(self.instances)
        if len(tops) < len(self.design.sizes):
            return None
        warn_of_asymmetry(self.instances, self.findings, cells)
        self._count(tops)
        patches = max(sum(counts[index] for counts in self.instances.patches.values()) for index in range(len(tops)))
        if patches > MOST_PATCHES:
            self.findings.error(
                "pattern-too-large", f"a size has {patches} patches", self.design.span, f"at most {MOST_PATCHES}"
            )
        return tops

    def _in_second_way(self, part: TopPart) -> TopPart:
        return replace(part, key=second_way(self.instances, part.key)) if isinstance(part.key, BlockKey) else part

    def _count(self, tops: list[Top]) -> None:
        totals: dict[BlockKey, list[int]] = {}
        for index, top in enumerate(tops):
            for part in top.parts:
                if isinstance(part.key, BlockKey):
                    totals.setdefault(part.key, [0] * len(tops))[index] += 1
        for key, counts in totals.items():
            self.instances.blocks[key].nested = False
            self.instances.count(key, counts, key.block, UPRIGHT)

    def _fabric(self, name: str) -> Fabric:
        return next(fabric for fabric in self.design.fabrics if fabric.id == name)

    def _binding_cloth(self, fabric: str) -> BindingCloth:
        """What a binding is cut from: a fabric of the top, its precuts, or a cloth of its own."""
        if not fabric:
            return BindingCloth(self.design.rules.usable_width)
        own = self._fabric(fabric)
        pack = next((pack for pack in self.design.packs if pack.id == own.pack), None)
        return BindingCloth(own.usable_width) if pack is None else BindingCloth(pack.usable_width, pack.usable_height)

    def _bindings(self, tops: list[Top]) -> list[BindingNeed | None]:
        """The binding of every size; strips of a fabric of the top are counted across its width."""
        made: list[BindingNeed | None] = []
        seam, system = self.design.rules.seam, self.design.system
        for size, top in zip(self.design.sizes, tops, strict=True):
            if size.binding is None:
                made.append(None)
                continue
            around = (Finished(top.size[0]).unfinished(seam), Finished(top.size[1]).unfinished(seam))
            cloth = self._binding_cloth(size.binding.fabric)
            need = binding_need(size.binding, around, cloth, self.design.rules, bool(size.binding.fabric))
            if need is None:
                self.findings.error(
                    "binding-too-long", f"strips of {plain_length(size.binding.strip, system)} cannot be cut on the "
                    f"bias from cloth {plain_length(cloth.width, system)} wide to reach around `{size.name}`",
                    size.binding.span, "use straight strips, narrower ones, or wider cloth",
                )
            made.append(need)
        return made

    def _binding(self, index: int, need: BindingNeed | None) -> PlannedBinding | None:
        declared = self.design.sizes[index].binding
        if declared is None or need is None:
            return None
        piece = self.book.served[("binding", declared.fabric)].id if declared.fabric else ""
        return plan_binding(declared, need, piece, self._binding_cloth(declared.fabric), self.design.rules)

    def _warn_of_whole_lengths(self, sizes: tuple[PlannedSize, ...]) -> None:
        """Note where a cloth of its own that is bought for binding or backing is used up; fabrics' are noted there."""
        used: dict[tuple[str, Span], list[str]] = {}
        for declared, size in zip(self.design.sizes, sizes, strict=True):
            lengths = {"binding": size.binding.net if size.binding is not None and size.binding.buy else None,
                       "backing": size.backing.length if size.backing is not None and size.backing.buy else None}
            spans = {"binding": declared.binding, "backing": declared.backing}
            for part, length in lengths.items():
                where = spans[part]
                if length is not None and where is not None and is_used_up(length, self.design.rules):
                    used.setdefault((part, where.span), []).append(size.name)
        for (part, span), names in used.items():
            self.findings.warning(
                "whole-length-used", f"the cloth to buy for the {part} is used up to the last thread, in "
                + ", ".join(f"`{name}`" for name in names), span,
                "nothing is left for a miscut; the house rule `straightening` can add some to every length",
            )

    def _hanging(self, size: Size, width: Finished) -> tuple[PlannedHanging, ...]:
        """The sleeve, corners and label of one size, with their lettered pieces."""
        if size.hanging is None:
            return ()
        needs = list(hanging_needs(size.hanging, width.length, self.design.rules))
        return plan_hanging(iter(needs), {need.part: self.book.served[need.part, need.fabric].id for need in needs})

    def _layered(self, index: int, top: Top) -> tuple[Group, ...]:
        """Equal blocks of a size that is made block by block; nothing for others."""
        if self.design.sizes[index].by_block is None:
            return ()
        return equal_blocks((part.width, part.height) for part in top.parts)

    def _by_block(self, index: int, top: Top) -> PlannedByBlock | None:
        made = self.design.sizes[index].by_block
        if made is None:
            return None
        groups = self._layered(index, top)
        pieces = [self.book.served["back", made.fabric, rank].id for rank in range(len(groups))]
        return plan_by_block(made, groups, pieces, self.design.rules)

    def _size(self, index: int, top: Top, binding: BindingNeed | None, parts: MadeParts) -> PlannedSize:
        size, rules = self.design.sizes[index], self.design.rules
        seam = rules.seam
        finished = (Finished(top.size[0]), Finished(top.size[1]))
        unfinished = (finished[0].unfinished(seam), finished[1].unfinished(seam))
        by_block = self._by_block(index, top)
        if by_block is not None:
            batting, bought = by_block.blocks[0].batting, batting_for_blocks(by_block.blocks, rules)
        else:
            batting = batting_size(unfinished, rules)
            bought = plan_batting(batting, rules)
        return PlannedSize(
            name=size.name, label=size.label, across=size.across, down=size.down, finished=finished,
            unfinished=unfinished,
            center=(Finished(top.center[0]).unfinished(seam), Finished(top.center[1]).unfinished(seam)),
            columns=tuple(Finished(side) for side in top.columns), rows=tuple(Finished(side) for side in top.rows),
            items=tuple(parts.item(part) for part in top.parts),
            sash_width=Finished(top.sash[0]) if top.sash is not None else None,
            sash_height=Finished(top.sash[1]) if top.sash is not None else None,
            sash_frame=size.sashing is not None and size.sashing.frame,
            cornerstones=size.sashing is not None and bool(size.sashing.cornerstone),
            borders=planned_borders(size, top, parts.ids(), seam),
            binding=self._binding(index, binding),
            backing=plan_backing(size.backing, unfinished, rules) if size.backing is not None else None,
            batting=batting, batting_bought=bought, infant=size.infant,
            hanging=self._hanging(size, finished[0]), by_block=by_block,
            setting=setting_of(size), strips=planned_strips(size, top, parts.ids()),
            float=_float(size, top), medallion=size.medallion,
            fit=self.fits[index], quarters=quartered(size, top, rules, self.findings),
        )


def _float(size: Size, top: Top) -> Finished | None:
    """How far the edges of a center on point lie beyond the points of its blocks, as it was laid out."""
    if size.on_point is None:
        return None
    if size.strips is not None:
        return Finished(size.on_point.float)
    return Finished((top.center[0] - sum_lengths(list(top.columns))) / 2)
