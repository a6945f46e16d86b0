"""Plan → pressing plan: the passes in order, model, problem, solution, and what a maker should know of it.

In: a plan, the house's rule, and the most that any choice of blocks pressed in two ways lets nest, where one was made.
Out: a `PressingPlan`.
Never: a word of a booklet.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from patchwright.planning.plan import Assembly, Plan, PlannedUnit
from patchwright.planning.pressing.bulk import heavy_points
from patchwright.planning.pressing.chessboard import on_chessboards
from patchwright.planning.pressing.gathering import make_model
from patchwright.planning.pressing.model import Model
from patchwright.planning.pressing.problem import Problem, make_problem
from patchwright.planning.pressing.results import (
    Choice,
    Junction,
    NestCount,
    PressedSeam,
    PressingPlan,
    UnitSides,
    VariantCount,
)
from patchwright.planning.pressing.sewn import Sewn
from patchwright.planning.pressing.solve import solve
from patchwright.planning.pressing.terms import Owner, OwnerKind, Proof, Reason, Rule, Seam, Way

_WISHED: tuple[Reason, ...] = ("points", "bulk", "sashing", "darker", "rule")
_HALVES = (0, 1)


def plan_pressing(plan: Plan, rule: Rule, most: Fraction | None = None) -> PressingPlan:
    """Decide every seam of a plan, for all its sizes at once."""
    if rule == "open":
        return _all_open(plan)
    model = make_model(plan)
    problem = make_problem(model, rule, plan.rules.spinning)
    solution = solve(problem)
    values = solution.values
    ways = {seam: _halves(problem, values, seam) for seam in model.seams} | _opened(model)
    pressed = tuple(_pressed(model, problem, values, seam) for seam in model.seams) + _open_seams(model)
    made = _gathered(model, rule, solution.proof, pressed, ways, problem.scale * solution.bound)
    choice = Choice(most, on_chessboards(plan)) if plan.rules.pressing_variants > 1 else None
    return replace(made, variants=tuple(_stated(plan, model)), choice=choice)


def with_pressing(plan: Plan) -> Plan:
    """The plan with its pressing, by the house's rule; as it is where it has one."""
    if plan.pressing is not None:
        return plan
    return replace(plan, pressing=plan_pressing(plan, plan.rules.pressing))


def _all_open(plan: Plan) -> PressingPlan:
    """Every seam open that its method leaves free; an open seam nests with nothing."""
    model = make_model(plan)
    ways = {seam: (model.fixed.get(seam, 0),) * 2 for seam in model.seams}
    pressed = tuple(
        _named(model, seam, way, "fixed" if seam in model.fixed else "open", ()) for seam, way in ways.items()
    )
    pressed, ways = pressed + _open_seams(model), ways | _opened(model)
    return _gathered(model, "open", "rule", pressed, ways, None)


def _opened(model: Model) -> dict[Seam, tuple[int, int]]:
    return dict.fromkeys(model.opened, (0, 0))


def _open_seams(model: Model) -> tuple[PressedSeam, ...]:
    """What is always pressed open."""
    return tuple(PressedSeam(seam, "open", (0, 0), (), (), "fixed", ()) for seam in model.opened)


def _gathered(
    model: Model, rule: Rule, proof: Proof, pressed: tuple[PressedSeam, ...], ways: dict[Seam, tuple[int, int]],
    bound: Fraction | None,
) -> PressingPlan:
    """Count what nests and put everything together."""
    junctions = tuple(_junctions(model, ways))
    sizes = tuple(
        NestCount(
            name, sum(j.counts[index] for j in junctions if j.nests), sum(j.counts[index] for j in junctions)
        )
        for index, name in enumerate(model.sizes)
    )
    nested = sum((Fraction(size.nested, size.total) for size in sizes if size.total), Fraction(0))
    return PressingPlan(
        rule=rule, proof=proof, nested=nested,
        bound=nested if bound is None else bound, total=Fraction(sum(size.total > 0 for size in sizes)), sizes=sizes,
        seams=pressed, junctions=junctions, variants=(),
        heavy=heavy_points(model, junctions, ways),
    )


