"""The part of the Plan that says which bed a size is made for, and what else would reach it.

Never: the size of the quilt itself; a drop that it reaches follows from that.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from patchwright.core.length import Finished, Length

LeftOpen = Literal["across", "down", "borders"]


@dataclass(frozen=True, slots=True)
class BedProposal:
    """So many blocks and plain borders so wide, from the inside out, and the quilt that they give."""

    across: int
    down: int
    borders: tuple[Finished, ...]
    finished: tuple[Finished, Finished]


@dataclass(frozen=True, slots=True)
class PlannedFit:
    """The bed of a size: its mattress, and how far the author asks the quilt to hang down."""

    bed: str
    mattress: tuple[Length, Length]
    """Width and length."""
    drop: Length
    """At each side."""
    foot: Length
    """The drop at the foot."""
    tuck: Length
    """More length at the head."""
    within: Length
    """How far the finished quilt may be off where the program chose it."""
    chosen: tuple[LeftOpen, ...]
    """What the author left open and the program chose."""
    proposals: tuple[BedProposal, ...]
    """What comes closest to the bed, closest first: of what is left open, or of everything where nothing is."""

    @property
    def target(self) -> tuple[Length, Length]:
        """The finished width and length asked for."""
        return self.mattress[0] + self.drop * 2, self.mattress[1] + self.foot + self.tuck

    def drops(self, finished: tuple[Finished, Finished]) -> tuple[Length, Length]:
        """How far a quilt of this size hangs down at each side and at the foot; below zero where it falls short."""
        width, length = finished[0].length, finished[1].length
        return (width - self.mattress[0]) / 2, length - self.mattress[1] - self.tuck
