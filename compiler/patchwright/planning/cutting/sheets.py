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

from .largest import FullestRows, LargestRows, surpassed

Counts = tuple[int, ...]

_LISTED = 1_000_000_000
"""Beyond this effort only some of the yields of each rectangle are kept: those that use most of it."""

_KEPT = 16

_TOGETHER = 64
"""So many vectors are compared at a time."""


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


def layout(
    width: int, height: int, pieces: tuple[SheetPiece, ...], counts: Counts, limits: Counts | None = None
) -> SheetLayout | None:
    """Return a layout that gives these counts, or None when straight-ruler cuts cannot give them.

    Where `yields` does not list all, it needs the limits that these counts were found with.
    """
    if not any(counts):
        return SheetLayout((), (), (Left(0, 0, width, height),))
    drawing = _Drawing(_sheet(width, height, pieces, limits or counts))
    return drawing.finished() if drawing.draw(0, 0, width, height, counts) else None


def lists_all(width: int, height: int, pieces: tuple[SheetPiece, ...], limits: Counts) -> bool:
    """Tell whether `yields` gives them all; of too many sizes only those that use most of the sheet are followed."""
    return _sheet(width, height, pieces, limits).all_kept


def effort(width: int, height: int, pieces: tuple[SheetPiece, ...], limits: Counts) -> int:
    """Return about how much work listing the yields would be: rectangles, times cuts, times counts to keep."""
    return _sheet(width, height, pieces, limits).effort()


@lru_cache(maxsize=64)
def _sheet(width: int, height: int, pieces: tuple[SheetPiece, ...], limits: Counts) -> _Sheet:
    return _Sheet(width, height, pieces, limits)


class _Sheet:
    """The best yields of every rectangle that cuts of one sheet can leave, each as the rows of a table.

    Only sums of the pieces' sides matter as places of cuts.
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
        self._single = wides | highs
        self.all_kept = self.effort() <= _LISTED
        self._tables: dict[tuple[int, int], Any] = {}
        self._best: dict[tuple[int, int], tuple[Counts, ...]] = {}

    def effort(self) -> int:
        """Return about how much work all tables take: rectangles, times cuts, times counts to keep."""
        cells = prod(limit + 1 for limit in self.limits[:-1])
        return len(self.across) * len(self.along) * (len(self.across) + len(self.along)) // 2 * cells

    def best(self, width: int, height: int) -> tuple[Counts, ...]:
        """Return the best count vectors of a rectangle, in descending order."""
        size = _floor(self.across, width), _floor(self.along, height)
        if size not in self._best:
            self._best[size] = tuple(map(tuple, self.table(*size).tolist()))
        return self._best[size]

    def table(self, width: int, height: int) -> Any:
        """Return the best count vectors of a rectangle whose sides are sums of piece sides, one to a row."""
        import numpy as np

        if (width, height) in self._tables:
            return self._tables[width, height]
        nothing = np.zeros((1, len(self.pieces)), dtype=np.int32)
        single = np.zeros((1 + len(self.pieces), len(self.pieces)), dtype=np.int32)
        for place, piece in enumerate(self.pieces):
            if self.limits[place] and any(True for _ in fits(piece, width, height)):
                single[1 + place, place] = 1
        areas = [piece.width * piece.height for piece in self.pieces]
        found = LargestRows(self.limits) if self.all_kept else FullestRows(self.limits, areas, _KEPT)
        found.add_sums(single, nothing)
        for first, second in self.splits(width, height):
            found.add_sums(self.table(*first), self.table(*second))
            if found.is_full():
                break
        self._tables[width, height] = table = found.rows()
        return table

    def splits(self, width: int, height: int) -> Iterator[tuple[tuple[int, int], tuple[int, int]]]:
        """Yield the two rectangles of each cut worth trying, each shrunk to sums of piece sides.

        Of cuts that leave the same second rectangle only the one with the larger first is worth it. Where not all is
        kept, only cuts at the side of a single piece are tried.
        """
        for x, rest in _halves(self.across, width):
            if self.all_kept or x in self._single:
                yield (x, height), (rest, height)
        for y, rest in _halves(self.along, height):
            if self.all_kept or y in self._single:
                yield (width, y), (width, rest)


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


def _halves(places: tuple[int, ...], length: int) -> Iterator[tuple[int, int]]:
    """Yield cuts up to the middle of a length, with the most that the rest of it can be used for."""
    cuts = [(place, _floor(places, length - place)) for place in places if 0 < place <= length // 2]
    for number, (place, rest) in enumerate(cuts):
        if number + 1 == len(cuts) or cuts[number + 1][1] != rest:
            yield place, rest


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
                rest = length - at
                one = self.sheet.best(at, height) if upright else self.sheet.best(width, at)
                two = self.sheet.best(rest, height) if upright else self.sheet.best(width, rest)
                for first, second in _shares(one, two, counts):
                    if not any(second):
                        trims.append((upright, at, first, second))
                    elif any(first):
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


def _shares(one: tuple[Counts, ...], two: tuple[Counts, ...], counts: Counts) -> Iterator[tuple[Counts, Counts]]:
    """Yield what the first of two rectangles gives of the counts, and what is left, where the second can give it."""
    import numpy as np

    wanted, others = np.array(counts, dtype=np.int32), np.array(two, dtype=np.int32)
    for start in range(0, len(one), _TOGETHER):
        first = np.minimum(np.array(one[start : start + _TOGETHER], dtype=np.int32), wanted)
        second = wanted - first
        for place in np.flatnonzero(surpassed(second, others)).tolist():
            yield tuple(first[place].tolist()), tuple(second[place].tolist())


def _within(counts: Counts, best: tuple[Counts, ...]) -> bool:
    return any(all(a <= b for a, b in zip(counts, vector, strict=True)) for vector in best)
