"""Hatches as lines: parallel lines of a theme's hatch, clipped to polygons and joined across their shared edges.

In: polygons in points on the page, of any shape that does not cross itself, and a hatch.
Out: straight strokes that lie inside the polygons.
Never: a pattern or a clip path of the output format; renderers disagree about both.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from math import ceil, cos, floor, radians, sin

from patchwright.core.theme import Hatch, HatchLines
from patchwright.diagrams.scene import XY

Stroke = tuple[float, float, float, float]
"""From x, y to x, y."""

_JOIN = 0.02
"""Strokes of one line that are nearer than this, in points, become one."""
_SHORTEST = 0.05


def hatch_strokes(polygons: Sequence[Sequence[XY]], hatch: Hatch) -> Iterator[Stroke]:
    """The strokes of a hatch over the union of polygons that do not overlap.

    All lines hang on the page's origin, so that the hatch runs on from patch to patch.
    """
    for lines in hatch.lines:
        across, along = _axes(lines.angle)
        spans = _clipped(polygons, lines, across, along)
        for number in sorted(spans):
            level = lines.start + number * lines.spacing
            pieces = _joined(spans[number])
            for start, end in _dashed(pieces, lines, number, hatch.width / 2):
                yield (
                    start * along[0] + level * across[0],
                    start * along[1] + level * across[1],
                    end * along[0] + level * across[0],
                    end * along[1] + level * across[1],
                )


def _axes(angle: float) -> tuple[XY, XY]:
    """Unit vectors across and along lines at an angle counterclockwise from level, where y runs down."""
    turn = radians(angle)
    cosine, sine = round(cos(turn), 12), round(sin(turn), 12)
    return (sine, cosine), (cosine, -sine)


def _clipped(
    polygons: Sequence[Sequence[XY]], lines: HatchLines, across: XY, along: XY
) -> dict[int, list[tuple[float, float]]]:
    """For each line, by number, the spans along it that lie inside a polygon."""
    spans: dict[int, list[tuple[float, float]]] = {}
    (across_x, across_y), (along_x, along_y) = across, along
    first, spacing = lines.start, lines.spacing
    for polygon in polygons:
        crossings: dict[int, list[float]] = {}
        corners = [
            ((x * across_x + y * across_y - first) / spacing, x * along_x + y * along_y) for x, y in polygon
        ]
        for (low, place), (high, next_place) in zip([corners[-1], *corners], corners, strict=False):
            if low > high:
                low, place, high, next_place = high, next_place, low, place
            # Each edge owns its lower end and not its upper one.
            numbers = range(ceil(low), ceil(high))
            if numbers:
                slope = (next_place - place) / (high - low)
                for number in numbers:
                    crossings.setdefault(number, []).append(place + (number - low) * slope)
        for number, found in crossings.items():
            found.sort()
            spans.setdefault(number, []).extend(zip(found[::2], found[1::2], strict=False))
    return spans


def _joined(spans: list[tuple[float, float]]) -> Iterator[tuple[float, float]]:
    """The spans in order, with those that touch made one."""
    spans.sort()
    start, end = spans[0]
    for next_start, next_end in spans:
        if next_start - end > _JOIN:
            yield start, end
            start, end = next_start, next_end
        end = max(end, next_end)
    yield start, end


def _dashed(
    spans: Iterable[tuple[float, float]], lines: HatchLines, number: int, inset: float
) -> Iterator[tuple[float, float]]:
    """Cut spans into the dashes of their line; solid lines pass whole. Round ends stay inside by the inset."""
    period = lines.on + lines.off
    for start, end in spans:
        low, high = start + inset, end - inset
        if not lines.off:
            if high - low > _SHORTEST:
                yield low, high
            continue
        phase = lines.shift + lines.stagger * number
        for dash in range(floor((low - phase) / period), ceil((high - phase) / period) + 1):
            begin, finish = max(low, phase + dash * period), min(high, phase + dash * period + lines.on)
            if finish - begin >= min(lines.on * 0.5, 2 * _SHORTEST):
                yield begin, finish
