"""Plain use of precuts: each kind of piece or group on precuts of its own, laid in rows like books on shelves.

In: what is wanted of a pack.
Out: a `PackUse` that certainly works, though it may take more precuts than need be.
Never: a layout that a straight ruler could not cut: rows first, then the pieces of each row.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import replace

from patchwright.core.length import ZERO, Length
from patchwright.design.design import Pack
from patchwright.planning.cloth import Flat, TooWide
from patchwright.planning.packs import PackUse, Wanted, yields_of
from patchwright.planning.plan import PrintShare, SheetCut
from patchwright.planning.prints import PrintGroup

Place = tuple[str, Length, Length, Length, Length]
MOST_TOGETHER = 60


def on_shelves(wanted: Wanted, pack: Pack) -> PackUse | None:
    """The plain use of a pack; None where it takes more than one pack, or a group needs more than one precut.

    Raises TooWide for a piece that no precut can give.
    """
    flats = {flat.piece: flat for flat in wanted.flats}
    if pack.piles or pack.prints < pack.count:
        return None
    sheets: list[SheetCut] = []
    shares: list[PrintShare] = []
    rest = Counter({flat.piece: flat.count for flat in wanted.flats})
    for needs, groups in _kinds(wanted.groups).items():
        together = _most(needs, flats, pack, len(groups))
        if together == 0:
            return None
        for start in range(0, len(groups), together):
            part = groups[start : start + together]
            sheets.append(_sheet({piece: count * len(part) for piece, count in needs}, flats, pack))
            shares.append(PrintShare(len(sheets), "", tuple(group.key for group in part), ()))
        for piece, count in needs:
            rest[piece] -= count * len(groups)
    for piece, count in rest.items():
        each = _most(((piece, 1),), flats, pack, max(count, 1))
        if each == 0:
            raise TooWide(piece, "too-large")
        sheets.extend(_sheet({piece: min(each, count - start)}, flats, pack) for start in range(0, count, each))
    supply = max(pack.count, len(sheets)) if pack.single else pack.count
    if len(sheets) > supply:
        return None
    return _use(sheets, shares, pack, supply)


def _kinds(groups: Iterable[PrintGroup]) -> dict[tuple[tuple[str, int], ...], list[PrintGroup]]:
    """Groups by what they need; those of one block that must be kept apart are never put together."""
    kinds: dict[tuple[tuple[str, int], ...], list[PrintGroup]] = {}
    for group in groups:
        kinds.setdefault(group.needs, []).append(group)
    return kinds


def _most(needs: tuple[tuple[str, int], ...], flats: dict[str, Flat], pack: Pack, limit: int) -> int:
    """How many times these pieces fit one precut together."""
    number = 0
    while number < min(limit, MOST_TOGETHER):
        counts = {piece: count * (number + 1) for piece, count in needs}
        if _laid(counts, flats, pack) is None:
            break
        number += 1
    return number


def _laid(counts: dict[str, int], flats: dict[str, Flat], pack: Pack) -> tuple[Place, ...] | None:
    """Rows of falling height, each filled from the left; None where the pieces do not fit so."""
    pieces = sorted(
        (_upright(flats[piece], pack) for piece, count in counts.items() for _ in range(count)),
        key=lambda piece: (piece[2] * -1, piece[1] * -1, piece[0]),
    )
    places: list[Place] = []
    x = top = height = ZERO
    for piece, wide, high in pieces:
        if places and x + wide > pack.usable_width:
            x, top, height = ZERO, top + height, ZERO
        height = max(height, high)
        if wide > pack.usable_width or top + high > pack.usable_height:
            return None
        places.append((piece, x, top, wide, high))
        x += wide
    return tuple(places)


def _upright(flat: Flat, pack: Pack) -> tuple[str, Length, Length]:
    """The lay of a piece: as it is, or turned where it may be and only so fits."""
    if flat.turn and (flat.width > pack.usable_width or flat.height > pack.usable_height):
        return flat.piece, flat.height, flat.width
    return flat.piece, flat.width, flat.height


def _sheet(counts: dict[str, int], flats: dict[str, Flat], pack: Pack) -> SheetCut:
    places = _laid(counts, flats, pack)
    if places is None:
        raise ValueError("fewer pieces than were found to fit do not fit")
    return SheetCut(1, yields_of(places, {piece: (flat.width, flat.height) for piece, flat in flats.items()}), places)


def _use(sheets: list[SheetCut], shares: list[PrintShare], pack: Pack, supply: int) -> PackUse:
    alike = Counter((sheet.yields, sheet.places) for sheet in sheets)
    numbers = {cut: number for number, cut in enumerate(alike, 1)} if shares else {}
    # Print n is the n-th sheet here: every sheet is a print of its own, and those of groups come first.
    named = [
        replace(share, layouts=(numbers[sheet.yields, sheet.places],))
        for share, sheet in zip(shares, sheets, strict=False)
    ]
    made: Counter[str] = Counter()
    for sheet in sheets:
        for part in sheet.yields:
            made[part.piece] += part.each
    return PackUse(
        sheets=tuple(SheetCut(count, *cut, numbers.get(cut, 0)) for cut, count in alike.items()), used=len(sheets),
        packs=supply if pack.single else 1, left=supply - len(sheets), scraps=(), shares=tuple(named),
        made=dict(made), needed=len(sheets), bound=0, proof="plain",
    )
