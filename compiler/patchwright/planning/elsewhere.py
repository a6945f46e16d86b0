"""What to ask for where cloth is sold in the other system of measure: yards as meters, meters as yards.

In: a finished plan.
Out: the same plan with every quantity to buy, and the sizes that a buyer compares, in the other system as well.
Never: a length to cut; those are in the pattern's own system alone.
Source: 1 in = 2.54 cm and 1 yd = 0.9144 m, exactly, as the international yard and pound agreement of 1959 has them.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from math import ceil

from patchwright.core.length import Length
from patchwright.core.measure import CENTIMETERS_PER_INCH, System
from patchwright.planning.plan import Buy, Elsewhere, Plan

CENTIMETERS_PER_YARD = 36 * CENTIMETERS_PER_INCH
STEP = {"in": Fraction(1, 2), "cm": Fraction(1)}
"""Steps of sizes in each system; what is bought is rounded up to them, finished sizes to the nearest."""


def with_other_measures(plan: Plan) -> Plan:
    """The plan with its quantities in the other system, where the house wants them told."""
    if not plan.rules.other_measures:
        return plan
    system: System = "cm" if plan.system == "in" else "in"
    amounts = tuple(dict.fromkeys(buy for buy in _bought(plan) if buy.unit in ("yd", "m")))
    steps = [step.rational() for step in plan.rules.round_elsewhere]
    made = Elsewhere(
        system,
        tuple((buy, _asked_for(buy, steps)) for buy in amounts),
        _up(_converted(plan.rules.usable_width, system), system),
        tuple(_each(size.finished[0].length, size.finished[1].length, system, up=False) for size in plan.sizes),
        tuple(_each(*size.batting, system, up=True) for size in plan.sizes),
    )
    return replace(plan, elsewhere=made)


def _bought(plan: Plan) -> Iterator[Buy]:
    """Every quantity that the plan buys, in its order."""
    for fabric in plan.fabrics:
        own = (fabric.sizes, *(other.sizes for other in fabric.alternatives))
        yield from (size.buy for sizes in own for size in sizes if size is not None and size.buy is not None)
    for size in plan.sizes:
        yield from (part.buy for part in (size.binding, size.backing) if part is not None and part.buy is not None)


def _asked_for(buy: Buy, steps: Sequence[Fraction]) -> Buy:
    """The least quantity of the other system's steps that is no less cloth."""
    if buy.unit == "yd":
        exact = buy.amount * CENTIMETERS_PER_YARD
        return Buy(min(ceil(exact / step) * step for step in steps) / 100, "m")
    exact = buy.amount * 100 / CENTIMETERS_PER_INCH
    return Buy(min(ceil(exact / step) * step for step in steps) / 36, "yd")


def _converted(length: Length, system: System) -> Length:
    """A length in the other system, exactly; `system` is the one to come to."""
    return length * CENTIMETERS_PER_INCH if system == "cm" else length * (1 / CENTIMETERS_PER_INCH)


def _each(width: Length, height: Length, system: System, up: bool) -> tuple[Length, Length]:
    across, down = _converted(width, system), _converted(height, system)
    if up:
        return _up(across, system), _up(down, system)
    return across.nearest(STEP[system]), down.nearest(STEP[system])


def _up(length: Length, system: System) -> Length:
    near = length.nearest(STEP[system])
    return near if near >= length else near + Length(STEP[system])
