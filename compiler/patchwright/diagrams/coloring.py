"""A page to color: the lines of the quilt without its fabrics, with room for a few lines below it.

In: one size of the plan.
Out: the scene `coloring-SIZE`.
Never: a hatch, a letter, a fill.
"""

from __future__ import annotations

from patchwright.diagrams.board import Board, Room
from patchwright.diagrams.layout import quilt_picture, top_scale
from patchwright.diagrams.phrases import spoken_extent
from patchwright.diagrams.picture import Picture
from patchwright.diagrams.scene import Area, Item, Scene

_SHARE = 0.58
"""The part of a page's height that the drawing takes."""


def coloring_scene(board: Board, index: int) -> Scene:
    size = board.size(index)
    room = Room(board.room.width, board.room.height * _SHARE).less(2 * board.bleed, 2 * board.bleed)
    quilt = quilt_picture(board, index, top_scale(board, size, room))
    items: list[Item] = [Area(item.outline, "paper") for item in quilt.items if isinstance(item, Area)]
    picture = Picture(quilt.width, quilt.height, tuple(items), quilt.body)
    extent = spoken_extent(board, (size.finished[0].length, size.finished[1].length))
    title = board.say("coloring.title", title=board.plan.title, size=size.label)
    description = board.say("coloring.description", title=board.plan.title, size=size.label, extent=extent)
    return board.scene(f"coloring-{size.name}", picture, title, description)
