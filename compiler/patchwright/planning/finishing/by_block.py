"""The layers of blocks that are joined when they have their batting and backs: sizes, counts, and batting to buy.

In: how they are made up as designed, the finished places of the blocks of one size, the rules.
Out: groups of equal blocks; the plan of them; batting by the package and off the roll.
Never: batting or a back that is smaller than what it is for.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence

from patchwright.core.length import ZERO, Length
from patchwright.design.design import ByBlock
from patchwright.design.rules import Rules
from patchwright.planning.finishing.buying import bought_for, buy_for, measurable
from patchwright.planning.plan_finishing import BattingRoll, LayeredBlocks, PlannedBatting, PlannedByBlock

Pair = tuple[Length, Length]
Group = tuple[Pair, int]
"""A finished size and how many blocks have it."""


def equal_blocks(places: Iterable[Pair]) -> tuple[Group, ...]:
    """The blocks of one size of the quilt by their finished sizes, the largest first."""
    counts = Counter(places)
    return tuple(sorted(counts.items(), key=lambda group: (group[0][0] * group[0][1], group[0]), reverse=True))


def layers_of(made: ByBlock, finished: Pair, rules: Rules) -> tuple[Pair, Pair, Pair]:
    """Front unfinished, batting and back as cut.

    A rag quilt's back is cut like its front, its batting without the seams and their inset; a block that is quilted by
    itself has batting and back larger than its front by the allowance on every side. Common practice, no source.
    """
    front = finished[0] + rules.seam * 2, finished[1] + rules.seam * 2
    if made.way == "rag":
        batting = finished[0] - made.inset * 2, finished[1] - made.inset * 2
        return front, batting, front
    width, height = (measurable(side + made.allowance * 2, rules.round_cuts) for side in front)
    return front, (width, height), (width, height)


def plan_by_block(made: ByBlock, groups: Sequence[Group], pieces: Sequence[str], rules: Rules) -> PlannedByBlock:
    """The groups with their layers and the lettered pieces of their backs."""
    blocks = []
    for (finished, count), piece in zip(groups, pieces, strict=True):
        front, batting, back = layers_of(made, finished, rules)
        blocks.append(LayeredBlocks(finished, front, batting, back, count, piece))
    return PlannedByBlock(made.way, made.inset, made.allowance, made.fabric, tuple(blocks))


def batting_for_blocks(blocks: Sequence[LayeredBlocks], rules: Rules) -> PlannedBatting:
    """The smallest package and the roll of least area from which all pieces can be cut, in rows of one size."""
    needs = [(block.batting, block.count) for block in blocks]
    fitting = [
        package for package in rules.batting_packages
        if any((rows := _rows(needs, side[0])) is not None and rows <= side[1] for side in (package, package[::-1]))
    ]
    package = min(fitting, key=lambda one: (one[0] * one[1], one), default=None)
    rolls = [(width, length) for width in rules.batting_rolls if (length := _rows(needs, width)) is not None]
    if not rolls:
        return PlannedBatting(package, None)
    width, length = min(rolls, key=lambda roll: (bought_for(roll[1], rules) * roll[0].rational(), roll[0]))
    buy = buy_for(length, rules)
    return PlannedBatting(package, BattingRoll(width, length, 1, buy) if buy is not None else None)


def _rows(needs: Sequence[Group], width: Length) -> Length | None:
    """The length that rows of equal pieces take on a width, each size lying as it takes less; None if one is wider."""
    total = ZERO
    for size, count in needs:
        ways = [
            -(-count // fitting) * along for across, along in (size, size[::-1])
            if (fitting := (width / across.rational()).floor())
        ]
        if not ways:
            return None
        total += min(ways)
    return total
