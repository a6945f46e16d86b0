"""The sheet for a class: which samples to prepare for each unit and block, in the order of showing, and their cloth.

In: the plan's samples of one size.
Out: a section with tables and checklists, and a drawing of every stage of a unit.
Never: a count that the plan does not have.
"""

from __future__ import annotations

from patchwright.planning.plan import PlannedUnit
from patchwright.planning.samples import BlockSamples, ClassPlan, UnitSamples, plan_class
from patchwright.typesetting.booklet import Block, Bullets, Cell, Column, FigureRow, Paragraph, Section, Subheading
from patchwright.typesetting.booklet import Table as Listed
from patchwright.typesetting.content.blocks import block_title
from patchwright.typesetting.content.buying import buy_text, pack_of
from patchwright.typesetting.content.names import heading, unit_heading
from patchwright.typesetting.content.pieces import cut_text, piece_noun
from patchwright.typesetting.content.scope import Scope, mark
from patchwright.typesetting.content.tables import Row, text_cell
from patchwright.typesetting.content.unit_steps import stage_figures, stage_words, told_stages


def class_sheet(scope: Scope) -> tuple[Section, ...]:
    """The samples of every covered size."""
    return tuple(_page(scope, index) for index in scope.chosen)


def _page(scope: Scope, index: int) -> Section:
    size, made = scope.plan.sizes[index], plan_class(scope.plan, index)
    blocks: list[Block] = [
        Paragraph(scope.inlines("class.lead", size=size.label), "lead"),
        _overview(scope, made, size.name),
        _cloth(scope, made, size.name),
        Subheading(scope.say("class.cut"), f"class-cut-{size.name}"),
        _pieces(scope, made, index),
    ]
    for unit in made.units:
        blocks += _unit(scope, unit, index)
    for block in made.blocks:
        blocks += _block(scope, block, size.name)
    return Section(f"class-{size.name}", scope.say("section.class", size=size.label), tuple(blocks))


def _overview(scope: Scope, made: ClassPlan, size: str) -> Listed:
    """How many samples each unit and block has, in the order of showing, and what they take."""
    rows: list[Row] = []
    for one in made.units:
        unit = scope.unit(one.unit)
        spare = scope.say("class.spare", count=one.spare) if one.spare else scope.say("by-size.none")
        rows.append(_row(scope, unit_heading(scope, unit), len(one.stages), _taken(scope, unit, one, size), spare))
    for block in made.blocks:
        name = heading(block_title(scope, scope.assembly(block.assembly)))
        count = len(block.stages)
        rows.append(_row(scope, name, count, scope.say("class.blocks", count=count), scope.say("by-size.none")))
    columns = (
        Column(scope.say("class.of"), weight=2), Column(scope.say("class.samples"), "end", weight=0),
        Column(scope.say("class.take"), weight=1), Column(scope.say("class.left"), weight=0),
    )  # fmt: skip
    return Listed(f"table-class-{size}", scope.say("class.table"), columns, tuple(rows))


def _row(scope: Scope, name: str, samples: int, takes: str, left: str) -> Row:
    return (text_cell(name), text_cell(scope.wording.number(samples)), text_cell(takes), text_cell(left))


def _taken(scope: Scope, unit: PlannedUnit, one: UnitSamples, size: str) -> str:
    """`5 pairs of squares`, `4 sets of pieces`."""
    index = next(index for index in scope.chosen if scope.plan.sizes[index].name == size)
    planned = unit.sizes[index]
    key = "class.batches" if planned is not None and planned.recipe.batch > 1 else "class.sets"
    each = planned.recipe.batch if planned is not None else 1
    return scope.say(key, count=one.batches, each=each)


def _cloth(scope: Scope, made: ClassPlan, size: str) -> Listed:
    """Extra cloth for the samples, by fabric."""
    rows: list[Row] = []
    for one in made.cloth:
        fabric = scope.fabric(one.fabric)
        pack = pack_of(scope, fabric)
        amount = buy_text(scope, one.buy) if one.buy is not None else scope.say("by-size.none")
        if pack is not None:
            amount = scope.say(f"buy.single.{pack.kind}", count=one.precuts)
        head = Cell(scope.inlines("fabric.listed", letter=fabric.letter, name=fabric.name), swatch=fabric.letter)
        rows.append((head, text_cell(amount)))
    columns = (Column(scope.say("column.fabric"), weight=1), Column(scope.say("class.extra"), "end", weight=0))
    return Listed(f"table-class-cloth-{size}", scope.say("class.cloth"), columns, tuple(rows))


def _pieces(scope: Scope, made: ClassPlan, index: int) -> Bullets:
    """What to cut for all samples together, to be ticked."""
    items = []
    for id, count in made.pieces:
        piece = scope.piece(id)
        size = piece.sizes[index]
        if size is not None:
            noun, text = piece_noun(scope, piece, count), cut_text(scope, piece, size)
            items.append(scope.inlines("cutting.piece", count=count, noun=noun, size=text, piece=mark(id)))
    return Bullets(tuple(items), checklist=True)


def _unit(scope: Scope, one: UnitSamples, index: int) -> list[Block]:
    """The samples of a unit in the order of showing, and their drawings."""
    unit = scope.unit(one.unit)
    size = unit.sizes[index]
    if size is None:
        return []
    items = tuple(stage_words(scope, unit, size, stage) for stage in one.stages)
    told = [stage for stage in told_stages(scope, unit) if stage.stage.kind != "finished"]
    figures = tuple(figure for stage in told for figure in stage_figures(scope, unit, stage))
    title = scope.say("class.show", name=unit_heading(scope, unit))
    name = f"class-{scope.plan.sizes[index].name}-{unit.id}"
    blocks: list[Block] = [Subheading(title, name), Bullets(items, checklist=True)]
    return [*blocks, FigureRow(figures)] if figures else blocks


def _block(scope: Scope, one: BlockSamples, size: str) -> list[Block]:
    """The samples of a block in the order of showing."""
    assembly = scope.assembly(one.assembly)
    name = heading(block_title(scope, assembly))
    items = tuple(scope.inlines(f"class.stage.{assembly.axis}.{stage}") for stage in one.stages)
    title = scope.say("class.show", name=name)
    return [Subheading(title, f"class-{size}-{assembly.id}"), Bullets(items, checklist=True)]
