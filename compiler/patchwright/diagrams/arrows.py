"""Small arrows between the parts of a drawing.

In: the board, for the measure of the gaps.
Out: pictures or lines.
Never: a meaning of their own; the words beside them say what happens.
"""

from __future__ import annotations

from collections.abc import Sequence

from patchwright.diagrams.board import Board
from patchwright.diagrams.picture import Picture, bare, beside
from patchwright.diagrams.scene import Line


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
