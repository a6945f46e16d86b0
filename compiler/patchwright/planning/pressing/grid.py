"""Exact places of one size on a grid of whole numbers, which are quick to add and compare.

In: the lengths of a plan's size.
Out: the same as whole numbers of one small part of the unit; where a length has a root in it, all stay lengths.
Never: a rounded place.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import lcm
from typing import Any

from patchwright.core.geometry import Point
from patchwright.core.length import Length
from patchwright.methods.registry import BY_NAME
from patchwright.planning.pressing.sewn import Sewn

Measure = Any
"""A whole number on the grid or, where lengths have roots, a `Length`; both add, subtract, multiply and compare, and
both are false when zero. Ratios of them are fractions or lengths."""
Spot = tuple[Measure, Measure]
Shape = tuple[Spot, ...]


@dataclass(frozen=True, slots=True)
class Grid:
    """So many whole numbers to the unit; 0 where lengths stay lengths."""

    scale: int

    def measure(self, length: Length) -> Measure:
        if not self.scale:
            return length
        number = length.rational()
        return number.numerator * (self.scale // number.denominator)

    def shape(self, outline: Iterable[Point]) -> Shape:
        return tuple((self.measure(corner.x), self.measure(corner.y)) for corner in outline)


def size_grid(plan: Sewn, index: int) -> Grid:
    """The coarsest grid on which everything of one size lies."""
    denominators = {1}
    for length in _lengths(plan, index):
        if not length.is_rational:
            return Grid(0)
        denominators.add(length.rational().denominator)
    return Grid(lcm(*denominators))


def _lengths(plan: Sewn, index: int) -> Iterator[Length]:
    for item in plan.sizes[index].items:
        yield from (item.x, item.y, item.width, item.height)
    for assembly in plan.assemblies:
        for placed in (part.sizes[index] for line in assembly.lines for part in line):
            if placed is not None:
                yield from (placed[0].length, placed[1].length)
    for unit in plan.units:
        size = unit.sizes[index]
        if size is not None:
            for patch in BY_NAME[unit.method].patches(size.request):
                for corner in patch.outline:
                    yield from (corner.x, corner.y)


def sign(measure: Measure) -> int:
    """-1, 0 or 1."""
    return measure.sign() if isinstance(measure, Length) else (measure > 0) - (measure < 0)


def ratio(number: Measure, divisor: Measure) -> Measure:
    """An exact quotient, also where the divisor is a sum of two terms."""
    if not isinstance(divisor, Length):
        return Fraction(number, divisor)
    if len(divisor.terms) != 2:
        return number / divisor
    (root, factor), (other_root, other_factor) = divisor.terms
    conjugate = Length.root(root, factor) - Length.root(other_root, other_factor)
    return number * conjugate / (divisor * conjugate)


def vector(start: Spot, finish: Spot) -> Spot:
    return finish[0] - start[0], finish[1] - start[1]


def cross(first: Spot, second: Spot) -> Measure:
    """The vector product; above zero where the second direction is clockwise of the first."""
    return first[0] * second[1] - first[1] * second[0]


def dot(first: Spot, second: Spot) -> Measure:
    return first[0] * second[0] + first[1] * second[1]


def sides(shape: Shape) -> Iterator[tuple[Spot, Spot]]:
    """The sides of a shape, corner to corner."""
    return zip(shape, shape[1:] + shape[:1], strict=True)
