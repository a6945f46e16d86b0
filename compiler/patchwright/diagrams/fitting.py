"""Making a drawing fit its page: drawn at the scale that is wanted, and smaller until it fits.

In: a function that draws at a scale, and the scale.
Out: the picture.
Never: a finished picture squeezed; letters keep their size, so a smaller drawing is drawn anew.
"""

from __future__ import annotations

from collections.abc import Callable

from patchwright.diagrams.board import Board
from patchwright.diagrams.picture import Picture

_TRIES = 12


def fitted(board: Board, draw: Callable[[float], Picture], scale: float) -> Picture:
    """The picture at the scale, or at the largest smaller one tried that fits the room; at last as small as tried."""
    width, height = board.room.width - 2 * board.bleed, board.room.height - 2 * board.bleed
    picture = draw(scale)
    for _ in range(_TRIES):
        excess = max(picture.width / width, picture.height / height)
        if excess <= 1:
            break
        scale *= 0.98 / excess
        picture = draw(scale)
    return picture
