"""How a top on point is sewn: its diagonal rows pulled apart and numbered, with the two corners that come last.

In: one size of the plan that is set on point, or in columns on point, of which the first is shown.
Out: the scene `top-SIZE`, or `column-SIZE`.
Never: borders; they come when the center is whole.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import sqrt

from patchwright.diagrams.board import Board, Room
from patchwright.diagrams.cloth import scaled
from patchwright.diagrams.layout import Spot, spots
from patchwright.diagrams.phrases import listed, spoken_extent
from patchwright.diagrams.picture import Picture, bare, moved_items
from patchwright.diagrams.pressing import Way, plain_pressing
from patchwright.diagrams.prints import PrintChooser
from patchwright.diagrams.scene import XY, Area, Item, Label, Line, Scene
from patchwright.diagrams.top import contents
from patchwright.planning.plan import TopItem

_ARROWS_SHARE = 0.3
"""Gaps take an arrow as long as those of the longest row take no more than this share of the page's width."""
_TRIES = 12


@dataclass(frozen=True, slots=True)
class _Gaps:
    """Distances on the page, in inches: along a row, and from row to row."""

    within: float
    between: float
    arrows: bool


def diagonal_rows_scene(board: Board, index: int) -> Scene:
    """Every diagonal row with its parts apart, numbered at its lower left end."""
    size = board.size(index)
    rows, room = diagonal_rows(board, index), board.rows_room(index)
    gaps = _gaps(board, rows, room)
    width, height = _extent(rows)
    scale = min(room.width / width, room.height / height)
    picture = _picture(board, index, rows, gaps, scale)
    for _ in range(_TRIES):
        excess = max(picture.width / room.width, picture.height / room.height)
        if excess <= 1:
            break
        scale *= 0.97 / excess
        picture = _picture(board, index, rows, gaps, scale)
    part = _shown(board, index)
    title = board.say(f"{part}.title", size=size.label)
    return board.scene(f"{part}-{size.name}", picture, title, _description(board, index, rows))


def column_scene(board: Board, index: int) -> Scene | None:
    """The first column of a strippy quilt on point in its diagonal rows; nothing for other settings."""
    size = board.size(index)
    return diagonal_rows_scene(board, index) if size.setting == "strippy" and size.float is not None else None


def _shown(board: Board, index: int) -> str:
    """Whether a whole top is shown or one column of it."""
    return "column" if board.size(index).setting == "strippy" else "top"


def _extent(rows: Sequence[Sequence[Spot]]) -> XY:
    """Width and height of the box around all parts, finished."""
    items = [spot.item for row in rows for spot in row]
    width = max(item.x + item.width for item in items) - min(item.x for item in items)
    height = max(item.y + item.height for item in items) - min(item.y for item in items)
    return float(width), float(height)


def diagonal_rows(board: Board, index: int) -> list[list[Spot]]:
    """The parts row by row from the upper left, each from lower left to upper right; corners are rows of their own.

    Of several columns the first.
    """
    rows: dict[int, list[Spot]] = {}
    known = spots(board.size(index).items)
    column = next((spot.item.column for spot in known if spot.item.on_point), None)
    for spot in known:
        if spot.item.row is not None and spot.item.column == column:
            rows.setdefault(spot.item.row, []).append(spot)
    return [rows[row] for row in sorted(rows)]


def _gaps(board: Board, rows: Sequence[Sequence[Spot]], room: Room) -> _Gaps:
    most, across = max(map(len, rows)), min(room.width, room.height)
    arrows = (most - 1) * 1.8 * board.em <= _ARROWS_SHARE * across
    within = 1.8 * board.em if arrows else min(0.8 * board.em, across * 0.15 / most)
    return _Gaps(within, min((1.8 if arrows else 0.9) * board.em, across * 0.3 / len(rows)), arrows)


def _picture(
    board: Board, index: int, rows: Sequence[Sequence[Spot]], gaps: _Gaps, scale: float
) -> Picture:
    """All rows at a scale, each part moved along its row and each row away from the others."""
    chooser = PrintChooser({swatch.letter: len(swatch.colors) for swatch in board.swatches})
    items: list[Item] = []
    ways, numbers = _ways(board, index, rows), _numbers(rows)
    for number, row in enumerate(rows):
        away = (number - (len(rows) - 1) / 2) * gaps.between
        places = [_shift((place - (len(row) - 1) / 2) * gaps.within, away) for place in range(len(row))]
        for spot, (dx, dy) in zip(row, places, strict=True):
            items += moved_items(tuple(_part(board, index, spot, chooser, scale)), dx, dy)
        if number in numbers:
            items.append(_number(board, row[0].item, places[0], numbers[number], scale))
        if 0 < number < len(rows) - 1:
            items += _arrows(board, row, places, ways[number], scale) if gaps.arrows else []
    return _brought_in(board, items)


def _numbers(rows: Sequence[Sequence[Spot]]) -> dict[int, int]:
    """The number on the page of each row of blocks; rows of sashing and the last corners have none."""
    blocks = [place for place, row in enumerate(rows) if any(spot.item.on_point for spot in row)]
    return {place: number for number, place in enumerate(blocks, 1)}


