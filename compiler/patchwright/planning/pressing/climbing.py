"""Better ways for blocks, found by changing one thing after another.

In: a quilt with its blocks apart, and where to begin: directions of both ways, and a way for each block.
Out: the same, with which at least as much nests.
Rule: in every round each thing changes at most once, always the one that gains most or loses least, and the best state
that was passed is kept; it ends with a round that gains nothing, or when its work is done.
Never: a proof, a spin that was not there, or a choice that depends on chance.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from patchwright.planning.pressing.apart import ALWAYS, Apart, Tie

MOST_WORK = 100_000
"""So many looks at junctions, in all climbs for one quilt."""
ENOUGH_BLOCKS = 20
_BLOCK = 2
_Thing = tuple[int, int]
"""(way, value), or (2, number of a block)."""


@dataclass(frozen=True, slots=True)
class Start:
    """A state: directions of both ways by value, and the way, 0 or 1, of each block."""

    first: tuple[int, ...]
    second: tuple[int, ...]
    ways: tuple[int, ...]


def climb(
    apart: Apart, start: Start, kept: frozenset[int], most_work: int = MOST_WORK, only_ways: bool = False
) -> tuple[Start, int]:
    """Where more nests, if that is found, and the work left; values that are `kept` do not change, or none does."""
    climber = _Climber(apart, start, kept, most_work, only_ways)
    while climber.round():
        pass
    first, second = climber.values
    return Start(tuple(first), tuple(second), tuple(climber.ways)), max(climber.work, 0)


def nested(apart: Apart, state: Start) -> int:
    """The weight of the junctions that nest."""
    values = (state.first, state.second)

    def shown(value: int, block: int) -> int:
        return values[0 if block == ALWAYS else state.ways[block]][value]

    return sum(
        tie.weight for tie in apart.ties
        if (shown(tie.first, tie.first_block) == shown(tie.second, tie.second_block)) == tie.equal
    )


def of_one_size(apart: Apart) -> Apart:
    """The same with the junctions of one size alone: the smallest with enough blocks to show what serves them all."""
    counts = Counter(block.size for block in apart.blocks)
    size = min(counts, key=lambda own: (counts[own] < ENOUGH_BLOCKS, abs(counts[own] - ENOUGH_BLOCKS), own))
    inside = {ALWAYS, *(number for number, block in enumerate(apart.blocks) if block.size == size)}
    return replace(apart, ties=tuple(
        tie for tie in apart.ties if tie.first_block in inside and tie.second_block in inside
    ))


class _Climber:
    """A state, with what changing each thing would gain."""

    def __init__(
        self, apart: Apart, start: Start, kept: frozenset[int], most_work: int, only_ways: bool
    ) -> None:
        self.values = [list(start.first), list(start.second)]
        self.ways = list(start.ways)
        self.work = most_work
        self.ties = apart.ties
        halves = apart.problem.halves
        self.partner = {
            start: halves[seam, 1] for (seam, half), start in halves.items() if not half and halves[seam, 1] != start
        }
        self.partner |= {after: before for before, after in self.partner.items()}
        crossing = {value for spin in apart.problem.spins.values() if any(spin.is_spun(own) for own in self.values)
                    for value in (spin.before, spin.after, spin.first, spin.second)}
        held = kept | apart.problem.fixed.keys() | crossing
        held |= {other for value, other in self.partner.items() if value in held}
        self.of_value: dict[int, list[int]] = {}
        self.of_block: dict[int, list[int]] = {}
        for number, tie in enumerate(self.ties):
            for value in {tie.first, tie.second}:
                self.of_value.setdefault(value, []).append(number)
            for block in {tie.first_block, tie.second_block} - {ALWAYS}:
                self.of_block.setdefault(block, []).append(number)
        twice = {value for value, owner in apart.owners.items() if any(owner in own for own in apart.holds)}
        firsts = [value for value in self.of_value if value not in held and value <= self.partner.get(value, value)]
        self.things: list[_Thing] = [(_BLOCK, block) for block in self.of_block]
        if not only_ways:
            self.things += [(way, value) for way in (0, 1) for value in firsts if not way or value in twice]
        self.one = [min(value, self.partner.get(value, value)) for value in range(apart.problem.count)]

    def round(self) -> bool:
        """Whether a round of changes gained anything and there is work left."""
        gains = dict.fromkeys(self.things, 0)
        self._note(gains, range(len(self.ties)), 1)
        made: list[_Thing] = []
        reached = best = length = 0
        while gains and self.work > 0:
            thing = max(gains, key=gains.__getitem__)
            reached += gains.pop(thing)
            touched = self._touched(thing)
            self.work -= len(touched)
            self._note(gains, touched, -1)
            self._change(thing)
            self._note(gains, touched, 1)
            made.append(thing)
            if reached > best:
                best, length = reached, len(made)
        for thing in reversed(made[length:]):
            self._change(thing)
        return best > 0 and self.work > 0

    def _touched(self, thing: _Thing) -> list[int]:
        kind, number = thing
        if kind == _BLOCK:
            return self.of_block[number]
        both = self.of_value[number]
        if number in self.partner and self.partner[number] in self.of_value:
            both = list(dict.fromkeys([*both, *self.of_value[self.partner[number]]]))
        return both

    def _change(self, thing: _Thing) -> None:
        kind, number = thing
        if kind == _BLOCK:
            self.ways[number] = 1 - self.ways[number]
        else:
            for half in {number, self.partner.get(number, number)}:
                self.values[kind][half] = -self.values[kind][half]

    def _note(self, gains: dict[_Thing, int], numbers: Iterable[int], times: int) -> None:
        """Enter what changing each thing gains by these junctions, or take it out."""
        for number in numbers:
            tie = self.ties[number]
            first, second = self._shown(tie.first, tie.first_block), self._shown(tie.second, tie.second_block)
            worth = -times * tie.weight if (first[1] == second[1]) == tie.equal else times * tie.weight
            for thing in self._turning(tie, first, second):
                if thing in gains:
                    gains[thing] += worth

    def _shown(self, value: int, block: int) -> tuple[int, int, bool]:
        """The way in which a value lies, what it is then, and whether it is another in the other way of its block."""
        if block == ALWAYS:
            return 0, self.values[0][value], False
        way = self.ways[block]
        known = self.values[way][value]
        return way, known, known != self.values[1 - way][value]

    def _turning(self, tie: Tie, first: tuple[int, int, bool], second: tuple[int, int, bool]) -> Iterator[_Thing]:
        """What would change whether these junctions nest."""
        one, two = (first[0], self.one[tie.first]), (second[0], self.one[tie.second])
        if one != two:
            yield one
            yield two
        if tie.first_block == tie.second_block:
            if first[2] != second[2]:
                yield _BLOCK, tie.first_block
            return
        if first[2]:
            yield _BLOCK, tie.first_block
        if second[2]:
            yield _BLOCK, tie.second_block
