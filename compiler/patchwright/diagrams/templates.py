"""Templates at true size, on as many pages as they need, each page with a mark to check its scale by.

In: a plan's templates, and the pieces that are cut by them.
Out: scenes `template-T1`, or `template-T1-1`, `template-T1-2` … where a template is larger than a page.
Never: a scale other than true size, or a page without its scale mark.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from math import atan2, ceil, cos, pi, sin

from patchwright.core.geometry import Arc, Outline, Point
from patchwright.diagrams.board import Board
from patchwright.diagrams.phrases import by_size, listed
from patchwright.diagrams.picture import Picture, bare, corners
from patchwright.diagrams.scene import XY, Item, Label, Line, LineStyle, Scene
from patchwright.planning.plan import PlannedTemplate

OVERLAP = 0.5
"""Inches that neighboring pages share, so that they can be glued on each other."""
_CAPTION = 0.1
"""Inches of a page's height that a booklet may want around a drawing of a page's size."""
_MARK = 1.0
"""The side of the square to check the scale by, in inches."""
_ARC_PART = pi / 180
"""Largest angle of the straight parts by which an arc is drawn: within a hundredth of a millimeter at 3 inches."""
_CROSS = 0.11
"""Half the length of a registration mark's lines."""
_MOST_TILES = 40


@dataclass(frozen=True, slots=True)
class Tile:
    """A part of a template on one page: a window of the template in inches, and its place among the pages."""

    x: float
    y: float
    width: float
    height: float
    column: int
    row: int


def template_scenes(board: Board, template: PlannedTemplate) -> Iterator[Scene]:
    """One scene for each page of a template that a shown size needs."""
    drawn = _drawing(board, template)
    tiles = tiles_of(board, template)
    for number, tile in enumerate(tiles, 1):
        name = f"template-{template.id}" + (f"-{number}" if len(tiles) > 1 else "")
        picture = _page(board, template, drawn, tile, (number, len(tiles)))
        title = board.say("templates.title", template=template.id, number=number, total=len(tiles))
        description = board.say("templates.description", template=template.id, pieces=pieces_text(board, template))
        if len(tiles) > 1:
            part = board.say("templates.part", number=number, total=len(tiles))
            description = f"{description} {part}"
        yield board.scene(name, picture, title, description, board.full_scale)


def is_shown(board: Board, template: PlannedTemplate) -> bool:
    """Whether a shown size of the quilt needs it."""
    return bool(_users(board, template))


def pieces_text(board: Board, template: PlannedTemplate) -> str:
    """`A2, cut 24; B3, cut 48`, by size where the counts differ."""
    words = []
    for name in dict.fromkeys(name for name, _ in _users(board, template)):
        sizes = [board.piece(name).sizes[index] for index in board.shown]
        counts = [
            str(size.need) if size is not None and size.template == template.id else None for size in sizes
        ]
        words.append(board.say("templates.piece", piece=name, count=by_size(board, counts)))
    return listed(board, words)


def tiles_of(board: Board, template: PlannedTemplate) -> tuple[Tile, ...]:
    """The pages of a template, row by row; neighbors overlap, and a page that nothing of it reaches is left out."""
    wide, high = _room(board)
    full = board.full_scale
    width, height = float(template.shape.width) * full, float(template.shape.height) * full
    columns, rows = _parts(width, wide), _parts(height, high)
    across, down = _share(width, columns), _share(height, rows)
    tiles = (
        Tile(column * (across - OVERLAP), row * (down - OVERLAP), across, down, column, row)
        for row in range(rows)
        for column in range(columns)
    )
    cut = traced(template.shape.cut_line, full)
    return tuple(tile for tile in tiles if clipped((*cut, cut[0]), tile))


def traced(outline: Outline, scale: float) -> tuple[XY, ...]:
    """An outline on the page, its arcs as short straight parts."""
    points: list[XY] = []
    for side in outline:
        points.append(_on_page(side.start, scale))
        if isinstance(side, Arc):
            points += _arc(side, scale)
    return tuple(points)


def _users(board: Board, template: PlannedTemplate) -> list[tuple[str, int]]:
    """(piece, place of a shown size) of all that are cut by it."""
    return [
        (piece.id, index)
        for piece in board.plan.pieces
        for index in board.shown
        if (size := piece.sizes[index]) is not None and size.template == template.id
    ]


def _room(board: Board) -> tuple[float, float]:
    """The largest part of a template on one page: beside nothing, above the scale mark."""
    wide = board.room.width - 2 * board.bleed - 2 * _CROSS
    high = board.room.height - _CAPTION - 2 * board.bleed - 2 * _CROSS - _MARK - 4 * board.em
    return wide, high


def _parts(length: float, room: float) -> int:
    parts = 1 if length <= room else ceil((length - OVERLAP) / (room - OVERLAP))
    return min(parts, _MOST_TILES)


def _share(length: float, parts: int) -> float:
    """The length of each of so many parts that overlap."""
    return (length + OVERLAP * (parts - 1)) / parts


@dataclass(frozen=True, slots=True)
class _Drawing:
    """A template's lines in inches."""

    cut: tuple[XY, ...]
    seam: tuple[XY, ...]
    grain: tuple[XY, XY]
    label: XY


