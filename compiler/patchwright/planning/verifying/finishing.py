"""Adds up again what follows the top: borders, binding, backing and batting are large enough and are bought.

In: the plan.
Out: a sentence for each thing that does not agree.
Never: a function of the planner.
"""

from __future__ import annotations

from collections.abc import Iterator

from patchwright.planning.plan import Plan, PlannedSize
from patchwright.planning.verifying.sums import NOTHING, covers, total


class FinishingCheck:
    """Checks the finishing of one size at a time."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self.seams = plan.rules.seam * 2

    def check(self, index: int, size: PlannedSize) -> Iterator[str]:
        yield from self._finishing(size)
        yield from self._bought_apart(size)
        yield from self._taken_from_fabrics(index, size)

    def _finishing(self, size: PlannedSize) -> Iterator[str]:
        top = (size.unfinished[0].length, size.unfinished[1].length)
        rules = self.plan.rules
        if size.batting[0] < top[0] or size.batting[1] < top[1]:
            yield "the batting is smaller than the top"
        binding = size.binding
        if binding is not None:
            if binding.made < (top[0] + top[1]) * 2 + rules.binding_extra:
                yield "the binding is shorter than the way around and its extra"
            if binding.joins != binding.strips - 1:
                yield "the joins of the binding do not fit its strips"
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
        width, height = size.center[0].length, size.center[1].length
        for border in size.borders:
            if (border.before[0].length, border.before[1].length) != (width, height):
                yield f"{border.id} does not begin where the last one ends"
            high = border.end_width if border.end_width is not None else border.width
            width, height = width + border.width.length * 2, height + high.length * 2
        if (width, height) != top:
            yield "center and borders do not add up to the top"

    def _bought_apart(self, size: PlannedSize) -> Iterator[str]:
        """Binding and backing of cloths of their own: the strips reach around, and what is bought gives them."""
        binding, backing, rules = size.binding, size.backing, self.plan.rules
        if binding is not None and not binding.piece:
            loss = binding.strip.length if rules.binding_join == "diagonal" else self.seams
            if rules.usable_width * binding.strips - loss * (binding.strips - 1) < binding.made:
                yield "the binding's strips do not give the length that they are said to"
            if binding.buy is None or not covers(self.plan.rules, binding.buy, binding.strip.length * binding.strips):
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
            given = total(part for _, part in own.extra) if own is not None else NOTHING
            if given != backing:
                yield f"{fabric.id}: the length for the backing is not the backing's"
        binding = size.binding
        if binding is not None and binding.piece:
            cloth = next((fabric.sizes[index] for fabric in self.plan.fabrics if fabric.id == binding.fabric), None)
            cut = sum(
                strip.count for strip in (cloth.strips if cloth is not None else ())
                for segment in strip.segments if segment.piece == binding.piece
            )
            if cut != binding.strips:
                yield f"the binding has {binding.strips} strips and {cut} are cut for it"
