"""Diagonal rows sewn together, and what such a center shows along its straight edges.

In: the rows' faces as they lie level, and where the rows lie in the quilt.
Out: the lines between the rows, and the face of the center, its edges upright and level again.
Never: a direction of pressing; a center on point has roots in its lengths, so that all measures here are lengths.

A row runs from the lower left to the upper right. Turned with it by an eighth, a seam keeps its sense and changes its
slope: a seam that comes straight to a block's edge reaches the quilt's edge at 45°, and one that halves a block's
corner reaches it straight.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from patchwright.core.length import ROOT_TWO, Length
from patchwright.planning.plan import TopItem
from patchwright.planning.pressing.faces import Edge, EdgeEnd, Face, Line, Shades
from patchwright.planning.pressing.grid import ratio
from patchwright.planning.pressing.terms import Seam, SeamEnd
from patchwright.planning.pressing.tops import STRIPS, TopRow

Ray = tuple[Length, Length]


@dataclass(frozen=True, slots=True)
class Box:
    """The straight edges of a center, in the quilt."""

    left: Length
    top: Length
    right: Length
    bottom: Length

    def reach(self, aside: Length) -> tuple[Length, Length]:
        """Where a seam between rows, so far aside, comes in at the lower left and goes out at the upper right."""
        low = max(self.left * ROOT_TWO - aside, aside - self.bottom * ROOT_TWO)
        return low, min(self.right * ROOT_TWO - aside, aside - self.top * ROOT_TWO)

    def edge(self, number: int) -> tuple[Length, Length, int, int]:
        """Of an edge, clockwise from the top: its place, its start, its axis, and the way that it runs."""
        places = (self.top, self.right, self.bottom, self.left)
        starts = (self.left, self.top, self.right, self.bottom)
        return places[number], starts[number], number % 2, -1 if number > 1 else 1


@dataclass(frozen=True, slots=True)
class DiagonalRow:
    """A row with its place along and across the diagonal; a corner that is a row of its own has no place along it."""

    face: Face
    left: Length | None
    top: Length | None
    bottom: Length | None


def diagonal_row(row: TopRow, face: Face) -> DiagonalRow:
    """A row with where its upper and its lower seam lie, as its parts show; a triangle beside the edge shows neither.

    Half of a cornerstone and a slanted end reach no further aside than the rest of their row.
    """
    across = [
        [(corner.x + corner.y) * ROOT_TWO / 2 for corner in item.outline]
        for item in row.items if item.on_point or item.part in STRIPS
    ]
    if row.left is None or not across:
        return DiagonalRow(face, None, None, None)
    return DiagonalRow(face, row.left, max(min(own) for own in across), min(max(own) for own in across))


def box_of(items: Sequence[TopItem]) -> Box:
    """The edges of a center, from all its parts."""
    return Box(
        min(item.x for item in items), min(item.y for item in items),
        max(item.x + item.width for item in items), max(item.y + item.height for item in items),
    )


def joined_rows(
    rows: Sequence[DiagonalRow], seams: Sequence[Seam], box: Box, cloth: Iterable[tuple[TopItem, int]]
) -> tuple[Face, tuple[Line, ...]]:
    """The face of the whole center and the lines between its rows; `cloth` are its plain parts with their values."""
    lines, ends = [], []
    for seam, this, other in zip(seams, rows, rows[1:], strict=False):
        aside = this.bottom if this.bottom is not None else other.top
        if aside is None:
            raise LookupError("two corners of a center on point have no row between them")
        low, high = box.reach(aside)
        lines.append(_line(seam, low, high, this, other))
        ends.append((_spot(high, aside), _turned(-1, 0), SeamEnd(seam, 0, -1)))
        ends.append((_spot(low, aside), _turned(1, 0), SeamEnd(seam, 1, 1)))
    ends += [end for row in rows for end in _row_ends(row, box)]
    known = tuple(cloth)
    top, right, bottom, left = (
        Edge(_on_edge(box, number, ends), _shades(box, number, known)) for number in range(4)
    )
    return Face(box.right - box.left, box.bottom - box.top, (top, right, bottom, left)), tuple(lines)


def _line(seam: Seam, low: Length, high: Length, this: DiagonalRow, other: DiagonalRow) -> Line:
    """The seam between two rows, measured from its upper right end."""
    sides = []
    for row, edge in ((this, this.face.edges[2]), (other, other.face.edges[0].reversed(other.face.width))):
        if row.left is None:  # Of a corner, no more than the one side lies along the seam.
            sides.append(Edge((), tuple((high - low, value) for _, value in edge.shades[:1])))
        else:
            sides.append(edge.cut(row.left + row.face.width - high, high - low))
    return Line(seam, high - low, sides[0], sides[1])


def _row_ends(row: DiagonalRow, box: Box) -> Iterator[tuple[Ray, Ray, SeamEnd]]:
    """The seams that come to an edge of the center with one end of a row: where, and which way they run from there."""
    if row.left is None or row.top is None or row.bottom is None:
        return
    right, one = row.left + row.face.width, Length(1)
    upper, lower = box.reach(row.top), box.reach(row.bottom)
    for end in row.face.edges[0].ends:
        along = row.left + end.offset
        if along in upper:
            yield _spot(along, row.top), _turned(end.slope, one), end.end
    for end in row.face.edges[2].ends:
        along = right - end.offset
        if along in lower:
            yield _spot(along, row.bottom), _turned(-end.slope, -one), end.end


def _on_edge(box: Box, number: int, ends: Iterable[tuple[Ray, Ray, SeamEnd]]) -> tuple[EdgeEnd, ...]:
    """The ends that reach one edge of the center, in order along it."""
    place, start, axis, way = box.edge(number)
    found = []
    for spot, ray, end in ends:
        if spot[1 - axis] == place:
            along, inward = ray[axis] * way, ray[1 - axis] * (way if axis == 0 else -way)
            found.append(EdgeEnd((spot[axis] - start) * way, ratio(along, inward), end))
    return tuple(sorted(found, key=lambda end: (end.offset, end.slope)))


def _shades(box: Box, number: int, cloth: Iterable[tuple[TopItem, int]]) -> Shades:
    """The cloth along one edge of the center: the sides of plain parts that lie on it."""
    place, start, axis, way = box.edge(number)
    found = []
    for item, value in cloth:
        corners = [(corner.x, corner.y) for corner in item.outline]
        for here, there in zip(corners, corners[1:] + corners[:1], strict=True):
            if here[1 - axis] == there[1 - axis] == place:
                low, high = sorted((spot[axis] - start) * way for spot in (here, there))
                found.append((low, high - low, value))
    return tuple((length, value) for _, length, value in sorted(found))


def _spot(along: Length, aside: Length) -> Ray:
    """A place along and across the diagonal as a place in the quilt."""
    return (along + aside) * ROOT_TWO / 2, (aside - along) * ROOT_TWO / 2


def _turned(along: Length | int, aside: Length | int) -> Ray:
    """A direction along and across the diagonal as one in the quilt."""
    run, fall = (step if isinstance(step, Length) else Length(step) for step in (along, aside))
    return run + fall, fall - run
