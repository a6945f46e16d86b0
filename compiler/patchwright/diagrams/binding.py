"""The binding: how strips are joined, how the strip is folded, how a corner is folded, and how it lies over the edge.

In: the house's join and the fabric and strip width of the binding.
Out: scenes `binding-join`, `binding-fold` and `binding-fold-single`, `binding-corner`, `binding-close`, `binding-turn`,
and those of `bias`.
Never: a true length along the quilt; only widths are in proportion.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial

from patchwright.diagrams.arrows import in_sequence
from patchwright.diagrams.bias import bias_scenes
from patchwright.diagrams.board import Board
from patchwright.diagrams.fitting import fitted
from patchwright.diagrams.phrases import by_size, distinct, each, spoken
from patchwright.diagrams.picture import Picture, bare, corners, moved_items, padded
from patchwright.diagrams.scene import XY, Area, Item, Label, Line, LineStyle, Scene
from patchwright.planning.plan import PlannedBinding

_STRIP = 0.4
"""Width of a strip on the page, in inches."""


@dataclass(frozen=True, slots=True)
class _Strip:
    """The binding strip on the page."""

    wide: float
    seam: float
    single: bool

    @property
    def folded(self) -> float:
        """Its width as it is sewn on."""
        return self.wide - self.seam if self.single else self.wide / 2

    def cloth(self, outline: tuple[XY, ...], wrong_side: bool = False) -> Area:
        """The strip in plain tones, so that its lines show whatever its fabric is."""
        return Area(outline, "paper" if wrong_side else "highlight", style="outline")


def binding_scenes(board: Board) -> Iterator[Scene]:
    """All drawings of the binding, or none where no shown size has one."""
    bindings = [board.size(index).binding for index in board.shown]
    if not distinct(bindings):
        return
    width = by_size(board, each(bindings, lambda binding: spoken(board, binding.strip.length)))
    yield from bias_scenes(board)
    join = board.plan.rules.binding_join
    joined = _diagonal_join if join == "diagonal" else _straight_join
    sewn = [binding for binding in distinct(bindings) if binding.joins]
    if any(binding.way == "straight" for binding in sewn):
        yield _scene(board, "join", joined, board.say(f"binding.join.{join}", width=width))
    if any(binding.way != "straight" for binding in sewn):
        yield _scene(board, "join-bias", _bias_join, board.say("binding.join.bias", width=width))
    yield from _folds(board, bindings, width)
    yield _scene(board, "corner", partial(_corner, board), board.say("binding.corner", width=width))
    yield _scene(board, "close", partial(_closed, board, join), board.say(f"binding.close.{join}", width=width))
    yield _scene(board, "turn", partial(_turned, board), board.say("binding.turn"))


def _folds(board: Board, bindings: Sequence[PlannedBinding | None], width: str) -> Iterator[Scene]:
    """The strip folded double, or with one edge pressed under: each that a shown size has."""
    seam = board.plan.rules.seam
    for fold in distinct(each(bindings, lambda binding: binding.fold)):
        half = by_size(board, each(bindings, lambda binding: spoken(board, binding.strip.length / 2)))
        text = board.say(f"binding.fold-{fold}", width=width, folded=half, seam=spoken(board, seam))
        name = "fold" if fold == "double" else "fold-single"
        yield _scene(board, name, _folded, text, single=fold == "single")


def _scene(
    board: Board, what: str, views: Callable[[_Strip], list[Picture]], description: str, single: bool | None = None
) -> Scene:
    first = distinct(board.size(index).binding for index in board.shown)[0]
    seam = float(board.plan.rules.seam) / float(first.strip)
    once = first.fold == "single" if single is None else single

    def draw(wide: float) -> Picture:
        return in_sequence(board, views(_Strip(wide, seam * wide, once)))

    picture = fitted(board, draw, _STRIP)
    return board.scene(f"binding-{what}", picture, board.say(f"binding.title.{what}"), description)


def _diagonal_join(strip: _Strip) -> list[Picture]:
    """Two strips at a right angle, right sides together, sewn from corner to corner; then opened."""
    wide, tail = strip.wide, strip.wide * 1.7
    under = strip.cloth(corners(0, 0, tail + wide, wide))
    over = strip.cloth(corners(tail, 0, tail + wide, wide + tail), wrong_side=True)
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


def _bias_join(strip: _Strip) -> list[Picture]:
    """Two strips with ends at 45 degrees, right sides together, their points sticking out; then opened."""
    wide, tail = strip.wide, strip.wide * 1.7
    past = strip.seam * 2**0.5
    sewn: list[Item] = [
        strip.cloth(((0, 0), (tail + past, 0), (tail + past + wide, wide), (0, wide))),
        strip.cloth(((tail, -past), (tail + wide, wide - past), (tail + wide, wide + tail), (tail, wide + tail)), True),
        Line(((tail, 0), (tail + wide, wide)), "stitch"),
    ]
    opened = _diagonal_join(strip)[1]
    return [bare(tail + wide + past, wide + tail + past, moved_items(sewn, 0, past)), opened]


def _straight_join(strip: _Strip) -> list[Picture]:
    """Two strips right sides together, sewn across the end; then opened."""
    wide, long, step = strip.wide, strip.wide * 2.6, strip.wide / 10
    sewn: list[Item] = [
        strip.cloth(corners(step, step, long + step, wide + step)),
        strip.cloth(corners(0, 0, long, wide), wrong_side=True),
        Line(((long - strip.seam, 0), (long - strip.seam, wide)), "stitch"),
    ]
    half = long * 0.65
    opened: list[Item] = [
        strip.cloth(corners(0, 0, half, wide)),
        strip.cloth(corners(half, 0, 2 * half, wide)),
    ]
    return [bare(long + step, wide + step, sewn), bare(2 * half, wide, opened)]


def _folded(strip: _Strip) -> list[Picture]:
    """The strip with its wrong side up and its fold; then folded, in half right side out or one edge under."""
    long = strip.wide * 3
    if strip.single:
        return _pressed_under(strip, long)
    fold = Line(((0, strip.folded), (long, strip.folded)), "fold")
    flat: list[Item] = [strip.cloth(corners(0, 0, long, strip.wide), wrong_side=True), fold]
    return [
        bare(long, strip.wide, flat),
        bare(long, strip.folded, [strip.cloth(corners(0, 0, long, strip.folded))]),
    ]


def _pressed_under(strip: _Strip, long: float) -> list[Picture]:
    """One long edge pressed to the wrong side by a seam's width."""
    at = strip.wide - strip.seam
    flat: list[Item] = [
        strip.cloth(corners(0, 0, long, strip.wide), wrong_side=True), Line(((0, at), (long, at)), "fold"),
    ]
    under: list[Item] = [
        strip.cloth(corners(0, 0, long, at), wrong_side=True),
        strip.cloth(corners(0, at - strip.seam, long, at)),
    ]
    return [bare(long, strip.wide, flat), bare(long, at, under)]


