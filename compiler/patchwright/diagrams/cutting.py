"""How a fabric is cut in one size: every kind of strip to scale across the width of fabric, lettered and numbered.

In: a fabric's strips in one size of the plan.
Out: scenes `cutting-SIZE-LETTER`, with `-2`, `-3` … where the strips need more pages.
Never: a layout made here; the plan's strips are drawn as they are.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from patchwright.core.length import Length
from patchwright.diagrams.board import Board
from patchwright.diagrams.cut_pieces import cut_words
from patchwright.diagrams.dimensions import with_height
from patchwright.diagrams.phrases import listed, printed, spoken
from patchwright.diagrams.picture import Body, Picture, above, padded
from patchwright.diagrams.scene import Item, Label, Line, Scene
from patchwright.diagrams.strips import StripCutter
from patchwright.planning.plan import PlannedFabric, Strip

_TALL = 4.0
"""A strip higher than this on the page, in inches, is drawn smaller."""


def cutting_scenes(board: Board, fabric: PlannedFabric, index: int) -> Iterator[Scene]:
    """The strips of a fabric in their order, page by page."""
    size = fabric.sizes[index]
    if size is None:
        return
    scale = _scale(board, fabric)
    usual = [strip for strip in size.strips if float(strip.height) * scale <= _TALL]
    pages = list(_pages(board, fabric, index, usual, scale))
    pages.extend(([strip], _tall_scale(board, fabric, strip)) for strip in size.strips if strip not in usual)
    for number, (strips, page_scale) in enumerate(pages, 1):
        yield _page(board, fabric, index, number, strips, page_scale)


def _pages(
    board: Board, fabric: PlannedFabric, index: int, strips: Sequence[Strip], scale: float
) -> Iterator[tuple[list[Strip], float]]:
    """As many strips as fit a page each time."""
    cutter = StripCutter(board, fabric, index, scale)
    room = board.room.height - _header(board, cutter.width, scale).height - 2 * board.bleed
    page: list[Strip] = []
    used = 0.0
    for strip in strips:
        height = _strip(cutter, strip).height + _gap(board)
        if page and used + height > room:
            yield page, scale
            page, used = [], 0.0
        page.append(strip)
        used += height
    if page:
        yield page, scale


def _page(
    board: Board, fabric: PlannedFabric, index: int, number: int, strips: Sequence[Strip], scale: float
) -> Scene:
    cutter = StripCutter(board, fabric, index, scale)
    picture = above([_header(board, cutter.width, scale), *(_strip(cutter, strip) for strip in strips)], _gap(board))
    size = board.size(index)
    name = board.say("fabric", letter=fabric.letter, name=fabric.name)
    id = f"cutting-{size.name}-{fabric.letter}" + (f"-{number}" if number > 1 else "")
    width = spoken(board, fabric.source.size[0])
    words = [board.say("cutting.intro", fabric=name, size=size.label, width=width)]
    words.extend(_words(board, strip) for strip in strips)
    return board.scene(id, picture, board.say("cutting.title", fabric=name, size=size.label), " ".join(words), scale)


def _gap(board: Board) -> float:
    return 1.6 * board.em


def _left(board: Board) -> float:
    """The room left of the strips for how many to cut and their height."""
    return 9.5 * board.em


def _scale(board: Board, fabric: PlannedFabric) -> float:
    """The width of fabric over the width of the page."""
    return (board.room.width - _left(board) - 2 * board.bleed - board.em) / float(fabric.source.size[0])


def _tall_scale(board: Board, fabric: PlannedFabric, strip: Strip) -> float:
    """A smaller scale for a strip as long as a border, alone on its page."""
    return min(_scale(board, fabric), 0.75 * board.room.height / float(strip.height))


def _header(board: Board, width: Length, scale: float) -> Picture:
    """The width of fabric from selvage to selvage."""
    left = _left(board)
    right, y = left + float(width) * scale, 2.4 * board.em
    text = board.say("cutting.width", width=printed(board, width))
    selvage = board.say("cutting.selvage")
    tick = board.em * 0.4
    items: list[Item] = [
        Label(((left + right) / 2, board.em), text, "small"),
        Label((left, board.em), selvage, "small", "start"),
        Label((right, board.em), selvage, "small", "end"),
        Line(((left, y), (right, y)), "dimension", "both"),
        Line(((left, y - tick), (left, y + tick)), "dimension"),
        Line(((right, y - tick), (right, y + tick)), "dimension"),
    ]
    return Picture(right + board.em, y + tick, tuple(items), Body(left, 0, right - left, y))


def _strip(cutter: StripCutter, strip: Strip) -> Picture:
    """How many such strips, their height with the number of its cut, and the strip."""
    board, left = cutter.board, _left(cutter.board)
    picture = cutter.strip(strip)
    measured = with_height(picture, board.say("dimension.plain", length=printed(board, strip.height)), board)
    room = left - (measured.width - picture.width)
    grown = padded(measured, left=room, right=board.em)
    text = board.say("cutting.times", count=strip.count)
    labels = [Label((0, grown.body.center[1]), text, "normal", "start", bold=True)]
    first = Label((left - board.em * 0.9, grown.body.y - board.em * 0.8), "1", "small")
    return grown.with_items([*labels, first])


def _words(board: Board, strip: Strip) -> str:
    """The strip in a sentence."""
    parts = [cut_words(board, part) for part in strip.yields]
    parts += [
        board.say("cutting.part", piece=part.piece, length=spoken(board, part.length)) for part in strip.segments
    ]
    key = "cutting.joined" if strip.segments else "cutting.strip"
    return board.say(key, count=strip.count, height=spoken(board, strip.height), parts=listed(board, parts))
