"""What hangs a quilt and names it: how the sleeve is sewn, how corners are folded, and where each lies on the back.

In: the hanging parts of the shown sizes; the back is drawn in the proportions of the first size that has them.
Out: scenes `hanging-sleeve`, `hanging-corners`, `hanging-label`.
Never: a part that no shown size has.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import partial

from patchwright.diagrams.arrows import in_sequence
from patchwright.diagrams.board import Board
from patchwright.diagrams.fitting import fitted
from patchwright.diagrams.phrases import by_size, printed, spoken, spoken_extent
from patchwright.diagrams.picture import Picture, bare, corners, padded
from patchwright.diagrams.scene import Area, Item, Label, Line, Scene
from patchwright.planning.plan import PlannedHanging, PlannedSize

_BACK = 1.8
"""The longer side of the quilt's back on the page, in inches."""
_AIR = 0.12
"""Around the back, as a share of its longer side."""


def hanging_scenes(board: Board) -> Iterator[Scene]:
    """One drawing for each part that a shown size has."""
    sizes = [board.size(index) for index in board.shown]
    for part, views in VIEWS.items():
        own = [next((one for one in size.hanging if one.part == part), None) for size in sizes]
        first = next(((size, one) for size, one in zip(sizes, own, strict=True) if one is not None), None)
        if first is None:
            continue
        scale = _BACK / max(float(side) for side in first[0].finished)
        picture = fitted(board, partial(_drawn, board, views, *first), scale)
        cuts = [
            spoken_extent(board, (one.cut[0].length, one.cut[1].length)) if one is not None else None for one in own
        ]
        name = part.removeprefix("hanging-")
        inset = spoken(board, board.plan.rules.sleeve_inset)
        text = board.say(f"hanging.{name}", extent=by_size(board, cuts), inset=inset)
        yield board.scene(part, picture, board.say(f"hanging.title.{name}"), text)


Views = Callable[[Board, PlannedSize, PlannedHanging, float], list[Picture]]


def _drawn(board: Board, views: Views, size: PlannedSize, one: PlannedHanging, scale: float) -> Picture:
    return in_sequence(board, views(board, size, one, scale))


def _back(board: Board, size: PlannedSize, scale: float, items: list[Item]) -> Picture:
    """The quilt from behind, with what lies on it."""
    width, height = (float(side) * scale for side in size.finished)
    back = Area(corners(0, 0, width, height), "paper", style="outline")
    text = Label((width / 2, height * 0.72), board.say("hanging.back"), "small")
    return bare(width, height, [back, *items, text])


def _sleeve(board: Board, size: PlannedSize, one: PlannedHanging, scale: float) -> list[Picture]:
    """The hemmed strip, folded, and sewn to the upper edge, short of both sides."""
    long, high = (float(side) * scale for side in one.cut)
    rules = board.plan.rules
    hem, inset = float(rules.sleeve_hem) * scale, float(rules.sleeve_inset) * scale
    strip: list[Item] = [
        Area(corners(0, 0, long, high), "highlight", wrong_side=True, style="outline"),
        *(Line(((x, 0), (x, high)), "fold") for x in (hem / 2, hem, long - hem, long - hem / 2)),
        Line(((0, high / 2), (long, high / 2)), "fold"),
    ]
    hung = long - 2 * hem
    tube: list[Item] = [
        Area(corners(inset, 0, inset + hung, high / 2), "highlight", style="outline"),
        Line(((inset, high / 2), (inset + hung, high / 2)), "stitch"),
        Line(((inset, board.em * 0.3), (inset + hung, board.em * 0.3)), "stitch"),
    ]
    back = padded(_back(board, size, scale, tube), top=board.em * 2.4)
    y = board.em * 1.8
    marks: list[Item] = [
        Line(((0, y), (inset, y)), "dimension"), Line(((0, y - board.em * 0.4), (0, y + board.em * 0.4)), "dimension"),
        Line(((inset, y - board.em * 0.4), (inset, y + board.em * 0.4)), "dimension"),
        Label((0, board.em * 0.7), printed(board, rules.sleeve_inset), "small", "start"),
    ]
    return [bare(long, high, strip), back.with_items(marks)]


def _corners(board: Board, size: PlannedSize, one: PlannedHanging, scale: float) -> list[Picture]:
    """A square folded on its diagonal; the triangles in the upper corners."""
    side, width = float(one.cut[0]) * scale, float(size.finished[0]) * scale
    large = max(side, 5 * board.em)
    square: list[Item] = [
        Area(corners(0, 0, large, large), "highlight", wrong_side=True, style="outline"),
        Line(((large, 0), (0, large)), "fold"),
    ]
    folded: list[Item] = [Area(((0, 0), (large, 0), (0, large)), "highlight", style="outline")]
    placed: list[Item] = [
        Area(((0, 0), (side, 0), (0, side)), "highlight", style="outline"),
        Area(((width - side, 0), (width, 0), (width, side)), "highlight", style="outline"),
    ]
    return [bare(large, large, square), bare(large, large, folded), _back(board, size, scale, placed)]


def _label(board: Board, size: PlannedSize, one: PlannedHanging, scale: float) -> list[Picture]:
    """The label with its edges turned under, in a lower corner of the back."""
    rules = board.plan.rules
    wide, high = ((float(side) - 2 * float(rules.seam)) * scale for side in one.cut)
    width, height = (float(side) * scale for side in size.finished)
    air = max(width, height) * _AIR / 2
    x, y = width - air - wide, height - air - high
    grown = max(8 * board.em / wide, 1.0)
    edge = float(rules.seam) * scale * grown
    flat: list[Item] = [
        Area(corners(0, 0, wide * grown + 2 * edge, high * grown + 2 * edge), "highlight", style="outline"),
    ]
    rim = corners(edge, edge, edge + wide * grown, edge + high * grown)
    flat.append(Line((*rim, rim[0]), "fold"))
    placed: list[Item] = [Area(corners(x, y, x + wide, y + high), "highlight", style="outline")]
    return [bare(wide * grown + 2 * edge, high * grown + 2 * edge, flat), _back(board, size, scale, placed)]


VIEWS: Mapping[str, Views] = {"hanging-sleeve": _sleeve, "hanging-corners": _corners, "hanging-label": _label}
"""How each part is drawn, in the order of the steps."""
