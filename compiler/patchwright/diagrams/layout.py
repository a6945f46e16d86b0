"""The whole quilt of one size, seen from the front: the layout with its measures, and the picture for a cover.

In: a size of the plan and the room for the drawing.
Out: scenes `layout-SIZE` and `cover-SIZE`.
Never: a seam allowance; everything is shown at its finished size.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from patchwright.core.length import Length
from patchwright.diagrams.board import Board, Room
from patchwright.diagrams.dimensions import with_extent
from patchwright.diagrams.names import block_name
from patchwright.diagrams.phrases import dimension, fabric_names, listed, spoken, spoken_extent
from patchwright.diagrams.picture import Body, Picture, corners, moved_items
from patchwright.diagrams.prints import PrintChooser
from patchwright.diagrams.scene import XY, Area, Item, Label, Scene
from patchwright.planning.plan import PlannedSize, TopItem


def layout_scene(board: Board, index: int, room: Room | None = None) -> Scene:
    """The layout with row and column numbers (of a strippy quilt those of the columns) and the finished size."""
    size, room = board.size(index), room or board.quilt_room
    margins = 7 * board.em
    scale = top_scale(board, size, room.less(margins, margins))
    picture = quilt_picture(board, index, scale)
    picture = picture.with_items([*second_marks(board, index, scale, (picture.body.x, picture.body.y))])
    picture = _numbered(picture, board, size, scale)
    width, height = size.finished
    picture = with_extent(
        picture,
        dimension(board, "finished", [width.length]),
        dimension(board, "finished", [height.length]),
        board,
    )
    title = board.say("layout.title", size=size.label)
    return board.scene(f"layout-{size.name}", picture, title, _description(board, index))


def cover_scene(board: Board, index: int, room: Room | None = None) -> Scene:
    """The quilt alone."""
    size = board.size(index)
    room = room or Room(board.room.width, board.room.cover_height)
    picture = quilt_picture(board, index, top_scale(board, size, room.less(2 * board.bleed, 2 * board.bleed)))
    title = board.say("cover.title", title=board.plan.title)
    return board.scene(f"cover-{size.name}", picture, title, _description(board, index))


def top_scale(board: Board, size: PlannedSize, room: Room) -> float:
    """The largest scale at which the quilt with its binding fits the room."""
    edge = 2 * _binding_width(board, size)
    width, height = float(size.finished[0]) + edge, float(size.finished[1]) + edge
    return min(room.width / width, room.height / height)


def quilt_picture(board: Board, index: int, scale: float) -> Picture:
    """The top with the binding around it; the body is the top alone."""
    size = board.size(index)
    edge = _binding_width(board, size) * scale
    width, height = float(size.finished[0]) * scale, float(size.finished[1]) * scale
    body = Body(edge, edge, width, height)
    items = [*_binding(board, size, body, edge), *top_areas(board, index, scale, edge, edge)]
    return Picture(width + 2 * edge, height + 2 * edge, tuple(items), body)


def top_areas(board: Board, index: int, scale: float, dx: float = 0, dy: float = 0) -> Iterator[Area]:
    """Every patch of the top on the page."""
    chooser = PrintChooser({swatch.letter: len(swatch.colors) for swatch in board.swatches})
    for spot in spots(board.size(index).items):
        x, y = float(spot.item.x) * scale + dx, float(spot.item.y) * scale + dy
        for patch in board.book.item(spot.item, index).patches:
            outline = tuple((x + px * scale, y + py * scale) for px, py in patch.outline)
            yield Area(outline, "fabric", patch.letter, chooser.choose(patch.letter, spot.column, spot.row))


def second_marks(board: Board, index: int, scale: float, corner: XY) -> Iterator[Label]:
    """A mark in the middle of every block that is pressed the second way."""
    for item in block_items(board.size(index)):
        if is_second(board, item):
            middle = float(item.x + item.width / 2), float(item.y + item.height / 2)
            at = corner[0] + middle[0] * scale, corner[1] + middle[1] * scale
            yield Label(at, board.say("second-mark"), "small", over="cloth")


def is_second(board: Board, item: TopItem) -> bool:
    """Whether a part of the top is a block that is pressed the second way."""
    return item.kind == "assembly" and bool(board.book.assembly(item.ref).second_of)


@dataclass(frozen=True, slots=True)
class Spot:
    """A part of the top with its column and row, counted over all parts that share an edge line."""

    item: TopItem
    column: int
    row: int


def spots(items: Sequence[TopItem]) -> tuple[Spot, ...]:
    columns = {x: number for number, x in enumerate(sorted({item.x for item in items}))}
    rows = {y: number for number, y in enumerate(sorted({item.y for item in items}))}
    return tuple(Spot(item, columns[item.x], rows[item.y]) for item in items)


def block_items(size: PlannedSize) -> tuple[TopItem, ...]:
    """The blocks (and plain patches in blocks' places) of the top."""
    return tuple(item for item in size.items if item.part in ("block", "setting"))


def _binding_width(board: Board, size: PlannedSize) -> float:
    """What shows of the binding on the front: a seam's width."""
    return float(board.plan.rules.seam) if size.binding else 0.0


def _binding(board: Board, size: PlannedSize, body: Body, edge: float) -> Iterator[Item]:
    """Four strips with mitered corners around the top."""
    if size.binding is None:
        return
    letter = board.book.fabric_letter(size.binding.fabric)
    outer = corners(0, 0, body.right + edge, body.bottom + edge)
    inner = corners(body.x, body.y, body.right, body.bottom)
    for side in range(4):
        after = (side + 1) % 4
        outline = (outer[side], outer[after], inner[after], inner[side])
        yield Area(outline, "fabric" if letter else "paper", letter)


def _numbered(picture: Picture, board: Board, size: PlannedSize, scale: float) -> Picture:
    """Numbers of the block rows at the right and of the columns on top, outside the quilt."""
    if size.medallion and size.across == size.down == 1:
        return picture
    blocks = block_items(size)
    room = 2 * board.em
    body = Body(picture.body.x, picture.body.y + room, picture.body.width, picture.body.height)
    items: list[Item] = list(moved_items(picture.items, 0, room))
    if size.setting == "on-point":
        items.extend(_diagonal_numbers(size, picture, body, scale, room))
        return Picture(picture.width + room, picture.height + room, tuple(items), body)
    for number, (start, extent) in enumerate(_lanes([(item.x, item.width) for item in blocks]), 1):
        middle = body.x + (start + extent / 2) * scale
        items.append(Label((middle, room / 2), str(number), "small"))
    if size.setting == "strippy":
        return Picture(picture.width, picture.height + room, tuple(items), body)
    for number, (start, extent) in enumerate(_lanes([(item.y, item.height) for item in blocks]), 1):
        middle = body.y + (start + extent / 2) * scale
        items.append(Label((picture.width + room / 2, middle), str(number), "small"))
    return Picture(picture.width + room, picture.height + room, tuple(items), body)


def _diagonal_numbers(size: PlannedSize, picture: Picture, body: Body, scale: float, room: float) -> Iterator[Label]:
    """Numbers of the diagonal rows at their upper right ends, above the quilt or right of it."""
    blocks = {item.row for item in block_items(size)}
    ends = {item.row: item for item in size.items if item.row in blocks}
    top = min(item.y for item in ends.values())
    for number, item in enumerate(ends.values(), 1):
        across, down = float(item.x + item.width / 2) * scale, float(item.y + item.height / 2) * scale
        above = item.y == top
        yield Label(
            (body.x + across, room / 2) if above else (picture.width + room / 2, body.y + down), str(number), "small"
        )


def _lanes(stretches: Sequence[tuple[Length, Length]]) -> list[tuple[float, float]]:
    """The distinct rows or columns as (start, extent), in order."""
    lanes: dict[Length, Length] = {}
    for start, extent in stretches:
        lanes[start] = max(extent, lanes.get(start, extent))
    return [(float(start), float(lanes[start])) for start in sorted(lanes)]


def _description(board: Board, index: int) -> str:
    """Size, grid, blocks with counts, sashing, borders, binding and fabrics."""
    size = board.size(index)
    width, height = size.finished
    sentences = [
        board.say(
            "layout.size",
            title=board.plan.title,
            size=size.label,
            extent=spoken_extent(board, (width.length, height.length)),
            patches=sum(len(board.book.item(item, index).patches) for item in size.items),
        ),
        board.say(_grid_words(size), across=size.across, down=size.down),
        *_block_counts(board, index),
    ]
    if size.sash_width is not None:
        sentences.append(_sashing(board, size))
    for strip in size.strips:
        fabric = fabric_names(board, [board.book.piece_letter(strip.piece)])
        wide = spoken(board, strip.width.length)
        sentences.append(board.say(f"layout.strips-{strip.place}", count=strip.count, width=wide, fabric=fabric))
    for number, border in enumerate(size.borders, 1):
        sentences.append(
            board.say(
                f"layout.{board.around(index)}",
                number=number,
                width=spoken(board, border.wide.length),
                fabric=fabric_names(board, [board.book.fabric_letter(border.fabric)]),
            )
        )
    if size.binding is not None and board.book.fabric_letter(size.binding.fabric):
        fabric = fabric_names(board, [board.book.fabric_letter(size.binding.fabric)])
        sentences.append(board.say("layout.binding", fabric=fabric))
    return " ".join(sentences)


def _sashing(board: Board, size: PlannedSize) -> str:
    """How wide sashing is, and where it lies; between columns and between rows apart where that differs."""
    across, down = size.sash_width, size.sash_height
    if across is None or down is None:
        return ""
    if not across.length:
        return board.say("layout.sashing-rows", width=spoken(board, down.length))
    key = "layout.sashing-cornerstones" if size.cornerstones else "layout.sashing"
    if across == down:
        return board.say(key, width=spoken(board, across.length))
    both = spoken(board, across.length), spoken(board, down.length)
    return board.say("layout.sashing-unequal", width=both[0], height=both[1])


def _grid_words(size: PlannedSize) -> str:
    if size.setting == "strippy":
        return "layout.strippy" if size.float is None else "layout.strippy-on-point"
    if size.medallion:
        return "layout.medallion" if size.float is None else "layout.medallion-on-point"
    return "layout.on-point" if size.setting == "on-point" else "layout.grid"


def _block_counts(board: Board, index: int) -> Iterator[str]:
    counts: dict[str, int] = {}
    for item in block_items(board.size(index)):
        if item.kind == "assembly":
            name = block_name(board, board.book.assembly(item.ref))
            counts[name] = counts.get(name, 0) + 1
    if counts:
        words = [board.say("layout.block", name=name, count=count) for name, count in counts.items()]
        yield board.say("layout.blocks", blocks=listed(board, words))
