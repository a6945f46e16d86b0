"""Patterns: what one strip yields, as the optimizer sees it, and the way from counted patterns to a finished plan.

Comes in: a checked problem and how often each pattern is cut. Goes out: a YardagePlan.
Nothing here chooses a pattern.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from .problem import GAP, PROVEN, PROVEN_BY_SOLVER, Cut, Joined, Part, Segment, Strip, Yardage, YardagePlan


@dataclass(frozen=True, slots=True, order=True)
class Lay:
    """Sections of one part in a strip: `columns` sections cut into `stack` rows, each piece turned or not."""

    part: int
    turned: bool
    stack: int
    columns: int


@dataclass(frozen=True, slots=True, order=True)
class Pattern:
    """One strip of `height`: its lays, and the segments (joined piece, length) that its end gives to joined pieces."""

    height: int
    lays: tuple[Lay, ...]
    segments: tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True)
class Bounds:
    """Lower bounds of a problem: `length` in grid units, `step` from one; `solver` tells that a solver was trusted."""

    length: int
    step: int
    solver: bool


def sides(part: Part, turned: bool) -> tuple[int, int]:
    """Return the width along the strip and the height across it of a part so laid."""
    return (part.height, part.width) if turned else (part.width, part.height)


def turns(part: Part, width: int) -> Iterator[bool]:
    """Yield the ways a part may be laid on a strip of the given usable width, unturned first."""
    if part.width <= width:
        yield False
    if part.turn and part.width != part.height and part.height <= width:
        yield True


def width_used(problem: Yardage, pattern: Pattern) -> int:
    """Return how much of the strip's width the pattern takes."""
    cut = sum(sides(problem.parts[lay.part], lay.turned)[0] * lay.columns for lay in pattern.lays)
    return cut + sum(length for _, length in pattern.segments)


def full_strips(long: Joined, width: int) -> int:
    """Return how many whole strips a joined piece takes: one when the width gives it unjoined."""
    return 1 if long.total <= width else -(-(long.total - long.loss) // (width - long.loss))


def pieces_made(patterns: Mapping[Pattern, int], parts: int) -> list[int]:
    """Return how many pieces of each part the counted patterns give."""
    made = [0] * parts
    for pattern, count in patterns.items():
        for lay in pattern.lays:
            made[lay.part] += lay.columns * lay.stack * count
    return made


def total_height(patterns: Mapping[Pattern, int]) -> int:
    """Return the length of cloth that the counted patterns take."""
    return sum(pattern.height * count for pattern, count in patterns.items())


def counted(patterns: Iterable[Pattern]) -> dict[Pattern, int]:
    """Count equal patterns."""
    counts: dict[Pattern, int] = {}
    for pattern in patterns:
        counts[pattern] = counts.get(pattern, 0) + 1
    return counts


def make_pattern(height: int, lays: Mapping[tuple[int, bool, int], int], segments: Mapping[int, int]) -> Pattern:
    """Return the pattern with these columns per (part, turned, stack) and segment lengths, in the one stable order."""
    laid = tuple(sorted(Lay(*key, columns) for key, columns in lays.items() if columns))
    return Pattern(height, laid, tuple(sorted(segments.items())))


def own_patterns(problem: Yardage) -> Iterator[Pattern]:
    """Yield, for each turn of each part and for each joined piece, the strip that holds nothing else and is full."""
    for i, part in enumerate(problem.parts):
        for turned in turns(part, problem.width) if part.count else ():
            along, height = sides(part, turned)
            yield make_pattern(height, {(i, turned, 1): min(part.count, problem.width // along)}, {})
    for k, long in enumerate(problem.joined):
        if long.total > 0:
            yield make_pattern(long.height, {}, {k: min(max(long.total, long.least), problem.width)})


def finished(problem: Yardage, patterns: Mapping[Pattern, int], bounds: Bounds) -> YardagePlan:
    """Return the plan that cuts each pattern so many times: highest strips first, then the fullest, then identical."""
    strips = sorted((_strip(problem, p, n) for p, n in patterns.items() if n), key=_strip_order)
    made = pieces_made(patterns, len(problem.parts))
    pieces_of = [0] * len(problem.joined)
    for pattern, count in patterns.items():
        for long, _ in pattern.segments:
            pieces_of[long] += count
    length = total_height(patterns)
    step = problem.step(length)
    proof = (PROVEN_BY_SOLVER if bounds.solver else PROVEN) if step == bounds.step else GAP
    return YardagePlan(
        strips=tuple(strips),
        length=length,
        step=step,
        length_bound=min(bounds.length, length),
        step_bound=bounds.step,
        proof=proof,
        made=tuple((part.key, made[i]) for i, part in enumerate(problem.parts)),
        joins=tuple((long.key, pieces_of[k] - 1) for k, long in enumerate(problem.joined)),
        smallest_width=max((strip.used for strip in strips), default=0),
    )


def _strip(problem: Yardage, pattern: Pattern, count: int) -> Strip:
    cuts = []
    for lay in pattern.lays:
        part = problem.parts[lay.part]
        width, height = sides(part, lay.turned)
        cuts.append(Cut(part.key, lay.columns * lay.stack, width, height, lay.turned, lay.stack))
    cuts.sort(key=lambda cut: (-cut.width, -cut.height, cut.key))
    segments = tuple(Segment(problem.joined[long].key, length) for long, length in pattern.segments)
    return Strip(pattern.height, count, tuple(cuts), segments, width_used(problem, pattern))


def _strip_order(strip: Strip) -> tuple[object, ...]:
    cuts = tuple((-cut.width, -cut.height, -cut.each, cut.key) for cut in strip.cuts)
    # Strips of a joined piece alone come first among equals: they are cut full and need no second look.
    return (-strip.height, len(strip.cuts) + len(strip.segments), cuts, -strip.count, strip.segments != (), repr(strip))
