"""The binding: how strips are joined, how a corner is folded, and how the double fold lies over the quilt's edge.

In: the house's join and the fabric and strip width of the binding.
Out: scenes `binding-join`, `binding-corner`, `binding-fold`.
Never: a true length along the quilt; only widths are in proportion.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from patchwright.diagrams.arrows import in_sequence
from patchwright.diagrams.board import Board
from patchwright.diagrams.phrases import distinct, printed, spoken
from patchwright.diagrams.picture import Picture, bare, moved_items, padded
from patchwright.diagrams.scene import XY, Area, Item, Label, Line, LineStyle, Scene
from patchwright.planning.plan import PlannedBinding

_STRIP = 0.62
"""Width of a strip on the page, in inches."""


@dataclass(frozen=True, slots=True)
class _Strip:
    """The binding strip on the page."""

    wide: float
    seam: float

    @property
    def folded(self) -> float:
        return self.wide / 2

    def cloth(self, outline: tuple[XY, ...], wrong_side: bool = False) -> Area:
        """The strip in plain tones, so that its lines show whatever its fabric is."""
        return Area(outline, "paper" if wrong_side else "highlight", style="outline")


def binding_scenes(board: Board) -> Iterator[Scene]:
    """All drawings of the binding, or none where no shown size has one."""
    binding = _binding(board)
    if binding is None:
        return
    scale = _STRIP / float(binding.strip)
    strip = _Strip(_STRIP, float(board.plan.rules.seam) * scale)
    width = spoken(board, binding.strip.length)
    join = board.plan.rules.binding_join
    views = _diagonal_join(strip) if join == "diagonal" else _straight_join(strip)
    yield _scene(board, "join", views, board.say(f"binding.join.{join}", width=width))
    yield _scene(board, "corner", list(_corner(board, strip)), board.say("binding.corner", width=width))
    folded = printed(board, binding.strip.length / 2)
    yield _scene(board, "fold", [_fold(board, strip)], board.say("binding.fold", width=width, folded=folded))


def _binding(board: Board) -> PlannedBinding | None:
    """The binding of the first shown size that has one; its strip is the same in all."""
    return next(iter(distinct(board.size(index).binding for index in board.shown)), None)


def _scene(board: Board, what: str, views: list[Picture], description: str) -> Scene:
    picture = in_sequence(board, views)
    return board.scene(f"binding-{what}", picture, board.say(f"binding.title.{what}"), description)


def _rectangle(x: float, y: float, right: float, bottom: float) -> tuple[XY, ...]:
    return ((x, y), (right, y), (right, bottom), (x, bottom))


def _diagonal_join(strip: _Strip) -> list[Picture]:
    """Two strips at a right angle, right sides together, sewn from corner to corner; then opened."""
    wide, tail = strip.wide, strip.wide * 1.7
    under = strip.cloth(_rectangle(0, 0, tail + wide, wide))
    over = strip.cloth(_rectangle(tail, 0, tail + wide, wide + tail), wrong_side=True)
    past = strip.seam * 2**0.5
    sewn: list[Item] = [
        under,
        over,
        Line(((tail, 0), (tail + wide, wide)), "stitch"),
        Line(((tail + past, 0), (tail + wide, wide - past)), "cut"),
    ]
    opened: list[Item] = [
        strip.cloth(((0, 0), (tail, 0), (tail + wide, wide), (0, wide))),
        strip.cloth(((tail, 0), (2 * tail, 0), (2 * tail, wide), (tail + wide, wide))),
    ]
    return [bare(tail + wide, wide + tail, sewn), bare(2 * tail, wide, opened)]


def _straight_join(strip: _Strip) -> list[Picture]:
    """Two strips right sides together, sewn across the end; then opened."""
    wide, long, step = strip.wide, strip.wide * 2.6, strip.wide / 10
    sewn: list[Item] = [
        strip.cloth(_rectangle(step, step, long + step, wide + step)),
        strip.cloth(_rectangle(0, 0, long, wide), wrong_side=True),
        Line(((long - strip.seam, 0), (long - strip.seam, wide)), "stitch"),
    ]
    half = long * 0.65
    opened: list[Item] = [
        strip.cloth(_rectangle(0, 0, half, wide)),
        strip.cloth(_rectangle(half, 0, 2 * half, wide)),
    ]
    return [bare(long + step, wide + step, sewn), bare(2 * half, wide, opened)]


def _corner(board: Board, strip: _Strip) -> Iterator[Picture]:
    """The folded strip sewn up to the corner, folded up, folded down; the quilt's corner is the upper right one."""
    side, wide, seam, tail = strip.wide * 2.3, strip.folded, strip.seam, strip.wide * 0.9
    quilt = Area(_rectangle(0, 0, side, side), "paper", style="outline")
    along: tuple[XY, ...] = ((0, 0), (side, 0), (side - wide, wide), (0, wide))
    stitched = Line(((0, seam), (side - seam, seam)), "stitch")
    yield _over(board, side, tail, [quilt, strip.cloth(_rectangle(0, 0, side + tail / 2, wide)), stitched])
    up = strip.cloth(((side - wide, -tail), (side, -tail), (side, 0), (side - wide, wide)))
    yield _over(board, side, tail, [quilt, strip.cloth(along), up, stitched])
    down = strip.cloth(_rectangle(side - wide, 0, side, side))
    pleat = Line(((side, 0), (side - wide, wide)), "fold")
    next_seam = Line(((side - seam, 0), (side - seam, side)), "stitch")
    yield _over(board, side, tail, [quilt, strip.cloth(along), stitched, down, pleat, next_seam])


