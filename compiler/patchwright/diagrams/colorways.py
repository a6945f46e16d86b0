"""Small pictures of the quilt in all its colorways.

In: the first shown size and the fabrics of every colorway.
Out: scenes `colorway-NAME`, the pattern's own first as `colorway-own`.
Never: anything but colors, values and names changed between them.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from patchwright.diagrams.board import Board, Room
from patchwright.diagrams.layout import quilt_picture, top_scale
from patchwright.diagrams.phrases import listed
from patchwright.diagrams.scene import Scene, Swatch

_SIDE = 1.75
"""The room of one picture in inches; three stand side by side."""


def colorway_scenes(board: Board) -> Iterator[Scene]:
    """One picture for each colorway, or none where the pattern has no others."""
    if not board.shown:
        return
    index = board.shown[0]
    for way in board.plan.colorways:
        swatches = tuple(Swatch(one.letter, one.name, one.colors, one.value, one.hatch) for one in way.fabrics)
        used = {swatch.letter for swatch in board.swatches}
        recolored = replace(board, swatches=tuple(swatch for swatch in swatches if swatch.letter in used))
        room = Room(_SIDE, _SIDE * 1.3, _SIDE)
        picture = quilt_picture(recolored, index, top_scale(board, board.size(index), room))
        label = way.label or board.say("colorway.own")
        fabrics = listed(board, [board.say("fabric", letter=one.letter, name=one.name) for one in way.fabrics
                                 if one.letter in used])
        text = board.say("colorway.about", size=board.size(index).label, fabrics=fabrics)
        yield recolored.scene(f"colorway-{way.id or 'own'}", picture, board.say("colorway.title", name=label), text)
