"""What pressing depends on: joining lines, meetings, how often each occurs, and what each seam would rather.

In: nothing; these are the types that are filled from a plan and read by those who choose.
Never: a direction chosen; nothing here knows the house's rule.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field

from patchwright.planning.pressing.sewing import UnitSeam
from patchwright.planning.pressing.terms import Owner, Seam, SeamEnd

Half = tuple[Seam, int]
Meeting = tuple[Seam, SeamEnd, SeamEnd]
"""(joining line, end on its first side, end on its second)."""


@dataclass(frozen=True, slots=True)
class Crossing:
    """A point of a line where one straight seam comes to it from each side."""

    first: SeamEnd
    second: SeamEnd
    is_middle: bool
    """Whether it is in the middle of the line, or the only one there."""


SecondWays = Sequence[frozenset[int]]
"""For each size, the places among its parts of the blocks that are pressed the second way."""


@dataclass(frozen=True, slots=True)
class UnitDrawing:
    """What others need to know of a unit's seams."""

    seams: tuple[tuple[Seam, UnitSeam], ...]
    roles: tuple[str, ...]


@dataclass(slots=True)
class Model:
    """All sizes together; filled by `make_model` and read only after that."""

    sizes: tuple[str, ...]
    meetings: dict[Meeting, list[int]] = field(default_factory=dict)
    """How often each occurs in each size."""
    apart: dict[Meeting, list[int]] = field(default_factory=dict)
    """Where it is asked for, the same for the lines of the top with its blocks kept apart: for a variant, the ends of
    seams of a block have its place among the parts of its size, from 1."""
    spins: dict[Seam, tuple[Crossing, ...]] = field(default_factory=dict)
    """The crossings of lines that have any, in order from the start."""
    fixed: dict[Seam, int] = field(default_factory=dict)
    wishes: dict[str, Counter[Half]] = field(default_factory=dict)
    """By reason, for each half of a seam: above zero to be pressed forward, below zero back."""
    names: dict[Seam, tuple[dict[str, None], dict[str, None]]] = field(default_factory=dict)
    """What lies behind and before each seam, in the order met."""
    counts: dict[Owner, list[int]] = field(default_factory=dict)
    holders: dict[Owner, dict[Owner, None]] = field(default_factory=dict)
    """By what is made, the assemblies that it is a part of."""
    heavy: dict[tuple[Seam, int], list[int]] = field(default_factory=dict)
    """(line, seams that meet in one point of it) where more than six do, and how often in each size."""
    units: dict[Owner, UnitDrawing] = field(default_factory=dict)
    seams: dict[Seam, None] = field(default_factory=dict)
    """All seams of which a way is to be chosen, inner ones first."""
    opened: dict[Seam, None] = field(default_factory=dict)
    """Seams that are always pressed open, so that nothing nests with them: miters."""
    mixed: dict[Owner, None] = field(default_factory=dict)
    """Units that come in two hands of sewing, which nobody tells apart: nothing outside nests with all of them."""

    def never_nests(self, meeting: Meeting) -> bool:
        """Whether these ends nest nowhere, or not wherever they meet, however the seams are pressed."""
        line, *ends = meeting
        return any(
            end.seam in self.opened
            or (Owner(end.seam.owner.kind, end.seam.owner.id) in self.mixed and end.seam.owner.id != line.owner.id)
            for end in ends
        )