def _closed(board: Board, join: str, strip: _Strip) -> list[Picture]:
    """The two tails cut so that they overlap by what their join takes; then opened and joined as all others."""
    long, high, gap = strip.wide * 5, strip.wide * 1.3, strip.wide * 3
    lap = strip.wide if join == "diagonal" else strip.seam * 2
    left, right = (long - gap) / 2, (long + gap) / 2
    middle = long / 2
    folded, seam = strip.folded, strip.seam
    lapped: list[Item] = [
        Area(corners(0, 0, long, high), "paper", style="outline"),
        strip.cloth(corners(middle - lap / 2, 0, long, folded)),
        strip.cloth(corners(0, 0, middle + lap / 2, folded)),
        Line(((0, seam), (left, seam)), "stitch"),
        Line(((right, seam), (long, seam)), "stitch"),
        Line(((middle - lap / 2, 0), (middle - lap / 2, folded)), "fold"),
        Label((long / 2, high * 0.8), board.say("binding.quilt"), "small"),
    ]
    first = bare(long, high, lapped)
    first_lap = board.say("binding.lap")
    marked = padded(first, top=board.em * 2.6)
    y = board.em * 1.9
    marked = marked.with_items([
        Line(((middle - lap / 2, y), (middle + lap / 2, y)), "dimension", "both"),
        Label((middle, board.em * 0.7), first_lap, "small"),
    ])
    joined = _diagonal_join(strip)[0] if join == "diagonal" else _straight_join(strip)[0]
    return [marked, joined]


