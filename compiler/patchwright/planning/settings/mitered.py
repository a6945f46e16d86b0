"""Mitered borders: four strips that meet in a diagonal seam at each corner.

Strips are cut as long as the quilt is with the border, and by the house's extra longer; several mitered borders that
follow on each other are sewn together first and mitered as one, so that all their strips are cut to one length.
Common practice, no source.
"""

from __future__ import annotations

from patchwright.core.geometry import Point, Polygon
from patchwright.core.length import Cut, Length
from patchwright.design.design import Size
from patchwright.planning.settings.drawing import ClothKey, ClothNeed, Drawing, Frame
from patchwright.planning.settings.laying_out import LayingOut


def mitered_border(laying: LayingOut, drawing: Drawing, number: int, frame: Frame) -> Frame:
    """Place border `number`; return the edge after it."""
    border = laying.size.borders[number - 1]
    part, wide = f"border-{number}", border.width
    outer = frame.grown(wide, wide)
    whole = frame
    for other in mitered_together(laying.size, number):
        if other >= number:
            width = laying.size.borders[other - 1].width
            whole = whole.grown(width, width)
    keys = [ClothKey(border.fabric, part, label) for label in ("side", "end")]
    level = laying.instances.is_one_way(border.fabric)
    for key, finished, long in zip(keys, (outer.height, outer.width), (whole.height, whole.width), strict=True):
        cut = (_strip(laying, wide), _long(laying, long))
        need = ClothNeed(wide, finished, 2, cut)
        if level and key.label == "end":
            # A one-way print stands upright at top and bottom too.
            need = ClothNeed(finished, wide, 2, cut[::-1])
        drawing.need(key, need, border.span)
    for index, outline in enumerate(_trapezoids(frame, outer)):
        drawing.shape(keys[index // 2], outline)
    return outer


def mitered_together(size: Size, number: int) -> tuple[int, ...]:
    """The numbers of all mitered borders that follow on each other around this one, itself included."""
    borders = size.borders
    first = last = number
    while first > 1 and borders[first - 2].corner_kind == "mitered":
        first -= 1
    while last < len(borders) and borders[last].corner_kind == "mitered":
        last += 1
    return tuple(range(first, last + 1))


def _strip(laying: LayingOut, wide: Length) -> Cut:
    return Cut(wide + laying.instances.design.rules.seam * 2)


def _long(laying: LayingOut, finished: Length) -> Cut:
    """The length to cut: the finished outer length and the house's extra, never less than two seams."""
    rules = laying.instances.design.rules
    length = finished + max(rules.miter_extra, rules.seam * 2)
    return Cut(length if length.is_rational else length.up_to(rules.round_cuts))


def _trapezoids(inner: Frame, outer: Frame) -> tuple[Polygon, Polygon, Polygon, Polygon]:
    """Left, right, top and bottom."""
    (a, b, c, d), (e, f, g, h) = _corners(outer), _corners(inner)
    return (a, e, h, d), (b, c, g, f), (a, b, f, e), (d, h, g, c)


def _corners(frame: Frame) -> Polygon:
    """Clockwise from the upper left."""
    right, bottom = frame.x + frame.width, frame.y + frame.height
    return Point(frame.x, frame.y), Point(right, frame.y), Point(right, bottom), Point(frame.x, bottom)
