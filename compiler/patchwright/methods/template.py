"""Templates: the true shapes of pieces that no ruler cuts, with seam line, cut line and grain.

In: finished outlines in a unit's own coordinates, and the seam.
Out: a seam line and a cut line one seam outside it, both from the upper left corner of the cut line's box.
Rule (common practice, no source): a tip sharper than 60° is blunted square to its middle, one and a half seams beyond
the corner: the allowance is at least one seam everywhere and fills the corner of a unit, and no tip sticks out far.
Never: a float. A corner of a cut line that is no sum of roots is given to the nearest billionth of the unit, by whole
numbers; seam lines, arcs and their radii stay exact.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from math import isqrt

from patchwright.core.geometry import (
    Arc,
    Orientation,
    Outline,
    Point,
    Polygon,
    laid_outline,
    moved,
    moved_outline,
    straight_outline,
)
from patchwright.core.length import ZERO, Length

_FINE = 10**15
"""Parts of the unit in which corners of cut lines are worked out."""
_KEPT = Fraction(1, 10**9)
"""Step to which they are then rounded."""

_TIP = Fraction(3, 2)
"""How many seams beyond its corner a blunted tip reaches."""

Spot = tuple[Fraction, Fraction]
"""A point worked out in fractions."""


@dataclass(frozen=True, slots=True)
class Template:
    """A piece's true shape, its cut line touching all sides of a `width` x `height` box."""

    seam_line: Outline
    cut_line: Outline
    grain: tuple[Point, Point]
    """From the lower to the upper end of the arrow, which lies along the straight grain; a one-way print runs up."""
    width: Length
    height: Length

    def seam_side(self) -> Length:
        """The longer side of the box around the corners of the seam line, finished."""
        corners = outline_corners(self.seam_line)
        xs, ys = [point.x for point in corners], [point.y for point in corners]
        return max(max(xs) - min(xs), max(ys) - min(ys))

    def laid(self, lay: Orientation) -> Template:
        """The template turned, or mirrored for the other hand, in its own box."""
        width, height = self.width, self.height
        low, high = (lay.point(point, width, height) for point in self.grain)
        seam, cut = (laid_outline(outline, lay, width, height) for outline in (self.seam_line, self.cut_line))
        return Template(seam, cut, (low, high), *lay.size(width, height))


def boxed(seam_line: Outline, cut_line: Outline, box: Polygon) -> Template:
    """A template of two outlines and two opposite corners of the cut line's box, moved to the origin."""
    left, top = box[0].x, box[0].y
    width, height = box[1].x - left, box[1].y - top
    corners = outline_corners(seam_line)
    across, down = (sum_of(sides) / len(corners) for sides in zip(*((c.x, c.y) for c in corners), strict=True))
    across, down = across - left, down - top
    grain = Point(across, down + height / 8), Point(across, down - height / 8)
    return Template(moved_outline(seam_line, -left, -top), moved_outline(cut_line, -left, -top), grain, width, height)


@lru_cache(maxsize=512)
def straight_template(corners: Polygon, seam: Length) -> Template:
    """The template of a finished polygon, its corners clockwise."""
    cut = cut_corners(corners, seam)
    low = Point(min(point.x for point in cut), min(point.y for point in cut))
    high = Point(max(point.x for point in cut), max(point.y for point in cut))
    return boxed(straight_outline(corners), straight_outline(cut), (low, high))


def same_half_turned(shape: Template, seam: Length) -> Template:
    """One template for a straight-sided shape and for the same shape turned by half, as paper on plain cloth is.

    A shape with a curve, or whose grain does not lie up and down, is given back as it is.
    """
    curved = any(isinstance(side, Arc) for side in shape.seam_line)
    if curved or shape.grain[0].x != shape.grain[1].x:
        return shape
    ways = (_from_origin(outline_corners(way.seam_line)) for way in (shape, shape.laid(Orientation(2))))
    return straight_template(min(ways, key=lambda corners: [(point.y, point.x) for point in corners]), seam)


