"""Pages of drawings at true size: the page's part, what joins it to the other pages, a scale mark, words and a map.

In: a whole drawing in inches, its tiles, and the words that stand below every page.
Out: one picture for each page.
Never: a page without its scale mark, or a mark for joining that stands elsewhere on the page that it joins.

Where two pages share a strip, both have crosses at its four ends. The page further right or down is trimmed along
the strip's outer edge and glued on the other one up to the line that is drawn there, crosses on crosses.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from patchwright.diagrams.board import Board
from patchwright.diagrams.picture import Picture, bare, corners
from patchwright.diagrams.scene import XY, Area, Item, Label, Line
from patchwright.diagrams.tiles import CROSS, MARK, OVERLAP, Sheet, Tile, clipped

_MAP = (1.3, 0.85)
"""The most room of the map of all pages, in inches."""
_LINE = 1.7
"""Distance of lines of words, in ems."""
_SPOTS = (0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9)
"""Where along a shared strip its words are tried, in parts of its length."""


def page_picture(board: Board, sheet: Sheet, tiles: Sequence[Tile], number: int, texts: Sequence[str]) -> Picture:
    """What page `number`, from 1, shows: its part of the drawing, marks for joining, the scale mark, words, a map."""
    tile, em = tiles[number - 1], board.em
    items = [*_drawing(sheet, tile), *_shifted(_joining(board, sheet, tiles, tile), tile)]
    base = tile.height + 2 * CROSS + 1.5 * em
    items += _scale_mark(board, base)
    wide = board.room.width - 2 * board.bleed
    left, right, low = MARK + 1.5 * em, wide, base + MARK
    if len(tiles) > 1:
        row, column = tile.row + 1, tile.column + 1
        texts = [*texts, board.say("templates.tile", number=number, total=len(tiles), row=row, column=column)]
        chart, right = _map(board, sheet, tiles, number, (wide, base))
        items += chart
        right -= em
    lines = [line for text in texts for line in _wrapped(board, text, right - left)]
    for place, line in enumerate(lines):
        items.append(Label((left, base + em * (0.6 + _LINE * place)), line, "normal", "start", bold=place == 0))
    low = max(low, base + em * (1.2 + _LINE * (len(lines) - 1)))
    width = max(tile.width + 2 * CROSS, left + max(board.type.text_width(line, "normal", True) for line in lines))
    return bare(wide if len(tiles) > 1 else min(width, wide), low, items)


def _drawing(sheet: Sheet, tile: Tile) -> Iterator[Item]:
    """The part of the drawing that a page shows."""
    for stroke in sheet.strokes:
        parts = clipped(stroke.points, tile)
        for part in parts:
            whole = len(parts) == 1 and part == stroke.points
            points = tuple(_on_page(point, tile) for point in part)
            yield Line(points, stroke.style, stroke.arrow if whole else "none")
    for label in sheet.labels:
        if tile.holds(label.at):
            yield Label(_on_page(label.at, tile), label.text, label.size, label.anchor, label.bold)


def _on_page(point: XY, tile: Tile) -> XY:
    return point[0] - tile.x + CROSS, point[1] - tile.y + CROSS


def _shifted(items: Sequence[Item], tile: Tile) -> Iterator[Item]:
    """Marks in the drawing's own coordinates, on the page."""
    for item in items:
        if isinstance(item, Line):
            yield Line(tuple(_on_page(point, tile) for point in item.points), item.style, item.arrow)
        elif isinstance(item, Label):
            yield Label(_on_page(item.at, tile), item.text, item.size, item.anchor, item.bold, item.turned)


