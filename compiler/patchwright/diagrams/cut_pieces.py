"""A cut piece as it lies on the cloth: its letter, and the diagonals on which it is cut again.

In: what a strip or a precut yields, and the place on the page.
Out: items of drawings; words.
Never: a piece that the plan does not yield.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from patchwright.diagrams.board import Board
from patchwright.diagrams.letters import CLEAR, Obstacles, letter
from patchwright.diagrams.phrases import spoken_extent
from patchwright.diagrams.picture import corners
from patchwright.diagrams.scene import XY, Area, Item, Line
from patchwright.planning.plan import Yield

Box = tuple[float, float, float, float]
"""Left, top, width and height on the page."""


def cut_piece(
    board: Board, part: Yield, fabric: str, box: Box, obstacles: Obstacles = CLEAR, named: bool = True
) -> Iterator[Item]:
    """A piece, with its name clear of the obstacles unless it is named elsewhere."""
    x, y, wide, high = box
    outline = corners(x, y, x + wide, y + high)
    yield Area(parted(board, outline), "fabric", fabric)
    then = board.piece(part.piece).then
    diagonals = [(outline[3], outline[1]), (outline[0], outline[2])][: {"none": 0, "once": 1, "twice": 2}[then]]
    for ends in diagonals:
        yield Line(ends, "cut")
    if not named:
        return
    over = Obstacles((*obstacles.lines, *diagonals), obstacles.covers)
    label = letter(outline, (part.piece, fabric), board.type, ("normal", "small"), over)
    if label is not None:
        yield label


def parted(board: Board, outline: tuple[XY, ...]) -> tuple[XY, ...]:
    """A cut rectangle drawn a hair smaller, so that a slit shows between pieces of dark cloth."""
    slit = 0.07 * board.em
    (x, y), (right, bottom) = outline[0], outline[2]
    if min(right - x, bottom - y) <= 4 * slit:
        return outline
    return corners(x + slit, y + slit, right - slit, bottom - slit)


def uncovered(board: Board, index: int, part: Yield) -> Yield:
    """A yield in the size that its piece is cut to, where it takes whole repeats of a print on the cloth."""
    size = board.piece(part.piece).sizes[index]
    if size is None:
        return part
    wide, high = size.width.length, size.height.length
    if wide > part.width or high > part.height:
        wide, high = high, wide
    return replace(part, width=wide, height=high)


def cut_words(board: Board, part: Yield) -> str:
    """How many of a piece and its size, in words."""
    then = board.piece(part.piece).then
    extent = spoken_extent(board, (part.width, part.height))
    return board.say(f"cutting.piece.{then}", count=part.each, piece=part.piece, extent=extent)
