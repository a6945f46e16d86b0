"""Directions for a quilt whose blocks lie in given ways.

In: a quilt with its blocks apart, the way of each block, and the house's rule.
Out: `Given`: the best directions of both ways, what nests with them, and what is really pressed in two ways.
Never: what comes after these, such as the darker cloth, which is decided once the quilt is laid out with all ways.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from patchwright.planning.pressing.apart import ALWAYS, Apart, pulls_of, spins_of_both
from patchwright.planning.pressing.problem import Problem, Twin
from patchwright.planning.pressing.solve import Solution, solve
from patchwright.planning.pressing.terms import Owner, Rule

_LEVELS = {"nest": ("nest", "variants", "spun"), "dark": ("darker", "nest", "variants", "spun")}


@dataclass(frozen=True, slots=True)
class Given:
    """A choice of ways, pressed as well as it can be."""

    ways: tuple[int, ...]
    """By block, 0 or 1."""
    nested: Fraction
    """Each size as a fraction, all sizes added up."""
    twice: frozenset[Owner]
    """What is pressed in two ways."""
    first: tuple[int, ...]
    second: tuple[int, ...]
    """By value, as it lies in both ways; what is made in one way alone has the opposite for the other."""
    solution: Solution

    @property
    def scores(self) -> tuple[Fraction, int]:
        """What nests, and then as few kinds made in two ways as can be."""
        return self.nested, -len(self.twice)


def pressed_so(apart: Apart, ways: tuple[int, ...], rule: Rule) -> Given:
    """The best directions for these ways."""
    first, second = _used(apart, ways, 0) | apart.elsewhere, _used(apart, ways, 1)
    made = _Numbered(apart, ways, first & second)
    problem = made.problem(rule)
    solution = solve(problem)
    fixed, values = apart.problem.fixed, solution.values
    both: tuple[list[int], list[int]] = ([], [])
    for value in range(apart.problem.count):
        known = values[value]
        other = values[made.second[value]] if value in made.second else known if value in fixed else -known
        turned = value not in made.second and apart.owners[value] in second
        both[0].append(other if turned else known)
        both[1].append(known if turned else other)
    twice = frozenset(owner for owner, flag in problem.flags.items() if values[flag] == 1)
    return Given(ways, apart.scale * solution.nested, twice, tuple(both[0]), tuple(both[1]), solution)


def _used(apart: Apart, ways: tuple[int, ...], way: int) -> frozenset[Owner]:
    return frozenset(owner for own, held in zip(ways, apart.holds, strict=True) if own == way for owner in held)


class _Numbered:
    """Numbers the values of the second way of what lies in both ways, and its flags."""

    def __init__(self, apart: Apart, ways: tuple[int, ...], both: frozenset[Owner]) -> None:
        self.apart, self.ways = apart, ways
        count = apart.problem.count
        values = [value for value in range(count) if apart.owners[value] in both]
        self.second = {value: count + number for number, value in enumerate(values)}
        count += len(values)
        self.flags = {owner: count + number for number, owner in enumerate(sorted(both))}
        self.never = count + len(both)

    def problem(self, rule: Rule) -> Problem:
        """Weights as those of the ties."""
        base = self.apart.problem
        twins = [(value, other) for value, other in self.second.items() if value in base.fixed]
        fixed = base.fixed | {other: base.fixed[value] for value, other in twins} | {self.never: -1}
        darker = dict(base.wishes).get("darker", {})
        darker = darker | {other: darker[value] for value, other in self.second.items() if value in darker}
        spins = spins_of_both(base, self.second)
        pulls, constant = pulls_of(self.apart.ties, self._shown)
        return Problem(
            {}, self.never + 1, fixed, pulls, constant, self.apart.total, self.apart.scale, spins,
            tuple(dict.fromkeys(self._twins())), self.flags, (("darker", darker),) if rule == "dark" else (),
            _LEVELS[rule],
        )

    def _shown(self, value: int, block: int) -> int:
        return self.second.get(value, value) if block != ALWAYS and self.ways[block] else value

    def _twins(self) -> Iterator[Twin]:
        for value, other in self.second.items():
            yield Twin(self.flags[self.apart.owners[value]], value, other)
        for inner, flag in self.flags.items():
            for holder in sorted(self.apart.holders[inner]):
                if holder in self.flags:
                    yield Twin(self.flags[holder], flag, self.never)