def _over(board: Board, side: float, tail: float, items: list[Item]) -> Picture:
    """A view of the corner with room above it for the strip, the quilt named."""
    text = board.say("binding.quilt")
    items = [*items, Label((side * 0.4, side * 0.72), text, "small")]
    return bare(side + tail / 2, side + tail, moved_items(items, 0, tail))


def _fold(board: Board, strip: _Strip) -> Picture:
    """A cut through the edge: the quilt's three layers and the strip folded double around them."""
    long, layer, seam = 2.4, 0.13, strip.seam * 2.8
    names = ("top", "batting", "backing")
    items: list[Item] = []
    for number, _ in enumerate(names):
        y = layer * 3 + number * layer
        tone: LineStyle = "seam"
        items.append(Area(_rectangle(0, y, long, y + layer), "waste" if number == 1 else "paper", style=tone))
    items.extend(Line(path, "outline") for path in _wrapped(long, layer, seam))
    items.append(Line(((long - seam, layer * 1.4), (long - seam, layer * 6.6)), "stitch"))
    labels = [
        Label((-board.em, layer * 3.5 + number * layer * 1.9 - layer), board.say(f"binding.layer.{name}"), "small", "end")
        for number, name in enumerate(names)
    ]
    room = max(board.type.text_width(label.text, "small") for label in labels) + 2 * board.em
    leaders = [Line(((-board.em * 0.7, label.at[1]), (0, layer * 3.5 + n * layer)), "dimension") for n, label in enumerate(labels)]
    picture = bare(long + layer * 4, layer * 9, [*items, *labels, *leaders])
    return padded(picture, left=room)


def _wrapped(long: float, layer: float, seam: float) -> list[tuple[XY, ...]]:
    """The two layers of the strip, from the raw edges on the front around the edge to the fold on the back."""
    paths = []
    for out in (0.9, 0.5):
        top, right, bottom = layer * (2.6 - out * 1.6), long + layer * (0.6 + out * 1.4), layer * (6.4 + out * 1.6)
        inner = long - seam - layer * out
        paths.append(
            (
                (long, layer * (2.9 - out * 0.4)),
                (inner, layer * (2.9 - out * 0.4)),
                (inner, top),
                (right, top),
                (right, bottom),
                (long - seam * 1.3, bottom),
            )
        )
    outer, inside = paths
    return [outer, inside, (outer[-1], inside[-1])]
