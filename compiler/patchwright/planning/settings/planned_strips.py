"""The strips of a strippy quilt as the plan states them.

In: a size of the design, its finished top, and the ids of pieces.
Out: what lies between the columns, and at both edges, with its piece and count.
Never: a place in the top, or how the strips are cut; the cloth plans decide that.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from patchwright.core.length import Finished
from patchwright.design.design import Size
from patchwright.planning.plan import PlannedStrips
from patchwright.planning.settings.drawing import Top
from patchwright.planning.settings.strippy import PART

_PLACES: tuple[Literal["inner"], Literal["edge"]] = ("inner", "edge")


def planned_strips(size: Size, top: Top, ids: Mapping[object, str]) -> tuple[PlannedStrips, ...]:
    """The kinds of strips that a size has, those between the columns first; nothing in another setting."""
    if size.strips is None:
        return ()
    return tuple(
        PlannedStrips(place, ids[key], Finished(need.width), need.count, "crosswise")
        for place in _PLACES for key, need in top.cloth.items() if key.part == PART and key.label == place
    )
