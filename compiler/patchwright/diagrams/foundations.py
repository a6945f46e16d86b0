"""Printed foundations at true size: every seam to sew on, numbered in order, mirrored as the printed side is.

In: planned units that are sewn to a foundation.
Out: scenes `foundation-UNIT-SIZE`, or `foundation-UNIT-SIZE-1` … where one is larger than a page.
Never: the same foundation twice where several sizes of the quilt share it; it is named for the first of them.
"""

from __future__ import annotations

from collections.abc import Iterator

from patchwright.core.geometry import Point, Polygon, rectangle
from patchwright.diagrams.board import Board
from patchwright.diagrams.names import unit_name
from patchwright.diagrams.phrases import by_size
from patchwright.diagrams.roominess import roomiest
from patchwright.diagrams.scene import XY, Label, Scene
from patchwright.diagrams.tiles import Sheet, Stroke, tiles_of
from patchwright.diagrams.true_size_pages import page_picture
from patchwright.planning.plan import PlannedUnit, UnitSize


def foundation_scenes(board: Board, unit: PlannedUnit) -> Iterator[Scene]:
    """A foundation for every distinct size of a unit, page by page."""
    known: list[UnitSize] = []
    for index in board.shown:
        planned = unit.sizes[index]
        if planned is None or not planned.recipe.foundation or any(_is_same(planned, one) for one in known):
            continue
        known.append(planned)
        yield from _scenes(board, unit, planned, board.size(index).name)


def foundation_sheet(board: Board, unit: PlannedUnit, planned: UnitSize) -> Sheet:
    """The whole foundation, its seam allowance around it."""
    seam, scale = planned.request.rules.seam, board.full_scale
    width, height = (float(side) * scale for side in planned.unfinished)
    outer = _on_page(rectangle(planned.unfinished[0].length, planned.unfinished[1].length), scale)
    patches = [_on_page(_printed(unit, planned, patch), scale) for patch in planned.recipe.foundation]
    strokes = [Stroke((*outer, outer[0]), "outline")]
    frame = _on_page(rectangle(planned.finished[0].length, planned.finished[1].length, seam, seam), scale)
    strokes += [Stroke((*patch, patch[0]), "seam") for patch in patches]
    strokes.append(Stroke((*frame, frame[0]), "stitch"))
    letters = [board.book.fabric_letter(dict(unit.fabrics)[role]) for role in planned.request.roles]
    labels = tuple(
        Label(roomiest(patch, patch[0]), f"{number} {letter}".strip(), "normal", bold=True)
        for number, (patch, letter) in enumerate(zip(patches, letters, strict=True), 1)
    )
    return Sheet(width, height, tuple(strokes), labels)


def _scenes(board: Board, unit: PlannedUnit, planned: UnitSize, size: str) -> Iterator[Scene]:
    sheet = foundation_sheet(board, unit, planned)
    tiles = tiles_of(board, sheet)
    counts = [
        str(own.need) if own is not None and _is_same(own, planned) else None
        for own in (unit.sizes[index] for index in board.shown)
    ]
    name = unit_name(board, unit)
    words = [
        board.say("foundations.heading", name=name[:1].upper() + name[1:], count=by_size(board, counts)),
        board.say("foundations.actual-size"),
    ]
    for number in range(1, len(tiles) + 1):
        id = f"foundation-{unit.id}-{size}" + (f"-{number}" if len(tiles) > 1 else "")
        title = board.say("foundations.title", name=name, number=number, total=len(tiles))
        description = board.say("foundations.description", name=name, patches=len(planned.recipe.foundation))
        picture = page_picture(board, sheet, tiles, number, words)
        yield board.scene(id, picture, title, description, board.full_scale)


def _is_same(one: UnitSize, other: UnitSize) -> bool:
    return one.recipe.foundation == other.recipe.foundation and one.unfinished == other.unfinished


def _printed(unit: PlannedUnit, planned: UnitSize, patch: Polygon) -> Polygon:
    """A patch on the printed side with the seam allowance around; the other hand's is mirrored once more."""
    seam, width = planned.request.rules.seam, planned.request.width
    if unit.hand == "reversed":
        patch = tuple(Point(width - point.x, point.y) for point in reversed(patch))
    return tuple(point.moved(seam, seam) for point in patch)


def _on_page(polygon: Polygon, scale: float) -> tuple[XY, ...]:
    return tuple((float(point.x) * scale, float(point.y) * scale) for point in polygon)
