"""The sewing order of a unit, from its finished patches, or as its method states it.

In: the shapes of a unit's patches; the seams of a method that states them.
Out: its seams, inner ones first, each with the patches on its sides and its ends.
Rule: the last seam is a straight line that divides the patches and cuts none; of several the longest, and of these one
that falls to the right. Of what no line divides, the last patches are set in,
each along every patch that it touches, until a line divides the rest; two patches that touch along more than one line
are joined in a curve, which comes to the edges of its unit at right angles, as quarters of circles do.
Never: a method's name; a new method is understood by its patches.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from patchwright.methods.method import PatchSeam
from patchwright.planning.pressing.grid import Measure, Shape, Spot, cross, dot, sides, sign, vector


@dataclass(frozen=True, slots=True)
class UnitSeam:
    """A seam of a unit; looking from start to finish, the second side lies on the left hand."""

    first: tuple[int, ...]
    second: tuple[int, ...]
    start: Spot
    finish: Spot
    is_curved: bool = False
    lies: int = 0
    """1 toward the second side, -1 toward the first, where the method's habit says it."""

    def reversed(self) -> UnitSeam:
        """The same from its other side."""
        return UnitSeam(self.second, self.first, self.finish, self.start, self.is_curved, -self.lies)

    @property
    def patches(self) -> frozenset[int]:
        return frozenset(self.first + self.second)


@lru_cache(maxsize=512)
def sewing_order(shapes: tuple[Shape, ...]) -> tuple[UnitSeam, ...]:
    """The seams of a unit, each after those of the parts that it joins."""
    return tuple(_seams(shapes, tuple(range(len(shapes)))))


_LIES = {"free": 0, "first": -1, "second": 1}


@lru_cache(maxsize=512)
def stated_order(shapes: tuple[Shape, ...], stated: tuple[PatchSeam, ...]) -> tuple[UnitSeam, ...]:
    """The seams of a unit as its method states them; ValueError where one is no straight line between its patches."""
    return tuple(_stated(shapes, seam) for seam in stated)


def _stated(shapes: Sequence[Shape], seam: PatchSeam) -> UnitSeam:
    patches = (*seam.first, *seam.second)
    for patch in seam.first:
        for start, finish in sides(shapes[patch]):
            found = _dividing(shapes, patches, start, finish)
            if found is not None and {found.first, found.second} == {seam.first, seam.second}:
                return replace(found if found.first == seam.first else found.reversed(), lies=_LIES[seam.lies])
    raise ValueError(f"no straight seam parts the patches {seam.first} from {seam.second}")


def _seams(shapes: Sequence[Shape], patches: tuple[int, ...]) -> Iterator[UnitSeam]:
    seam = _last_seam(shapes, patches) if len(patches) > 1 else None
    if seam is not None:
        yield from _seams(shapes, seam.first)
        yield from _seams(shapes, seam.second)
        yield seam
    elif len(patches) > 1:
        yield from _set_in(shapes, patches)


def _set_in(shapes: Sequence[Shape], patches: tuple[int, ...]) -> Iterator[UnitSeam]:
    """The seams of what no straight line divides."""
    kept = patches[:-1]
    while len(kept) > 1 and _last_seam(shapes, kept) is None:
        kept = kept[:-1]
    yield from _seams(shapes, kept)
    for place, patch in enumerate(patches[len(kept) :], len(kept)):
        for other in patches[:place]:
            yield from _touching(shapes, other, patch)


def _touching(shapes: Sequence[Shape], first: int, second: int) -> Iterator[UnitSeam]:
    """The seam of two patches that touch along one line or, bit by bit, along a curve."""
    bits = [bit for side in sides(_clockwise(shapes[first])) for other in sides(shapes[second])
            for bit in _shared(side, other)]
    if not bits:
        return
    begins = [bit for number, bit in enumerate(bits) if bit[0] != bits[number - 1][1]]
    at = bits.index(begins[0])
    start, finish = bits[at][0], bits[at - 1][1]
    bent = any(cross(vector(*bits[0]), vector(*bit)) for bit in bits)
    yield UnitSeam((first,), (second,), start, finish, bent)


def _clockwise(shape: Shape) -> Shape:
    area = [here[0] * there[1] - there[0] * here[1] for here, there in sides(shape)]
    return shape if sign(sum(area[1:], area[0])) > 0 else shape[::-1]


def _shared(side: tuple[Spot, Spot], other: tuple[Spot, Spot]) -> Iterator[tuple[Spot, Spot]]:
    """The stretch along which two sides lie on each other, in the way of the first."""
    along = vector(*side)
    if any(cross(along, vector(side[0], end)) for end in other):
        return
    ends = sorted(other, key=lambda spot: dot(along, spot))
    start = max(side[0], ends[0], key=lambda spot: dot(along, spot))
    finish = min(side[1], ends[1], key=lambda spot: dot(along, spot))
    if sign(dot(along, vector(start, finish))) > 0:
        yield start, finish


def _last_seam(shapes: Sequence[Shape], patches: tuple[int, ...]) -> UnitSeam | None:
    found = {}
    for patch in patches:
        for start, finish in sides(shapes[patch]):
            seam = _dividing(shapes, patches, start, finish)
            if seam is not None:
                found[seam.first, seam.second] = seam
    return min(found.values(), key=_choice, default=None)


def _dividing(shapes: Sequence[Shape], patches: tuple[int, ...], start: Spot, finish: Spot) -> UnitSeam | None:
    """The seam on the line through two points, if it divides the patches and cuts none."""
    along = vector(start, finish)
    halves: dict[int, list[int]] = {-1: [], 1: []}
    on_line: list[Spot] = []
    for patch in patches:
        signs = [sign(cross(along, vector(start, corner))) for corner in shapes[patch]]
        on_line += [corner for corner, side in zip(shapes[patch], signs, strict=True) if not side]
        if 1 in signs and -1 in signs:
            return None
        halves[1 if 1 in signs else -1].append(patch)
    if not (halves[-1] and halves[1]):
        return None
    ends = sorted(on_line, key=lambda corner: dot(along, vector(start, corner)))
    right, left = tuple(halves[1]), tuple(halves[-1])
    if right[0] < left[0]:
        return UnitSeam(right, left, ends[0], ends[-1])
    return UnitSeam(left, right, ends[-1], ends[0])


def _choice(seam: UnitSeam) -> tuple[Measure, int, Measure, Measure]:
    along = vector(seam.start, seam.finish)
    low = min((seam.start, seam.finish), key=lambda spot: (spot[1], spot[0]))
    return -dot(along, along), -sign(along[0] * along[1]), low[1], low[0]
