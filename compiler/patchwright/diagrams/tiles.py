"""Drawings at true size on as many pages as they need: parts that overlap, registration crosses, a scale mark on each.

In: lines and labels in inches, and the words that stand below them.
Out: one picture for each page.
Never: a scale other than true size, or a page without its scale mark.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import ceil

from patchwright.diagrams.board import Board
from patchwright.diagrams.picture import Picture, bare, corners
from patchwright.diagrams.scene import XY, Arrow, Item, Label, Line, LineStyle

OVERLAP = 0.5
"""Inches that neighboring pages share, so that they can be taped on each other."""
_CAPTION = 0.1
"""Inches of a page's height that a booklet may want around a drawing of a page's size."""
_MARK = 1.0
"""The side of the square to check the scale by, in inches."""
_CROSS = 0.11
"""Half the length of a registration mark's lines."""
_MOST_TILES = 40
"""Pages in a row or column; more than anybody tapes together."""


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


def page_picture(board: Board, sheet: Sheet, tile: Tile, place: tuple[int, int], texts: Sequence[str]) -> Picture:
    """What one page shows: its part of the drawing, crosses in its corners, the scale mark and the words below."""
    em, shift = board.em, (_CROSS - tile.x, _CROSS - tile.y)
    items: list[Item] = []
    for stroke in sheet.strokes:
        parts = clipped(stroke.points, tile)
        for part in parts:
            whole = len(parts) == 1 and part == stroke.points
            points = tuple((x + shift[0], y + shift[1]) for x, y in part)
            items.append(Line(points, stroke.style, stroke.arrow if whole else "none"))
    for label in sheet.labels:
        if tile.holds(label.at):
            at = label.at[0] + shift[0], label.at[1] + shift[1]
            items.append(Label(at, label.text, label.size, label.anchor, label.bold))
    if place[1] > 1:
        items += _registration(tile)
        row, column = tile.row + 1, tile.column + 1
        texts = [*texts, board.say("templates.tile", number=place[0], total=place[1], row=row, column=column)]
    base = tile.height + 2 * _CROSS + 1.5 * em
    items += _scale_mark(board, base)
    wide = board.room.width - 2 * board.bleed
    left = _MARK + 1.5 * em
    lines = [line for text in texts for line in _wrapped(board, text, wide - left)]
    for number, line in enumerate(lines):
        items.append(Label((left, base + em * (0.6 + 1.7 * number)), line, "normal", "start", bold=number == 0))
    low = base + max(_MARK, em * (1.2 + 1.7 * (len(lines) - 1)))
    width = max(tile.width + 2 * _CROSS, left + max(board.type.text_width(line, "normal", True) for line in lines))
    return bare(min(width, wide), low, items)


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
    wide = board.room.width - 2 * board.bleed - 2 * _CROSS
    high = board.room.height - _CAPTION - 2 * board.bleed - 2 * _CROSS - _MARK - 4 * board.em
    return wide, high


def _parts(length: float, room: float) -> int:
    parts = 1 if length <= room else ceil((length - OVERLAP) / (room - OVERLAP))
    return min(parts, _MOST_TILES)


def _share(length: float, parts: int) -> float:
    """The length of each of so many parts that overlap."""
    return (length + OVERLAP * (parts - 1)) / parts


def _wrapped(board: Board, text: str, room: float) -> list[str]:
    """Words in lines that fit the room."""
    lines = [""]
    for word in text.split(" "):
        longer = f"{lines[-1]} {word}".strip()
        if lines[-1] and board.type.text_width(longer, "normal", True) > room:
            lines.append(word)
        else:
            lines[-1] = longer
    return lines


def _scale_mark(board: Board, top: float) -> list[Item]:
    """A square of one inch, and along its foot a bar of two centimeters."""
    square = corners(0, top, _MARK, top + _MARK)
    bar = 2 / 2.54
    foot = top + _MARK - 2.2 * board.em
    left = (_MARK - bar) / 2
    ticks = [Line(((x, foot - 0.04), (x, foot + 0.04)), "scale") for x in (left, left + bar / 2, left + bar)]
    return [
        Line((*square, square[0]), "scale"),
        Label((_MARK / 2, top + 1.4 * board.em), board.say("templates.inch"), "small"),
        Line(((left, foot), (left + bar, foot)), "scale"),
        *ticks,
        Label((_MARK / 2, foot + 1.1 * board.em), board.say("templates.centimeters"), "small"),
    ]


def _registration(tile: Tile) -> list[Item]:
    """A cross at every corner of a part."""
    items: list[Item] = []
    for x in (_CROSS, tile.width + _CROSS):
        for y in (_CROSS, tile.height + _CROSS):
            items.append(Line(((x - _CROSS, y), (x + _CROSS, y)), "scale"))
            items.append(Line(((x, y - _CROSS), (x, y + _CROSS)), "scale"))
    return items


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
