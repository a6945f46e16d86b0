"""Cutting layouts: for one size, what each strip or precut of every fabric is cut into, drawn and in a table."""

from __future__ import annotations

from patchwright.planning.plan import PlannedFabric, SheetCut
from patchwright.typesetting.booklet import Block, Cell, Column, Figure, Inline, Paragraph, Section, Subheading, Table
from patchwright.typesetting.content.buying import pack_of, pack_text
from patchwright.typesetting.content.cuts import Kind, SizeCuts, pack_cuts, size_cuts
from patchwright.typesetting.content.cutting_tables import strips_text
from patchwright.typesetting.content.packs import first_of, pack_prints, sharers
from patchwright.typesetting.content.scope import Scope, mark
from patchwright.typesetting.content.tables import text_cell


def layouts(scope: Scope) -> tuple[Section, ...]:
    """A page for each covered size, where the edition wants them apart."""
    if scope.edition.layouts == "inline":
        return ()
    return tuple(_page(scope, index) for index in scope.chosen)


def fabric_layout(scope: Scope, fabric: PlannedFabric, index: int) -> tuple[Block, ...]:
    """How one fabric is cut up in one size."""
    planned, size = fabric.sizes[index], scope.plan.sizes[index]
    if pack_of(scope, fabric) is not None:
        return _pack_layout(scope, fabric, index)
    if planned is None:
        return ()
    cuts = size_cuts(planned)
    if not cuts.groups:
        return ()
    return (_table(scope, fabric, cuts, size.name), *_figures(scope, fabric, size.name))


def _pack_layout(scope: Scope, fabric: PlannedFabric, index: int) -> tuple[Block, ...]:
    """How a pack is cut up for all its fabrics, with the first of them; each layout is drawn once."""
    pack, size = first_of(scope, fabric), scope.plan.sizes[index]
    use = pack.sizes[index] if pack is not None else None
    if pack is None or use is None:
        return ()
    figures: list[Figure] = []
    drawn: list[SheetCut] = []
    for sharer in sharers(scope, pack):
        own = sharer.sizes[index]
        sheets = own.precuts.sheets if own is not None and own.precuts is not None else ()
        if any(sheet not in drawn for sheet in sheets):
            drawn += sheets
            figures += _figures(scope, sharer, size.name)
    table = _table(scope, fabric, pack_cuts(use), size.name)
    return (table, *figures, *pack_prints(scope, pack, index))


def _figures(scope: Scope, fabric: PlannedFabric, size: str) -> tuple[Figure, ...]:
    """The drawings of a fabric's strips, as many as they need."""
    names = () if scope.single else (size,)
    first = f"cutting-{size}-{fabric.letter}"
    figures = list(scope.figure_if(first, sizes=names))
    while more := scope.figure_if(f"{first}-{len(figures) + 1}", sizes=names):
        figures += more
    return tuple(figures)


def _page(scope: Scope, index: int) -> Section:
    size = scope.plan.sizes[index]
    blocks: list[Block] = [Paragraph(scope.inlines("layouts.lead", size=size.label), "lead", (size.name,))]
    for fabric in scope.plan.fabrics:
        layout = fabric_layout(scope, fabric, index)
        if layout:
            blocks += [Subheading(_heading(scope, fabric)), *layout]
    title = scope.say("section.layouts", size=size.label)
    return Section(f"layouts-{size.name}", title, tuple(blocks), new_page=True)


def _heading(scope: Scope, fabric: PlannedFabric) -> str:
    """The fabric, or the pack where it shares one with others."""
    pack = pack_of(scope, fabric)
    if pack is not None and len(sharers(scope, pack)) > 1:
        return pack_text(scope, pack)
    return scope.say("cutting.fabric", letter=fabric.letter, name=fabric.name)


def _table(scope: Scope, fabric: PlannedFabric, cuts: SizeCuts, size: str) -> Table:
    """A row for each kind of strip: how many, its height, what each gives, and the width that it takes."""
    pack = pack_of(scope, fabric)
    rows: list[tuple[Cell, ...]] = []
    for group in cuts.groups:
        for kind in group.kinds:
            name = scope.say(f"layouts.{pack.kind if pack else 'squares'}", count=kind.count)
            head = strips_text(scope, group.height, kind.count) if group.height is not None else name
            used = (text_cell(scope.wording.length(kind.used)),) if kind.used is not None else ()
            rows.append((text_cell(head), Cell(_each(scope, kind)), *used))
    columns = [Column(scope.say("column.cut")), Column(scope.say("column.from-each"), weight=2)]
    if any(kind.used is not None for group in cuts.groups for kind in group.kinds):
        columns.append(Column(scope.say("column.used"), "end", weight=0))
        rows = [row if len(row) == len(columns) else (*row, text_cell(scope.say("by-size.none"))) for row in rows]
    return Table(f"table-layout-{fabric.letter}-{size}", "", tuple(columns), tuple(rows))


def _each(scope: Scope, kind: Kind) -> tuple[Inline, ...]:
    given = [scope.inlines("layouts.each", count=gained.count, piece=mark(gained.piece)) for gained in kind.each]
    given += [scope.inlines("layouts.joined", piece=mark(piece)) for piece in kind.joined]
    return scope.listed(given)
