"""What to buy, with a column for each size, in order of use; binding, backing and batting stand last."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial

from patchwright.planning.plan import (
    Alternative,
    FabricSize,
    PlannedBacking,
    PlannedBinding,
    PlannedFabric,
    PlannedPack,
    PlannedSize,
)
from patchwright.typesetting.booklet import Block, Cell, Column, FabricKey, Inline, Paragraph, Section
from patchwright.typesetting.content import asides
from patchwright.typesetting.content.beds import bed_rows
from patchwright.typesetting.content.buying import (
    pack_amount,
    pack_of,
    pack_text,
    purpose_text,
    shopping_amount,
    source_amount,
    source_text,
)
from patchwright.typesetting.content.finishing_needs import ABOUT, batting_rows, batting_text
from patchwright.typesetting.content.scope import Scope, as_inlines, each, words
from patchwright.typesetting.content.tables import Row, size_cells, size_table, text_cell


def requirements(scope: Scope) -> Section:
    """The finished sizes, what to buy for each, and the fabrics' key."""
    letters = tuple(fabric.letter for fabric in scope.plan.fabrics if scope.any(fabric.sizes))
    blocks: tuple[Block, ...] = (
        scope.paragraph("requirements.lead-single" if scope.single else "requirements.lead"),
        _sizes_table(scope),
        _cloth_table(scope),
        *_other_ways(scope),
        *_remarks(scope),
        FabricKey(letters),
    )
    return Section("requirements", scope.say("section.requirements"), blocks)


def _sizes_table(scope: Scope) -> Block:
    """Finished size and blocks of each size."""
    rows: list[Row] = [
        (
            text_cell(scope.say("requirements.finished")),
            *size_cells(scope, [asides.finished(scope, index) for index in scope.chosen]),
        ),
        (text_cell(scope.say("requirements.grid")), *_cells(scope, lambda size: _grid(scope, size))),
    ]
    rows += bed_rows(scope)
    heads = (Column(scope.say("requirements.quilt")),)
    return size_table(scope, "table-sizes", scope.say("requirements.sizes"), heads, "", rows)


def _grid(scope: Scope, size: PlannedSize) -> str:
    if size.setting != "straight" or size.medallion:
        count = sum(item.part == "block" for item in size.items)
        key: str = "medallion" if size.medallion else size.setting
        if size.float is not None and key != "on-point":
            key += "-on-point"
        return scope.say(f"requirements.grid-{key}", across=size.across, down=size.down, count=count)
    return scope.say("requirements.grid-value", across=size.across, down=size.down, count=size.across * size.down)


def _cloth_table(scope: Scope) -> Block:
    rows: list[Row] = []
    named: set[str] = set()
    for fabric in scope.plan.fabrics:
        if not scope.any(fabric.sizes):
            continue
        pack = pack_of(scope, fabric)
        if pack is not None and pack.id not in named:
            named.add(pack.id)
            rows.append(_pack_row(scope, pack))
        rows.append(_fabric_row(scope, fabric))
    heads = (Column(scope.say("column.fabric"), weight=3), Column(scope.say("column.purpose"), weight=4))
    rows += _finishing_rows(scope)
    return size_table(scope, "table-buy", scope.say("requirements.buy"), heads, scope.say("column.amount"), rows)


def _pack_row(scope: Scope, pack: PlannedPack) -> Row:
    fabrics = [fabric.letter for fabric in scope.plan.fabrics if fabric.source.pack == pack.id]
    purpose = scope.say("requirements.pack-for", count=len(fabrics), letters=scope.wording.listed_text(fabrics))
    packs = [use.packs if use is not None else None for use in scope.here(pack.sizes)]
    amounts = each(packs, lambda count: pack_amount(scope, pack, count))
    return (text_cell(pack_text(scope, pack)), text_cell(purpose), *size_cells(scope, amounts))


