"""Binding, backing and batting of one size.

In: the top's unfinished size and the rules.
Out: lengths, strips, panels and what to buy.
Never: cloth shared with the top; where binding or backing is cut from a fabric of the top, the cloth plan counts it.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, Protocol

from patchwright.core.length import Cut, Length, Unfinished
from patchwright.core.measure import System
from patchwright.design.design import Backing, Binding
from patchwright.design.rules import Rules
from patchwright.planning.plan import Buy, PlannedBacking

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


@dataclass(frozen=True, slots=True)
class BindingNeed:
    """How much binding a quilt takes: length around and extra, strips across the width, and what they give joined."""

    strip: Cut
    needed: Length
    loss: Length
    strips: int
    made: Length


def binding_need(binding: Binding, top: tuple[Unfinished, Unfinished], width: Length, rules: Rules) -> BindingNeed:
    """Count strips with their joins: n strips of the usable width joined n − 1 times must reach the need.

    A diagonal join loses one strip width, a straight one two seams. Common practice, no source.
    """
    around = (top[0].length + top[1].length) * 2
    needed = _measurable(around + rules.binding_extra, rules)
    loss = binding.strip if rules.binding_join == "diagonal" else rules.seam * 2
    strips = joined_strips(needed, width, loss)
    return BindingNeed(Cut(binding.strip), needed, loss, strips, width * strips - loss * (strips - 1))


def joined_strips(total: Length, width: Length, loss: Length) -> int:
    """The fewest strips of a width that reach a total when each join loses some of it."""
    if width <= loss:
        raise ValueError("a join would use up the whole strip")
    return max(1, ((total - loss) / (width - loss).rational()).ceil())


def _measurable(length: Length, rules: Rules) -> Length:
    """A length that a ruler shows: one with a root in it is rounded up to the step of cuts."""
    return length if length.is_rational else length.up_to(rules.round_cuts)


@dataclass(frozen=True, slots=True)
class _Panels:
    seams: Literal["none", "lengthwise", "crosswise"]
    panels: tuple[tuple[Length, Length], ...]
    length: Length


def plan_backing(backing: Backing, top: tuple[Unfinished, Unfinished], rules: Rules) -> PlannedBacking:
    """Panels both ways, the cheaper taken; a one-way print allows only the way that keeps it upright."""
    extra = rules.backing_overage * 2
    width, height = (_measurable(side.length + extra, rules) for side in top)
    upright = _panels(width, height, backing.usable_width, rules.backing_seam)
    ways = [_Panels(_seams(upright, "lengthwise"), tuple((side, height) for side in upright), height * len(upright))]
    turned = _panels(height, width, backing.usable_width, rules.backing_seam)
    ways.append(_Panels(_seams(turned, "crosswise"), tuple((width, side) for side in turned), width * len(turned)))
    if backing.direction == "lengthwise":
        ways = ways[:1]
    elif backing.direction == "crosswise":
        ways = ways[1:]
    best = min(ways, key=lambda way: (way.length, len(way.panels)))
    buy = None if backing.fabric else buy_for(best.length, rules)
    return PlannedBacking(
        backing.fabric, (width, height), best.seams, best.panels, best.length, buy, backing.usable_width
    )


def _seams(
    panels: tuple[Length, ...], way: Literal["lengthwise", "crosswise"]
) -> Literal["none", "lengthwise", "crosswise"]:
    return "none" if len(panels) == 1 else way


def _panels(across: Length, along: Length, usable: Length, seam: Length) -> tuple[Length, ...]:
    """Cut widths of the panels side by side: full widths of cloth, the last trimmed to what is still missing."""
    loss = seam * 2
    count = joined_strips(across, usable, loss)
    last = across - (usable - loss) * (count - 1)
    return (*(usable for _ in range(count - 1)), last)


def batting_size(top: tuple[Unfinished, Unfinished], rules: Rules) -> tuple[Length, Length]:
    """The top with the overage on every side, rounded up to a whole inch or centimeter; never below the top."""
    width, height = ((side.length + rules.batting_overage * 2).up_to(Fraction(1)) for side in top)
    return width, height


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


def as_buy(bought: Length, system: System) -> Buy:
    """A bought length in yards or meters."""
    if system == "in":
        return Buy(bought.rational() / YARD, "yd")
    return Buy(bought.rational() / METER, "m")
