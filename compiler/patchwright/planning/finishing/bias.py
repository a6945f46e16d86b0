"""Strips on the bias: what a rectangle or a square of cloth gives when it is cut at 45 degrees.

In: the width of the cloth, the length that is needed, the cut width of the strips, the seam.
Out: `BiasCloth`: the least cloth, in whole inches or centimeters, with its strips, joins and length.
Never: a length from area; every strip is measured where it is shortest.
"""

from __future__ import annotations

from dataclasses import dataclass

from patchwright.core.length import ROOT_TWO, ZERO, Length

LEAST_WIDTHS = 4
"""Strips shorter than this many of their widths are not joined. Common practice, no source."""
MOST_CLOTHS = 24
MOST_LENGTH = 2000
"""Inches or centimeters of cloth for one binding."""


@dataclass(frozen=True, slots=True)
class BiasCloth:
    """Rectangles or squares alike, cut on the bias, and what their strips give joined."""

    size: tuple[Length, Length]
    """Width across the cloth and height along it."""
    count: int
    strips: int
    joins: int
    loss: Length
    """What each join takes."""
    made: Length
    least: Length | None = None
    lines: int = 0


def strips_across(width: Length, needed: Length, strip: Length, seam: Length) -> BiasCloth | None:
    """The shortest piece across the whole cloth whose strips reach; None if none does."""
    start = max((needed * strip.rational() / width.rational()).floor(), 1)
    for side in range(start, MOST_LENGTH):
        height = Length(side)
        found = _joined((width, height), 1, strip_lengths(width, height, strip), strip, seam)
        if found.made >= needed:
            return found
    return None


def strips_of_squares(most: Length, needed: Length, strip: Length, seam: Length) -> BiasCloth | None:
    """The fewest squares, and then the smallest, whose strips reach; none is larger than `most`."""
    for count in range(1, MOST_CLOTHS + 1):
        whole = Length(most.floor())
        if _joined((whole, whole), count, strip_lengths(whole, whole, strip), strip, seam).made < needed:
            continue
        for number in range(1, most.floor() + 1):
            side = Length(number)
            found = _joined((side, side), count, strip_lengths(side, side, strip), strip, seam)
            if found.made >= needed:
                return found
    return None


def strip_lengths(width: Length, height: Length, strip: Length) -> tuple[Length, ...]:
    """Lengths along the middle of the strips of a rectangle that is cut first at 45 degrees from one corner.

    The first cut leaves a triangle, cut into strips from its long side inward, and the rest, cut from the same line.
    A strip whose ends lie on two edges at a right angle is as long in its middle as its short edge and one width; one
    whose ends lie on opposite edges, or of which an end turns a corner, counts as long as its shorter edge.
    Those shorter than four widths are left out.
    """
    short, long = min(width, height), max(width, height)
    step = strip * ROOT_TWO
    lengths: list[Length] = []
    place = short - step
    while place >= ZERO:
        lengths.append(place * ROOT_TWO + strip)
        place -= step
    near, far = short, short + step
    while far <= long + short:
        edge = min(short, long + short - far) * ROOT_TWO
        lengths.append(edge + strip if near >= long else edge)
        near, far = far, far + step
    least = strip * LEAST_WIDTHS
    return tuple(sorted((length for length in lengths if length >= least), reverse=True))


def _joined(
    size: tuple[Length, Length], count: int, lengths: tuple[Length, ...], strip: Length, seam: Length
) -> BiasCloth:
    """All strips of all pieces of cloth end to end."""
    loss = seam * 2 * ROOT_TWO
    strips = len(lengths) * count
    total = ZERO
    for length in lengths:
        total += length
    made = total * count - loss * max(strips - 1, 0)
    return BiasCloth(size, count, strips, max(strips - 1, 0), loss, made, strip * LEAST_WIDTHS)


def continuous_squares(most: Length, needed: Length, strip: Length, seam: Length) -> BiasCloth | None:
    """The fewest squares, and then the smallest, that give one strip each, cut in a spiral from a tube.

    A square of side S gives floor((S − 2s) / (w√2)) rounds of (S − 2s)√2 with strips of w and seams of s. Common
    practice, no source.
    """
    for count in range(1, MOST_CLOTHS + 1):
        if _tube(Length(most.floor()), count, strip, seam).made < needed:
            continue
        for number in range(1, most.floor() + 1):
            found = _tube(Length(number), count, strip, seam)
            if found.made >= needed:
                return found
    return None


def _tube(side: Length, count: int, strip: Length, seam: Length) -> BiasCloth:
    rest = side - seam * 2
    rounds = max((rest * ROOT_TWO / (strip * 2).rational()).floor(), 0)
    loss = seam * 2 * ROOT_TWO
    made = rest * ROOT_TWO * (rounds * count) - loss * (count - 1)
    return BiasCloth((side, side), count, count, count - 1, loss, made, lines=rounds)
