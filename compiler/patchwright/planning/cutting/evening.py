"""Equal strips and spare width: pieces and joined lengths are shared out over the strips that give them.

Comes in: a plan. Goes out: a plan of the same strips, or fewer, that needs less width; never more length.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from .patterns import Pattern, make_pattern, pieces_made, width_used
from .problem import Yardage

Plan = dict[Pattern, int]


def evened(problem: Yardage, plan: Mapping[Pattern, int]) -> Plan:
    """Share the pieces of each part evenly over the strips that hold nothing else, and joined lengths likewise."""
    even = dict(plan)
    for part in range(len(problem.parts)):
        _even_part(problem, even, part)
    for long in range(len(problem.joined)):
        _even_joined(problem, even, long)
        _level_joined(problem, even, long)
    return {pattern: count for pattern, count in even.items() if count}


def _even_part(problem: Yardage, plan: Plan, part: int) -> None:
    own = [p for p in plan if len(p.lays) == 1 and p.lays[0].part == part and not p.segments]
    kinds = {(p.height, p.lays[0].turned, p.lays[0].stack) for p in own}
    if len(kinds) != 1:
        return
    (height, turned, stack) = kinds.pop()
    per_strip = max(p.lays[0].columns for p in own) * stack
    given = sum(lay.columns * lay.stack * plan[p] for p in own for lay in p.lays)
    need = problem.parts[part].count - pieces_made(plan, len(problem.parts))[part] + given
    for pattern in own:
        del plan[pattern]
    if need > 0:
        strips = -(-need // per_strip)
        columns = -(-need // (strips * stack))
        fresh = make_pattern(height, {(part, turned, stack): columns}, {})
        plan[fresh] = plan.get(fresh, 0) + strips


def _level_joined(problem: Yardage, plan: Plan, long: int) -> None:
    """Shorten the segments of a joined piece, those in the fullest strips first, while together they are long enough.

    The strips and their number stay as they are.
    """
    piece = problem.joined[long]
    given = [(p, n, length) for p, n in sorted(plan.items()) for k, length in p.segments if k == long]
    need = piece.total - piece.loss
    if piece.total <= problem.width or sum(n * (length - piece.loss) for _, n, length in given) < need:
        return
    least = max(piece.least, piece.loss + 1)

    def shortened(pattern: Pattern, length: int, level: int) -> int:
        return max(min(length, least), length - max(0, width_used(problem, pattern) - level))

    low, high = 0, problem.width
    while low < high:
        level = (low + high) // 2
        if sum(n * (shortened(p, length, level) - piece.loss) for p, n, length in given) >= need:
            high = level
        else:
            low = level + 1
    for pattern, _, length in given:
        count = plan.pop(pattern)
        fresh = replace(pattern, segments=((long, shortened(pattern, length, low)),))
        plan[fresh] = plan.get(fresh, 0) + count


def _even_joined(problem: Yardage, plan: Plan, long: int) -> None:
    """Take as few whole strips of a joined piece as do beside its segments in other strips."""
    piece = problem.joined[long]
    own = [p for p in plan if not p.lays and len(p.segments) == 1 and p.segments[0][0] == long]
    if not own or len({p.height for p in own}) != 1 or piece.total <= problem.width:
        return
    others = sum(
        (length - piece.loss) * n for p, n in plan.items() if p not in own for k, length in p.segments if k == long
    )
    need = piece.total - piece.loss - others
    height = own[0].height
    for pattern in own:
        del plan[pattern]
    if need > 0:
        strips = -(-need // (problem.width - piece.loss))
        length = max(piece.least, -(-need // strips) + piece.loss)
        fresh = make_pattern(height, {}, {long: length})
        plan[fresh] = plan.get(fresh, 0) + strips
