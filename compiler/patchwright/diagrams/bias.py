"""Binding on the bias: how its cloth is cut into strips, and how one square becomes a tube that is cut in a spiral.

In: the bindings of the shown sizes; each way of cutting is drawn once, as the first size that has it is cut.
Out: scenes `binding-cut-WAY`.
Never: a strip that the plan does not count; those too short are waste.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import sqrt

from patchwright.diagrams.arrows import in_sequence
from patchwright.diagrams.board import Board
from patchwright.diagrams.cloth import scaled
from patchwright.diagrams.dimensions import with_extent
from patchwright.diagrams.fitting import fitted
from patchwright.diagrams.phrases import distinct, printed, spoken, spoken_extent
from patchwright.diagrams.picture import Picture, bare, corners, moved_items
from patchwright.diagrams.scene import XY, Area, Item, Label, Line, Scene
from patchwright.planning.plan import PlannedBinding

_CLOTH, _SQUARE = 4.2, 1.25
"""Width of a rectangle of cloth, and side of the square of a tube, on the page in inches."""
_ROOT = sqrt(2)


def bias_scenes(board: Board) -> Iterator[Scene]:
    """One drawing for each way of cutting on the bias that a shown size has."""
    first = {
        binding.way: binding for binding in reversed(distinct(board.size(i).binding for i in board.shown))
        if binding.way != "straight"
    }
    for way, binding in sorted(first.items()):
        yield _tube(board, binding) if way == "continuous" else _strips(board, binding)


def _strips(board: Board, binding: PlannedBinding) -> Scene:
    """A rectangle of cloth with its cuts at 45 degrees; what gives no strip is waste."""
    if binding.cloth is None or binding.least is None:
        raise ValueError("a binding on the bias has its cloth")
    width, height = (float(side) for side in binding.cloth)
    texts = [printed(board, side) for side in binding.cloth]

    def draw(scale: float) -> Picture:
        items: list[Item] = [Area(scaled(corners(0, 0, width, height), scale), "waste", style="outline")]
        step = float(binding.strip.length) * _ROOT
        lows = list(_lows(binding, width, height))
        items += [Area(scaled(tuple(_outline(low, low + step, width, height)), scale), "highlight") for low in lows]
        for at in sorted({round(bound, 6) for low in lows for bound in (low, low + step)}):
            items.append(Line(scaled(_chord(at, width, height), scale), "cut"))
        edge = scaled(corners(0, 0, width, height), scale)
        items.append(Line((*edge, edge[0]), "outline"))
        return with_extent(bare(width * scale, height * scale, items), texts[0], texts[1], board)

    picture = fitted(board, draw, _CLOTH / max(width, 2 * height))
    description = board.say(
        "bias.strips", extent=spoken_extent(board, binding.cloth), width=spoken(board, binding.strip.length),
        count=binding.strips // binding.cloths, cloths=binding.cloths,
    )
    return board.scene(f"binding-cut-{binding.way}", picture, board.say(f"bias.title.{binding.way}"), description)


def _lows(binding: PlannedBinding, width: float, height: float) -> Iterator[float]:
    """Where the strips that are long enough begin, each at a line x + y."""
    strip = float(binding.strip.length)
    step, first, least = strip * _ROOT, min(width, height), float(binding.least or binding.strip.length)
    lows = [first - step * number for number in range(1, int(first / step) + 1)]
    lows += [first + step * number for number in range(int((max(width, height) + 1e-9) / step))]
    for low in lows:
        (a, b), (d, c) = _chord(low, width, height), _chord(low + step, width, height)
        short = min(_long(a, b), _long(d, c))
        tapers = abs(abs(_long(a, b) - _long(d, c)) - 2 * strip) < strip / 1000
        if short + (strip if tapers else 0) >= least - 1e-9:
            yield low


def _chord(total: float, width: float, height: float) -> tuple[XY, XY]:
    """Where the line x + y = total enters and leaves the cloth, from lower left to upper right."""
    left, right = max(0.0, total - height), min(width, total)
    return (left, total - left), (right, total - right)


def _long(start: XY, end: XY) -> float:
    return (end[0] - start[0]) * _ROOT


def _outline(low: float, high: float, width: float, height: float) -> Iterator[XY]:
    """The band between two lines, with the cloth's corner where it turns one."""
    (a, b), (d, c) = _chord(low, width, height), _chord(high, width, height)
    yield from (a, b)
    if low < width < high:
        yield (width, 0.0)
    yield from (c, d)
    if low < height < high:
        yield (0.0, height)


def _tube(board: Board, binding: PlannedBinding) -> Scene:
    """Four views: the square cut on its diagonal, sewn to a slanted shape and marked, sewn to a tube, cut."""
    if binding.cloth is None:
        raise ValueError("a binding on the bias has its cloth")
    picture = fitted(board, lambda side: in_sequence(board, _views(board, binding, side)), _SQUARE)
    description = board.say(
        "bias.continuous", side=spoken(board, binding.cloth[0]), width=spoken(board, binding.strip.length),
        count=binding.lines,
    )
    return board.scene("binding-cut-continuous", picture, board.say("bias.title.continuous"), description)


def _views(board: Board, binding: PlannedBinding, side: float) -> list[Picture]:
    whole = float(binding.cloth[0]) if binding.cloth is not None else 1.0
    step = float(binding.strip.length) * _ROOT / whole * side
    square: list[Item] = [
        Area(corners(0, 0, side, side), "highlight", style="outline"),
        Line(((side, 0), (0, side)), "cut"),
        Label((side * 0.3, side * 0.3), "1", "small"), Label((side * 0.7, side * 0.7), "2", "small"),
    ]
    return [bare(side, side, square), _slanted(board, side, step, binding.lines), _cut_tube(side, step)]


def _slanted(board: Board, side: float, step: float, lines: int) -> Picture:
    """The two triangles sewn along a straight edge, with the lines that are marked, and which ends meet."""
    items: list[Item] = [
        Area(((0, side), (side, 0), (2 * side, 0), (side, side)), "highlight", wrong_side=True, style="outline"),
        Line(((side, 0), (side, side)), "stitch"),
    ]
    gap = board.em * 0.9
    for number in range(1, lines + 1):
        x = number * step
        items.append(Line(((x + side, 0), (x, side)), "mark" if number < lines else "cut"))
        if number in (1, 2):
            items.append(Label((x + side, -gap), str(number), "small"))
            items.append(Label((x - step, side + gap), str(number), "small"))
    return bare(2 * side, side + 4 * gap, moved_items(items, 0, 2 * gap))


def _cut_tube(side: float, step: float) -> Picture:
    """The tube laid flat: its lines run on around it, one strip further with every round."""
    high, wide = side * 0.7, side * 1.3
    slant = step / 2
    items: list[Item] = [
        Area(((0, 0), (wide, 0), (wide + slant, high), (slant, high)), "highlight", style="outline"),
        Line(((wide * 0.2, 0), (wide * 0.2 + high * 0.9, high)), "stitch"),
    ]
    x = step
    while x < wide - step / 4:
        items.append(Line(((x, 0), (x + slant, high)), "cut" if x == step else "mark", "end" if x == step else "none"))
        x += step
    return bare(wide + slant, high, items)
