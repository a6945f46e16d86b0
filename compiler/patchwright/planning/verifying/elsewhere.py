"""Whether what the plan says in the other system of measure is never less cloth, and never more than a step too much.

In: a plan.
Out: one sentence for each quantity that does not agree.
Never: a function of the planner; the converted numbers are worked out here with factors of their own.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from patchwright.core.length import Length
from patchwright.planning.plan import Buy, Plan

METERS_IN_A_YARD = Fraction(9144, 10000)
CENTIMETERS_IN_AN_INCH = Fraction(254, 100)
INCHES_IN_A_YARD = 36


def check_elsewhere(plan: Plan) -> Iterator[str]:
    """Every amount and size has its like, no larger than steps of the other system make it."""
    told = plan.elsewhere
    if told is None:
        if plan.rules.other_measures:
            yield "the other system of measure is asked for and not told"
        return
    likes = dict(told.amounts)
    for buy in _amounts(plan):
        if buy.unit in ("yd", "m"):
            like = likes.get(buy)
            fault = "is not told in the other system" if like is None else _wrong(plan, buy, like)
            if fault:
                yield f"{buy.amount} {buy.unit} {fault}"
    factor = CENTIMETERS_IN_AN_INCH if plan.system == "in" else 1 / CENTIMETERS_IN_AN_INCH
    step = Length(Fraction(1, 2) if plan.system == "cm" else Fraction(1))
    if not plan.rules.usable_width * factor <= told.width < plan.rules.usable_width * factor + step:
        yield "the width of cloth in the other system is too narrow, or too wide"
    for size, finished, batting in zip(plan.sizes, told.finished, told.batting, strict=True):
        for own, there in zip(size.finished, finished, strict=True):
            if abs(own.length * factor - there) * 2 > step:
                yield f"{size.name}: its finished size in the other system is off by more than half a step"
        for side, there in zip(size.batting, batting, strict=True):
            if not side * factor <= there < side * factor + step:
                yield f"{size.name}: its batting in the other system is too small, or too large"


def _amounts(plan: Plan) -> Iterator[Buy]:
    for fabric in plan.fabrics:
        for sizes in (fabric.sizes, *(other.sizes for other in fabric.alternatives)):
            yield from (size.buy for size in sizes if size is not None and size.buy is not None)
    for size in plan.sizes:
        if size.binding is not None and size.binding.buy is not None:
            yield size.binding.buy
        if size.backing is not None and size.backing.buy is not None:
            yield size.backing.buy


def _wrong(plan: Plan, buy: Buy, like: Buy) -> str:
    """What is wrong with a converted amount; compared in meters, and in the steps of the shop that sells it."""
    meters = buy.amount * METERS_IN_A_YARD if buy.unit == "yd" else buy.amount
    there = like.amount * METERS_IN_A_YARD if like.unit == "yd" else like.amount
    if {buy.unit, like.unit} != {"yd", "m"}:
        return "is told in its own system"
    if there < meters:
        return f"is more than {like.amount} {like.unit}"
    inner = like.amount * (INCHES_IN_A_YARD if like.unit == "yd" else 100)
    steps = [step.rational() for step in plan.rules.round_elsewhere]
    if all((inner / step).denominator != 1 for step in steps):
        return f"is told as {like.amount} {like.unit}, which no shop cuts"
    unit = METERS_IN_A_YARD / INCHES_IN_A_YARD if like.unit == "yd" else Fraction(1, 100)
    if any(-(-inner // step) * step - step >= meters / unit for step in steps):
        return f"is told as {like.amount} {like.unit}, and less would do"
    return ""