def _from_origin(corners: Polygon) -> Polygon:
    """A polygon moved until it touches both axes, beginning at its topmost corner, of several the leftmost."""
    left, top = min(point.x for point in corners), min(point.y for point in corners)
    first = min(range(len(corners)), key=lambda at: (corners[at].y, corners[at].x))
    return moved(corners[first:] + corners[:first], -left, -top)


def cut_corners(corners: Polygon, seam: Length) -> Polygon:
    """The corners of the cut line around a finished polygon, sharp tips blunted."""
    points = [fine_spot(point) for point in corners]
    wide = _fine(seam)
    made: list[Point] = []
    for number, here in enumerate(points):
        before, after = points[number - 1], points[(number + 1) % len(points)]
        made += [Point(coarse(x), coarse(y)) for x, y in cut_corner(before, here, after, wide)]
    return tuple(made)


def sum_of(lengths: Iterable[Length]) -> Length:
    return sum(lengths, ZERO)


def piece_rectangle(template: Template, step: Fraction) -> tuple[Length, Length]:
    """The rectangle of cloth from which the shape is cut: its box, rounded up to the step."""
    return template.width.up_to(step), template.height.up_to(step)


def outline_corners(outline: Outline) -> Polygon:
    """Where the sides of an outline begin."""
    return tuple(side.start for side in outline)


def cut_corner(before: Spot, here: Spot, after: Spot, seam: Fraction) -> tuple[Spot, ...]:
    """One corner of the cut line, or the two of a blunted tip."""
    come, go = direction(before, here), direction(here, after)
    first = outward(come)
    # The lines on both sides, one seam out; `turn` is the sine of the turn between them.
    turn = come[0] * go[1] - come[1] * go[0]
    if not abs(turn) > Fraction(1, 10**12):
        return ((here[0] + first[0] * seam, here[1] + first[1] * seam),)
    # Convex corners turn clockwise. The cosine of the turn is below -1/2 where the tip is sharper than 60 degrees.
    cosine = come[0] * go[0] + come[1] * go[1]
    if turn > 0 and cosine < Fraction(-1, 2) - Fraction(1, 10**9):
        return _blunted(here, come, go, seam)
    reach = seam * (1 - cosine) / turn
    x, y = here[0] + first[0] * seam + come[0] * reach, here[1] + first[1] * seam + come[1] * reach
    return ((x, y),)


def _blunted(here: Spot, come: Spot, go: Spot, seam: Fraction) -> tuple[Spot, ...]:
    """Where a line square to the middle of a tip, beyond it, meets both cut lines."""
    out = direction((Fraction(0), Fraction(0)), (come[0] - go[0], come[1] - go[1]))
    made = []
    for along, sign in ((come, 1), (go, -1)):
        aside = outward(along)
        # here + aside·seam + along·sign·t lies at the tip's distance along `out`.
        toward = (along[0] * out[0] + along[1] * out[1]) * sign
        t = seam * (_TIP - (aside[0] * out[0] + aside[1] * out[1])) / toward
        made.append((here[0] + aside[0] * seam + along[0] * sign * t, here[1] + aside[1] * seam + along[1] * sign * t))
    return tuple(made)


def direction(start: Spot, end: Spot) -> Spot:
    """The direction from one point to another, of length 1 to the fineness used here."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    square = (dx * dx + dy * dy) * _FINE * _FINE
    length = Fraction(isqrt(square.__floor__()), _FINE)
    return dx / length, dy / length


def outward(along: Spot) -> Spot:
    """The direction out of a polygon whose corners run clockwise, y downward."""
    return along[1], -along[0]


def fine_spot(point: Point) -> Spot:
    """A point as fractions, exact or to the fineness used here."""
    return _fine(point.x), _fine(point.y)


def _fine(length: Length) -> Fraction:
    return length.rational() if length.is_rational else Fraction((length * _FINE).floor(), _FINE)


def coarse(value: Fraction) -> Length:
    """A place worked out finely, to the nearest billionth of the unit."""
    return Length(value).nearest(_KEPT)
