"""Sewing squares onto the corners of a piece and flipping them open, for every method that does it.

In: the base as cut and the squares to flip, in sewing order.
Out: the pieces' cut sizes and the staged shapes.
Rules (common practice): base and squares are cut at finished size + 2 seams, the seam is sewn on the square's diagonal,
the corner is trimmed one seam beyond it and pressed outward.
Never: a corner called by name in the stages' words, since a mirrored unit is drawn mirrored.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from patchwright.core.geometry import Point, Polygon, rectangle
from patchwright.core.length import ROOT_TWO, ZERO, Length
from patchwright.methods.method import PatchSeam, SeamMark, Stage, StageMark, StageShape, StageView
from patchwright.methods.pressed import chained, pressing_view
from patchwright.methods.staging import at, back, face, mark, rising, square, upper_left, view

Corner = Literal["nw", "ne", "se", "sw"]
CORNERS: tuple[Corner, ...] = ("nw", "ne", "se", "sw")


@dataclass(frozen=True, slots=True)
class Flip:
    """One square to flip: the corner that it covers, its fabric's role, its recipe piece, and its finished patch."""

    corner: Corner
    role: str
    piece: str
    patch: int


@dataclass(frozen=True, slots=True)
class Base:
    """The piece that the squares are sewn to, its sides as cut."""

    role: str
    piece: str
    width: Length
    height: Length

    def into(self, corner: Corner, point: Point) -> Point:
        """The place at `corner` that mirrors a place at the upper left."""
        x = self.width - point.x if corner in ("ne", "se") else point.x
        y = self.height - point.y if corner in ("sw", "se") else point.y
        return Point(x, y)

    def outline_in(self, corner: Corner, outline: Polygon) -> Polygon:
        """An outline at the upper left brought to `corner`, still clockwise."""
        laid = tuple(self.into(corner, point) for point in outline)
        return laid[::-1] if corner in ("ne", "sw") else laid


def corner_patch(corner: Corner, leg: Length, width: Length, height: Length) -> Polygon:
    """The finished triangle at one corner of a finished rectangle."""
    return Base("", "", width, height).outline_in(corner, upper_left(leg))


def flip_stages(key: str, base: Base, flips: tuple[Flip, ...], side: Length, seam: Length) -> tuple[Stage, ...]:
    """Mark the squares of this cut side, then sew, trim and press each in turn: `mark`, `corner`, `next-corner`."""
    marked = tuple(_marked(flip.role, side) for flip in flips[:1])
    stages = [Stage("mark", f"{key}.mark", marked, pieces=tuple(dict.fromkeys(flip.piece for flip in flips)))]
    done: tuple[StageShape, ...] = ()
    for number, flip in enumerate(flips):
        opened = face(flip.role, base.outline_in(flip.corner, upper_left(side)))
        views = (_sewn(base, done, flip, side, seam), _pressed(base, (*done, opened), flip, side))
        name = "next-corner" if number else "corner"
        pieces, lengths = (flip.piece, base.piece), (("seam", seam),)
        stages.append(Stage("sew", f"{key}.{name}", views, pieces, lengths))
        done += (opened,)
    return tuple(stages)


def flip_seams(flips: tuple[Flip, ...]) -> tuple[PatchSeam, ...]:
    """The seams of the corners in order, the base being the first patch."""
    return chained((0, *(flip.patch for flip in flips)))


def flipped_unit(base: Base, flips: tuple[Flip, ...], side: Length) -> tuple[StageShape, ...]:
    """The sewn unit with raw edges: the base and on it the opened corners."""
    corners = tuple(face(flip.role, base.outline_in(flip.corner, upper_left(side))) for flip in flips)
    return (_laid(base), *corners)


def _laid(base: Base) -> StageShape:
    return face(base.role, rectangle(base.width, base.height))


def _marked(role: str, side: Length) -> StageView:
    return view((back(role, square(side)),), rising("drawn", side))


def _sewn(base: Base, done: tuple[StageShape, ...], flip: Flip, side: Length, seam: Length) -> StageView:
    """The square in its corner, right sides together, with the seam on its diagonal and the cut beyond it."""
    laid = back(flip.role, base.outline_in(flip.corner, square(side)))
    cut = side - seam * ROOT_TWO
    lines = _line("stitch", base, flip.corner, side), _line("cut", base, flip.corner, cut)
    return view((_laid(base), *done, laid), *lines)


def _line(kind: Literal["stitch", "cut"], base: Base, corner: Corner, leg: Length) -> StageMark:
    return mark(kind, base.into(corner, at(ZERO, leg)), base.into(corner, at(leg, ZERO)))


def _pressed(base: Base, shapes: tuple[StageShape, ...], flip: Flip, side: Length) -> StageView:
    """The corner opened, with its seam."""
    ends = base.into(flip.corner, at(ZERO, side)), base.into(flip.corner, at(side, ZERO))
    line = SeamMark(0, flip.patch, ends[::-1] if flip.corner in ("ne", "sw") else ends)
    return pressing_view((_laid(base), *shapes), line)
