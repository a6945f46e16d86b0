"""Rows and top: laying out the blocks, sashing, sewing rows, and what the center measures.

In: the grid and the placed parts of every covered size.
Out: steps that serve all sizes whose tops are built alike; where sashing differs, each way has its own steps.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from patchwright.planning.plan import PlannedSize
from patchwright.typesetting.booklet import Block, Column, Inline, Paragraph, Section, Step, Table
from patchwright.typesetting.content.grid import Grid, read_grid
from patchwright.typesetting.content.pieces import one_piece
from patchwright.typesetting.content.scope import Scope, mark
from patchwright.typesetting.content.tables import Row, size_cells, size_table, text_cell

Body = list[Block]


def top(scope: Scope) -> Section:
    """The steps, then the layout of each size."""
    steps = [body for body in _steps(scope) if body]
    blocks: list[Block] = [Paragraph(scope.inlines("top.lead"), "lead"), _table(scope)]
    for number, body in enumerate(steps, 1):
        sizes = body[0].sizes if isinstance(body[0], Paragraph) else ()
        blocks.append(Step(f"step-top-{number}", number, tuple(body), sizes))
    for size in scope.sizes:
        names = () if scope.single else (size.name,)
        blocks.append(scope.figure(f"layout-{size.name}", scope.say("top.layout", size=size.label), names))
        blocks += scope.figure_if(f"top-{size.name}", scope.say("top.rows-figure", size=size.label), names)
    return Section("top", scope.say("section.top"), tuple(blocks))


def _table(scope: Scope) -> Table:
    """What each size's center is made of and must measure."""
    rows = [
        _row(scope, "rows", lambda size: scope.wording.number(size.down)),
        _row(scope, "across", lambda size: scope.wording.number(size.across)),
        _row(scope, "center", lambda size: scope.wording.extent(*size.center)),
    ]
    heads = (Column(scope.say("requirements.quilt")),)
    return size_table(scope, "table-top", scope.say("top.table"), heads, scope.say("column.size"), rows)


def _row(scope: Scope, key: str, show: Callable[[PlannedSize], str]) -> Row:
    return (text_cell(scope.say(f"top.table-{key}")), *size_cells(scope, [show(size) for size in scope.sizes]))


def _steps(scope: Scope) -> list[Body]:
    """Laying out, then each way of joining with the sizes that have it, then the measure."""
    ways: dict[str, list[PlannedSize]] = {}
    for size in scope.sizes:
        ways.setdefault(read_grid(size).way, []).append(size)
    steps: list[Body] = [_lay_out(scope)]
    for way, sizes in ways.items():
        names = tuple(size.name for size in sizes) if len(ways) > 1 else ()
        steps += _joined(scope, way, sizes, names)
    center = scope.by_size_inline(tuple((size.label, size.center) for size in scope.sizes), scope.extent)
    steps[-1].append(Paragraph(scope.inlines("top.measure", size=center), "measure"))
    return steps


def _lay_out(scope: Scope) -> Body:
    rows = scope.by_size_inline(tuple((size.label, size.down) for size in scope.sizes), scope.wording.number)
    across = scope.by_size_inline(tuple((size.label, size.across) for size in scope.sizes), scope.wording.number)
    body: Body = [Paragraph(scope.inlines("top.lay-out", rows=rows, across=across))]
    squares = dict.fromkeys(piece for size in scope.sizes for piece in read_grid(size).squares)
    if squares:
        named = scope.listed([_cut(scope, piece) for piece in squares])
        body.append(Paragraph(scope.inlines("top.squares", pieces=named)))
    return body


def _joined(scope: Scope, way: str, sizes: Sequence[PlannedSize], names: tuple[str, ...]) -> list[Body]:
    """Sewing rows and joining them: without sashing, with long sashing, or with cornerstones."""
    rule = scope.plan.rules.pressing
    start = scope.say("only-for", sizes=scope.wording.listed_text([size.label for size in sizes])) if names else ""
    grids = tuple((size.label, read_grid(size)) for size in sizes)
    if way == "plain":
        return [
            [Paragraph(scope.inlines(f"top.plain.sew.{rule}", start=start), sizes=names)],
            [Paragraph(scope.inlines(f"top.plain.join.{rule}", start=start), sizes=names)],
        ]
    said = [_sashed_rows(scope, start, grids), _sash_rows(scope, start, way, grids)]
    steps: list[Body] = [[Paragraph(words, sizes=names)] for words in said if words]
    first = grids[0][1].frame
    join = scope.inlines(f"top.sashed.join.{'frame' if first else 'inner'}", start=start)
    return [*steps, [Paragraph(join, sizes=names)]]


Grids = tuple[tuple[str, Grid], ...]


def _sashed_rows(scope: Scope, start: str, grids: Grids) -> tuple[Inline, ...]:
    """Rows of blocks with sashing strips between them."""
    strips = dict.fromkeys(piece for _, grid in grids for piece in grid.in_rows)
    if not strips:
        return scope.inlines("top.plain.sew.dark", start=start)
    count = scope.by_size_inline(tuple((label, grid.strips_in_row) for label, grid in grids), scope.wording.number)
    end = "frame" if grids[0][1].frame else "inner"
    pieces = scope.listed([_cut(scope, piece) for piece in strips])
    return scope.inlines(f"top.sashed.row.{end}", start=start, count=count, pieces=pieces)


def _sash_rows(scope: Scope, start: str, way: str, grids: Grids) -> tuple[Inline, ...]:
    """Sashing rows: one long strip each, or strips and cornerstones."""
    rows = scope.by_size_inline(tuple((label, grid.sash_rows) for label, grid in grids), scope.wording.number)
    strips = scope.listed([_cut(scope, piece) for piece in dict.fromkeys(p for _, grid in grids for p in grid.between)])
    if not strips:
        return ()
    if way.startswith("long"):
        return scope.inlines("top.sashed.long", start=start, count=rows, pieces=strips)
    stones = scope.listed([_cut(scope, piece) for piece in dict.fromkeys(p for _, grid in grids for p in grid.stones)])
    return scope.inlines(
        f"top.sashed.stones.{'frame' if grids[0][1].frame else 'inner'}",
        start=start,
        rows=rows,
        pieces=strips,
        stones=stones,
        strips=scope.by_size_inline(tuple((label, grid.strips_between) for label, grid in grids), scope.wording.number),
        corners=scope.by_size_inline(
            tuple((label, grid.stones_between) for label, grid in grids), scope.wording.number
        ),
    )


def _cut(scope: Scope, piece: str) -> tuple[Inline, ...]:
    """`A3 rectangle`."""
    return scope.inlines("part.one", piece=mark(piece), noun=piece_noun(scope, scope.piece(piece), 1))
