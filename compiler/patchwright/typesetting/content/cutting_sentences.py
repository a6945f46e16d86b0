"""One fabric's cutting in one size, as sentences: cut strips, and from these the pieces."""

from __future__ import annotations

from patchwright.planning.plan import PlannedFabric
from patchwright.typesetting.booklet import Block, Bullets, Inline, Paragraph
from patchwright.typesetting.content.buying import pack_of
from patchwright.typesetting.content.cuts import Gained, Group, Joined, Share, SizeCuts
from patchwright.typesetting.content.cutting_tables import joined_text
from patchwright.typesetting.content.pieces import counted_piece, cut_text, long_use, piece_noun
from patchwright.typesetting.content.scope import Scope, as_inlines, mark


def cutting_sentences(scope: Scope, fabric: PlannedFabric, cuts: SizeCuts) -> list[Block]:
    """A sentence for each height of strip, in the plan's order."""
    items = tuple(_sentence(scope, fabric, cuts, group) for group in cuts.groups)
    blocks: list[Block] = [Bullets(items, checklist=True)] if items else []
    return blocks + _totals(scope, cuts)


def _totals(scope: Scope, cuts: SizeCuts) -> list[Block]:
    """How many there must be in all of pieces that several kinds of strips give."""
    sizes = {piece: scope.here(scope.piece(piece).sizes)[0] for piece in cuts.scattered}
    counted = [counted_piece(scope, piece, size.need) for piece, size in sizes.items() if size is not None]
    return [Paragraph(scope.inlines("cutting.totals", pieces=scope.listed(counted)))] if counted else []


def _sentence(scope: Scope, fabric: PlannedFabric, cuts: SizeCuts, group: Group) -> tuple[Inline, ...]:
    """`Cut 3 strips 2½″ × width of fabric; from these cut 44 squares 2½″ (A1). Join 2 of them …`"""
    pieces = scope.listed([_counted(scope, cuts, group, gained) for gained in group.gained])
    joined = [part for one in group.joined for part in (" ", *_joined(scope, group, one))]
    return as_inlines((*_start(scope, fabric, group, pieces), *joined))


def _start(scope: Scope, fabric: PlannedFabric, group: Group, pieces: tuple[Inline, ...]) -> tuple[Inline, ...]:
    if group.height is None:
        pack = pack_of(scope, fabric)
        kind = pack.kind if pack is not None else "squares"
        return scope.inlines(f"cutting.sheets.{kind}", count=group.count, pieces=pieces)
    long = group.height > scope.plan.rules.usable_width
    cut = scope.say("cutting.cut-lengths" if long else "cutting.cut-strips", count=group.count, height=group.height)
    along = "cutting.then-along" if long and _lies_along(scope, fabric, group) else "cutting.then-pieces"
    key = along if pieces else "cutting.no-pieces"
    return scope.inlines(key, cut=cut, count=group.count, pieces=pieces)


def _lies_along(scope: Scope, fabric: PlannedFabric, group: Group) -> bool:
    """Whether everything that is cut from lengths of this height lies along the cloth."""
    own = scope.here(fabric.sizes)[0]
    strips = [strip for strip in own.strips if strip.height == group.height] if own is not None else []
    return all(part.height > part.width for strip in strips for part in strip.yields)


def _counted(scope: Scope, cuts: SizeCuts, group: Group, gained: Gained) -> tuple[Inline, ...]:
    """`44 squares 2½″ (A1), with 2 to spare`."""
    piece = scope.piece(gained.piece)
    size = scope.here(piece.sizes)[0]
    if size is None:
        return ()
    share = cuts.share(piece.id, size.need, group) or Share(gained.count, 0)
    return scope.inlines(
        "cutting.piece-spare" if share.spare else "cutting.piece",
        count=share.needed,
        noun=piece_noun(scope, piece, share.needed),
        size=cut_text(scope, piece, size),
        piece=mark(piece.id),
        spare=share.spare,
    )


def _joined(scope: Scope, group: Group, joined: Joined) -> tuple[Inline, ...]:
    """What strips are kept or joined for a long piece; sashing is cut to its length at once."""
    piece = scope.piece(joined.piece)
    size = scope.here(piece.sizes)[0]
    if size is None:
        return ()
    strips = joined_text(scope, joined)
    if joined.whole == group.count:
        strips = scope.say("cutting.all-of-them", count=group.count)
    key = "cutting.join-sashing" if piece.kind == "sashing" else "cutting.join-keep"
    return scope.inlines(
        key,
        strips=strips,
        use=long_use(scope, piece),
        count=size.need,
        size=cut_text(scope, piece, size),
        piece=mark(piece.id),
    )
