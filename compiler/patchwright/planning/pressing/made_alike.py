"""Which seams of a unit are made alike, so that they are pressed alike: rows of one strip set, and equal parts.

In: the shapes and the cloth of a unit's patches, and its seams in sewing order.
Out: every seam with the number of the first that is made as it is, both turned so that one direction serves them.
Rule: rows of rectangles are alike if one is the other, turned half around or not, as segments of one strip set are;
other parts are alike if they look the same in one of four turns.
Never: a direction of pressing.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from patchwright.planning.pressing.grid import Measure, Shape, cross, vector
from patchwright.planning.pressing.sewing import UnitSeam

_CORNERS = 4


@dataclass(frozen=True, slots=True)
class _Row:
    """Rectangles in a row, in the one of its two orders that comes first."""

    patches: tuple[int, ...]
    look: str


def made_alike(
    shapes: Sequence[Shape], cloth: Sequence[str], seams: Sequence[UnitSeam]
) -> Iterator[tuple[int, UnitSeam]]:
    """Each seam with the number of the first that is made as it is; the last seam of a unit is its own."""
    known: dict[object, int] = {}
    for number, seam in enumerate(seams):
        row = _row(shapes, cloth, seams, seam)
        if row is not None:
            low, high = (min(row.patches.index(patch) for patch in side) for side in (seam.first, seam.second))
            first = seam if low < high else seam.reversed()
            yield known.setdefault((row.look, max(low, high)), number), first
        elif len(seam.patches) == len(shapes):
            yield number, seam
        else:
            yield known.setdefault(_look(shapes, cloth, seam), number), seam


def _row(
    shapes: Sequence[Shape], cloth: Sequence[str], seams: Sequence[UnitSeam], seam: UnitSeam
) -> _Row | None:
    """The row of rectangles that a seam belongs to, unless that is the whole unit."""
    along = vector(seam.start, seam.finish)
    around = [other for other in seams if other.patches >= seam.patches]
    beside = [other for other in around if not cross(along, vector(other.start, other.finish))]
    crossing = [other.patches for other in around if other not in beside]
    inside = [other for other in beside if all(other.patches < patches for patches in crossing)]
    patches = max((other.patches for other in inside), key=len, default=frozenset())
    if not crossing or not patches or not all(_is_upright(shapes[patch]) for patch in patches):
        return None
    within = [other for other in seams if other.patches <= patches]
    if any(cross(along, vector(other.start, other.finish)) for other in within):
        return None
    axis = 0 if along[1] else 1
    order = sorted(patches, key=lambda patch: min(corner[axis] for corner in shapes[patch]))
    look, turned = (
        str([(cloth[patch], *(str(side) for side in _sides(shapes[patch], axis))) for patch in one])
        for one in (order, order[::-1])
    )
    return _Row(tuple(order[::-1]), turned) if turned < look else _Row(tuple(order), look)


def _is_upright(shape: Shape) -> bool:
    return len(shape) == _CORNERS and all(len({corner[axis] for corner in shape}) == 2 for axis in (0, 1))


def _sides(shape: Shape, axis: int) -> tuple[Measure, Measure]:
    """How long a rectangle is along its row and across it."""
    along, aside = ([corner[at] for corner in shape] for at in (axis, 1 - axis))
    return max(along) - min(along), max(aside) - min(aside)


def _look(shapes: Sequence[Shape], cloth: Sequence[str], seam: UnitSeam) -> str:
    """What a sewn part looks like, whichever way it is turned and wherever it lies."""
    patches = [(patch in seam.second, cloth[patch], shapes[patch]) for patch in sorted(seam.patches)]
    turns = []
    for _ in range(4):
        corners = [corner for *_, shape in patches for corner in shape]
        left, top = min(x for x, _ in corners), min(y for _, y in corners)
        turns.append(sorted((side, fabric, sorted((str(x - left), str(y - top)) for x, y in shape))
                            for side, fabric, shape in patches))
        patches = [(side, fabric, tuple((-y, x) for x, y in shape)) for side, fabric, shape in patches]
    return str(min(turns))
