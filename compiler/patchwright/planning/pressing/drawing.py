"""The pressing plan in the shape that drawings take: a way for every seam within and between the lines of a thing.

In: a pressing plan.
Out: `LineWays`, for an assembly or for the rows of a size's top.
Never: a drawing. A spun seam is given by the way of its upper or left half.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from patchwright.planning.plan import Plan
from patchwright.planning.pressing.results import PressingPlan
from patchwright.planning.pressing.terms import Owner, Seam
from patchwright.planning.pressing.tops import TopRow, between_rows, first_chain, line_of, top_rows

DrawnWay = Literal["forward", "back", "open", "spun-forward", "spun-back"]
"""A spun seam by the way of its upper, or left, half; the other half lies the other way."""


@dataclass(frozen=True, slots=True)
class LineWays:
    """The ways of all seams of one assembly, or of the top's center."""

    within: tuple[tuple[DrawnWay, ...], ...]
    """For each row or column, its seams in order."""
    between: tuple[DrawnWay, ...]
    """The seams that join the rows or columns."""


def drawn_pressing(plan: Plan, pressing: PressingPlan) -> dict[str, LineWays]:
    """Everything that drawings ask for: the assemblies by id, and the top of each size as `top-NAME`.

    The diagonal rows of a column on point are `column-NAME`.
    """
    made = {assembly.id: as_assembly_pressing(plan, pressing, assembly.id) for assembly in plan.assemblies}
    tops = [(at, size) for at, size in enumerate(plan.sizes) if size.by_block is None]
    made |= {f"top-{size.name}": as_top_pressing(plan, pressing, at) for at, size in tops}
    return made | {
        f"column-{size.name}": as_rows_pressing(pressing, first_chain(size)) for size in plan.sizes if first_chain(size)
    }


def as_assembly_pressing(plan: Plan, pressing: PressingPlan, assembly: str, variant: int = 0) -> LineWays:
    """The ways of an assembly's seams; with two variants, of one of them."""
    made = next(known for known in plan.assemblies if known.id == assembly)
    lines, rows = made.lines, made.axis == "rows"
    owner = Owner("assembly", assembly, variant)
    within = tuple(
        tuple(_way(pressing, Seam(owner, "within", number, place), not rows) for place in range(len(line) - 1))
        for number, line in enumerate(lines)
    )
    seams = [Seam(owner, "between", number) for number in range(len(lines) - 1)]
    return LineWays(within, tuple(_way(pressing, seam, rows) for seam in seams))


def as_top_pressing(plan: Plan, pressing: PressingPlan, index: int) -> LineWays:
    """The ways of the rows of one size's center, sashing rows among them, and of the seams between them."""
    return as_rows_pressing(pressing, top_rows(plan.sizes[index]))


def as_rows_pressing(pressing: PressingPlan, rows: Sequence[TopRow]) -> LineWays:
    """The ways of rows of a center; columns on point have diagonal rows of their own, and none within them here."""
    within = []
    for place, row in enumerate(rows):
        number = sum(before.is_strip == row.is_strip for before in rows[:place])
        owner = Owner("row", "strip" if row.is_strip else "block")
        count = 0 if row.is_chain else len(row.items) - 1
        seams = [Seam(owner, "within", line_of(row, number), at) for at in range(count)]
        within.append(tuple(_way(pressing, seam, row.is_column) for seam in seams))
    between = tuple(
        _way(pressing, Seam(Owner("top", "top"), "between", between_rows(this, other)))
        for this, other in pairwise(rows)
    )
    return LineWays(tuple(within), between)


def _way(pressing: PressingPlan, seam: Seam, level: bool = False) -> DrawnWay:
    """The way of a seam; one that lies level starts at the right, so that its second half is the left one."""
    halves = pressing.pressed(seam).halves
    first = halves[1] if level else halves[0]
    if halves[0] != halves[1]:
        return "spun-forward" if first > 0 else "spun-back"
    return "forward" if first > 0 else "back" if first < 0 else "open"
