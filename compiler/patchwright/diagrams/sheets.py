"""How precut cloth is cut in one size: every kind of cut sheet to scale, lettered, its cuts numbered in order.

In: a fabric's precuts in one size of the plan.
Out: scenes `cutting-SIZE-LETTER`, with `-2`, `-3` … where they need more pages, after those of strips.
Never: a layout made here; a sheet whose places the plan does not give is not drawn.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from patchwright.core.length import Length
from patchwright.diagrams.board import Board
from patchwright.diagrams.cut_pieces import Box, cut_piece, cut_words
from patchwright.diagrams.dimensions import with_extent
from patchwright.diagrams.letters import Obstacles, letter_box
from patchwright.diagrams.phrases import dimension, listed, spoken_extent
from patchwright.diagrams.picture import Picture, above, bare, beside, corners, padded
from patchwright.diagrams.scene import XY, Area, Item, Label, Line, Scene
from patchwright.planning.plan import PlannedFabric, SheetCut, Yield
from patchwright.planning.straight_cuts import Rectangle, StraightCut, cuts_in_order

_SHEET = 1.5
"""The longer side of a sheet on the page, in inches."""


def sheet_scenes(board: Board, fabric: PlannedFabric, index: int, first: int = 1) -> Iterator[Scene]:
    """All kinds of cut sheets in rows, page by page; `first` is the number of the first page."""
    size = fabric.sizes[index]
    sheets = [sheet for sheet in size.precuts.sheets if sheet.places] if size and size.precuts else []
    if not sheets:
        return
    scale = _SHEET / max(float(side) for side in fabric.source.size)
    drawn = [(_sheet(board, fabric, sheet, scale), _words(board, sheet)) for sheet in sheets]
    for number, (rows, words) in enumerate(_pages(board, drawn), first):
        name = board.say("fabric", letter=fabric.letter, name=fabric.name)
        label = board.size(index).label
        intro = board.say(
            "sheets.intro", fabric=name, size=label, extent=spoken_extent(board, fabric.source.size)
        )
        id = f"cutting-{board.size(index).name}-{fabric.letter}" + (f"-{number}" if number > 1 else "")
        title = board.say("cutting.title", fabric=name, size=label)
        yield board.scene(id, above(rows, _gap(board)), title, " ".join([intro, *words]), scale)


def _gap(board: Board) -> float:
    return 2.5 * board.em


def _pages(
    board: Board, drawn: Sequence[tuple[Picture, str]]
) -> Iterator[tuple[list[Picture], list[str]]]:
    """Rows of sheets, as many as a page is high."""
    gap, room = _gap(board), board.room
    rows: list[list[tuple[Picture, str]]] = [[]]
    for entry in drawn:
        wide = sum(picture.width + gap for picture, _ in rows[-1]) + entry[0].width + 2 * board.bleed
        if rows[-1] and wide > room.width:
            rows.append([])
        rows[-1].append(entry)
    page: list[Picture] = []
    words: list[str] = []
    for row in rows:
        picture = beside([drawing for drawing, _ in row], gap)
        used = sum(other.height + gap for other in page) + picture.height + 2 * board.bleed
        if page and used > room.height:
            yield page, words
            page, words = [], []
        page.append(picture)
        words.extend(said for _, said in row)
    yield page, words


def _sheet(board: Board, fabric: PlannedFabric, sheet: SheetCut, scale: float) -> Picture:
    """One sheet with its pieces, its cuts and how many are cut so."""
    wide, high = (float(side) * scale for side in fabric.source.size)
    # A piece may lie both ways on one sheet, so that its letter alone does not say how it lies.
    yields = {(part.piece, part.width, part.height): part for part in sheet.yields}
    boxes = [(yields[piece, place[2], place[3]], _box(place, scale)) for piece, *place in sheet.places]
    pieces = [Rectangle(x, y, x + w, y + h) for _, (x, y, w, h) in boxes]
    cuts = cuts_in_order(pieces, Rectangle(0, 0, wide, high))
    numbers = list(_numbers(board, cuts))
    items: list[Item] = [Area(corners(0, 0, wide, high), "waste", style="outline")]
    for part, box in boxes:
        near = tuple(_around(board, label) for label in numbers if _near(box, label))
        items.extend(cut_piece(board, part, fabric.letter, box, Obstacles(covers=near)))
    items.extend(Line(((cut.x, cut.y), (cut.to_x, cut.to_y)), "cut") for cut in cuts)
    picture = bare(wide, high, [*items, *numbers])
    texts = [dimension(board, "plain", [side]) for side in fabric.source.size]
    return _counted(board, with_extent(picture, texts[0], texts[1], board), sheet)


def _box(place: Sequence[Length], scale: float) -> Box:
    x, y, wide, high = (float(length) * scale for length in place)
    return x, y, wide, high


def _numbers(board: Board, cuts: Sequence[StraightCut]) -> Iterator[Label]:
    """The order of the cuts, each number on its line near the line's far end."""
    taken: list[Box] = []
    for number, cut in enumerate(cuts, 1):
        wide, high = letter_box(str(number), board.type, "small")
        for step in range(6):
            inset = (wide if cut.level else high) * (0.7 + step * 1.1)
            at: XY = (cut.to_x - inset, cut.y) if cut.level else (cut.x, cut.to_y - inset)
            box = (at[0] - wide / 2, at[1] - high / 2, wide, high)
            reached = at[0] > cut.x if cut.level else at[1] > cut.y
            if reached and not any(_meet(box, other) for other in taken):
                taken.append(box)
                yield Label(at, str(number), "small", over="cloth")
                break


def _meet(box: Box, other: Box) -> bool:
    return (
        abs(box[0] - other[0]) * 2 < box[2] + other[2]
        and abs(box[1] - other[1]) * 2 < box[3] + other[3]
    )


def _near(box: Box, label: Label) -> bool:
    """Whether a label may lie over a piece."""
    (x, y), (left, top, wide, high) = label.at, box
    slack = 0.2
    return left - slack < x < left + wide + slack and top - slack < y < top + high + slack


def _around(board: Board, label: Label) -> tuple[XY, ...]:
    wide, high = letter_box(label.text, board.type, label.size)
    x, y = label.at
    return corners(x - wide / 2, y - high / 2, x + wide / 2, y + high / 2)


def _counted(board: Board, picture: Picture, sheet: SheetCut) -> Picture:
    """How many sheets are cut so, above the sheet, with the number by which prints name its layout."""
    room = 2 * board.em
    key = "sheets.times-numbered" if sheet.number else "sheets.times"
    text = board.say(key, count=sheet.count, number=sheet.number)
    wide = picture.body.x + board.type.text_width(text, "normal", bold=True)
    grown = padded(picture, top=room, right=max(0.0, wide - picture.width))
    return grown.with_items([Label((grown.body.x, room * 0.4), text, "normal", "start", bold=True)])


def _words(board: Board, sheet: SheetCut) -> str:
    parts: list[Yield] = list(sheet.yields)
    pieces = listed(board, [cut_words(board, part) for part in parts])
    return board.say("sheets.sheet", count=sheet.count, parts=pieces)
