"""Cutting layouts: for one size, what each strip or precut of every fabric is cut into, drawn and in a table."""

from __future__ import annotations

from patchwright.planning.plan import PlannedFabric
from patchwright.typesetting.booklet import Block, Cell, Column, Inline, Paragraph, Section, Subheading, Table
from patchwright.typesetting.content.buying import pack_of
from patchwright.typesetting.content.cuts import Kind, SizeCuts, size_cuts
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
    if planned is None:
        return ()
    cuts = size_cuts(planned, fabric)
    figure = scope.figure_if(f"cutting-{fabric.letter}-{size.name}", sizes=() if scope.single else (size.name,))
    return (*figure, _table(scope, fabric, cuts, size.name)) if cuts.groups else ()


def _page(scope: Scope, index: int) -> Section:
    size = scope.plan.sizes[index]
    blocks: list[Block] = [Paragraph(scope.inlines("layouts.lead", size=size.label), "lead", (size.name,))]
    for fabric in scope.plan.fabrics:
        layout = fabric_layout(scope, fabric, index)
        if layout:
            blocks += [Subheading(scope.say("cutting.fabric", letter=fabric.letter, name=fabric.name)), *layout]
    title = scope.say("section.layouts", size=size.label)
    return Section(f"layouts-{size.name}", title, tuple(blocks), new_page=True)


def _table(scope: Scope, fabric: PlannedFabric, cuts: SizeCuts, size: str) -> Table:
    """A row for each kind of strip: how many, its height, what each gives, and the width that it takes."""
    pack = pack_of(scope, fabric)
    rows: list[tuple[Cell, ...]] = []
    for group in cuts.groups:
        for kind in group.kinds:
            height = group.height
            name = scope.say(f"layouts.{pack.kind if pack else 'squares'}", count=kind.count)
            head = scope.say("layouts.strips", count=kind.count, height=height) if height is not None else name
            used = scope.wording.length(kind.used) if kind.used is not None else scope.say("by-size.none")
            rows.append((text_cell(head), Cell(_each(scope, kind)), text_cell(used)))
    columns = (
        Column(scope.say("column.cut")),
        Column(scope.say("column.from-each"), weight=2),
        Column(scope.say("column.used"), "end", weight=0),
    )
    caption = scope.say("layouts.table", letter=fabric.letter, name=fabric.name)
    return Table(f"layout-{fabric.letter}-{size}", caption, columns, tuple(rows))


def _each(scope: Scope, kind: Kind) -> tuple[Inline, ...]:
    given = [scope.inlines("layouts.each", count=gained.count, piece=mark(gained.piece)) for gained in kind.each]
    given += [scope.inlines("layouts.joined", piece=mark(piece)) for piece in kind.joined]
    return scope.listed(given)
