"""A quilt with its blocks kept apart: which junctions each brings about, with what, in whichever way it is pressed.

In: a quilt, its model with the blocks apart, and its problem with one way for everything.
Out: `Apart`: the blocks of all centers, what each holds, and every junction between values of blocks and of the top.
Never: a way chosen for a block.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from math import lcm

from patchwright.planning.pressing.model import Model
from patchwright.planning.pressing.problem import Problem, Pull, Spin
from patchwright.planning.pressing.sewn import Sewn
from patchwright.planning.pressing.terms import Owner, Seam, SeamEnd

ALWAYS = -1
"""In place of a block: what is pressed the first way wherever it lies."""


@dataclass(frozen=True, slots=True)
class Block:
    """A block of a center: its size, its place among the parts of that, and its id."""

    size: int
    place: int
    id: str


@dataclass(frozen=True, slots=True)
class Tie:
    """Values of two blocks, or of one, that are equal or opposite where junctions of this weight nest."""

    first: int
    first_block: int
    second: int
    second_block: int
    equal: bool
    weight: int
    owner: Owner
    """Whose line it is that they meet on."""

    @property
    def is_within(self) -> bool:
        return self.owner.kind in ("unit", "assembly")


@dataclass(frozen=True, slots=True)
class Apart:
    """All sizes together."""

    problem: Problem
    """With one way for everything."""
    blocks: tuple[Block, ...]
    holds: tuple[frozenset[Owner], ...]
    """By block, itself and all that it is made of."""
    owners: dict[int, Owner]
    """By value, whose seam it is."""
    holders: dict[Owner, frozenset[Owner]]
    """By what is made, all that it is a part of."""
    elsewhere: frozenset[Owner]
    """What lies in borders as well, or there alone."""
    ties: tuple[Tie, ...]
    scale: Fraction
    """What a weight of one stands for: a fraction of a size's junctions."""

    @property
    def total(self) -> int:
        return sum(tie.weight for tie in self.ties)

    def is_impossible(self, tie: Tie) -> bool:
        """Whether these junctions cannot nest, whatever is chosen."""
        fixed = self.problem.fixed
        if tie.first == tie.second and tie.first_block == tie.second_block:
            return not tie.equal
        if tie.first in fixed and tie.second in fixed:
            return (fixed[tie.first] == fixed[tie.second]) != tie.equal
        return False

    def second(self, ways: tuple[int, ...], sizes: int) -> tuple[frozenset[int], ...]:
        """For each size the places of the blocks whose way is 1."""
        lying = [(block.size, block.place) for block, way in zip(self.blocks, ways, strict=True) if way]
        return tuple(frozenset(place for own, place in lying if own == size) for size in range(sizes))


def pulls_of(ties: Iterable[Tie], shown: Callable[[int, int], int]) -> tuple[tuple[Pull, ...], int]:
    """The ties as pulls between the values that blocks show, equal ones together, and the weight that always nests.

    `shown` gives the value that stands for one of the first way in a block.
    """
    weights: dict[tuple[int, int, bool], int] = {}
    for tie in ties:
        low, high = sorted((shown(tie.first, tie.first_block), shown(tie.second, tie.second_block)))
        weights[low, high, tie.equal] = weights.get((low, high, tie.equal), 0) + tie.weight
    constant = sum(weight for key, weight in weights.items() if key[0] == key[1] and key[2])
    return tuple(Pull(*key, weight) for key, weight in weights.items() if key[0] != key[1]), constant


def spins_of_both(problem: Problem, second: Mapping[int, int]) -> dict[tuple[Seam, int], Spin]:
    """The crossings of both ways; `second` gives the value of the second way by that of the first."""
    made = dict(problem.spins)
    for (seam, number), spin in problem.spins.items():
        if spin.before in second:
            twin = replace(seam, owner=replace(seam.owner, variant=1))
            before, after, first, other = (
                second.get(value, value) for value in (spin.before, spin.after, spin.first, spin.second)
            )
            made[twin, number] = replace(spin, before=before, after=after, first=first, second=other)
    return made


def kept_apart(quilt: Sewn, model: Model, problem: Problem) -> Apart:
    """Gather what the blocks bring about, from a model that was made with them apart."""
    blocks = tuple(
        Block(index, place, item.ref)
        for index, size in enumerate(quilt.sizes) if size.by_block is None
        for place, item in enumerate(size.items) if item.part == "block" and item.kind == "assembly"
    )
    gathered = _Gathered(quilt, model, problem, blocks)
    ties = gathered.ties()
    return Apart(
        problem, blocks, tuple(frozenset(gathered.held[block.size, block.id]) for block in blocks),
        {spin.after: seam.owner for (seam, _), spin in problem.spins.items()}
        | {number: seam.owner for (seam, _), number in reversed(problem.halves.items())}, _holders(model),
        frozenset(owner for (_, owner), count in gathered.rest.items() if count), ties, gathered.scale,
    )


