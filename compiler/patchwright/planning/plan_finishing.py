"""The part of the Plan that comes after the top: binding, backing, batting, and what to buy in the other system.

Never: a float, or a length that is shorter than the quilt needs.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from patchwright.core.length import Cut, Length
from patchwright.core.measure import System
from patchwright.design.design import BindingWay
from patchwright.planning.plan_cloth import Buy

HangingPart = Literal["hanging-sleeve", "hanging-corners", "hanging-label"]


@dataclass(frozen=True, slots=True)
class PlannedHanging:
    """A part that hangs or names the quilt, cut from a fabric of the top."""

    part: HangingPart
    fabric: str
    piece: str
    cut: tuple[Cut, Cut]
    """Width and height as it lies on the back; joined where it is longer than the cloth is wide."""
    count: int


@dataclass(frozen=True, slots=True)
class LayeredBlocks:
    """The blocks of one size of a quilt that is made block by block, as they lie: width and height."""

    finished: tuple[Length, Length]
    front: tuple[Length, Length]
    """Unfinished, with the allowance of the seams that join the blocks."""
    batting: tuple[Length, Length]
    """As cut."""
    back: tuple[Length, Length]
    """As cut."""
    count: int
    piece: str
    """The lettered piece of the backs."""


@dataclass(frozen=True, slots=True)
class PlannedByBlock:
    """Blocks with their own batting and backs; `way`, `inset` and `allowance` as in the design."""

    way: Literal["rag", "quilted"]
    inset: Length
    allowance: Length
    fabric: str
    blocks: tuple[LayeredBlocks, ...]
    """Largest first."""


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
    fold: Literal["double", "single"]
    way: BindingWay
    loss: Length
    """What each join takes of the strips."""
    cloth: tuple[Length, Length] | None
    """What is cut whole, width and height on the cloth: a strip of a precut or along the cloth, or bias cloth."""
    cloths: int
    """How many of it."""
    least: Length | None
    """The shortest bias strip that is joined; None where strips are cut otherwise."""
    lines: int
    """Strips that are marked on one square of a continuous bias binding, else 0."""
    width: Length
    """Usable width of what it is cut from."""
    net: Length
    """Length of cloth that it takes where it is a cloth of its own."""

    @property
    def is_along(self) -> bool:
        """Whether straight strips are cut along the cloth, parallel to the selvage."""
        return self.way == "straight" and self.cloth is not None and self.cloth[0] < self.cloth[1]


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
    lengths: int
    """How many lengths of cloth the panels are cut from."""
    split: bool
    """Whether the two outer panels are cut side by side from one length."""
    along: Literal["lengthwise", "crosswise"]
    """Whether the cloth's length runs along the quilt's height or across it."""
    wide: Length | None
    """Width by which a wide backing cloth is sold, or None."""


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


@dataclass(frozen=True, slots=True)
class BattingRoll:
    """Batting off a roll: so much length, in so many pieces that are butted side by side."""

    width: Length
    length: Length
    pieces: int
    buy: Buy


@dataclass(frozen=True, slots=True)
class PlannedBatting:
    """What to buy for the batting."""

    package: tuple[Length, Length] | None
    """The smallest package that is large enough; None where none is."""
    roll: BattingRoll | None
    """None where the house states no rolls."""
