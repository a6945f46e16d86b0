"""Exact lengths: sums of rationals times square roots of square-free integers.

In: whole numbers, fractions and roots.
Out: `Length`, a number that is compared and rounded by integer arithmetic only.
Never: a float that decides anything; `float()` is for drawings alone.
"""

from __future__ import annotations

import re
from fractions import Fraction
from functools import total_ordering
from math import isqrt
from typing import Self

Rational = int | Fraction

_TERM = re.compile(r"(?P<sign>[+-]?)(?P<number>\d+(?:/\d+)?)?(?:√(?P<root>\d+))?")


@total_ordering
class Length:
    """An exact number of the pattern's unit, such as 5/2 or 60√2.

    Roots of distinct square-free integers are independent over the rationals, so two lengths are equal exactly when
    their terms are, and a length is zero exactly when it has no terms.
    """

    __slots__ = ("_terms",)
    _terms: tuple[tuple[int, Fraction], ...]

    def __init__(self, value: Rational | str = 0) -> None:
        number = Fraction(value)
        self._terms = ((1, number),) if number else ()

    @classmethod
    def root(cls, radicand: int, factor: Rational = 1) -> Length:
        """Return `factor` times the square root of a positive integer."""
        if radicand < 1:
            raise ValueError(f"a root needs a positive whole number, not {radicand}")
        square, free = _split_square(radicand)
        return cls._of({free: Fraction(factor) * square})

    @classmethod
    def parse(cls, text: str) -> Length:
        """Read back what `str` wrote: ``rational | [rational ±] [rational]√n``, any number of terms."""
        total = cls()
        position = 0
        compact = text.replace(" ", "")
        while position < len(compact):
            match = _TERM.match(compact, position)
            if match is None or match.end() == position or not (match["number"] or match["root"]):
                raise ValueError(f"not an exact length: {text!r}")
            factor = Fraction(match["number"] or 1) * (-1 if match["sign"] == "-" else 1)
            total += cls.root(int(match["root"])) * factor if match["root"] else cls(factor)
            position = match.end()
        if not compact:
            raise ValueError("an exact length cannot be empty")
        return total

    @classmethod
    def _of(cls, terms: dict[int, Fraction]) -> Length:
        made = cls.__new__(cls)
        made._terms = tuple(sorted((root, factor) for root, factor in terms.items() if factor))
        return made

    @property
    def terms(self) -> tuple[tuple[int, Fraction], ...]:
        """The (square-free radicand, factor) pairs, radicands ascending."""
        return self._terms

    @property
    def is_rational(self) -> bool:
        return not self._terms or (len(self._terms) == 1 and self._terms[0][0] == 1)

    def rational(self) -> Fraction:
        """Return the value as a fraction; raise ValueError where a root remains."""
        if not self._terms:
            return Fraction(0)
        if not self.is_rational:
            raise ValueError(f"{self} is not a rational number")
        return self._terms[0][1]

    def __add__(self, other: Length) -> Length:
        if not isinstance(other, Length):
            return NotImplemented
        if self.is_rational and other.is_rational:
            return Length(self.rational() + other.rational())
        terms = dict(self._terms)
        for root, factor in other._terms:
            terms[root] = terms.get(root, Fraction(0)) + factor
        return self._of(terms)

    def __sub__(self, other: Length) -> Length:
        if not isinstance(other, Length):
            return NotImplemented
        return self + -other

    def __neg__(self) -> Length:
        return self._of({root: -factor for root, factor in self._terms})

    def __abs__(self) -> Length:
        return -self if self.sign() < 0 else self

    def __mul__(self, other: Length | Rational) -> Length:
        if isinstance(other, int | Fraction):
            return self._of({root: factor * other for root, factor in self._terms})
        if not isinstance(other, Length):
            return NotImplemented
        terms: dict[int, Fraction] = {}
        for root, factor in self._terms:
            for other_root, other_factor in other._terms:
                square, free = _split_square(root * other_root)
                terms[free] = terms.get(free, Fraction(0)) + factor * other_factor * square
        return self._of(terms)

    __rmul__ = __mul__

    def __truediv__(self, other: Length | Rational) -> Length:
        """Divide by a rational or by a length of a single term; raise ValueError for a sum of several."""
        if isinstance(other, int | Fraction):
            return self * (1 / Fraction(other))
        if not isinstance(other, Length):
            return NotImplemented
        if not other._terms:
            raise ZeroDivisionError("division by a zero length")
        if len(other._terms) > 1:
            raise ValueError(f"division by the sum {other} is not supported")
        root, factor = other._terms[0]
        return self * Length.root(root) / (factor * root)

    def sign(self) -> int:
        """Return -1, 0 or 1, decided by integer arithmetic."""
        if not self._terms:
            return 0
        if len(self._terms) == 1:
            return 1 if self._terms[0][1] > 0 else -1
        precision = 64
        while True:
            low, high = self._bracket(precision)
            if low > 0:
                return 1
            if high < 0:
                return -1
            precision *= 2

    def _bracket(self, precision: int) -> tuple[Fraction, Fraction]:
        """Rational bounds of the value, closer as `precision` (bits) grows."""
        low = high = Fraction(0)
        for root, factor in self._terms:
            if root == 1:
                low += factor
                high += factor
                continue
            below = isqrt(root << (2 * precision))
            ends = (factor * Fraction(below, 1 << precision), factor * Fraction(below + 1, 1 << precision))
            low += min(ends)
            high += max(ends)
        return low, high

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Length) and self._terms == other._terms

    def __hash__(self) -> int:
        return hash(self._terms)

    def __lt__(self, other: Length) -> bool:
        if not isinstance(other, Length):
            return NotImplemented
        if self.is_rational and other.is_rational:
            return self.rational() < other.rational()
        return (self - other).sign() < 0

    def __bool__(self) -> bool:
        return bool(self._terms)

    def __float__(self) -> float:
        return sum(float(factor) * root**0.5 for root, factor in self._terms) if self._terms else 0.0

    def floor(self) -> int:
        """Return the greatest whole number that is not larger."""
        if self.is_rational:
            return self.rational().__floor__()
        precision = 64
        while True:
            low, high = self._bracket(precision)
            if low.__floor__() == high.__floor__():
                return low.__floor__()
            precision *= 2

    def ceil(self) -> int:
        """Return the least whole number that is not smaller."""
        return -(-self).floor()

    def up_to(self, step: Fraction) -> Length:
        """Round up to a whole number of steps."""
        return Length((self / step).ceil() * step)

    def down_to(self, step: Fraction) -> Length:
        """Round down to a whole number of steps."""
        return Length((self / step).floor() * step)

    def nearest(self, step: Fraction) -> Length:
        """Round to the nearest whole number of steps, halves up."""
        return Length(((self / step) + Length(Fraction(1, 2))).floor() * step)

    def is_multiple_of(self, step: Fraction) -> bool:
        return self.is_rational and (self.rational() / step).denominator == 1

    def __str__(self) -> str:
        if not self._terms:
            return "0"
        text = ""
        for root, factor in self._terms:
            sign = "-" if factor < 0 else "+" if text else ""
            size = "" if root > 1 and abs(factor) == 1 else str(abs(factor))
            text += sign + size + (f"√{root}" if root > 1 else "")
        return text

    def __repr__(self) -> str:
        return f"Length({str(self)!r})"


