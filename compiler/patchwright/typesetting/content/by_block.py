"""Quilts that are made block by block: the layers of each block, joining them, and what a rag quilt's edge is left as.

In: the layers of every covered size.
Out: the section that stands in place of assembling a top, and the parts of finishing.
Never: batting or backing for the whole quilt.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Literal

from patchwright.planning.plan import LayeredBlocks
from patchwright.typesetting.booklet import (
    Block,
    Column,
    Figure,
    FigureRow,
    Paragraph,
    Section,
    Step,
    Subheading,
    Table,
)
from patchwright.typesetting.content.row_measures import row_measures
from patchwright.typesetting.content.scope import Scope, mark
from patchwright.typesetting.content.tables import Row, size_cells, size_table, text_cell

LAYERING = {"rag": ("layer", "quilt"), "quilted": ("layer", "quilt", "trim")}
JOINING = {"rag": ("lay-out", "rows", "join"), "quilted": ("lay-out", "rows", "batting", "close", "join")}
EDGE = ("edge", "clip", "wash")
FIGURES = {"layer": "by-block-layers", "rows": "by-block-seam", "clip": "by-block-clips", "close": "by-block-closed"}

Way = Literal["rag", "quilted"]


def top_by_block(scope: Scope, center: Table, layouts: Sequence[Figure]) -> Section:
    """Making up the blocks in layers, then joining them."""
    way = _way(scope)
    pairs = [FigureRow(tuple(layouts[at:at + 2])) for at in range(0, len(layouts), 2)]
    shown: list[Block] = [*layouts] if scope.single else [*pairs]
    joining = _steps(scope, way, JOINING[way], "join")
    size = scope.by_size_inline(tuple((one.label, one.center) for one in scope.sizes), scope.rectangle)
    last = joining[-1]
    if isinstance(last, Step):
        measure = Paragraph(scope.inlines("top.measure", size=size), "measure")
        joining[-1] = replace(last, blocks=(*last.blocks, measure))
    return Section("top", scope.say("section.by-block"), (
        Paragraph(scope.inlines(f"by-block.{way}.lead"), "lead"),
        Subheading(scope.say("by-block.layers"), "part-block-layers"), _table(scope),
        *_steps(scope, way, LAYERING[way], "layers"),
        Subheading(scope.say("by-block.joining"), "part-joining"), center, *shown, *joining,
    ))


def finishing_by_block(scope: Scope) -> list[Block]:
    """The edge of a rag quilt; nothing where blocks are quilted one by one, whose edge is bound."""
    way = _way(scope)
    if way != "rag":
        return []
    return [Subheading(scope.say("by-block.edge"), "part-edge"), *_steps(scope, way, EDGE, "edge")]


def _way(scope: Scope) -> Way:
    return next(size.by_block.way for size in scope.sizes if size.by_block is not None)


def _steps(scope: Scope, way: Way, keys: Sequence[str], part: str) -> list[Block]:
    made = next(size.by_block for size in scope.sizes if size.by_block is not None)
    grids = tuple((size.label, (size.down, size.across)) for size in scope.sizes)
    rows = scope.told(grids, lambda pair: scope.say("top.grid", rows=pair[0], across=pair[1]))
    pieces = dict.fromkeys(
        block.piece for size in scope.sizes if size.by_block is not None for block in size.by_block.blocks
    )
    blocks: list[Block] = []
    for number, key in enumerate(keys, 1):
        words = scope.inlines(
            f"by-block.{way}.{key}", pieces=scope.listed([mark(piece) for piece in pieces]), rows=rows,
            seam=scope.plan.rules.seam, inset=made.inset, allowance=made.allowance,
            stop=scope.plan.rules.block_stop,
        )
        figure = scope.figure_if(FIGURES[key]) if key in FIGURES else ()
        blocks.append(Step(f"step-{part}-{number}", number, (Paragraph(words), *figure, *_measures(scope, key))))
    return blocks


def _measures(scope: Scope, key: str) -> list[Block]:
    """What a block measures when its layers are trimmed, and a row when it is sewn."""
    if key == "rows":
        return row_measures(scope, scope.sizes, False, ())
    if key != "trim":
        return []
    fronts = tuple(
        (size.label, tuple(dict.fromkeys(block.front for block in size.by_block.blocks)))
        for size in scope.sizes if size.by_block is not None
    )
    shown = scope.by_size_inline(fronts, lambda own: scope.wording.listed_text([scope.extent(one) for one in own]))
    return [Paragraph(scope.inlines("blocks.measure", size=shown), "measure")]


def _table(scope: Scope) -> Table:
    """How many blocks, and how large their layers are."""
    shows: dict[str, Callable[[LayeredBlocks], str]] = {
        "count": lambda block: scope.wording.number(block.count),
        "front": lambda block: scope.wording.extent(*block.front),
        "batting": lambda block: scope.wording.extent(*block.batting),
        "back": lambda block: scope.wording.extent(*block.back),
    }
    rows: list[Row] = []
    for rank in range(max(len(size.by_block.blocks) for size in scope.sizes if size.by_block is not None)):
        for key, show in shows.items():
            cells = [
                show(size.by_block.blocks[rank])
                if size.by_block is not None and rank < len(size.by_block.blocks) else None
                for size in scope.sizes
            ]
            rows.append((text_cell(scope.say(f"by-block.table-{key}")), *size_cells(scope, cells)))
    heads = (Column(scope.say("by-block.head")),)
    return size_table(scope, "table-block-layers", scope.say("by-block.table"), heads, "", rows)
