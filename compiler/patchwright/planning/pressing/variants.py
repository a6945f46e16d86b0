"""Which blocks are pressed in a second way, so that they nest with their neighbors, where the house allows it.

In: a quilt before its cutting is planned, since a second way of pressing changes counts, and the house's rule.
Out: what is made in two ways, the blocks of each size that lie the second way, and the most that any choice lets nest.
Rule: more junctions that nest are worth any number of second ways; of equal plans, the one with the fewest kinds that
are made in two ways; of these the chessboard, which can be told in a sentence; then few blocks of the second way.
Never: a second way that is nowhere pressed otherwise than the first.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import combinations

from patchwright.planning.pressing.agreeing import Agreement
from patchwright.planning.pressing.apart import Apart, kept_apart
from patchwright.planning.pressing.chessboard import dark_places
from patchwright.planning.pressing.model import Model, make_model
from patchwright.planning.pressing.problem import Problem, Pull, make_problem
from patchwright.planning.pressing.sewn import Sewn
from patchwright.planning.pressing.solve import Solution, solve
from patchwright.planning.pressing.terms import Owner, Rule

MOST_TRIES = 48
"""So many sets of what may be made in two ways are looked at, small ones first."""
Places = tuple[frozenset[int], ...]


@dataclass(frozen=True, slots=True)
class Chosen:
    """A choice of ways, for all sizes."""

    twice: frozenset[str]
    """Ids of the units and assemblies that are pressed in two ways, with all assemblies that hold them."""
    second: Places
    """For each size the places, among its parts, of the blocks that lie the second way."""
    nested: Fraction = Fraction(0)
    """What nests, each size as a fraction, all sizes added up."""
    bound: Fraction | None = None
    """The most that any choice lets nest."""


@dataclass(frozen=True, slots=True)
class _Tried:
    """A choice of places, pressed as well as it can be."""

    places: Places
    model: Model
    problem: Problem
    solution: Solution

    @property
    def scores(self) -> tuple[Fraction, int]:
        """What nests, and how many kinds are made in two ways; darker cloth takes no part, as each way reaches it."""
        made = sum(self.solution.values[flag] == 1 for flag in self.problem.flags.values())
        return self.problem.scale * self.solution.nested, -made


def choose_ways(quilt: Sewn, rule: Rule) -> Chosen:
    """The best choice that is found, which is proven best where as much nests as its bound says."""
    nothing: Places = (frozenset(),) * len(quilt.sizes)
    if rule == "open":
        return Chosen(frozenset(), nothing)
    one = _tried(quilt, rule, nothing)
    apart = kept_apart(quilt, one.model, one.problem)
    bound = _bound(apart, rule)
    if one.scores[0] >= bound or not apart.blocks:
        return Chosen(frozenset(), nothing, one.scores[0], bound)
    dark = [dark_places(size) for size in quilt.sizes]
    agreement = Agreement(apart, [int(block.place in dark[block.size]) for block in apart.blocks])
    found = one
    for places in _proposed(apart, agreement, tuple(dark), len(quilt.sizes)):
        other = _tried(quilt, rule, places)
        found = other if other.scores > found.scores else found
        if found.scores[0] >= bound:
            break
    return Chosen(_twice(found), found.places, found.scores[0], bound)


def _proposed(apart: Apart, agreement: Agreement, chessboard: Places, sizes: int) -> Iterator[Places]:
    """What might be best: where everything agrees, else the chessboard and where much does."""
    owners = sorted({owner for held in apart.holds for owner in held})
    for twice in _sets(owners):
        agreed = agreement.all_agree(twice)
        if agreed is not None:
            yield apart.second(agreed.ways, sizes)
            break
    yield chessboard
    yield apart.second(agreement.most_agree(frozenset(owners)).ways, sizes)


def _sets(owners: Sequence[Owner]) -> Iterator[frozenset[Owner]]:
    """Sets of what may be made in two ways, small ones first; the last is everything."""
    tries = 0
    for count in range(1, len(owners)):
        for chosen in combinations(owners, count):
            if tries == MOST_TRIES:
                break
            tries += 1
            yield frozenset(chosen)
    yield frozenset(owners)


def _tried(quilt: Sewn, rule: Rule, places: Places) -> _Tried:
    model = make_model(quilt, places)
    problem = make_problem(model, rule)
    return _Tried(places, model, problem, solve(problem))


def _bound(apart: Apart, rule: Rule) -> Fraction:
    """The most that could nest: within all that is made as if it met nothing, and all that can where blocks meet."""
    within = [tie for tie in apart.ties if tie.is_within]
    between = sum(tie.weight for tie in apart.ties if not tie.is_within and not apart.is_impossible(tie))
    pulls: dict[tuple[int, int, bool], int] = {}
    for tie in within:
        low, high = sorted((tie.first, tie.second))
        pulls[low, high, tie.equal] = pulls.get((low, high, tie.equal), 0) + tie.weight
    alone = replace(
        apart.problem, pulls=tuple(Pull(*key, weight) for key, weight in pulls.items() if key[0] != key[1]),
        constant=sum(weight for key, weight in pulls.items() if key[0] == key[1] and key[2]),
        total=sum(pulls.values()),
    )
    return apart.scale * (solve(alone).bound + between)


def _twice(found: _Tried) -> frozenset[str]:
    """What is made in two ways, and all that holds it."""
    values, names = found.solution.values, set()
    waiting: list[Owner] = [owner for owner, flag in found.problem.flags.items() if values[flag] == 1]
    while waiting:
        owner = waiting.pop()
        if owner.id not in names:
            names.add(owner.id)
            waiting += _holders(found.model, owner)
    return frozenset(names)


def _holders(model: Model, owner: Owner) -> Iterable[Owner]:
    return [holder for way in (0, 1) for holder in model.holders.get(Owner(owner.kind, owner.id, way), ())]