def _corner(board: Board, strip: _Strip) -> list[Picture]:
    """The folded strip sewn up to the corner, folded up, folded down; the quilt's corner is the upper right one."""
    side, wide, seam, tail = strip.wide * 2.3, strip.folded, strip.seam, strip.wide * 0.9
    quilt = Area(corners(0, 0, side, side), "paper", style="outline")
    along: tuple[XY, ...] = ((0, 0), (side, 0), (side - wide, wide), (0, wide))
    stitched = Line(((0, seam), (side - seam, seam)), "stitch")
    laid: list[Item] = [quilt, strip.cloth(corners(0, 0, side + tail / 2, wide)), stitched]
    up = strip.cloth(((side - wide, -tail), (side, -tail), (side, 0), (side - wide, wide)))
    turned_up: list[Item] = [quilt, strip.cloth(along), up, stitched]
    down = strip.cloth(corners(side - wide, 0, side, side))
    pleat = Line(((side, 0), (side - wide, wide)), "fold")
    next_seam = Line(((side - seam, 0), (side - seam, side)), "stitch")
    turned_down: list[Item] = [quilt, strip.cloth(along), stitched, down, pleat, next_seam]
    return [_over(board, side, tail, items) for items in (laid, turned_up, turned_down)]


def _over(board: Board, side: float, tail: float, items: Sequence[Item]) -> Picture:
    """A view of the corner with room above it for the strip, the quilt named."""
    text = board.say("binding.quilt")
    items = [*items, Label((side * 0.4, side * 0.72), text, "small")]
    return bare(side + tail / 2, side + tail, moved_items(items, 0, tail))


def _turned(board: Board, strip: _Strip) -> list[Picture]:
    """A cut through the edge: the quilt's three layers and the strip folded double around them."""
    long, layer, seam = strip.wide * 3.9, strip.wide * 0.21, strip.seam * 2.8
    names = ("top", "batting", "backing")
    items: list[Item] = []
    for number, _ in enumerate(names):
        y = layer * 3 + number * layer
        tone: LineStyle = "seam"
        items.append(Area(corners(0, y, long, y + layer), "waste" if number == 1 else "paper", style=tone))
    items.append(strip.cloth(_wrapped(long, layer, seam)))
    items.append(Line(((long - seam, layer * 1.4), (long - seam, layer * 6.6)), "stitch"))
    texts = [board.say(f"binding.layer.{name}") for name in names]
    places = [(-board.em, layer * (2.5 + 1.9 * number)) for number in range(len(names))]
    labels = [Label(place, text, "small", "end") for place, text in zip(places, texts, strict=True)]
    room = max(board.type.text_width(text, "small") for text in texts) + 2 * board.em
    leaders = [
        Line(((-board.em * 0.7, place[1]), (0, layer * (3.5 + number))), "dimension")
        for number, place in enumerate(places)
    ]
    picture = bare(long + layer * 4, layer * 9, [*items, *labels, *leaders])
    return [padded(picture, left=room)]


def _wrapped(long: float, layer: float, seam: float) -> tuple[XY, ...]:
    """The strip's double layer, from its raw edges on the front around the edge to its fold on the back."""
    paths: list[tuple[XY, ...]] = []
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
    return (*outer, *reversed(inside))
