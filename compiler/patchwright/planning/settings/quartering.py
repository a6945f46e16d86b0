"""Which tops are sewn in quarters: those that have fewer long seams so, or whose author asks for it.

In: a size of the design, its top, and the house's rules.
Out: where the top is divided, or nothing for one that is sewn in rows.
Rule: a seam of the center is long from the house's `long-seam` on. In rows every seam between two of them is as long as
the center is wide; in quarters those are half as long, and two seams between quarters and one between halves come to
them. The division is the one nearest to the middle that goes through no block, plain square or sash.
Never: a quarter without a block, or a top that is not set straight.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from patchwright.core.diagnostics import Findings
from patchwright.core.length import Finished, Length
from patchwright.design.design import Size
from patchwright.design.rules import Rules
from patchwright.planning.plan import PlannedQuarters
from patchwright.planning.settings.drawing import Top, TopPart
from patchwright.planning.settings.registry import setting_of

_BLOCKS = ("block", "setting")
_Extent = tuple[Length, Length]
"""Where something begins and ends, across the top or down it."""


def quartered(size: Size, top: Top, rules: Rules, findings: Findings) -> PlannedQuarters | None:
    """Where the center is divided; what is asked for and cannot be is reported."""
    if setting_of(size) != "straight" or size.medallion or size.by_block is not None:
        return None
    asked = size.assemble
    if asked is not None and asked.way == "rows":
        return None
    center = [part for part in top.parts if not part.part.startswith("border")]
    x = _middle([(p.x, p.x + p.width) for p in center], [(p.x, p.x + p.width) for p in center if p.part in _BLOCKS])
    y = _middle([(p.y, p.y + p.height) for p in center], [(p.y, p.y + p.height) for p in center if p.part in _BLOCKS])
    if x is None or y is None:
        if asked is not None:
            findings.error(
                "quarters-impossible", f"`{size.name}` cannot be sewn in quarters: something lies across every line "
                "near its middle, or it has but one row or column of blocks", asked.span,
                "use sashing with cornerstones, whose strips end between the blocks, or `assemble: rows`",
            )
        return None
    if asked is not None or _saves(center, x, y, rules):
        return PlannedQuarters(Finished(x), Finished(y))
    return None


def _middle(parts: Sequence[_Extent], blocks: Sequence[_Extent]) -> Length | None:
    """Where a line nearest to the middle goes between the parts, with blocks on both its sides; the later of two."""
    start, end = min(near for near, _ in parts), max(far for _, far in parts)
    free = [
        at for at in {near for near, _ in parts}
        if all(far <= at or near >= at for near, far in parts)
        and any(far <= at for _, far in blocks) and any(near >= at for near, _ in blocks)
    ]
    twice = start + end
    return min(free, key=lambda at: (abs(at * 2 - twice), -at), default=None)


def _saves(center: Iterable[TopPart], x: Length, y: Length, rules: Rules) -> bool:
    """Whether quarters have fewer long seams than rows."""
    parts = list(center)
    left, right = min(part.x for part in parts), max(part.x + part.width for part in parts)
    upper, lower = min(part.y for part in parts), max(part.y + part.height for part in parts)
    tops = {part.y for part in parts} - {upper}
    width, seams = right - left, rules.seam * 2
    rows = [width] * len(tops)
    halves = [(x - left), (right - x)] * (len(tops) - 1)
    quarters = [*halves, y - upper, lower - y, width]
    return _long(quarters, seams, rules) < _long(rows, seams, rules)


def _long(seams: Iterable[Length], allowance: Length, rules: Rules) -> int:
    """How many seams are long, as they are sewn: their ends are seam allowance."""
    return sum(seam + allowance >= rules.long_seam for seam in seams)
