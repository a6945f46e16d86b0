"""The rows along the sides of a pieced border: whole repeats, what lies in the middle, and spacers.

A row is whole repeats of blocks. With something in the middle, or turning there, both halves take as many of them.
Spacers, two rectangles at the ends of a row or one in its middle, fill it up to the length of the side, no shorter than
can be sewn; where they would be, the row has a repeat less. Common practice, no source.
In: a pieced border and its measured blocks.
Out: which lengths of a side fit, and the parts of a row in order.
Never: a place in the top.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from patchwright.core.geometry import UPRIGHT, Orientation
from patchwright.core.length import ZERO, Length
from patchwright.design.design import Pieced, Placement, Spacers
from patchwright.planning.settings.laying_out import LayingOut, Measured


@dataclass(frozen=True, slots=True)
class Repeat:
    """The blocks of a pieced border: their common height, and the length after which they repeat."""

    entries: tuple[Measured, ...]
    depth: Length
    corner: Measured
    length: Length
    """A side is a whole number of these: one repeat, or two where its halves take as many each."""
    middle: Measured | None = None
    spacers: Spacers | None = None

    @property
    def base(self) -> Length:
        """What the middle takes of a side."""
        return self.width(self.middle) if self.middle is not None else ZERO

    @property
    def gaps(self) -> int:
        """How many spacers a row has."""
        in_one = self.spacers is not None and self.spacers.at == "middle" and self.middle is None
        return 1 if in_one else 2

    def least(self, side: Length) -> Length:
        """The shortest side that is not shorter and takes whole repeats without spacers."""
        return self.base + self.length * max(((side - self.base) / self.length).ceil(), 0)

    def times(self, side: Length) -> int | None:
        """How often the length repeats in a side; None where the side does not fit."""
        whole = ((side - self.base) / self.length).floor()
        if whole > 0 and side == self.base + self.length * whole:
            return whole
        if self.spacers is None:
            return None
        if (side - self.base - self.length * whole) / self.gaps < self.spacers.least:
            whole = ((side - self.base - self.spacers.least * self.gaps) / self.length).floor()
        return whole if whole > 0 else None

    def fits(self, side: Length) -> bool:
        return self.times(side) is not None

    def spacer(self, side: Length) -> Length:
        """The length of each spacer in a row as long as a side; 0 where it needs none."""
        return (side - self.base - self.length * (self.times(side) or 0)) / self.gaps

    def width(self, entry: Measured) -> Length:
        """How much of a side a block takes; a fabric's square is as wide as the border."""
        return entry.width if entry.key is not None or entry.width else self.depth


def side_row(laying: LayingOut, pieced: Pieced, repeat: Repeat, side: Length, turns: int) -> list[Measured]:
    """The parts of one side in the border's own direction, turned as they lie there."""
    times, lay = repeat.times(side) or 0, Orientation(turns)
    spacer = _spacer(repeat, repeat.spacer(side), turns)
    middle = laying.measured(pieced.middle, lay) if pieced.middle is not None else None
    ends = spacer if repeat.spacers is not None and repeat.spacers.at == "ends" else []
    inner = [] if ends else spacer
    first = [entry for _ in range(times) for entry in _turned(laying, pieced, lay)]
    if not _is_split(pieced):
        return [*ends, *first, *ends]
    if pieced.mirrored:
        turned = [entry for _ in range(times) for entry in _turned(laying, pieced, Orientation(0, True).then(lay))]
        second = turned[::-1]
    else:
        second = first
    between = inner if middle is None else [*inner, middle, *inner]
    return [*ends, *first, *between, *second, *ends]


def halves(pieced: Pieced) -> int:
    """How many repeats the length of a row grows by at once."""
    return 2 if _is_split(pieced) else 1


def _is_split(pieced: Pieced) -> bool:
    """Whether both halves of a side take as many repeats each."""
    return pieced.mirrored or (pieced.spacers is not None and pieced.spacers.at == "middle")


def _spacer(repeat: Repeat, long: Length, turns: int) -> list[Measured]:
    """One spacer as it lies along a side, or nothing where the row needs none."""
    if repeat.spacers is None or not long:
        return []
    placement = Placement("fabric", repeat.spacers.fabric, UPRIGHT, repeat.spacers.span)
    sides = (long, repeat.depth) if turns % 2 == 0 else (repeat.depth, long)
    return [Measured(placement, None, UPRIGHT, *sides)]


def _turned(laying: LayingOut, pieced: Pieced, lay: Orientation) -> Iterator[Measured]:
    for placement in pieced.repeat:
        entry = laying.measured(placement, lay)
        if entry is not None:
            yield entry
