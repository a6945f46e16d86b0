"""Which seams a stage presses and where they lie in its drawings, for every method.

In: finished patches, and which of them a seam joins.
Out: marks of seams, views that have them, and the seams of common orders of sewing.
Never: a direction of pressing; but for what habit fixes, the plan chooses it.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from patchwright.core.geometry import Polygon
from patchwright.core.length import ZERO, Length
from patchwright.methods.flat_shapes import Join, touching
from patchwright.methods.method import PatchSeam, SeamMark, StageShape, StageView

Group = tuple[int, ...]


def pressing_view(shapes: tuple[StageShape, ...], *seams: SeamMark) -> StageView:
    """Sewn and opened cloth with the seams that are pressed now."""
    return StageView(shapes, pressed=seams)


def seam_between(
    polygons: Sequence[Polygon], first: Group, second: Group, x: Length = ZERO, y: Length = ZERO
) -> SeamMark:
    """The straight seam where two groups of finished patches touch, moved to where they are drawn."""
    start, finish = touching(tuple(polygons), first, second)
    return SeamMark(first[0], second[0], (start.moved(x, y), finish.moved(x, y)))


def chained(patches: Sequence[int]) -> tuple[PatchSeam, ...]:
    """Patch after patch is added to those before it."""
    return tuple(PatchSeam(tuple(patches[:end]), (patches[end],)) for end in range(1, len(patches)))


def in_lines(lines: Sequence[Sequence[int]]) -> tuple[PatchSeam, ...]:
    """Rows (or columns) are sewn patch by patch, then row is added to row."""
    made = [seam for line in lines for seam in chained(line)]
    for end in range(1, len(lines)):
        before = tuple(patch for line in lines[:end] for patch in line)
        made.append(PatchSeam(before, tuple(lines[end])))
    return tuple(made)


def joined(joins: Iterable[Join]) -> tuple[PatchSeam, ...]:
    """The seams of parts that are sewn together from the inside out."""
    return tuple(PatchSeam(join.first, join.second) for join in joins)
