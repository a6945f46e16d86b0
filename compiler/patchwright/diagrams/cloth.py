"""Flat things drawn: patches at a scale with their letters.

In: a flat thing in the pattern's unit, and inches on the page for one of that unit.
Out: a picture whose body is the thing.
Never: a dimension.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from patchwright.diagrams.board import Board
from patchwright.diagrams.letters import letter
from patchwright.diagrams.patches import ClothPatch, Flat
from patchwright.diagrams.picture import Picture, bare, corners
from patchwright.diagrams.scene import Area, Item, Line, TypeSize


def flat_picture(
    board: Board, flat: Flat, scale: float, letters: bool = True, sizes: Sequence[TypeSize] = ("normal", "small")
) -> Picture:
    """A flat thing with letters where there is room: a plain piece's name, or its fabric's letter."""
    items: list[Item] = [
        Area(scaled(patch.outline, scale), "fabric", patch.letter) for patch in flat.patches
    ]
    if letters:
        items.extend(patch_letters(board, flat.patches, scale, sizes))
    return bare(flat.width * scale, flat.height * scale, items)


def patch_letters(
    board: Board, patches: Sequence[ClothPatch], scale: float, sizes: Sequence[TypeSize] = ("normal", "small")
) -> Iterator[Item]:
    for patch in patches:
        texts = (patch.piece, patch.letter) if patch.piece else (patch.letter,)
        label = letter(scaled(patch.outline, scale), texts, board.type, sizes)
        if label is not None:
            yield label


def framed(picture: Picture) -> Picture:
    """The picture with a firm outline around its body."""
    body = picture.body
    around = corners(body.x, body.y, body.right, body.bottom)
    return picture.with_items([Line((*around, around[0]), "outline")])


def scaled(outline: Sequence[tuple[float, float]], scale: float) -> tuple[tuple[float, float], ...]:
    return tuple((x * scale, y * scale) for x, y in outline)
