"""Packs of precut sheets: how many sheets are needed, which print serves what, and whether the pack is enough.

Comes in: one sheet size, the prints of the pack by pile, groups that must each come from one print, loose pieces.
Goes out: sheets with their layouts, and the least number of sheets with its bound.
Fabrics that share a pack are one problem: their pieces simply stand in it together.
"""

from __future__ import annotations

from collections import Counter

from .assign import assign_groups
from .loosely import sheets_of_strips
from .packtypes import PackPlan, PackProblem, PrintUse, SheetUse
from .printchoices import PackDemand, PrintChoice
from .problem import GAP, PROVEN, PROVEN_BY_SOLVER, CannotCut
from .sheets import SheetPiece, effort, fits, yields
from .solver import Column, Covering, least_choice

_LISTED = 20_000_000
"""Beyond this effort the yields of a sheet are not listed; loose pieces are then cut from strips across it."""

_PACKS = 12
"""So many numbers of packs are tried, from the least that could do; prints do not become more with packs."""

_LOOSER = 4
"""Where the groups of the fewest sheets cannot be kept apart, so many numbers of sheets are tried."""


def plan_pack(problem: PackProblem) -> PackPlan:
    """Return the plan with the fewest sheets from the fewest packs, and how many sheets are needed at the least.

    Raises CannotCut for a piece that no sheet can give.
    """
    for piece in problem.pieces:
        if next(fits(piece, problem.width, problem.height), None) is None:
            raise CannotCut(piece.key, "too-large")
    demand = PackDemand(problem)
    if not problem.groups and len(problem.piles) == 1:
        wanted = [(p, n) for p, n in zip(problem.pieces, demand.limits, strict=True) if n]
        if effort(problem.width, problem.height, tuple(p for p, _ in wanted), tuple(n for _, n in wanted)) > _LISTED:
            return _plan_loosely(problem, wanted)
    first = demand.least_packs()
    if first is None:
        return PackPlan(False, None, 0, 0, GAP, (), (), (), ())
    tried = range(first, first + _PACKS)
    ample = next(filter(None, (_choose(demand, packs, ample=True) for packs in tried)), None)
    if ample is None:
        return PackPlan(False, None, 0, 0, GAP, (), (), (), ())
    needed, bound, solver, _ = ample
    have = sum(pile.prints * pile.sheets for pile in problem.piles)
    start = max(first, -(-bound // have)) if have else first
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


def _choose(
    demand: PackDemand, packs: int, *, ample: bool, least: int = 0
) -> tuple[int, int, bool, list[tuple[PrintChoice, int]]] | None:
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
    bound = _price_bound(columns, rows) if demand.looks_at_all(packs) else _bound_of_pieces(demand)
    settled = settled and demand.looks_at_all(packs)
    chosen = [(choice, n) for choice, n in zip(choices, counts, strict=True) if n]
    if bound == total:
        return total, total, False, chosen
    return total, total if settled else bound, settled, chosen


def _bound_of_pieces(demand: PackDemand) -> int:
    """Return the sheets that all pieces need at the least, whatever print they come from."""
    if not demand.all_listed():
        area = sum(n * p.width * p.height for p, n in zip(demand.problem.pieces, demand.limits, strict=True))
        return -(-area // (demand.problem.width * demand.problem.height))
    pieces = [piece for piece, limit in zip(demand.problem.pieces, demand.limits, strict=True) if limit]
    rows = [limit for limit in demand.limits if limit]
    vectors = yields(demand.problem.width, demand.problem.height, tuple(pieces), tuple(rows))
    return _price_bound([(1, tuple((row, n) for row, n in enumerate(vector) if n)) for vector in vectors], rows)


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


def _place(demand: PackDemand, chosen: list[tuple[PrintChoice, int]]) -> list[list[str]] | None:
    """Return the groups of each chosen print, those kept apart on different prints, or None."""
    rooms = [choice.groups for choice, count in chosen for _ in range(count)]
    return assign_groups(rooms, [[(g.key, frozenset(g.apart)) for g in members] for members in demand.members])


def _finish(
    demand: PackDemand,
    packs: int,
    numbers: tuple[int, int, str],
    chosen: list[tuple[PrintChoice, int]],
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
            drawn = demand.drawn(vector)
            sheets.append(SheetUse(choice.pile, number, place, drawn))
            made.update(spot.key for spot in drawn.places)
    used = Counter(sheet.pile for sheet in sheets)
    unused = tuple((pile.key, packs * pile.prints * pile.sheets - used[pile.key]) for pile in problem.piles)
    spare = tuple(
        (piece.key, made[piece.key] - limit) for piece, limit in zip(problem.pieces, demand.limits, strict=True)
    )
    needed, bound, proof = numbers
    return PackPlan(packs == 1, packs, needed, bound, proof, tuple(sheets), tuple(prints), unused, spare)
