"""Fewer kinds of strips: equal strips where a plan has many different ones, and each size in as few of them as will do.

Comes in: a plan, and what makes one easier than another. Goes out: an easier plan, or the same.
Nothing here makes a strip higher, adds a strip, or lets a piece be missing.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Any

from .evening import Plan
from .patterns import Pattern, make_pattern, pieces_made, sides, turns, width_used
from .problem import Yardage

Ease = Callable[[Plan], tuple[int, ...]]

_PARTS = 5
"""Strips of one height that hold more sizes than this are not laid out anew."""

_FILLINGS = 400
"""Strips of one height that can be filled in more ways than this are not laid out anew."""

_ODD = 80
"""With no more ways to fill a strip, two kinds of strips and one or two odd ones are tried."""

_GATHERINGS = 60
"""So many times at most one size is taken out of a kind of strip."""


def with_fewer_kinds(problem: Yardage, plan: Mapping[Pattern, int], ease: Ease) -> Plan:
    """Return the easiest plan met while strips of one height are made alike and pieces of one size are gathered."""
    best = dict(plan)
    for height in sorted({pattern.height for pattern in plan}):
        for alike in _alike(problem, best, height):
            if ease(alike) < ease(best):
                best = alike
    return _gathered(problem, best, ease)


def _alike(problem: Yardage, plan: Plan, height: int) -> Iterator[Plan]:
    """Yield plans with the strips of one height laid out anew: one kind of them, two, or two and an odd one."""
    own = {pattern: count for pattern, count in plan.items() if pattern.height == height and not pattern.segments}
    parts = sorted({lay.part for pattern in own for lay in pattern.lays})
    if len(own) < 2 or len(parts) > _PARTS:
        return
    rest = {pattern: count for pattern, count in plan.items() if pattern not in own}
    made = pieces_made(rest, len(problem.parts))
    wanted = [max(0, problem.parts[part].count - made[part]) for part in parts]
    ways = [_narrowest(problem, part, height) for part in parts]
    fillings = list(_fillings([along for along, _ in ways], wanted, problem.width, _FILLINGS + 1))
    if len(fillings) > _FILLINGS:
        return
    strips, area = sum(own.values()), sum(n * along for n, (along, _) in zip(wanted, ways, strict=True))
    for number in range(max(1, -(-area // problem.width)), strips + 1):
        for counted in _few_kinds(fillings, wanted, number):
            fresh = dict(rest)
            for counts, times in _trimmed(counted, wanted, [along for along, _ in ways]):
                lays = {(p, turned, 1): n for p, n, (_, turned) in zip(parts, counts, ways, strict=True)}
                pattern = make_pattern(height, lays, {})
                fresh[pattern] = fresh.get(pattern, 0) + times
            yield fresh


def _narrowest(problem: Yardage, part: int, height: int) -> tuple[int, bool]:
    """Return the least width that a part takes in a strip of this height, and whether it is turned for it."""
    piece = problem.parts[part]
    return min(
        (sides(piece, turned)[0], turned)
        for turned in turns(piece, problem.width) if sides(piece, turned)[1] <= height
    )


def _fillings(widths: Sequence[int], most: Sequence[int], room: int, limit: int) -> list[tuple[int, ...]]:
    """Return the ways to fill a strip to which nothing can be added that is wanted; no more than the limit."""
    found: list[tuple[int, ...]] = []

    def fill(place: int, left: int, counts: tuple[int, ...]) -> None:
        if len(found) >= limit:
            return
        if place == len(widths):
            if all(n == top or width > left for n, top, width in zip(counts, most, widths, strict=True)):
                found.append(counts)
            return
        for number in range(min(most[place], left // widths[place]), -1, -1):
            fill(place + 1, left - number * widths[place], (*counts, number))

    fill(0, room, ())
    return found


Counted = list[tuple[tuple[int, ...], int]]
"""Counts of a strip's parts, and so many strips of them."""


def _few_kinds(fillings: list[tuple[int, ...]], wanted: list[int], strips: int) -> Iterator[Counted]:
    """Yield ways to give all that is wanted by so many strips of few kinds."""
    import numpy as np

    table, wish = np.array(fillings, dtype=np.int64), np.array(wanted, dtype=np.int64)
    alone = np.flatnonzero((table * strips >= wish).all(axis=1)).tolist()
    if alone:
        yield [(fillings[alone[0]], strips)]
        return
    pair = _pair(table, wish, strips)
    if pair is not None:
        yield [(fillings[place], times) for place, times in pair]
        return
    for odd in (1, 2) if len(fillings) <= _ODD else ():
        for place, counts in enumerate(fillings):
            pair = _pair(table, wish - odd * table[place], strips - odd)
            if pair is not None:
                yield [(counts, odd), *((fillings[other], times) for other, times in pair)]
                return


