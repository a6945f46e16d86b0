"""Drawings at true size divided into as many pages as they need, neighbors sharing a strip of overlap.

In: lines and labels in inches, and the room of a page.
Out: the windows of the drawing that the pages show, and what of a line lies in each.
Never: a scale other than true size; what stands around the window is `true_size_pages`.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from math import ceil

from patchwright.diagrams.board import Board
from patchwright.diagrams.scene import XY, Arrow, Label, LineStyle

OVERLAP = 0.5
"""Inches that neighboring pages share, so that they can be glued on each other."""
MARK = 1.0
"""The side of the square to check the scale by, in inches."""
CROSS = 0.11
"""Half the length of a registration mark's lines."""
_CAPTION = 0.1
"""Inches of a page's height that a booklet may want around a drawing of a page's size."""


@dataclass(frozen=True, slots=True)
class Stroke:
    """A line of a drawing at true size."""

    points: tuple[XY, ...]
    style: LineStyle
    arrow: Arrow = "none"


@dataclass(frozen=True, slots=True)
class Sheet:
    """A whole drawing at true size, from its upper left corner."""

    width: float
    height: float
    strokes: tuple[Stroke, ...]
    labels: tuple[Label, ...]


@dataclass(frozen=True, slots=True)
class Tile:
    """A part of a drawing on one page: a window of it in inches, and its place among the pages."""

    x: float
    y: float
    width: float
    height: float
    column: int
    row: int

    def holds(self, spot: XY) -> bool:
        return self.x <= spot[0] <= self.x + self.width and self.y <= spot[1] <= self.y + self.height


def tiles_of(board: Board, sheet: Sheet) -> tuple[Tile, ...]:
    """The pages of a drawing, row by row; neighbors overlap, and a page that nothing of it reaches is left out."""
    wide, high = _room(board)
    columns, rows = _parts(sheet.width, wide), _parts(sheet.height, high)
    across, down = _share(sheet.width, columns), _share(sheet.height, rows)
    tiles = (
        Tile(column * (across - OVERLAP), row * (down - OVERLAP), across, down, column, row)
        for row in range(rows)
        for column in range(columns)
    )
    return tuple(tile for tile in tiles if any(clipped(stroke.points, tile) for stroke in sheet.strokes))


def clipped(points: tuple[XY, ...], tile: Tile) -> list[tuple[XY, ...]]:
    """The parts of a line that lie in a tile."""
    parts: list[list[XY]] = []
    for here, there in pairwise(points):
        inside = _within(here, there, tile)
        if inside is None:
            continue
        if parts and parts[-1][-1] == inside[0]:
            parts[-1].append(inside[1])
        else:
            parts.append([inside[0], inside[1]])
    return [tuple(part) for part in parts]


def _room(board: Board) -> tuple[float, float]:
    """The largest part of a drawing on one page: as wide as the page, above the scale mark and its words."""
    wide = board.room.width - 2 * board.bleed - 2 * CROSS
    high = board.room.height - _CAPTION - 2 * board.bleed - 2 * CROSS - MARK - 5.5 * board.em
    return wide, high


def _parts(length: float, room: float) -> int:
    return 1 if length <= room else ceil((length - OVERLAP) / (room - OVERLAP))


def _share(length: float, parts: int) -> float:
    """The length of each of so many parts that overlap."""
    return (length + OVERLAP * (parts - 1)) / parts


def _within(here: XY, there: XY, tile: Tile) -> tuple[XY, XY] | None:
    """The part of one straight line within a tile."""
    low, high = 0.0, 1.0
    for start, end, least, most in (
        (here[0], there[0], tile.x, tile.x + tile.width), (here[1], there[1], tile.y, tile.y + tile.height),
    ):
        run = end - start
        if not run:
            if not least - 1e-9 <= start <= most + 1e-9:
                return None
            continue
        first, last = sorted(((least - start) / run, (most - start) / run))
        low, high = max(low, first), min(high, last)
    if low >= high:
        return None
    return _between(here, there, low), _between(here, there, high)


def _between(here: XY, there: XY, share: float) -> XY:
    if share in (0.0, 1.0):
        return there if share else here
    return here[0] + (there[0] - here[0]) * share, here[1] + (there[1] - here[1]) * share
