"""The sewing order of a unit, from its finished patches alone.

In: the outlines of a unit's patches.
Out: its seams, inner ones first, each with the patches on its sides and its ends.
Rule: the last seam is a straight line that divides the patches and cuts none; of several the longest, and of these one
that falls to the right, as all our methods draw their last seam. What no line divides counts as one piece.
Never: a method's name; a new method is understood by its patches.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from patchwright.core.geometry import Point, Polygon
from patchwright.core.length import ZERO, Length


@dataclass(frozen=True, slots=True)
class UnitSeam:
    """A seam of a unit; looking from start to finish, the second side lies on the left hand."""

    first: tuple[int, ...]
    second: tuple[int, ...]
    start: Point
    finish: Point

    @property
    def patches(self) -> frozenset[int]:
        return frozenset(self.first + self.second)


def cross(first: Point, second: Point) -> Length:
    """The vector product; above zero where the second direction is clockwise of the first."""
    return first.x * second.y - first.y * second.x


def dot(first: Point, second: Point) -> Length:
    return first.x * second.x + first.y * second.y


def vector(start: Point, finish: Point) -> Point:
    return Point(finish.x - start.x, finish.y - start.y)


def sewing_order(outlines: Sequence[Polygon]) -> tuple[UnitSeam, ...]:
    """The seams of a unit, each after those of the parts that it joins."""
    return tuple(_seams(outlines, tuple(range(len(outlines)))))


def _seams(outlines: Sequence[Polygon], patches: tuple[int, ...]) -> Iterator[UnitSeam]:
    seam = _last_seam(outlines, patches) if len(patches) > 1 else None
    if seam is not None:
        yield from _seams(outlines, seam.first)
        yield from _seams(outlines, seam.second)
        yield seam


def _last_seam(outlines: Sequence[Polygon], patches: tuple[int, ...]) -> UnitSeam | None:
    found = {}
    for start, finish in _edges(outlines, patches):
        seam = _dividing(outlines, patches, start, finish)
        if seam is not None:
            found[seam.first, seam.second] = seam
    return min(found.values(), key=_choice, default=None)


def _edges(outlines: Sequence[Polygon], patches: tuple[int, ...]) -> Iterator[tuple[Point, Point]]:
    for patch in patches:
        outline = outlines[patch]
        yield from zip(outline, outline[1:] + outline[:1], strict=True)


def _dividing(
    outlines: Sequence[Polygon], patches: tuple[int, ...], start: Point, finish: Point
) -> UnitSeam | None:
    """The seam on the line through two points, if it divides the patches and cuts none."""
    along = vector(start, finish)
    sides: dict[int, list[int]] = {-1: [], 1: []}
    on_line: list[Point] = []
    for patch in patches:
        signs = [cross(along, vector(start, corner)).sign() for corner in outlines[patch]]
        on_line += [corner for corner, sign in zip(outlines[patch], signs, strict=True) if not sign]
        if 1 in signs and -1 in signs:
            return None
        sides[1 if 1 in signs else -1].append(patch)
    if not (sides[-1] and sides[1]):
        return None
    ends = sorted(on_line, key=lambda corner: dot(along, vector(start, corner)))
    first, second = sides[1], sides[-1]
    if first[0] < second[0]:
        return UnitSeam(tuple(first), tuple(second), ends[0], ends[-1])
    return UnitSeam(tuple(second), tuple(first), ends[-1], ends[0])


def _choice(seam: UnitSeam) -> tuple[Length, int, Length, Length]:
    along = vector(seam.start, seam.finish)
    falling = (along.x * along.y).sign()
    low = min((seam.start, seam.finish), key=lambda point: (point.y, point.x))
    return -dot(along, along), -falling, low.y, low.x


def ratio(number: Length, divisor: Length) -> Length:
    """A quotient of lengths, also where the divisor is a sum of two terms."""
    if abs(number) == abs(divisor):
        return Length(number.sign() * divisor.sign())
    if not number:
        return ZERO
    if len(divisor.terms) == 2:
        (root, factor), (other_root, other_factor) = divisor.terms
        conjugate = Length.root(root, factor) - Length.root(other_root, other_factor)
        return number * conjugate / (divisor * conjugate)
    return number / divisor
