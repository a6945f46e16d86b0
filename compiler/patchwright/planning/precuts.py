"""One pack of precut cloth in one size: how many of its pieces are needed, and what each is cut into.

In: the pack and the pieces that fabrics cut from it.
Out: `Precuts` for every fabric, and packs to buy.
Never: a count from area; counts come from rows and columns that a straight ruler can cut.
"""

from __future__ import annotations

from dataclasses import dataclass

from patchwright.core.length import Length
from patchwright.design.design import Pack
from patchwright.planning.cloth import Flat, TooWide
from patchwright.planning.plan import Precuts, SheetCut, Yield


@dataclass(frozen=True, slots=True)
class _Row:
    """How one piece lies on one precut: columns and rows, as laid."""

    flat: Flat
    width: Length
    height: Length
    columns: int
    rows: int
    turned: bool

    @property
    def each(self) -> int:
        return self.columns * self.rows


def plan_precuts(flats: tuple[Flat, ...], pack: Pack) -> tuple[SheetCut, ...]:
    """Cut each size of piece from precuts of its own, as many to one as rows and columns give.

    Raises TooWide for a piece that no precut of the pack can give.
    """
    made = []
    for flat in flats:
        lay = _best_lay(flat, pack)
        full, rest = divmod(flat.count, lay.each)
        if full:
            made.append(SheetCut(full, (_yield(lay, lay.each),), _places(lay, lay.each)))
        if rest:
            made.append(SheetCut(1, (_yield(lay, rest),), _places(lay, rest)))
    return tuple(made)


def _best_lay(flat: Flat, pack: Pack) -> _Row:
    lays = [(flat.width, flat.height, False)] + ([(flat.height, flat.width, True)] if flat.turn else [])
    rows = [
        _Row(flat, width, height, (pack.usable_width / width.rational()).floor(),
             (pack.usable_height / height.rational()).floor(), turned)
        for width, height, turned in lays
    ]
    best = max(rows, key=lambda row: (row.each, not row.turned))
    if best.each == 0:
        raise TooWide(flat.piece, "too-large")
    return best


def _yield(lay: _Row, count: int) -> Yield:
    rows = min(lay.rows, -(-count // lay.columns))
    return Yield(lay.flat.piece, count, lay.width, lay.height, lay.turned, rows)


def _places(lay: _Row, count: int) -> tuple[tuple[str, Length, Length, Length, Length], ...]:
    return tuple(
        (lay.flat.piece, lay.width * (place % lay.columns), lay.height * (place // lay.columns), lay.width, lay.height)
        for place in range(count)
    )


def share_pack(uses: dict[str, tuple[SheetCut, ...]], pack: Pack) -> tuple[dict[str, Precuts], int]:
    """What every fabric uses of a pack that they share, and how many packs to buy.

    Precuts bought singly are counted as packs of one, no fewer than the number that the author gave.
    Pieces of cloth left over are counted once, with the last fabric.
    """
    used = {fabric: sum(sheet.count for sheet in sheets) for fabric, sheets in uses.items()}
    total = sum(used.values())
    if pack.single:
        packs, supply = max(total, pack.count) if total else 0, max(total, pack.count)
    else:
        packs = -(-total // pack.count)
        supply = packs * pack.count
    fabrics = list(uses)
    return {
        fabric: Precuts(used[fabric], packs, supply - total if fabric == fabrics[-1] else 0, uses[fabric])
        for fabric in fabrics
    }, packs
