"""Kits that a shop cuts: for so many quilts of one size, what comes off the bolts, and what is counted out.

In: a plan, a size, how many kits, and the length of cloth on one bolt.
Out: `Kit`: for every cloth the length of one kit, how many one bolt gives, bolts, and what the last one keeps.
Never: a length joined across two bolts; a kit's length is what the list of requirements says to buy.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from patchwright.core.length import ZERO, Length
from patchwright.planning.finishing.buying import METER, YARD
from patchwright.planning.plan import Buy, Plan, PlannedSize


@dataclass(frozen=True, slots=True)
class Bolts:
    """One cloth for all kits, from bolts alike; no bolt gives a length that is longer than itself."""

    length: Length
    """What one kit gets."""
    kits: int
    bolt: Length

    @property
    def total(self) -> Length:
        return self.length * self.kits

    @property
    def per_bolt(self) -> int:
        """How many kits one bolt gives; 0 where a kit's length is more than a bolt."""
        return (self.bolt / self.length.rational()).floor()

    @property
    def bolts(self) -> int:
        """How many bolts are cut into; 0 where no bolt is long enough."""
        return -(-self.kits // self.per_bolt) if self.per_bolt else 0

    @property
    def from_last(self) -> int:
        """How many kits the last bolt gives."""
        return self.kits - self.per_bolt * (self.bolts - 1) if self.bolts else 0

    @property
    def left(self) -> Length:
        """What the last bolt keeps."""
        return self.bolt - self.length * self.from_last if self.bolts else ZERO

    @property
    def left_of_each(self) -> Length:
        """What every bolt before the last keeps."""
        return self.bolt - self.length * self.per_bolt if self.bolts else ZERO


@dataclass(frozen=True, slots=True)
class KitCloth:
    """A cloth that is cut from bolts."""

    part: Literal["fabric", "binding", "backing"]
    fabric: str
    """Id of the fabric; nothing where binding or backing is a cloth of its own."""
    buy: Buy
    """What one kit gets, as it is bought."""
    cut: Bolts


@dataclass(frozen=True, slots=True)
class KitPack:
    """A pack, or precuts counted out singly."""

    pack: str
    each: int
    """Packs in one kit; precuts where they are bought singly."""
    total: int


@dataclass(frozen=True, slots=True)
class Kit:
    """All that a shop prepares for kits of one size."""

    count: int
    bolt: Length
    cloths: tuple[KitCloth, ...]
    packs: tuple[KitPack, ...]
    batting: tuple[tuple[tuple[Length, Length], int], ...]
    """Pieces of batting in one kit, by size."""


def plan_kit(plan: Plan, index: int, count: int = 0) -> Kit:
    """The kits of one size, as many as the house's rules say if no count is given."""
    size = plan.sizes[index]
    kits, bolt = count or plan.rules.kit_count, plan.rules.kit_bolt
    cloths = tuple(
        KitCloth(part, fabric, buy, Bolts(_length(buy), kits, bolt)) for part, fabric, buy in _bought(plan, size, index)
    )
    packs = tuple(
        KitPack(pack.id, use.packs, use.packs * kits)
        for pack in plan.packs if (use := pack.sizes[index]) is not None
    )
    return Kit(kits, bolt, cloths, packs, batting_pieces(size))


def batting_pieces(size: PlannedSize) -> tuple[tuple[tuple[Length, Length], int], ...]:
    """The pieces that batting is cut to and how many of each: one, but for quilts that are made block by block."""
    if size.by_block is None:
        return ((size.batting, 1),)
    return tuple((block.batting, block.count) for block in size.by_block.blocks)


def _bought(
    plan: Plan, size: PlannedSize, index: int
) -> Iterator[tuple[Literal["fabric", "binding", "backing"], str, Buy]]:
    """Every length of cloth that one quilt takes, in the order of the list of requirements."""
    for fabric in plan.fabrics:
        own = fabric.sizes[index]
        if own is not None and own.buy is not None and own.buy.unit in ("yd", "m"):
            yield "fabric", fabric.id, own.buy
    if size.binding is not None and size.binding.buy is not None:
        yield "binding", "", size.binding.buy
    if size.backing is not None and size.backing.buy is not None:
        yield "backing", "", size.backing.buy


def _length(buy: Buy) -> Length:
    """The bought length in inches or centimeters."""
    return Length(buy.amount * (YARD if buy.unit == "yd" else METER))
