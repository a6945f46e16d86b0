"""Which way each block lies so that all junctions agree: linear equations over two values, solved exactly.

A value lies as it does in the first way, or opposite where it is one that differs between the ways and its block lies
the second way. That two of them agree is then an equation over 0 and 1, as is, where wished, the chessboard.
In: a quilt with its blocks apart, values for all that is made, as if it met nothing else, and what may be pressed in
two ways. What nests or is spun by these values should do so in either way.
Out: a way for each block, or None where not all junctions agree that should; or the ways where many of them do.
Never: a float, or a choice that is better than what it claims, since the junctions are counted again.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import combinations

from patchwright.planning.pressing.apart import ALWAYS, Apart, Tie
from patchwright.planning.pressing.parity import Signs
from patchwright.planning.pressing.problem import Spin
from patchwright.planning.pressing.terms import Owner

_FEW = 3
"""So many groups of values are tried in all combinations; of more, all, all but one, and one."""
_ROUNDS = 4


@dataclass(frozen=True, slots=True)
class Agreed:
    """A way, 0 or 1, for each block, and how much nests then at least."""

    ways: tuple[int, ...]
    weight: int


class Agreement:
    """Tries what may be pressed in two ways."""

    def __init__(self, apart: Apart, alone: Sequence[int], chessboard: Sequence[int]) -> None:
        self.apart, self.chessboard = apart, chessboard
        spins = apart.problem.spins.values()
        straight = {spin.after: spin.before for spin in spins if not spin.is_spun(alone)}
        self.one = list(range(apart.problem.count))
        for value in sorted(straight):
            self.one[value] = self.one[straight[value]]
        """All parts of a straight seam as one value."""
        self.spun = [pair for spin in spins if spin.is_spun(alone) for pair in _spun(spin)]
        self.fixed = {self.one[value]: way for value, way in apart.problem.fixed.items()}
        self.wanted = tuple(
            tie for tie in apart.ties if not apart.is_impossible(tie)
            and (not tie.is_within or (alone[tie.first] == alone[tie.second]) == tie.equal)
        )
        self.most = sum(tie.weight for tie in self.wanted)
        self.within = [tie for tie in self.wanted if tie.is_within]

    def could_agree(self) -> bool:
        """Whether everything that should nest could if each block were pressed as it likes; else no choice will do."""
        numbers: dict[tuple[int, int], int] = {}
        ends = [
            [numbers.setdefault((self.one[value], ALWAYS if self.one[value] in self.fixed else block), len(numbers))
             for value, block in ((tie.first, tie.first_block), (tie.second, tie.second_block))]
            for tie in self.wanted
        ]
        signs, anchor = Signs(len(numbers) + 1), len(numbers)
        fixed = [(number, self.fixed[value]) for (value, _), number in numbers.items() if value in self.fixed]
        return all(signs.tie(anchor, number, way) for number, way in fixed) and all(
            signs.tie(first, second, 1 if tie.equal else -1)
            for (first, second), tie in zip(ends, self.wanted, strict=True)
        )

    def all_agree(self, twice: frozenset[Owner]) -> Agreed | None:
        """Ways with which everything nests that should, where only these are pressed in two; None where none is found.
        """
        for differing in self._choices(twice):
            found = self._solved(twice, differing, strict=True)
            if found is not None and found.weight == self.most:
                return found
        return None

    def many_agree(self, twice: frozenset[Owner]) -> Agreed | None:
        """Ways with which much nests: what counts most goes first, and what does not agree with it is left out."""
        differing = frozenset(value for group in self._groups(twice) for value in group)
        return self._solved(twice, differing, strict=False)

    def _choices(self, twice: frozenset[Owner]) -> Iterator[frozenset[int]]:
        """Values that differ between the ways, in groups that can only differ together; most of them first."""
        groups = self._groups(twice)
        count = len(groups)
        sizes = range(count, 0, -1) if count <= _FEW else sorted({count, count - 1, 1}, reverse=True)
        for size in sizes:
            for chosen in combinations(groups, size):
                differing = frozenset(value for group in chosen for value in group)
                if self._serves(twice, differing):
                    yield differing

    def _serves(self, twice: frozenset[Owner], differing: frozenset[int]) -> bool:
        """Whether each of these differs, or holds what does."""
        own = {self.apart.owners[value] for value in differing}
        return all(owner in own or any(owner in self.apart.holders[inner] for inner in own) for owner in twice)

    def _groups(self, twice: frozenset[Owner]) -> list[list[int]]:
        """Values of what is pressed in two ways, tied by junctions within it; those that meet nothing outside left."""
        parents = list(range(len(self.one)))

        def root(value: int) -> int:
            while parents[value] != value:
                parents[value] = parents[parents[value]]
                value = parents[value]
            return value

        pairs = [(tie.first, tie.second) for tie in self.within if tie.owner in twice]
        for pair in (*pairs, *(spun[:2] for spun in self.spun)):
            low, high = sorted(root(self.one[value]) for value in pair)
            parents[high] = low
        free = [value for value in dict.fromkeys(self.one) if self.apart.owners[value] in twice]
        bound = {root(value) for value in dict.fromkeys(self.one) if self.apart.owners[value] not in twice}
        bound |= {root(value) for value in self.fixed}
        met = {
            root(self.one[value]) for tie in self.wanted if not tie.is_within
            for value, block in ((tie.first, tie.first_block), (tie.second, tie.second_block)) if block != ALWAYS
        }
        groups: dict[int, list[int]] = {}
        for value in free:
            if root(value) not in bound and root(value) in met:
                groups.setdefault(root(value), []).append(value)
        return list(groups.values())

    def _solved(self, twice: frozenset[Owner], differing: frozenset[int], strict: bool) -> Agreed | None:
        places = _places(self.apart, twice)
        equations = _Equations(len(places))
        if not all(equations.add(self._spun_row(*spun)) for spun in self.spun):
            return None
        rows: Counter[int] = Counter()
        for tie in self.wanted:
            rows[self._row(tie, differing, places)] += tie.weight
        # What holds without a choice is looked at first, so that what cannot be is known early.
        of_blocks = ((1 << len(places)) - 1) << 1
        for row in sorted(rows, key=lambda row: (bool(row & of_blocks) if strict else -rows[row], row)):
            if not equations.add(row) and strict:
                return None
        found = equations.solved(self._wished(places))
        weight = sum(worth for row, worth in rows.items() if holds(row, found))
        return Agreed(tuple(0 if place == ALWAYS else found >> (1 + place) & 1 for place in places), weight)

    def _wished(self, places: Sequence[int]) -> int:
        """The chessboard, as bits."""
        lying = [(place, self.chessboard[number]) for number, place in enumerate(places) if place != ALWAYS]
        return sum(1 << (1 + place) for place in {place for place, dark in lying if dark})

    def _spun_row(self, first: int, second: int, equal: bool) -> int:
        return self._row(Tie(first, ALWAYS, second, ALWAYS, equal, 0, self.apart.owners[first]), frozenset(), ())

    def _row(self, tie: Tie, differing: frozenset[int], places: Sequence[int]) -> int:
        """The equation of a tie: bit 0 what both sides differ by, then one for each block, then one for each value."""
        row = int(not tie.equal)
        for value, block in ((self.one[tie.first], tie.first_block), (self.one[tie.second], tie.second_block)):
            way = self.fixed.get(value)
            row ^= int(way < 0) if way is not None else 1 << 1 + len(self.apart.blocks) + value
            if value in differing and block != ALWAYS and places[block] != ALWAYS:
                row ^= 1 << 1 + places[block]
        return row


def _spun(spin: Spin) -> tuple[tuple[int, int, bool], ...]:
    """What a spun seam asks for: opposite halves, and the sense of the pair that crosses it."""
    return (
        (spin.before, spin.after, False), (spin.before, spin.first, spin.first_sign > 0),
        (spin.before, spin.second, spin.second_sign > 0),
    )


def _places(apart: Apart, twice: frozenset[Owner]) -> list[int]:
    """For each block the first of those that lie the same way as it does; nothing where its way changes nothing.

    Blocks with a part in common that is pressed in one way alone, but has in it what is pressed in two, lie alike.
    """
    shared = frozenset(holder for owner in twice for holder in apart.holders[owner]) - twice
    places = [number if held & twice else ALWAYS for number, held in enumerate(apart.holds)]
    for owner in sorted(shared):
        joined = {places[number] for number, held in enumerate(apart.holds) if owner in held}
        one = ALWAYS if owner in apart.elsewhere else min(joined, default=ALWAYS)
        places = [one if place in joined else place for place in places]
    return places


def holds(row: int, found: int) -> bool:
    """Whether an equation holds with these unknowns, of which bit 0 is 1."""
    return not (row & found).bit_count() % 2


@dataclass(slots=True)
class _Equations:
    """Equations over 0 and 1, each a whole number with a bit for each unknown, and bit 0 for its right side."""

    blocks: int
    pivots: dict[int, int] = field(default_factory=dict)
    """Rows by their highest bit."""

    def add(self, row: int) -> bool:
        """Whether an equation can hold with those before it; if so, it does from now on."""
        while row > 1:
            high = row.bit_length() - 1
            known = self.pivots.get(high)
            if known is None:
                self.pivots[high] = row
                return True
            row ^= known
        return not row

    def solved(self, wished: int) -> int:
        """Unknowns by their bits: the blocks as wished where that can be, else with few of them 1."""
        own = [high for high in self.pivots if high <= self.blocks]
        lying = wished | 1
        if not all(holds(self.pivots[high], lying) for high in own):
            lying = self._few(sorted(own))
        return self._completed(lying, sorted(high for high in self.pivots if high > self.blocks))

    def _completed(self, found: int, order: Iterable[int]) -> int:
        """With the unknowns that follow from those that are known."""
        for high in order:
            if not holds(self.pivots[high], found):
                found |= 1 << high
        return found

    def _few(self, order: list[int]) -> int:
        """Blocks that follow from the free ones, these changed one by one while that makes fewer of them 1."""
        found = self._completed(1, order)
        changes = []
        for free in sorted(set(range(1, 1 + self.blocks)) - set(order)):
            change = 1 << free
            for high in order:
                if (self.pivots[high] & ~1 & change).bit_count() % 2:
                    change |= 1 << high
            changes.append(change)
        for _ in range(_ROUNDS):
            for change in changes:
                found = min(found, found ^ change, key=int.bit_count)
        return found
