"""What every unit takes in every size: its request, the method's recipe, and how many batches.

In: a design, its instances, the tops that they lie in.
Out: one `UnitPlan` for each unit that is made; what cannot be made is reported.
Never: a letter of a piece, or a place on cloth.
"""

from __future__ import annotations

from dataclasses import dataclass

from patchwright.core.diagnostics import Findings
from patchwright.design.design import Design
from patchwright.methods.limits import refuse_large_templates
from patchwright.methods.method import Method, Recipe, Refusal, Request
from patchwright.methods.registry import BY_NAME
from patchwright.planning.instances import Instances, UnitInstance, UnitKey
from patchwright.planning.prints import PrintRules
from patchwright.planning.top import Top


@dataclass(slots=True)
class UnitPlan:
    """A unit over all sizes: requests, recipes and batches."""

    key: UnitKey
    instance: UnitInstance
    requests: list[Request]
    recipes: list[Recipe]
    batches: list[int]


@dataclass(frozen=True, slots=True)
class UnitPlanner:
    """Asks every unit's method for its recipe."""

    design: Design
    instances: Instances
    prints: PrintRules
    findings: Findings

    def plan(self, tops: list[Top]) -> list[UnitPlan]:
        """Ask every unit's method for its recipe in every size; report what cannot be made."""
        made = []
        for key, instance in self.instances.units.items():
            method = BY_NAME[instance.unit.method]
            requests = [self.instances.request(key, index) for index in range(len(self.design.sizes))]
            refused = False
            for index, request in enumerate(requests):
                for refusal in _refusals(method, request) if instance.counts[index] else ():
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
            made.append(UnitPlan(key, instance, requests, whole, batches))
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


def _refusals(method: Method, request: Request) -> tuple[Refusal, ...]:
    """Why a unit cannot be made: its method's reasons, or a template that no pages make."""
    return method.refuse(request) or refuse_large_templates(request, method.recipe(request))


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