def _halves(problem: Problem, values: Sequence[int], seam: Seam) -> tuple[int, int]:
    return values[problem.halves[seam, 0]], values[problem.halves[seam, 1]]


def _junctions(model: Model, ways: dict[Seam, tuple[int, int]]) -> list[Junction]:
    made = []
    for meeting, counts in model.meetings.items():
        line, first, second = meeting
        can = not model.never_nests(meeting)
        senses = [end.sign * ways[end.seam][end.half] for end in (first, second)]
        made.append(Junction(line, first, second, can and senses[0] == senses[1] != 0, tuple(counts), can))
    return made


def _pressed(model: Model, problem: Problem, values: Sequence[int], seam: Seam) -> PressedSeam:
    """A seam with the first reason that its way serves, in the order of what counts."""
    halves = _halves(problem, values, seam)
    wishes = {reason: wish.get(problem.halves[seam, 0], 0) for reason, wish in problem.wishes}
    agreeing = tuple(wished for wished in _WISHED[:-1] if wishes.get(wished, 0) * halves[0] > 0)
    if seam in model.fixed:
        return _named(model, seam, halves, "fixed", agreeing)
    serving: list[Reason] = [*agreeing]
    if halves[0] != halves[1] or _nests_by_it(problem, values, seam):
        serving.append("nest")
    reason: Reason = min(serving, key=problem.levels.index, default="rule")
    named = _named(model, seam, halves, reason, tuple(other for other in agreeing if other != reason))
    return replace(named, spun_at=_spun_at(model, problem, values, seam)) if named.way == "spun" else named


def _spun_at(model: Model, problem: Problem, values: Sequence[int], seam: Seam) -> tuple[int, int]:
    """The first crossing where a seam changes its way, and how many it has."""
    spun = (number for (own, number), spin in problem.spins.items() if own == seam and spin.is_spun(values))
    return next(spun), len(model.spins[seam])


def _nests_by_it(problem: Problem, values: Sequence[int], seam: Seam) -> bool:
    """Whether fewer junctions would nest if only this seam lay the other way."""
    own = {problem.halves[seam, half] for half in _HALVES}
    change = 0
    for pull in problem.pulls:
        if (pull.first in own) != (pull.second in own):
            change += pull.weight if (values[pull.first] == values[pull.second]) == pull.equal else -pull.weight
    return change > 0


def _named(
    model: Model, seam: Seam, halves: tuple[int, int], reason: Reason, also: tuple[Reason, ...]
) -> PressedSeam:
    way: Way = "spun" if halves[0] != halves[1] else "forward" if halves[0] > 0 else "back" if halves[0] else "open"
    first, second = (tuple(names) for names in model.names[seam])
    toward, away = (second, first) if way == "forward" else (first, second) if way == "back" else ((), ())
    return PressedSeam(seam, way, halves, toward, away, reason, also, tuple(_drawn(model, seam)))


def _drawn(model: Model, seam: Seam) -> list[UnitSides]:
    drawing = model.units.get(seam.owner)
    if drawing is None:
        return []
    return [
        UnitSides(order, drawn.first, drawn.second)
        for order, (named, drawn) in enumerate(drawing.seams) if named == seam
    ]


def _stated(quilt: Sewn, model: Model) -> list[VariantCount]:
    """What is made in two ways that are things of their own."""
    made = []
    parts: list[tuple[OwnerKind, PlannedUnit | Assembly]] = [("unit", unit) for unit in quilt.units]
    parts += [("assembly", assembly) for assembly in quilt.assemblies]
    for kind, part in parts:
        if part.second_of:
            first, second = (tuple(model.counts[Owner(kind, id)]) for id in (part.second_of, part.id))
            made.append(VariantCount(kind, part.second_of, part.id, first, second))
    return made
