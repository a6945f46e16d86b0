"""One block (or part of a block) drawn large, with the letters of its fabrics and its finished size.

In: an assembly of the plan.
Out: the scene `block-ID`, drawn in the first of the shown sizes that has it.
Never: seam allowances.
"""

from __future__ import annotations

from patchwright.core.geometry import UPRIGHT
from patchwright.diagrams.board import Board
from patchwright.diagrams.cloth import flat_picture, framed
from patchwright.diagrams.dimensions import with_extent
from patchwright.diagrams.fitting import fitted
from patchwright.diagrams.names import block_name, first_size
from patchwright.diagrams.patches import Flat
from patchwright.diagrams.phrases import by_size, dimension, each, fabric_names, spoken_extent
from patchwright.diagrams.picture import Picture
from patchwright.diagrams.scene import Scene
from patchwright.planning.plan import Assembly

BLOCK_SIDE = 1.6
"""The longer side of a block on the page, in inches, where the room allows; so it is where its rows are joined."""


def block_scene(board: Board, assembly: Assembly, side: float = BLOCK_SIDE) -> Scene:
    """The block at @0 with its finished size."""
    flat = assembly_flat(board, assembly)
    shown = [assembly.sizes[index] for index in board.shown]
    width = dimension(board, "finished", each(shown, lambda size: size.finished[0].length))
    height = dimension(board, "finished", each(shown, lambda size: size.finished[1].length))

    def draw(scale: float) -> Picture:
        return with_extent(framed(flat_picture(board, flat, scale)), width, height, board)

    picture = fitted(board, draw, side / max(flat.width, flat.height))
    title = board.say("block.title", name=block_name(board, assembly))
    return board.scene(f"block-{assembly.id}", picture, title, block_description(board, assembly))


def assembly_flat(board: Board, assembly: Assembly) -> Flat:
    """An assembly's patches in the first size that has it."""
    return board.book.flat("assembly", assembly.id, UPRIGHT, first_size(board, assembly.sizes), (0, 0))


def block_description(board: Board, assembly: Assembly) -> str:
    """Finished size, patches, rows, fabrics and the parts of each row."""
    flat = assembly_flat(board, assembly)
    sizes = [assembly.sizes[index] for index in board.shown]
    extents = each(
        sizes, lambda size: spoken_extent(board, (size.finished[0].length, size.finished[1].length))
    )
    return board.say(
        f"block.description-{assembly.axis}",
        name=block_name(board, assembly),
        extent=by_size(board, extents),
        patches=len(flat.patches),
        lines=len(assembly.lines),
        fabrics=fabric_names(board, [patch.letter for patch in flat.patches]),
    )
