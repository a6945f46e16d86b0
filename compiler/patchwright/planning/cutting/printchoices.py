"""What one print can give: groups of each kind and loose pieces, on one sheet or several, none surpassed by another.

Comes in: a pack problem. Goes out: its demands by kind, and the choices of a print; nothing here decides among them.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from operator import mul
from typing import Any

from .assign import can_share
from .largest import largest, largest_rows, last_places, sums_up_to
from .packtypes import Group, Loose, PackProblem, Pile
from .sheets import Counts, SheetLayout, SheetPiece, layout, lists_all, yields

TOGETHER = 4
"""So many sheets of one print are looked at together; more of them only where one group needs more."""

_WAYS = 60
"""So many ways to fill several sheets of one print are followed further, where there are more than `_LISTED`."""

_LISTED = 1500

MOST_TOGETHER = 60
"""More sheets of one print than this are never looked at together."""


@dataclass(frozen=True, slots=True)
class PrintChoice:
    """What one print gives on so many sheets: groups of each kind, loose pieces of each kind, pieces by sheet."""

    pile: str
    sheets: tuple[Counts, ...]
    groups: Counts
    loose: Counts


@dataclass(slots=True)
class PackDemand:
    """The problem by kinds: groups with equal needs count as one kind."""

    problem: PackProblem
    kinds: list[tuple[tuple[tuple[str, int], ...], str | None]] = field(default_factory=list)
    members: list[list[Group]] = field(default_factory=list)
    words: list[list[frozenset[str]]] = field(default_factory=list)
    loose: list[Loose] = field(default_factory=list)
    limits: Counts = ()
    _full: list[Counts] | None = None
    _all_followed: bool = True
    _known: dict[tuple[str, int], list[PrintChoice]] = field(default_factory=dict)
    _sheets: dict[tuple[tuple[str, int], ...], tuple[Counts, ...] | None] = field(default_factory=dict)

    def __post_init__(self) -> None:
        by_kind: dict[tuple[tuple[tuple[str, int], ...], str | None], list[Group]] = {}
        for group in sorted(self.problem.groups, key=lambda group: group.key):
            by_kind.setdefault((tuple(sorted(group.needs)), group.pile), []).append(group)
        self.kinds = sorted(by_kind, key=repr)
        self.members = [by_kind[kind] for kind in self.kinds]
        self.words = [[frozenset(group.apart) for group in members] for members in self.members]
        totals: Counter[tuple[str, str]] = Counter()
        for loose in self.problem.loose:
            totals[loose.piece, loose.pile or ""] += loose.count
        self.loose = [Loose(piece, count, pile or None) for (piece, pile), count in sorted(totals.items()) if count]
        need: Counter[str] = Counter()
        for group in self.problem.groups:
            need.update(dict(group.needs))
        for loose in self.loose:
            need[loose.piece] += loose.count
        self.limits = tuple(need[piece.key] for piece in self.problem.pieces)

    def most_apart(self) -> int:
        """Return the most groups that one word keeps apart: each needs a print of its own."""
        return max(Counter(word for group in self.problem.groups for word in set(group.apart)).values(), default=0)

    def rows(self) -> list[int]:
        return [len(groups) for groups in self.members] + [loose.count for loose in self.loose]

    def choices(self, pile: Pile, packs: int) -> list[PrintChoice]:
        """Return what one print of a pile can give on one sheet and on several, none surpassed by another."""
        key = pile.key, self.sheets_of(pile, packs)
        if key not in self._known:
            self._known[key] = self._found(pile, packs)
        return self._known[key]

    def _found(self, pile: Pile, packs: int) -> list[PrintChoice]:
        full = self.sheet_yields()
        sums: list[Counts] = [(place,) for place in range(len(full))]
        found = [choice for vector in full for choice in self._split(pile, (vector,))]
        most = max(TOGETHER, self._most_for_a_group(pile))
        for _ in range(min(most, self.sheets_of(pile, packs)) - 1):
            sums = self._with_a_sheet_more(sums)
            found += [choice for sheets in sums for choice in self._split(pile, tuple(full[at] for at in sheets))]
        if not self.looks_at_all(packs):
            found += [choice for sheets in self._alone(pile, packs) for choice in self._split(pile, sheets)]
        return _unsurpassed(found)

    def _alone(self, pile: Pile, packs: int) -> Iterator[tuple[Counts, ...]]:
        """Yield for each kind of group the fewest sheets of one print that give it, so that none is missed."""
        for needs, wanted in self.kinds:
            sheets = self._sheets_for(needs) if wanted in (None, pile.key) else None
            if sheets and len(sheets) <= self.sheets_of(pile, packs):
                yield sheets

    def looks_at_all(self, packs: int) -> bool:
        """Tell whether all sheets of a print are looked at together, so that nothing better can have been missed."""
        few = all(self.sheets_of(pile, packs) <= TOGETHER for pile in self.problem.piles)
        return few and self._all_followed and self.all_listed()

    def all_listed(self) -> bool:
        """Tell whether what one sheet can give was listed completely."""
        return lists_all(*self._one_sheet())

    def drawn(self, counts: Counts) -> SheetLayout:
        """Return a layout of one sheet that gives these counts, which must be among what a sheet can give."""
        if self.all_listed():
            drawn = layout(self.problem.width, self.problem.height, self.problem.pieces, counts)
        else:
            width, height, wanted, limits = self._one_sheet()
            given = tuple(n for n, limit in zip(counts, self.limits, strict=True) if limit)
            drawn = layout(width, height, wanted, given, limits)
        assert drawn is not None, "what a sheet can give has a layout"
        return drawn

    def _one_sheet(self) -> tuple[int, int, tuple[SheetPiece, ...], Counts]:
        wanted = tuple(piece for piece, limit in zip(self.problem.pieces, self.limits, strict=True) if limit)
        return self.problem.width, self.problem.height, wanted, tuple(n for n in self.limits if n)

    def least_packs(self) -> int | None:
        """Return how many packs the group that needs most sheets of one print asks for; None beyond `MOST_TOGETHER`."""
        least = 1
        for needs, wanted in self.kinds:
            sheets = self._sheets_for(needs)
            if sheets is None:
                return None
            own = [-(-len(sheets) // pile.sheets) for pile in self.problem.piles if wanted in (None, pile.key)]
            least = max(least, min(own, default=1))
        return least

    def sheet_yields(self) -> list[Counts]:
        """Return what one sheet can give of all pieces, none surpassed by another."""
        if self._full is None:
            single = yields(*self._one_sheet())
            places = [place for place, limit in enumerate(self.limits) if limit]
            self._full = [
                tuple(dict(zip(places, vector, strict=True)).get(p, 0) for p in range(len(self.limits)))
                for vector in single
            ]
        return self._full

    def _most_for_a_group(self, pile: Pile) -> int:
        """Return how many sheets the group that needs most of them takes alone, up to `MOST_TOGETHER`."""
        own = [self._sheets_for(needs) or () for needs, wanted in self.kinds if wanted in (None, pile.key)]
        return max(1, *map(len, own)) if own else 1

    def _sheets_for(self, needs: tuple[tuple[str, int], ...]) -> tuple[Counts, ...] | None:
        """Return the sheets of one print that a group takes alone; None beyond `MOST_TOGETHER`."""
        if needs not in self._sheets:
            self._sheets[needs] = self._fewest(tuple(dict(needs).get(piece.key, 0) for piece in self.problem.pieces))
        return self._sheets[needs]

    def _fewest(self, need: Counts) -> tuple[Counts, ...] | None:
        import numpy as np

        areas = [piece.width * piece.height for piece in self.problem.pieces]
        if sum(map(mul, need, areas)) > MOST_TOGETHER * self.problem.width * self.problem.height:
            return None
        single = self.sheet_yields()
        full = np.array(single, dtype=np.int64)
        reached, ways = np.zeros((1, len(need)), dtype=np.int64), [Counts()]
        for sheets in range(1, MOST_TOGETHER + 1):
            grown = np.stack(list(sums_up_to(need, reached, full)), axis=1)
            enough = np.flatnonzero((grown == need).all(axis=1)).tolist()
            if enough:
                way = (*ways[enough[0] // len(full)], enough[0] % len(full))
                return tuple(single[place] for place in sorted(way))
            places = last_places(grown, need)
            of_total = dict(zip(map(tuple, grown[places].tolist()), places.tolist(), strict=True))
            reached = self._followed(grown[places], sheets)
            taken = [of_total[tuple(total)] for total in reached.tolist()]
            ways = [(*ways[place // len(full)], place % len(full)) for place in taken]
        return None

    def _followed(self, totals: Any, sheets: int) -> Any:
        """Return the totals that no other surpasses: all of a few sheets, else those that cover most cloth."""
        import numpy as np

        if sheets <= TOGETHER and len(totals) <= _LISTED:
            return largest_rows(totals)
        areas = totals @ np.array([piece.width * piece.height for piece in self.problem.pieces], dtype=np.int64)
        widest = totals[np.lexsort((*totals.T[::-1], -areas))[: 4 * _WAYS]]
        return np.array(sorted(largest_rows(widest).tolist(), reverse=True)[:_WAYS], dtype=np.int64)

    def sheets_of(self, pile: Pile, packs: int) -> int:
        """Return how many sheets of one print are looked at together: without groups each sheet stands alone."""
        return pile.sheets * packs if self.kinds else 1

    def prints_of(self, pile: Pile, packs: int) -> int:
        """Return how many prints the packs hold, or sheets where these stand alone."""
        return pile.prints if self.kinds else pile.prints * pile.sheets * packs

    def _with_a_sheet_more(self, sums: list[Counts]) -> list[Counts]:
        """Return the sheets, one more than before, whose totals no others surpass, so far as they are wanted at all.

        Sheets are places in the list of what one sheet can give, in its order.
        """
        import numpy as np

        full = np.array(self.sheet_yields(), dtype=np.int64)
        before = np.stack([full[list(sheets)].sum(axis=0) for sheets in sums])
        last = np.array([sheets[-1] for sheets in sums])
        which = np.repeat(np.arange(len(sums)), len(full) - last)
        more = np.concatenate([np.arange(place, len(full)) for place in last])
        totals = np.minimum(before[which] + full[more], self.limits)
        places = last_places(totals, self.limits)
        self._all_followed &= len(places) <= _LISTED
        by_total = {tuple(total): place for total, place in zip(totals[places].tolist(), places.tolist(), strict=True)}
        followed = sorted(self._followed(totals[places], len(sums[0]) + 1).tolist(), reverse=True)
        chosen = [by_total[tuple(total)] for total in followed]
        return [(*sums[which[place]], int(more[place])) for place in chosen]

    def _split(self, pile: Pile, sheets: tuple[Counts, ...]) -> list[PrintChoice]:
        """Return all ways to share what the sheets give between kinds of groups and loose pieces."""
        have = {p.key: sum(v[i] for v in sheets) for i, p in enumerate(self.problem.pieces)}
        ways: list[tuple[Counts, dict[str, int]]] = [((), have)]
        for (needs, wanted), members in zip(self.kinds, self.members, strict=True):
            most = len(members) if wanted in (None, pile.key) else 0
            grown = []
            for taken, left in ways:
                for number in range(most + 1):
                    rest = {key: n - number * dict(needs).get(key, 0) for key, n in left.items()}
                    if min(rest.values()) < 0:
                        break
                    grown.append(((*taken, number), rest))
            ways = grown
        return [
            PrintChoice(pile.key, sheets, taken, loose)
            for taken, left in ways
            if can_share(taken, self.words)
            for loose in self._loose(pile, left)
        ]

    def _loose(self, pile: Pile, left: dict[str, int]) -> list[Counts]:
        # A piece wanted loose from several piles goes to the named pile first, then to any.
        given: list[int] = []
        for loose in sorted(self.loose, key=lambda one: one.pile is None):
            usable = left[loose.piece] if loose.pile in (None, pile.key) else 0
            given.append(min(usable, loose.count))
            left = {**left, loose.piece: left[loose.piece] - given[-1]}
        order = sorted(range(len(self.loose)), key=lambda i: self.loose[i].pile is None)
        return [tuple(dict(zip(order, given, strict=True))[i] for i in range(len(self.loose)))]


def _unsurpassed(choices: list[PrintChoice]) -> list[PrintChoice]:
    by_yield: dict[tuple[Counts, Counts], PrintChoice] = {}
    for choice in choices:
        key = choice.groups, choice.loose
        if any(choice.groups) or any(choice.loose):
            held = by_yield.get(key)
            if held is None or len(choice.sheets) < len(held.sheets):
                by_yield[key] = choice
    # Fewer sheets are better, as more of anything else is.
    by_worth = {(-len(choice.sheets), *choice.groups, *choice.loose): choice for choice in by_yield.values()}
    kept = [by_worth[worth] for worth in largest(by_worth)]
    return sorted(kept, key=lambda c: (len(c.sheets), tuple(-n for n in c.groups + c.loose), c.sheets))
