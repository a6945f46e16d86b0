"""The pressing plan in the shape that drawings take: a way for every seam within and between the lines of a thing.

In: a pressing plan.
Out: `LineWays`, for an assembly or for the rows of a size's top.
Never: a drawing. A spun seam is given by the way of its upper or left half.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from patchwright.planning.plan import Plan, PlannedSize
from patchwright.planning.pressing.results import PressingPlan
from patchwright.planning.pressing.terms import Owner, Seam
from patchwright.planning.pressing.tops import (
    HALF_SEAMS,
    MIDDLE_SEAM,
    SIDES,
    Side,
    TopRow,
    first_chain,
    joining_seams,
    quarter_rows,
    row_seams,
    top_rows,
)

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

    The diagonal rows of a column on point are `column-NAME`. A top in quarters is `top-NAME` with its quarters in rows,
    and its quarters are `quarter-NAME-upper-left` and so on.
    """
    made = {assembly.id: as_assembly_pressing(plan, pressing, assembly.id) for assembly in plan.assemblies}
    tops = [size for size in plan.sizes if size.by_block is None]
    made |= {f"top-{size.name}": as_top_pressing(pressing, size) for size in tops}
    for size in tops:
        for half, name in zip(quarter_rows(size), ("upper", "lower"), strict=False):
            made |= {
                f"quarter-{size.name}-{name}-{side}": as_rows_pressing(pressing, rows, side)
                for side, rows in zip(SIDES, half, strict=True)
            }
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


def as_top_pressing(pressing: PressingPlan, size: PlannedSize) -> LineWays:
    """The ways of the rows of one size's center, sashing rows among them, and of the seams between them.

    Of a center in quarters, the ways of the seams between its quarters, two rows of two.
    """
    if size.quarters is None:
        return as_rows_pressing(pressing, top_rows(size))
    within = tuple((_way(pressing, seam),) for seam in HALF_SEAMS)
    return LineWays(within, (_way(pressing, MIDDLE_SEAM),))


def as_rows_pressing(pressing: PressingPlan, rows: Sequence[TopRow], side: Side | None = None) -> LineWays:
    """The ways of rows of a center, or of a quarter on this side of it.

    Columns on point have diagonal rows of their own, and none within them here.
    """
    within = tuple(as_row_pressing(pressing, row) for row in rows)
    return LineWays(within, tuple(_way(pressing, seam) for seam in joining_seams(rows, side)))


def as_row_pressing(pressing: PressingPlan, row: TopRow) -> tuple[DrawnWay, ...]:
    """The ways of the seams within one row."""
    return () if row.is_chain else tuple(_way(pressing, seam, row.is_column) for seam in row_seams(row))


def _way(pressing: PressingPlan, seam: Seam, level: bool = False) -> DrawnWay:
    """The way of a seam; one that lies level starts at the right, so that its second half is the left one."""
    halves = pressing.pressed(seam).halves
    first = halves[1] if level else halves[0]
    if halves[0] != halves[1]:
        return "spun-forward" if first > 0 else "spun-back"
    return "forward" if first > 0 else "back" if first < 0 else "open"
