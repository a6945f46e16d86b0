"""The solvers against brute force and against each other."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import product
from random import Random

import pytest

from patchwright.planning.pressing.chessboard import dark_places
from patchwright.planning.pressing.elimination import eliminate
from patchwright.planning.pressing.gathering import make_model
from patchwright.planning.pressing.integer import solve_program
from patchwright.planning.pressing.parity import without_conflict
from patchwright.planning.pressing.problem import LEVELS, Problem, Pull, Spin, Twin, make_problem
from patchwright.planning.pressing.solve import solve
from patchwright.planning.pressing.terms import Owner, Seam
from planning.compiling import plan_of
from pressing.generated import generated

_MOST = 13


def made_up(seed: int, count: int, pulls: int) -> Problem:
    """A problem with every kind of part in it."""
    random = Random(seed)
    owner, other = Owner("unit", "a"), Owner("assembly", "b")
    flags = {owner: count} if random.random() < 0.5 else {}
    spins = {}
    if count > 4 and random.random() < 0.7:
        before, after, first, second = random.sample(range(count), 4)
        signs = random.choice((-1, 1)), random.choice((-1, 1))
        spins[Seam(other, "between"), 1] = Spin(before, after, first, signs[0], second, signs[1])
    taken = {number for spin in spins.values() for number in (spin.before, spin.after)}
    fixed = {number: random.choice((-1, 1)) for number in range(count) if number not in taken and random.random() < 0.1}
    free = [number for number in range(count) if number not in fixed]
    twins = [Twin(count, *random.sample(free, 2)) for _ in range(2)] if flags and len(free) > 2 else []
    pairs = [random.sample(range(count), 2) for _ in range(pulls)]
    made = [Pull(min(pair), max(pair), random.random() < 0.5, random.randint(1, 9)) for pair in pairs]
    wishes = tuple(
        (reason, {number: random.choice((-1, 1)) for number in range(count) if random.random() < 0.5})
        for reason in ("points", "bulk", "darker", "rule")
    )
    total = sum(pull.weight for pull in made)
    return Problem(
        {}, count + len(flags), fixed, tuple(made), 0, total, Fraction(1, max(total, 1)), spins, tuple(twins), flags,
        wishes, LEVELS["nest" if seed % 3 else "dark"],
    )


def best_scores(problem: Problem) -> tuple[int, ...]:
    """The best of all ways there are."""
    choices = [(problem.fixed[n],) if n in problem.fixed else (1, -1) for n in range(problem.count)]
    return max(problem.scores(values) for values in product(*choices) if problem.is_possible(values))


@pytest.mark.parametrize("seed", range(60))
def test_solving_finds_the_best_of_all_ways(seed: int) -> None:
    problem = made_up(seed, count=3 + seed % 7, pulls=seed % 13)
    solution = solve(problem)
    assert problem.is_possible(solution.values)
    assert problem.scores(solution.values) == best_scores(problem)
    assert solution.nested == solution.bound == problem.nested(solution.values)


@pytest.mark.parametrize("seed", range(40))
def test_elimination_and_the_integer_program_agree(seed: int) -> None:
    problem = made_up(seed, count=6 + seed % 5, pulls=5 + seed % 15)
    found = solve_program(problem)
    assert problem.scores(found.values) == best_scores(problem)
    assert found.bound == problem.nested(found.values)


def test_trying_values_both_ways_changes_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    """With little work allowed, the most entangled values are tried, or the problem is given up."""
    monkeypatch.setattr("patchwright.planning.pressing.elimination.LEAST_WORK", 8)
    tried = 0
    for seed in range(40):
        problem = made_up(seed, count=12, pulls=16)
        whole, found = eliminate(problem), eliminate(problem, 48)
        assert whole is not None
        if found is not None:
            tried += 1
            assert problem.scores(found) == problem.scores(whole)
    assert tried >= 20


def test_too_entangled_a_problem_goes_to_the_integer_program(monkeypatch: pytest.MonkeyPatch) -> None:
    problem = made_up(4, count=16, pulls=0)
    pairs = [(a, b) for a in range(16) for b in range(a) if (a * 7 + b) % 7 < 4]
    dense = tuple(Pull(a, b, (a * b) % 3 == 1, 1 + (a + b) % 4) for a, b in pairs)
    problem = replace(problem, pulls=dense, total=sum(pull.weight for pull in dense))
    assert eliminate(problem, 64) is None
    best = solve(problem)
    monkeypatch.setattr("patchwright.planning.pressing.solve.eliminate", lambda problem: None)
    found = solve(problem)
    assert (found.proof, best.proof) == ("program", "elimination")
    assert problem.scores(found.values) == problem.scores(best.values)


def test_a_program_that_is_cut_short_states_its_gap() -> None:
    problem = made_up(4, count=16, pulls=90)
    found = solve_program(problem, most_nodes=0)
    assert problem.is_possible(found.values)
    best = solve(problem)
    assert problem.nested(found.values) <= best.nested <= found.bound <= problem.total


@pytest.mark.parametrize("seed", range(40))
def test_parity_is_right_where_it_decides(seed: int) -> None:
    problem = made_up(3 * seed + 1, count=7, pulls=4)
    values = without_conflict(problem)
    if values is not None:
        assert problem.nested(values) == problem.total
        assert problem.scores(values) == best_scores(problem)


@pytest.mark.parametrize(
    ("seed", "variants"),
    [(seed, False) for seed in (1, 5, 9, 19, 24, 25, 36, 50, 57)] + [(seed, True) for seed in (1, 19, 59, 87, 106)],
)
def test_small_quilts_are_solved_as_by_brute_force(seed: int, variants: bool) -> None:
    plan = plan_of(generated(seed))
    model = make_model(plan, tuple(dark_places(size) for size in plan.sizes) if variants else ())
    for rule in LEVELS:
        problem = only_entangled(make_problem(model, rule))
        assert problem.count - len(problem.fixed) <= _MOST
        assert problem.scores(solve(problem).values) == best_scores(problem)


def only_entangled(problem: Problem) -> Problem:
    """The same without the values that nothing but wishes touches, which decide themselves."""
    touched = {number for pull in problem.pulls for number in (pull.first, pull.second)}
    for spin in problem.spins.values():
        touched |= {spin.before, spin.after, spin.first, spin.second}
    touched |= {number for twin in problem.twins for number in (twin.flag, twin.first, twin.second)}
    settled = {number: 1 for number in range(problem.count) if number not in touched | set(problem.flags.values())}
    return replace(problem, fixed=settled | problem.fixed)
