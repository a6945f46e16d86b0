"""The straight setting: blocks in upright rows and columns, with or without sashing.

In: the grid of a size.
Out: blocks, plain squares, sashing and cornerstones at their places.
"""

from __future__ import annotations

from dataclasses import dataclass

from patchwright.core.diagnostics import Note
from patchwright.core.length import ZERO, Length
from patchwright.core.source import NOWHERE
from patchwright.design.design import Sashing
from patchwright.planning.settings.coped_blocks import coped
from patchwright.planning.settings.drawing import Center, Drawing, starts
from patchwright.planning.settings.laying_out import LayingOut, Measured

Placed = list[list[Measured]]


def straight(laying: LayingOut, drawing: Drawing) -> Center | None:
    """Lay out the center, or report blocks that do not fit together."""
    placed = coped(laying, [laying.grid(laying.size.grid)])[0]
    known = [[entry for entry in row if entry is not None] for row in placed]
    if any(len(row) < len(all_of_it) for row, all_of_it in zip(known, placed, strict=True)):
        return None
    columns, rows = _sides(laying, known, across=True), _sides(laying, known, across=False)
    if columns is None or rows is None:
        return None
    sashing = laying.size.sashing
    gap = sashing.width if sashing is not None else ZERO
    start = gap if sashing is not None and sashing.frame else ZERO
    lefts, tops = starts(columns, gap, start), starts(rows, gap, start)
    _place_blocks(drawing, known, (columns, rows), (lefts, tops))
    width = lefts[-1] + columns[-1] + start
    height = tops[-1] + rows[-1] + start
    if sashing is not None:
        _Sashes(drawing, sashing, (columns, rows), (lefts, tops)).place(width)
    return Center(columns, rows, width, height)


def _sides(laying: LayingOut, placed: Placed, across: bool) -> tuple[Length, ...] | None:
    """Widths of the grid's columns, or heights of its rows."""
    lines = [list(line) for line in zip(*placed, strict=True)] if across else placed
    word = "column" if across else "row"
    made: list[Length] = []
    for number, line in enumerate(lines, 1):
        known = [(entry, entry.width if across else entry.height) for entry in line if entry.key is not None]
        if not known:
            laying.findings.error(
                "block-size-mismatch", f"{word} {number} of `{laying.size.name}` holds only plain cloth",
                line[0].placement.span if line else NOWHERE, f"a block in each {word} gives it its size",
            )
            return None
        odd = next((pair for pair in known if pair[1] != known[0][1]), None)
        if odd is not None:
            _report_odd(laying, odd, known[0], word)
            return None
        made.append(known[0][1])
    return tuple(made)


def _report_odd(
    laying: LayingOut, odd: tuple[Measured, Length], usual: tuple[Measured, Length], word: str
) -> None:
    side = "wide" if word == "column" else "high"
    laying.findings.error(
        "block-size-mismatch",
        f"`{odd[0].placement.ref}` is {laying.text(odd[1])} {side} and `{usual[0].placement.ref}` is "
        f"{laying.text(usual[1])} {side}, in one {word} of `{laying.size.name}`", odd[0].placement.span,
        f"blocks of one {word} are equally {side}; change `cell` or `size` of one",
        f"or write `coping: {{fabric: …}}` under `quilt`, which puts strips {laying.text(abs(odd[1] - usual[1]) / 2)} "
        "wide around the smaller one",
        notes=[Note(usual[0].placement.span, f"{laying.text(usual[1])} {side}")],
    )


def _place_blocks(
    drawing: Drawing, placed: Placed, sides: tuple[tuple[Length, ...], tuple[Length, ...]],
    begins: tuple[list[Length], list[Length]],
) -> None:
    for row, line in enumerate(placed):
        for column, entry in enumerate(line):
            place = (begins[0][column], begins[1][row], sides[0][column], sides[1][row])
            if entry.key is not None:
                drawing.place(entry.key, "block", entry.orientation, place)
            else:
                drawing.lay(entry.placement.ref, "setting", "square", place, entry.placement.span)


@dataclass(frozen=True, slots=True)
class _Sashes:
    drawing: Drawing
    sashing: Sashing
    sides: tuple[tuple[Length, ...], tuple[Length, ...]]
    begins: tuple[list[Length], list[Length]]

    def place(self, width: Length) -> None:
        """Strips beside the blocks of each row, then the rows of sashing: one long strip, or strips and stones."""
        sashing, gap = self.sashing, self.sashing.width
        columns, rows = self.sides
        lefts, tops = self.begins
        gap_xs, gap_ys = self._gaps(0), self._gaps(1)
        for row, y in enumerate(tops):
            for x in gap_xs:
                self._lay("upright", (x, y, gap, rows[row]))
        for y in gap_ys:
            if not sashing.cornerstone:
                self._lay("long", (ZERO, y, width, gap))
                continue
            for column, x in enumerate(lefts):
                self._lay("level", (x, y, columns[column], gap))
            for x in gap_xs:
                self.drawing.lay(sashing.cornerstone, "cornerstones", "square", (x, y, gap, gap), sashing.span)

    def _lay(self, label: str, place: tuple[Length, Length, Length, Length]) -> None:
        self.drawing.lay(self.sashing.fabric, "sashing", label, place, self.sashing.span)

    def _gaps(self, axis: int) -> list[Length]:
        """Where strips between the sides begin, and with a frame those before the first and after the last."""
        sides, begins = self.sides[axis], self.begins[axis]
        inner = [start + side for start, side in zip(begins[:-1], sides[:-1], strict=True)]
        return [ZERO, *inner, begins[-1] + sides[-1]] if self.sashing.frame else inner
