"""Exact lengths: sums of rationals times square roots of square-free integers.

In: whole numbers, fractions and roots.
Out: `Length`, a number that is compared and rounded by integer arithmetic only.
Never: a float that decides anything; `float()` is for drawings alone.
"""

from __future__ import annotations

import re
from fractions import Fraction
from functools import total_ordering
from math import gcd, isqrt
from typing import Self

Rational = int | Fraction
_Term = tuple[int, int, int]
"""A square-free radicand, and the numerator and denominator of its factor; plain integers, since most of the time that
a plan takes goes into sums of lengths."""

_TERM = re.compile(r"(?P<sign>[+-]?)(?P<number>\d+(?:/\d+)?)?(?:√(?P<root>\d+))?")


class Length:
    """An exact number of the pattern's unit, such as 5/2 or 60√2.

    Roots of distinct square-free integers are independent over the rationals, so two lengths are equal exactly when
    their terms are, and a length is zero exactly when it has no terms.
    """

    __slots__ = ("_terms",)
    _terms: tuple[_Term, ...]
    """Terms in lowest form without zeros, roots ascending."""

    def __init__(self, value: Rational | str = 0) -> None:
        number = value if isinstance(value, int) else Fraction(value)
        self._terms = ((1, number.numerator, number.denominator),) if number else ()

    @classmethod
    def root(cls, radicand: int, factor: Rational = 1) -> Length:
        """Return `factor` times the square root of a positive integer."""
        if radicand < 1:
            raise ValueError(f"a root needs a positive whole number, not {radicand}")
        square, free = _split_square(radicand)
        number = Fraction(factor) * square
        return _length(((free, number.numerator, number.denominator),) if number else ())

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

    @property
    def terms(self) -> tuple[tuple[int, Fraction], ...]:
        """The (square-free radicand, factor) pairs, radicands ascending."""
        return tuple((root, Fraction(top, bottom)) for root, top, bottom in self._terms)

    @property
    def is_rational(self) -> bool:
        terms = self._terms
        return not terms or (len(terms) == 1 and terms[0][0] == 1)

    def rational(self) -> Fraction:
        """Return the value as a fraction; raise ValueError where a root remains."""
        if not self._terms:
            return Fraction(0)
        if not self.is_rational:
            raise ValueError(f"{self} is not a rational number")
        return Fraction(self._terms[0][1], self._terms[0][2])

    def __add__(self, other: Length) -> Length:
        if not isinstance(other, Length):
            return NotImplemented
        mine, theirs = self._terms, other._terms
        if not mine:
            return other
        if not theirs:
            return self
        if len(mine) == 1 and len(theirs) == 1 and mine[0][0] == theirs[0][0]:
            return _length(_added(mine[0], theirs[0]))
        terms = {term[0]: term for term in mine}
        for term in theirs:
            known = terms.get(term[0])
            total = (term,) if known is None else _added(known, term)
            if total:
                terms[term[0]] = total[0]
            else:
                del terms[term[0]]
        return _length(tuple(sorted(terms.values())))

    def __sub__(self, other: Length) -> Length:
        if not isinstance(other, Length):
            return NotImplemented
        mine, theirs = self._terms, other._terms
        if not theirs:
            return self
        if len(mine) == 1 and len(theirs) == 1 and mine[0][0] == theirs[0][0]:
            root, top, bottom = theirs[0]
            return _length(_added(mine[0], (root, -top, bottom)))
        return self + -other

    def __neg__(self) -> Length:
        return _length(tuple((root, -top, bottom) for root, top, bottom in self._terms))

    def __abs__(self) -> Length:
        return -self if self.sign() < 0 else self

    def __mul__(self, other: Length | Rational) -> Length:
        if isinstance(other, int | Fraction):
            if not other:
                return ZERO
            return _length(tuple(_times(term, other.numerator, other.denominator) for term in self._terms))
        if not isinstance(other, Length):
            return NotImplemented
        mine, theirs = self._terms, other._terms
        if len(mine) == 1 and len(theirs) == 1 and mine[0][0] == 1:
            root, top, bottom = theirs[0]
            return _length((_times((root, top, bottom), mine[0][1], mine[0][2]),))
        total = ZERO
        for root, top, bottom in self._terms:
            for other_root, other_top, other_bottom in other._terms:
                square, free = _split_square(root * other_root)
                total += _length((_times((free, top, bottom), other_top * square, other_bottom),))
        return total

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
        root, factor = other.terms[0]
        return self * Length.root(root) / (factor * root)

    def sign(self) -> int:
        """Return -1, 0 or 1, decided by integer arithmetic."""
        if not self._terms:
            return 0
        if len(self._terms) == 1:
            return 1 if self._terms[0][1] > 0 else -1
        if len(self._terms) == 2:
            return _sign_of_two(*self._terms)
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
        for root, factor in self.terms:
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
        return _compared(self, other) < 0

    def __le__(self, other: Length) -> bool:
        if not isinstance(other, Length):
            return NotImplemented
        return _compared(self, other) <= 0

    def __gt__(self, other: Length) -> bool:
        if not isinstance(other, Length):
            return NotImplemented
        return _compared(self, other) > 0

    def __ge__(self, other: Length) -> bool:
        if not isinstance(other, Length):
            return NotImplemented
        return _compared(self, other) >= 0

    def __bool__(self) -> bool:
        return bool(self._terms)

    def __float__(self) -> float:
        return sum((top / bottom * root**0.5 for root, top, bottom in self._terms), 0.0)

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
        for root, factor in self.terms:
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


def _length(terms: tuple[_Term, ...]) -> Length:
    """A length of terms that are already in lowest form."""
    made = Length.__new__(Length)
    made._terms = terms
    return made


def _added(one: _Term, other: _Term) -> tuple[_Term, ...]:
    """The sum of two terms of one root, nothing where it is zero."""
    root, top, bottom = one
    _, other_top, other_bottom = other
    if bottom == other_bottom:
        total, below = top + other_top, bottom
    else:
        total, below = top * other_bottom + other_top * bottom, bottom * other_bottom
    if not total:
        return ()
    common = gcd(total, below)
    return ((root, total // common, below // common),)


def _sign_of_two(one: _Term, other: _Term) -> int:
    """The sign of a sum of two terms, by comparing their squares; they never cancel, being independent."""
    root, top, bottom = one
    other_root, other_top, other_bottom = other
    if (top > 0) == (other_top > 0):
        return 1 if top > 0 else -1
    larger = top * top * root * other_bottom * other_bottom > other_top * other_top * other_root * bottom * bottom
    return 1 if (top if larger else other_top) > 0 else -1


def _times(term: _Term, top: int, bottom: int) -> _Term:
    """A term times a fraction that is not zero."""
    root, own_top, own_bottom = term
    total, below = own_top * top, own_bottom * bottom
    common = gcd(total, below)
    return (root, total // common, below // common)


def _compared(one: Length, other: Length) -> int:
    """Negative, zero or positive as one is less than, equal to or more than the other."""
    mine, theirs = one._terms, other._terms
    if mine == theirs:
        return 0
    if one.is_rational and other.is_rational:
        _, top, bottom = mine[0] if mine else (1, 0, 1)
        _, other_top, other_bottom = theirs[0] if theirs else (1, 0, 1)
        return top * other_bottom - other_top * bottom
    return (one - other).sign()


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
