"""What one print can give: groups of each kind and loose pieces, on one sheet or several, none surpassed by another.

Comes in: a pack problem. Goes out: its demands by kind, and the choices of a print; nothing here decides among them.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field
from operator import mul

from .assign import can_share
from .packtypes import Group, Loose, PackProblem, Pile
from .sheets import Counts, yields

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
    _sheets: dict[tuple[tuple[str, int], ...], int | None] = field(default_factory=dict)

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
        sums: list[tuple[Counts, ...]] = [(vector,) for vector in full]
        found = [choice for sheets in sums for choice in self._split(pile, sheets)]
        most = max(TOGETHER, self._most_for_a_group(pile))
        for _ in range(min(most, self.sheets_of(pile, packs)) - 1):
            sums = self._best_sums([(*sheets, vector) for sheets in sums for vector in full if vector <= sheets[-1]])
            found += [choice for sheets in sums for choice in self._split(pile, sheets)]
        return _unsurpassed(found)

    def looks_at_all(self, packs: int) -> bool:
        """Tell whether all sheets of a print are looked at together, so that nothing better can have been missed."""
        few = all(self.sheets_of(pile, packs) <= TOGETHER for pile in self.problem.piles)
        return few and self._all_followed

    def least_packs(self) -> int | None:
        """Return how many packs the group that needs most sheets of one print asks for; None beyond `MOST_TOGETHER`."""
        least = 1
        for needs, wanted in self.kinds:
            sheets = self._sheets_for(needs)
            if sheets is None:
                return None
            own = [-(-sheets // pile.sheets) for pile in self.problem.piles if wanted in (None, pile.key)]
            least = max(least, min(own, default=1))
        return least

    def sheet_yields(self) -> list[Counts]:
        """Return what one sheet can give of all pieces, none surpassed by another."""
        if self._full is None:
            wanted = [piece for piece, limit in zip(self.problem.pieces, self.limits, strict=True) if limit]
            single = yields(self.problem.width, self.problem.height, tuple(wanted), tuple(n for n in self.limits if n))
            places = [place for place, limit in enumerate(self.limits) if limit]
            self._full = [
                tuple(dict(zip(places, vector, strict=True)).get(p, 0) for p in range(len(self.limits)))
                for vector in single
            ]
        return self._full

    def _most_for_a_group(self, pile: Pile) -> int:
        """Return how many sheets the group that needs most of them takes alone, up to `MOST_TOGETHER`."""
        own = [self._sheets_for(needs) or 1 for needs, wanted in self.kinds if wanted in (None, pile.key)]
        return max(own, default=1)

    def _sheets_for(self, needs: tuple[tuple[str, int], ...]) -> int | None:
        """Return how many sheets of one print a group takes alone; None beyond `MOST_TOGETHER`."""
        if needs not in self._sheets:
            self._sheets[needs] = self._fewest(tuple(dict(needs).get(piece.key, 0) for piece in self.problem.pieces))
        return self._sheets[needs]

    def _fewest(self, need: Counts) -> int | None:
        areas = [piece.width * piece.height for piece in self.problem.pieces]
        if sum(map(mul, need, areas)) > MOST_TOGETHER * self.problem.width * self.problem.height:
            return None
        reached: set[Counts] = {tuple(0 for _ in need)}
        for sheets in range(1, MOST_TOGETHER + 1):
            grown = {
                tuple(min(a + b, n) for a, b, n in zip(have, vector, need, strict=True))
                for have in reached for vector in self.sheet_yields()
            }
            if need in grown:
                return sheets
            reached = self._followed(grown, sheets)
        return None

    def _followed(self, totals: set[Counts], sheets: int) -> set[Counts]:
        """Return the totals that no other surpasses: all of a few sheets, else those that cover most cloth."""
        if sheets <= TOGETHER and len(totals) <= _LISTED:
            return _largest(totals)
        areas = [piece.width * piece.height for piece in self.problem.pieces]
        by_area = sorted(totals, key=lambda total: (-sum(map(mul, total, areas)), total))
        return set(sorted(_largest(set(by_area[: 4 * _WAYS])), reverse=True)[:_WAYS])

    def sheets_of(self, pile: Pile, packs: int) -> int:
        """Return how many sheets of one print are looked at together: without groups each sheet stands alone."""
        return pile.sheets * packs if self.kinds else 1

    def prints_of(self, pile: Pile, packs: int) -> int:
        """Return how many prints the packs hold, or sheets where these stand alone."""
        return pile.prints if self.kinds else pile.prints * pile.sheets * packs

    def _best_sums(self, sums: list[tuple[Counts, ...]]) -> list[tuple[Counts, ...]]:
        """Return the sheets whose totals, so far as they are wanted at all, no others surpass."""
        by_total = {
            tuple(min(sum(given), limit) for given, limit in zip(zip(*sheets, strict=True), self.limits, strict=True)):
                sheets
            for sheets in sums
        }
        self._all_followed &= len(by_total) <= _LISTED
        return [by_total[total] for total in sorted(self._followed(set(by_total), len(sums[0])), reverse=True)]

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


def _largest(totals: set[Counts]) -> set[Counts]:
    """Return the totals that no other surpasses."""
    return {t for t in totals if not any(o != t and all(a <= b for a, b in zip(t, o, strict=True)) for o in totals)}


def _unsurpassed(choices: list[PrintChoice]) -> list[PrintChoice]:
    by_yield: dict[tuple[Counts, Counts], PrintChoice] = {}
    for choice in choices:
        key = choice.groups, choice.loose
        if any(choice.groups) or any(choice.loose):
            held = by_yield.get(key)
            if held is None or len(choice.sheets) < len(held.sheets):
                by_yield[key] = choice
    kept = []
    for choice in by_yield.values():
        mine = choice.groups + choice.loose
        if not any(
            other is not choice
            and len(other.sheets) <= len(choice.sheets)
            and all(a <= b for a, b in zip(mine, other.groups + other.loose, strict=True))
            for other in by_yield.values()
        ):
            kept.append(choice)
    return sorted(kept, key=lambda c: (len(c.sheets), tuple(-n for n in c.groups + c.loose), c.sheets))
