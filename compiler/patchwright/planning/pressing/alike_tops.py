"""Which sizes have tops that are built and pressed alike, so that the pressing map of one stands for the others.

In: a plan, its pressing, and the sizes to show.
Out: the sizes of which a map is needed, each with the sizes that it stands for.
Never: a drawing.

A map stands for another top that is built alike where that top has no seam, ring or diamond that the map lacks; a row
may be longer than the one in the map where its seams go on by turns as there. Where both have blocks, counted from the
upper left, these must lie in the same way of pressing.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from patchwright.core.length import Finished, Length
from patchwright.planning.plan import Plan, PlannedBorder, PlannedSize
from patchwright.planning.pressing.results import PressingPlan
from patchwright.planning.pressing.terms import Owner, Seam, SeamPart
from patchwright.planning.pressing.tops import (
    HALF_SEAMS,
    MIDDLE_SEAM,
    SIDES,
    first_chain,
    joining_seams,
    quarter_rows,
    row_seams,
    sewn_rows,
    top_borders,
    top_rows,
)

Line = tuple[Owner, SeamPart, int]
Halves = tuple[int, int]
_PARTS = ("unit", "assembly")


@dataclass(frozen=True, slots=True)
class ShownTop:
    """A size whose pressing map is shown, and all sizes that it stands for, itself among them; by their indexes."""

    index: int
    stands_for: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class _Top:
    """How one size is built, the ways of its seams line by line, and the kinds of its marks."""

    built: tuple[object, ...]
    lines: Mapping[Line, Mapping[int, Halves]]
    marks: frozenset[tuple[str, str]]
    second: Mapping[tuple[int, int], bool]
    """By the row and column of a block, whether it is pressed the second way; nothing where none is."""

    def stands_for(self, other: _Top) -> bool:
        return (
            self.built == other.built and other.marks <= self.marks
            and all(line in self.lines and _goes_on(self.lines[line], ways) for line, ways in other.lines.items())
            and all(self.second.get(spot, second) == second for spot, second in other.second.items())
        )


def shown_tops(plan: Plan, pressing: PressingPlan, chosen: Sequence[int]) -> tuple[ShownTop, ...]:
    """The fewest maps that stand for all these sizes, small sizes before large ones; those without seams need none."""
    tops = {index: _top(plan, pressing, index) for index in sorted(chosen, key=lambda index: _area(plan.sizes[index]))}
    left = [index for index, top in tops.items() if top.lines]
    shown = []
    while left:
        found = {
            index: tuple(other for other in left if top.stands_for(tops[other])) for index, top in tops.items()
            if index in left
        }
        best = max(found, key=lambda index: len(found[index]))
        shown.append(ShownTop(best, tuple(sorted(found[best]))))
        left = [index for index in left if index not in found[best]]
    return tuple(sorted(shown, key=lambda top: top.stands_for))


def _area(size: PlannedSize) -> Length:
    return size.finished[0].length * size.finished[1].length


def _top(plan: Plan, pressing: PressingPlan, index: int) -> _Top:
    lines: dict[Line, dict[int, Halves]] = {}
    for seam in _seams(plan.sizes[index]):
        lines.setdefault((seam.owner, seam.part, seam.line), {})[seam.place] = pressing.pressed(seam).halves
    return _Top(_built(plan.sizes[index]), lines, frozenset(_marks(pressing, index)), _second(plan, index))


def _second(plan: Plan, index: int) -> dict[tuple[int, int], bool]:
    seconds = {assembly.id for assembly in plan.assemblies if assembly.second_of}
    blocks = [item for item in plan.sizes[index].items if item.part == "block"] if seconds else []
    rows, columns = sorted({item.y for item in blocks}), sorted({item.x for item in blocks})
    return {(rows.index(item.y), columns.index(item.x)): item.ref in seconds for item in blocks}


def _seams(size: PlannedSize) -> Iterator[Seam]:
    """All seams of the center and the borders."""
    if size.by_block is not None:
        return
    for rows in (sewn_rows(size), first_chain(size)):
        for row in rows:
            yield from () if row.is_chain else row_seams(row)
    if size.quarters is None:
        yield from joining_seams(top_rows(size))
    else:
        for half in quarter_rows(size):
            for side, rows in zip(SIDES, half, strict=True):
                yield from joining_seams(rows, side)
        yield from (*HALF_SEAMS, MIDDLE_SEAM)
    yield from joining_seams(first_chain(size))
    for border in top_borders(size):
        owner = Owner("border", border.id)
        for number, strip in enumerate(border.strips):
            yield from (Seam(owner, "within", number, place) for place in range(len(strip) - 1))
        yield from (Seam(owner, "side", 0, place) for place in (0, 1) if border.strips[place])
        yield from (Seam(owner, "end", 0, place) for place in (0, 1) if border.strips[place + 2])


def _marks(pressing: PressingPlan, index: int) -> Iterator[tuple[str, str]]:
    """What is marked on the seams of the top: rings and diamonds, by whose seam they lie on."""
    for junction in pressing.junctions:
        if not junction.nests and junction.counts[index] and junction.line.owner.kind not in _PARTS:
            yield "missed", junction.line.owner.kind
    for point in pressing.heavy:
        if point.counts[index] and point.line.owner.kind not in _PARTS:
            yield "heavy", point.line.owner.kind


def _built(size: PlannedSize) -> tuple[object, ...]:
    """What must be the same of two sizes so that one map can stand for both, however large they are."""
    sashing = _width(size.sash_width), _width(size.sash_height), size.sash_frame, size.cornerstones
    strips = tuple(sorted({strips.place for strips in size.strips}))
    borders = tuple(_border(border) for border in size.borders)
    ways = size.setting, _width(size.float), size.medallion, size.quarters is not None
    return (*ways, *sashing, strips, borders)


def _width(width: Finished | None) -> bool | None:
    """Whether there is any, or None where there is none to speak of."""
    return None if width is None else bool(width.length)


def _border(border: PlannedBorder) -> tuple[object, ...]:
    return border.id, border.kind, border.corner_kind, border.sides, border.ends, border.joined


def _goes_on(known: Mapping[int, Halves], longer: Mapping[int, Halves]) -> bool:
    """Whether a line has only seams that another has too, or that lie as the other's do, by turns or all alike."""
    turns = [{ways for place, ways in known.items() if place % 2 == turn} for turn in (0, 1)]
    turns = [turn or turns[1 - at] for at, turn in enumerate(turns)]
    return all(place in known or turns[place % 2] == {ways} for place, ways in longer.items())
