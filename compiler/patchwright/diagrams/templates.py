"""Templates at true size: cut line solid, seam line dashed with a ring at every end,
notches along curves, an arrow along the grain, and what is cut by them.

In: a plan's templates, and the pieces that are cut by them.
Out: scenes `template-T1`, or `template-T1-1`, `template-T1-2` … where a template is larger than a page.
Never: a shape that is not the plan's; arcs are drawn from their centers and radii.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import atan2, ceil, cos, pi, sin

from patchwright.core.geometry import Arc, Orientation, Outline, Point
from patchwright.diagrams.board import Board
from patchwright.diagrams.phrases import by_size, listed
from patchwright.diagrams.roominess import contains, roomiest
from patchwright.diagrams.scene import XY, Label, Scene
from patchwright.diagrams.tiles import Sheet, Stroke, tiles_of
from patchwright.diagrams.true_size_pages import page_picture
from patchwright.methods.template import Template
from patchwright.planning.plan import PlannedTemplate

_ARC_PART = pi / 180
"""Largest angle of the straight parts by which an arc is drawn: within a hundredth of a millimeter at 3 inches."""
_NOTCHES = (0.25, 0.5, 0.75)
"""Where along a curve its notches stand."""
_DOT = 0.03
"""Radius of the ring at the end of a seam, in inches."""


def template_scenes(board: Board, template: PlannedTemplate) -> Iterator[Scene]:
    """One scene for each page of a template that a shown size needs."""
    sheet, pieces = template_sheet(board, template), _pieces_text(board, template)
    tiles = tiles_of(board, sheet)
    words = [board.say("templates.heading", template=template.id, pieces=pieces), board.say("templates.actual-size")]
    for number in range(1, len(tiles) + 1):
        name = f"template-{template.id}" + (f"-{number}" if len(tiles) > 1 else "")
        title = board.say("templates.title", template=template.id, number=number, total=len(tiles))
        description = board.say("templates.description", template=template.id, pieces=pieces)
        if len(tiles) > 1:
            description = f"{description} {board.say('templates.part', number=number, total=len(tiles))}"
        picture = page_picture(board, sheet, tiles, number, words)
        yield board.scene(name, picture, title, description, board.full_scale)


def template_sheet(board: Board, template: PlannedTemplate) -> Sheet:
    """The whole template as it is drawn, turned by a quarter where that takes fewer pages."""
    upright = _sheet(board, template.id, template.shape)
    turned = _sheet(board, template.id, template.shape.laid(Orientation(1)))
    return turned if len(tiles_of(board, turned)) < len(tiles_of(board, upright)) else upright


def _sheet(board: Board, id: str, shape: Template) -> Sheet:
    scale = board.full_scale
    seam, cut = traced(shape.seam_line, scale), traced(shape.cut_line, scale)
    low, high = (_on_page(point, scale) for point in shape.grain)
    width, height = float(shape.width) * scale, float(shape.height) * scale
    bare = tiles_of(board, Sheet(width, height, (Stroke((*cut, cut[0]), "outline"),), ()))

    def on_one_page(spot: XY) -> bool:
        """Whether a place and what stands around it lie on a single page, clear of the strips that pages share."""
        return sum(tile.holds((spot[0] + dx, spot[1])) for tile in bare for dx in (-em, 3 * em)) == 2

    em = board.em
    spot = roomiest(seam, low, on_one_page if len(bare) > 1 else None)
    shift = spot[0] - (low[0] + high[0]) / 2, spot[1] - (low[1] + high[1]) / 2
    grain = _shortened(((low[0] + shift[0], low[1] + shift[1]), (high[0] + shift[0], high[1] + shift[1])), seam)
    strokes = (
        Stroke((*cut, cut[0]), "outline"), Stroke((*seam, seam[0]), "stitch"), Stroke(grain, "grain", "both"),
        *_dots(shape.seam_line, scale), *_notches(shape, scale),
    )
    label = Label((spot[0] + board.em, spot[1]), id, "large", "start", bold=True)
    return Sheet(width, height, strokes, (label,))


def _dots(outline: Outline, scale: float) -> Iterator[Stroke]:
    """A small ring around every end of a seam, to mark where stitching begins and stops."""
    for side in outline:
        x, y = _on_page(side.start, scale)
        turns = [number * pi / 8 for number in range(17)]
        yield Stroke(tuple((x + _DOT * cos(turn), y + _DOT * sin(turn)) for turn in turns), "scale")


def _notches(shape: Template, scale: float) -> Iterator[Stroke]:
    """Marks across the allowance of every curve, at the same places of the seam on both pieces that it joins."""
    for seam in shape.seam_line:
        cut = next((side for side in shape.cut_line if isinstance(side, Arc)), None)
        if not isinstance(seam, Arc) or cut is None:
            continue
        x, y = _on_page(seam.center, scale)
        first, sweep = _swept(seam, scale)
        inner, outer = float(seam.radius) * scale, float(cut.radius) * scale
        for share in _NOTCHES:
            c, s = cos(first + sweep * share), sin(first + sweep * share)
            yield Stroke(((x + inner * c, y + inner * s), (x + outer * c, y + outer * s)), "seam")


def is_shown(board: Board, template: PlannedTemplate) -> bool:
    """Whether a shown size of the quilt needs it."""
    return bool(_users(board, template))


def traced(outline: Outline, scale: float) -> tuple[XY, ...]:
    """An outline on the page, its arcs as short straight parts; the first corner is not repeated."""
    points: list[XY] = []
    for side in outline:
        points.append(_on_page(side.start, scale))
        if isinstance(side, Arc):
            points += _arc(side, scale)
    return tuple(points)


def _pieces_text(board: Board, template: PlannedTemplate) -> str:
    """`A2, cut 24; B3, cut 48`, by size where the counts differ."""
    words = []
    for name in dict.fromkeys(_users(board, template)):
        sizes = [board.piece(name).sizes[index] for index in board.shown]
        counts = [str(size.need) if size is not None and size.template == template.id else None for size in sizes]
        words.append(board.say("templates.piece", piece=name, count=by_size(board, counts)))
    return listed(board, words)


def _users(board: Board, template: PlannedTemplate) -> list[str]:
    """The pieces that are cut by it in shown sizes."""
    return [
        piece.id
        for piece in board.plan.pieces
        for index in board.shown
        if (size := piece.sizes[index]) is not None and size.template == template.id
    ]


def _shortened(grain: tuple[XY, XY], seam: tuple[XY, ...]) -> tuple[XY, XY]:
    """The arrow cut down around its middle until both ends lie within the seams."""
    (x, y), (u, v) = grain
    middle = (x + u) / 2, (y + v) / 2
    for share in (1.0, 0.8, 0.6, 0.45, 0.3, 0.2):
        ends = tuple(
            (middle[0] + (px - middle[0]) * share, middle[1] + (py - middle[1]) * share) for px, py in grain
        )
        if all(contains(seam, end) for end in ends):
            return ends[0], ends[1]
    return grain


def _on_page(point: Point, scale: float) -> XY:
    return float(point.x) * scale, float(point.y) * scale


def _arc(side: Arc, scale: float) -> list[XY]:
    """Points between the ends of an arc."""
    x, y = _on_page(side.center, scale)
    radius = float(side.radius) * scale
    first, sweep = _swept(side, scale)
    parts = max(1, ceil(abs(sweep) / _ARC_PART))
    angles = [first + sweep * part / parts for part in range(1, parts)]
    return [(x + radius * cos(angle), y + radius * sin(angle)) for angle in angles]


def _swept(side: Arc, scale: float) -> tuple[float, float]:
    """The angle at which an arc begins, and by how much it goes on, clockwise on the page."""
    x, y = _on_page(side.center, scale)
    first, last = (atan2(float(p.y) * scale - y, float(p.x) * scale - x) for p in (side.start, side.end))
    return first, (last - first) % (2 * pi) if side.clockwise else -((first - last) % (2 * pi))
