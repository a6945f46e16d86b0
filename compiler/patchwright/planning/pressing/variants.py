"""Which blocks are pressed in a second way, so that they nest with their neighbors, where the house allows it.

In: a quilt before its cutting is planned, since a second way of pressing changes counts, and the house's rule.
Out: what is made in two ways, the blocks of each size that lie the second way, and the most that any choice lets nest.
Rule: more junctions that nest are worth any number of second ways; of equal plans, the one with the fewest kinds that
are made in two ways; of these the chessboard, which can be told in a sentence; then few blocks of the second way.
Never: a second way that is nowhere pressed otherwise than the first.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from itertools import combinations

from patchwright.planning.plan import Assembly, PlannedUnit
from patchwright.planning.pressing.agreeing import Agreement
from patchwright.planning.pressing.apart import Apart, kept_apart
from patchwright.planning.pressing.chessboard import dark_places
from patchwright.planning.pressing.climbing import MOST_WORK, Start, climb
from patchwright.planning.pressing.free_choice import FreeChoice
from patchwright.planning.pressing.integer import solve_program
from patchwright.planning.pressing.model import Model, make_model
from patchwright.planning.pressing.problem import Problem, Pull, make_problem
from patchwright.planning.pressing.sewn import Sewn
from patchwright.planning.pressing.solve import Solution, solve
from patchwright.planning.pressing.terms import Owner, Rule

MOST_TRIES = 48
"""So many sets of what may be made in two ways are looked at, small ones first."""
MOST_CLIMBS = 3
MOST_VALUES = 320
"""A program with more values is not tried."""
MOST_NODES = 100
FEW_TIES = 1500
"""With no more junctions of blocks apart, stripes are tried too, and a climb from everything that was tried."""
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
    is_sure: bool = True
    """Whether no second way is pressed as the first; else that is still to be seen."""


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
    one = _tried(quilt, rule)
    apart = kept_apart(quilt, one.model, one.problem)
    alone, bound = _alone(apart)
    if one.scores[0] >= bound or not apart.blocks:
        return Chosen(frozenset(), nothing, one.scores[0], bound)
    return _Choosing(quilt, rule, apart, alone, bound).chosen(one)


@dataclass(slots=True)
class _Choosing:
    """Tries what might be best, until it is proven to be or everything is tried."""

    quilt: Sewn
    rule: Rule
    apart: Apart
    alone: tuple[int, ...]
    bound: Fraction
    work: int = MOST_WORK
    known: dict[Places, _Tried] = field(default_factory=dict)

    def chosen(self, one: _Tried) -> Chosen:
        found, tried = one, [one]
        for places in self._proposed():
            tried.append(self._tried(places))
            found = _better(found, tried[-1])
            if found.scores[0] >= self.bound:
                return self._made(self._searched(found))
        if len(self.apart.ties) <= FEW_TIES:
            tried += [self._tried(places) for places in self._stripes()]
        else:
            tried = [found]
        for start in sorted(tried, key=lambda own: own.scores, reverse=True):
            found = _better(found, self._climbed(start))
        return self._made(self._searched(found))

    def _made(self, found: _Tried) -> Chosen:
        return Chosen(_twice(found), found.places, found.scores[0], self.bound, found.solution.proof != "gap")

    def _tried(self, places: Places) -> _Tried:
        if places not in self.known:
            self.known[places] = _tried(self.quilt, self.rule, places)
        return self.known[places]

    def _proposed(self) -> Iterator[Places]:
        """Where everything agrees; else the chessboard, and where much does."""
        dark, sizes = tuple(dark_places(size) for size in self.quilt.sizes), len(self.quilt.sizes)
        chessboard = [int(block.place in dark[block.size]) for block in self.apart.blocks]
        agreement = Agreement(self.apart, self.alone, chessboard)
        owners = sorted({owner for held in self.apart.holds for owner in held})
        for twice in _sets(owners) if agreement.could_agree() else ():
            agreed = agreement.all_agree(twice)
            if agreed is not None:
                yield self.apart.second(agreed.ways, sizes)
                break
        yield dark
        agreed = agreement.many_agree(frozenset(owners))
        if agreed is not None:
            yield self.apart.second(agreed.ways, sizes)

    def _searched(self, found: _Tried) -> _Tried:
        """What an integer program finds, with its bound, where the quilt is small and more may nest, or in fewer kinds.
        """
        if found.scores[0] >= self.bound and found.scores[1] >= -1:
            return found
        choice = FreeChoice(self.apart)
        if choice.count > MOST_VALUES:
            return found
        program = solve_program(choice.problem(self.rule), MOST_NODES, settled=False)
        self.bound = min(self.bound, self.apart.scale * program.bound)
        return _better(found, self._tried(self.apart.second(choice.read(program.values), len(self.quilt.sizes))))

    def _stripes(self) -> Iterator[Places]:
        """Rows by turns, and columns by turns."""
        lying = [
            [(place, item) for place, item in enumerate(size.items) if item.part == "block"]
            for size in self.quilt.sizes
        ]
        rows = [sorted({item.y for _, item in own}) for own in lying]
        columns = [sorted({item.x for _, item in own}) for own in lying]
        yield tuple(
            frozenset(place for place, item in own if known.index(item.y) % 2)
            for own, known in zip(lying, rows, strict=True)
        )
        yield tuple(
            frozenset(place for place, item in own if known.index(item.x) % 2)
            for own, known in zip(lying, columns, strict=True)
        )

    def _climbed(self, found: _Tried) -> _Tried:
        """What is found from there by changing one thing after another."""
        darker = dict(self.apart.problem.wishes).get("darker", {}) if self.rule == "dark" else {}
        for _ in range(MOST_CLIMBS):
            ways, self.work = climb(self.apart, self._start(found), frozenset(darker), self.work)
            other = self._tried(self.apart.second(ways, len(self.quilt.sizes)))
            if other.scores <= found.scores:
                break
            found = other
        return found

    def _start(self, found: _Tried) -> Start:
        """The directions of both ways; what is made in one way alone begins with the opposite for the other."""
        values, halves, fixed = found.solution.values, found.problem.halves, self.apart.problem.fixed
        both = [[0] * self.apart.problem.count for _ in (0, 1)]
        for (seam, half), number in self.apart.problem.halves.items():
            twins = [(replace(seam, owner=replace(seam.owner, variant=way)), half) for way in (0, 1)]
            known = [values[halves[twin]] for twin in twins if twin in halves]
            other = known[0] if number in fixed else -known[0]
            ways = known if len(known) == 2 else [known[0], other] if twins[0] in halves else [other, known[0]]
            both[0][number], both[1][number] = ways
        lying = tuple(int(block.place in found.places[block.size]) for block in self.apart.blocks)
        return Start(tuple(both[0]), tuple(both[1]), lying)


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


def _better(found: _Tried, other: _Tried) -> _Tried:
    return other if other.scores > found.scores else found


def _tried(quilt: Sewn, rule: Rule, places: Places = ()) -> _Tried:
    """The best directions for a choice of places; without one, for all blocks the first way, and these apart."""
    model = make_model(quilt, places, apart=not places)
    problem = make_problem(model, rule)
    return _Tried(places or (frozenset(),) * len(quilt.sizes), model, problem, solve(problem))


def _alone(apart: Apart) -> tuple[tuple[int, ...], Fraction]:
    """The best values for all that is made as if it met nothing else, and the most that could nest.

    That is what nests within it then, and whatever can where blocks meet.
    """
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
    solution = solve(alone)
    return solution.values, apart.scale * (solution.bound + between)


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


def pressed_alike(quilt: Sewn, rule: Rule) -> frozenset[str]:
    """Of a quilt with its second ways, the ids of what is pressed in two ways that come out the same."""
    model = make_model(quilt)
    problem = make_problem(model, rule)
    values = solve(problem).values
    parts: list[PlannedUnit | Assembly] = [*quilt.units, *quilt.assemblies]
    made = {part.id: part for part in parts}
    ways: dict[str, set[tuple[object, ...]]] = {}
    for (seam, half), number in problem.halves.items():
        ways.setdefault(seam.owner.id, set()).add((seam.part, seam.line, seam.place, half, values[number]))

    def differ(first: str, second: str) -> bool:
        inner = zip(*(_parts(made[id]) for id in (first, second)), strict=True)
        return ways.get(first) != ways.get(second) or any(one != two and differ(one, two) for one, two in inner)

    return frozenset(part.second_of for part in parts if part.second_of and not differ(part.second_of, part.id))


def _parts(part: PlannedUnit | Assembly) -> list[str]:
    lines = part.lines if isinstance(part, Assembly) else ()
    return [placed.ref for line in lines for placed in line if placed.kind != "piece"]
