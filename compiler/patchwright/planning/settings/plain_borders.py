"""Butted borders, and borders with corner squares or corner blocks.

In: the edge of everything so far.
Out: two sides as long as what they frame; then top and bottom over the whole width, or between the corners; or only
one of these pairs.
"""

from __future__ import annotations

from patchwright.core.geometry import UPRIGHT, Orientation
from patchwright.core.length import ZERO
from patchwright.design.design import Border
from patchwright.planning.settings.drawing import Drawing, Frame, Place
from patchwright.planning.settings.laying_out import LayingOut


def plain_border(laying: LayingOut, drawing: Drawing, number: int, frame: Frame) -> Frame:
    """Place border `number`; return the edge after it."""
    border = laying.size.borders[number - 1]
    part, wide = f"border-{number}", border.width
    outer = frame.grown(wide if border.sides else ZERO, wide if border.ends else ZERO)
    right, bottom = frame.x + frame.width, frame.y + frame.height
    for x in (outer.x, right) if border.sides else ():
        drawing.lay(border.fabric, part, "side", (x, frame.y, wide, frame.height), border.span)
    cornered = border.corner_kind != "none"
    start, length = (frame.x, frame.width) if cornered else (outer.x, outer.width)
    for y in (outer.y, bottom) if border.ends else ():
        drawing.lay(border.fabric, part, "end", (start, y, length, wide), border.span)
    if cornered:
        for turns, x, y in ((0, outer.x, outer.y), (1, right, outer.y), (3, outer.x, bottom), (2, right, bottom)):
            _corner(laying, drawing, border, part, (x, y, wide, wide), turns)
    return outer


def _corner(laying: LayingOut, drawing: Drawing, border: Border, part: str, place: Place, turns: int) -> None:
    """Place one corner; where the author says how the first lies, turned by so many quarters from there."""
    if border.corner_kind == "fabric":
        drawing.lay(border.corner, part, "corner", place, border.span)
        return
    cells = laying.cells.get(border.corner)
    lay = border.corner_lay.then(Orientation(turns)) if border.corner_lay is not None else UPRIGHT
    key, lies = laying.instances.place_block(border.corner, cells, lay) if cells is not None else (None, UPRIGHT)
    instance = laying.instances.blocks[key] if key is not None else None
    found = (instance.widths[laying.index], instance.heights[laying.index]) if instance is not None else (ZERO, ZERO)
    if key is None or found != place[2:]:
        size = " by ".join(laying.text(side) for side in found) if key is not None else "of no size of its own"
        laying.findings.error(
            "block-size-mismatch",
            f"the corner block `{border.corner}` is {size}, the border {laying.text(border.width)} wide",
            border.span, "a corner block is as wide and as high as its border",
        )
        return
    drawing.place(key, part, lies, place)
