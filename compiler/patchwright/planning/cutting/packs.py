"""Packs of precut sheets: how many sheets are needed, which print serves what, and whether the pack is enough.

Comes in: one sheet size, the prints of the pack by pile, groups that must each come from one print, loose pieces.
Goes out: sheets with their layouts, and the least number of sheets with its bound.
Fabrics that share a pack are one problem: their pieces simply stand in it together.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field

from .assign import assign_groups, can_share
from .loosely import sheets_of_strips
from .problem import GAP, PROVEN, PROVEN_BY_SOLVER, CannotCut
from .sheets import Counts, SheetLayout, SheetPiece, effort, fits, layout, yields
from .solver import Column, Covering, least_choice

_LISTED = 20_000_000
"""Beyond this effort the yields of a sheet are not listed; loose pieces are then cut from strips across it."""

_PACKS = 12
"""So many numbers of packs are tried, from the least that could do; prints do not become more with packs."""

_LOOSER = 4
"""Where the groups of the fewest sheets cannot be kept apart, so many numbers of sheets are tried."""

_TOGETHER = 4
"""Groups are cut from at most so many sheets of one print."""


@dataclass(frozen=True, slots=True)
class Pile:
    """Prints of one kind in the pack (light, dark, or simply all): so many prints, each on so many sheets."""

    key: str
    prints: int
    sheets: int = 1


@dataclass(frozen=True, slots=True)
class Group:
    """Pieces that must all be cut from one print: (piece key, count) pairs.

    `match` between fabrics is one group with the pieces of both. `pile` restricts the print to a pile.
    Groups that share a word of `apart` never share a print: name the block that holds them to keep the groups of one
    block apart, and name a pair of groups to keep two that touch apart.
    """

    key: str
    needs: tuple[tuple[str, int], ...]
    pile: str | None = None
    apart: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Loose:
    """Pieces that may come from any print, of one pile if it is named."""

    piece: str
    count: int
    pile: str | None = None


@dataclass(frozen=True, slots=True)
class PackProblem:
    """Everything to be cut from packs of sheets of one true size, in grid units."""

    width: int
    height: int
    pieces: tuple[SheetPiece, ...]
    piles: tuple[Pile, ...]
    groups: tuple[Group, ...] = ()
    loose: tuple[Loose, ...] = ()


@dataclass(frozen=True, slots=True)
class SheetUse:
    """One sheet of a print: what is cut from it, where, and what is left of it."""

    pile: str
    print: int
    sheet: int
    layout: SheetLayout


@dataclass(frozen=True, slots=True)
class PrintUse:
    """One print: the groups cut from it, and the loose pieces that it gives beside them."""

    pile: str
    print: int
    groups: tuple[str, ...]
    loose: tuple[tuple[str, int], ...]


@dataclass(frozen=True, slots=True)
class PackPlan:
    """Whether one pack is enough, how many packs are, and which sheet gives what.

    `needed` is the least number of sheets if the packs held prints enough, at least `bound`; `packs` is None when no
    number of packs can serve, because every pack holds the same prints; `sheets` is then empty.
    `unused` counts the whole sheets left in each pile, and `spare` the pieces that the layouts give beyond the need.
    """

    enough: bool
    packs: int | None
    needed: int
    bound: int
    proof: str
    sheets: tuple[SheetUse, ...]
    prints: tuple[PrintUse, ...]
    unused: tuple[tuple[str, int], ...]
    spare: tuple[tuple[str, int], ...]

    @property
    def used(self) -> int:
        """How many sheets are cut into."""
        return len(self.sheets)


def plan_pack(problem: PackProblem) -> PackPlan:
    """Return the plan with the fewest sheets from the fewest packs, and how many sheets are needed at the least.

    Raises CannotCut for a piece that no sheet can give.
    """
    for piece in problem.pieces:
        if next(fits(piece, problem.width, problem.height), None) is None:
            raise CannotCut(piece.key, "too-large")
    demand = _Demand(problem)
    if not problem.groups and len(problem.piles) == 1:
        wanted = [(p, n) for p, n in zip(problem.pieces, demand.limits, strict=True) if n]
        if effort(problem.width, problem.height, tuple(p for p, _ in wanted), tuple(n for _, n in wanted)) > _LISTED:
            return _plan_loosely(problem, wanted)
    ample = next(filter(None, (_choose(demand, packs, ample=True) for packs in range(1, _TOGETHER + 1))), None)
    if ample is None:
        return PackPlan(False, None, 0, 0, GAP, (), (), (), ())
    needed, bound, solver, _ = ample
    have = sum(pile.prints * pile.sheets for pile in problem.piles)
    start = max(1, -(-bound // have)) if have else 1
    for packs in range(start, start + _PACKS):
        least = 0
        for _ in range(_LOOSER):
            chosen = _choose(demand, packs, ample=False, least=least)
            if chosen is None:
                break
            placed = _place(demand, chosen[3])
            if placed is not None:
                return _finish(demand, packs, (needed, bound, _proof(needed, bound, solver)), chosen[3], placed)
            least = chosen[0] + 1
    return PackPlan(False, None, needed, bound, _proof(needed, bound, solver), (), (), (), ())


def _plan_loosely(problem: PackProblem, wanted: list[tuple[SheetPiece, int]]) -> PackPlan:
    """Return a plan of strips across the sheets, for loose pieces of too many sizes to list all yields."""
    layouts, bound = sheets_of_strips(
        problem.width, problem.height, [piece for piece, _ in wanted], [count for _, count in wanted]
    )
    pile = problem.piles[0]
    have = pile.prints * pile.sheets
    packs = -(-len(layouts) // have) if have else None
    missing = Counter({piece.key: count for piece, count in wanted})
    prints = []
    for number, drawn in enumerate(layouts):
        given = Counter(spot.key for spot in drawn.places)
        taken = {key: min(n, missing[key]) for key, n in sorted(given.items())}
        missing.subtract(taken)
        prints.append(PrintUse(pile.key, number, (), tuple((key, n) for key, n in taken.items() if n)))
    made = Counter(spot.key for drawn in layouts for spot in drawn.places)
    return PackPlan(
        packs == 1,
        packs,
        len(layouts),
        bound,
        PROVEN if len(layouts) == bound else GAP,
        tuple(SheetUse(pile.key, number, 0, drawn) for number, drawn in enumerate(layouts)) if packs else (),
        tuple(prints) if packs else (),
        ((pile.key, packs * have - len(layouts)),) if packs else (),
        tuple((piece.key, made[piece.key] - count) for piece, count in wanted),
    )


def _proof(needed: int, bound: int, solver: bool) -> str:
    if needed > bound:
        return GAP
    return PROVEN_BY_SOLVER if solver else PROVEN


@dataclass(frozen=True, slots=True)
class _Choice:
    """What one print gives on so many sheets: groups of each kind, loose pieces of each kind, pieces by sheet."""

    pile: str
    sheets: tuple[Counts, ...]
    groups: Counts
    loose: Counts


@dataclass(slots=True)
class _Demand:
    """The problem by kinds: groups with equal needs count as one kind."""

    problem: PackProblem
    kinds: list[tuple[tuple[tuple[str, int], ...], str | None]] = field(default_factory=list)
    members: list[list[Group]] = field(default_factory=list)
    words: list[list[frozenset[str]]] = field(default_factory=list)
    loose: list[Loose] = field(default_factory=list)
    limits: Counts = ()

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

    def choices(self, pile: Pile, packs: int) -> list[_Choice]:
        """Return what one print of a pile can give on one sheet and on several, none surpassed by another."""
        wanted = [piece for piece, limit in zip(self.problem.pieces, self.limits, strict=True) if limit]
        single = yields(self.problem.width, self.problem.height, tuple(wanted), tuple(n for n in self.limits if n))
        places = [place for place, limit in enumerate(self.limits) if limit]
        full = [
            tuple(dict(zip(places, vector, strict=True)).get(p, 0) for p in range(len(self.limits)))
            for vector in single
        ]
        sums: list[tuple[Counts, ...]] = [(vector,) for vector in full]
        found = [choice for sheets in sums for choice in self._split(pile, sheets)]
        for _ in range(min(_TOGETHER, self.sheets_of(pile, packs)) - 1):
            sums = _best_sums([(*sheets, vector) for sheets in sums for vector in full if vector <= sheets[-1]])
            found += [choice for sheets in sums for choice in self._split(pile, sheets)]
        return _unsurpassed(found)

    def sheets_of(self, pile: Pile, packs: int) -> int:
        """Return how many sheets of one print are looked at together: without groups each sheet stands alone."""
        return pile.sheets * packs if self.kinds else 1

    def prints_of(self, pile: Pile, packs: int) -> int:
        """Return how many prints the packs hold, or sheets where these stand alone."""
        return pile.prints if self.kinds else pile.prints * pile.sheets * packs

    def _split(self, pile: Pile, sheets: tuple[Counts, ...]) -> list[_Choice]:
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
            _Choice(pile.key, sheets, taken, loose)
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


def _best_sums(sums: list[tuple[Counts, ...]]) -> list[tuple[Counts, ...]]:
    by_total = {tuple(map(sum, zip(*sheets, strict=True))): sheets for sheets in sums}
    best = [t for t in by_total if not any(o != t and all(a <= b for a, b in zip(t, o, strict=True)) for o in by_total)]
    return [by_total[total] for total in sorted(best, reverse=True)]


def _unsurpassed(choices: list[_Choice]) -> list[_Choice]:
    by_yield: dict[tuple[Counts, Counts], _Choice] = {}
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


def _choose(
    demand: _Demand, packs: int, *, ample: bool, least: int = 0
) -> tuple[int, int, bool, list[tuple[_Choice, int]]] | None:
    """Return the least sheets, a bound on them, whether the solver is trusted for it, and the counted choices.

    With `ample` every pile holds prints enough; `least` asks for so many sheets or more.
    None when the packs cannot serve.
    """
    choices = [choice for pile in sorted(demand.problem.piles, key=repr) for choice in demand.choices(pile, packs)]
    rows = [*demand.rows(), demand.most_apart(), least]
    if not any(rows):
        return 0, 0, False, []
    # Beside what is wanted: prints for the groups of one word, each on another, and the sheets asked for.
    given = [(*c.groups, *c.loose, int(any(c.groups)), len(c.sheets)) for c in choices]
    columns: list[Column] = [(numbers[-1], tuple((row, n) for row, n in enumerate(numbers) if n)) for numbers in given]
    if any(amount and all(row not in dict(entries) for _, entries in columns) for row, amount in enumerate(rows)):
        return None
    capacities: list[tuple[int, list[int]]] = []
    for pile in () if ample else demand.problem.piles:
        places = [place for place, choice in enumerate(choices) if choice.pile == pile.key]
        capacities.append((demand.prints_of(pile, packs), places))
    counts, settled = least_choice(columns, rows, capacities)
    if counts is None:
        return None
    total = sum(cost * n for (cost, _), n in zip(columns, counts, strict=True))
    bound = _price_bound(columns, rows)
    chosen = [(choice, n) for choice, n in zip(choices, counts, strict=True) if n]
    if bound == total:
        return total, total, False, chosen
    return total, total if settled else bound, settled, chosen


def _price_bound(columns: list[Column], rows: list[int]) -> int:
    """Return the sheets that whole prices prove to be needed."""
    master = Covering(rows)
    for column in columns:
        master.add(column)
    prices, _ = master.solve(10**6)
    demand = sum(price * amount for price, amount in zip(prices, rows, strict=True))
    dearest, sheets = 0, 1
    for cost, entries in columns:
        worth = sum(prices[row] * n for row, n in entries)
        if worth * sheets > dearest * cost:
            dearest, sheets = worth, cost
    return -(-demand * sheets // dearest) if dearest else 0


def _place(demand: _Demand, chosen: list[tuple[_Choice, int]]) -> list[list[str]] | None:
    """Return the groups of each chosen print, those kept apart on different prints, or None."""
    rooms = [choice.groups for choice, count in chosen for _ in range(count)]
    return assign_groups(rooms, [[(g.key, frozenset(g.apart)) for g in members] for members in demand.members])


def _finish(
    demand: _Demand,
    packs: int,
    numbers: tuple[int, int, str],
    chosen: list[tuple[_Choice, int]],
    placed: list[list[str]],
) -> PackPlan:
    problem = demand.problem
    missing = {loose: loose.count for loose in demand.loose}
    sheets: list[SheetUse] = []
    prints: list[PrintUse] = []
    numbered: Counter[str] = Counter()
    made: Counter[str] = Counter()
    singles = [choice for choice, count in chosen for _ in range(count)]
    for choice, groups in zip(singles, placed, strict=True):
        number = numbered[choice.pile]
        numbered[choice.pile] += 1
        given = []
        for loose, n in zip(demand.loose, choice.loose, strict=True):
            taken = min(n, missing[loose])
            missing[loose] -= taken
            if taken:
                given.append((loose.piece, taken))
        prints.append(PrintUse(choice.pile, number, tuple(groups), tuple(given)))
        for place, vector in enumerate(choice.sheets):
            drawn = layout(problem.width, problem.height, problem.pieces, vector)
            assert drawn is not None
            sheets.append(SheetUse(choice.pile, number, place, drawn))
            made.update(spot.key for spot in drawn.places)
    used = Counter(sheet.pile for sheet in sheets)
    unused = tuple((pile.key, packs * pile.prints * pile.sheets - used[pile.key]) for pile in problem.piles)
    spare = tuple(
        (piece.key, made[piece.key] - limit) for piece, limit in zip(problem.pieces, demand.limits, strict=True)
    )
    needed, bound, proof = numbers
    return PackPlan(packs == 1, packs, needed, bound, proof, tuple(sheets), tuple(prints), unused, spare)