def _shift(along: float, away: float) -> XY:
    """A way along a row, to the upper right, and away from the first row, to the lower right."""
    return (along + away) / sqrt(2), (away - along) / sqrt(2)


def _part(board: Board, index: int, spot: Spot, chooser: PrintChooser, scale: float) -> Iterator[Item]:
    """One part at its place in the whole top, with a firm outline."""
    x, y = float(spot.item.x) * scale, float(spot.item.y) * scale
    for patch in board.book.item(spot.item, index).patches:
        outline = tuple((px + x, py + y) for px, py in scaled(patch.outline, scale))
        yield Area(outline, "fabric", patch.letter, chooser.choose(patch.letter, spot.column, spot.row))
    around = tuple((float(corner.x) * scale, float(corner.y) * scale) for corner in spot.item.outline)
    yield Line((*around, around[0]), "outline")


def _middle(item: TopItem, scale: float) -> XY:
    x = sum(float(corner.x) for corner in item.outline) / len(item.outline)
    y = sum(float(corner.y) for corner in item.outline) / len(item.outline)
    return x * scale, y * scale


def _number(board: Board, first: TopItem, place: XY, number: int, scale: float) -> Label:
    """A row's number beyond its lower left end."""
    reach = max(float(corner.y - corner.x) for corner in first.outline) * scale / 2
    x, y = _middle(first, scale)
    out = max(0.0, reach - (y - x) / 2) + 0.7 * board.em
    return Label((x + place[0] - out, y + place[1] + out), str(number), "small")


def _ways(board: Board, index: int, rows: Sequence[Sequence[Spot]]) -> Sequence[Sequence[Way]]:
    """The ways of the seams within each row as planned; else rows alternate so that they nest, or all are opened."""
    known = board.pressing.get(f"{_shown(board, index)}-{board.size(index).name}")
    if known is not None and [len(ways) for ways in known.within] == [len(row) - 1 for row in rows]:
        return known.within
    return plain_pressing([len(row) for row in rows], board.plan.rules.pressing).within


def _arrows(
    board: Board, row: Sequence[Spot], places: Sequence[XY], ways: Sequence[Way], scale: float
) -> list[Item]:
    """An arrow in every gap of a row."""
    made: list[Item] = []
    half = 0.75 * board.em / sqrt(2)
    neighbors = pairwise(zip(row, places, strict=True))
    for ((this, here), (other, there)), way in zip(neighbors, ways, strict=True):
        x, y = _seam(this.item, other.item, scale)
        x, y = x + (here[0] + there[0]) / 2, y + (here[1] + there[1]) / 2
        ends: tuple[XY, XY] = ((x - half, y + half), (x + half, y - half))
        if way == "back":
            ends = (ends[1], ends[0])
        made.append(Line(ends, "press", "both" if way == "open" else "end"))
    return made


def _seam(this: TopItem, other: TopItem, scale: float) -> XY:
    """The middle of the edge that two neighbors of a row share."""
    own = [(float(corner.x), float(corner.y)) for corner in other.outline]
    both = own + [(float(corner.x), float(corner.y)) for corner in this.outline]
    along, aside = min(x - y for x, y in own), [x + y for x, y in both]
    across = (min(aside) + max(aside)) / 2
    return (along + across) / 2 * scale, (across - along) / 2 * scale


def _brought_in(board: Board, items: Sequence[Item]) -> Picture:
    """The items as a picture that begins at the upper left of all of them."""
    half = board.em * 0.6
    xs: list[float] = []
    ys: list[float] = []
    for item in items:
        if isinstance(item, Label):
            xs += [item.at[0] - half, item.at[0] + half]
            ys += [item.at[1] - half, item.at[1] + half]
            continue
        points = item.outline if isinstance(item, Area) else item.points
        xs += [x for x, _ in points]
        ys += [y for _, y in points]
    left, top = min(xs), min(ys)
    return bare(max(xs) - left, max(ys) - top, moved_items(items, -left, -top))


def _description(board: Board, index: int, rows: Sequence[Sequence[Spot]]) -> str:
    """How many diagonal rows there are and what each holds; equal rows together."""
    size = board.size(index)
    kinds: dict[str, list[str]] = {}
    numbers = _numbers(rows)
    for place, number in numbers.items():
        kinds.setdefault(listed(board, list(contents(board, rows[place]))), []).append(str(number))
    part = _shown(board, index)
    sentences = [board.say(f"{part}.diagonal-rows", count=len(numbers), size=size.label)]
    for parts, alike in kinds.items():
        sentences.append(board.say("top.row", count=len(alike), numbers=listed(board, alike), parts=parts))
    if size.sash_width is not None:
        sentences.append(board.say("top.sash-rows", count=len(rows) - 2 - len(numbers)))
    sentences.append(board.say("top.last-corners"))
    extent = size.center[0].length, size.center[1].length
    if part == "column":
        items = [spot.item for row in rows for spot in row]
        seams = board.plan.rules.seam * 2
        left, top = min(item.x for item in items), min(item.y for item in items)
        extent = (max(i.x + i.width for i in items) - left + seams, max(i.y + i.height for i in items) - top + seams)
    sentences.append(board.say(f"{part}.measures", extent=spoken_extent(board, extent)))
    return " ".join(sentences)
