"""Cloth with a repeat: patches centered on motifs, and borders cut from one place of a stripe.

In: pieces as they lie on the cloth, the repeat across and along the bolt, the usable width.
Out: the same pieces as whole repeats, the width that they are sure to have, and the length that matching takes.
Never: a count from area. The cloth may begin anywhere in its repeat, so that one, less what lies around
the pieces, is lost across and along.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from patchwright.core.length import ZERO, Length
from patchwright.planning.cloth import Flat


@dataclass(frozen=True, slots=True)
class Repeats:
    """Pieces in whole repeats."""

    flats: tuple[Flat, ...]
    width: Length
    """Of all repeats that the cloth is sure to have side by side."""
    lost: Length
    """What of a repeat is lost across the cloth, wherever it begins."""
    extra: Length
    """The same along the cloth; 0 for stripes."""


def in_repeats(flats: Sequence[Flat], repeat: tuple[Length, Length], usable: Length) -> Repeats:
    """Every piece takes so many repeats that it fits, centered; the narrowest margin is all that may be cut into."""
    across, along = repeat
    made, margins, rims = [], [], []
    for flat in flats:
        wide = _whole(flat.width, across)
        high = _whole(flat.height, along) if along else flat.height
        margins.append(wide - flat.width)
        rims.append(high - flat.height)
        made.append(replace(flat, width=wide, height=high, turn=False))
    lost = across - min(margins, default=ZERO)
    count = max(((usable - lost) / across.rational()).floor(), 0)
    return Repeats(tuple(made), across * count, lost, along - min(rims, default=ZERO) if along else ZERO)


def _whole(length: Length, repeat: Length) -> Length:
    return repeat * (length / repeat.rational()).ceil()
