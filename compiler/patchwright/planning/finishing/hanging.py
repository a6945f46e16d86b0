"""What hangs a quilt and names it: a sleeve along the upper edge, corners for a rod, a label.

In: what is asked for, the finished top, the rules.
Out: the cut sizes and counts; how they are planned.
Never: cloth of their own: each is cut from a fabric of the pattern, whose cutting counts it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from patchwright.core.length import Cut, Finished, Length
from patchwright.design.design import Hanging
from patchwright.design.rules import Rules
from patchwright.planning.finishing.buying import measurable
from patchwright.planning.plan_finishing import HangingPart, PlannedHanging


@dataclass(frozen=True, slots=True)
class HangingNeed:
    """One part: so many pieces, cut so wide and high."""

    part: HangingPart
    fabric: str
    width: Cut
    height: Cut
    count: int


def hanging_needs(hanging: Hanging, width: Length, rules: Rules) -> Iterator[HangingNeed]:
    """The parts that are asked for, for a top of a finished width.

    A sleeve is the width less an inset and with a hem at both ends; corners are squares folded on the diagonal; a label
    has a seam turned under all around. Common practice, no source.
    """
    if hanging.sleeve:
        long = measurable(width - rules.sleeve_inset * 2 + rules.sleeve_hem * 2, rules.round_cuts)
        yield HangingNeed("hanging-sleeve", hanging.sleeve, Cut(long), Cut(rules.sleeve), 1)
    if hanging.corners:
        yield HangingNeed("hanging-corners", hanging.corners, Cut(rules.hanging_corner), Cut(rules.hanging_corner), 2)
    if hanging.label:
        wide, high = (Finished(side).cut(rules.seam) for side in hanging.label_size)
        yield HangingNeed("hanging-label", hanging.label, wide, high, 1)


def plan_hanging(needs: Iterator[HangingNeed], pieces: Mapping[HangingPart, str]) -> tuple[PlannedHanging, ...]:
    """The parts with their lettered pieces."""
    return tuple(
        PlannedHanging(need.part, need.fabric, pieces[need.part], (need.width, need.height), need.count)
        for need in needs
    )
