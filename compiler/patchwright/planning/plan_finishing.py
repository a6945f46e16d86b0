"""The part of the Plan that comes after the top: binding and backing, and what to buy in the other system of measure.

Never: a float, or a length that is shorter than the quilt needs.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from patchwright.core.length import Cut, Length
from patchwright.core.measure import System
from patchwright.planning.plan_cloth import Buy


@dataclass(frozen=True, slots=True)
class PlannedBinding:
    fabric: str
    piece: str
    strip: Cut
    strips: int
    joins: int
    length: Length
    """Length needed: around the quilt and the house's extra."""
    made: Length
    """Length that the joined strips give."""
    buy: Buy | None
    """Where it is a cloth of its own."""


@dataclass(frozen=True, slots=True)
class PlannedBacking:
    fabric: str
    size: tuple[Length, Length]
    seams: Literal["none", "lengthwise", "crosswise"]
    """Which way the seams run on the bolt: lengthwise seams join panels as long as the quilt."""
    panels: tuple[tuple[Length, Length], ...]
    """Width and height of each as cut and laid, left to right or top to bottom."""
    length: Length
    buy: Buy | None
    """Where it is a cloth of its own."""
    usable_width: Length
    """Width of the backing cloth that the panels are cut from."""


@dataclass(frozen=True, slots=True)
class Elsewhere:
    """The plan's quantities in the other system of measure, for buying; nothing is cut by them."""

    system: System
    amounts: tuple[tuple[Buy, Buy], ...]
    """Every quantity of cloth by length that the plan buys, with what to ask for instead."""
    width: Length
    """The width of cloth to look for, rounded up."""
    finished: tuple[tuple[Length, Length], ...]
    """Of every size, to the nearest step."""
    batting: tuple[tuple[Length, Length], ...]
    """Of every size, rounded up."""

    def amount(self, buy: Buy) -> Buy | None:
        return dict(self.amounts).get(buy)
