"""Rows and top: laying out the blocks, sewing rows, joining them, and what the center measures.

In: the grid and the placed parts of every covered size.
Out: steps that serve all sizes whose tops are built alike; where sashing differs, each way has its own steps.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace

from patchwright.planning.plan import PlannedSize
from patchwright.typesetting.booklet import (
    Block,
    Column,
    Figure,
    FigureRow,
    Paragraph,
    Section,
    Step,
    Table,
)
from patchwright.typesetting.content.by_block import top_by_block
from patchwright.typesetting.content.grid import Grid, read_grid
from patchwright.typesetting.content.on_point import diagonal_rows, is_single, on_point_steps, single_name
from patchwright.typesetting.content.pieces import one_piece
from patchwright.typesetting.content.pressing_maps import top_maps
from patchwright.typesetting.content.pressing_remarks import second_way_key
from patchwright.typesetting.content.quarters import quarter_extents
from patchwright.typesetting.content.sashing import Body, Way, joining_steps
from patchwright.typesetting.content.scope import Scope
from patchwright.typesetting.content.strippy import column_text, strippy_steps
from patchwright.typesetting.content.tables import Row, size_cells, size_table, text_cell


def top(scope: Scope) -> Section:
    """The layout of each size, the steps, and the rows pulled apart."""
    if any(size.by_block for size in scope.sizes):
        return top_by_block(scope, _table(scope), _figures(scope, "layout", "top.layout"))
    steps = [
        Step(f"step-top-{number}", number, tuple(body), body[0].sizes if isinstance(body[0], Paragraph) else ())
        for number, body in enumerate(_steps(scope), 1)
    ]
    medallion = all(size.medallion for size in scope.sizes)
    lead = Paragraph(scope.inlines("top.medallion-lead" if medallion else "top.lead"), "lead")
    layouts = _figures(scope, "layout", "top.layout")
    rows = _figures(scope, "top", "top.rows-figure")
    columns = _columns(scope)
    pairs = [FigureRow(pair) for pair in zip(layouts, rows, strict=True)]
    told: list[Block] = [
        *steps, *(FigureRow(tuple(columns[at:at + 2])) for at in range(0, len(columns), 2)), *pairs
    ]
    if scope.single:
        told = [*_floating(layouts), steps[0], *_floating([*columns, *rows]), *steps[1:]]
    title = scope.say("section.medallion" if medallion else "section.top")
    return Section("top", title, (lead, _table(scope), *told, *top_maps(scope)))


def _floating(figures: Iterable[Figure]) -> list[Figure]:
    """Drawings of one size, each of which takes half a page or more, so that words flow around them."""
    return [replace(figure, floats=True) for figure in figures]


def _figures(scope: Scope, kind: str, caption: str) -> list[Figure]:
    made = []
    for size in scope.sizes:
        own = caption
        if kind == "top" and (size.setting == "strippy" or size.medallion):
            own = "top.center-figure" if size.medallion else "top.columns-figure"
        if kind == "top" and size.quarters is not None:
            own = "top.quarters-figure"
        names = () if scope.single else (size.name,)
        made.append(scope.figure(f"{kind}-{size.name}", scope.say(own, size=size.label), names))
    return made


def _columns(scope: Scope) -> list[Figure]:
    """The diagonal rows of a column, for each size whose columns stand on point."""
    return [
        figure for size in scope.sizes
        for figure in scope.figure_if(
            f"column-{size.name}", scope.say("top.column-figure", size=size.label),
            () if scope.single else (size.name,),
        )
    ]


def _table(scope: Scope) -> Table:
    """What each size's center is made of and must measure."""
    settings = {size.setting for size in scope.sizes if not is_single(size)}
    rows: list[Row] = []
    if "straight" in settings:
        rows += [
            _row(scope, "rows", lambda size: scope.wording.number(size.down), "straight"),
            _row(scope, "across", lambda size: scope.wording.number(size.across), "straight"),
        ]
    if "strippy" in settings:
        rows += [
            _row(scope, "columns", lambda size: scope.wording.number(size.across), "strippy"),
            _row(scope, "in-column", lambda size: scope.wording.number(size.down), "strippy"),
            _row(scope, "column", lambda size: column_text(scope, size), "strippy"),
        ]
    if "on-point" in settings:
        rows += [
            _row(scope, "upper-edge", lambda size: scope.wording.number(size.across), "on-point"),
            _row(scope, "side-edge", lambda size: scope.wording.number(size.down), "on-point"),
            _row(scope, "diagonal-rows", lambda size: scope.wording.number(diagonal_rows(size)), "on-point"),
        ]
    rows += _quarters(scope)
    rows += [
        _row(scope, "center", lambda size: scope.wording.extent(*size.center)),
    ]
    heads = (Column(scope.say("requirements.quilt")),)
    return size_table(scope, "table-top", scope.say("top.table"), heads, "", rows)


