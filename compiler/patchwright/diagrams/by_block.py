"""Quilts that are made block by block: the layers of a block, the seams between blocks, and what becomes of them.

In: the layers of the first block of the shown sizes.
Out: scenes `by-block-layers`, and `by-block-seam` with `by-block-clips` for a rag quilt, `by-block-closed` for others.
Never: a scene for a top that is sewn whole.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial

from patchwright.diagrams.arrows import in_sequence
from patchwright.diagrams.board import Board
from patchwright.diagrams.fitting import fitted
from patchwright.diagrams.phrases import spoken, spoken_extent
from patchwright.diagrams.picture import Picture, bare, corners, moved_items, padded
from patchwright.diagrams.scene import Area, Item, Label, Line, LineStyle, Scene
from patchwright.planning.plan import LayeredBlocks, PlannedByBlock

_SIDE = 1.1
"""The longer side of the largest layer on the page, in inches."""
_SEAM = 0.14
"""Allowance of a seam that is drawn from the side or from above, in inches."""
_LAYER = 0.09
"""Thickness of a layer in a cut through a seam."""


def by_block_scenes(board: Board) -> Iterator[Scene]:
    """The layers, then the seams."""
    made = next((one for index in board.shown if (one := board.size(index).by_block) is not None), None)
    if made is None:
        return
    block = made.blocks[0]
    extents = {name: spoken_extent(board, pair) for name, pair in (
        ("front", block.front), ("batting", block.batting), ("back", block.back))}
    seam = spoken(board, board.plan.rules.seam)
    text = board.say("by-block.layers", **extents)
    yield _scene(board, "layers", partial(_layers, board, made, block), _SIDE, text)
    if made.way == "rag":
        yield _scene(board, "seam", partial(_rag_seam, board), 1.0, board.say("by-block.seam", seam=seam))
        yield _scene(board, "clips", partial(_clips, board), 1.0, board.say("by-block.clips"))
        return
    yield _scene(board, "closed", partial(_closed, board), 1.0, board.say("by-block.closed", seam=seam))


def _scene(board: Board, name: str, draw: Callable[[float], Picture], scale: float, text: str) -> Scene:
    return board.scene(f"by-block-{name}", fitted(board, draw, scale), board.say(f"by-block.title.{name}"), text)


def _layers(board: Board, made: PlannedByBlock, block: LayeredBlocks, side: float) -> Picture:
    """Back, batting and front one after the other, and all three laid on each other."""
    scale = side / max(float(side) for side in (*block.back, *block.front))
    back, batting, front = (tuple(float(side) * scale for side in pair)
                            for pair in (block.back, block.batting, block.front))
    letter = next(fabric.letter for fabric in board.plan.fabrics if fabric.id == made.fabric)
    sheets: list[Picture] = []
    for name, size in (("back", back), ("batting", batting), ("front", front)):
        sheets.append(_named(board, size, _sheet(name, size, letter), name))
    laid: list[Item] = []
    for name, size in (("back", back), ("batting", batting), ("front", front)):
        x, y = (back[0] - size[0]) / 2, (back[1] - size[1]) / 2
        if name == "front" and made.way == "rag":
            laid.append(Line((*(rim := corners(x, y, x + size[0], y + size[1])), rim[0]), "outline"))
        else:
            laid += _sheet(name, size, letter, x, y)
    return in_sequence(board, [*sheets, _named(board, back, laid, "laid")])


def _sheet(name: str, size: tuple[float, ...], letter: str, x: float = 0.0, y: float = 0.0) -> list[Item]:
    rim = corners(x, y, x + size[0], y + size[1])
    if name == "back":
        return [Area(rim, "fabric", letter, wrong_side=True, style="outline")]
    return [Area(rim, "waste" if name == "batting" else "paper", style="outline")]


def _named(board: Board, size: tuple[float, ...], items: list[Item], name: str) -> Picture:
    text = board.say(f"by-block.{name}-name")
    wide = max(size[0], board.type.text_width(text, "small"))
    label = Label((size[0] / 2, size[1] + board.em), text, "small")
    picture = bare(size[0], size[1] + 1.6 * board.em, [*items, label])
    return padded(picture, left=(wide - size[0]) / 2, right=(wide - size[0]) / 2)


def _rag_seam(board: Board, grown: float) -> Picture:
    """A cut through a seam: two blocks of three layers, whose allowances stand up on the front."""
    long, high, layer = _SIDE * 0.9 * grown, 3.2 * _SEAM * grown, _LAYER * grown
    items: list[Item] = []
    base = high + layer * 0.5
    kinds: tuple[tuple[str, float], ...] = (("front", 0.0), ("batting", layer), ("back", 2 * layer))
    for side in (-1, 1):
        for name, down in kinds:
            inner = layer * (2.4 - down / layer) * side
            far = long * side
            y = base + down
            if name == "batting":
                near = layer * 3.4 * side
                items.append(Area(corners(min(near, far), y, max(near, far), y + layer), "waste", style="seam"))
                continue
            style: LineStyle = "outline"
            items.append(Line(((far, y + layer / 2), (inner, y + layer / 2), (inner, 0)), style))
    items.append(Line(((-layer * 3.2, base - layer * 0.9), (layer * 3.2, base - layer * 0.9)), "stitch"))
    items.append(Label((long * 0.62, base - board.em * 0.8), board.say("by-block.front-name"), "small"))
    items.append(Label((long * 0.62, base + layer * 3 + board.em * 0.8), board.say("by-block.back-name"), "small"))
    return padded(bare(2 * long, base + layer * 3 + board.em * 1.4, moved_items(items, long, 0)), left=0.02, right=0.02)


def _clips(board: Board, grown: float) -> Picture:
    """Four blocks from above: clips across every allowance that stands out, and around the edge."""
    side, seam = _SIDE * 0.7 * grown, _SEAM * grown
    whole = 2 * side + 2 * seam
    items: list[Item] = [Area(corners(0, 0, whole, whole), "paper", style="outline")]
    middle = seam + side
    for at in (seam, middle, whole - seam):
        items.append(Line(((at, seam), (at, whole - seam)), "stitch"))
        items.append(Line(((seam, at), (whole - seam, at)), "stitch"))
    steps = 14
    for number in range(1, steps):
        along = whole * number / steps
        for near, far in ((0.0, seam * 0.75), (whole - seam * 0.75, whole), (middle - seam * 0.75, middle - seam * 0.2),
                          (middle + seam * 0.2, middle + seam * 0.75)):
            items.append(Line(((along, near), (along, far)), "cut"))
            items.append(Line(((near, along), (far, along)), "cut"))
    return bare(whole, whole, items)


def _closed(board: Board, grown: float) -> Picture:
    """A cut through a seam: fronts sewn, battings edge to edge, one back flat and the other folded over it."""
    long, layer, seam = _SIDE * grown, _LAYER * grown, _SEAM * 1.6 * grown
    top = layer * 2.5
    items: list[Item] = []
    for side in (-1, 1):
        far = long * side
        sewn = top - layer
        items.append(Line(((far, sewn), (0, sewn), (0, sewn + layer / 2), (seam * side, sewn + layer / 2)), "outline"))
        items.append(Area(corners(min(0.0, far), top, max(0.0, far), top + layer * 1.3), "waste", style="seam"))
    low = top + layer * 2
    items.append(Line(((-long, low), (seam, low)), "outline"))
    under, turned = low + layer * 0.7, low + layer * 0.35
    items.append(Line(((long, under), (0, under), (0, turned), (seam, turned)), "outline"))
    items.append(Line(((0, low + layer * 1.3), (0, low - layer * 0.4)), "stitch"))
    items.append(Label((-long * 0.6, top - layer - board.em * 0.8), board.say("by-block.front-name"), "small"))
    items.append(Label((-long * 0.6, low + board.em), board.say("by-block.back-name"), "small"))
    return padded(bare(2 * long, low + board.em * 1.8, moved_items(items, long, 0)), top=board.em * 1.4)
