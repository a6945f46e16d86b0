"""The exact optimum by eliminating one value after another, in whole numbers only.

In: a problem.
Out: the best values, or None where some step would have to look at more than `WIDEST` values at once.
All levels are decided together, since their scores are packed into one whole number of any size.
Never: a float, a solver, a value that depends on the order of a set.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product

from patchwright.planning.pressing.problem import Problem

WIDEST = 13
_IMPOSSIBLE = None
_Table = dict[tuple[int, ...], int | None]


@dataclass(frozen=True, slots=True)
class _Part:
    """A part of the score that depends on a few values."""

    numbers: tuple[int, ...]
    table: _Table


@dataclass(frozen=True, slots=True)
class _Step:
    """One value, decided by those that are decided before it."""

    number: int
    others: tuple[int, ...]
    best: dict[tuple[int, ...], int]


def eliminate(problem: Problem, widest: int = WIDEST) -> tuple[int, ...] | None:
    """The best values of a problem that is not too entangled."""
    parts = list(_parts(problem))
    steps: list[_Step] = []
    touching: dict[int, set[int]] = {number: set() for number in range(problem.count)}
    for part in parts:
        for number in part.numbers:
            touching[number].update(part.numbers)
    while touching:
        number = min(touching, key=lambda candidate: (len(touching[candidate]), candidate))
        others = tuple(sorted(touching.pop(number) - {number}))
        if len(others) >= widest:
            return None
        mine = [part for part in parts if number in part.numbers]
        parts = [part for part in parts if number not in part.numbers]
        step, rest = _eliminated(number, others, mine, problem.fixed)
        steps.append(step)
        parts.append(rest)
        for other in others:
            touching[other] = (touching[other] | set(others)) - {number}
    return _decided(problem.count, steps)


def _eliminated(number: int, others: tuple[int, ...], mine: list[_Part], fixed: dict[int, int]) -> tuple[_Step, _Part]:
    """For all values of the others, the best of this one and what it scores."""
    best: dict[tuple[int, ...], int] = {}
    table: _Table = {}
    choices = (fixed[number],) if number in fixed else (1, -1)
    places = {other: place for place, other in enumerate(others)}
    places[number] = len(others)
    looks = [(part.table, tuple(places[other] for other in part.numbers)) for part in mine]
    for values in product((1, -1), repeat=len(others)):
        top: int | None = _IMPOSSIBLE
        best[values] = choices[0]
        for choice in choices:
            score = _score(looks, (*values, choice))
            if score is not None and (top is None or score > top):
                top, best[values] = score, choice
        table[values] = top
    return _Step(number, others, best), _Part(others, table)


def _score(looks: list[tuple[_Table, tuple[int, ...]]], values: tuple[int, ...]) -> int | None:
    total = 0
    for table, places in looks:
        score = table[tuple([values[place] for place in places])]
        if score is None:
            return None
        total += score
    return total


def _decided(count: int, steps: list[_Step]) -> tuple[int, ...]:
    values = [1] * count
    for step in reversed(steps):
        values[step.number] = step.best[tuple(values[other] for other in step.others)]
    return tuple(values)


def _parts(problem: Problem) -> Iterator[_Part]:
    factors = problem.factors()
    for pull in problem.pulls:
        numbers, worth = (pull.first, pull.second), pull.weight * factors["nest"]
        yield _Part(numbers, {(a, b): worth * ((a == b) == pull.equal) for a, b in product((1, -1), repeat=2)})
    for spin in problem.spins.values():
        numbers = tuple(dict.fromkeys((spin.before, spin.after, spin.first, spin.second)))
        table: _Table = {}
        for values in product((1, -1), repeat=len(numbers)):
            chosen = dict(zip(numbers, values, strict=True))
            known = [chosen[number] for number in (spin.before, spin.after, spin.first, spin.second)]
            spun = known[0] != known[1]
            table[values] = -factors["spun"] * spun if spin.is_possible(*known) else _IMPOSSIBLE
        yield _Part(numbers, table)
    for twin in problem.twins:
        yield _Part(
            (twin.flag, twin.first, twin.second),
            {(f, a, b): 0 if a == b or f == 1 else _IMPOSSIBLE for f, a, b in product((1, -1), repeat=3)},
        )
    for flag in problem.flags.values():
        yield _Part((flag,), {(1,): -factors["variants"], (-1,): 0})
    for reason, wish in problem.wishes:
        for number, much in wish.items():
            yield _Part((number,), {(1,): much * factors[reason], (-1,): -much * factors[reason]})
