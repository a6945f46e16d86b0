"""Counts again what is cut by a repeat: whole repeats for every piece, and cloth enough wherever it begins.

In: a planned fabric with a repeat, its cutting in one size, and the cut sizes of pieces.
Out: a sentence for each thing that does not agree.
Never: a function of the planner.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from patchwright.core.length import Length
from patchwright.planning.plan import FabricSize, PieceSize, PlannedFabric
from patchwright.planning.verifying.sums import NOTHING

Pair = tuple[Length, Length]


def fills_repeats(repeat: Pair, cut: Pair, taken: Pair) -> bool:
    """Whether a piece takes the fewest whole repeats across, and along where the repeat has a height."""
    return _fewest(cut[0], taken[0], repeat[0]) and _fewest(cut[1], taken[1], repeat[1])


def _fewest(cut: Length, taken: Length, repeat: Length) -> bool:
    if not repeat:
        return taken == cut
    whole = (taken / repeat.rational())
    return whole.is_rational and whole.rational().denominator == 1 and cut <= taken < cut + repeat


def repeat_faults(fabric: PlannedFabric, own: FabricSize, sizes: Mapping[str, PieceSize]) -> Iterator[str]:
    """At the worst place where the cloth may begin, one repeat is cut off, but for the margins of the pieces."""
    if fabric.repeat is None:
        return
    across, along = fabric.repeat
    yields = [part for strip in own.strips for part in strip.yields]
    if any(strip.segments for strip in own.strips):
        yield "a strip of matched cloth is joined"
    margins = [part.width - _lying(part.width, part.height, sizes[part.piece])[0] for part in yields]
    rims = [part.height - _lying(part.width, part.height, sizes[part.piece])[1] for part in yields]
    for strip in own.strips:
        taken = NOTHING
        for part in strip.yields:
            taken += part.width * -(-part.each // part.stack)
        if margins and taken + across - min(margins) > fabric.source.size[0]:
            yield "a strip counts more repeats than the cloth is sure to have"
    lost = along - min(rims) if along and rims else NOTHING
    if dict(own.extra).get("matching", NOTHING) != lost:
        yield "the length for matching is not a repeat less what lies around the pieces"


def _lying(wide: Length, high: Length, size: PieceSize) -> Pair:
    """The piece's cut size as it lies in the repeats that it takes."""
    cut = (size.width.length, size.height.length)
    return cut if cut[0] <= wide and cut[1] <= high else (cut[1], cut[0])
