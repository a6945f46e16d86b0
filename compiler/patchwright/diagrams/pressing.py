"""Which way the seams of an assembly are pressed, as data that drawings take and another pass may give.

In: how many parts each row (or column) has, and the house's rule.
Out: a way for every seam.
Never: a drawing; and no more than a plain rule until a plan of pressing says better.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from patchwright.planning.plan import Plan

Way = Literal["forward", "back", "open", "spun-forward", "spun-back"]
"""Toward the part that follows to the right or below, toward the one before, open, or spun: the upper (or left) half
one way and the other half the other way."""


SASH, CORNERSTONE = "sashing", "cornerstones"
"""Parts of the top as the plan names them."""


@dataclass(frozen=True, slots=True)
class AssemblyPressing:
    """The ways of all seams of one assembly."""

    within: tuple[tuple[Way, ...], ...]
    """For each row or column, its seams in order."""
    between: tuple[Way, ...]
    """The seams that join the rows or columns."""


def plain_pressing(parts: Sequence[int], rule: str) -> AssemblyPressing:
    """Rows alternate so that their seams nest, and the seams between rows all go one way; or everything is open."""
    ways: tuple[Way, Way] = ("open", "open") if rule == "open" else ("forward", "back")
    within = tuple((ways[number % 2],) * (count - 1) for number, count in enumerate(parts))
    return AssemblyPressing(within, ways[:1] * (len(parts) - 1))


def top_pressing(rows: Sequence[Sequence[str]], rule: str) -> AssemblyPressing:
    """Toward the sashing wherever a part or a row of it is joined, else as the plain rule; `rows` hold the parts.

    Blocks press toward the strips beside them and cornerstones toward theirs, so that the seams nest.
    """
    plain = plain_pressing([len(row) for row in rows], rule)
    if rule == "open":
        return plain
    within = tuple(
        tuple(_toward(row[place] == SASH, row[place + 1] == SASH, way) for place, way in enumerate(ways))
        for row, ways in zip(rows, plain.within, strict=True)
    )
    strips = [all(part in (SASH, CORNERSTONE) for part in row) for row in rows]
    between = tuple(_toward(strips[place], strips[place + 1], way) for place, way in enumerate(plain.between))
    return AssemblyPressing(within, between)


def _toward(this: bool, other: bool, plain: Way) -> Way:
    """Toward whichever of two neighbors is sashing, if just one is."""
    if this == other:
        return plain
    return "back" if this else "forward"


def plan_pressing(plan: Plan) -> dict[str, AssemblyPressing]:
    """The plain rule for every assembly of a plan, by id."""
    return {
        assembly.id: plain_pressing([len(line) for line in assembly.lines], plan.rules.pressing)
        for assembly in plan.assemblies
    }
