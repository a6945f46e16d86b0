"""How large to cut the squares that become triangles.

In: finished lengths and the house's triangle rules.
Out: cut sizes with what they exceed the exact geometry by.
Never: a size rounded down unless the house asks for the metric trade rule, and then it is remarked.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from patchwright.core.length import ROOT_TWO, ZERO, Cut, Length
from patchwright.core.measure import System
from patchwright.methods.method import TriangleRules

USUAL_SEAM: dict[System, Length] = {"in": Length("1/4"), "cm": Length("3/4")}
"""The seams for which the trade's constants hold."""

HALF_SQUARE_CONSTANT: dict[System, Length] = {"in": Length("7/8"), "cm": Length("5/2")}
"""Added to a half-square's finished side: common practice; the exact values are about 0.854 in and 2.561 cm."""

QUARTER_SQUARE_CONSTANT: dict[System, Length] = {"in": Length("5/4"), "cm": Length("7/2")}
"""Added to a quarter-square's finished long side: common practice; exact are about 1.207 in and 3.621 cm."""

_UNTRIMMED: dict[System, Length] = {"in": Length("1/16"), "cm": Length("3/20")}
"""The most that a unit may exceed its size and still be sewn as it is."""


@dataclass(frozen=True, slots=True)
class TriangleCut:
    """The side of a square to cut, and by how much it exceeds the exact geometry (less than 0: falls short of it)."""

    cut: Cut
    excess: Length


def half_square_cut(finished: Length, rules: TriangleRules) -> TriangleCut:
    """The square that cut once, or sewn on both sides of a diagonal, gives triangles of this finished short side."""
    exact = finished + rules.seam * 2 + rules.seam * ROOT_TWO
    return _triangle_cut(exact, finished + HALF_SQUARE_CONSTANT[rules.system], rules)


def quarter_square_cut(finished: Length, rules: TriangleRules) -> TriangleCut:
    """The square that cut on both diagonals gives triangles of this finished long side."""
    exact = finished + (rules.seam + rules.seam * ROOT_TWO) * 2
    return _triangle_cut(exact, finished + QUARTER_SQUARE_CONSTANT[rules.system], rules)


def rounded_cut(exact: Length, rules: TriangleRules) -> TriangleCut:
    """A cut size that has no trade constant and is not trimmed, such as a diagonal: exact, rounded up to the step."""
    cut = exact.up_to(rules.step)
    return TriangleCut(Cut(cut), cut - exact)


def oversized_cut(exact: Length, rules: TriangleRules) -> TriangleCut:
    """The same for a unit that is trimmed after sewing where the house trims."""
    cut = (exact + _oversize(rules)).up_to(rules.step)
    return TriangleCut(Cut(cut), cut - exact)


def needs_trimming(excess: Length, rules: TriangleRules) -> bool:
    """Whether a sewn unit that exceeds its size by `excess` is trimmed: over 1/16 in or 1.5 mm, or by the rule."""
    return is_noticeable(excess, rules) or (rules.triangles == "trim" and excess > ZERO)


def is_noticeable(excess: Length, rules: TriangleRules) -> bool:
    """Whether an excess is more than 1/16 in or 1.5 mm."""
    return excess > _UNTRIMMED[rules.system]


def rounding_remarks(*cuts: TriangleCut) -> tuple[str, ...]:
    """The wording keys of remarks that these cut sizes call for."""
    return ("rounded-down",) if any(cut.excess < ZERO for cut in cuts) else ()


def hint_step(rules: TriangleRules) -> Fraction:
    """The step to which sizes in hints are rounded, never coarser than an eighth or half a centimeter."""
    return min(rules.step, Fraction(1, 8) if rules.system == "in" else Fraction(1, 2))


def _triangle_cut(exact: Length, traditional: Length, rules: TriangleRules) -> TriangleCut:
    """Apply the house's rule; the trade's constants are for the usual seam only, so any other seam gets the exact."""
    usual = rules.seam == USUAL_SEAM[rules.system]
    wanted = traditional if usual and rules.triangles != "exact" else exact
    cut = (wanted + _oversize(rules)).up_to(rules.step)
    return TriangleCut(Cut(cut), cut - exact)


def _oversize(rules: TriangleRules) -> Length:
    return rules.oversize if rules.triangles == "trim" else ZERO
