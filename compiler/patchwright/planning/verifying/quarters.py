"""Checks of a top that is sewn in quarters: nothing lies across its division, and each quarter has blocks.

In: one size of a plan.
Out: one sentence for each fault.
Never: the count of long seams by which planning chose; a top may be sewn either way.
"""

from __future__ import annotations

from collections.abc import Iterator

from patchwright.planning.plan import PlannedSize


def quarter_faults(size: PlannedSize) -> Iterator[str]:
    """What is wrong with the division of one size."""
    if size.quarters is None:
        return
    if size.setting != "straight" or size.medallion or size.by_block is not None:
        yield f"`{size.name}` is sewn in quarters, but not set straight"
        return
    center = [item for item in size.items if not item.part.startswith("border")]
    x, y = size.quarters.x.length, size.quarters.y.length
    across = sum(item.x < x < item.x + item.width or item.y < y < item.y + item.height for item in center)
    if across:
        yield f"{across} parts of `{size.name}` lie across the division into quarters"
    blocks = [(item.x < x, item.y < y) for item in center if item.part in ("block", "setting")]
    if len(set(blocks)) < 4:
        yield f"`{size.name}` has a quarter without a block"
