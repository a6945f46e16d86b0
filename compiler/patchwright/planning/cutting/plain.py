"""The plans to beat: the trade's plain practice, and first fit in order of decreasing height.

Both are quick, use no solver, and are kept as answers that a better plan must improve on.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from .bounds import area_bounds
from .patterns import Pattern, counted, finished, full_strips, make_pattern, sides, total_height, turns
from .problem import Joined, Part, Yardage, YardagePlan, checked


def plain(problem: Yardage) -> YardagePlan:
    """Return the plan of plain practice: each size has its own strips, turned or not, whichever takes less length.

    Joined pieces come from strips of their own across the whole width.
    The strips of one size share its pieces evenly, so that the fullest needs the least width.
    """
    problem = checked(problem)
    return finished(problem, plain_patterns(problem), area_bounds(problem))


def first_fit(problem: Yardage) -> YardagePlan:
    """Return the best of three first-fit plans: pieces laid as given, lying flat, or standing, highest first.

    Each piece goes into the first strip with room for it, laid so as to take the least width.
    """
    problem = checked(problem)
    return finished(problem, first_fit_patterns(problem), area_bounds(problem))


def plain_patterns(problem: Yardage) -> dict[Pattern, int]:
    """Return the strips of plain practice for a checked problem."""
    patterns: dict[Pattern, int] = {}
    for i, part in enumerate(problem.parts):
        _, strips, turned = min(_own_strips(part, turned, problem.width) for turned in turns(part, problem.width))
        patterns[own_pattern(problem, i, turned, strips)] = strips
    for k, long in enumerate(problem.joined):
        strips = full_strips(long, problem.width)
        length = max(long.least, -(-(long.total + long.loss * (strips - 1)) // strips))
        patterns[make_pattern(long.height, {}, {k: length})] = strips
    return patterns


def own_pattern(problem: Yardage, index: int, turned: bool, strips: int) -> Pattern:
    """Return the pattern by which so many strips of their own give all pieces of a part."""
    part = problem.parts[index]
    return make_pattern(sides(part, turned)[1], {(index, turned, 1): -(-part.count // strips)}, {})


def _own_strips(part: Part, turned: bool, width: int) -> tuple[int, int, bool]:
    along, height = sides(part, turned)
    strips = -(-part.count // (width // along))
    return height * strips, strips, turned


@dataclass(slots=True)
class _Open:
    """A strip being filled: what is left of its width, and what it gives so far; at most one segment to a strip."""

    height: int
    left: int
    lays: dict[tuple[int, bool, int], int] = field(default_factory=dict)
    segments: dict[int, int] = field(default_factory=dict)


def first_fit_patterns(problem: Yardage) -> dict[Pattern, int]:
    """Return the shortest of the three first-fit plans for a checked problem."""
    ways = ("given", "flat", "standing")
    openings = [tuple(_turn_to_open(part, problem.width, way) for part in problem.parts) for way in ways]
    plans = [_first_fit(problem, opening) for opening in dict.fromkeys(openings)]
    return min(plans, key=lambda patterns: (total_height(patterns), len(patterns)))


def _first_fit(problem: Yardage, opening: Sequence[bool]) -> dict[Pattern, int]:
    rows: list[tuple[int, int, int]] = [
        (-sides(part, opening[i])[1], -sides(part, opening[i])[0], i) for i, part in enumerate(problem.parts)
    ]
    rows += [(-long.height, 1, k) for k, long in enumerate(problem.joined)]
    strips: list[_Open] = []
    for _, kind, index in sorted(rows):
        if kind == 1:
            _fill_joined(problem, index, strips)
        else:
            _fill_part(problem, index, opening[index], strips)
    return counted(make_pattern(strip.height, strip.lays, strip.segments) for strip in strips)


def _turn_to_open(part: Part, width: int, preference: str) -> bool:
    allowed = list(turns(part, width))
    if preference == "given" or len(allowed) == 1:
        return allowed[0]
    lower = part.width < part.height
    return lower if preference == "flat" else not lower


def _fill_part(problem: Yardage, index: int, opening: bool, strips: list[_Open]) -> None:
    part = problem.parts[index]
    rest = part.count
    options = sorted((sides(part, t)[0], t, sides(part, t)[1]) for t in turns(part, problem.width))
    for strip in strips:
        if not rest:
            return
        if strip.left < options[0][0]:
            continue
        for along, turned, height in options:
            if height <= strip.height:
                rest -= _lay(strip, index, along, turned, rest)
                break
    while rest:
        along, height = sides(part, opening)
        strips.append(_Open(height, problem.width))
        rest -= _lay(strips[-1], index, along, opening, rest)


def _lay(strip: _Open, index: int, along: int, turned: bool, most: int) -> int:
    columns = min(most, strip.left // along)
    if columns:
        strip.lays[index, turned, 1] = strip.lays.get((index, turned, 1), 0) + columns
        strip.left -= columns * along
    return columns


def _fill_joined(problem: Yardage, index: int, strips: list[_Open]) -> None:
    long = problem.joined[index]
    if long.total <= 0:
        return
    if long.total <= problem.width:
        # A piece that the width gives whole is never joined here: it wants one strip with room for all of it.
        length = max(long.total, long.least)
        fitting = (s for s in strips if s.height >= long.height and s.left >= length and not s.segments)
        room = next(fitting, None)
        if room is None:
            room = _Open(long.height, problem.width)
            strips.append(room)
        room.segments[index] = length
        room.left -= length
        return
    rest = long.total - long.loss
    for strip in strips:
        if rest > 0 and strip.height >= long.height:
            rest -= _give(strip, long, index, rest)
    while rest > 0:
        strips.append(_Open(long.height, problem.width))
        rest -= _give(strips[-1], long, index, rest)


def _give(strip: _Open, long: Joined, index: int, rest: int) -> int:
    """Give the joined piece what the strip has left and return what it gains after the join's loss."""
    length = min(strip.left, max(long.least, rest + long.loss))
    if strip.segments or length < long.least or length <= long.loss:
        return 0
    strip.segments[index] = length
    strip.left -= length
    return length - long.loss
