"""What every unit takes in every size: its request, the method's recipe, and how many batches.

In: a design, its instances, the tops that they lie in.
Out: one `UnitPlan` for each unit that is made; what cannot be made is reported.
Never: a letter of a piece, or a place on cloth.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from patchwright.core.diagnostics import Findings
from patchwright.core.measure import plain_length
from patchwright.design.design import Design
from patchwright.methods.limits import refuse_large_templates
from patchwright.methods.method import Method, Recipe, Refusal, Request, StripRun
from patchwright.methods.registry import BY_NAME
from patchwright.methods.strip_set import AS_NEEDED, without_strips
from patchwright.planning.instances import Instances, UnitInstance, UnitKey
from patchwright.planning.plan import StripChoice
from patchwright.planning.prints import PrintRules
from patchwright.planning.strip_choices import Run, StripRules, choices, choose, with_fabrics
from patchwright.planning.top import Top


@dataclass(slots=True)
class UnitPlan:
    """A unit over all sizes: requests, recipes and batches."""

    key: UnitKey
    instance: UnitInstance
    requests: list[Request]
    recipes: list[Recipe]
    batches: list[int]
    choices: tuple[StripChoice | None, ...] = ()
    """Where it could be strip-pieced, what was weighed in every size."""
    lent: list[int] = field(default_factory=list)
    """Units of these batches that are sewn as the other hand, size by size; nothing where hands share none."""

    @property
    def is_strip_pieced(self) -> bool:
        return any(choice is not None and choice.strips for choice in self.choices)


@dataclass(frozen=True, slots=True)
class UnitPlanner:
    """Asks every unit's method for its recipe."""

    design: Design
    instances: Instances
    prints: PrintRules
    findings: Findings

    def plan(self, tops: list[Top]) -> list[UnitPlan]:
        """Ask every unit's method for its recipe in every size; report what cannot be made."""
        made: list[UnitPlan] = []
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
            first = next((unit for unit in made if unit.key == replace(key, variant=0)), None)
            requests, weighed = self._strip_pieced(method, instance, requests, first)
            recipes = [method.recipe(request) if not method.refuse(request) else None for request in requests]
            known = next(recipe for recipe in recipes if recipe is not None)
            whole = [recipe if recipe is not None else known for recipe in recipes]
            one_way = self.instances.one_way_roles(instance.unit)
            batches = [
                self.prints.batches_by_place(key, recipe, tops[index], self._batches(instance, index, recipe, one_way))
                for index, recipe in enumerate(whole)
            ]
            made.append(UnitPlan(key, instance, requests, whole, batches, weighed))
            self._remark(instance, whole)
            self._warn_of_leaning(instance, known, one_way)
        self._share_batches(made)
        return made

    def _batches(self, instance: UnitInstance, index: int, recipe: Recipe, one_way: Sequence[str]) -> int:
        """How many batches give every lay that is needed: of a one-way print a batch gives so many of each lay.

        `one_way` are the roles of such prints. A unit that looks alike in two turns is made alike for both.
        """
        if not one_way:
            return -(-instance.counts[index] // recipe.batch)
        given = Counter(
            self.instances.least_turn(instance.key, instance.key.turn + turn) for turn in recipe.turns(one_way)
        )
        needed: Counter[int] = Counter()
        for turn, counts in instance.lays.items():
            needed[self.instances.least_turn(instance.key, turn)] += counts[index]
        return max((-(-count // given[turn]) for turn, count in needed.items() if given[turn]), default=0)

    def _share_batches(self, made: list[UnitPlan]) -> None:
        """Both hands of a unit are sewn from the same batches, where its pieces serve either and no print matters."""
        drawn = {unit.key: unit for unit in made if not unit.key.mirror}
        for other in made:
            own = drawn.get(replace(other.key, mirror=False)) if other.key.mirror else None
            if own is None or not all(recipe.either_hand for recipe in own.recipes):
                continue
            fabrics = [fabric for _, fabric in own.instance.unit.fabrics]
            if self.instances.is_one_way(own.key.unit) or any(self.prints.shares_by_place(name) for name in fabrics):
                continue
            own.lent, other.lent = [0] * len(own.batches), [0] * len(own.batches)
            pairs = zip(own.instance.counts, other.instance.counts, strict=True)
            for index, (count, reversed_count) in enumerate(pairs):
                if count and reversed_count:
                    own.batches[index] = -(-(count + reversed_count) // own.recipes[index].batch)
                    own.lent[index], other.lent[index] = reversed_count, -reversed_count
                    other.batches[index] = 0

    def _strip_pieced(
        self, method: Method, instance: UnitInstance, requests: list[Request], first: UnitPlan | None
    ) -> tuple[list[Request], tuple[StripChoice | None, ...]]:
        """The requests with strips where the unit is strip-pieced, and what was weighed for that.

        `first` is the same unit pressed in the first way, which one in the second way follows.
        """
        unit, asked = instance.unit, instance.unit.strip_piece
        if method.strip_sets is None:
            if asked == "yes":
                able = ", ".join(f"`{name}`" for name, other in BY_NAME.items() if other.strip_sets is not None)
                self._cannot(instance, f"a `{method.name}` is not sewn from strips", f"these are: {able}")
            return requests, ()
        fabrics, strips = dict(unit.fabrics), StripRules(self.design)
        names = list(fabrics.values())
        sets = [with_fabrics(method.strip_sets(request), fabrics) for request in requests]
        runs = [Run(one, count) for one, count in zip(sets, instance.counts, strict=True)]
        room, law = strips.room(names), self.design.rules.triangle_rules
        told = dict(unit.words).get("segments", AS_NEEDED)
        each = 0 if told == AS_NEEDED else int(told)
        made = [strips.run_of(run, room, law, each) for run in runs]
        hindrance = strips.hindrance(names, any(run.turns for run in runs))
        if not hindrance and any(one is None and run.need for one, run in zip(made, runs, strict=True)):
            what = f"{each} segments" if each else "the segments of one"
            hindrance = f"{what} are longer than a strip of {plain_length(room, law.system)}"
        if hindrance and (asked == "yes" or (each and asked == "auto")):
            hint = "ask for fewer `segments`, or leave them out" if each else "leave `strip-piece` out"
            self._cannot(instance, hindrance, f"{hint}, and what the cloth allows is made")
        weighed = [
            strips.weigh([(run, one)], law) if one is not None and run.need else None
            for run, one in zip(runs, made, strict=True)
        ]
        own = method.name == "strip-set" and asked == "auto"
        chosen = not hindrance and (own or asked == "yes" or (strips.is_plain(names) and choose(asked, weighed)))
        chosen = first.is_strip_pieced if first is not None and not hindrance else chosen
        if not chosen:
            return [without_strips(request) for request in requests], choices(asked, False, weighed)
        whole = [one if one is not None else StripRun(1, room) for one in made]
        return [replace(r, strips=one) for r, one in zip(requests, whole, strict=True)], choices(asked, True, weighed)

    def _cannot(self, instance: UnitInstance, reason: str, hint: str) -> None:
        name = instance.unit.row_of[0] or instance.unit.id
        self.findings.error(
            "strip-piece-impossible", f"`{name}` cannot be strip-pieced: {reason}", instance.unit.span, hint
        )

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


    def _warn_of_leaning(self, instance: UnitInstance, recipe: Recipe, one_way: Sequence[str]) -> None:
        """Warn of one-way prints that cannot stand upright in all patches, however the pieces are cut."""
        unit = instance.unit
        names = [fabric for role, fabric in unit.fabrics if role in recipe.leaning and role in one_way]
        if names:
            listed = " and ".join(f"`{name}`" for name in dict.fromkeys(names))
            self.findings.warning(
                "one-way-leaning", f"the one-way print {listed} does not stand upright everywhere in `{unit.id}`, "
                f"made `{recipe.how}`", unit.span,
                "its pieces lie on the diagonal there, or are turned about each other; choose a print without a "
                "direction, another `make` where there is one, or allow this",
            )


def _refusals(method: Method, request: Request) -> tuple[Refusal, ...]:
    """Why a unit cannot be made: its method's reasons, or a template that no pages make."""
    return method.refuse(request) or refuse_large_templates(request, method.recipe(request))
