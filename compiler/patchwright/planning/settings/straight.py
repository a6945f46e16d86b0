"""The straight setting: blocks in upright rows and columns, with or without sashing.

In: the grid of a size.
Out: blocks, plain squares, sashing and cornerstones at their places.
"""

from __future__ import annotations

from patchwright.core.diagnostics import Note
from patchwright.core.length import ZERO, Length
from patchwright.core.source import NOWHERE
from patchwright.planning.settings.coped_blocks import coped
from patchwright.planning.settings.drawing import Center, Drawing, starts
from patchwright.planning.settings.laying_out import LayingOut, Measured
from patchwright.planning.settings.sashes import Sashes, sash_widths

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
    gaps = sash_widths(laying, sashing, (columns, rows)) if sashing is not None else (ZERO, ZERO)
    if gaps is None:
        return None
    begin = gaps if sashing is not None and sashing.frame else (ZERO, ZERO)
    lefts, tops = starts(columns, gaps[0], begin[0]), starts(rows, gaps[1], begin[1])
    _place_blocks(drawing, known, (columns, rows), (lefts, tops))
    width = lefts[-1] + columns[-1] + begin[0]
    height = tops[-1] + rows[-1] + begin[1]
    if sashing is None:
        return Center(columns, rows, width, height)
    Sashes(laying, drawing, sashing, (columns, rows), (lefts, tops), gaps).place(width)
    return Center(columns, rows, width, height, gaps)


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
