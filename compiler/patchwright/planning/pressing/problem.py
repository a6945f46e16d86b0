"""Model → the problem to solve: directions as numbers, who must agree with whom, and what counts in which order.

In: a model and the house's rule.
Out: a `Problem` with one value, 1 forward or -1 back, for each half of each seam, and its score as one whole number.
Never: an open seam; those that are always open are no part of it. Opening a seam never lets another junction nest and
never saves a variant, so that a best plan has none; where the house presses everything open, there is nothing to solve.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import gcd, lcm

from patchwright.planning.pressing.model import Crossing, Half, Model
from patchwright.planning.pressing.terms import Owner, Seam, Spinning

_NEST = ("nest", "variants", "spun", "points", "bulk", "sashing", "darker", "rule")
_DARK = ("darker", "nest", "variants", "spun", "points", "bulk", "sashing", "rule")
LEVELS = {"nest": _NEST, "dark": _DARK}
"""What counts, in order: the first always before the second, and so on. Open seams, of which a best plan has none,
would stand after variants."""


@dataclass(frozen=True, slots=True)
class Pull:
    """Two values that should be equal, or opposite, for junctions of this weight to nest."""

    first: int
    second: int
    equal: bool
    weight: int


@dataclass(frozen=True, slots=True)
class Spin:
    """A line whose halves are equal (straight), or spun: opposite, in the sense of the pair that crosses there."""

    before: int
    after: int
    first: int
    first_sign: int
    second: int
    second_sign: int

    def is_spun(self, values: Sequence[int]) -> bool:
        return values[self.before] != values[self.after]

    def is_possible(self, before: int, after: int, first: int, second: int) -> bool:
        """The half before the crossing has at it the sense of its value; spun, the crossing pair must have it too."""
        return before == after or before == first * self.first_sign == second * self.second_sign


@dataclass(frozen=True, slots=True)
class Twin:
    """Values that differ only where `flag` has this value; where that is 1, it says that a class has two variants.

    A part's flag is the first value of its holder's twin, beside one that is never 1: whoever holds what is made in two
    variants is made in two itself.
    """

    flag: int
    first: int
    second: int
    unless: int = 1


@dataclass(frozen=True, slots=True)
class Problem:
    """All values are 1 or -1."""

    halves: dict[Half, int]
    """The value that stands for each half of a seam; both halves share one where it cannot be spun."""
    count: int
    fixed: dict[int, int]
    pulls: tuple[Pull, ...]
    constant: int
    """Weight of junctions that nest whatever is chosen."""
    total: int
    """Weight of all junctions."""
    scale: Fraction
    """What a weight of one stands for: a fraction of a size's junctions."""
    spins: dict[tuple[Seam, int], Spin]
    """By line and number of the crossing, from 1 at its start; between two crossings a line has a value of its own."""
    twins: tuple[Twin, ...]
    flags: dict[Owner, int]
    wishes: tuple[tuple[str, dict[int, int]], ...]
    """By reason, for each value how much it would be 1."""
    levels: tuple[str, ...]

    def is_possible(self, values: Sequence[int]) -> bool:
        return (
            all(values[number] == value for number, value in self.fixed.items())
            and all(s.is_possible(values[s.before], values[s.after], values[s.first], values[s.second])
                    for s in self.spins.values())
            and all(values[t.first] == values[t.second] or values[t.flag] == t.unless for t in self.twins)
        )

    def nested(self, values: Sequence[int]) -> int:
        """Weight of the junctions that nest."""
        return self.constant + sum(
            pull.weight for pull in self.pulls if (values[pull.first] == values[pull.second]) == pull.equal
        )

    def scores(self, values: Sequence[int]) -> tuple[int, ...]:
        """What is reached on each level, counted from the two parts of the problem that are not wishes, and wishes."""
        wished = {reason: sum(values[number] * much for number, much in wish.items()) for reason, wish in self.wishes}
        wished["nest"] = self.nested(values)
        wished["variants"] = -sum(values[flag] == 1 for flag in self.flags.values())
        wished["spun"] = -sum(spin.is_spun(values) for spin in self.spins.values())
        return tuple(wished.get(level, 0) for level in self.levels)

    def factors(self) -> dict[str, int]:
        """What one step on each level counts in a single number, so that a higher level always outweighs the lower."""
        ranges = {reason: 2 * sum(abs(much) for much in wish.values()) for reason, wish in self.wishes}
        ranges["nest"] = self.total
        ranges["variants"] = len(self.flags)
        ranges["spun"] = len(self.spins)
        factors, factor = {}, 1
        for level in reversed(self.levels):
            factors[level] = factor
            factor *= ranges.get(level, 0) + 1
        return factors