def _drawing(board: Board, template: PlannedTemplate) -> _Drawing:
    shape, scale = template.shape, board.full_scale
    seam = traced(shape.seam_line, scale)
    low, high = (_on_page(point, scale) for point in shape.grain)
    label = _inside(seam, low)
    shift = label[0] - (low[0] + high[0]) / 2, label[1] - (low[1] + high[1]) / 2
    grain = (low[0] + shift[0], low[1] + shift[1]), (high[0] + shift[0], high[1] + shift[1])
    cut = traced(shape.cut_line, scale)
    return _Drawing((*cut, cut[0]), (*seam, seam[0]), _shortened(grain, seam), label)


def _shortened(grain: tuple[XY, XY], seam: tuple[XY, ...]) -> tuple[XY, XY]:
    """The arrow cut down around its middle until both ends lie within the seams."""
    (x, y), (u, v) = grain
    middle = (x + u) / 2, (y + v) / 2
    for share in (1.0, 0.8, 0.6, 0.45, 0.3, 0.2):
        ends = tuple(
            (middle[0] + (px - middle[0]) * share, middle[1] + (py - middle[1]) * share) for px, py in grain
        )
        if all(_contains(seam, end) for end in ends):
            return ends[0], ends[1]
    return grain


def _inside(outline: tuple[XY, ...], near: XY) -> XY:
    """The place of a grid in an outline that is farthest from its lines."""
    xs, ys = [x for x, _ in outline], [y for _, y in outline]
    left, top, wide, high = min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys)
    steps = 16
    spots = [
        (left + wide * (i + 0.5) / steps, top + high * (j + 0.5) / steps) for i in range(steps) for j in range(steps)
    ]
    within = [spot for spot in spots if _contains(outline, spot)]
    return max(within, key=lambda spot: round(_clearance(outline, spot), 6), default=near)


def _contains(outline: tuple[XY, ...], spot: XY) -> bool:
    """Whether a point lies in an outline, by the lines that cross its level to the right."""
    x, y = spot
    odd = False
    for (ax, ay), (bx, by) in zip(outline, outline[1:] + outline[:1], strict=True):
        if (ay > y) != (by > y) and x < ax + (y - ay) / (by - ay) * (bx - ax):
            odd = not odd
    return odd


def _clearance(outline: tuple[XY, ...], spot: XY) -> float:
    x, y = spot
    least = float("inf")
    for (ax, ay), (bx, by) in zip(outline, outline[1:] + outline[:1], strict=True):
        square = (bx - ax) ** 2 + (by - ay) ** 2
        along = 0.0 if not square else max(0.0, min(1.0, ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / square))
        least = min(least, (ax + along * (bx - ax) - x) ** 2 + (ay + along * (by - ay) - y) ** 2)
    return least


def _page(board: Board, template: PlannedTemplate, drawn: _Drawing, tile: Tile, place: tuple[int, int]) -> Picture:
    """What one page shows: the template's part, registration marks in its corners, and the scale mark below."""
    em, many = board.em, place[1] > 1
    items: list[Item] = []
    styles: tuple[tuple[tuple[XY, ...], LineStyle, bool], ...] = (
        (drawn.cut, "outline", False), (drawn.seam, "stitch", False), (drawn.grain, "grain", True),
    )
    for points, style, arrow in styles:
        for part in clipped(points, tile):
            moved = tuple((x - tile.x + _CROSS, y - tile.y + _CROSS) for x, y in part)
            items.append(Line(moved, style, "both" if arrow and len(part) == 2 else "none"))
    if tile.x <= drawn.label[0] <= tile.x + tile.width and tile.y <= drawn.label[1] <= tile.y + tile.height:
        at = drawn.label[0] - tile.x + _CROSS + em, drawn.label[1] - tile.y + _CROSS
        items.append(Label(at, template.id, "large", "start", bold=True))
    if many:
        items += _registration(tile)
    base = tile.height + 2 * _CROSS + 1.5 * em
    items += _scale_mark(board, base)
    texts = [board.say("templates.heading", template=template.id, pieces=pieces_text(board, template))]
    if many:
        row, column = tile.row + 1, tile.column + 1
        texts.append(board.say("templates.tile", number=place[0], total=place[1], row=row, column=column))
    texts.append(board.say("templates.actual-size"))
    wide = board.room.width - 2 * board.bleed
    left = _MARK + 1.5 * em
    lines = [line for text in texts for line in _wrapped(board, text, wide - left)]
    for number, line in enumerate(lines):
        items.append(Label((left, base + em * (0.6 + 1.7 * number)), line, "normal", "start", bold=number == 0))
    low = base + max(_MARK, em * (1.2 + 1.7 * (len(lines) - 1)))
    width = max(tile.width + 2 * _CROSS, left + max(board.type.text_width(line, "normal", True) for line in lines))
    return bare(min(width, wide), low, items)


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


def _on_page(point: Point, scale: float) -> XY:
    return float(point.x) * scale, float(point.y) * scale


def _arc(side: Arc, scale: float) -> list[XY]:
    """Points between the ends of an arc."""
    x, y = _on_page(side.center, scale)
    radius = float(side.radius) * scale
    first, last = (
        atan2(float(point.y) * scale - y, float(point.x) * scale - x) for point in (side.start, side.end)
    )
    sweep = (last - first) % (2 * pi) if side.clockwise else -((first - last) % (2 * pi))
    parts = max(1, ceil(abs(sweep) / _ARC_PART))
    angles = [first + sweep * part / parts for part in range(1, parts)]
    return [(x + radius * cos(angle), y + radius * sin(angle)) for angle in angles]
