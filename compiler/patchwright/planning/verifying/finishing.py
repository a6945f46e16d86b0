"""Adds up again what follows the top: borders, binding, backing and batting are large enough and are bought.

In: the plan.
Out: a sentence for each thing that does not agree.
Never: a function of the planner.
"""

from __future__ import annotations

from collections.abc import Iterator

from patchwright.core.length import Length
from patchwright.planning.plan import Plan, PlannedBacking, PlannedSize
from patchwright.planning.verifying.binding import binding_faults, cut_for_binding, length_of_binding
from patchwright.planning.verifying.by_block import by_block_faults
from patchwright.planning.verifying.sums import NOTHING, covers, total


class FinishingCheck:
    """Checks the finishing of one size at a time."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self.seams = plan.rules.seam * 2

    def check(self, index: int, size: PlannedSize) -> Iterator[str]:
        yield from self._finishing(size)
        yield from self._bought_apart(size)
        yield from self._hanging(index, size)
        yield from self._taken_from_fabrics(index, size)
        yield from by_block_faults(self.plan, index, size)

    def _finishing(self, size: PlannedSize) -> Iterator[str]:
        top = (size.unfinished[0].length, size.unfinished[1].length)
        rules = self.plan.rules
        if size.by_block is None:
            yield from self._batting(size, top)
        if size.binding is not None:
            if size.binding.made < (top[0] + top[1]) * 2 + rules.binding_extra:
                yield "the binding is shorter than the way around and its extra"
            yield from binding_faults(size.binding, rules)
        backing = size.backing
        if backing is not None:
            if any(side < edge + rules.backing_overage * 2 for side, edge in zip(backing.size, top, strict=True)):
                yield "the backing is smaller than the top and its overage"
            along = 1 if backing.seams == "crosswise" else 0
            joined = total(panel[along] for panel in backing.panels)
            joined -= rules.backing_seam * 2 * (len(backing.panels) - 1)
            if joined < backing.size[along] or any(p[1 - along] < backing.size[1 - along] for p in backing.panels):
                yield "the backing's panels do not cover it"
            across = [panel[along] if backing.seams != "none" else min(panel) for panel in backing.panels]
            if max(across) > backing.usable_width:
                yield "a backing panel is wider than its cloth"
            yield from self._lengths_of_backing(backing)
        width, height = size.center[0].length, size.center[1].length
        for border in size.borders:
            if (border.before[0].length, border.before[1].length) != (width, height):
                yield f"{border.id} does not begin where the last one ends"
            high = border.end_width if border.end_width is not None else border.width
            if (border.sides, border.ends) != (bool(border.width.length), bool(high.length)):
                yield f"{border.id} does not run along the edges that it is said to"
            width, height = width + border.width.length * 2, height + high.length * 2
        if (width, height) != top:
            yield "center and borders do not add up to the top"

    def _batting(self, size: PlannedSize, top: tuple[Length, Length]) -> Iterator[str]:
        """The batting covers the top, and what is bought covers the batting."""
        wide, high = size.batting
        if wide < top[0] or high < top[1]:
            yield "the batting is smaller than the top"
        package, roll = size.batting_bought.package, size.batting_bought.roll
        if package is not None and not any(a >= wide and b >= high for a, b in (package, package[::-1])):
            yield "the packaged batting is smaller than the batting"
        if roll is not None:
            each = roll.length / roll.pieces
            if not any(roll.width * roll.pieces >= a and each >= b for a, b in ((wide, high), (high, wide))):
                yield "what is bought off the roll does not cover the batting"
            if not covers(self.plan.rules, roll.buy, roll.length):
                yield "less batting is bought off the roll than it takes"

    def _hanging(self, index: int, size: PlannedSize) -> Iterator[str]:
        """Every part is cut as it is said, and a sleeve, hemmed, is shorter than the quilt by its two insets."""
        rules = self.plan.rules
        for part in size.hanging:
            piece = next(known for known in self.plan.pieces if known.id == part.piece)
            own = piece.sizes[index]
            if own is None or piece.fabric != part.fabric or sorted((own.width, own.height)) != sorted(part.cut):
                yield f"{part.piece} is not cut as the part that it is for"
            hung = part.cut[0].length - rules.sleeve_hem * 2 + rules.sleeve_inset * 2
            over = hung - size.finished[0].length
            if part.part == "hanging-sleeve" and not NOTHING <= over < Length(rules.round_cuts):
                yield "the sleeve is not as long as the quilt is wide, less its insets"

    def _lengths_of_backing(self, backing: PlannedBacking) -> Iterator[str]:
        """Every panel has a length of cloth to itself, or shares one with another that fits beside it."""
        along = 1 if backing.along == "crosswise" else 0
        waiting = sorted(panel[along] for panel in backing.panels)
        lengths = 0
        while waiting:
            widest = waiting.pop()
            lengths += 1
            if waiting and widest + waiting[0] <= backing.usable_width:
                waiting.pop(0)
        if backing.length < backing.panels[0][1 - along] * lengths:
            yield "the backing's panels take more cloth than is counted for them"
        if backing.wide is not None and backing.usable_width > backing.wide:
            yield "more of a wide backing cloth is used than it has"

    def _bought_apart(self, size: PlannedSize) -> Iterator[str]:
        """Binding and backing of cloths of their own: the strips reach around, and what is bought gives them."""
        binding, backing, rules = size.binding, size.backing, self.plan.rules
        if binding is not None and not binding.piece:
            if binding.width > rules.usable_width:
                yield "the binding's cloth is wider than it may be"
            if binding.buy is None or not covers(rules, binding.buy, length_of_binding(binding)):
                yield "what is bought for the binding does not cover its strips"
        if backing is not None:
            if not backing.fabric and (backing.buy is None or not covers(self.plan.rules, backing.buy, backing.length)):
                yield "what is bought for the backing does not cover its panels"
            if backing.length < min(total(panel[side] for panel in backing.panels) for side in (0, 1)):
                yield "the backing's panels are longer than the length that is counted for them"

    def _taken_from_fabrics(self, index: int, size: PlannedSize) -> Iterator[str]:
        """Binding and backing cut from fabrics of the top: those fabrics' cutting has them."""
        for fabric in self.plan.fabrics:
            own = fabric.sizes[index]
            backing = size.backing.length if size.backing is not None and size.backing.fabric == fabric.id else NOTHING
            given = total(part for use, part in own.extra if use == "backing") if own is not None else NOTHING
            if backing and size.backing is not None and size.backing.usable_width > fabric.source.size[0]:
                yield f"{fabric.id}: the backing's panels are wider than this cloth"
            if given != backing:
                yield f"{fabric.id}: the length for the backing is not the backing's"
        binding = size.binding
        if binding is not None and binding.piece:
            cloth = next((fabric.sizes[index] for fabric in self.plan.fabrics if fabric.id == binding.fabric), None)
            cut = cut_for_binding(cloth, binding.piece) if cloth is not None else 0
            wanted = binding.strips if binding.cloth is None else binding.cloths
            if cut < wanted or (cut != wanted and binding.cloth is None):
                yield f"the binding takes {wanted} cuts of cloth and {cut} are cut for it"
