"""Where in an outline a label has the most room.

In: a closed outline in inches, its first corner not repeated.
Out: a place within it.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from patchwright.diagrams.scene import XY


def roomiest(outline: tuple[XY, ...], near: XY, free: Callable[[XY], bool] | None = None) -> XY:
    """The place of a grid in an outline that is farthest from its lines, if one is `free` among those."""
    xs, ys = [x for x, _ in outline], [y for _, y in outline]
    left, top, wide, high = min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys)
    steps = 16
    spots = [
        (left + wide * (i + 0.5) / steps, top + high * (j + 0.5) / steps) for i in range(steps) for j in range(steps)
    ]
    within = [spot for spot in spots if contains(outline, spot)]
    within = [spot for spot in within if free is None or free(spot)] or within
    sides = [
        (ax, ay, bx - ax, by - ay, (bx - ax) ** 2 + (by - ay) ** 2)
        for (ax, ay), (bx, by) in zip(outline, outline[1:] + outline[:1], strict=True)
    ]
    return max(within, key=lambda spot: round(_clearance(sides, spot), 6), default=near)


def contains(outline: tuple[XY, ...], spot: XY) -> bool:
    """Whether a point lies in an outline, by the lines that cross its level to the right."""
    x, y = spot
    odd = False
    for (ax, ay), (bx, by) in zip(outline, outline[1:] + outline[:1], strict=True):
        if (ay > y) != (by > y) and x < ax + (y - ay) / (by - ay) * (bx - ax):
            odd = not odd
    return odd


def _clearance(sides: Sequence[tuple[float, float, float, float, float]], spot: XY) -> float:
    """The square of the distance to the nearest side; a side is its start, its way, and its length squared."""
    x, y = spot
    least = float("inf")
    for ax, ay, wide, high, square in sides:
        along = ((x - ax) * wide + (y - ay) * high) / square if square else 0.0
        along = 0.0 if along < 0 else 1.0 if along > 1 else along
        found = (ax + along * wide - x) ** 2 + (ay + along * high - y) ** 2
        if found < least:
            least = found
    return least
