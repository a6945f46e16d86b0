"""How a strippy top is sewn: columns of blocks and long strips pulled apart, the columns numbered from the left.

In: one size of the plan that is set in columns.
Out: the scene `top-SIZE`.
Never: the diagonal rows of a column on point, which have a drawing of their own; nor borders.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from patchwright.diagrams.board import Board, Room
from patchwright.diagrams.cloth import framed, scaled
from patchwright.diagrams.layout import Spot, spots
from patchwright.diagrams.phrases import listed, spoken_extent
from patchwright.diagrams.picture import Picture, bare, padded
from patchwright.diagrams.prints import PrintChooser
from patchwright.diagrams.pulled_apart import Gaps, pulled_apart
from patchwright.diagrams.scene import Area, Item, Label, Scene
from patchwright.diagrams.top import contents, part_picture

_ARROWS_SHARE = 0.3
"""Gaps take an arrow as long as those of a column take no more than this share of the height; else they are slits."""
_COLUMNS_SHARE = 0.8
"""How high the columns of one size are beside the layout's height."""


def columns_scene(board: Board, index: int) -> Scene:
    """Every column with its parts apart, or whole where it is sewn in diagonal rows, and the strips between them."""
    columns, room = center_columns(board, index), _room(board)
    lines = [column if not _is_chain(column) else column[:1] for column in columns]
    most = max(map(len, lines))
    arrows = (most - 1) * 1.8 * board.em <= _ARROWS_SHARE * room.height
    down = 1.8 * board.em if arrows else min(0.8 * board.em, room.height * 0.12 / most)
    across = min((1.8 if arrows else 0.9) * board.em, room.width * 0.3 / len(columns))
    gaps = Gaps(down, across, 1.6 * board.em)
    scale = _scale(board, index, lines, gaps)
    chooser = PrintChooser({swatch.letter: len(swatch.colors) for swatch in board.swatches})
    pictures = [
        [_whole(board, index, column, chooser, scale)] if _is_chain(column)
        else [part_picture(board, index, spot, chooser, scale) for spot in column]
        for column in columns
    ]
    pressing = board.pressing.get(f"top-{board.size(index).name}") if arrows else None
    picture = _numbered(board, pulled_apart(pictures, "columns", gaps, pressing), pictures, columns, gaps)
    size = board.size(index)
    title = board.say("columns.title", size=size.label)
    return board.scene(f"top-{size.name}", picture, title, _description(board, index, columns))


def center_columns(board: Board, index: int) -> list[list[Spot]]:
    """The parts of each column and strip, from the left and from the top."""
    columns: dict[int, list[Spot]] = {}
    for spot in spots(board.size(index).items):
        if spot.item.column is not None:
            columns.setdefault(spot.item.column, []).append(spot)
    return [sorted(columns[number], key=lambda spot: spot.row) for number in sorted(columns)]


def _is_chain(column: Sequence[Spot]) -> bool:
    """Whether its blocks stand on point."""
    return any(spot.item.on_point for spot in column)


def _is_strip(column: Sequence[Spot]) -> bool:
    return all(spot.item.part == "strips" for spot in column)


def _room(board: Board) -> Room:
    """Beside a layout its room; on pages of one size less, so that what comes next begins on the same page."""
    room = board.quilt_room
    return Room(room.width, room.height * _COLUMNS_SHARE, room.cover_height) if board.one_size else room


def _scale(board: Board, index: int, lines: Sequence[Sequence[Spot]], gaps: Gaps) -> float:
    """The largest at which the columns, pulled apart, fit a page."""
    width, height = (float(side) for side in board.size(index).center)
    taken_across = (len(lines) - 1) * gaps.between + 2 * board.bleed
    taken_down = (max(map(len, lines)) - 1) * gaps.within + gaps.margin + 4 * board.em
    room = _room(board)
    return min((room.width - taken_across) / width, (room.height - taken_down) / height)


def _whole(board: Board, index: int, column: Sequence[Spot], chooser: PrintChooser, scale: float) -> Picture:
    """A column on point as one part, its triangles and blocks in place."""
    left = min(float(spot.item.x) for spot in column)
    top = min(float(spot.item.y) for spot in column)
    right = max(float(spot.item.x + spot.item.width) for spot in column)
    bottom = max(float(spot.item.y + spot.item.height) for spot in column)
    items: list[Item] = []
    for spot in column:
        x, y = float(spot.item.x) - left, float(spot.item.y) - top
        for patch in board.book.item(spot.item, index).patches:
            outline = scaled([(px + x, py + y) for px, py in patch.outline], scale)
            items.append(
                Area(outline, "fabric", patch.letter, chooser.choose(patch.letter, spot.column, spot.row))
            )
    return framed(bare((right - left) * scale, (bottom - top) * scale, items))


def _numbered(
    board: Board, picture: Picture, columns: Sequence[Sequence[Picture]], spots: Sequence[Sequence[Spot]], gaps: Gaps
) -> Picture:
    """A number above every column of blocks; a strip has the name of its piece."""
    room = 2.4 * board.em
    grown = padded(picture, top=room)
    labels, x, number = [], 0.0, 0
    for column, own in zip(columns, spots, strict=True):
        width = max(part.width for part in column)
        number += not _is_strip(own)
        text = own[0].item.ref if _is_strip(own) else str(number)
        labels.append(Label((x + width / 2, room * 0.4), text, "small"))
        x += width + gaps.between
    return grown.with_items(labels)


def _description(board: Board, index: int, columns: Sequence[Sequence[Spot]]) -> str:
    """How many columns there are, what each kind of column holds, and the strips between them."""
    size = board.size(index)
    blocks = [column for column in columns if not _is_strip(column)]
    kinds: dict[str, list[str]] = {}
    for number, column in enumerate(blocks, 1):
        kinds.setdefault(listed(board, list(contents(board, column))), []).append(str(number))
    sentences = [board.say("columns.columns", count=len(blocks), size=size.label)]
    for parts, numbers in kinds.items():
        sentences.append(board.say("columns.column", count=len(numbers), numbers=listed(board, numbers), parts=parts))
    sentences += list(_strips(board, index, columns))
    center = size.center[0].length, size.center[1].length
    sentences.append(board.say("top.measures", extent=spoken_extent(board, center)))
    return " ".join(sentences)


def _strips(board: Board, index: int, columns: Sequence[Sequence[Spot]]) -> Iterator[str]:
    """The strips, and which way their seams lie."""
    size = board.size(index)
    if not size.strips:
        return
    named = listed(board, [board.say("counted", count=strip.count, name=strip.piece) for strip in size.strips])
    edged = _is_strip(columns[0])
    yield board.say("columns.strips-edged" if edged else "columns.strips", strips=named)
    if board.plan.rules.pressing != "open":
        yield board.say("columns.toward-strips")