def _holders(model: Model) -> dict[Owner, frozenset[Owner]]:
    """Holders with their holders."""
    made: dict[Owner, frozenset[Owner]] = {}
    for owner in model.counts:
        found, waiting = set(), [owner]
        while waiting:
            more = [holder for holder in model.holders.get(waiting.pop(), ()) if holder not in found]
            found.update(more)
            waiting += more
        made[owner] = frozenset(found)
    return made


class _Gathered:
    """Finds what lies in what, and gathers the ties of all blocks."""

    def __init__(self, quilt: Sewn, model: Model, problem: Problem, blocks: tuple[Block, ...]) -> None:
        self.model, self.problem, self.blocks = model, problem, blocks
        self.numbers = {(block.size, block.place + 1): number for number, block in enumerate(blocks)}
        self.parts = {made.id: made for made in quilt.assemblies}
        self.held: dict[tuple[int, str], Counter[Owner]] = {}
        for block in blocks:
            if (block.size, block.id) not in self.held:
                self.held[block.size, block.id] = self._held(block.id, block.size)
        inside: Counter[tuple[int, Owner]] = Counter()
        for block in blocks:
            for owner, count in self.held[block.size, block.id].items():
                inside[block.size, owner] += count
        self.rest = {
            (size, owner): count - inside[size, owner]
            for owner, counts in model.counts.items() for size, count in enumerate(counts) if count
        }
        totals = [sum(counts[size] for counts in model.meetings.values()) for size in range(len(model.sizes))]
        common = lcm(1, *(total for total in totals if total))
        self.scale = Fraction(1, common)
        self.worth = [common // total if total else 0 for total in totals]

    def _held(self, id: str, size: int) -> Counter[Owner]:
        """An assembly and everything that it is made of in a size."""
        held = Counter({Owner("assembly", id): 1})
        for part in (part for line in self.parts[id].lines for part in line if part.sizes[size] is not None):
            if part.kind == "unit":
                held[Owner("unit", part.ref)] += 1
            elif part.kind == "assembly":
                held.update(self._held(part.ref, size))
        return held

    def ties(self) -> tuple[Tie, ...]:
        """Equal ones together, in the order of the seams."""
        weights: dict[Tie, int] = {}
        for tie in self._ties():
            alone = Tie(tie.first, tie.first_block, tie.second, tie.second_block, tie.equal, 0, tie.owner)
            weights[alone] = weights.get(alone, 0) + tie.weight
        return tuple(
            Tie(tie.first, tie.first_block, tie.second, tie.second_block, tie.equal, weight, tie.owner)
            for tie, weight in weights.items()
        )

    def _ties(self) -> Iterator[Tie]:
        within = [known for known in self.model.meetings.items() if known[0][0].owner.kind in ("unit", "assembly")]
        for meeting, counts in (*within, *self.model.apart.items()):
            line, first, second = meeting
            if self.model.never_nests(meeting):
                continue
            values, equal = (self._value(first), self._value(second)), first.sign == second.sign
            for size, count in enumerate(counts):
                if count and line.owner.kind in ("unit", "assembly"):
                    each = self.worth[size] * (count // self.model.counts[line.owner][size])
                    for block, times in self._places(size, line.owner):
                        yield Tie(values[0], block, values[1], block, equal, each * times, line.owner)
                elif count:
                    blocks = [self.numbers.get((size, end.seam.owner.variant), ALWAYS) for end in (first, second)]
                    yield Tie(values[0], blocks[0], values[1], blocks[1], equal, count * self.worth[size], line.owner)

    def _places(self, size: int, owner: Owner) -> Iterator[tuple[int, int]]:
        """The blocks that something lies in, and how often; what is left lies in borders."""
        for number, block in enumerate(self.blocks):
            times = self.held[block.size, block.id].get(owner, 0) if block.size == size else 0
            if times:
                yield number, times
        if self.rest[size, owner]:
            yield ALWAYS, self.rest[size, owner]

    def _value(self, end: SeamEnd) -> int:
        seam = end.seam
        owner = Owner(seam.owner.kind, seam.owner.id)
        return self.problem.halves[Seam(owner, seam.part, seam.line, seam.place), end.half]
