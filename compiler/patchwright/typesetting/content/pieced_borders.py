"""Pieced borders: how many blocks each side takes, how they are sewn, and what they must measure.

In: one pieced border in every size.
Out: its description, table and steps.
Never: a length of coping; that is a border of its own.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable

from patchwright.planning.plan import PlannedBorder
from patchwright.typesetting.booklet import Block, Column, Inline, Paragraph, Step, Table
from patchwright.typesetting.content.names import plain_name, varied
from patchwright.typesetting.content.pieces import counted_piece, one_piece
from patchwright.typesetting.content.pressing_borders import sewn_on_words, strips_words
from patchwright.typesetting.content.scope import Scope, as_inlines, each, mark
from patchwright.typesetting.content.tables import size_cells, size_table, text_cell

BySize = tuple[PlannedBorder | None, ...]
Units = tuple[tuple[str, int], ...]


def pieced_about(scope: Scope, by_size: BySize) -> tuple[Inline, ...]:
    """What it is pieced of, and how wide it is."""
    shown = scope.valued(by_size)
    names = dict.fromkeys(
        _name(scope, ref) for _, border in shown for ref, _ in (*border.side_units, *border.end_units)
    )
    width = scope.by_size_inline(tuple((label, border.width) for label, border in shown), scope.wording.length)
    first = shown[0][1]
    width = width if first.sides else scope.by_size_inline(
        tuple((label, border.high) for label, border in shown), scope.wording.length
    )
    key = "borders.pieced.about"
    if not (first.sides and first.ends):
        key = "borders.pieced.about-sides" if first.sides else "borders.pieced.about-ends"
    return scope.inlines(key, parts=scope.wording.listed_text(list(names)), width=width)


def pieced_table(scope: Scope, id: str, by_size: BySize) -> Table:
    """Blocks of a side and of an end, and what each row measures when it is sewn."""
    seam = scope.plan.rules.seam
    rows: list[tuple[str, Callable[[PlannedBorder], str | tuple[Inline, ...]]]] = [
        ("side", lambda border: _counted(scope, border.side_units)),
        ("side-length", lambda border: scope.wording.extent(border.width.unfinished(seam), border.before[1])),
        ("end", lambda border: _counted(scope, border.end_units)),
        ("end-length", lambda border: scope.wording.extent(border.before[0], border.high.unfinished(seam))),
        ("end-cornered", lambda border: scope.wording.extent(border.after[0], border.high.unfinished(seam))),
    ]
    first = scope.valued(by_size)[0][1]
    rows = [row for row in rows if (first.sides if row[0].startswith("side") else first.ends)]
    rows = rows if first.sides else [row for row in rows if row[0] != "end-cornered"]
    cells = [
        (text_cell(scope.say(f"borders.pieced.table-{key}")), *size_cells(scope, each(scope.here(by_size), show)))
        for key, show in rows
    ]
    heads = (Column(scope.say("column.border")),)
    return size_table(scope, f"table-{id}", scope.say("borders.pieced.table"), heads, "", cells)


def pieced_steps(scope: Scope, id: str, by_size: BySize) -> list[Step]:
    """The rows of the sides, the rows of top and bottom with their corners, and sewing them on."""
    shown = scope.valued(by_size)
    after = scope.by_size_inline(tuple((label, border.after) for label, border in shown), scope.rectangle)
    first = shown[0][1]
    if not (first.sides and first.ends):
        return _on_two_sides(scope, id, by_size, after)
    corner = scope.listed(list(dict.fromkeys(_corner(scope, border) for _, border in shown)))
    bodies: list[tuple[Block, ...]] = [
        (
            Paragraph(scope.inlines("borders.pieced.rows", press=strips_words(scope, id, range(4)))),
            *_spaced(scope, by_size),
        ),
        (Paragraph(scope.inlines("borders.pieced.sides", press=sewn_on_words(scope, id, "side"))),),
        (
            Paragraph(scope.inlines("borders.pieced.ends", corner=corner, press=sewn_on_words(scope, id, "end"))),
            Paragraph(scope.inlines("borders.measure", size=after), "measure"),
        ),
    ]
    names = scope.only(by_size)
    return [Step(f"step-{id}-{number}", number, body, names) for number, body in enumerate(bodies, 1)]


def _on_two_sides(scope: Scope, id: str, by_size: BySize, after: str) -> list[Step]:
    """The rows of two sides, or of top and bottom, which have no corners."""
    sides = scope.valued(by_size)[0][1].sides
    press = sewn_on_words(scope, id, "side" if sides else "end")
    within = strips_words(scope, id, (0, 1) if sides else (2, 3))
    bodies: list[tuple[Block, ...]] = [
        (Paragraph(scope.inlines("borders.pieced.two-rows", press=within)), *_spaced(scope, by_size)),
        (
            Paragraph(scope.inlines("borders.pieced.sides" if sides else "borders.pieced.ends-alone", press=press)),
            Paragraph(scope.inlines("borders.measure", size=after), "measure"),
        ),
    ]
    names = scope.only(by_size)
    return [Step(f"step-{id}-{number}", number, body, names) for number, body in enumerate(bodies, 1)]


def _spaced(scope: Scope, by_size: BySize) -> tuple[Block, ...]:
    """Where the spacers lie in each row, in the sizes that have any."""
    found = [border for _, border in scope.valued(by_size) if border.spacers]
    if not found:
        return ()
    pieces = scope.listed([mark(piece) for piece in dict.fromkeys(own for one in found for own in one.spacers)])
    names = scope.only(tuple(border if border is not None and border.spacers else None for border in by_size))
    return (Paragraph(scope.inlines(f"borders.pieced.spacers.{found[0].spacers_at}", pieces=pieces), sizes=names),)


def _corner(scope: Scope, border: PlannedBorder) -> tuple[Inline, ...]:
    if border.corner_kind == "piece":
        return one_piece(scope, border.corner)
    return scope.inlines("borders.pieced.block", name=plain_name(border.corner))


def _name(scope: Scope, ref: str) -> str:
    """A block by its name, a square by its letter and number."""
    assembly = next((one for one in scope.plan.assemblies if one.id == ref), None)
    if assembly is None:
        return ref
    return scope.say("borders.pieced.block", name=varied(scope, assembly, plain_name(assembly.block)))


def _counted(scope: Scope, units: Units) -> tuple[Inline, ...]:
    """`12 goose blocks`; reversed ones apart, in one line."""
    return scope.listed([*_labels(scope, units)])


def _labels(scope: Scope, units: Units) -> Iterable[tuple[Inline, ...]]:
    for ref, count in units:
        assembly = next((one for one in scope.plan.assemblies if one.id == ref), None)
        if assembly is None:
            yield counted_piece(scope, ref, count)
        else:
            name = varied(scope, assembly, plain_name(assembly.block))
            yield as_inlines(scope.inlines("part.block", count=count, name=name))
