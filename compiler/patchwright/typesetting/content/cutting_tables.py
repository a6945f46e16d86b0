"""One fabric's cutting as a table over several sizes: rows of strips, each followed by what is cut from them."""

from __future__ import annotations

from collections.abc import Sequence

from patchwright.core.length import Length
from patchwright.planning.plan import Piece, PlannedFabric
from patchwright.typesetting.booklet import Cell, Column, Inline, Table
from patchwright.typesetting.content.buying import pack_of
from patchwright.typesetting.content.cuts import Group, SizeCuts
from patchwright.typesetting.content.names import piece_noun, piece_shape
from patchwright.typesetting.content.scope import Extent, Scope, mark, strong
from patchwright.typesetting.content.tables import Row, size_cells, size_table

BySize = tuple[SizeCuts | None, ...]


def cutting_table(scope: Scope, fabric: PlannedFabric, cuts: BySize) -> Table:
    """Strips by height over all sizes; a size that lacks a height or a piece has a dash."""
    rows: list[Row] = []
    for height in _heights(cuts):
        groups = tuple(each and each.group(height) for each in cuts)
        rows.append(_strips_row(scope, fabric, height, groups))
        rows += [_piece_row(scope, scope.piece(piece), groups, cuts) for piece in _pieces(groups)]
        rows += [_joined_row(scope, scope.piece(piece), groups) for piece in _joined(groups)]
    caption = scope.say("cutting.table", letter=fabric.letter, name=fabric.name)
    heads = (Column(scope.say("column.cut"), weight=2),)
    return size_table(scope, f"cutting-{fabric.letter}", caption, heads, scope.say("column.number"), rows)


def _heights(cuts: BySize) -> tuple[Length | None, ...]:
    """Heights of strips over all sizes, tallest first; precuts come before strips."""
    heights = {group.height for each in cuts if each is not None for group in each.groups}
    strips = sorted((height for height in heights if height is not None), reverse=True)
    return (*((None,) if None in heights else ()), *strips)


def _pieces(groups: Sequence[Group | None]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(gained.piece for group in groups if group is not None for gained in group.gained))


def _joined(groups: Sequence[Group | None]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(piece for group in groups if group is not None for piece in group.joined))


def _strips_row(scope: Scope, fabric: PlannedFabric, height: Length | None, groups: Sequence[Group | None]) -> Row:
    head = strong(_strips_head(scope, fabric, height))
    return (Cell(head), *size_cells(scope, [group and strong(scope.wording.number(group.count)) for group in groups]))


def _strips_head(scope: Scope, fabric: PlannedFabric, height: Length | None) -> str:
    if height is not None:
        return scope.say("cutting.strips-row", height=height)
    pack = pack_of(scope, fabric)
    if pack is None:
        return scope.say("cutting.sheets-row")
    return scope.say(f"cutting.pack-row.{pack.kind}", size=scope.extent((pack.width, pack.height)))


def _piece_row(scope: Scope, piece: Piece, groups: Sequence[Group | None], cuts: BySize) -> Row:
    """A piece's mark and size, then how many of it these strips give; a size that differs stands in its column."""
    extents: list[Extent | None] = [size and (size.width, size.height) for size in scope.here(piece.sizes)]
    differs = len({scope.extent(extent) for extent in extents if extent is not None}) > 1
    common = next(extent for extent in extents if extent is not None)
    head = _head(scope, piece, None if differs else common)
    cells: list[str | None] = []
    for index, group in enumerate(groups):
        size, cut = extents[index], cuts[index]
        number = _number(scope, piece, index, group, cut)
        text = None if number is None or size is None else number
        cells.append(scope.say("cutting.sized", number=text, size=scope.extent(size)) if text and size and differs else text)
    return (Cell(head), *size_cells(scope, cells))


def _head(scope: Scope, piece: Piece, extent: Extent | None) -> tuple[Inline, ...]:
    noun = piece_noun(scope, piece, 2)
    if extent is None:
        return scope.inlines("cutting.piece-row-varied", piece=mark(piece.id), noun=noun)
    return scope.inlines("cutting.piece-row", piece=mark(piece.id), noun=noun, size=side_or_extent(scope, extent))


def side_or_extent(scope: Scope, extent: Extent) -> str:
    """A square's side alone, since its noun says that it is a square."""
    width, height = extent
    return scope.wording.length(width) if width == height else scope.wording.extent(width, height)


def _number(scope: Scope, piece: Piece, index: int, group: Group | None, cuts: SizeCuts | None) -> str | None:
    """The pieces needed of what the group gives, and the spare ones where the piece is cut last."""
    gained = next((each.count for each in group.gained if each.piece == piece.id), None) if group else None
    size = scope.here(piece.sizes)[index]
    if gained is None or size is None or cuts is None:
        return None
    spare = size.spare if cuts.last_group_of(piece.id) is group else 0
    key = "cutting.number-spare" if spare else "cutting.number"
    return scope.say(key, number=gained - spare, spare=spare)


def _joined_row(scope: Scope, piece: Piece, groups: Sequence[Group | None]) -> Row:
    """A long piece joined from these strips; its length stands in each size's column."""
    cells: list[str | None] = []
    for group, size in zip(groups, scope.here(piece.sizes), strict=True):
        if group is None or size is None or piece.id not in group.joined:
            cells.append(None)
        else:
            extent = scope.wording.extent(size.width, size.height)
            cells.append(scope.say("cutting.sized", number=scope.wording.number(size.need), size=extent))
    return (Cell(scope.inlines(f"cutting.joined-row.{piece.kind}", piece=mark(piece.id))), *size_cells(scope, cells))
