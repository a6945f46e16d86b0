"""One fabric in one size: its pieces laid into strips, and what to buy.

In: pieces with cut sizes and counts, long pieces to be joined, the cloth's usable width and the rules.
Out: `ClothPlan`: strips in exact lengths, net length, quantity to buy, smallest usable width.
Never: a rounded piece; the integer grid is the common measure of all lengths of the list.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache
from math import lcm

from patchwright.core.length import ZERO, Length
from patchwright.core.measure import System
from patchwright.planning import cutting
from patchwright.planning.finishing.buying import ClothRules, as_buy, purchasable
from patchwright.planning.plan import Buy, Strip, StripSegment, Yield

Solver = Callable[[cutting.Yardage], cutting.YardagePlan]
LEAST_SHARE = Fraction(1, 4)
"""A segment worth joining is at least this share of the usable width."""
LEAST_SHARE_WHOLE = Fraction(7, 8)
"""The same for long strips that are joined from whole strips."""


@dataclass(frozen=True, slots=True)
class Flat:
    """Pieces cut whole: width across the cloth, height along it."""

    piece: str
    width: Length
    height: Length
    count: int
    turn: bool


@dataclass(frozen=True, slots=True)
class Long:
    """A long strip joined from strips across the cloth: its height, the length it must reach, the loss at a join."""

    piece: str
    height: Length
    total: Length
    loss: Length
    whole: bool
    """Whether it is joined from whole strips as far as possible, as binding is, rather than from any long ends."""


@dataclass(frozen=True, slots=True)
class ClothPlan:
    strips: tuple[Strip, ...]
    length: Length
    buy: Buy | None
    smallest_width: Length
    made: dict[str, int]
    joins: dict[str, int]
    segments: dict[str, int]
    proof: str
    bound: Length
    step: int
    """Which of the purchasable lengths is bought, from 1."""
    step_bound: int
    exact: bool = False
    """Whether what is bought is used completely, with nothing to spare along its length."""


class TooWide(Exception):  # noqa: N818 - it names what is wrong with the piece, and callers report it.
    """A piece that the cloth cannot give, by its id."""

    def __init__(self, piece: str, reason: str) -> None:
        super().__init__(f"{piece}: {reason}")
        self.piece = piece
        self.reason = reason


def plan_cloth(
    flats: tuple[Flat, ...], longs: tuple[Long, ...], width: Length, extra: Length, rules: ClothRules, solve: Solver
) -> ClothPlan:
    """Lay pieces into strips; `extra` is a length bought with them that is not cut in strips.

    Raises TooWide for a piece that fits in no allowed turn.
    """
    grid = _grid(flats, longs, width, extra, rules)
    fine = _Grid(grid)
    parts = tuple(
        cutting.Part(flat.piece, fine.whole(flat.width), fine.whole(flat.height), flat.count, flat.turn)
        for flat in flats
    )
    joined = tuple(
        cutting.Joined(
            long.piece, fine.whole(long.height), fine.whole(long.total), fine.whole(long.loss),
            int(fine.whole(width) * (LEAST_SHARE_WHOLE if long.whole else LEAST_SHARE)),
        )
        for long in longs
    )
    if not parts and not joined:
        return ClothPlan((), ZERO, _buy(extra, rules), ZERO, {}, {}, {}, "proven", ZERO, 0, 0)
    ascending = _usable(rules, _enough(flats, longs, width) + extra, extra, grid)
    problem = cutting.Yardage(
        fine.whole(width), parts, joined, tuple(length for _, length in ascending),
        fine.up(near_width(rules.system)),
    )
    try:
        plan = solve(problem)
    except cutting.CannotCut as reason:
        raise TooWide(reason.key, reason.reason) from None
    made = _exact(plan, ascending[plan.step - 1][0], fine, rules)
    return replace(made, exact=plan.length == ascending[plan.step - 1][1])


def near_width(system: System) -> Length:
    """How much of the usable width had better be left unused: less is worth a warning. Common practice, no source."""
    return Length(Fraction(1, 2)) if system == "in" else Length(1)


def _usable(rules: ClothRules, least: Length, extra: Length, grid: int) -> list[tuple[Length, int]]:
    """The lengths to buy up to the first that gives `least`, with what each leaves for strips in whole grid units."""
    rungs = _ladder(rules, extra, grid, 1 << max(0, least.ceil()).bit_length())
    enough = bisect_left(rungs, least, key=lambda rung: rung[0])
    usable = [(bought, rest) for _, bought, rest in rungs[: enough + 1] if rest > 0]
    return [pair for place, pair in enumerate(usable) if place == 0 or pair[1] > usable[place - 1][1]]


@lru_cache(maxsize=256)
def _ladder(rules: ClothRules, extra: Length, grid: int, least: int) -> tuple[tuple[Length, Length, int], ...]:
    """(usable, bought, what is left for strips in whole grid units) up to the first of which so much can be cut."""
    return tuple(
        (usable, bought, _Grid(grid).whole((usable - extra).down_to(Fraction(1, grid))))
        for bought, usable in purchasable(rules, Length(least))
    )


@dataclass(frozen=True, slots=True)
class _Grid:
    """Whole numbers of 1/`parts` of the unit."""

    parts: int

    def whole(self, length: Length) -> int:
        scaled = length.rational() * self.parts
        if scaled.denominator != 1:
            raise ValueError(f"{length} is not on the grid of 1/{self.parts}")
        return scaled.numerator

    def up(self, length: Length) -> int:
        """The length in whole grid units, rounded up."""
        return (length * self.parts).ceil()

    def exact(self, whole: int) -> Length:
        return Length(Fraction(whole, self.parts))


def _grid(
    flats: tuple[Flat, ...], longs: tuple[Long, ...], width: Length, extra: Length, rules: ClothRules
) -> int:
    lengths = [width, extra, rules.straightening, *rules.round_yardage]
    lengths += [side for flat in flats for side in (flat.width, flat.height)]
    lengths += [side for long in longs for side in (long.height, long.total, long.loss)]
    return lcm(*(length.rational().denominator for length in lengths))


def _enough(flats: tuple[Flat, ...], longs: tuple[Long, ...], width: Length) -> Length:
    """A length that plain practice certainly does not exceed."""
    total = ZERO
    for flat in flats:
        lays = [(flat.width, flat.height)] + ([(flat.height, flat.width)] if flat.turn else [])
        fitting = [(across, along) for across, along in lays if across <= width]
        if fitting:
            total += min(along * -(-flat.count // (width / across).floor()) for across, along in fitting)
    for long in longs:
        gain = max(width - long.loss, width / 4)
        total += long.height * ((long.total / gain.rational()).ceil() + 1)
    return total


def _buy(length: Length, rules: ClothRules) -> Buy | None:
    return as_buy(purchasable(rules, length)[-1][0], rules.system) if length > ZERO else None


def _exact(plan: cutting.YardagePlan, bought: Length, fine: _Grid, rules: ClothRules) -> ClothPlan:
    strips = tuple(
        Strip(
            height=fine.exact(strip.height), count=strip.count,
            yields=tuple(
                Yield(cut.key, cut.each, fine.exact(cut.width), fine.exact(cut.height), cut.turned, cut.stack)
                for cut in strip.cuts
            ),
            segments=tuple(StripSegment(part.key, fine.exact(part.length)) for part in strip.segments),
            used=fine.exact(strip.used),
        )
        for strip in plan.strips
    )
    segments: dict[str, int] = {}
    for strip in plan.strips:
        for part in strip.segments:
            segments[part.key] = segments.get(part.key, 0) + strip.count
    return ClothPlan(
        strips, fine.exact(plan.length), as_buy(bought, rules.system), fine.exact(plan.smallest_width),
        dict(plan.made), dict(plan.joins), segments, plan.proof, fine.exact(plan.length_bound),
        plan.step, plan.step_bound,
    )
