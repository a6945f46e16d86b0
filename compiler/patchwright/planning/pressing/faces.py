"""What a sewn thing shows along its edges: the ends of its seams and the values of its cloth.

In: faces of parts and the seams that join them.
Out: the face of the joined thing, and every joining line with what comes to it from either side.
Never: a direction of pressing; an end carries only which way it would lie.

Every edge is measured clockwise around its thing, so that turning a thing only renames its edges. Two seam ends lie
opposed, and nest, exactly when both allowances lie clockwise of their rays or both counterclockwise.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import reduce
from operator import add

from patchwright.planning.pressing.grid import Measure, sign
from patchwright.planning.pressing.terms import Seam, SeamEnd

Shades = tuple[tuple[Measure, int], ...]
"""(length, value) of the cloth along an edge, in order; 0 is light, 2 is dark."""


@dataclass(frozen=True, slots=True)
class EdgeEnd:
    """A seam's end on an edge: its offset along the edge, and its slope, how far it runs along for one inward."""

    offset: Measure
    slope: Measure
    end: SeamEnd


@dataclass(frozen=True, slots=True)
class Edge:
    ends: tuple[EdgeEnd, ...]
    shades: Shades

    def cut(self, start: Measure, length: Measure) -> Edge:
        """A stretch of it, measured from its own start, which may lie before that of the edge."""
        ends = tuple(EdgeEnd(end.offset - start, end.slope, end.end) for end in self.ends)
        shades, place = [], start - start
        for own, value in self.shades:
            covered = min(place + own, start + length) - max(place, start)
            if sign(covered) > 0:
                shades.append((covered, value))
            place += own
        return Edge(ends, tuple(shades))

    def reversed(self, length: Measure) -> Edge:
        """The same measured the other way along."""
        ends = tuple(EdgeEnd(length - end.offset, -end.slope, end.end) for end in reversed(self.ends))
        return Edge(ends, self.shades[::-1])

    def in_variant(self, variant: int) -> Edge:
        """The same with its ends those of a variant of their owners."""
        return Edge(
            tuple(EdgeEnd(known.offset, known.slope, in_variant(known.end, variant)) for known in self.ends),
            self.shades,
        )


@dataclass(frozen=True, slots=True)
class Face:
    """A sewn rectangle: its finished sides and its edges, clockwise from the top."""

    width: Measure
    height: Measure
    edges: tuple[Edge, Edge, Edge, Edge]

    def turned(self, turns: int) -> Face:
        """The same turned clockwise by quarter turns."""
        count = turns % 4
        top, right, bottom, left = self.edges[4 - count :] + self.edges[: 4 - count]
        width, height = (self.height, self.width) if count % 2 else (self.width, self.height)
        return Face(width, height, (top, right, bottom, left))

    def in_variant(self, variant: int) -> Face:
        """The same with the ends along its edges those of a variant of their owners."""
        top, right, bottom, left = (edge.in_variant(variant) for edge in self.edges)
        return Face(self.width, self.height, (top, right, bottom, left))


@dataclass(frozen=True, slots=True)
class Line:
    """A joining line with its two sides, both measured from its start."""

    seam: Seam
    length: Measure
    first: Edge
    second: Edge

    def meetings(self) -> Iterator[tuple[SeamEnd, SeamEnd]]:
        """Seam ends that come to one point from opposite sides at mirror-image angles."""
        others = {(end.offset, end.slope): end.end for end in self.second.ends}
        for end in self.first.ends:
            other = others.get((end.offset, end.slope))
            if other is not None:
                yield end.end, other

    def crossings(self) -> tuple[tuple[Measure, SeamEnd, SeamEnd], ...]:
        """Points within the line where straight seams meet: four seams in a cross."""
        others = {end.offset: end.end for end in self.second.ends if not end.slope}
        return tuple(
            (end.offset, end.end, others[end.offset])
            for end in self.first.ends
            if not end.slope and end.offset in others and sign(end.offset) > 0 and end.offset < self.length
        )

    def seam_counts(self) -> dict[Measure, int]:
        """Seams that meet at each point within the line, the line itself counting twice."""
        counts: dict[Measure, int] = {}
        for end in (*self.first.ends, *self.second.ends):
            if sign(end.offset) > 0 and end.offset < self.length:
                counts[end.offset] = counts.get(end.offset, 2) + 1
        return counts


def plain_face(width: Measure, height: Measure, value: int) -> Face:
    """The face of one piece of cloth."""
    level, upright = Edge((), ((width, value),)), Edge((), ((height, value),))
    return Face(width, height, (level, upright, level, upright))


def beside(faces: Sequence[Face], seams: Sequence[Seam]) -> tuple[Face, tuple[Line, ...]]:
    """Faces sewn side by side, from left to right, by so many seams less one."""
    height = faces[0].height
    lines = tuple(
        Line(seam, height, left.edges[1], right.edges[3].reversed(height))
        for seam, left, right in zip(seams, faces, faces[1:], strict=False)
    )
    top = _along([face.edges[0] for face in faces], [face.width for face in faces], [_start(seam) for seam in seams])
    bottom = _along(
        [face.edges[2] for face in reversed(faces)], [face.width for face in reversed(faces)],
        [_finish(seam) for seam in reversed(seams)],
    )
    width = total(face.width for face in faces)
    return Face(width, height, (top, faces[-1].edges[1], bottom, faces[0].edges[3])), lines


def stacked(faces: Sequence[Face], seams: Sequence[Seam]) -> tuple[Face, tuple[Line, ...]]:
    """Faces sewn one below the other."""
    face, lines = beside([face.turned(-1) for face in faces], seams)
    return face.turned(1), lines


def in_variant(end: SeamEnd, variant: int) -> SeamEnd:
    """The same end of a variant of its owner."""
    return replace(end, seam=replace(end.seam, owner=replace(end.seam.owner, variant=variant)))


def _start(seam: Seam) -> SeamEnd:
    """The upper end of an upright seam: forward, to the right, is counterclockwise of a ray that runs down."""
    return SeamEnd(seam, 0, -1)


def _finish(seam: Seam) -> SeamEnd:
    return SeamEnd(seam, 1, 1)


def _along(edges: list[Edge], sides: list[Measure], between: list[SeamEnd]) -> Edge:
    """One edge from several, with the ends of the seams that join them."""
    ends: list[EdgeEnd] = []
    shades: list[tuple[Measure, int]] = []
    zero = sides[0] - sides[0]
    offset = zero
    for number, (edge, side) in enumerate(zip(edges, sides, strict=True)):
        if number:
            ends.append(EdgeEnd(offset, zero, between[number - 1]))
        ends += [EdgeEnd(offset + end.offset, end.slope, end.end) for end in edge.ends]
        shades += edge.shades
        offset += side
    return Edge(tuple(ends), tuple(shades))


def total(lengths: Iterable[Measure]) -> Measure:
    """The sum of one or more lengths."""
    return reduce(add, lengths)
