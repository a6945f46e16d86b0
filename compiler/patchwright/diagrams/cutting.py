"""How a fabric is cut in one size: every kind of strip to scale across the width of fabric, lettered and numbered.

In: a fabric's strips in one size of the plan.
Out: scenes `cutting-SIZE-LETTER`, with `-2`, `-3` … where the strips need more pages.
Never: a layout made here; the plan's strips are drawn as they are.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from patchwright.core.length import Length
from patchwright.diagrams.board import Board
from patchwright.diagrams.cut_pieces import cut_piece, cut_words
from patchwright.diagrams.dimensions import with_height
from patchwright.diagrams.phrases import listed, printed, spoken
from patchwright.diagrams.picture import Body, Picture, above, corners, padded
from patchwright.diagrams.scene import Area, Item, Label, Line, Scene
from patchwright.planning.plan import PlannedFabric, Strip, StripSegment, Yield

_TALL = 4.0
"""A strip higher than this on the page, in inches, is drawn smaller."""


def cutting_scenes(board: Board, fabric: PlannedFabric, index: int) -> Iterator[Scene]:
    """The strips of a fabric in their order, page by page."""
    size = fabric.sizes[index]
    if size is None:
        return
    scale = _scale(board, fabric)
    usual = [strip for strip in size.strips if float(strip.height) * scale <= _TALL]
    pages = list(_pages(board, fabric, usual, scale))
    pages.extend(([strip], _tall_scale(board, fabric, strip)) for strip in size.strips if strip not in usual)
    for number, (strips, page_scale) in enumerate(pages, 1):
        yield _page(board, fabric, index, number, strips, page_scale)


def _pages(
    board: Board, fabric: PlannedFabric, strips: Sequence[Strip], scale: float
) -> Iterator[tuple[list[Strip], float]]:
    """As many strips as fit a page each time."""
    cutter = _Cutter(board, fabric, scale)
    room = board.room.height - cutter.header().height - 2 * board.bleed
    page: list[Strip] = []
    used = 0.0
    for strip in strips:
        height = cutter.strip(strip).height + _gap(board)
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
    cutter = _Cutter(board, fabric, scale)
    picture = above([cutter.header(), *(cutter.strip(strip) for strip in strips)], _gap(board))
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


@dataclass(frozen=True, slots=True)
class _Cutter:
    """Draws the strips of one fabric at one scale."""

    board: Board
    fabric: PlannedFabric
    scale: float

    @property
    def width(self) -> Length:
        return self.fabric.source.size[0]

    def header(self) -> Picture:
        """The width of fabric from selvage to selvage."""
        board, left = self.board, _left(self.board)
        right, y = left + float(self.width) * self.scale, 2.4 * board.em
        text = board.say("cutting.width", width=printed(board, self.width))
        selvage = board.say("cutting.selvage")
        items: list[Item] = [
            Label(((left + right) / 2, board.em), text, "small"),
            Label((left, board.em), selvage, "small", "start"),
            Label((right, board.em), selvage, "small", "end"),
            Line(((left, y), (right, y)), "dimension", "both"),
            Line(((left, y - board.em * 0.4), (left, y + board.em * 0.4)), "dimension"),
            Line(((right, y - board.em * 0.4), (right, y + board.em * 0.4)), "dimension"),
        ]
        return Picture(right + board.em, y + board.em * 0.4, tuple(items), Body(left, 0, right - left, y))

    def strip(self, strip: Strip) -> Picture:
        """One kind of strip: how many, its height, its pieces, its waste and the order of the cuts."""
        scale = self.scale
        wide, high = float(self.width) * scale, float(strip.height) * scale
        items: list[Item] = [Area(corners(0, 0, wide, high), "waste", style="outline")]
        cuts: list[float] = []
        x = 0.0
        for part in strip.yields:
            items.extend(self._columns(part, strip, x, cuts))
            x = cuts[-1]
        for segment in strip.segments:
            items.extend(self._segment(segment, x, high))
            x += float(segment.length) * scale
            cuts.append(x)
        items.extend(Line(((end, 0), (end, high)), "edge") for end in (0.0, wide))
        picture = Picture(wide, high, tuple(items), Body(0, 0, wide, high))
        return self._counted(self._ordered(picture, cuts, wide), strip)

    def _columns(self, part: Yield, strip: Strip, x: float, cuts: list[float]) -> Iterator[Item]:
        """The pieces of one kind, column by column; `cuts` gets the right edge of each."""
        wide, high = float(part.width) * self.scale, float(part.height) * self.scale
        left = part.each
        while left > 0:
            for row in range(min(part.stack, left)):
                yield from cut_piece(self.board, part, self.fabric.letter, (x, row * high, wide, high))
            if part.height * part.stack < strip.height:
                level = high * part.stack
                yield Line(((x, level), (x + wide, level)), "cut")
            left -= part.stack
            x += wide
            cuts.append(x)

    def _segment(self, segment: StripSegment, x: float, high: float) -> Iterator[Item]:
        """A part of a strip that is joined with others."""
        right = x + float(segment.length) * self.scale
        yield Area(corners(x, 0, right, high), "fabric", self.fabric.letter)
        text = self.board.say("cutting.segment", piece=segment.piece, length=printed(self.board, segment.length))
        for words in (text, segment.piece):
            fits = self.board.type.text_width(words, "small") + self.board.em < right - x
            if fits and self.board.type.text_height("small") * 1.9 < high:
                yield Label(((x + right) / 2, high / 2), words, "small", over="cloth")
                return

    def _ordered(self, picture: Picture, cuts: Sequence[float], wide: float) -> Picture:
        """Numbers above the cuts: 1 is the strip itself, then across it from the left; crowded ones are left out."""
        board = self.board
        room = 1.5 * board.em
        grown = padded(picture, top=room)
        labels = []
        free = -board.em
        across = [cut for cut in cuts if cut < wide - 1e-6]
        for number, cut in enumerate(across, 2):
            half = board.type.text_width(str(number), "small") / 2 + board.em * 0.2
            if cut - half >= free:
                labels.append(Label((cut, room * 0.45), str(number), "small"))
                free = cut + half
        return grown.with_items(labels)

    def _counted(self, picture: Picture, strip: Strip) -> Picture:
        """How many such strips, and their height with the number of its cut."""
        board, left = self.board, _left(self.board)
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
