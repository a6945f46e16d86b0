"""Which blocks are pressed in a second way, so that they nest with their neighbors, where the house allows it.

In: a quilt before its cutting is planned, since a second way of pressing changes counts, and the house's rule.
Out: what is made in two ways, the blocks of each size that lie the second way, and the most that any choice lets nest.
Rule: more junctions that nest are worth any number of second ways; of equal plans, the one with the fewest kinds that
are made in two ways; of these the chessboard, which can be told in a sentence; then few blocks of the second way.
Never: a second way that is nowhere pressed otherwise than the first.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from functools import partial
from itertools import combinations, islice

from patchwright.planning.plan import Assembly, PlannedUnit
from patchwright.planning.pressing.agreeing import Agreement
from patchwright.planning.pressing.apart import ALWAYS, Apart, Tie, kept_apart, pulls_of
from patchwright.planning.pressing.chessboard import dark_places
from patchwright.planning.pressing.climbing import MOST_WORK, Start, climb, nested, of_one_size
from patchwright.planning.pressing.free_choice import FreeChoice
from patchwright.planning.pressing.gathering import make_model
from patchwright.planning.pressing.given_ways import Given, pressed_so
from patchwright.planning.pressing.integer import solve_program
from patchwright.planning.pressing.problem import Problem, make_problem
from patchwright.planning.pressing.sewn import Sewn
from patchwright.planning.pressing.solve import solve
from patchwright.planning.pressing.terms import Owner, Rule, Spinning

MOST_TRIES = 48
"""So many small sets of what may be made in two ways are looked at, and as many of whole blocks."""
MOST_SPREAD = 2
"""So many ends of climbs in one size are carried on to all sizes."""
MOST_VALUES = 250
"""A program with more values is not tried."""
MOST_NODES = 100
Ways = tuple[int, ...]
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


def choose_ways(quilt: Sewn, rule: Rule, spinning: Spinning = "middle") -> Chosen:
    """The best choice that is found, which is proven best where as much nests as its bound says."""
    nothing: Places = (frozenset(),) * len(quilt.sizes)
    if rule == "open":
        return Chosen(frozenset(), nothing)
    model = make_model(quilt, apart=True)
    apart = kept_apart(quilt, model, make_problem(model, rule, spinning))
    alone, bound = _alone(apart)
    one = pressed_so(apart, (0,) * len(apart.blocks), rule)
    if one.nested >= bound or not apart.blocks:
        return Chosen(frozenset(), nothing, one.nested, bound)
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
    known: dict[Ways, Given] = field(default_factory=dict)

    def chosen(self, one: Given) -> Chosen:
        found, tried = one, [one]
        for ways in self._proposed():
            tried.append(self._pressed(ways))
            found = _better(found, tried[-1])
            if found.nested >= self.bound:
                return self._made(self._searched(found))
        tried += [self._pressed(ways) for ways in self._stripes()]
        for state in self._climbed(sorted(tried, key=lambda own: own.scores, reverse=True)):
            found = _better(found, self._spread(state))
        return self._made(self._searched(found))

    def _made(self, found: Given) -> Chosen:
        """The chessboard where it is as good; else the other way around where fewer blocks lie the second way then."""
        turned = self._pressed(tuple(1 - way for way in found.ways))
        if turned.scores >= found.scores and sum(self._lying(turned)) < sum(self._lying(found)):
            found = turned
        dark = self._pressed(self._chessboard)
        found = dark if dark.scores >= found.scores else found
        return Chosen(
            self._with_holders(found.twice), self.apart.second(self._lying(found), len(self.quilt.sizes)),
            found.nested, self.bound, found.solution.proof in ("parity", "elimination"),
        )

    def _lying(self, found: Given) -> Ways:
        """The ways of those blocks that have something in them which is pressed in two."""
        holding = self.apart.holds
        return tuple(way if held & found.twice else 0 for way, held in zip(found.ways, holding, strict=True))

    def _with_holders(self, twice: frozenset[Owner]) -> frozenset[str]:
        return frozenset(owner.id for inner in twice for owner in (inner, *self.apart.holders[inner]))

    def _pressed(self, ways: Ways) -> Given:
        if ways not in self.known:
            self.known[ways] = pressed_so(self.apart, ways, self.rule)
        return self.known[ways]

    @property
    def _chessboard(self) -> Ways:
        dark = [dark_places(size) for size in self.quilt.sizes]
        return tuple(int(block.place in dark[block.size]) for block in self.apart.blocks)

    def _proposed(self) -> Iterator[Ways]:
        """Where everything agrees; else the chessboard, and where much does."""
        agreement = Agreement(self.apart, self.alone, self._chessboard)
        for twice in _sets(self.apart) if agreement.could_agree() else ():
            agreed = agreement.all_agree(twice)
            if agreed is not None:
                yield agreed.ways
                break
        yield self._chessboard
        agreed = agreement.many_agree(frozenset(owner for held in self.apart.holds for owner in held))
        if agreed is not None:
            yield agreed.ways

    def _stripes(self) -> Iterator[Ways]:
        """Rows by turns, and columns by turns."""
        for lines in self._lines():
            yield tuple(line % 2 for line in lines)

    def _lines(self) -> Iterator[tuple[int, ...]]:
        """For each block the number of its row in its size; then of its column."""
        items = [self.quilt.sizes[block.size].items[block.place] for block in self.apart.blocks]
        for places in ([item.y for item in items], [item.x for item in items]):
            pairs = [(block.size, place) for block, place in zip(self.apart.blocks, places, strict=True)]
            known = {size: sorted({place for own, place in set(pairs) if own == size}) for size, _ in pairs}
            yield tuple(known[size].index(place) for size, place in pairs)

    def _climbed(self, tried: Sequence[Given]) -> list[Start]:
        """The best states of one size that are found by changing one thing after another; shaken, and climbed again."""
        small = of_one_size(self.apart)
        states = [self._climb(small, Start(own.first, own.second, own.ways)) for own in tried]
        best = max(states, key=partial(nested, small))
        for lines in self._lines():
            spots = [(block.size, line) for block, line in zip(self.apart.blocks, lines, strict=True)]
            meeting = {number for tie in small.ties for number in (tie.first_block, tie.second_block)} - {ALWAYS}
            turns = {spots[number] for number in meeting}
            for turned in sorted(turns):
                if self.work * 2 > MOST_WORK:
                    pairs = zip(best.ways, spots, strict=True)
                    shaken = replace(best, ways=tuple(1 - way if spot == turned else way for way, spot in pairs))
                    best = max(best, self._climb(small, shaken), key=partial(nested, small))
        others = sorted((state for state in states if state != best), key=partial(nested, small), reverse=True)
        return [best, *others[: MOST_SPREAD - 1]]

    def _climb(self, apart: Apart, start: Start, only_ways: bool = False) -> Start:
        darker = dict(self.apart.problem.wishes).get("darker", {}) if self.rule == "dark" else {}
        end, self.work = climb(apart, start, frozenset(darker), self.work, only_ways)
        return end

    def _spread(self, state: Start) -> Given:
        """What follows for all sizes, blocks that lie as suits these directions first; then climbed on."""
        found = self._pressed(self._climb(self.apart, state, only_ways=True).ways)
        while self.work:
            other = self._pressed(self._climb(self.apart, Start(found.first, found.second, found.ways)).ways)
            if other.scores <= found.scores:
                break
            found = other
        return found

    def _searched(self, found: Given) -> Given:
        """What an integer program finds, with its bound, where the quilt is small and more may nest, or in fewer kinds.
        """
        if found.nested >= self.bound and len(found.twice) <= 1:
            return found
        choice = FreeChoice(self.apart)
        if choice.count > MOST_VALUES:
            return found
        program = solve_program(choice.problem(self.rule), MOST_NODES, settled=False)
        self.bound = min(self.bound, self.apart.scale * program.bound)
        return _better(found, self._pressed(choice.read(program.values)))


def _sets(apart: Apart) -> Iterator[frozenset[Owner]]:
    """Sets of what may be made in two ways: small ones first, then kinds of blocks with all that is in them."""
    whole = {Owner("assembly", block.id): held for block, held in zip(apart.blocks, apart.holds, strict=True)}
    inner = sorted({owner for held in apart.holds for owner in held} - whole.keys())
    owners = [*sorted(whole), *inner]
    yield from islice((frozenset(chosen) for count in (1, 2, 3) for chosen in combinations(owners, count)), MOST_TRIES)
    kinds = (chosen for count in range(1, len(whole) + 1) for chosen in combinations(sorted(whole), count))
    yield from (frozenset().union(*(whole[kind] for kind in chosen)) for chosen in islice(kinds, MOST_TRIES))
    yield frozenset(owners)


def _better(found: Given, other: Given) -> Given:
    return other if other.scores > found.scores else found


def _alone(apart: Apart) -> tuple[tuple[int, ...], Fraction]:
    """The best values for all that is made as if it met nothing else, and the most that could nest.

    That is whatever can where blocks meet, and the most within each kind of block of each size for itself: blocks that
    have a part in common may each have another way of it.
    """
    within = [tie for tie in apart.ties if tie.is_within]
    between = sum(tie.weight for tie in apart.ties if not tie.is_within and not apart.is_impossible(tie))
    kinds: dict[tuple[int, str], list[Tie]] = {}
    for tie in within:
        block = apart.blocks[tie.first_block] if tie.first_block != ALWAYS else None
        kinds.setdefault((block.size, block.id) if block is not None else (-1, ""), []).append(tie)
    alone = sum(solve(_of_ties(apart, ties)).bound for ties in kinds.values())
    return solve(_of_ties(apart, within)).values, apart.scale * (alone + between)


def _of_ties(apart: Apart, ties: Sequence[Tie]) -> Problem:
    """The problem of one way for everything, with these junctions alone."""
    pulls, constant = pulls_of(ties, lambda value, block: value)
    return replace(apart.problem, pulls=pulls, constant=constant, total=sum(tie.weight for tie in ties))


def pressed_alike(quilt: Sewn, rule: Rule, spinning: Spinning = "middle") -> frozenset[str]:
    """Of a quilt with its second ways, the ids of what is pressed in two ways that come out the same."""
    model = make_model(quilt)
    problem = make_problem(model, rule, spinning)
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
