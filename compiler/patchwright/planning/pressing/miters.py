"""Borders whose strips end in diagonals: the strips around what they are sewn to, and the seams at the corners.

In: faces of strips, and the seams that join them.
Out: the lines along the sides, the lines at the corners, and the face of all of it.
Never: a direction of pressing; a miter is pressed open, as the booklet has it. Common practice, no source.

A miter is sewn from the quilt outward, from where the seams of the strips end one seam allowance before the corner, so
that these two do not meet on it. Where several borders are mitered as one, the seams between their strips do.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from patchwright.planning.pressing.faces import Edge, EdgeEnd, Face, Line
from patchwright.planning.pressing.grid import Measure, ratio
from patchwright.planning.pressing.terms import Owner, Seam, SeamEnd

CORNERS = 4
"""Clockwise from the upper left, as the edges are from the top."""


def mitered(face: Face, strips: Sequence[Face], seams: Sequence[Seam]) -> tuple[Face, tuple[Line, ...]]:
    """Four strips around a face whose ends meet in diagonals; strips and seams stand left, right, top, bottom.

    Each strip is as long as the whole and is sewn to the face where it lies beside it, so that its outer edge is all
    that it shows.
    """
    left, right, top, bottom = strips
    edges = (
        (left.edges[1].cut(top.height, face.height), face.edges[3].reversed(face.height)),
        (face.edges[1], right.edges[3].reversed(right.height).cut(top.height, face.height)),
        (top.edges[2].cut(right.width, face.width), face.edges[0].reversed(face.width)),
        (face.edges[2], bottom.edges[0].reversed(bottom.width).cut(right.width, face.width)),
    )
    longs = (face.height, face.height, face.width, face.width)
    lines = tuple(Line(seam, long, *sides) for seam, long, sides in zip(seams, longs, edges, strict=True))
    return Face(top.width, left.height, (top.edges[0], right.edges[1], bottom.edges[2], left.edges[3])), lines


def miters(id: str) -> tuple[Seam, ...]:
    """The seams at the four corners of a border, or of the last one of several that are mitered as one."""
    return tuple(Seam(Owner("border", id), "miter", 0, place) for place in range(CORNERS))


def miter_lines(joined: Sequence[str], widths: Sequence[Measure]) -> Iterator[Line]:
    """The miters of borders from the inside out, with the seams between their strips; measured along a side."""
    length = sum(widths[1:], widths[0])
    sides: list[list[EdgeEnd]] = [[] for _ in range(CORNERS * 2)]
    offset, one = widths[0], ratio(length, length)
    for id, width in zip(joined[1:], widths[1:], strict=True):
        for number, end in enumerate(_strip_ends(Owner("border", id))):
            sides[number].append(EdgeEnd(offset, one, end))
        offset += width
    for place, seam in enumerate(miters(joined[-1])):
        first, second = (Edge(tuple(own), ()) for own in sides[place * 2 : place * 2 + 2])
        yield Line(seam, length, first, second)


def _strip_ends(owner: Owner) -> Iterator[SeamEnd]:
    """The ends of a border's seams at its corners, two at each, in their order clockwise around the quilt."""
    left, right = (Seam(owner, "side", 0, place) for place in (0, 1))
    top, bottom = (Seam(owner, "end", 0, place) for place in (0, 1))
    yield from (SeamEnd(left, 0, -1), SeamEnd(top, 1, 1))
    yield from (SeamEnd(top, 0, -1), SeamEnd(right, 0, -1))
    yield from (SeamEnd(right, 1, 1), SeamEnd(bottom, 0, -1))
    yield from (SeamEnd(bottom, 1, 1), SeamEnd(left, 1, 1))


def with_miters(face: Face, id: str) -> Face:
    """A face with its miters, each of which ends in a corner and so belongs to two edges."""
    one, none = ratio(face.width, face.width), face.width - face.width
    ends = [SeamEnd(seam, 1, 1) for seam in miters(id)]
    made = []
    for number, edge in enumerate(face.edges):
        long = face.height if number % 2 else face.width
        first = EdgeEnd(none, one, ends[number])
        made.append(Edge((first, *edge.ends, EdgeEnd(long, -one, ends[(number + 1) % CORNERS])), edge.shades))
    return Face(face.width, face.height, (made[0], made[1], made[2], made[3]))
