"""The strippy setting: columns of blocks, straight or on point, by turns with plain strips as long as the columns.

In: the grid of a size, read column by column.
Out: blocks, plain squares, setting triangles and strips at their places.
Blocks on point stand corner on corner; triangles at the sides and ends make each column a rectangle. The strips are cut
as long as the columns and joined across the cloth or cut along it, as borders are. Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from patchwright.core.diagnostics import Note
from patchwright.core.length import ROOT_TWO, ZERO, Length
from patchwright.core.source import NOWHERE
from patchwright.design.design import OnPoint, Strips
from patchwright.planning.line_sums import sum_lengths
from patchwright.planning.settings.coped_blocks import coped
from patchwright.planning.settings.drawing import Center, ClothKey, Drawing
from patchwright.planning.settings.laying_out import LayingOut, Measured
from patchwright.planning.settings.on_point import Diagonals, common_side, warn_of_one_way

PART = "strips"
Column = list[Measured]


def strippy(laying: LayingOut, drawing: Drawing) -> Center | None:
    """Lay out the center, or report columns that differ in height."""
    strips, setting = laying.size.strips, laying.size.on_point
    if strips is None:
        raise ValueError(f"{laying.size.name} has no strips")
    placed = coped(laying, [laying.grid(laying.size.grid)], square=setting is not None)[0]
    columns = [list(column) for column in zip(*placed, strict=True)]
    known = [[entry for entry in column if entry is not None] for column in columns]
    if any(len(own) < len(whole) for own, whole in zip(known, columns, strict=True)):
        return None
    laid = _straight(laying, known) if setting is None else _on_point(laying, known, setting)
    return _side_by_side(drawing, strips, laid) if laid is not None else None


Laid = list[tuple[Drawing, Length, Length]]
"""Every column in a drawing of its own, with its width and height."""


def _side_by_side(drawing: Drawing, strips: Strips, columns: Laid) -> Center:
    """Columns and strips by turns, with strips at both sides where the quilt has any there."""
    high, x, number = columns[0][2], ZERO, 1
    if strips.edge_width is not None:
        _strip(drawing, strips, "edge", (x, high), number)
        x, number = strips.edge_width, 2
    for place, (column, wide, _) in enumerate(columns):
        if place:
            _strip(drawing, strips, "inner", (x, high), number)
            x, number = x + strips.width, number + 1
        keys: dict[object, ClothKey] = {
            key: drawing.need(key, need, column.spans.get(key, NOWHERE)) for key, need in column.cloth.items()
        }
        drawing.parts += [
            replace(part, column=number, key=keys.get(part.key, part.key)) for part in column.moved(x, ZERO)
        ]
        x, number = x + wide, number + 1
    if strips.edge_width is not None:
        _strip(drawing, strips, "edge", (x, high), number)
        x += strips.edge_width
    return Center(tuple(wide for _, wide, _ in columns), _rows(columns), x, high)


def _rows(columns: Laid) -> tuple[Length, ...]:
    """Heights of what the first column holds, from the top; on point the diagonals of its blocks."""
    blocks = [part for part in columns[0][0].parts if part.part in ("block", "setting")]
    return tuple(part.height for part in sorted(blocks, key=lambda part: part.y))


def _strip(drawing: Drawing, strips: Strips, label: str, start: tuple[Length, Length], number: int) -> None:
    """One strip over the whole height; those at the edges are pieces of their own where they differ."""
    x, high = start
    wide, fabric = strips.width, strips.fabric
    if label == "edge" and strips.edge_width is not None:
        wide, fabric = strips.edge_width, strips.edge_fabric
        label = "inner" if (wide, fabric) == (strips.width, strips.fabric) else label
    drawing.lay(fabric, PART, label, (x, ZERO, wide, high), strips.span)
    drawing.parts[-1] = replace(drawing.parts[-1], column=number)


def _straight(laying: LayingOut, columns: Sequence[Column]) -> Laid | None:
    """Blocks one below the other; a plain square is as high as its column is wide."""
    laid: Laid = []
    for number, column in enumerate(columns, 1):
        wide = _width(laying, column, number)
        if wide is None:
            return None
        drawing, y = Drawing(), ZERO
        for entry in column:
            high = wide if entry.key is None else entry.height
            if entry.key is not None:
                drawing.place(entry.key, "block", entry.orientation, (ZERO, y, wide, high))
            else:
                drawing.lay(entry.placement.ref, "setting", "square", (ZERO, y, wide, high), entry.placement.span)
            y += high
        laid.append((drawing, wide, y))
    odd = next((number for number, one in enumerate(laid, 1) if one[2] != laid[0][2]), None)
    if odd is not None:
        _report_heights(laying, columns, laid, odd)
        return None
    return laid


def _width(laying: LayingOut, column: Column, number: int) -> Length | None:
    """The common width of the blocks of a column."""
    known = [entry for entry in column if entry.key is not None]
    if not known:
        laying.findings.error(
            "block-size-mismatch", f"column {number} of `{laying.size.name}` holds only plain cloth",
            column[0].placement.span, "a block in each column gives it its width",
        )
        return None
    odd = next((entry for entry in known if entry.width != known[0].width), None)
    if odd is None:
        return known[0].width
    usual = known[0]
    laying.findings.error(
        "block-size-mismatch",
        f"`{odd.placement.ref}` is {laying.text(odd.width)} wide and `{usual.placement.ref}` is "
        f"{laying.text(usual.width)} wide, in one column of `{laying.size.name}`", odd.placement.span,
        "blocks of one column are equally wide; change `cell` or `size` of one",
        f"or write `coping: {{fabric: …}}` under `quilt`, which puts strips "
        f"{laying.text(abs(odd.width - usual.width) / 2)} wide around the smaller one",
        notes=[Note(usual.placement.span, f"{laying.text(usual.width)} wide")],
    )
    return None


def _report_heights(laying: LayingOut, columns: Sequence[Column], laid: Laid, odd: int) -> None:
    """Say how high both columns are, and which heights of the blocks of the odd one would do."""
    own, usual = laid[odd - 1][2], laid[0][2]
    column = columns[odd - 1]
    blocks = [entry for entry in column if entry.key is not None]
    rest = usual - (own - sum_lengths([entry.height for entry in blocks]))
    hints = ["all columns are equally high; change `cell` or `size` of the blocks of one"]
    if rest > ZERO and len({entry.height for entry in blocks}) == 1:
        hints.insert(0, f"blocks {laying.text(rest / len(blocks))} high in column {odd} would fit")
    laying.findings.error(
        "column-height-mismatch",
        f"column {odd} of `{laying.size.name}` is {laying.text(own)} high and column 1 is {laying.text(usual)}",
        column[0].placement.span, *hints, notes=[Note(columns[0][0].placement.span, f"{laying.text(usual)} high")],
    )


def _on_point(laying: LayingOut, columns: Sequence[Column], setting: OnPoint) -> Laid | None:
    """Every column a chain of blocks, corner on corner, in a rectangle of triangles."""
    entries = [entry for column in columns for entry in column]
    side = common_side(laying, list(entries))
    if side is None:
        return None
    warn_of_one_way(laying, entries)
    wide = side * ROOT_TWO + setting.float * 2
    laid: Laid = []
    for number, column in enumerate(columns):
        drawing = Drawing()
        diagonals = Diagonals(laying, drawing, setting, [[entry] for entry in column], [], side)
        center = diagonals.place()
        if not number:
            # The squares of all columns together: what one leaves over serves the next.
            diagonals.need_squares(len(columns))
        laid.append((drawing, wide, center.height))
    return laid
