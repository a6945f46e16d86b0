"""What is bought of a length of cloth: the house's steps, shrinkage and straightening.

In: a length that must be cut, and the rules.
Out: lengths that can be bought, in yards or meters.
Never: a length that is shorter than what is cut from it, once shrunk and straightened.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Protocol

from patchwright.core.length import Length
from patchwright.core.measure import System
from patchwright.planning.plan_cloth import Buy

YARD = Fraction(36)
METER = Fraction(100)


class ClothRules(Protocol):
    """The rules by which a length of cloth is bought; the house's rules are such."""

    @property
    def system(self) -> System: ...
    @property
    def round_yardage(self) -> tuple[Length, ...]: ...
    @property
    def straightening(self) -> Length: ...
    @property
    def shrinkage(self) -> Fraction: ...
    def __hash__(self) -> int: ...


def joined_strips(total: Length, width: Length, loss: Length) -> int:
    """The fewest strips of a width that reach a total when each join loses some of it."""
    if width <= loss:
        raise ValueError("a join would use up the whole strip")
    return max(1, ((total - loss) / (width - loss).rational()).ceil())


def measurable(length: Length, step: Fraction) -> Length:
    """A length that a ruler shows: one with a root in it is rounded up to the step of cuts."""
    return length if length.is_rational else length.up_to(step)


def purchasable(rules: ClothRules, least: Length) -> tuple[tuple[Length, Length], ...]:
    """(bought, usable) lengths in ascending order, up to the first of which `least` can be cut.

    Usable is what is left after shrinkage and straightening.
    """
    made: list[tuple[Length, Length]] = []
    multiples = dict.fromkeys(rules.round_yardage, 1)
    while True:
        bought = min(step * number for step, number in multiples.items())
        for step, number in multiples.items():
            if step * number == bought:
                multiples[step] = number + 1
        usable = bought * (1 - rules.shrinkage) - rules.straightening
        if usable.sign() > 0:
            made.append((bought, usable))
            if usable >= least:
                return tuple(made)


def buy_for(length: Length, rules: ClothRules) -> Buy | None:
    """The least quantity that can be bought from which a length can be cut; nothing where no length is needed."""
    if length.sign() <= 0:
        return None
    return as_buy(purchasable(rules, length)[-1][0], rules.system)


def bought_for(length: Length, rules: ClothRules) -> Fraction:
    """The yards or meters of that quantity, 0 where nothing is bought."""
    buy = buy_for(length, rules)
    return buy.amount if buy is not None else Fraction(0)


def is_used_up(length: Length, rules: ClothRules) -> bool:
    """Whether a length takes all that is bought for it, and nothing is added for straightening."""
    return length.sign() > 0 and not rules.straightening and purchasable(rules, length)[-1][1] == length


def as_buy(bought: Length, system: System) -> Buy:
    """A bought length in yards or meters."""
    if system == "in":
        return Buy(bought.rational() / YARD, "yd")
    return Buy(bought.rational() / METER, "m")
