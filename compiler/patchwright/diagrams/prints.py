"""Which of its cloths a fabric of many prints shows at each place, so that a layout looks as scrappy as the quilt.

In: places in the quilt, in reading order.
Out: the number of a color, the same on every run, and different from the neighbors' where there are enough.
Never: a statement about which print the maker uses; that is the cutting plan's.
"""

from __future__ import annotations

from collections.abc import Mapping

_SPREAD = (73856093, 19349663, 83492791)
"""Large primes that spread places evenly over few colors."""
_NEXT = ((-1, 0), (0, -1))
_BESIDE = (*_NEXT, (-2, 0), (0, -2))
_SLANTING = ((-1, -1), (1, -1), (-2, -2), (2, -2))
"""Neighbors chosen before; those at two steps lie beyond a strip of sashing."""


class PrintChooser:
    """Chooses prints place by place for one drawing."""

    __slots__ = ("_chosen", "_counts")

    def __init__(self, counts: Mapping[str, int]) -> None:
        self._counts = counts
        self._chosen: dict[tuple[str, int, int], int] = {}

    def choose(self, letter: str, column: int, row: int) -> int:
        """The print of a fabric in the group of patches at a place."""
        count = self._counts.get(letter, 1)
        if count < 2:
            return 0
        key = (letter, column, row)
        if key not in self._chosen:
            self._chosen[key] = self._fresh(letter, column, row, count)
        return self._chosen[key]

    def _fresh(self, letter: str, column: int, row: int, count: int) -> int:
        """A print that differs from the neighbors' if possible, else at least from those beside and above."""
        start = _mixed(sum(map(ord, letter)), column, row) % count
        order = [(start + step) % count for step in range(count)]
        for places in (_BESIDE + _SLANTING, _BESIDE, _NEXT):
            near = {self._chosen.get((letter, column + dx, row + dy)) for dx, dy in places}
            for number in order:
                if number not in near:
                    return number
        return start


def _mixed(fabric: int, column: int, row: int) -> int:
    """A whole number that looks like chance and depends on the place alone."""
    number = ((fabric + 1) * _SPREAD[2]) ^ ((column + 1) * _SPREAD[0]) ^ ((row + 1) * _SPREAD[1])
    number ^= number >> 13
    number = number * 0x5BD1E995 & 0xFFFFFFFF
    return number ^ (number >> 15)
