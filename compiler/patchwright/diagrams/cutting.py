"""How a fabric is cut in one size: every kind of strip to scale across the width of fabric, lettered and numbered.

In: a fabric's strips in one size of the plan.
Out: scenes `cutting-SIZE-LETTER`, with `-2`, `-3` … where the strips need more drawings, so that pages are filled.
Never: a layout made here; the plan's strips are drawn as they are.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from patchwright.diagrams.board import Board
from patchwright.diagrams.cut_pieces import cut_words, uncovered
from patchwright.diagrams.phrases import listed, printed, spoken
from patchwright.diagrams.picture import Body, Picture, above, bare, moved_items, padded
from patchwright.diagrams.scene import Item, Label, Line, Scene
from patchwright.diagrams.strips import StripCutter
from patchwright.planning.plan import PlannedFabric, Strip

_TALL = 3.2
"""A strip higher than this on the page, in inches, is drawn smaller."""
_DEEP = 2.6
"""How high a drawing of strips is, in inches, unless even one strip of each column is higher."""
_THIN = 1.15
"""Strips stand in two columns where even the lowest is so many times as high as its small labels."""


def cutting_scenes(board: Board, fabric: PlannedFabric, index: int) -> Iterator[Scene]:
    """The strips of a fabric in their order, page by page."""
    size = fabric.sizes[index]
    if size is None:
        return
    columns = 2 if _is_legible(board, fabric, size.strips, _scale(board, fabric, 2)) else 1
    scale = _scale(board, fabric, columns)
    usual = [strip for strip in size.strips if float(strip.height) * scale <= _TALL]
    sheet = _Sheet(StripCutter(board, fabric, index, scale), columns)
    pages = list(sheet.pages(usual))
    for strip in size.strips:
        if strip not in usual:
            smaller = StripCutter(board, fabric, index, _TALL / float(strip.height))
            pages.append((_Sheet(smaller, 1), [strip]))
    for number, (own, strips) in enumerate(pages, 1):
        yield _scene(own, number, strips)


def _is_legible(board: Board, fabric: PlannedFabric, strips: Sequence[Strip], scale: float) -> bool:
    """Whether strips at a scale are high enough for the names of their pieces."""
    least = _THIN * board.type.text_height("small")
    return all(float(strip.height) * scale >= least for strip in strips)


@dataclass(frozen=True, slots=True)
class _Sheet:
    """Strips of one fabric at one scale, in columns."""

    cutter: StripCutter
    columns: int

    @property
    def board(self) -> Board:
        return self.cutter.board

    def pages(self, strips: Sequence[Strip]) -> Iterator[tuple[_Sheet, list[Strip]]]:
        """As few drawings as are low enough, about as high as each other."""
        heights = self._heights(strips)
        room = min(_DEEP, self.board.room.height - 2 * self.board.bleed) - self._header().height
        groups = _groups(heights, room * self.columns)
        even = _groups(heights, sum(heights) / max(1, len(groups)) + max(heights, default=0) / 2)
        start = 0
        for count in even if len(even) <= len(groups) else groups:
            yield self, list(strips[start : start + count])
            start += count

    def picture(self, strips: Sequence[Strip]) -> Picture:
        """The columns, each under a line of the width of fabric, as even in height as whole strips allow."""
        split = len(self._columns(self._heights(strips))[0])
        drawn = [self._strip(strip) for strip in strips]
        parts = [part for part in (drawn[:split], drawn[split:]) if part]
        columns = [above([self._header(), *part], _gap(self.board)) for part in parts]
        items: list[Item] = []
        x = 0.0
        for column in columns:
            items.extend(moved_items(column.items, x, 0))
            x += column.width + _between(self.board)
        return bare(x - _between(self.board), max(column.height for column in columns), items)

    def _heights(self, strips: Sequence[Strip]) -> list[float]:
        """How high each strip stands, with the gap above it."""
        return [self._strip(strip).height + _gap(self.board) for strip in strips]

    def _columns(self, heights: Sequence[float]) -> tuple[Sequence[float], Sequence[float]]:
        """The heights of the first column and of the second, which may be empty."""
        split = _even_split(heights) if self.columns == 2 else len(heights)
        return heights[:split], heights[split:]

    def _header(self) -> Picture:
        """The width of fabric from selvage to selvage."""
        board, left = self.board, _left(self.board)
        right, y = left + float(self.cutter.width) * self.cutter.scale, 2.4 * board.em
        tick = board.em * 0.4
        items: list[Item] = [
            *self._header_words(left, right),
            Line(((left, y), (right, y)), "dimension", "both"),
            Line(((left, y - tick), (left, y + tick)), "dimension"),
            Line(((right, y - tick), (right, y + tick)), "dimension"),
        ]
        return Picture(right + board.em, y + tick, tuple(items), Body(left, 0, right - left, y))

    def _header_words(self, left: float, right: float) -> Iterator[Item]:
        """The width, and the selvages where there is room beside it."""
        board = self.board
        selvage = board.say("cutting.selvage")
        text = board.say("cutting.width", width=printed(board, self.cutter.width))
        yield Label(((left + right) / 2, board.em), text, "small")
        taken = board.type.text_width(text, "small") + 2 * board.type.text_width(selvage, "small") + 3 * board.em
        if taken < right - left:
            yield Label((left, board.em), selvage, "small", "start")
            yield Label((right, board.em), selvage, "small", "end")

    def _strip(self, strip: Strip) -> Picture:
        """How many such strips and how high, and the strip with the numbers of its cuts."""
        board, left = self.board, _left(self.board)
        picture = padded(self.cutter.strip(strip), left=left, right=board.em)
        middle, apart = picture.body.center[1], 0.85 * board.em
        height = board.say("dimension.plain", length=printed(board, strip.height))
        labels = [
            Label((0, middle - apart), board.say("cutting.times", count=strip.count), "normal", "start", bold=True),
            Label((0, middle + apart), height, "small", "start"),
            Label((left - board.em * 0.9, picture.body.y - board.em * 0.8), "1", "small"),
        ]
        low = max(0.0, middle + 2 * apart - picture.height)
        return padded(picture.with_items(labels), bottom=low)


def _scene(sheet: _Sheet, number: int, strips: Sequence[Strip]) -> Scene:
    board, fabric = sheet.board, sheet.cutter.fabric
    size = board.size(sheet.cutter.index)
    name = board.say("fabric", letter=fabric.letter, name=fabric.name)
    id = f"cutting-{size.name}-{fabric.letter}" + (f"-{number}" if number > 1 else "")
    width = spoken(board, fabric.source.size[0])
    words = [board.say("cutting.intro", fabric=name, size=size.label, width=width)]
    words.extend(_words(board, fabric, sheet.cutter.index, strip) for strip in strips)
    title = board.say("cutting.title", fabric=name, size=size.label)
    return board.scene(id, sheet.picture(strips), title, " ".join(words), sheet.cutter.scale)


def _groups(heights: Sequence[float], room: float) -> list[int]:
    """How many of the heights, in order, fit a room each time; at least one."""
    counts: list[int] = []
    left = 0.0
    for height in heights:
        if not counts or height > left:
            counts.append(0)
            left = room
        counts[-1] += 1
        left -= height
    return counts


def _even_split(heights: Sequence[float]) -> int:
    """How many of the first heights make one column, so that the higher of both is as low as can be."""
    return min(range(1, len(heights) + 1), key=lambda split: max(sum(heights[:split]), sum(heights[split:])))


def _gap(board: Board) -> float:
    return 1.1 * board.em


def _between(board: Board) -> float:
    """Between two columns."""
    return 2 * board.em


def _left(board: Board) -> float:
    """The room left of the strips for how many to cut and their height."""
    return 7 * board.em


def _scale(board: Board, fabric: PlannedFabric, columns: int) -> float:
    """The width of fabric over the width of a column."""
    room = (board.room.width - 2 * board.bleed - (columns - 1) * _between(board)) / columns
    return (room - _left(board) - board.em) / float(fabric.source.size[0])


def _words(board: Board, fabric: PlannedFabric, index: int, strip: Strip) -> str:
    """The strip in a sentence."""
    yields = strip.yields if fabric.repeat is None else [uncovered(board, index, part) for part in strip.yields]
    parts = [cut_words(board, part) for part in yields]
    parts += [
        board.say("cutting.part", piece=part.piece, length=spoken(board, part.length)) for part in strip.segments
    ]
    key = "cutting.joined" if strip.segments else "cutting.strip"
    return board.say(key, count=strip.count, height=spoken(board, strip.height), parts=listed(board, parts))