def _joining(board: Board, sheet: Sheet, tiles: Sequence[Tile], tile: Tile) -> list[Item]:
    """Crosses at the ends of every shared strip, lines to glue up to and to trim along, with their words."""
    numbers = {(other.column, other.row): number for number, other in enumerate(tiles, 1)}
    right, bottom = tile.x + tile.width, tile.y + tile.height
    across: set[float] = set()
    down: set[float] = set()
    items: list[Item] = []
    for step, key in ((1, "glue"), (-1, "trim")):
        other = numbers.get((tile.column + step, tile.row))
        if other is not None:
            strip = (right - OVERLAP, right) if step > 0 else (tile.x, tile.x + OVERLAP)
            across.update(strip)
            items.append(Line(((strip[0], tile.y), (strip[0], bottom)), "fold"))
            at = _clear(board, sheet, ((strip[0] + strip[1]) / 2, tile.y), (0.0, tile.height))
            items.append(Label(at, board.say(f"templates.{key}", number=other), "small", turned=True))
        other = numbers.get((tile.column, tile.row + step))
        if other is not None:
            strip = (bottom - OVERLAP, bottom) if step > 0 else (tile.y, tile.y + OVERLAP)
            down.update(strip)
            items.append(Line(((tile.x, strip[0]), (right, strip[0])), "fold"))
            at = _clear(board, sheet, (tile.x, (strip[0] + strip[1]) / 2), (tile.width, 0.0))
            items.append(Label(at, board.say(f"templates.{key}", number=other), "small"))
    spots = {(x, y) for x in across for y in (*down, tile.y, bottom)}
    spots |= {(x, y) for x in (*across, tile.x, right) for y in down}
    for x, y in sorted(spots):
        items.append(Line(((x - CROSS, y), (x + CROSS, y)), "scale"))
        items.append(Line(((x, y - CROSS), (x, y + CROSS)), "scale"))
    return items


def _clear(board: Board, sheet: Sheet, start: XY, run: XY) -> XY:
    """A place along a strip where its words lie within it, on as few lines and letters of the drawing as can be."""
    wide = board.type.text_width(board.say("templates.glue", number=1), "small") / 2 + board.em / 2
    reach = (wide, board.em) if run[0] else (board.em, wide)
    long = max(run)
    inset = min(wide / long, 0.5)
    shares = dict.fromkeys(min(max(share, inset), 1 - inset) for share in _SPOTS)
    spots = [(start[0] + run[0] * share, start[1] + run[1] * share) for share in shares]
    found: list[tuple[int, int, XY]] = []
    for x, y in spots:
        window = Tile(x - reach[0], y - reach[1], 2 * reach[0], 2 * reach[1], 0, 0)
        met = sum(bool(clipped(stroke.points, window)) for stroke in sheet.strokes)
        met += sum(3 for label in sheet.labels if window.holds(label.at))
        found.append((met, len(found), (x, y)))
    return min(found)[2]


def _map(
    board: Board, sheet: Sheet, tiles: Sequence[Tile], number: int, corner: XY
) -> tuple[list[Item], float]:
    """All pages as they lie, with their numbers, this one shaded; and where the map begins from the left."""
    right, bottom = (max(t.x + t.width for t in tiles), max(t.y + t.height for t in tiles))
    scale = min(_MAP[0] / right, _MAP[1] / bottom)
    left = corner[0] - right * scale

    def spot(x: float, y: float) -> XY:
        return left + x * scale, corner[1] + y * scale

    items: list[Item] = []
    for place, tile in enumerate(tiles, 1):
        box = (*spot(tile.x, tile.y), *spot(tile.x + tile.width, tile.y + tile.height))
        if place == number:
            items.insert(0, Area(corners(*box), "highlight", style="scale"))
        else:
            items.append(Line((*corners(*box), corners(*box)[0]), "scale"))
    outlines = (stroke.points for stroke in sheet.strokes if stroke.style == "outline")
    items += [Line(tuple(spot(x, y) for x, y in points), "dimension") for points in outlines]
    for place, tile in enumerate(tiles, 1):
        at = spot(tile.x + tile.width / 2, tile.y + tile.height / 2)
        items.append(Label(at, str(place), "small", bold=place == number))
    words = board.say("templates.map")
    wide = board.type.text_width(words, "small")
    middle = min(left + right * scale / 2, corner[0] - wide / 2)
    items.append(Label((middle, corner[1] + bottom * scale + board.em), words, "small"))
    return items, min(left, middle - wide / 2)


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
    square = corners(0, top, MARK, top + MARK)
    bar = 2 / 2.54
    foot = top + MARK - 2.2 * board.em
    left = (MARK - bar) / 2
    ticks = [Line(((x, foot - 0.04), (x, foot + 0.04)), "scale") for x in (left, left + bar / 2, left + bar)]
    return [
        Line((*square, square[0]), "scale"),
        Label((MARK / 2, top + 1.4 * board.em), board.say("templates.inch"), "small"),
        Line(((left, foot), (left + bar, foot)), "scale"),
        *ticks,
        Label((MARK / 2, foot + 1.1 * board.em), board.say("templates.centimeters"), "small"),
    ]
