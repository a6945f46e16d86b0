"""What is sewn on the way to a block or a top must measure: rows inside a block, diagonal rows, rows of layered blocks.

In: an assembly, or the rows of one size's top, and the seam allowance.
Out: lengths with their kind.
Never: the measure of an edge that is trimmed later, such as that of a setting triangle; it is only said what is exact.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from patchwright.core.length import Finished, Length, Unfinished
from patchwright.planning.plan import Assembly
from patchwright.planning.pressing.tops import TopRow

Extent = tuple[Unfinished, Unfinished]


@dataclass(frozen=True, slots=True)
class DiagonalRow:
    """A diagonal row whose ends are trimmed later: how high it is, and how long between the seams of its ends."""

    high: Unfinished
    between: Finished
    """From the seam of what ends it at the lower left to that at the upper right, along its middle."""


def line_extents(assembly: Assembly, index: int, seam: Length) -> tuple[Extent, ...]:
    """Width and height, unfinished, of each row (or column) of an assembly in one size, before the rows are joined.

    Nothing for a size that lacks it.
    """
    made: list[Extent] = []
    for line in assembly.lines:
        sizes = [own for part in line if (own := part.sizes[index]) is not None]
        if len(sizes) != len(line):
            return ()
        widths, heights = ([side[at].length for side in sizes] for at in (0, 1))
        along, across = (widths, heights) if assembly.axis == "rows" else (heights, widths)
        long, high = Finished(sum(along[1:], along[0])).unfinished(seam), Finished(across[0]).unfinished(seam)
        made.append((long, high) if assembly.axis == "rows" else (high, long))
    return tuple(made)


def diagonal_extents(rows: Iterable[TopRow], strips: bool, seam: Length) -> tuple[DiagonalRow, ...]:
    """The rows of blocks (or of sashing) of a center or column on point that are sewn of parts, as they follow.

    Both ends of such a row are triangles, or half cornerstones, which are a little large and are trimmed with the
    center, so that no edge of the row has a length before; the parts between the seams of its ends have one.
    """
    return tuple(
        DiagonalRow(Finished(row.side).unfinished(seam), Finished(sum(row.lengths[2:-1], row.lengths[1])))
        for row in rows
        if row.is_strip == strips and row.side is not None and not row.is_corner and len(row.items) > 2
    )
