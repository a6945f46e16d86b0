"""Count vectors that no other surpasses, found without holding every vector against every other.

Comes in: count vectors, as tuples or as rows of tables. Goes out: those of which no other has as much of everything.
Nothing here knows what is counted.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from math import prod
from typing import Any

Counts = tuple[int, ...]

_BLOCK = 64
"""So many vectors are held against those already kept at a time."""


def largest(totals: Iterable[Counts]) -> set[Counts]:
    """Return the vectors that no other one surpasses: none is at least as large everywhere."""
    import numpy as np

    distinct = sorted(set(totals))
    if len(distinct) < 2 or not distinct[0]:
        return set(distinct)
    return {tuple(row) for row in largest_rows(np.array(distinct, dtype=np.int64)).tolist()}


def largest_rows(rows: Any) -> Any:
    """Return the rows of a table of distinct rows that no other surpasses.

    In falling order of their sums a row can only be surpassed by one that came before it and was kept.
    """
    import numpy as np

    rows = rows[np.argsort(-rows.sum(axis=1), kind="stable")]
    kept = rows[:0]
    for start in range(0, len(rows), _BLOCK):
        block = rows[start : start + _BLOCK]
        block = block[~surpassed(block, kept)]
        # Within a block of distinct rows each is held against the others; it is no other than itself.
        alone = [not surpassed(row[None], np.delete(block, place, axis=0))[0] for place, row in enumerate(block)]
        kept = np.concatenate([kept, block[np.array(alone, dtype=bool)]])
    return kept


def surpassed(rows: Any, others: Any) -> Any:
    """Tell for each row whether some row of the other table is at least as large everywhere."""
    return (rows[:, None, :] <= others[None, :, :]).all(axis=2).any(axis=1)


def last_places(rows: Any, limits: Sequence[int]) -> Any:
    """Return where each distinct row of a table stands last; no count is over its limit."""
    import numpy as np

    if prod(limit + 1 for limit in limits) < 1 << 62:
        codes = np.zeros(len(rows), dtype=np.int64)
        for kind, limit in enumerate(limits):
            codes = codes * (limit + 1) + rows[:, kind]
        _, places = np.unique(codes[::-1], return_index=True)
    else:
        _, places = np.unique(rows[::-1], axis=0, return_index=True)
    return len(rows) - 1 - places


class LargestRows:
    """Gathers rows of counts up to some limits, and keeps the largest ones.

    Every vector that the limits allow has its cell: at (a, b, …) stands the most of the last count beside a of the
    first, b of the second and so on, or −1.
    """

    def __init__(self, limits: Sequence[int]) -> None:
        """Start without rows; what goes beyond a limit counts as the limit."""
        import numpy as np

        self._limits, self._shape = tuple(limits), tuple(limit + 1 for limit in limits[:-1])
        self._steps = [prod(self._shape[axis + 1 :]) for axis in range(len(self._shape))]
        self._all = np.full(prod(self._shape), -1, dtype=np.int32)

    def add_sums(self, first: Any, second: Any) -> None:
        """Take in the sum of every row of one table with every row of the other."""
        import numpy as np

        *before, last = sums_up_to(self._limits, first, second)
        places = np.zeros(len(last), dtype=np.int64)
        for counts, step in zip(before, self._steps, strict=True):
            places += counts * step
        np.maximum.at(self._all, places, last)

    def is_full(self) -> bool:
        """Tell whether a row reaches every limit, so that no other can be larger."""
        return bool(self._all[-1] == self._limits[-1])

    def rows(self) -> Any:
        """Return the largest rows of all that were taken in, in descending order."""
        import numpy as np

        table = self._all.reshape(self._shape)
        for axis in range(table.ndim):
            table = np.flip(np.maximum.accumulate(np.flip(table, axis), axis=axis), axis)
        beyond = np.full_like(table, -1)
        for axis in range(table.ndim):
            ahead, behind = [slice(None)] * table.ndim, [slice(None)] * table.ndim
            ahead[axis], behind[axis] = slice(1, None), slice(None, -1)
            beyond[tuple(behind)] = np.maximum(beyond[tuple(behind)], table[tuple(ahead)])
        places = np.argwhere(table > beyond)
        values = table[tuple(places.T)] if table.ndim else table.reshape(1)
        rows = np.concatenate([places.reshape(len(values), table.ndim), values[:, None]], axis=1)
        return rows[::-1].astype(np.int32)


class FullestRows:
    """Gathers rows of counts up to some limits, and keeps a few: of the largest weight, and with most of each kind."""

    def __init__(self, limits: Sequence[int], weights: Sequence[int], most: int) -> None:
        """Start without rows; a piece of each kind counts its weight."""
        import numpy as np

        self._limits, self._weights, self._most = tuple(limits), np.array(weights, dtype=np.int64), most
        self._rows: list[Any] = []

    def add_sums(self, first: Any, second: Any) -> None:
        """Take in the sum of every row of one table with every row of the other."""
        import numpy as np

        self._rows.append(np.stack(list(sums_up_to(self._limits, first, second)), axis=1))

    def is_full(self) -> bool:
        """Tell that more rows may be worth while."""
        return False

    def rows(self) -> Any:
        """Return the chosen rows, none of them surpassed by another, in descending order."""
        import numpy as np

        rows = np.concatenate(self._rows)
        rows = rows[np.argsort(-(rows @ self._weights), kind="stable")]
        most_of_each = [int(np.argmax(rows[:, kind])) for kind in range(rows.shape[1])]
        chosen = np.concatenate([rows[: 4 * self._most], rows[most_of_each]])
        kept = largest_rows(np.unique(chosen, axis=0))
        kept = kept[np.argsort(-(kept @ self._weights), kind="stable")]
        most_of_each = [int(np.argmax(kept[:, kind])) for kind in range(kept.shape[1])]
        return np.unique(np.concatenate([kept[: self._most], kept[most_of_each]]), axis=0)[::-1]


def sums_up_to(limits: Sequence[int], first: Any, second: Any) -> Iterator[Any]:
    """Yield for each kind its count in every sum of a row of one table and a row of the other, up to its limit."""
    import numpy as np

    for kind, limit in enumerate(limits):
        yield np.minimum(first[:, kind, None] + second[None, :, kind], limit).ravel()
