"""Checks of charts that say how many squares a length of cloth or a fat quarter gives.

The charts count rows and columns of squares, with nothing taken off for straightening or shrinking.
"""

from __future__ import annotations

from fractions import Fraction
from math import lcm

from patchwright.planning.cutting import Part, SheetPiece, Yardage, best, plain, yields
from published.values import Row, checks, rows

YARD = Fraction(36)
CHARTS = [row.id for row in rows().values() if row.topic.startswith("squares-") and "length" in row.inputs]


def whole(*sides: Fraction) -> list[int]:
    """Sides in whole parts of their common grid."""
    grid = lcm(*(side.denominator for side in sides))
    return [int(side * grid) for side in sides]


def most_squares(square: Fraction, width: Fraction, length: Fraction) -> int:
    """The most squares that a cloth gives by cuts from edge to edge."""
    side, wide, long = whole(square, width, length)
    return yields(wide, long, (SheetPiece("square", side, side, True),), (2000,))[0][0]


def lengths_bought(square: Fraction, width: Fraction, length: Fraction, count: int) -> set[int]:
    """How many of a length so many squares take, planned plainly and at its best."""
    side, wide, long = whole(square, width, length)
    problem = Yardage(wide, (Part("square", side, side, count, True),), (), (long, long * 2, long * 3))
    return {plain(problem).step, best(problem).step}


@checks(*CHARTS)
def squares_of_a_chart(row: Row) -> None:
    """So many squares come from the cloth, and one more does not; `negative` rows say what a chart should have said."""
    square, width, length = (Fraction(str(row.inputs[key])) for key in ("square", "width", "length"))
    assert most_squares(square, width, length) == row.expected
    assert lengths_bought(square, width, length, row.expected) == {1}
    assert lengths_bought(square, width, length, row.expected + 1) == {2}


@checks("guild-3-eighth")
def squares_of_an_eighth(row: Row) -> None:
    """An eighth of a yard gives one row, and a quarter gives two and not three."""
    square, width = Fraction(str(row.inputs["square"])), Fraction(str(row.inputs["width"]))
    eighth = YARD * Fraction(row.inputs["yard"])
    assert most_squares(square, width, eighth) == row.expected
    assert lengths_bought(square, width, eighth, row.expected) == {1}
    # After washing a quarter is shorter than three rows of 3 inches: 9 inches less any shrinkage.
    assert most_squares(square, width, eighth * 2 - Fraction(1, 8)) == row.expected * 2
