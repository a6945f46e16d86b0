"""Mitered borders: the strips as they are sewn on, with their ends hanging free, and the mitered corners.

In: one size of the plan and the last of the borders that are mitered as one.
Out: the scene `border-N-SIZE`.
Never: a length that is not the plan's cut length of a strip.
"""

from __future__ import annotations

from collections.abc import Iterator

from patchwright.diagrams.arrows import in_sequence
from patchwright.diagrams.board import Board
from patchwright.diagrams.borders import HIGHEST, WIDEST, cut_length
from patchwright.diagrams.cloth import scaled
from patchwright.diagrams.dimensions import with_extent
from patchwright.diagrams.fitting import fitted
from patchwright.diagrams.phrases import dimension, fabric_names, spoken, spoken_extent
from patchwright.diagrams.picture import Picture, bare, corners, moved_items
from patchwright.diagrams.scene import XY, Area, Item, Line, Scene
from patchwright.planning.plan import PlannedBorder, TopItem

_Box = tuple[float, float, float, float]


def mitered_scene(board: Board, index: int, number: int) -> Scene:
    """The borders that end with border `number` and are mitered with it."""
    size = board.size(index)
    border = size.borders[number - 1]
    scale = min(WIDEST / float(size.finished[0]), HIGHEST / float(size.finished[1]))

    def draw(scale: float) -> Picture:
        return in_sequence(board, [_apart(board, index, border, scale), _joined(board, index, border, scale)])

    title = board.say(f"{board.around(index)}.title", number=number, size=size.label)
    picture = fitted(board, draw, scale)
    return board.scene(f"{border.id}-{size.name}", picture, title, _description(board, index, border))


def _group(board: Board, index: int, border: PlannedBorder) -> tuple[list[TopItem], _Box, _Box]:
    """The strips of a group, and the edges of the quilt without them and with them."""
    items = board.size(index).items
    own = [item for item in items if item.part in border.joined]
    ids = [other.id for other in board.size(index).borders]
    earlier = ids[: ids.index(border.joined[0])]
    inside = [item for item in items if not item.part.startswith("border") or item.part in earlier]
    return own, _around(inside), _around(own)


def _around(items: list[TopItem]) -> _Box:
    return (
        min(float(item.x) for item in items), min(float(item.y) for item in items),
        max(float(item.x + item.width) for item in items), max(float(item.y + item.height) for item in items),
    )


def _apart(board: Board, index: int, border: PlannedBorder, scale: float) -> Picture:
    """Straight strips away from the quilt on all four sides."""
    own, inner, outer = _group(board, index, border)
    gap = (inner[0] - outer[0]) + 1.2 * board.em / scale
    items: list[Item] = [Area(scaled(corners(*inner), scale), "paper", style="outline")]
    for item in own:
        x, y = float(item.x), float(item.y)
        right, bottom = x + float(item.width), y + float(item.height)
        letter = board.book.piece_letter(item.ref)
        if item.height > item.width:
            dx = -gap if right <= inner[0] else gap
            outline = corners(x + dx, outer[1], right + dx, outer[3])
        else:
            dy = -gap if bottom <= inner[1] else gap
            outline = corners(outer[0], y + dy, outer[2], bottom + dy)
        items.append(Area(scaled(outline, scale), "fabric", letter))
    picture = _brought_in(items, (outer[0] - gap, outer[1] - gap, outer[2] + gap, outer[3] + gap), scale)
    width = dimension(board, "cut", [cut_length(board, index, border.end_piece)])
    height = dimension(board, "cut", [cut_length(board, index, border.side_piece)])
    return with_extent(picture, width, height, board)


def _joined(board: Board, index: int, border: PlannedBorder, scale: float) -> Picture:
    """The quilt with its mitered corners."""
    own, inner, outer = _group(board, index, border)
    items: list[Item] = [Area(scaled(corners(*inner), scale), "paper", style="outline")]
    for item in own:
        outline = [(float(corner.x), float(corner.y)) for corner in item.outline]
        items.append(Area(scaled(outline, scale), "fabric", board.book.piece_letter(item.ref)))
    items.extend(_miters(inner, outer, scale))
    return _brought_in(items, outer, scale)


def _miters(inner: _Box, outer: _Box, scale: float) -> Iterator[Line]:
    ends: list[tuple[XY, XY]] = list(zip(corners(*inner), corners(*outer), strict=True))
    for start, finish in ends:
        yield Line(scaled((start, finish), scale), "outline")


def _brought_in(items: list[Item], box: _Box, scale: float) -> Picture:
    left, top, right, bottom = (side * scale for side in box)
    return bare(right - left, bottom - top, moved_items(items, -left, -top))


def _description(board: Board, index: int, border: PlannedBorder) -> str:
    """The widths and fabrics of the group, the lengths to cut, and the quilt with it."""
    words = [
        board.say(
            f"{board.around(index)}.about", number=int(other.id.rpartition("-")[2]),
            width=spoken(board, other.width.length),
            fabric=fabric_names(board, [board.book.fabric_letter(other.fabric)]),
        )
        for other in board.size(index).borders if other.id in border.joined
    ]
    sides, ends = (cut_length(board, index, piece) for piece in (border.side_piece, border.end_piece))
    if sides and ends:
        words.append(board.say("border.mitered", sides=spoken(board, sides), ends=spoken(board, ends)))
    after = border.after[0].length, border.after[1].length
    words.append(board.say("border.measures", extent=spoken_extent(board, after)))
    return " ".join(words)
