"""The batting of one size: how large it is, and which package or how much off which roll gives it.

In: the top's unfinished size and the rules.
Out: its size, the smallest package, the cheapest roll by area.
Never: batting that is smaller than the top.
"""

from __future__ import annotations

from fractions import Fraction

from patchwright.core.length import Length, Unfinished
from patchwright.design.rules import Rules
from patchwright.planning.finishing.buying import buy_for
from patchwright.planning.plan_finishing import BattingRoll, PlannedBatting


def batting_size(top: tuple[Unfinished, Unfinished], rules: Rules) -> tuple[Length, Length]:
    """The top with the overage on every side, rounded up to a whole inch or centimeter; never below the top."""
    width, height = ((side.length + rules.batting_overage * 2).up_to(Fraction(1)) for side in top)
    return width, height


def plan_batting(size: tuple[Length, Length], rules: Rules) -> PlannedBatting:
    """The smallest package that the batting can be cut from, however it lies, and the roll that takes the least."""
    short, long = sorted(size)
    fitting = [package for package in rules.batting_packages if min(package) >= short and max(package) >= long]
    package = min(fitting, key=lambda one: (one[0] * one[1], one), default=None)
    rolls = [_roll(width, short, long, rules) for width in rules.batting_rolls]
    roll = min(rolls, key=lambda one: (one.pieces > 1, one.length * one.width, one.width)) if rolls else None
    return PlannedBatting(package, roll)


def _roll(width: Length, short: Length, long: Length, rules: Rules) -> BattingRoll:
    """One piece across the roll where a side fits, else lengths butted side by side, whichever way takes less."""
    ways = [(short, long), (long, short)]
    whole = [along for across, along in ways if across <= width]
    if whole:
        length, pieces = min(whole), 1
    else:
        counts = [((across / width.rational()).ceil(), along) for across, along in ways]
        length, pieces = min((along * count, count) for count, along in counts)
    buy = buy_for(length, rules)
    if buy is None:
        raise ValueError("batting has no length")
    return BattingRoll(width, length, pieces, buy)
