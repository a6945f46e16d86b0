"""The order of one border: two sides first, then top and bottom, each measured through the middle of the quilt.

In: one size of the plan and one of its borders.
Out: the scene `border-N-SIZE`.
Never: a length that is not the plan's cut length of the border's pieces.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from patchwright.core.length import Length
from patchwright.diagrams.arrows import in_sequence
from patchwright.diagrams.board import Board
from patchwright.diagrams.cloth import scaled
from patchwright.diagrams.dimensions import with_height, with_width
from patchwright.diagrams.fitting import fitted
from patchwright.diagrams.phrases import dimension, fabric_names, listed, spoken, spoken_extent
from patchwright.diagrams.picture import Body, Picture, above, bare, corners, moved_items, padded
from patchwright.diagrams.scene import Area, Item, Label, Line, Scene
from patchwright.planning.plan import PlannedBorder, PlannedSize, TopItem

WIDEST = 1.65
"""The width of the quilt in each of the two views, in inches on the page."""
HIGHEST = 1.9


@dataclass(frozen=True, slots=True)
class _Frame:
    """A rectangle on the page, in inches."""

    left: float
    top: float
    right: float
    bottom: float


def border_way(border: PlannedBorder, number: int) -> tuple[object, ...]:
    """What makes two sizes sew a border alike, so that one drawing serves both."""
    own = border.fabric, border.side_piece, border.end_piece, border.corner_kind, border.corner
    return number, border.kind, border.joined, border.sides, border.ends, *own


def border_scene(board: Board, index: int, number: int) -> Scene:
    """Border `number`, counted from 1 at the center."""
    size = board.size(index)
    border = size.borders[number - 1]
    scale = min(WIDEST / float(size.finished[0]), HIGHEST / float(size.finished[1]))

    steps = _steps(border)

    def draw(scale: float) -> Picture:
        return in_sequence(board, [_view(board, index, number, scale, ends) for ends in steps])

    def stacked(scale: float) -> Picture:
        return above([_view(board, index, number, scale, ends) for ends in steps], 2 * board.em, middle=True)

    picture = fitted(board, draw, scale)
    if picture.width > board.room.width - 2 * board.bleed:
        # Large type beside both views takes more room than there is, however small they are.
        picture = fitted(board, stacked, scale)
    served = _served(board, index, number)
    sizes = listed(board, [board.size(one).label for one in served])
    title = board.say(f"{board.around(index)}.title", number=number, size=sizes)
    return board.scene(f"{border.id}-{size.name}", picture, title, _description(board, served, number))


def _steps(border: PlannedBorder) -> list[bool]:
    """What is sewn on, in order: the sides, and the ends."""
    return [ends for ends, is_there in ((False, border.sides), (True, border.ends)) if is_there]


def _served(board: Board, index: int, number: int) -> tuple[int, ...]:
    """The size and those after it that sew the border alike; sizes without it in between are passed over."""
    way = border_way(board.size(index).borders[number - 1], number)
    served = []
    for other in board.shown[board.shown.index(index) :]:
        borders = board.size(other).borders
        if len(borders) >= number:
            if border_way(borders[number - 1], number) != way:
                break
            served.append(other)
    return tuple(served)


def _view(board: Board, index: int, number: int, scale: float, ends: bool) -> Picture:
    """Sides pulled away from the quilt so far, or top and bottom pulled away from the quilt with its sides."""
    size = board.size(index)
    border = size.borders[number - 1]
    outer = _frame(size, size.borders[number:])
    inner = _frame(size, size.borders[number - 1 :])
    gap = 1.6 * board.em / scale
    items: list[Item] = list(_quilt_so_far(board, index, number, scale))
    for item in size.items:
        if item.part != border.id:
            continue
        end = _is_end(item, inner)
        if end and not ends:
            continue
        dx = 0.0 if ends else gap * _away(float(item.x), float(item.width), inner.left, inner.right)
        dy = gap * _away(float(item.y), float(item.height), inner.top, inner.bottom) if ends and end else 0.0
        items.extend(_cloth(board, index, item, scale, dx, dy))
    before = sum(len(_steps(one)) for one in size.borders[: number - 1])
    numbered = before + 1 + _steps(border).index(ends)
    cornered = border.corner_kind != "none"
    items.extend(_middle(board, outer if ends and not cornered else inner, inner, scale, ends))
    shift_x, shift_y = (0.0, gap) if ends else (gap, 0.0)
    frame = outer if ends else _Frame(outer.left, inner.top, outer.right, inner.bottom)
    body = Body(
        (frame.left - shift_x) * scale,
        (frame.top - shift_y) * scale,
        (frame.right - frame.left + 2 * shift_x) * scale,
        (frame.bottom - frame.top + 2 * shift_y) * scale,
    )
    picture = _brought_to_origin(items, body)
    if ends and cornered:
        strip = Body((inner.left - outer.left) * scale, 0, (inner.right - inner.left) * scale, body.height)
        picture = replace(picture, body=strip)
    piece = border.end_piece if ends else border.side_piece
    picture = _numbers(board, picture, numbered, piece, ends)
    length = _dimension(board, _served(board, index, number), number, ends)
    return with_width(picture, length, board) if ends else with_height(picture, length, board)


def _dimension(board: Board, served: Sequence[int], number: int, ends: bool) -> str:
    """The cut length of the strips, or what the rows of a pieced border measure when they are sewn."""
    borders = [board.size(one).borders[number - 1] for one in served]
    if borders[0].kind == "pieced":
        return dimension(board, "unfinished", [border.before[0 if ends else 1].length for border in borders])
    pieces = [border.end_piece if ends else border.side_piece for border in borders]
    return dimension(board, "cut", [cut_length(board, one, piece) for one, piece in zip(served, pieces, strict=True)])


def _brought_to_origin(items: Sequence[Item], body: Body) -> Picture:
    """Items as a picture that begins at the upper left corner of its body."""
    return bare(body.width, body.height, moved_items(items, -body.x, -body.y))


def _quilt_so_far(board: Board, index: int, number: int, scale: float) -> Iterator[Item]:
    """The center as plain paper and the earlier borders as cloth."""
    size = board.size(index)
    center = _frame(size, size.borders)
    outline = corners(center.left, center.top, center.right, center.bottom)
    yield Area(scaled(outline, scale), "paper", style="outline")
    earlier = {border.id for border in size.borders[: number - 1]}
    for item in size.items:
        if item.part in earlier:
            yield from _cloth(board, index, item, scale, 0, 0)


def _cloth(board: Board, index: int, item: TopItem, scale: float, dx: float, dy: float) -> Iterator[Item]:
    """A part of a border."""
    x, y = float(item.x) + dx, float(item.y) + dy
    for patch in board.book.item(item, index).patches:
        yield Area(scaled([(px + x, py + y) for px, py in patch.outline], scale), "fabric", patch.letter)


def _middle(board: Board, reach: _Frame, inner: _Frame, scale: float, level: bool) -> Iterator[Item]:
    """The tape through the middle along which the quilt is measured, from edge to edge of what is there."""
    x, y = (inner.left + inner.right) / 2 * scale, (inner.top + inner.bottom) / 2 * scale
    half = 0.35 * board.em
    if level:
        left, right = reach.left * scale, reach.right * scale
        yield Area(corners(left, y - half, right, y + half), "paper", style="dimension")
        yield Line(((left, y), (right, y)), "dimension", "both")
    else:
        top, bottom = reach.top * scale, reach.bottom * scale
        yield Area(corners(x - half, top, x + half, bottom), "paper", style="dimension")
        yield Line(((x, top), (x, bottom)), "dimension", "both")
    text = board.say("border.measure")
    room = (inner.right - inner.left if level else inner.bottom - inner.top) * scale
    if board.type.text_width(text, "small") + 2 * board.em < room:
        yield Label((x, y), text, "small", turned=not level, over="cloth")


def _numbers(board: Board, picture: Picture, number: int, piece: str, ends: bool) -> Picture:
    """The step's number with the piece beside both strips."""
    text = board.say("border.step", number=number, piece=piece) if piece else board.say("border.row", number=number)
    high, wide = 2.2 * board.em, board.type.text_width(text, bold=True) + board.em
    if ends:
        grown = padded(picture, top=high, bottom=high)
        x = grown.body.center[0]
        places = [(x, high * 0.45), (x, grown.height - high * 0.45)]
    else:
        grown = padded(picture, left=wide, right=wide)
        y = grown.body.center[1]
        places = [(wide * 0.45, y), (grown.width - wide * 0.45, y)]
    return grown.with_items([Label(place, text, bold=True) for place in places])


