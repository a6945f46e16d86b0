"""Parts of a drawing that are made on their own and then set side by side or one above the other.

In and out: pictures, in inches on the page, each in its own coordinates from its upper left corner.
Never: an item changed in anything but its place.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from patchwright.diagrams.scene import XY, Area, Item, Label, Line


@dataclass(frozen=True, slots=True)
class Body:
    """The cloth of a picture, without the dimensions and labels around it."""

    x: float
    y: float
    width: float
    height: float

    @property
    def center(self) -> XY:
        return self.x + self.width / 2, self.y + self.height / 2

    @property
    def right(self) -> float:
        return self.x + self.width

    @property
    def bottom(self) -> float:
        return self.y + self.height

    def moved(self, dx: float, dy: float) -> Body:
        return Body(self.x + dx, self.y + dy, self.width, self.height)


@dataclass(frozen=True, slots=True)
class Picture:
    """Items with the box that they need; pictures in a row are lined up by the middles of their bodies."""

    width: float
    height: float
    items: tuple[Item, ...]
    body: Body

    @property
    def extent(self) -> tuple[float, float]:
        return self.width, self.height

    def with_items(self, items: Sequence[Item]) -> Picture:
        """The same picture with more items on top."""
        return replace(self, items=self.items + tuple(items))


def corners(x: float, y: float, right: float, bottom: float) -> tuple[XY, ...]:
    """A rectangle's corners, clockwise from the upper left."""
    return ((x, y), (right, y), (right, bottom), (x, bottom))


def bare(width: float, height: float, items: Sequence[Item]) -> Picture:
    """A picture that is all body."""
    return Picture(width, height, tuple(items), Body(0, 0, width, height))


def moved_items(items: Sequence[Item], dx: float, dy: float) -> tuple[Item, ...]:
    if not dx and not dy:
        return tuple(items)
    return tuple([_moved(item, dx, dy) for item in items])


def _moved(item: Item, dx: float, dy: float) -> Item:
    if isinstance(item, Area):
        outline = tuple([(x + dx, y + dy) for x, y in item.outline])
        return Area(outline, item.tone, item.fabric, item.print, item.wrong_side, item.style)
    if isinstance(item, Line):
        return Line(tuple([(x + dx, y + dy) for x, y in item.points]), item.style, item.arrow, item.over)
    at = (item.at[0] + dx, item.at[1] + dy)
    return Label(at, item.text, item.size, item.anchor, item.bold, item.turned, item.over)


def padded(picture: Picture, left: float = 0, top: float = 0, right: float = 0, bottom: float = 0) -> Picture:
    """The picture with empty room around it."""
    return Picture(
        picture.width + left + right,
        picture.height + top + bottom,
        moved_items(picture.items, left, top),
        picture.body.moved(left, top),
    )


def beside(pictures: Sequence[Picture], gap: float) -> Picture:
    """Pictures from left to right, the middles of their bodies on one level."""
    above = max(picture.body.center[1] for picture in pictures)
    below = max(picture.height - picture.body.center[1] for picture in pictures)
    items: list[Item] = []
    x = 0.0
    for picture in pictures:
        items.extend(moved_items(picture.items, x, above - picture.body.center[1]))
        x += picture.width + gap
    return bare(x - gap, above + below, items)


def above(pictures: Sequence[Picture], gap: float, middle: bool = False) -> Picture:
    """Pictures from top to bottom, their left edges in line or, with `middle`, centered on each other."""
    width = max(picture.width for picture in pictures)
    items: list[Item] = []
    y = 0.0
    for picture in pictures:
        items.extend(moved_items(picture.items, (width - picture.width) / 2 if middle else 0, y))
        y += picture.height + gap
    return bare(width, y - gap, items)


def wrapped(pictures: Sequence[Picture], width: float, gap: float, row_gap: float) -> Picture:
    """Pictures in rows as wide as the width allows, in order."""
    rows: list[list[Picture]] = [[]]
    used = 0.0
    for picture in pictures:
        if rows[-1] and used + gap + picture.width > width:
            rows.append([])
        used = picture.width if not rows[-1] else used + gap + picture.width
        rows[-1].append(picture)
    return above([beside(row, gap) for row in rows], row_gap)
