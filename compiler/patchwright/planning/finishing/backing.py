"""The backing of one size: panels both ways, with or without a seam in the middle, the cheaper taken.

In: the backing as designed, the top's unfinished size and the rules.
Out: panels as cut, and what to buy.
Never: a panel that is wider than its cloth, or a print that lies on its side.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from patchwright.core.length import Length, Unfinished
from patchwright.design.design import Backing
from patchwright.design.rules import Rules
from patchwright.planning.finishing.buying import buy_for, joined_strips, measurable
from patchwright.planning.plan_finishing import PlannedBacking

Way = Literal["lengthwise", "crosswise"]


@dataclass(frozen=True, slots=True)
class _Panels:
    """Panels side by side: their cut widths, how many lengths of cloth they take, whether one length is split."""

    widths: tuple[Length, ...]
    lengths: int
    split: bool


@dataclass(frozen=True, slots=True)
class _Laid:
    way: Way
    panels: _Panels
    along: Length
    """The length that every panel is cut to."""

    @property
    def length(self) -> Length:
        return self.along * self.panels.lengths


def plan_backing(backing: Backing, top: tuple[Unfinished, Unfinished], rules: Rules) -> PlannedBacking:
    """Panels both ways, the cheaper taken; a one-way print, and an author who says so, allow only one way.

    The outer panels of a centered backing are equal, and no seam runs through its middle.
    """
    extra = rules.backing_overage * 2
    width, height = (measurable(side.length + extra, rules.round_cuts) for side in top)
    join = _centered if backing.centered else _side_by_side
    measures = backing.usable_width, rules.backing_seam, rules.round_cuts
    ways = {
        "lengthwise": _Laid("lengthwise", join(width, *measures), height),
        "crosswise": _Laid("crosswise", join(height, *measures), width),
    }
    forced = backing.seams if backing.seams != "auto" else backing.direction
    allowed = [way for name, way in ways.items() if forced in ("none", name)]
    best = min(allowed, key=lambda way: (way.length, len(way.panels.widths)))
    sides = best.panels.widths
    panels = tuple((side, height) if best.way == "lengthwise" else (width, side) for side in sides)
    return PlannedBacking(
        fabric=backing.fabric, size=(width, height), seams=best.way if len(panels) > 1 else "none", panels=panels,
        length=best.length, buy=None if backing.fabric else buy_for(best.length, rules),
        usable_width=backing.usable_width, lengths=best.panels.lengths, split=best.panels.split,
        along=best.way, wide=backing.wide,
    )


def _side_by_side(across: Length, usable: Length, seam: Length, _step: Fraction) -> _Panels:
    """Full widths of cloth, the last trimmed to what is still missing; nothing of it is rounded."""
    loss = seam * 2
    count = joined_strips(across, usable, loss)
    last = across - (usable - loss) * (count - 1)
    return _Panels((*(usable for _ in range(count - 1)), last), count, False)


def _centered(across: Length, usable: Length, seam: Length, step: Fraction) -> _Panels:
    """Full widths in the middle and two equal panels outside; an even number of lengths has its last one split."""
    loss = seam * 2
    if across <= usable:
        return _Panels((across,), 1, False)
    count = 2
    while True:
        split = count % 2 == 0
        inner = count - 1 if split else count - 2
        outer = ((across - usable * inner + loss * (inner + 1)) / 2).up_to(step)
        if outer <= (usable / 2 if split else usable):
            return _Panels((outer, *(usable for _ in range(inner)), outer), count, split)
        count += 1
