"""One fabric's cutting in one size, as sentences: cut strips, and from these the pieces."""

from __future__ import annotations

from patchwright.planning.plan import Piece, PlannedFabric
from patchwright.typesetting.booklet import Block, Bullets, Inline
from patchwright.typesetting.content.buying import pack_of
from patchwright.typesetting.content.cuts import Gained, Group, SizeCuts
from patchwright.typesetting.content.cutting_tables import side_or_extent
from patchwright.typesetting.content.names import piece_noun
from patchwright.typesetting.content.scope import Scope, mark


def cutting_sentences(scope: Scope, fabric: PlannedFabric, cuts: SizeCuts) -> list[Block]:
    """A sentence for each height of strip, tallest first as planned."""
    items = tuple(_sentence(scope, fabric, cuts, group) for group in cuts.groups)
    return [Bullets(items, checklist=True)] if items else []


def _sentence(scope: Scope, fabric: PlannedFabric, cuts: SizeCuts, group: Group) -> tuple[Inline, ...]:
    pieces = [_counted(scope, cuts, group, gained) for gained in group.gained]
    pieces += [_joined(scope, scope.piece(piece)) for piece in group.joined]
    listed = scope.listed(pieces)
    if group.height is not None:
        return scope.inlines("cutting.strips", count=group.count, height=group.height, pieces=listed)
    pack = pack_of(scope, fabric)
    kind = pack.kind if pack is not None else "squares"
    return scope.inlines(f"cutting.sheets.{kind}", count=group.count, pieces=listed)


def _counted(scope: Scope, cuts: SizeCuts, group: Group, gained: Gained) -> tuple[Inline, ...]:
    """`44 squares 2½″ (A1), 2 spare`."""
    piece = scope.piece(gained.piece)
    size = scope.here(piece.sizes)[0]
    if size is None:
        return ()
    spare = size.spare if cuts.last_group_of(piece.id) is group else 0
    count = gained.count - spare
    return scope.inlines(
        "cutting.piece-spare" if spare else "cutting.piece",
        count=count,
        noun=piece_noun(scope, piece, count),
        size=side_or_extent(scope, (size.width, size.height)),
        piece=mark(piece.id),
        spare=spare,
    )


def _joined(scope: Scope, piece: Piece) -> tuple[Inline, ...]:
    """A long piece that is joined from the strips first, with its length."""
    size = scope.here(piece.sizes)[0]
    if size is None:
        return ()
    extent = scope.wording.extent(size.width, size.height)
    return scope.inlines(f"cutting.joined.{piece.kind}", count=size.need, size=extent, piece=mark(piece.id))
