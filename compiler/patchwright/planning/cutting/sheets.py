"""What one sheet can give: all best yields of straight-ruler cuts, and a layout with its cuts for any one of them.

Comes in: a sheet and the pieces wanted, in grid units. Goes out: counts, or rectangles in finished places.
Counts always come from a layout that edge-to-edge cuts can make, never from area.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from math import prod
from typing import Any

Counts = tuple[int, ...]


@dataclass(frozen=True, slots=True)
class SheetPiece:
    """A rectangle to cut from sheets, `turn` allowing a quarter turn."""

    key: str
    width: int
    height: int
    turn: bool


@dataclass(frozen=True, slots=True)
class Place:
    """A piece in its place: x and width across the sheet, y and height along it, measured as laid."""

    key: str
    x: int
    y: int
    width: int
    height: int
    turned: bool


@dataclass(frozen=True, slots=True)
class SheetCut:
    """One edge-to-edge cut through the rectangle (x, y, width, height), which is whole when its turn comes.

    `upright` cuts run along the sheet at x = `at`, the others across it at y = `at`.
    """

    x: int
    y: int
    width: int
    height: int
    upright: bool
    at: int


@dataclass(frozen=True, slots=True)
class Left:
    """A rectangle left over."""

    x: int
    y: int
    width: int
    height: int


@dataclass(frozen=True, slots=True)
class SheetLayout:
    """Pieces in their places, the cuts in the order to make them, and the rectangles left over."""

    places: tuple[Place, ...]
    cuts: tuple[SheetCut, ...]
    left: tuple[Left, ...]


def yields(width: int, height: int, pieces: tuple[SheetPiece, ...], limits: Counts) -> tuple[Counts, ...]:
    """Return all count vectors that straight-ruler cuts can give and none of which gives more of everything.

    No more than `limits` of each piece are counted. The vectors come in descending order.
    """
    return _sheet(width, height, pieces, limits).best(width, height)


def layout(width: int, height: int, pieces: tuple[SheetPiece, ...], counts: Counts) -> SheetLayout | None:
    """Return a layout that gives these counts, or None when straight-ruler cuts cannot give them."""
    if not any(counts):
        return SheetLayout((), (), (Left(0, 0, width, height),))
    drawing = _Drawing(_sheet(width, height, pieces, counts))
    return drawing.finished() if drawing.draw(0, 0, width, height, counts) else None


def effort(width: int, height: int, pieces: tuple[SheetPiece, ...], limits: Counts) -> int:
    """Return about how much work listing the yields would be: rectangles, times cuts, times counts to keep."""
    sheet = _sheet(width, height, pieces, limits)
    cells = prod(limit + 1 for limit in sheet.limits[:-1])
    return len(sheet.across) * len(sheet.along) * (len(sheet.across) + len(sheet.along)) // 2 * cells


@lru_cache(maxsize=64)
def _sheet(width: int, height: int, pieces: tuple[SheetPiece, ...], limits: Counts) -> _Sheet:
    return _Sheet(width, height, pieces, limits)


class _Sheet:
    """The best yields of every rectangle that cuts of one sheet can leave.

    For each rectangle stands an array: at (a, b, …) the most of the last piece beside at least a of the first, b of
    the second and so on, or −1. Only sums of the pieces' sides matter as places of cuts.
    """

    def __init__(self, width: int, height: int, pieces: tuple[SheetPiece, ...], limits: Counts) -> None:
        self.pieces = pieces
        self.limits = tuple(
            min(limit, (width * height) // (piece.width * piece.height))
            for piece, limit in zip(pieces, limits, strict=True)
        )
        wides = {p.width for p in pieces} | {p.height for p in pieces if p.turn}
        highs = {p.height for p in pieces} | {p.width for p in pieces if p.turn}
        self.across, self.along = _sums(wides, width), _sums(highs, height)
        self._arrays: dict[tuple[int, int], Any] = {}
        self._best: dict[tuple[int, int], tuple[Counts, ...]] = {}

    def best(self, width: int, height: int) -> tuple[Counts, ...]:
        """Return the best count vectors of a rectangle."""
        size = _floor(self.across, width), _floor(self.along, height)
        if size not in self._best:
            self._best[size] = self._corners(self.array(*size))
        return self._best[size]

    def array(self, width: int, height: int) -> Any:
        """Return the array of a rectangle whose sides are sums of piece sides."""
        import numpy as np

        if (width, height) in self._arrays:
            return self._arrays[width, height]
        array = np.full([limit + 1 for limit in self.limits[:-1]], -1, dtype=np.int32)
        array[(0,) * (len(self.limits) - 1)] = 0
        for place, piece in enumerate(self.pieces):
            if self.limits[place] and any(True for _ in fits(piece, width, height)):
                one = [0] * len(self.pieces)
                one[place] = 1
                self._raise(array, tuple(one))
        for (w1, h1), (w2, h2) in self.splits(width, height):
            self.array(w1, h1)
            smaller, other = self.best(w1, h1), self.array(w2, h2)
            for counts in smaller:
                self._raise_by(array, counts, other)
        self._arrays[width, height] = array
        return array

    def splits(self, width: int, height: int) -> Iterator[tuple[tuple[int, int], tuple[int, int]]]:
        """Yield the two rectangles of each cut worth trying, each shrunk to sums of piece sides."""
        for x in self.across:
            if 0 < x <= width // 2:
                yield (x, height), (_floor(self.across, width - x), height)
        for y in self.along:
            if 0 < y <= height // 2:
                yield (width, y), (width, _floor(self.along, height - y))

    def _raise(self, array: Any, counts: Counts) -> None:
        import numpy as np

        region = tuple(slice(0, n + 1) for n in counts[:-1])
        array[region] = np.maximum(array[region], counts[-1])

    def _raise_by(self, array: Any, counts: Counts, other: Any) -> None:
        """Raise the array to what these counts and the other rectangle give together."""
        import numpy as np

        source, target = other, array
        for axis, (n, limit) in enumerate(zip(counts[:-1], self.limits[:-1], strict=True)):
            # What goes beyond the limit counts as the limit: shift, and let places up to n be served by no other.
            index = np.maximum(np.arange(limit + 1) - n, 0)
            source = np.take(source, index, axis=axis)
        total = np.where(source >= 0, np.minimum(source + counts[-1], self.limits[-1]), -1)
        np.maximum(target, total, out=target)

    def _corners(self, array: Any) -> tuple[Counts, ...]:
        """Return the count vectors of an array that no other vector surpasses."""
        import numpy as np

        found: list[Counts] = []
        for index in np.argwhere(array >= 0):
            place = tuple(int(i) for i in index)
            value = int(array[place])
            surpassed = any(
                place[axis] < self.limits[axis]
                and int(array[(*place[:axis], place[axis] + 1, *place[axis + 1 :])]) >= value
                for axis in range(len(place))
            )
            if not surpassed:
                found.append((*place, value))
        return tuple(sorted(found, reverse=True))


def fits(piece: SheetPiece, width: int, height: int) -> Iterator[tuple[int, int, bool]]:
    """Yield the ways a piece fits a rectangle, as width, height and whether it is turned."""
    if piece.width <= width and piece.height <= height:
        yield piece.width, piece.height, False
    if piece.turn and piece.width != piece.height and piece.height <= width and piece.width <= height:
        yield piece.height, piece.width, True


def _sums(lengths: set[int], most: int) -> tuple[int, ...]:
    """Return all sums of these lengths up to the most, nought among them."""
    reached = 1
    for length in sorted(lengths):
        for _ in range(most // length):
            reached |= (reached << length) & ((1 << (most + 1)) - 1)
    return tuple(place for place in range(most + 1) if reached >> place & 1)


def _floor(places: tuple[int, ...], length: int) -> int:
    return places[bisect_right(places, length) - 1]


class _Drawing:
    """Draws one layout by following the yields down to single pieces."""

    def __init__(self, sheet: _Sheet) -> None:
        self.sheet = sheet
        self.places: list[Place] = []
        self.cuts: list[SheetCut] = []
        self.left: list[Left] = []

    def finished(self) -> SheetLayout:
        return SheetLayout(tuple(self.places), tuple(self.cuts), tuple(self.left))

    def draw(self, x: int, y: int, width: int, height: int, counts: Counts) -> bool:
        """Draw the counts into a rectangle; False, and nothing drawn, when they do not fit."""
        if not any(counts):
            if width and height:
                self.left.append(Left(x, y, width, height))
            return True
        if not _within(counts, self.sheet.best(width, height)):
            return False
        if sum(counts) == 1:
            self._one(x, y, width, height, self.sheet.pieces[counts.index(1)])
            return True
        for upright, at, first, second in self._splits(width, height, counts):
            self.cuts.append(SheetCut(x, y, width, height, upright, (x if upright else y) + at))
            if upright:
                self.draw(x, y, at, height, first)
                self.draw(x + at, y, width - at, height, second)
            else:
                self.draw(x, y, width, at, first)
                self.draw(x, y + at, width, height - at, second)
            return True
        raise AssertionError("a yield has no cut that gives it")

    def _splits(self, width: int, height: int, counts: Counts) -> Iterator[tuple[bool, int, Counts, Counts]]:
        """Yield cuts that give the counts, those with pieces on both sides first, plain trims last."""
        trims = []
        for upright, places, length in ((True, self.sheet.across, width), (False, self.sheet.along, height)):
            # Wide first parts first, so that what is left over lies together at the far end.
            for at in reversed([place for place in places if 0 < place < length]):
                one = self.sheet.best(at, height) if upright else self.sheet.best(width, at)
                two = self.sheet.best(length - at, height) if upright else self.sheet.best(width, length - at)
                for some in one:
                    first = tuple(min(a, b) for a, b in zip(some, counts, strict=True))
                    second = tuple(a - b for a, b in zip(counts, first, strict=True))
                    if not any(second):
                        trims.append((upright, at, first, second))
                    elif any(first) and _within(second, two):
                        yield upright, at, first, second
        yield from trims

    def _one(self, x: int, y: int, width: int, height: int, piece: SheetPiece) -> None:
        wide, high, turned = min(fits(piece, width, height), key=lambda fit: (fit[0] != width, fit[1] != height, fit))
        if wide < width:
            self.cuts.append(SheetCut(x, y, width, height, True, x + wide))
            self.left.append(Left(x + wide, y, width - wide, height))
        if high < height:
            self.cuts.append(SheetCut(x, y, wide, height, False, y + high))
            self.left.append(Left(x, y + high, wide, height - high))
        self.places.append(Place(piece.key, x, y, wide, high, turned))


def _within(counts: Counts, best: tuple[Counts, ...]) -> bool:
    return any(all(a <= b for a, b in zip(counts, vector, strict=True)) for vector in best)
