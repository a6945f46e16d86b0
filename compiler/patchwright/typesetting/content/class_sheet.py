"""The sheet for a class: which samples to prepare for each unit and block, in the order of showing, and their cloth.

In: the plan's samples of one size.
Out: a section with tables and checklists, and a drawing of every stage of a unit and of every block.
Never: a count that the plan does not have.
"""

from __future__ import annotations

from patchwright.planning.plan import Piece, PieceSize
from patchwright.planning.sample_tops import TopSamples
from patchwright.planning.sample_units import SamplePiece, UnitSamples
from patchwright.planning.samples import BlockSamples, ClassPlan, plan_class
from patchwright.typesetting.booklet import Block, Bullets, Cell, Column, FigureRow, Paragraph, Section, Subheading
from patchwright.typesetting.booklet import Table as Listed
from patchwright.typesetting.content.blocks import block_title
from patchwright.typesetting.content.buying import buy_text, pack_of
from patchwright.typesetting.content.names import heading, plain_name, unit_heading, varied
from patchwright.typesetting.content.pieces import counted_piece, cut_text, piece_noun
from patchwright.typesetting.content.pressing import unit_words
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
        _pieces(scope, made),
    ]
    shown = [
        *(_unit(scope, unit) for unit in made.units), *(_block(scope, block) for block in made.blocks),
        *([_top(scope, made.top)] if made.top is not None else []),
    ]
    for number, (name, part) in enumerate(shown, 1):
        title = scope.say("class.show", number=number, name=name)
        blocks += [Subheading(title, f"class-{size.name}-{number}"), *part]
    return Section(f"class-{size.name}", scope.say("section.class", size=size.label), tuple(blocks))


def _overview(scope: Scope, made: ClassPlan, size: str) -> Listed:
    """How many samples each unit and block has, in the order of showing, and what they take."""
    none = scope.say("by-size.none")
    rows: list[tuple[str, int, str, str]] = []
    for one in made.units:
        spare = scope.say("class.spare", count=one.spare) if one.spare else none
        rows.append((_unit_title(scope, one), one.count, _taken(scope, one), spare))
    for block in made.blocks:
        taken = scope.say("class.blocks", count=block.taken + bool(block.second))
        rows.append((_block_title(scope, block), block.count, taken, none))
    if made.top is not None:
        rows.append((_top_title(scope, made.top), len(made.top.stages), _top_taken(scope, made.top), none))
    columns = (
        Column(scope.say("class.of"), weight=2), Column(scope.say("class.samples"), "end", weight=0),
        Column(scope.say("class.take"), weight=1), Column(scope.say("class.left"), weight=0),
    )  # fmt: skip
    cells = tuple(
        _row(scope, scope.say("class.show", number=number, name=row[0]), *row[1:])
        for number, row in enumerate(rows, 1)
    )
    return Listed(f"table-class-{size}", scope.say("class.table"), columns, cells)


def _row(scope: Scope, name: str, samples: int, takes: str, left: str) -> Row:
    return (text_cell(name), text_cell(scope.wording.number(samples)), text_cell(takes), text_cell(left))


def _unit_title(scope: Scope, one: UnitSamples) -> str:
    unit = scope.unit(one.unit)
    return varied(scope, unit, unit_heading(scope, unit))


def _block_title(scope: Scope, one: BlockSamples) -> str:
    return heading(block_title(scope, scope.assembly(one.assembly)))


def _top_title(scope: Scope, top: TopSamples) -> str:
    return scope.say(f"class.top.{top.kind}")