def _fabric_row(scope: Scope, fabric: PlannedFabric) -> Row:
    head = Cell(scope.inlines("fabric.listed", letter=fabric.letter, name=fabric.name), swatch=fabric.letter)
    amounts = each(scope.here(fabric.sizes), lambda size: _shopping(scope, fabric, size))
    return (head, text_cell(purpose_text(scope, fabric)), *size_cells(scope, amounts))


def _shopping(scope: Scope, fabric: PlannedFabric, size: FabricSize) -> tuple[Inline, ...]:
    """What to buy of a fabric in one size; what comes from a pack has no amount of its own."""
    if size.buy is not None and pack_of(scope, fabric) is None:
        return asides.amount(scope, size.buy)
    return words(shopping_amount(scope, fabric, size))


def _finishing_rows(scope: Scope) -> list[Row]:
    rows: list[Row] = []
    if any(size.binding for size in scope.sizes):
        rows.append(_finishing_row(scope, "binding", [_of_its_own(scope, size.binding) for size in scope.sizes]))
    if any(size.backing for size in scope.sizes):
        rows.append(_finishing_row(scope, "backing", [_of_its_own(scope, size.backing) for size in scope.sizes]))
    rows.append(_finishing_row(scope, "batting", [batting_text(scope, index) for index in scope.chosen]))
    return [*rows, *batting_rows(scope)]


def _finishing_row(scope: Scope, part: str, amounts: Sequence[tuple[Inline, ...] | None]) -> Row:
    return (text_cell(scope.say(f"requirements.{part}")), Cell(ABOUT[part](scope)), *size_cells(scope, amounts))


def _of_its_own(scope: Scope, part: PlannedBinding | PlannedBacking | None) -> tuple[Inline, ...] | None:
    """The amount where binding or backing is a cloth of its own, else in which fabric it is included."""
    if part is None:
        return None
    if part.fabric:
        return words(scope.say("requirements.included", letter=scope.fabric(part.fabric).letter))
    return asides.amount(scope, part.buy) if part.buy is not None else None


def _other_ways(scope: Scope) -> tuple[Block, ...]:
    """Other sources of fabrics, each worked out for itself, with what it takes in every covered size."""
    rows: list[Row] = []
    for fabric in scope.plan.fabrics:
        for other in fabric.alternatives if scope.any(fabric.sizes) else ():
            head = Cell(scope.inlines("fabric.listed", letter=fabric.letter, name=fabric.name), swatch=fabric.letter)
            amounts = each(scope.here(other.sizes), partial(_source, scope, other))
            rows.append((head, text_cell(source_text(scope, other)), *size_cells(scope, amounts)))
    if not rows:
        return ()
    heads = (Column(scope.say("column.fabric"), weight=3), Column(scope.say("alternatives.instead"), weight=4))
    caption = scope.say("alternatives.table")
    table = size_table(scope, "table-alternatives", caption, heads, scope.say("column.amount"), rows)
    return (table, Paragraph(scope.inlines("alternatives.remark"), "fine"))


def _source(scope: Scope, other: Alternative, size: FabricSize) -> tuple[Inline, ...]:
    """What to buy of another way in one size."""
    if size.precuts is None and size.buy is not None:
        return asides.amount(scope, size.buy)
    return words(source_amount(scope, other, size))


def _remarks(scope: Scope) -> tuple[Paragraph, ...]:
    """On what widths, straightening and shrinkage the amounts count."""
    rules = scope.plan.rules
    keys = ["requirements.width"]
    keys += ["requirements.straightening"] if rules.straightening else []
    keys += ["requirements.shrinkage"] if rules.shrinkage else []
    keys += ["requirements.elsewhere"] if scope.plan.elsewhere is not None else []
    percent = scope.wording.number(rules.shrinkage * 100)
    parts: list[object] = []
    for key in keys:
        said = scope.inlines(key, width=asides.width(scope), straightening=rules.straightening, percent=percent)
        parts += [" ", said] if parts else [said]
    return (Paragraph(as_inlines(parts), "fine"),)


def _cells(scope: Scope, show: Callable[[PlannedSize], str]) -> Row:
    return size_cells(scope, [show(size) for size in scope.sizes])
