"""Points where more than six seams meet, the trade's advice for them, and what following it costs.

In: a model and the junctions that nest.
Out: heavy points, each with its advice.
Rule (common practice): a crossing in the middle of a joining line is spun, any other line is pressed open.
Never: a change to the plan; advice is for the maker to follow.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from patchwright.planning.pressing.model import Model
from patchwright.planning.pressing.results import HeavyPoint, Junction
from patchwright.planning.pressing.terms import Seam


def heavy_points(
    model: Model, junctions: Sequence[Junction], ways: Mapping[Seam, tuple[int, int]]
) -> tuple[HeavyPoint, ...]:
    """All heavy points by joining line; `ways` are the directions of every seam's halves."""
    return tuple(_points(model, junctions, ways))


def _points(
    model: Model, junctions: Sequence[Junction], ways: Mapping[Seam, tuple[int, int]]
) -> Iterator[HeavyPoint]:
    for (line, seams), counts in model.heavy.items():
        start, finish = ways[line]
        sense = _crossing_sense(model, line, ways)
        if start != finish:
            yield HeavyPoint(line, seams, tuple(counts), "spun", *_changed(model, line, junctions, ()))
        elif sense and start:
            turned = (1,) if sense == start else (0,)
            yield HeavyPoint(line, seams, tuple(counts), "spin", *_changed(model, line, junctions, turned))
        else:
            yield HeavyPoint(line, seams, tuple(counts), "open", *_opened(model, line, junctions))


def _crossing_sense(model: Model, line: Seam, ways: Mapping[Seam, tuple[int, int]]) -> int:
    """The sense of the pair that crosses in the middle of a line, if there is one and it nests; else 0."""
    pair = model.spins.get(line)
    senses = {end.sign * ways[end.seam][end.half] for end in pair} if pair is not None else {0}
    return senses.pop() if len(senses) == 1 else 0


def _changed(
    model: Model, line: Seam, junctions: Sequence[Junction], turned: tuple[int, ...]
) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """Junctions lost and gained where these halves of a line are pressed the other way."""
    lost, gained = [0] * len(model.sizes), [0] * len(model.sizes)
    for junction in junctions:
        ends = [end for end in (junction.first, junction.second) if end.seam == line and end.half in turned]
        if len(ends) == 1:
            changed = lost if junction.nests else gained
            for index, count in enumerate(junction.counts):
                changed[index] += count
    return tuple(lost), tuple(gained)


def _opened(model: Model, line: Seam, junctions: Sequence[Junction]) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """Junctions lost where a line is pressed open."""
    lost = [0] * len(model.sizes)
    for junction in junctions:
        if junction.nests and line in (junction.first.seam, junction.second.seam):
            for index, count in enumerate(junction.counts):
                lost[index] += count
    return tuple(lost), (0,) * len(lost)
