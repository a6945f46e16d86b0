"""The order of cuts in which a straight ruler frees every piece of a layout, each cut from edge to edge.

In: rectangles that do not overlap, and the cloth that they lie on.
Out: cuts in order, the whole cloth's first; and the rectangles that are left of the cloth by them.
Never: a cut through a piece; where no straight cut is left, the order ends there.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

_TOUCH = 1e-5


@dataclass(frozen=True, slots=True)
class Rectangle:
    x: float
    y: float
    right: float
    bottom: float


@dataclass(frozen=True, slots=True)
class StraightCut:
    """A cut from (x, y) to (to_x, to_y)."""

    x: float
    y: float
    to_x: float
    to_y: float

    @property
    def level(self) -> bool:
        return self.y == self.to_y


def cuts_in_order(pieces: Sequence[Rectangle], cloth: Rectangle) -> tuple[StraightCut, ...]:
    """The fewer cuts of both ways to begin, across or down; across where they are equal."""
    return tuple(made for made in _shorter_way(pieces, cloth) if isinstance(made, StraightCut))


def left_over(pieces: Sequence[Rectangle], cloth: Rectangle) -> tuple[Rectangle, ...]:
    """What these cuts leave that is no piece."""
    return tuple(made for made in _shorter_way(pieces, cloth) if isinstance(made, Rectangle))


def _shorter_way(pieces: Sequence[Rectangle], cloth: Rectangle) -> tuple[StraightCut | Rectangle, ...]:
    ways = [tuple(_cuts(pieces, cloth, level)) for level in (True, False)]
    return min(ways, key=lambda way: sum(isinstance(made, StraightCut) for made in way))


def _cuts(pieces: Sequence[Rectangle], cloth: Rectangle, level: bool) -> Iterator[StraightCut | Rectangle]:
    """Cut in one direction wherever nothing is cut through, then each part in the other; what is left in between."""
    if not pieces:
        yield cloth
        return
    if len(pieces) == 1 and _same(pieces[0], cloth):
        return
    low, high = (cloth.y, cloth.bottom) if level else (cloth.x, cloth.right)
    places = [place for place in _edges(pieces, level) if _inside(place, low, high)]
    if not places:
        other = _edges(pieces, not level)
        low, high = (cloth.x, cloth.right) if level else (cloth.y, cloth.bottom)
        if any(_inside(place, low, high) for place in other):
            yield from _cuts(pieces, cloth, not level)
        return
    for place in places:
        ends = (cloth.x, place, cloth.right, place) if level else (place, cloth.y, place, cloth.bottom)
        yield StraightCut(*ends)
    for start, end in zip([low, *places], [*places, high], strict=True):
        part = (
            Rectangle(cloth.x, start, cloth.right, end) if level else Rectangle(start, cloth.y, end, cloth.bottom)
        )
        yield from _cuts([piece for piece in pieces if _holds(part, piece)], part, not level)


def _edges(pieces: Sequence[Rectangle], level: bool) -> list[float]:
    """Places of straight lines that pass along pieces' edges and through no piece; equal but for rounding, once."""
    spans = [(piece.y, piece.bottom) if level else (piece.x, piece.right) for piece in pieces]
    places = sorted({round(place, 6) for span in spans for place in span})
    return [place for place in places if not any(low + _TOUCH < place < high - _TOUCH for low, high in spans)]


def _inside(place: float, low: float, high: float) -> bool:
    return low + _TOUCH < place < high - _TOUCH


def _holds(part: Rectangle, piece: Rectangle) -> bool:
    x, y = (piece.x + piece.right) / 2, (piece.y + piece.bottom) / 2
    return part.x < x < part.right and part.y < y < part.bottom


def _same(piece: Rectangle, cloth: Rectangle) -> bool:
    pairs = ((piece.x, cloth.x), (piece.y, cloth.y), (piece.right, cloth.right), (piece.bottom, cloth.bottom))
    return all(abs(mine - theirs) < _TOUCH for mine, theirs in pairs)