@total_ordering
class _Kind:
    """A length of one kind; kinds never mix: not in sums, not in comparisons, not for the type checker."""

    __slots__ = ("length",)

    def __init__(self, length: Length | Rational | str) -> None:
        self.length = length if isinstance(length, Length) else Length(length)

    def _same(self, other: object) -> Length:
        if type(other) is not type(self):
            raise TypeError(f"a length {self._word()} cannot be used with {type(other).__name__}")
        return other.length

    @classmethod
    def _word(cls) -> str:
        return cls.__name__.lower()

    def __add__(self, other: Self) -> Self:
        return type(self)(self.length + self._same(other))

    def __sub__(self, other: Self) -> Self:
        return type(self)(self.length - self._same(other))

    def __mul__(self, factor: Rational) -> Self:
        return type(self)(self.length * factor)

    __rmul__ = __mul__

    def __truediv__(self, divisor: Rational) -> Self:
        return type(self)(self.length / divisor)

    def __eq__(self, other: object) -> bool:
        return type(other) is type(self) and self.length == other.length

    def __lt__(self, other: Self) -> bool:
        return self.length < self._same(other)

    def __hash__(self) -> int:
        return hash((type(self).__name__, self.length))

    def __float__(self) -> float:
        return float(self.length)

    def __str__(self) -> str:
        return str(self.length)

    def __repr__(self) -> str:
        return f"{type(self).__name__}({str(self.length)!r})"


class Finished(_Kind):
    """A size once sewn in, without seam allowances."""

    __slots__ = ()

    def unfinished(self, seam: Length) -> Unfinished:
        """The size of the sewn thing with a raw edge of one seam on both sides."""
        return Unfinished(self.length + seam * 2)

    def cut(self, seam: Length) -> Cut:
        """The size to cut a plain patch: one seam on both sides, never rounded."""
        return Cut(self.length + seam * 2)


class Unfinished(_Kind):
    """The size of a sewn unit with its raw edges."""

    __slots__ = ()

    def finished(self, seam: Length) -> Finished:
        return Finished(self.length - seam * 2)

    def cut(self) -> Cut:
        """The size to cut cloth that joins the sewn thing edge to edge."""
        return Cut(self.length)


class Cut(_Kind):
    """A size to cut."""

    __slots__ = ()

    def unfinished(self) -> Unfinished:
        """A plain cut patch is, unsewn, its own unfinished size."""
        return Unfinished(self.length)


def _split_square(number: int) -> tuple[int, int]:
    """Split n into (a, b) with n = a²·b and b square-free."""
    square, free, factor = 1, number, 2
    while factor * factor <= free:
        while free % (factor * factor) == 0:
            free //= factor * factor
            square *= factor
        factor += 1
    return square, free


ZERO = Length()
ROOT_TWO = Length.root(2)
ROOT_THREE = Length.root(3)