def _is_end(item: TopItem, inner: _Frame) -> bool:
    """Whether a part of a border lies above or below the quilt so far."""
    middle = float(item.y) + float(item.height) / 2
    return not inner.top < middle < inner.bottom


def _away(start: float, extent: float, low: float, high: float) -> int:
    middle = start + extent / 2
    return -1 if middle < low else 1 if middle > high else 0


def _frame(size: PlannedSize, outside: Sequence[PlannedBorder]) -> _Frame:
    """The edge of the quilt without its outermost borders."""
    across, down = sum(float(border.width) for border in outside), sum(float(border.high) for border in outside)
    return _Frame(across, down, float(size.finished[0]) - across, float(size.finished[1]) - down)


def cut_length(board: Board, index: int, piece: str) -> Length | None:
    """The longer side of a border's piece as cut."""
    size = board.piece(piece).sizes[index]
    return max(size.width.length, size.height.length) if size else None


def _description(board: Board, served: Sequence[int], number: int) -> str:
    """The border's width, both lengths and the quilt with it, by size where the sizes differ."""
    sizes = [board.size(index) for index in served]
    borders = [size.borders[number - 1] for size in sizes]
    first = borders[0]
    fabric = fabric_names(board, [board.book.fabric_letter(first.fabric)])
    width = _by_size(board, sizes, [spoken(board, border.wide.length) for border in borders])
    about = "pieced" if first.kind == "pieced" else "about"
    if first.kind == "pieced" and not (first.sides and first.ends):
        about = "pieced-sides" if first.sides else "pieced-ends"
    words = [board.say(f"{board.around(served[0])}.{about}", number=number, width=width, fabric=fabric)]
    for key, piece in (("border.sides", first.side_piece), ("border.ends", first.end_piece)):
        lengths = [cut_length(board, index, piece) for index in served] if piece else []
        said = [spoken(board, length) for length in lengths if length is not None]
        if said and len(said) == len(served):
            words.append(board.say(key, piece=piece, length=_by_size(board, sizes, said)))
    afters = [spoken_extent(board, (border.after[0].length, border.after[1].length)) for border in borders]
    words.append(board.say("border.measures", extent=_by_size(board, sizes, afters)))
    return " ".join(words)


def _by_size(board: Board, sizes: Sequence[PlannedSize], texts: Sequence[str]) -> str:
    """One text where all agree, else each with the names of its sizes."""
    labels: dict[str, list[str]] = {}
    for size, text in zip(sizes, texts, strict=True):
        labels.setdefault(text, []).append(size.label)
    if len(labels) == 1:
        return texts[0]
    return listed(board, [board.say("by-size", value=text, sizes=listed(board, own)) for text, own in labels.items()])
