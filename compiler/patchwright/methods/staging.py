"""The parts from which methods draw the stages of their making.

In: exact cut sizes.
Out: layers of cloth, marks and views in those sizes; the origin is the upper left corner, y runs down.
Never: a size that is not derived from the recipe, except `peek` and `gap`, which only keep layers and parts apart.
"""

from __future__ import annotations

from patchwright.core.geometry import Point, Polygon, moved, rectangle
from patchwright.core.length import ROOT_TWO, ZERO, Length
from patchwright.methods.method import MarkKind, Stage, StageMark, StageShape, StageView


def at(x: Length, y: Length) -> Point:
    return Point(x, y)


def face(role: str, outline: Polygon) -> StageShape:
    """Cloth with its right side up."""
    return StageShape(role, outline)


def back(role: str, outline: Polygon) -> StageShape:
    """Cloth with its wrong side up."""
    return StageShape(role, outline, wrong_side=True)


def mark(kind: MarkKind, *points: Point) -> StageMark:
    return StageMark(kind, points)


def view(shapes: tuple[StageShape, ...], *marks: StageMark) -> StageView:
    return StageView(shapes, marks)


def finished_stage(key: str, shapes: tuple[StageShape, ...], *size: Length, points: int = 0) -> Stage:
    """The last stage: the unit with raw edges and what it must measure, one `size`, or `width` and `height`.

    `points` is the number of units of a batch where points that stick out are trimmed off, each unit by itself.
    """
    return Stage(
        "finished", key, (view(shapes),), lengths=_named(size), apart=max(1, points), only_measures=not points
    )


def trim_stage(key: str, shapes: tuple[StageShape, ...], sewn: Length, size: Length, batch: int = 1) -> Stage:
    """A square unit sewn larger than its unfinished size, with the outline to trim it to, as much off each side.

    `batch` is the number of units of a batch, each of which is trimmed by itself.
    """
    inset = (sewn - size) / 2
    return _trimmed(key, shapes, square(size, inset, inset), (size,), batch)


def trim_rectangle(
    key: str, shapes: tuple[StageShape, ...], outline: Polygon, width: Length, height: Length, batch: int = 1
) -> Stage:
    """A unit sewn larger than its unfinished size, with the outline, width by height, to trim it to."""
    return _trimmed(key, shapes, outline, (width, height), batch)


def _trimmed(
    key: str, shapes: tuple[StageShape, ...], outline: Polygon, size: tuple[Length, ...], batch: int
) -> Stage:
    return Stage("trim", key, (view(shapes, mark("cut", *outline, outline[0])),), lengths=_named(size), apart=batch)


def _named(size: tuple[Length, ...]) -> tuple[tuple[str, Length], ...]:
    return tuple(zip(("size",) if len(size) == 1 else ("width", "height"), size, strict=True))


def peek(side: Length) -> Length:
    """How far a lower layer is drawn beside an upper one of this side, so that both show."""
    return side / 16


def gap(side: Length) -> Length:
    """How far parts of this side are drawn from each other."""
    return side / 6


def square(side: Length, x: Length = ZERO, y: Length = ZERO) -> Polygon:
    return rectangle(side, side, x, y)


def together(upper: str, lower: str, outline: Polygon, side: Length) -> tuple[StageShape, ...]:
    """Two equal pieces right sides together: the lower shows its right side beside the upper one's wrong side."""
    step = peek(side)
    return face(lower, moved(outline, step, step)), back(upper, outline)


def rising(kind: MarkKind, side: Length, shift: Length = ZERO, x: Length = ZERO, y: Length = ZERO) -> StageMark:
    """The diagonal of a square from lower left to upper right, or its parallel `shift` to the lower right of it."""
    along = abs(shift) * ROOT_TWO
    if shift > ZERO:
        start, end = at(along, side), at(side, along)
    else:
        start, end = at(ZERO, side - along), at(side - along, ZERO)
    return mark(kind, start.moved(x, y), end.moved(x, y))


def falling(kind: MarkKind, side: Length, shift: Length = ZERO, x: Length = ZERO, y: Length = ZERO) -> StageMark:
    """The diagonal of a square from upper left to lower right, or its parallel `shift` to the lower left of it."""
    along = abs(shift) * ROOT_TWO
    if shift > ZERO:
        start, end = at(ZERO, along), at(side - along, side)
    else:
        start, end = at(along, ZERO), at(side, side - along)
    return mark(kind, start.moved(x, y), end.moved(x, y))


def upper_left(side: Length, x: Length = ZERO, y: Length = ZERO) -> Polygon:
    """The half of a square above its rising diagonal."""
    return at(x, y), at(x + side, y), at(x, y + side)


def lower_right(side: Length, x: Length = ZERO, y: Length = ZERO) -> Polygon:
    """The half of a square below its rising diagonal."""
    return at(x + side, y), at(x + side, y + side), at(x, y + side)


def upper_right(side: Length, x: Length = ZERO, y: Length = ZERO) -> Polygon:
    """The half of a square above its falling diagonal."""
    return at(x, y), at(x + side, y), at(x + side, y + side)


def lower_left(side: Length, x: Length = ZERO, y: Length = ZERO) -> Polygon:
    """The half of a square below its falling diagonal."""
    return at(x, y), at(x + side, y + side), at(x, y + side)
