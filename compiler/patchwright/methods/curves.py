"""Exact points on circles, for drawing what templates keep as arcs.

In: a center and a radius.
Out: points exactly on the circle, so that patches on both sides of a curve share every corner and areas add up.
Never: an angle; a point of the unit circle with rational coordinates is ((1 - t²) / (1 + t²), 2t / (1 + t²)).
"""

from __future__ import annotations

from fractions import Fraction

from patchwright.core.geometry import Point, Polygon
from patchwright.core.length import Length

_EIGHTH = tuple(Fraction(step, 15) for step in range(7))
"""Values of t from 0 to about 43.6°; the rest of a quarter is their mirror image."""


def quarter_points(center: Point, radius: Length) -> Polygon:
    """Points from right of the center to below it, clockwise as drawn."""
    first = [((1 - t * t) / (1 + t * t), 2 * t / (1 + t * t)) for t in _EIGHTH]
    ways = first + [(y, x) for x, y in reversed(first)]
    return tuple(Point(center.x + radius * x, center.y + radius * y) for x, y in ways)
