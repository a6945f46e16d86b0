"""The exact optimum by eliminating one value after another, in whole numbers only.

In: a problem.
Out: the best values, or None where that is too much work even with the most entangled values tried both ways.
All levels are decided together, since their scores are packed into one whole number of any size.
Never: a float, a solver, a value that depends on the order of a set.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import product

from patchwright.planning.pressing.problem import Problem

MOST_WORK = 1 << 16
"""Most combinations of values that all steps together may look at; trying a value both ways halves it."""
LEAST_WORK = 1 << 12
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


def eliminate(problem: Problem, most_work: int = MOST_WORK) -> tuple[int, ...] | None:
    """The best values of a problem that is not too entangled."""
    return _tried(problem, tuple(_parts(problem)), problem.fixed, most_work)


def _tried(
    problem: Problem, parts: tuple[_Part, ...], fixed: Mapping[int, int], most_work: int
) -> tuple[int, ...] | None:
    """Eliminate, or try the most entangled value both ways first."""
    free = [_restricted(part, fixed) for part in parts]
    order, hub = _order(problem.count, free, fixed, most_work)
    if hub is None:
        return _solved(problem.count, free, fixed, order)
    if most_work < LEAST_WORK:
        return None
    best: tuple[int, ...] | None = None
    for value in (1, -1):
        values = _tried(problem, parts, {**fixed, hub: value}, most_work // 2)
        if values is None:
            return None
        if problem.is_possible(values) and (best is None or problem.scores(values) > problem.scores(best)):
            best = values
    return best


def _restricted(part: _Part, fixed: Mapping[int, int]) -> _Part:
    """A part with the known values put in."""
    if not any(number in fixed for number in part.numbers):
        return part
    kept = [place for place, number in enumerate(part.numbers) if number not in fixed]
    table = {
        tuple(values[place] for place in kept): score for values, score in part.table.items()
        if all(fixed.get(number, value) == value for number, value in zip(part.numbers, values, strict=True))
    }
    return _Part(tuple(part.numbers[place] for place in kept), table)


def _order(
    count: int, parts: list[_Part], fixed: Mapping[int, int], most_work: int
) -> tuple[tuple[int, ...], int | None]:
    """Free values, the least entangled first; and the most entangled one where that is too much work."""
    touching: dict[int, set[int]] = {number: set() for number in range(count) if number not in fixed}
    for part in parts:
        for number in part.numbers:
            touching[number].update(part.numbers)
            touching[number].discard(number)
    order, work = [], 0
    while touching:
        number = min(touching, key=lambda candidate: (len(touching[candidate]), candidate))
        work += 1 << len(touching[number])
        if work > most_work:
            return (), max(touching, key=lambda candidate: (len(touching[candidate]), -candidate))
        order.append(number)
        others = touching.pop(number)
        for other in others:
            touching[other] = (touching[other] | others) - {number, other}
    return tuple(order), None


def _solved(count: int, parts: list[_Part], fixed: Mapping[int, int], order: tuple[int, ...]) -> tuple[int, ...]:
    steps: list[_Step] = []
    waiting: dict[int, list[_Part]] = {number: [] for number in order}
    place = {number: at for at, number in enumerate(order)}

    def wait(part: _Part) -> None:
        """A part waits for the first of its values to be eliminated."""
        if part.numbers:
            waiting[min(part.numbers, key=place.__getitem__)].append(part)

    for part in parts:
        wait(part)
    for number in order:
        step, rest = _eliminated(number, waiting[number])
        steps.append(step)
        wait(rest)
    values = [fixed.get(number, 1) for number in range(count)]
    for step in reversed(steps):
        values[step.number] = step.best[tuple(values[other] for other in step.others)]
    return tuple(values)


def _eliminated(number: int, mine: list[_Part]) -> tuple[_Step, _Part]:
    """For all values of the others, the best of this one and what it scores."""
    others = tuple(sorted({other for part in mine for other in part.numbers} - {number}))
    places = {other: place for place, other in enumerate(others)} | {number: len(others)}
    looks = [(part.table, tuple(places[other] for other in part.numbers)) for part in mine]
    best: dict[tuple[int, ...], int] = {}
    table: _Table = {}
    for values in product((1, -1), repeat=len(others)):
        top: int | None = _IMPOSSIBLE
        best[values] = 1
        for choice in (1, -1):
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


def _parts(problem: Problem) -> Iterator[_Part]:
    factors = problem.factors()
    for pull in problem.pulls:
        worth = pull.weight * factors["nest"]
        table: _Table = {(a, b): worth * ((a == b) == pull.equal) for a, b in product((1, -1), repeat=2)}
        yield _Part((pull.first, pull.second), table)
    for spin in problem.spins.values():
        numbers = tuple(dict.fromkeys((spin.before, spin.after, spin.first, spin.second)))
        table = {}
        for values in product((1, -1), repeat=len(numbers)):
            chosen = dict(zip(numbers, values, strict=True))
            known = [chosen[number] for number in (spin.before, spin.after, spin.first, spin.second)]
            spun = known[0] != known[1]
            table[values] = -factors["spun"] * spun if spin.is_possible(*known) else _IMPOSSIBLE
        yield _Part(numbers, table)
    for twin in problem.twins:
        yield _Part(
            (twin.flag, twin.first, twin.second),
            {(f, a, b): 0 if a == b or f == twin.unless else _IMPOSSIBLE for f, a, b in product((1, -1), repeat=3)},
        )
    for flag in problem.flags.values():
        yield _Part((flag,), {(1,): -factors["variants"], (-1,): 0})
    for reason, wish in problem.wishes:
        for number, much in wish.items():
            yield _Part((number,), {(1,): much * factors[reason], (-1,): -much * factors[reason]})
