"""The fabric key: a swatch of every fabric with its letter and name.

In: the plan's fabrics.
Out: the scene `key`.
Never: an amount of cloth.
"""

from __future__ import annotations

from patchwright.diagrams.board import Board
from patchwright.diagrams.phrases import fabric_names
from patchwright.diagrams.picture import Picture, bare, corners, wrapped
from patchwright.diagrams.scene import Area, Item, Label, Scene, Swatch

_WIDTH, _HEIGHT = 6.0, 3.6
"""Of a swatch, in heights of a label's capitals."""


def key_scene(board: Board) -> Scene:
    """All fabrics, in as many rows as they need."""
    pictures = [_entry(board, swatch) for swatch in board.swatches]
    picture = wrapped(pictures, board.room.width - 2 * board.bleed, 3 * board.em, 1.5 * board.em)
    fabrics = fabric_names(board, [swatch.letter for swatch in board.swatches])
    return board.scene("key", picture, board.say("key.title"), board.say("key.description", fabrics=fabrics))


def _entry(board: Board, swatch: Swatch) -> Picture:
    """Every color of the fabric side by side, the letter on the first, the name beside them."""
    width, height = _WIDTH * board.em, _HEIGHT * board.em
    colors = max(1, len(swatch.colors))
    share = width if colors == 1 else width * 0.6
    items: list[Item] = []
    for number in range(colors):
        x, right = share * number, share * (number + 1)
        items.append(Area(corners(x, 0, right, height), "fabric", swatch.letter, number))
    items.append(Label((share / 2, height / 2), swatch.letter, "normal", bold=True, over="cloth"))
    text = share * colors + board.em
    items.append(Label((text, height / 2), swatch.name, "normal", "start"))
    return bare(text + board.type.text_width(swatch.name) + board.em, height, items)
