"""The independent check of sashing between blocks that lie straight: as wide as it is said to be, beside the blocks.

In: one size of a finished plan.
Out: one sentence for each thing that does not agree.
Never: a function of the settings; only the places of the parts.
"""

from __future__ import annotations

from collections.abc import Iterator

from patchwright.core.length import Length
from patchwright.planning.plan import PlannedSize, TopItem


def sash_faults(size: PlannedSize) -> Iterator[str]:
    """What is wrong with the sashing of a size that is set straight."""
    if size.setting != "straight":
        return
    strips = [item for item in size.items if item.part == "sashing"]
    stones = [item for item in size.items if item.part == "cornerstones"]
    if size.sash_width is None or size.sash_height is None:
        if strips or stones:
            yield "the top has sashing that is not stated"
        return
    across, down = size.sash_width.length, size.sash_height.length
    rows = {(item.y, item.height) for item in size.items if item.part in ("block", "setting")}
    upright = [item for item in strips if (item.y, item.height) in rows]
    yield from _wrong("between columns", upright, "width", across)
    yield from _wrong("between rows", [item for item in strips if item not in upright], "height", down)
    if any((item.width, item.height) != (across, down) for item in stones):
        yield "a cornerstone is not as large as the sashing is wide"
    if bool(stones) != size.cornerstones and len(upright) * (len(strips) - len(upright)):
        yield "the cornerstones are not those that are stated"
    if not across and upright:
        yield "sashing between columns that is not stated"


def _wrong(where: str, strips: list[TopItem], side: str, wide: Length) -> Iterator[str]:
    if any(getattr(item, side) != wide for item in strips):
        yield f"sashing {where} is not as wide as it is said to be"
