"""One view of a stage: layers of cloth from the bottom up, marks, arrows over what is pressed, and letters with room.

In: a view in the pattern's unit, with the fabric and the name of each role's cloth, and how the plan presses seams.
Out: a picture whose body is the cloth.
Never: a shape or mark that the view does not have.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from patchwright.core.geometry import Polygon
from patchwright.diagrams.arrows import drawn_seam
from patchwright.diagrams.board import Board
from patchwright.diagrams.letters import Obstacles, letter
from patchwright.diagrams.picture import Body, Picture, bare
from patchwright.diagrams.scene import XY, Area, Item, Line, LineStyle
from patchwright.methods.method import MarkKind, SeamMark, StageShape, StageView
from patchwright.planning.pressing.in_stages import marked_seam
from patchwright.planning.pressing.results import PressedSeam

_STYLES: Mapping[MarkKind, LineStyle] = {
    "drawn": "mark",
    "stitch": "stitch",
    "cut": "cut",
    "fold": "fold",
}


@dataclass(frozen=True, slots=True)
class Cloths:
    """What the roles of a unit are in the plan."""

    fabrics: Mapping[str, str]
    """Fabric letters by role."""
    pieces: Mapping[tuple[str, float, float], str]
    """Names of cut pieces by role, longer and shorter side."""
    mirrored: bool
    seams: tuple[PressedSeam, ...]
    """The seams of the unit."""

    def piece(self, shape: StageShape) -> str:
        """The name of the piece that a shape is, uncut and unfolded; else nothing."""
        if len(shape.outline) != 4:
            return ""
        low_x, low_y, high_x, high_y = _bounds([(float(point.x), float(point.y)) for point in shape.outline])
        long, short = sorted((high_x - low_x, high_y - low_y), reverse=True)
        return self.pieces.get((shape.role, round(long, 6), round(short, 6)), "")


def view_picture(board: Board, view: StageView, cloths: Cloths, scale: float, named: bool = True) -> Picture:
    """A view at a scale; `named` where whole pieces carry their names rather than their fabrics' letters."""
    outlines = [_points(shape.outline, cloths, scale) for shape in view.shapes]
    lines = [_points(mark.points, cloths, scale) for mark in view.marks]
    corners = [point for outline in outlines for point in outline]
    arrows = [arrow for mark in view.pressed for arrow in _arrows(board, mark, cloths, scale, corners)]
    lines += [arrow.points for arrow in arrows]
    low_x, low_y, high_x, high_y = _bounds([point for outline in (*outlines, *lines) for point in outline])
    outlines = [_shifted(outline, low_x, low_y) for outline in outlines]
    lines = [_shifted(line, low_x, low_y) for line in lines]
    items: list[Item] = [
        Area(outline, "fabric", cloths.fabrics[shape.role], wrong_side=shape.wrong_side)
        for shape, outline in zip(view.shapes, outlines, strict=True)
    ]
    items += [Line(line, _STYLES[mark.kind]) for mark, line in zip(view.marks, lines, strict=False)]
    items += [replace(arrow, points=line) for arrow, line in zip(arrows, lines[len(view.marks) :], strict=True)]
    items.extend(_letters(board, view, cloths, outlines, lines, named))
    return bare(high_x - low_x, high_y - low_y, items)


def _arrows(board: Board, mark: SeamMark, cloths: Cloths, scale: float, corners: Sequence[XY]) -> Iterator[Line]:
    """Over a seam, which way the plan presses it."""
    halves = marked_seam(cloths.seams, mark).halves(cloths.mirrored)
    return drawn_seam(board, _points(mark.points, cloths, scale), halves, corners, cloths.mirrored)


def trimmed_picture(board: Board, view: StageView, cloths: Cloths, scale: float) -> Picture:
    """A view whose body is what is left after trimming along its cut lines."""
    picture = view_picture(board, view, cloths, scale, named=False)
    cuts = [point for item in picture.items if isinstance(item, Line) and item.style == "cut" for point in item.points]
    if not cuts:
        return picture
    low_x, low_y, high_x, high_y = _bounds(cuts)
    return replace(picture, body=Body(low_x, low_y, high_x - low_x, high_y - low_y))


def _letters(
    board: Board,
    view: StageView,
    cloths: Cloths,
    outlines: Sequence[tuple[XY, ...]],
    lines: Sequence[tuple[XY, ...]],
    named: bool,
) -> Iterator[Item]:
    """Names of whole pieces and letters of fabrics, clear of everything that lies over them."""
    for number, shape in enumerate(view.shapes):
        obstacles = Obstacles(tuple(lines), tuple(outlines[number + 1 :]))
        fabric = cloths.fabrics[shape.role]
        texts = [text for text in (cloths.piece(shape) if named else "", fabric) if text]
        label = letter(outlines[number], texts, board.type, ("normal", "small"), obstacles)
        if label is not None:
            yield label


def _points(polygon: Polygon, cloths: Cloths, scale: float) -> tuple[XY, ...]:
    """Corners on the page; mirrored left to right where the unit is the reversed one."""
    sign = -1 if cloths.mirrored else 1
    return tuple((sign * float(point.x) * scale, float(point.y) * scale) for point in polygon)


def _shifted(points: Sequence[XY], x: float, y: float) -> tuple[XY, ...]:
    return tuple((px - x, py - y) for px, py in points)


def _bounds(points: Sequence[XY]) -> tuple[float, float, float, float]:
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)
