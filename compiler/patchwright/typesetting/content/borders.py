"""Borders, from the inside out: sides first, then top and bottom, measured through the middle."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import Literal

from patchwright.planning.plan import PieceSize, PlannedBorder
from patchwright.typesetting.booklet import Block, Column, Figure, Inline, Paragraph, Section, Step, Subheading, Table
from patchwright.typesetting.content.buying import use_text
from patchwright.typesetting.content.mitered_borders import mitered_steps
from patchwright.typesetting.content.names import heading, plain_name
from patchwright.typesetting.content.pieced_borders import pieced_about, pieced_steps, pieced_table
from patchwright.typesetting.content.pieces import one_piece
from patchwright.typesetting.content.pressing_borders import corners_words, sewn_on_words
from patchwright.typesetting.content.scope import Scope, Valued, each, mark
from patchwright.typesetting.content.tables import size_cells, size_table, text_cell

BySize = tuple[PlannedBorder | None, ...]
Which = Literal["side", "end"]
BOTH: tuple[Which, ...] = ("side", "end")


def borders(scope: Scope) -> Section | None:
    """Every border that a covered size has, or nothing where none has any."""
    ids = sorted(dict.fromkeys(border.id for size in scope.sizes for border in size.borders), key=_number)
    if not ids:
        return None
    rounds = all(size.medallion for size in scope.sizes)
    blocks: list[Block] = [Paragraph(scope.inlines("borders.rounds-lead" if rounds else "borders.lead"), "lead")]
    blocks += [_rounds(scope, ids)] if rounds else []
    for id in ids:
        blocks += _border(scope, id)
    return Section("borders", scope.say("section.rounds" if rounds else "section.borders"), tuple(blocks))


def _rounds(scope: Scope, ids: list[str]) -> Table:
    """What a medallion measures with each of its rounds, for a maker who checks as it grows."""
    rows = [(text_cell(scope.say("borders.rounds-center")),
             *size_cells(scope, [scope.rectangle(size.center) for size in scope.sizes]))]
    for id in ids:
        own = [next((border for border in size.borders if border.id == id), None) for size in scope.sizes]
        after = each(own, lambda border: scope.rectangle(border.after))
        rows.append((text_cell(scope.say("borders.rounds-with", round=use_text(scope, id))), *size_cells(scope, after)))
    heads = (Column(scope.say("borders.rounds-head")),)
    return size_table(scope, "table-rounds", scope.say("borders.rounds-table"), heads, "", rows)


def _number(id: str) -> int:
    return int(id.rpartition("-")[2])


def _border(scope: Scope, id: str) -> list[Block]:
    """Every way of making a border; where there are several, the title of each says for which sizes it is."""
    made: list[Block] = []
    ways = _ways(scope, id)
    for number, by_size in enumerate(ways, 1):
        name = id if number == 1 else f"{id}-{number}"
        names = scope.only(by_size)
        title = scope.say(f"borders.heading.{scope.valued(by_size)[0][1].kind}", border=use_text(scope, id))
        if len(ways) > 1:
            title = scope.say("borders.heading.way", title=title, sizes=_labels(scope, names))
        made.append(Subheading(heading(title), f"part-{name}"))
        if names and len(ways) == 1:
            made.append(Paragraph(scope.inlines("only-for-border", sizes=_labels(scope, names)), sizes=names))
        made += _way(scope, id, name, by_size)
    return made


def _ways(scope: Scope, id: str) -> list[BySize]:
    """The border in every size, the sizes that make it alike together; others have nothing in its place."""
    found = [next((own for own in size.borders if own.id == id), None) for size in scope.plan.sizes]
    ways = dict.fromkeys(_look(border) for border in scope.here(found) if border is not None)
    return [
        tuple(border if border is not None and _look(border) == way else None for border in found)
        for way in ways
    ]


def _look(border: PlannedBorder) -> tuple[object, ...]:
    """What sizes must have alike so that the same words tell how a border is made."""
    corners = border.corner_kind, border.corner, border.corners_turned
    return border.kind, border.fabric, border.joined, border.sides, border.ends, border.spacers_at, *corners


def _way(scope: Scope, id: str, name: str, by_size: BySize) -> list[Block]:
    """The lengths by size, then the steps and the drawings, of sizes that make a border alike."""
    names, shown = scope.only(by_size), scope.valued(by_size)
    pieced = shown[0][1].kind == "pieced"
    made_here = replace(scope, chosen=tuple(index for index in scope.chosen if by_size[index] is not None))
    steps = pieced_steps(scope, id, by_size) if pieced else _steps(scope, id, by_size)
    if name != id:
        steps = [replace(step, id=f"step-{name}-{number}") for number, step in enumerate(steps, 1)]
    return [
        Paragraph(pieced_about(scope, by_size) if pieced else _about(scope, by_size), sizes=names),
        pieced_table(made_here, name, by_size) if pieced else _table(made_here, name, by_size),
        *steps[:-1],
        replace(steps[-1], blocks=(*steps[-1].blocks, *_figures(scope, id, by_size))),
    ]


def _about(scope: Scope, by_size: BySize) -> tuple[Inline, ...]:
    """The fabric and the finished width; of coping both widths, and what it is for."""
    shown = scope.valued(by_size)
    first = shown[0][1]
    key = "borders.coping.about" if first.kind == "coping" else "borders.about"
    if not (first.sides and first.ends):
        along = "sides" if first.sides else "ends"
        key = f"borders.coping.about-{along}" if first.kind == "coping" else f"borders.about-{along}"
    return scope.inlines(
        key, fabric=scope.fabric_text(first.fabric),
        width=scope.by_size_inline(tuple((label, border.width) for label, border in shown), scope.wording.length),
        high=scope.by_size_inline(tuple((label, border.high) for label, border in shown), scope.wording.length),
    )


def _figures(scope: Scope, id: str, by_size: BySize) -> list[Figure]:
    """The drawings; each serves the size that it is named for and those after it that have none of their own."""
    served: dict[str, list[str]] = {}
    for size, border in zip(scope.sizes, scope.here(by_size), strict=True):
        if border is None:
            continue
        own = f"{id}-{size.name}"
        if own in scope.figures:
            served[own] = []
        if served:
            served[next(reversed(served))].append(size.name)
    everywhere = len(scope.sizes)
    return [
        scope.figure(own, sizes=() if len(names) == everywhere else tuple(names)) for own, names in served.items()
    ]


def _labels(scope: Scope, names: tuple[str, ...]) -> str:
    return scope.wording.listed_text([size.label for size in scope.sizes if size.name in names])


def _steps(scope: Scope, id: str, by_size: BySize) -> list[Step]:
    """Joining where strips are joined, sides, top and bottom, and the measure."""
    shown = scope.valued(by_size)
    borders = [border for _, border in shown]
    if borders[0].corner_kind == "mitered":
        return mitered_steps(scope, id, by_size, _joined(scope, by_size))
    after = scope.by_size_inline(tuple((label, border.after) for label, border in shown), scope.rectangle)
    said = [_joined(scope, by_size)] if _joined(scope, by_size) else []
    if borders[0].sides:
        said.append(scope.inlines(
            "borders.sides", piece=_marks(scope, (border.side_piece for border in borders)),
            press=sewn_on_words(scope, id, "side"),
        ))
    said += [_ends(scope, shown)] if borders[0].ends else []
    bodies: list[tuple[Block, ...]] = [(Paragraph(words),) for words in said]
    if borders[0].kind == "coping":
        bodies.append((Paragraph(scope.inlines("borders.coping.trim", size=after)),))
    bodies[-1] += (Paragraph(scope.inlines("borders.measure", size=after), "measure"),)
    names = scope.only(by_size)
    return [Step(f"step-{id}-{number}", number, body, names) for number, body in enumerate(bodies, 1)]


def _joined(scope: Scope, by_size: BySize) -> tuple[Inline, ...]:
    """The strips that must be joined before they are cut to length."""
    joined: dict[str, None] = {}
    for which in BOTH:
        for index, border in enumerate(by_size):
            piece = _piece(scope, border, index, which)
            if border is not None and piece is not None and piece.joins and index in scope.chosen:
                joined[_piece_id(border, which)] = None
    if not joined:
        return ()
    return scope.inlines(f"borders.join.{scope.plan.rules.strip_join}", pieces=_marks(scope, joined))


def _ends(scope: Scope, shown: Valued[PlannedBorder]) -> tuple[Inline, ...]:
    borders = [border for _, border in shown]
    pieces = _marks(scope, (border.end_piece for border in borders))
    first = borders[0]
    press = sewn_on_words(scope, first.id, "end")
    if first.corner_kind == "none":
        return scope.inlines("borders.ends" if first.sides else "borders.ends-alone", piece=pieces, press=press)
    corners = corners_words(scope, first.id, first.end_piece)
    key = "borders.ends-cornered-turned" if first.corners_turned else "borders.ends-cornered"
    seam = scope.plan.rules.seam
    size = scope.by_size_inline(
        tuple((label, (border.after[0], border.high.unfinished(seam))) for label, border in shown), scope.rectangle
    )
    return scope.inlines(key, piece=pieces, corner=_corner(scope, first), corners=corners, size=size, press=press)


def _corner(scope: Scope, border: PlannedBorder) -> tuple[Inline, ...]:
    """`C4 square`, or `star block`."""
    if border.corner_kind == "piece":
        return one_piece(scope, border.corner)
    return scope.inlines("borders.corner-block", name=plain_name(border.corner))


def _marks(scope: Scope, pieces: Iterable[str]) -> tuple[Inline, ...]:
    return scope.listed([mark(piece) for piece in dict.fromkeys(pieces)])


def _table(scope: Scope, id: str, by_size: BySize) -> Table:
    """Lengths of the sides and of top and bottom, joins, and a line for the maker's own measure."""
    rows = []
    for which in BOTH:
        pieces = scope.here([_piece(scope, border, index, which) for index, border in enumerate(by_size)])
        if not any(pieces):
            continue
        marks = dict.fromkeys(_piece_id(border, which) for _, border in scope.valued(by_size))
        head = scope.say(f"borders.table-{which}", piece=scope.wording.listed_text(list(marks)))
        rows.append((text_cell(head), *size_cells(scope, each(pieces, lambda piece: _cut(scope, piece)))))
        if any(piece is not None and piece.joins for piece in pieces):
            joins = each(pieces, lambda piece: scope.wording.number(piece.joins))
            rows.append((text_cell(scope.say("borders.table-joins")), *size_cells(scope, joins)))
        blank = each(pieces, lambda _: scope.say("borders.blank"))
        rows.append((text_cell(scope.say(f"borders.table-{which}-own")), *size_cells(scope, blank)))
    heads = (Column(scope.say("column.border")),)
    return size_table(scope, f"table-{id}", scope.say("borders.table"), heads, "", rows)


def _piece_id(border: PlannedBorder, which: Which) -> str:
    return border.side_piece if which == "side" else border.end_piece


def _piece(scope: Scope, border: PlannedBorder | None, index: int, which: Which) -> PieceSize | None:
    if border is None or not _piece_id(border, which):
        return None
    return scope.piece(_piece_id(border, which)).sizes[index]


def _cut(scope: Scope, piece: PieceSize) -> str:
    """Both strips, width by length."""
    narrow, long = sorted((piece.width, piece.height))
    return scope.say("borders.pair", count=piece.need, size=scope.wording.extent(narrow, long))