def _quarters(scope: Scope) -> list[Row]:
    """What each quarter must measure, where several sizes share the steps."""
    extents = [quarter_extents(scope, size) for size in scope.sizes]
    several = sum(map(bool, extents)) > 1
    names = dict.fromkeys(name for own in extents for name in own) if several else {}
    return [
        (text_cell(scope.say("top.quarters.row", quarter=scope.say(f"top.quarters.{name}"))),
         *size_cells(scope, [scope.wording.extent(*own[name]) if own else None for own in extents]))
        for name in names
    ]


def _row(scope: Scope, key: str, show: Callable[[PlannedSize], str], setting: str = "") -> Row:
    """A row of the table; sizes of another setting than the row is about have a dash."""
    shown = [show(size) if setting in ("", size.setting) else None for size in scope.sizes]
    return (text_cell(scope.say(f"top.table-{key}")), *size_cells(scope, shown))


def _steps(scope: Scope) -> list[Body]:
    """The steps of each setting with the sizes that have it, then the measure."""
    mixed = len({size.setting for size in scope.sizes}) > 1
    steps: list[Body] = []
    for setting, tell in _SETTINGS.items():
        sizes = tuple(size for size in scope.sizes if size.setting == setting)
        steps += tell(scope, sizes, _only(scope, sizes) if mixed else "") if sizes else []
    center = scope.by_size_inline(tuple((size.label, size.center) for size in scope.sizes), scope.rectangle)
    steps[-1].append(Paragraph(scope.inlines("top.measure", size=center), "measure"))
    return steps


def _only(scope: Scope, sizes: tuple[PlannedSize, ...]) -> str:
    return scope.say("only-for", sizes=scope.wording.listed_text([size.label for size in sizes]))


def _straight(scope: Scope, sizes: tuple[PlannedSize, ...], start: str) -> list[Body]:
    """Laying out, then each way of joining with the sizes that have it."""
    single = tuple(size for size in sizes if is_single(size) and size.items[0].kind == "assembly")
    if single == sizes:
        return [[Paragraph(scope.inlines(
            "top.single-center", start=start,
            name=scope.wording.listed_text(list(dict.fromkeys(single_name(scope, size) for size in single))),
        ), sizes=tuple(size.name for size in sizes) if start else ())]]
    built = [(size, read_grid(size)) for size in sizes]
    ways = dict.fromkeys((grid.way, size.quarters is not None) for size, grid in built)
    steps = [_lay_out(scope, built, start)]
    for way, quarters in ways:
        alike = tuple(
            (size, grid) for size, grid in built if (grid.way, size.quarters is not None) == (way, quarters)
        )
        steps += joining_steps(scope, Way(way, alike, len(ways) > 1 or bool(start), quarters))
    return steps


_SETTINGS: Mapping[str, Callable[[Scope, tuple[PlannedSize, ...], str], list[Body]]] = {
    "straight": _straight, "on-point": on_point_steps, "strippy": strippy_steps,
}


def _lay_out(scope: Scope, built: Sequence[tuple[PlannedSize, Grid]], start: str) -> Body:
    grid = tuple((size.label, (size.down, size.across)) for size, _ in built)
    names = tuple(size.name for size, _ in built) if start else ()
    rows = scope.told(grid, lambda pair: scope.say("top.grid", rows=pair[0], across=pair[1]))
    body: Body = [Paragraph(scope.inlines("top.lay-out", start=start, rows=rows), sizes=names)]
    squares = dict.fromkeys(piece for _, grid in built for piece in grid.squares)
    if squares:
        named = scope.listed([one_piece(scope, piece) for piece in squares])
        body.append(Paragraph(scope.inlines("top.squares", pieces=named), sizes=names))
    lying = second_way_key(scope, [size for size, _ in built])
    if lying:
        body.append(Paragraph(scope.inlines(lying, mark=scope.say("figures.second-mark")), sizes=names))
    return body
