"""The backing: its panels with their seams and sizes, and where the quilt lies on it.

In: one size of the plan.
Out: the scene `backing-SIZE`.
Never: a panel that the plan does not have.
"""

from __future__ import annotations

from collections.abc import Iterator

from patchwright.core.length import Length
from patchwright.diagrams.board import Board
from patchwright.diagrams.cloth import scaled
from patchwright.diagrams.dimensions import with_extent
from patchwright.diagrams.fitting import fitted
from patchwright.diagrams.phrases import dimension, listed, printed, spoken_extent
from patchwright.diagrams.picture import Picture, bare, corners
from patchwright.diagrams.scene import XY, Area, Item, Label, Line, Scene
from patchwright.planning.plan import PlannedBacking

_LARGEST, _SHARED = 2.7, 1.75
"""The longer side of the backing on the page, in inches; smaller where several sizes stand side by side."""


def backing_scene(board: Board, index: int) -> Scene | None:
    """Panels as they are sewn together, with the top's outline dashed."""
    size = board.size(index)
    backing = size.backing
    if backing is None:
        return None
    width, height = float(backing.size[0]), float(backing.size[1])
    texts = [dimension(board, "plain", [side]) for side in backing.size]

    def draw(scale: float) -> Picture:
        items = [*_panels(board, backing, scale), *_quilt(board, index, scale)]
        return with_extent(bare(width * scale, height * scale, items), texts[0], texts[1], board)

    picture = fitted(board, draw, (_LARGEST if board.one_size else _SHARED) / max(width, height))
    title = board.say("backing.title", size=size.label)
    return board.scene(f"backing-{size.name}", picture, title, _description(board, index, backing))


def _panels(board: Board, backing: PlannedBacking, scale: float) -> Iterator[Item]:
    """Every panel without what its seams take, its cut size written on it."""
    letter = board.book.fabric_letter(backing.fabric)
    stacked = backing.seams == "crosswise"
    seam, start, last = float(board.plan.rules.backing_seam), 0.0, len(backing.panels) - 1
    for number, (wide, high) in enumerate(backing.panels):
        taken = seam * ((number > 0) + (number < last))
        shown = (float(wide), float(high) - taken) if stacked else (float(wide) - taken, float(high))
        x, y = (0.0, start) if stacked else (start, 0.0)
        start += shown[1] if stacked else shown[0]
        outline = scaled(corners(x, y, x + shown[0], y + shown[1]), scale)
        yield Area(outline, "fabric" if letter else "paper", letter, style="outline")
        yield from _panel_label(board, (wide, high), outline, bool(letter))


def _panel_label(board: Board, panel: tuple[Length, Length], outline: tuple[XY, ...], cloth: bool) -> Iterator[Item]:
    """The panel's cut size, along it where it is narrow."""
    text = board.say("backing.panel", width=printed(board, panel[0]), height=printed(board, panel[1]))
    width, height = outline[2][0] - outline[0][0], outline[2][1] - outline[0][1]
    long, high = board.type.text_width(text, "small") + board.em, board.type.text_height("small") * 2
    middle = ((outline[0][0] + outline[2][0]) / 2, (outline[0][1] + outline[2][1]) / 2)
    turned = long > width
    if (long <= height and high <= width) if turned else high <= height:
        yield Label(middle, text, "small", turned=turned, over="cloth" if cloth else "paper")


def _quilt(board: Board, index: int, scale: float) -> Iterator[Item]:
    """The top's outline in the middle, with its name in the upper left corner."""
    size = board.size(index)
    if size.backing is None:
        return
    width, height = (float(side) for side in size.unfinished)
    x, y = (float(size.backing.size[0]) - width) / 2, (float(size.backing.size[1]) - height) / 2
    points = scaled(corners(x, y, x + width, y + height), scale)
    yield Line((*points, points[0]), "fold")
    text = board.say("backing.top")
    if board.type.text_width(text, "small") + 2 * board.em < width * scale:
        yield Label((points[0][0] + board.em, points[0][1] + 1.3 * board.em), text, "small", "start", over="cloth")


def _description(board: Board, index: int, backing: PlannedBacking) -> str:
    size = board.size(index)
    panels = [spoken_extent(board, panel) for panel in backing.panels]
    top = size.unfinished[0].length, size.unfinished[1].length
    return " ".join(
        [
            board.say("backing.size", size=size.label, extent=spoken_extent(board, backing.size)),
            board.say("backing.panels", count=len(panels), panels=listed(board, panels)),
            board.say(f"backing.seams.{backing.seams}", count=len(panels) - 1),
            board.say("backing.quilt", extent=spoken_extent(board, top)),
        ]
    )