def _pair(table: Any, wish: Any, strips: int) -> list[tuple[int, int]] | None:
    """Return two ways to fill strips, and how many of each, that together give all that is wished, or None."""
    import numpy as np

    if strips < 2:
        return None
    first, second = table[:, None, :], table[None, :, :]
    gain, lack = first - second, wish - strips * second
    least = np.where(gain > 0, -(-lack // np.maximum(gain, 1)), 1).max(axis=2)
    most = np.where(gain < 0, lack // np.minimum(gain, -1), strips - 1).min(axis=2)
    least, most = np.maximum(least, 1), np.minimum(most, strips - 1)
    works = (least <= most) & ((gain != 0) | (lack <= 0)).all(axis=2)
    if not works.any():
        return None
    # Fewest different cuts; among equal ones the first pair, with as many of its first kind as will do.
    cuts = (table > 0).sum(axis=1)
    one, two = divmod(int(np.argmin(np.where(works, cuts[:, None] + cuts[None, :], 1 << 30))), len(table))
    times = int(most[one, two])
    return [(one, times), (two, strips - times)]


def _trimmed(counted: Counted, wanted: list[int], widths: list[int]) -> Counted:
    """Leave out pieces that are not wanted, of the fullest strips first."""
    spare = [sum(counts[i] * times for counts, times in counted) - n for i, n in enumerate(wanted)]
    trimmed: Counted = []
    for counts, times in sorted(counted, key=lambda one: -sum(n * w for n, w in zip(one[0], widths, strict=True))):
        fewer = [min(n, extra // times) for n, extra in zip(counts, spare, strict=True)]
        spare = [extra - times * n for extra, n in zip(spare, fewer, strict=True)]
        trimmed.append((tuple(n - less for n, less in zip(counts, fewer, strict=True)), times))
    return trimmed


def _gathered(problem: Yardage, plan: Plan, ease: Ease) -> Plan:
    """Take one size after another out of a kind of strip, where other strips that hold it have room for it."""
    best, worth = plan, ease(plan)
    for _ in range(_GATHERINGS):
        found = next(
            (
                (moved, easier)
                for part in range(len(problem.parts))
                for moved in _moves(problem, best, part)
                if (easier := ease(moved)) < worth
            ),
            None,
        )
        if found is None:
            break
        best, worth = found
    return best


def _moves(problem: Yardage, plan: Plan, part: int) -> Iterator[Plan]:
    """Yield plans in which one kind of strip holds no piece of a part, the strips that give fewest of it first."""
    holding = [(sum(lay.columns * lay.stack for lay in p.lays if lay.part == part) * n, p) for p, n in plan.items()]
    holding = sorted((given, pattern) for given, pattern in holding if given)
    need = problem.parts[part].count - sum(given for given, _ in holding)
    for given, pattern in holding if len(holding) > 1 else ():
        hosts = [other for _, other in reversed(holding) if other != pattern]
        moved = _filled(problem, plan, part, need + given, hosts)
        if moved is not None:
            lays = tuple(lay for lay in pattern.lays if lay.part != part)
            _change(moved, pattern, replace(pattern, lays=lays) if lays or pattern.segments else None, plan[pattern])
            yield moved


def _filled(problem: Yardage, plan: Plan, part: int, lacking: int, hosts: list[Pattern]) -> Plan | None:
    """Return the plan with so many more pieces of a part in strips that hold it already, or None."""
    fuller = dict(plan)
    for host in hosts:
        if lacking <= 0:
            break
        lay = next(lay for lay in host.lays if lay.part == part)
        along = sides(problem.parts[part], lay.turned)[0]
        times = plan[host]
        more = min((problem.width - width_used(problem, host)) // along, -(-lacking // (times * lay.stack)))
        if more <= 0:
            continue
        lays = {(one.part, one.turned, one.stack): one.columns for one in host.lays}
        lays[lay.part, lay.turned, lay.stack] += more
        fresh = make_pattern(host.height, lays, dict(host.segments))
        _change(fuller, host, fresh, times)
        lacking -= more * times * lay.stack
    return fuller if lacking <= 0 else None


def _change(plan: Plan, before: Pattern, after: Pattern | None, times: int) -> None:
    """Let so many strips be others, or none."""
    plan[before] -= times
    if not plan[before]:
        del plan[before]
    if after is not None:
        plan[after] = plan.get(after, 0) + times
