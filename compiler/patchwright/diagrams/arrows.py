"""Small arrows: between the parts of a drawing, and over seams toward the side to which they are pressed.

In: the board, for the measure of the gaps.
Out: pictures or lines.
Never: a direction chosen here.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import hypot
from typing import Literal

from patchwright.diagrams.board import Board
from patchwright.diagrams.picture import Picture, bare, beside
from patchwright.diagrams.scene import XY, Line


def step_arrow(board: Board) -> Picture:
    """An arrow from one picture to the next."""
    long, high = 3.2 * board.em, 1.6 * board.em
    return bare(long, high, [Line(((0, high / 2), (long, high / 2)), "grain", "end")])


def in_sequence(board: Board, pictures: Sequence[Picture]) -> Picture:
    """Pictures from left to right with arrows between them."""
    parts: list[Picture] = []
    for picture in pictures:
        if parts:
            parts.append(step_arrow(board))
        parts.append(picture)
    return beside(parts, 1.3 * board.em)


def seam_arrow(
    board: Board, at: XY, way: XY, room: float, is_open: bool, over: Literal["cloth", "paper"] = "paper"
) -> Line:
    """An arrow over a seam, its middle at a point of it; `way` has length 1, and short seams get short arrows.

    `room` is the length of the seam, or of the part of it that the arrow stands for, on the page.
    """
    half = min(1.5 * board.em, max(room * 0.6, 0.7 * board.em)) / 2
    (x, y), (dx, dy) = at, way
    ends = (x - dx * half, y - dy * half), (x + dx * half, y + dy * half)
    return Line(ends, "press", "both" if is_open else "end", over)


def drawn_seam(
    board: Board, points: Sequence[XY], halves: tuple[int, int], corners: Sequence[XY], mirrored: bool
) -> Iterator[Line]:
    """The arrow over a seam of a drawing, or the two of a spun one; `corners` are points where other seams may end.

    `halves` are 1 toward the left hand from its first to its last point, `mirrored` toward the right hand.
    """
    (x, y), (far_x, far_y) = points[0], points[-1]
    long = hypot(far_x - x, far_y - y)
    sign = -1 if mirrored else 1
    aside = (far_y - y) / long * sign, (x - far_x) / long * sign
    parts = [(0.25, halves[0]), (0.75, halves[1])]
    if halves[0] == halves[1]:
        parts = [(_clear_part(points, corners), halves[0])]
    for part, way in parts:
        at = x + (far_x - x) * part, y + (far_y - y) * part
        if len(points) > 2:  # A curve.
            before, after = points[(len(points) - 1) // 2], points[len(points) // 2]
            at = (before[0] + after[0]) / 2, (before[1] + after[1]) / 2
        step = (aside[0] * way, aside[1] * way) if way else aside
        yield seam_arrow(board, at, step, long / len(parts), not way, "cloth")


def _clear_part(points: Sequence[XY], corners: Sequence[XY]) -> float:
    """How far along a seam its arrow stands: in the middle of its longest stretch on which no other seam ends."""
    (x, y), (far_x, far_y) = points[0], points[-1]
    square = (far_x - x) ** 2 + (far_y - y) ** 2
    stops = {0.0, 1.0}
    for corner_x, corner_y in corners:
        along = ((corner_x - x) * (far_x - x) + (corner_y - y) * (far_y - y)) / square
        off = abs((corner_x - x) * (far_y - y) - (corner_y - y) * (far_x - x)) / square
        if 0.02 < along < 0.98 and off < 0.02:
            stops.add(round(along, 3))
    ordered = sorted(stops)
    stretches = [(round(end - start, 2), -abs(start + end - 1), start + end) for start, end in pairwise(ordered)]
    return max(stretches)[2] / 2
