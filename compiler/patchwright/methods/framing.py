"""Sewing a triangle to each side of a square, for every method that does it; the square then stands on its corner.

In: the square as cut or sewn, and the squares that are cut once to make the triangles.
Out: what the sewn unit measures, and the staged shapes.
Geometry, s the seam: a square of raw side C and triangles of short side k give a unit of raw side (C − 4s)/√2 + k.
"""

from __future__ import annotations

from dataclasses import dataclass

from patchwright.core.geometry import Polygon
from patchwright.core.length import ROOT_TWO, ZERO, Length
from patchwright.methods.method import SeamMark, Stage, StageShape
from patchwright.methods.pressed import pressing_view
from patchwright.methods.staging import at, back, face, mark, view


@dataclass(frozen=True, slots=True)
class Frame:
    """Four triangles around a square: raw side of the square, short side of the triangles as cut, and the seam.

    `patches` are the finished triangles in sewing order: two opposite ones, then the other two; patch 0 lies
    within.
    """

    role: str
    piece: str
    inner: Length
    leg: Length
    seam: Length
    patches: tuple[int, int, int, int]

    @property
    def side(self) -> Length:
        """The raw side of the sewn unit."""
        return (self.inner - self.seam * 4) / ROOT_TWO + self.leg


def frame_stages(key: str, frame: Frame, base: tuple[StageShape, ...], base_piece: str = "") -> tuple[Stage, ...]:
    """Triangles on two opposite sides, then on the other two; `base` is drawn upright. Keys `sew` and `sew-last`."""
    lengths = (("seam", frame.seam),)
    upper, lower = _laid(frame), _across(frame, _laid(frame))
    opened = (*base, face(frame.role, _opened(frame)), face(frame.role, _across(frame, _opened(frame))))
    left, right = _transposed(upper), _transposed(lower)
    far = frame.inner - frame.seam
    along = (
        mark("stitch", at(ZERO, frame.seam), at(frame.inner, frame.seam)),
        mark("stitch", at(ZERO, far), at(frame.inner, far)),
    )
    down = tuple(mark("stitch", *_transposed(line.points)[::-1]) for line in along)
    first = view((*base, back(frame.role, upper), back(frame.role, lower)), *along)
    last = view((*opened, back(frame.role, left), back(frame.role, right)), *down)
    pieces = (frame.piece, base_piece) if base_piece else (frame.piece,)
    seams = (
        SeamMark(0, frame.patches[0], along[0].points),
        SeamMark(0, frame.patches[1], along[1].points[::-1]),
    )
    return (
        Stage("sew", f"{key}.sew", (first, pressing_view(opened, *seams)), pieces, lengths),
        Stage("sew", f"{key}.sew-last", (last,), (frame.piece,), lengths),
    )


def last_seams(frame: Frame, side: Length, depth: Length) -> tuple[SeamMark, SeamMark]:
    """The seams of the last two triangles of a sewn unit, drawn as `framed` draws them."""
    near, far = side / 2 - depth, side / 2 + depth
    return (
        SeamMark(0, frame.patches[2], (at(near, ZERO), at(side, far))),
        SeamMark(0, frame.patches[3], (at(far, side), at(ZERO, near))),
    )


def framed(role: str, inside: tuple[StageShape, ...], side: Length, depth: Length) -> tuple[StageShape, ...]:
    """A sewn unit of this raw side: what is inside, then the triangles, whose seams meet `depth` from the edges.

    The triangles at the upper right and lower left were sewn last, so that their seams run out to the edges.
    """
    half = side / 2
    near, far, inner = half - depth, half + depth, side - depth
    outlines: tuple[Polygon, ...] = (
        (at(ZERO, ZERO), at(near, ZERO), at(half, depth), at(depth, half), at(ZERO, near)),
        (at(near, ZERO), at(side, ZERO), at(side, far)),
        (at(side, far), at(side, side), at(far, side), at(half, inner), at(inner, half)),
        (at(ZERO, near), at(far, side), at(ZERO, side)),
    )
    return inside + tuple(face(role, outline) for outline in outlines)


def diamond(side: Length, depth: Length) -> Polygon:
    """The square on its corner inside a square, its corners `depth` from the edges."""
    half, inner = side / 2, side - depth
    return at(half, depth), at(inner, half), at(half, inner), at(depth, half)


def _laid(frame: Frame) -> Polygon:
    """A triangle right sides together on the upper edge of the square, centered, pointing inward."""
    long = frame.leg * ROOT_TWO
    start = (frame.inner - long) / 2
    return at(start, ZERO), at(start + long, ZERO), at(frame.inner / 2, long / 2)


def _opened(frame: Frame) -> Polygon:
    """The same triangle opened over its seam."""
    long, seam = frame.leg * ROOT_TWO, frame.seam
    start = (frame.inner - long) / 2 + seam
    return at(frame.inner / 2, seam * 2 - long / 2), at(frame.inner - start, seam), at(start, seam)


def _across(frame: Frame, outline: Polygon) -> Polygon:
    """The same on the opposite edge."""
    return tuple(at(frame.inner - point.x, frame.inner - point.y) for point in outline)


def _transposed(outline: Polygon) -> Polygon:
    """The same on the edges between, still clockwise."""
    return tuple(at(point.y, point.x) for point in reversed(outline))
