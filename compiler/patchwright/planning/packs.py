"""One pack of precut cloth in one size: how many of its pieces are needed, and what each is cut into.

In: the pack, the pieces that fabrics cut from it, and the groups of pieces that share a print.
Out: `PackUse`: sheets with layouts, packs to buy, what is left, and which print serves what.
Never: a count from area; counts come from layouts that a straight ruler can cut.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import lcm

from patchwright.core.length import Length
from patchwright.design.design import Pack
from patchwright.planning import cutting
from patchwright.planning.cloth import Flat, TooWide
from patchwright.planning.plan import LeftOver, PrintShare, SheetCut, Yield
from patchwright.planning.prints import PrintGroup
from patchwright.planning.straight_cuts import Rectangle, left_over

ALL = "all"
REST = "rest"


class PackTooSmall(Exception):  # noqa: N818 - it names what the pack cannot do, and callers report it.
    """No number of packs can serve, since each holds the same prints; `needed` is the least number of sheets."""

    def __init__(self, needed: int) -> None:
        super().__init__(f"{needed} needed")
        self.needed = needed


@dataclass(frozen=True, slots=True)
class PackUse:
    """How a pack serves all fabrics that share it."""

    sheets: tuple[SheetCut, ...]
    used: int
    packs: int
    left: int
    scraps: tuple[LeftOver, ...]
    shares: tuple[PrintShare, ...]
    made: dict[str, int]
    needed: int
    bound: int
    proof: str


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is wanted of a pack: pieces, groups of them that share a print, and loose ones by pile."""

    flats: tuple[Flat, ...]
    groups: tuple[PrintGroup, ...]
    piles: dict[str, str]
    """The pile of each piece, or nothing."""


def plan_precuts(wanted: Wanted, pack: Pack) -> PackUse:
    """The fewest precuts that serve everything.

    Raises TooWide for a piece that no precut can give, PackTooSmall where prints are too few.
    """
    grid = _grid(wanted.flats, pack)
    problem = cutting.PackProblem(
        width=_whole(pack.usable_width, grid), height=_whole(pack.usable_height, grid),
        pieces=tuple(
            cutting.SheetPiece(flat.piece, _whole(flat.width, grid), _whole(flat.height, grid), flat.turn)
            for flat in wanted.flats
        ),
        piles=_piles(pack, wanted), groups=_groups(wanted, pack), loose=_loose(wanted, pack),
    )
    try:
        plan = cutting.plan_pack(problem)
    except cutting.CannotCut as fault:
        raise TooWide(fault.key, fault.reason) from None
    if plan.packs is None:
        raise PackTooSmall(plan.needed)
    return _use(plan, pack, wanted, grid)


def _grid(flats: tuple[Flat, ...], pack: Pack) -> int:
    lengths = [pack.usable_width, pack.usable_height]
    lengths += [side for flat in flats for side in (flat.width, flat.height)]
    return lcm(*(length.rational().denominator for length in lengths))


def _whole(length: Length, grid: int) -> int:
    return int(length.rational() * grid)


