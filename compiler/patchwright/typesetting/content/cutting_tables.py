"""One fabric's cutting as a table over several sizes: rows of strips, each followed by what is cut from them."""

from __future__ import annotations

from patchwright.core.length import Length
from patchwright.planning.plan import Piece, PieceSize, PlannedFabric
from patchwright.typesetting.booklet import Cell, Column, Table
from patchwright.typesetting.content.buying import pack_of
from patchwright.typesetting.content.cuts import Group, Joined, SizeCuts
from patchwright.typesetting.content.pieces import cut_text, long_use, piece_noun
from patchwright.typesetting.content.scope import Scope, each, mark, strong
from patchwright.typesetting.content.tables import Row, size_cells, size_table

BySize = tuple[SizeCuts | None, ...]
Groups = tuple[Group | None, ...]


def cutting_table(scope: Scope, fabric: PlannedFabric, cuts: BySize, last: tuple[Row, ...] = ()) -> Table:
    """Strips by height over all sizes, then any rows to stand last; a size without a height or piece has a dash."""
    rows: list[Row] = []
    for height in _heights(cuts):
        groups = tuple(one.group(height) if one is not None else None for one in cuts)
        rows.append(_strips_row(scope, fabric, height, groups))
        for piece in _pieces(groups):
            rows += _piece_rows(scope, scope.piece(piece), groups, cuts)
        rows += [_joined_row(scope, scope.piece(piece), groups) for piece in _joined(groups)]
    rows += [_total_row(scope, scope.piece(piece), cuts) for piece in _scattered(cuts)]
    rows += last
    caption = scope.say("cutting.table", letter=fabric.letter, name=fabric.name)
    heads = (Column(scope.say("column.cut"), weight=2),)
    return size_table(scope, f"table-cutting-{fabric.letter}", caption, heads, scope.say("column.number"), rows)


def strips_text(scope: Scope, height: Length, count: int) -> str:
    """`2 strips 2½″ × WOF`, or `1 length 104½″ × WOF` where what is cut is longer than the cloth is wide."""
    long = height > scope.plan.rules.usable_width
    return scope.say("cutting.lengths-counted" if long else "cutting.strips-counted", count=count, height=height)


def joined_text(scope: Scope, joined: Joined) -> str:
    """`3 strips`, `2 ends`, or both."""
    said = [scope.say("cutting.joined-strips", count=joined.whole)] if joined.whole else []
    said += [scope.say("cutting.joined-ends", count=joined.ends)] if joined.ends else []
    return scope.wording.listed_text(said)


def _heights(cuts: BySize) -> tuple[Length | None, ...]:
    """Heights of strips over all sizes, tallest first; precuts come before strips."""
    heights = {group.height for one in cuts if one is not None for group in one.groups}
    strips = sorted((height for height in heights if height is not None), reverse=True)
    return (*((None,) if None in heights else ()), *strips)


def _pieces(groups: Groups) -> tuple[str, ...]:
    return tuple(dict.fromkeys(gained.piece for group in groups if group is not None for gained in group.gained))


def _joined(groups: Groups) -> tuple[str, ...]:
    return tuple(dict.fromkeys(gained.piece for group in groups if group is not None for gained in group.joined))


def _scattered(cuts: BySize) -> tuple[str, ...]:
    """Pieces whose number is told in parts in some size, in the order of their letters."""
    found = dict.fromkeys(piece for one in cuts if one is not None for piece in one.scattered)
    return tuple(sorted(found, key=lambda piece: (len(piece), piece)))


def _total_row(scope: Scope, piece: Piece, cuts: BySize) -> Row:
    """How many of a piece are needed in all, in the sizes in which it is cut from several kinds of strips."""
    own = zip(scope.here(piece.sizes), cuts, strict=True)
    cells = [
        scope.wording.number(size.need) if size is not None and cut is not None and piece.id in cut.scattered else None
        for size, cut in own
    ]
    return (Cell(scope.inlines("cutting.total-row", piece=mark(piece.id))), *size_cells(scope, cells))


def _strips_row(scope: Scope, fabric: PlannedFabric, height: Length | None, groups: Groups) -> Row:
    head = strong(_strips_head(scope, fabric, height))
    return (Cell(head), *size_cells(scope, each(groups, lambda group: strong(scope.wording.number(group.count)))))


def _strips_head(scope: Scope, fabric: PlannedFabric, height: Length | None) -> str:
    if height is not None:
        long = height > scope.plan.rules.usable_width
        return scope.say("cutting.lengths-row" if long else "cutting.strips-row", height=height)
    pack = pack_of(scope, fabric)
    if pack is None:
        return scope.say("cutting.sheets-row")
    return scope.say(f"cutting.pack-row.{pack.kind}", size=scope.extent((pack.width, pack.height)))


def _piece_rows(scope: Scope, piece: Piece, groups: Groups, cuts: BySize) -> list[Row]:
    """A row for each cut size that the piece has in the sizes with these strips."""
    own = scope.here(piece.sizes)
    numbers = [_number(scope, piece, own[index], group, cuts[index]) for index, group in enumerate(groups)]
    texts = each(own, lambda size: cut_text(scope, piece, size))
    told = dict.fromkeys(text for text, number in zip(texts, numbers, strict=True) if number is not None)
    rows = []
    for cut in told:
        noun = piece_noun(scope, piece, 2)
        head = Cell(scope.inlines("cutting.piece-row", piece=mark(piece.id), noun=noun, size=cut))
        cells = [number if text == cut else None for text, number in zip(texts, numbers, strict=True)]
        rows.append((head, *size_cells(scope, cells)))
    return rows


def _number(
    scope: Scope, piece: Piece, size: PieceSize | None, group: Group | None, cuts: SizeCuts | None
) -> str | None:
    """The pieces needed of what the group gives, and the spare ones."""
    if group is None or size is None or cuts is None:
        return None
    share = cuts.share(piece.id, size.need, group)
    if share is None:
        return None
    key = "cutting.number-spare" if share.spare else "cutting.number"
    return scope.say(key, number=share.needed, spare=share.spare)


def _joined_row(scope: Scope, piece: Piece, groups: Groups) -> Row:
    """Strips that are joined for a long piece; sashing is cut from them at once, so its size stands there."""
    cells: list[str | None] = []
    for group, size in zip(groups, scope.here(piece.sizes), strict=True):
        joined = next((one for one in group.joined if one.piece == piece.id), None) if group is not None else None
        if size is None or joined is None:
            cells.append(None)
            continue
        strips = joined_text(scope, joined)
        sized = scope.say("cutting.joined-sized", strips=strips, count=size.need, size=cut_text(scope, piece, size))
        cells.append(sized if piece.kind == "sashing" else strips)
    head = scope.inlines("cutting.joined-row", piece=mark(piece.id), use=long_use(scope, piece))
    return (Cell(head), *size_cells(scope, cells))
