"""The whole choice as one problem: both ways of everything, the way of every block, and what each block then shows.

In: a quilt with its blocks apart, and the house's rule.
Out: a `Problem` whose best values choose the ways of all blocks and all directions at once, and how to read them.
Never: a value chosen.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from patchwright.planning.pressing.apart import ALWAYS, Apart, pulls_of, spins_of_both
from patchwright.planning.pressing.problem import Problem, Twin
from patchwright.planning.pressing.terms import Owner, Rule

LEVELS = {"nest": ("nest", "variants", "seconds"), "dark": ("darker", "nest", "variants", "seconds")}
"""What counts, in order; all that comes after is decided once the ways are known."""


@dataclass(slots=True)
class FreeChoice:
    """Numbers the values: those of the first way, of the second, ways, flags, and what each block shows."""

    apart: Apart
    owners: tuple[Owner, ...] = ()
    """What may be pressed in two ways: all blocks, and what is in them."""
    count: int = 0
    second: dict[int, int] = field(default_factory=dict)
    """By a value of the first way, that of the second."""
    ways: list[int] = field(default_factory=list)
    """By block, 1 where it lies the second way."""
    flags: dict[Owner, int] = field(default_factory=dict)
    shown: dict[tuple[int, int], int] = field(default_factory=dict)
    """By block and value of the first way, what shows in it."""

    def __post_init__(self) -> None:
        self.owners = tuple(sorted({owner for held in self.apart.holds for owner in held}))
        self.count = self.apart.problem.count
        for value in range(self.count):
            if self.apart.owners[value] in self.owners:
                self.second[value] = self._next()
        self.ways = [self._next() for _ in self.apart.blocks]
        self.flags = {owner: self._next() for owner in self.owners}
        for tie in self.apart.ties:
            for value, block in ((tie.first, tie.first_block), (tie.second, tie.second_block)):
                if block != ALWAYS and (block, value) not in self.shown:
                    self.shown[block, value] = self._next()

    def _next(self) -> int:
        self.count += 1
        return self.count - 1

    def problem(self, rule: Rule) -> Problem:
        """Both ways at once."""
        base, never = self.apart.problem, self.count
        fixed = base.fixed | {self.second[value]: way for value, way in base.fixed.items() if value in self.second}
        pulls, constant = pulls_of(self.apart.ties, self._shown)
        darker = {
            either: much for value, much in dict(base.wishes).get("darker", {}).items()
            for either in (value, self.second.get(value, value))
        }
        wishes = ("darker", darker), ("seconds", dict.fromkeys(self.ways, -1))
        spins = spins_of_both(base, self.second)
        return Problem(
            {}, self.count + 1, fixed | {never: -1}, pulls, constant, self.apart.total, self.apart.scale, spins,
            tuple(self._twins(never)), self.flags,
            tuple(wish for wish in wishes if wish[0] in LEVELS[rule]), LEVELS[rule],
        )

    def _shown(self, value: int, block: int) -> int:
        return self.shown.get((block, value), value)

    def _twins(self, never: int) -> Iterator[Twin]:
        """A block shows its way; ways differ only in what is flagged; whoever holds that is flagged as well."""
        for (block, value), shown in self.shown.items():
            yield Twin(self.ways[block], shown, value)
            yield Twin(self.ways[block], shown, self.second[value], -1)
        for value, other in self.second.items():
            yield Twin(self.flags[self.apart.owners[value]], value, other)
        for inner, flag in self.flags.items():
            for holder in sorted(self.apart.holders[inner]):
                if holder in self.flags:
                    yield Twin(self.flags[holder], flag, never)

    def read(self, values: Sequence[int]) -> tuple[int, ...]:
        """The way of each block, 0 or 1; one that shows the same either way lies the first."""
        flagged = {owner for owner, flag in self.flags.items() if values[flag] == 1}
        return tuple(
            int(values[way] == 1 and bool(held & flagged))
            for way, held in zip(self.ways, self.apart.holds, strict=True)
        )

