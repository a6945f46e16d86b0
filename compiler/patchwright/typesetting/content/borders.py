"""Borders, from the inside out: sides first, then top and bottom, measured through the middle."""

from __future__ import annotations

from patchwright.planning.plan import PieceSize, PlannedBorder
from patchwright.typesetting.booklet import Block, Column, Paragraph, Section, Step, Subheading, Table
from patchwright.typesetting.content.buying import use_text
from patchwright.typesetting.content.names import heading
from patchwright.typesetting.content.scope import Scope, each, mark
from patchwright.typesetting.content.tables import size_cells, size_table, text_cell

BySize = tuple[PlannedBorder | None, ...]


def borders(scope: Scope) -> Section | None:
    """Every border that a covered size has, or nothing where none has any."""
    ids = sorted(dict.fromkeys(border.id for size in scope.sizes for border in size.borders))
    if not ids:
        return None
    blocks: list[Block] = [Paragraph(scope.inlines("borders.lead"), "lead")]
    for size in scope.sizes:
        blocks += scope.figure_if(f"borders-{size.name}", sizes=() if scope.single else (size.name,))
    for id in ids:
        by_size = tuple(next((border for border in size.borders if border.id == id), None) for size in scope.plan.sizes)
        blocks += _border(scope, id, by_size)
    return Section("borders", scope.say("section.borders"), tuple(blocks))


def _border(scope: Scope, id: str, by_size: BySize) -> list[Block]:
    """The lengths by size, then two steps: sides, and top and bottom."""
    names = scope.only(by_size)
    shown = scope.valued(by_size)
    first = shown[0][1]
    fabrics = scope.wording.listed_text(list(dict.fromkeys(scope.fabric_text(border.fabric) for _, border in shown)))
    width = scope.by_size_inline(tuple((label, border.width) for label, border in shown), scope.wording.length)
    about = scope.inlines("borders.about", fabric=fabrics, width=width)
    after = scope.by_size_inline(tuple((label, border.after) for label, border in shown), scope.extent)
    ends = _step(scope, id, 2, "ends", first.end_piece, names)
    measure = Paragraph(scope.inlines("borders.measure", size=after), "measure")
    return [
        Subheading(heading(use_text(scope, id)), f"part-{id}"),
        *([Paragraph(scope.inlines("only-for-border", sizes=_labels(scope, names)), sizes=names)] if names else []),
        Paragraph(about, sizes=names),
        _table(scope, id, by_size),
        _step(scope, id, 1, "sides", first.side_piece, names),
        Step(ends.id, ends.number, (*ends.blocks, measure), names),
    ]


def _labels(scope: Scope, names: tuple[str, ...]) -> str:
    return scope.wording.listed_text([size.label for size in scope.sizes if size.name in names])


def _step(scope: Scope, id: str, number: int, which: str, piece: str, names: tuple[str, ...]) -> Step:
    words = Paragraph(scope.inlines(f"borders.{which}", piece=mark(piece)))
    figures = scope.figure_if(f"{id}-{which}")
    return Step(f"step-{id}-{number}", number, (words, *figures), names)


def _table(scope: Scope, id: str, by_size: BySize) -> Table:
    """Lengths of the sides and of top and bottom, joins, and a line for the maker's own measure."""
    rows = []
    for which in ("side", "end"):
        pieces = [_piece(scope, border, index, which) for index, border in enumerate(by_size)]
        marks = dict.fromkeys(_piece_id(border, which) for _, border in scope.valued(by_size))
        head = scope.say(f"borders.table-{which}", piece=scope.wording.listed_text(list(marks)))
        rows.append((text_cell(head), *size_cells(scope, each(scope.here(pieces), lambda piece: _cut(scope, piece)))))
        if any(piece.joins for _, piece in scope.valued(pieces)):
            joins = each(scope.here(pieces), lambda piece: scope.wording.number(piece.joins))
            rows.append((text_cell(scope.say("borders.table-joins")), *size_cells(scope, joins)))
        blank = each(scope.here(pieces), lambda _: scope.say("borders.blank"))
        rows.append((text_cell(scope.say(f"borders.table-{which}-own")), *size_cells(scope, blank)))
    heads = (Column(scope.say("column.border")),)
    return size_table(scope, f"table-{id}", scope.say("borders.table"), heads, scope.say("column.size"), rows)


def _piece_id(border: PlannedBorder, which: str) -> str:
    return border.side_piece if which == "side" else border.end_piece


def _piece(scope: Scope, border: PlannedBorder | None, index: int, which: str) -> PieceSize | None:
    return None if border is None else scope.piece(_piece_id(border, which)).sizes[index]


def _cut(scope: Scope, piece: PieceSize) -> str:
    """Two strips, each its width by its length."""
    narrow, long = sorted((piece.width, piece.height))
    return scope.say("borders.pair", size=scope.wording.extent(narrow, long))