def _taken(scope: Scope, one: UnitSamples) -> str:
    """`5 pairs of squares`, `4 sets of pieces`, `3 short strip sets`."""
    recipe = one.made.recipe
    if recipe.how == "strips" and recipe.pieces[0].id.startswith("set-"):
        sets = len({piece.id.split("-")[1] for piece in recipe.pieces})
        return scope.say("class.strips", count=one.batches * sets)
    if len(recipe.pieces) == 2 and all(piece.per_batch == 1 for piece in recipe.pieces):
        square = all(piece.width == piece.height for piece in recipe.pieces)
        key = "pairs" if recipe.batch > 1 else "sets"
        noun = scope.say("piece.square" if square else "piece.rectangle", count=2)
        return scope.say(f"class.{key}", count=one.batches, noun=noun)
    return scope.say("class.batches" if recipe.batch > 1 else "class.sets", count=one.batches, each=recipe.batch)


def _top_taken(scope: Scope, top: TopSamples) -> str:
    """`6 blocks and 6 backs`; pieces that are no blocks stand in the list of what to cut."""
    blocks = sum(count for ref, count in top.parts if any(own.id == ref for own in scope.plan.assemblies))
    said = [scope.say("class.blocks", count=blocks)] if blocks else []
    said += [
        scope.say("class.batting", count=count, size=scope.wording.extent(*size)) for size, count in top.batting
    ]
    return scope.wording.listed_text(said) or scope.say("by-size.none")


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


def _pieces(scope: Scope, made: ClassPlan) -> Bullets:
    """What to cut for all samples together, to be ticked."""
    items = []
    for cut in made.pieces:
        piece = scope.piece(cut.piece)
        noun, text = piece_noun(scope, piece, cut.count), _cut_text(scope, piece, cut)
        items.append(scope.inlines("cutting.piece", count=cut.count, noun=noun, size=text, piece=mark(cut.piece)))
    return Bullets(tuple(items), checklist=True)


def _cut_text(scope: Scope, piece: Piece, cut: SamplePiece) -> str:
    return cut_text(scope, piece, PieceSize(cut.width, cut.height, cut.count, cut.count, 0))


def _unit(scope: Scope, one: UnitSamples) -> tuple[str, list[Block]]:
    """The samples of a unit in the order of showing, and their drawings."""
    unit = scope.unit(one.unit)
    items = [stage_words(scope, unit, one.made, stage) for stage in one.stages]
    if one.second:
        press = unit_words(scope, scope.unit(one.second))
        items.append(scope.inlines("class.second-unit", press=press))
    told = [stage for stage in told_stages(scope, unit) if not stage.stage.only_measures]
    figures = tuple(figure for stage in told for figure in stage_figures(scope, unit, stage))
    blocks: list[Block] = [Bullets(tuple(items), checklist=True), *([FigureRow(figures)] if figures else [])]
    return _unit_title(scope, one), blocks


def _block(scope: Scope, one: BlockSamples) -> tuple[str, list[Block]]:
    """The samples of a block in the order of showing."""
    assembly = scope.assembly(one.assembly)
    larger = block_title(scope, scope.assembly(one.among)) if one.among else ""
    items = [scope.inlines(f"class.stage.{assembly.axis}.{stage}", larger=larger) for stage in one.stages]
    items += [scope.inlines("class.second-block")] if one.second else []
    shown = scope.figure_if(f"assembly-{assembly.id}") or scope.figure_if(f"block-{assembly.id}")
    return _block_title(scope, one), [Bullets(tuple(items), checklist=True), *shown]


def _top(scope: Scope, top: TopSamples) -> tuple[str, list[Block]]:
    """The samples of a top, with the parts that each of its rows or its layers has."""
    parts = [
        scope.inlines("part.block", count=count, name=plain_name(made.block))
        if (made := next((own for own in scope.plan.assemblies if own.id == ref), None)) is not None
        else counted_piece(scope, ref, count)
        for ref, count in top.parts
    ]
    items = tuple(scope.inlines(f"class.top.stage.{stage}") for stage in top.stages)
    words = scope.inlines("class.top.parts", parts=scope.listed(parts))
    return _top_title(scope, top), [Paragraph(words), Bullets(items, checklist=True)]