def make_problem(model: Model, rule: str, spinning: Spinning = "middle") -> Problem:
    """Number the halves of all seams and gather what counts; `spinning` says which crossings may be spun."""
    spins = {seam: _allowed(crossings, spinning) for seam, crossings in model.spins.items()}
    halves = _numbered(model, spins)
    count = max(halves.values(), default=-1) + 1
    owners = [o for o in model.counts if o.variant == 1 and Owner(o.kind, o.id) in model.counts]
    flags = {Owner(owner.kind, owner.id): count + number for number, owner in enumerate(owners)}
    never = count + len(flags)
    fixed = {halves[seam, half]: value for seam, value in model.fixed.items() for half in (0, 1)}
    pulls, constant, total, scale = _pulls(model, halves)
    twins = (*_twins(model, halves, flags), *_holding(model, flags, never))
    return Problem(
        halves, never + bool(flags), fixed | ({never: -1} if flags else {}),
        pulls, constant, total, scale,
        {
            (seam, number): _spin(halves[seam, 0] + place, crossing, halves)
            for seam, known in spins.items() for place, (number, crossing) in enumerate(known)
        },
        tuple(dict.fromkeys(twins)), flags, tuple(_wishes(model, halves)), LEVELS[rule],
    )


def _allowed(crossings: Sequence[Crossing], spinning: Spinning) -> list[tuple[int, Crossing]]:
    """The crossings that may be spun, with their numbers from 1."""
    return [
        (number, crossing) for number, crossing in enumerate(crossings, 1)
        if spinning == "any" or (spinning == "middle" and crossing.is_middle)
    ]


def _numbered(model: Model, spins: Mapping[Seam, Sequence[object]]) -> dict[Half, int]:
    halves: dict[Half, int] = {}
    count = 0
    for seam in model.seams:
        halves[seam, 0], halves[seam, 1] = count, count + len(spins.get(seam, ()))
        count = halves[seam, 1] + 1
    return halves


def _pulls(model: Model, halves: dict[Half, int]) -> tuple[tuple[Pull, ...], int, int, Fraction]:
    """Meetings by the values that they join; weights are fractions of each size's junctions, as whole numbers."""
    totals = [sum(counts[index] for counts in model.meetings.values()) for index in range(len(model.sizes))]
    pairs: dict[tuple[int, int, bool], Fraction] = {}
    for meeting, counts in model.meetings.items():
        _, first, second = meeting
        if model.never_nests(meeting):
            continue
        weight = sum((Fraction(count, of) for count, of in zip(counts, totals, strict=True) if of), Fraction(0))
        low, high = sorted((halves[first.seam, first.half], halves[second.seam, second.half]))
        key = (low, high, first.sign == second.sign)
        pairs[key] = pairs.get(key, Fraction(0)) + weight
    common = lcm(1, *(weight.denominator for weight in pairs.values()))
    whole = {key: int(weight * common) for key, weight in pairs.items()}
    unit = gcd(*whole.values()) or 1
    pulls = tuple(Pull(*key, weight // unit) for key, weight in whole.items() if key[0] != key[1])
    constant = sum(weight // unit for key, weight in whole.items() if key[0] == key[1] and key[2])
    return pulls, constant, sum(whole.values()) // unit, Fraction(unit, common)


def _spin(before: int, crossing: Crossing, halves: dict[Half, int]) -> Spin:
    first, second = crossing.first, crossing.second
    return Spin(
        before, before + 1, halves[first.seam, first.half], first.sign,
        halves[second.seam, second.half], second.sign,
    )


def _twins(model: Model, halves: dict[Half, int], flags: dict[Owner, int]) -> Iterator[Twin]:
    for seam in model.seams:
        owner = Owner(seam.owner.kind, seam.owner.id)
        if seam.owner.variant == 1 and owner in flags:
            twin = Seam(owner, seam.part, seam.line, seam.place)
            for number in range(halves[seam, 1] - halves[seam, 0] + 1):
                yield Twin(flags[owner], halves[twin, 0] + number, halves[seam, 0] + number)


def _holding(model: Model, flags: dict[Owner, int], never: int) -> Iterator[Twin]:
    for inner, holders in model.holders.items():
        if inner in flags:
            yield from (Twin(flags[holder], flags[inner], never) for holder in holders if holder in flags)


def _wishes(model: Model, halves: dict[Half, int]) -> Iterator[tuple[str, dict[int, int]]]:
    """Every half of a seam has one vote for each reason, however often it occurs."""
    for reason, votes in model.wishes.items():
        wish: Counter[int] = Counter()
        for half, much in votes.items():
            wish[halves[half]] += (much > 0) - (much < 0)
        yield reason, {number: (much > 0) - (much < 0) for number, much in sorted(wish.items()) if much}
    yield "rule", {number: plain_way(seam) for (seam, _), number in halves.items()}


def plain_way(seam: Seam) -> int:
    """The rule that can be said in a sentence: odd rows to the right, even rows to the left, row seams down."""
    return -1 if seam.part == "within" and seam.line % 2 else 1
