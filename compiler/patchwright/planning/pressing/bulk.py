"""Points where more than six seams meet, the trade's advice for them, and what following it costs.

In: a model and the junctions that nest.
Out: heavy points, each with its advice; what several of them change together.
Rule (common practice): a crossing in the middle of a joining line is spun, any other line is pressed open.
Never: a change to the plan; advice is for the maker to follow.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from patchwright.planning.pressing.model import Model
from patchwright.planning.pressing.results import HeavyPoint, Junction, PressingPlan
from patchwright.planning.pressing.terms import Seam

Changed = tuple[tuple[int, ...], tuple[int, ...]]
"""Junctions that nest no more, and those that nest then, in each size."""


def heavy_points(
    model: Model, junctions: Sequence[Junction], ways: Mapping[Seam, tuple[int, int]]
) -> tuple[HeavyPoint, ...]:
    """All heavy points by joining line; `ways` are the directions of every seam's halves."""
    return tuple(_points(model, junctions, ways))


def followed(pressing: PressingPlan, points: Iterable[HeavyPoint]) -> Changed:
    """What the advice for all of these points together changes; a junction of two of their seams is counted once."""
    ways = {
        end.seam: pressing.pressed(end.seam).halves for junction in pressing.junctions
        for end in (junction.first, junction.second)
    }
    asked = [point for point in points if point.advice != "spun"]
    turned = {(point.line, half) for point in asked for half in point.turned}
    opened = {point.line for point in asked if point.advice == "open"}
    return _changed(pressing.junctions, ways, turned, opened, len(pressing.sizes))


def _points(
    model: Model, junctions: Sequence[Junction], ways: Mapping[Seam, tuple[int, int]]
) -> Iterator[HeavyPoint]:
    sizes = len(model.sizes)
    for (line, seams), counts in model.heavy.items():
        start, finish = ways[line]
        sense = _crossing_sense(model, line, ways)
        if start != finish:
            nothing = (0,) * sizes
            yield HeavyPoint(line, seams, tuple(counts), "spun", nothing, nothing)
        elif sense and start:
            half = 1 if sense == start else 0
            changed = _changed(junctions, ways, {(line, half)}, set(), sizes)
            yield HeavyPoint(line, seams, tuple(counts), "spin", *changed, (half,))
        else:
            yield HeavyPoint(line, seams, tuple(counts), "open", *_changed(junctions, ways, set(), {line}, sizes))


def _crossing_sense(model: Model, line: Seam, ways: Mapping[Seam, tuple[int, int]]) -> int:
    """The sense of the pair that crosses in the middle of a line, if there is one and it nests; else 0."""
    crossings = model.spins.get(line, ())
    pair = (crossings[0].first, crossings[0].second) if len(crossings) == 1 else ()
    senses = {end.sign * ways[end.seam][end.half] for end in pair} or {0}
    return senses.pop() if len(senses) == 1 else 0


def _changed(
    junctions: Sequence[Junction], ways: Mapping[Seam, tuple[int, int]], turned: set[tuple[Seam, int]],
    opened: set[Seam], sizes: int,
) -> Changed:
    """Junctions lost and gained where these halves of seams are pressed the other way, and these seams open."""
    lost, gained = [0] * sizes, [0] * sizes
    for junction in junctions:
        ends = (junction.first, junction.second)
        is_open = any(end.seam in opened or not ways[end.seam][end.half] for end in ends)
        # Two halves that are both pressed the other way lie opposed as before.
        flips = sum((end.seam, end.half) in turned for end in ends) == 1
        nests = junction.can_nest and not is_open and junction.nests != flips
        if nests != junction.nests:
            changed = gained if nests else lost
            for index, count in enumerate(junction.counts):
                changed[index] += count
    return tuple(lost), tuple(gained)