def _piles(pack: Pack, wanted: Wanted) -> tuple[cutting.Pile, ...]:
    """The prints of the pack by pile; a pack of singles holds as many as are asked of it."""
    if pack.single:
        count = max(pack.count, sum(flat.count for flat in wanted.flats))
        return (cutting.Pile(ALL, count),)
    sheets = max(1, pack.count // pack.prints)
    if not pack.piles:
        return (cutting.Pile(ALL, pack.prints, sheets),)
    piles = [cutting.Pile(name, max(1, count // sheets), sheets) for name, count in pack.piles]
    rest = pack.count - sum(count for _, count in pack.piles)
    return (*piles, cutting.Pile(REST, max(1, rest // sheets), sheets)) if rest > 0 else tuple(piles)


def _groups(wanted: Wanted, pack: Pack) -> tuple[cutting.Group, ...]:
    made = []
    for group in wanted.groups:
        pile = group.pile if pack.piles and group.pile else None
        made.append(cutting.Group(group.key, group.needs, pile, group.apart))
    return tuple(made)


def _loose(wanted: Wanted, pack: Pack) -> tuple[cutting.Loose, ...]:
    """What is wanted of each piece beyond the groups."""
    grouped: Counter[str] = Counter()
    for group in wanted.groups:
        grouped.update(dict(group.needs))
    return tuple(
        cutting.Loose(flat.piece, flat.count - grouped[flat.piece], wanted.piles[flat.piece] if pack.piles else None)
        for flat in wanted.flats if flat.count > grouped[flat.piece]
    )


def _use(plan: cutting.PackPlan, pack: Pack, wanted: Wanted, grid: int) -> PackUse:
    def exact(whole: int) -> Length:
        return Length(Fraction(whole, grid))

    listed = {flat.piece: (flat.width, flat.height) for flat in wanted.flats}
    cloth = Rectangle(0, 0, _whole(pack.usable_width, grid), _whole(pack.usable_height, grid))
    needed = list(_needed_cuts(plan, wanted, cloth))
    alike = Counter(needed)
    numbers = {cut: number for number, cut in enumerate(alike, 1)} if wanted.groups else {}
    sheets: list[SheetCut] = []
    left: Counter[tuple[int, int]] = Counter()
    made: Counter[str] = Counter()
    for (kept, rests), count in alike.items():
        places = tuple(
            (place.key, exact(place.x), exact(place.y), exact(place.width), exact(place.height)) for place in kept
        )
        sheets.append(SheetCut(count, yields_of(places, listed), places, numbers.get((kept, rests), 0)))
        for size in rests:
            left[size] += count
        for place in kept:
            made[place.key] += count
    packs = max(plan.used, pack.count) if pack.single else plan.packs or 0
    scraps = tuple(LeftOver(exact(size[0]), exact(size[1]), count) for size, count in sorted(left.items())[::-1])
    return PackUse(
        sheets=tuple(sheets), used=plan.used, packs=packs,
        left=packs * (1 if pack.single else pack.count) - plan.used, scraps=scraps,
        shares=tuple(
            PrintShare(share.print + 1, share.pile, share.groups, share.loose, tuple(sorted(
                numbers[cut] for sheet, cut in zip(plan.sheets, needed, strict=True)
                if numbers and (sheet.pile, sheet.print) == (share.pile, share.print)
            )))
            for share in plan.prints
        ),
        made=dict(made), needed=plan.needed, bound=plan.bound, proof=plan.proof,
    )


def _needed_cuts(
    plan: cutting.PackPlan, wanted: Wanted, cloth: Rectangle
) -> Iterator[tuple[tuple[cutting.Place, ...], tuple[tuple[int, int], ...]]]:
    """Every sheet's places that its print's groups and loose pieces need, and the sizes of what its cuts leave."""
    needs = {group.key: Counter(dict(group.needs)) for group in wanted.groups}
    due: dict[tuple[str, int], Counter[str]] = {}
    for share in plan.prints:
        total = Counter(dict(share.loose))
        for group in share.groups:
            total += needs[group]
        due[share.pile, share.print] = total
    for sheet in plan.sheets:
        rest = due[sheet.pile, sheet.print]
        kept: list[cutting.Place] = []
        for place in sheet.layout.places:
            if rest[place.key] > 0:
                kept.append(place)
            rest[place.key] -= 1
        pieces = [Rectangle(p.x, p.y, p.x + p.width, p.y + p.height) for p in kept]
        left = left_over(pieces, cloth)
        yield tuple(kept), tuple((round(part.right - part.x), round(part.bottom - part.y)) for part in left)


def yields_of(
    places: tuple[tuple[str, Length, Length, Length, Length], ...], listed: dict[str, tuple[Length, Length]]
) -> tuple[Yield, ...]:
    """What a layout gives, piece by piece, larger ones first."""
    counts = Counter((piece, width, height) for piece, _, _, width, height in places)
    made = [
        Yield(piece, each, width, height, (width, height) != listed[piece])
        for (piece, width, height), each in counts.items()
    ]
    return tuple(sorted(made, key=lambda part: (part.height * -1, part.width * -1, part.piece, part.turned)))
