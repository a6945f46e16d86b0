"""Sums that every part of the independent check takes: lengths, areas, what a bought length is good for."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from patchwright.core.geometry import Polygon
from patchwright.core.length import Length
from patchwright.design.rules import Rules
from patchwright.planning.plan import Buy

NOTHING = Length()
INCHES_IN_A_YARD = 36
CENTIMETERS_IN_A_METER = 100


def total(lengths: Iterable[Length]) -> Length:
    total = NOTHING
    for length in lengths:
        total += length
    return total


def area(outline: Polygon) -> Length:
    """The area of a polygon by the shoelace rule."""
    double = NOTHING
    for here, there in zip(outline, outline[1:] + outline[:1], strict=True):
        double += here.x * there.y - there.x * here.y
    return abs(double) * Fraction(1, 2)


def covers(rules: Rules, buy: Buy, length: Length) -> bool:
    """Whether what is left of a bought length after shrinking and straightening is enough."""
    bought = Length(buy.amount * (INCHES_IN_A_YARD if buy.unit == "yd" else CENTIMETERS_IN_A_METER))
    return bought * (1 - rules.shrinkage) - rules.straightening >= length
