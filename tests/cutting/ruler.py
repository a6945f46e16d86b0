"""A straight-ruler checker that knows nothing of how a plan was made.

It lays every strip out as rectangles, cuts the cloth again edge to edge, and counts what falls out.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from patchwright.planning.cutting import Strip, Yardage, YardagePlan


@dataclass(frozen=True)
class Rectangle:
    """A rectangle on the cloth: x and width across it, y and height along it."""

    key: str
    x: int
    y: int
    width: int
    height: int


def rectangles(strip: Strip) -> list[Rectangle]:
    """Lay the strip's cuts side by side from its left end, stacked pieces above each other, then its segments."""
    placed: list[Rectangle] = []
    x = 0
    for cut in strip.cuts:
        assert cut.each % cut.stack == 0
        for _ in range(cut.each // cut.stack):
            placed += [Rectangle(cut.key, x, cut.height * row, cut.width, cut.height) for row in range(cut.stack)]
            x += cut.width
    for segment in strip.segments:
        placed.append(Rectangle(segment.key, x, 0, segment.length, -1))
        x += segment.length
    assert x == strip.used
    return placed


def apart(first: Rectangle, second: Rectangle) -> bool:
    """Tell whether two rectangles share no inner point."""
    return (
        first.x + first.width <= second.x
        or second.x + second.width <= first.x
        or first.y + first.height <= second.y
        or second.y + second.height <= first.y
    )


def ruler_can_cut(placed: list[Rectangle], x: int, y: int, width: int, height: int) -> bool:
    """Tell whether edge-to-edge cuts take the cloth apart so that no piece is cut through."""
    if len(placed) <= 1:
        return True
    for cut in sorted({r.x for r in placed if r.x > x} | {r.x + r.width for r in placed if r.x + r.width < x + width}):
        if all(r.x + r.width <= cut or r.x >= cut for r in placed):
            left = [r for r in placed if r.x + r.width <= cut]
            right = [r for r in placed if r.x >= cut]
            if left and right:
                return ruler_can_cut(left, x, y, cut - x, height) and ruler_can_cut(
                    right, cut, y, x + width - cut, height
                )
    for cut in sorted(
        {r.y for r in placed if r.y > y} | {r.y + r.height for r in placed if r.y + r.height < y + height}
    ):
        if all(r.y + r.height <= cut or r.y >= cut for r in placed):
            low = [r for r in placed if r.y + r.height <= cut]
            high = [r for r in placed if r.y >= cut]
            if low and high:
                return ruler_can_cut(low, x, y, width, cut - y) and ruler_can_cut(high, x, cut, width, y + height - cut)
    return False


def check(problem: Yardage, plan: YardagePlan) -> None:
    """Fail unless the plan cuts everything asked for from the cloth that it says."""
    parts = {part.key: part for part in problem.parts}
    joined = {long.key: long for long in problem.joined}
    made: Counter[str] = Counter()
    segments: dict[str, list[int]] = {}
    for strip in plan.strips:
        assert strip.count > 0
        placed = [
            Rectangle(r.key, r.x, r.y, r.width, joined[r.key].height if r.height < 0 else r.height)
            for r in rectangles(strip)
        ]
        for r in placed:
            assert r.x >= 0
            assert r.x + r.width <= problem.width
            assert r.y >= 0
            assert r.y + r.height <= strip.height
            if r.key in parts:
                part = parts[r.key]
                same = (r.width, r.height) == (part.width, part.height)
                assert same or (part.turn and (r.height, r.width) == (part.width, part.height))
                made[r.key] += strip.count
        assert all(apart(a, b) for i, a in enumerate(placed) for b in placed[:i])
        assert ruler_can_cut(placed, 0, 0, problem.width, strip.height)
        for segment in strip.segments:
            assert segment.length >= min(joined[segment.key].least, joined[segment.key].total)
            segments.setdefault(segment.key, []).extend([segment.length] * strip.count)
    assert all(made[part.key] >= part.count for part in problem.parts)
    assert {key: n for key, n in plan.made if n} == dict(made)
    for long in problem.joined:
        if long.total > 0:
            lengths = segments[long.key]
            assert sum(lengths) - long.loss * (len(lengths) - 1) >= long.total
            assert dict(plan.joins)[long.key] == len(lengths) - 1
    assert plan.length == sum(strip.height * strip.count for strip in plan.strips)
    assert plan.smallest_width == max((strip.used for strip in plan.strips), default=0)
    if plan.strips:
        assert problem.purchasable[plan.step - 1] >= plan.length
        assert plan.step == 1 or problem.purchasable[plan.step - 2] < plan.length
    assert plan.length_bound <= plan.length
    assert plan.step_bound <= plan.step
    assert plan.proof in {"proven", "proven by solver", "gap"}
    assert (plan.proof == "gap") == (plan.step_bound < plan.step)
