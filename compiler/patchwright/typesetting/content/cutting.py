"""Cutting, fabric by fabric: strips across the width of fabric, then what each is cut into.

In: the cutting of every fabric in every covered size.
Out: for several sizes a table with a column for each; for one size sentences with the layout beside them.
Never: a count by area; every number is a strip's or a piece's of the plan.
"""

from __future__ import annotations

from patchwright.planning.plan import PlannedFabric, PlannedPack
from patchwright.typesetting.booklet import Block, Bullets, Inline, Paragraph, Section, Subheading
from patchwright.typesetting.content.buying import pack_of, pack_text, purpose_text
from patchwright.typesetting.content.cuts import SizeCuts, size_cuts
from patchwright.typesetting.content.cutting_sentences import cutting_sentences
from patchwright.typesetting.content.cutting_tables import cutting_table
from patchwright.typesetting.content.layouts import fabric_layout
from patchwright.typesetting.content.packs import by_size_cuts, first_of, left_row, left_words, sharers
from patchwright.typesetting.content.scope import Scope, each, mark


def cutting(scope: Scope) -> Section:
    """Every fabric in order of use."""
    blocks: list[Block] = [
        Paragraph(scope.inlines("cutting.lead"), "lead"),
        Bullets(tuple(scope.inlines(f"cutting.how.{key}") for key in ("straighten", "strips", "spare", "check"))),
    ]
    for fabric in scope.plan.fabrics:
        if scope.any(fabric.sizes):
            blocks += _fabric(scope, fabric)
    return Section("cutting", scope.say("section.cutting"), tuple(blocks))


def _fabric(scope: Scope, fabric: PlannedFabric) -> list[Block]:
    """One fabric: what it is for, its cuts, and remarks on direction, width and lengths set aside."""
    pack = pack_of(scope, fabric)
    shared = pack if pack is not None and len(sharers(scope, pack)) > 1 else None
    blocks: list[Block] = [
        *(_shared_pack(scope, fabric, shared) if shared is not None else ()),
        Subheading(scope.say("cutting.fabric", letter=fabric.letter, name=fabric.name), f"part-cut-{fabric.letter}"),
        Paragraph(_intro(scope, fabric)),
    ]
    if shared is not None:
        return [*blocks, *_from_shared(scope, fabric), *_remarks(scope, fabric)]
    cuts = each(scope.here(fabric.sizes), size_cuts) if pack is None else by_size_cuts(scope, pack)
    blocks += _told(scope, fabric, cuts, pack)
    if scope.edition.layouts == "inline":
        for index in scope.chosen:
            blocks += fabric_layout(scope, fabric, index)
    if any(one.ends for size in cuts if size is not None for group in size.groups for one in group.joined):
        blocks.append(Paragraph(scope.inlines("cutting.ends"), "fine"))
    return blocks + _remarks(scope, fabric)


def _told(
    scope: Scope, fabric: PlannedFabric, cuts: tuple[SizeCuts | None, ...], pack: PlannedPack | None
) -> list[Block]:
    """The cuts as sentences for one size, as a table for several; of a pack also how much of it stays whole."""
    if not scope.single:
        return [cutting_table(scope, fabric, cuts, left_row(scope, pack) if pack is not None else ())]
    blocks = cutting_sentences(scope, fabric, cuts[0]) if cuts[0] is not None else []
    use = scope.here(pack.sizes)[0] if pack is not None else None
    return [*blocks, *left_words(scope, pack, use)] if pack is not None and use is not None else blocks


def _shared_pack(scope: Scope, fabric: PlannedFabric, pack: PlannedPack) -> list[Block]:
    """A pack that several fabrics share, told before the first of them."""
    if first_of(scope, fabric) is None:
        return []
    letters = scope.wording.listed_text([one.letter for one in sharers(scope, pack)])
    blocks: list[Block] = [
        Subheading(pack_text(scope, pack), f"part-cut-{pack.id}"),
        scope.paragraph("packs.shared", letters=letters),
        *_told(scope, fabric, by_size_cuts(scope, pack), pack),
    ]
    if scope.edition.layouts == "inline":
        for index in scope.chosen:
            blocks += fabric_layout(scope, fabric, index)
    return blocks


def _from_shared(scope: Scope, fabric: PlannedFabric) -> tuple[Block, ...]:
    """The pieces that a fabric has from a pack it shares, to be counted."""
    said = []
    for piece in scope.plan.pieces:
        if piece.fabric == fabric.id and scope.any(piece.sizes):
            needs = scope.valued([size.need if size is not None else None for size in piece.sizes])
            count = scope.by_size_inline(needs, scope.wording.number)
            said.append(scope.inlines("packs.count", count=count, piece=mark(piece.id)))
    return (Paragraph(scope.inlines("cutting.totals", pieces=scope.listed(said))),)


def _intro(scope: Scope, fabric: PlannedFabric) -> tuple[Inline, ...]:
    purpose = purpose_text(scope, fabric)
    pack = pack_of(scope, fabric)
    if pack is not None:
        return scope.inlines("cutting.from-pack", purpose=purpose, pack=pack_text(scope, pack))
    return scope.inlines("cutting.from-yardage", purpose=purpose)


def _remarks(scope: Scope, fabric: PlannedFabric) -> list[Block]:
    """What holds for the whole fabric: triangles, one-way prints, lengths set aside, the least width.

    Squares that a unit's own steps cut on the diagonal stay whole until then.
    """
    own = [piece for piece in scope.plan.pieces if piece.fabric == fabric.id and scope.any(piece.sizes)]
    remarks: list[Block] = []
    for then in ("once", "twice"):
        marks = [mark(piece.id) for piece in own if piece.then == then and piece.kind != "unit"]
        remarks += [Paragraph(scope.inlines(f"cutting.then.{then}", pieces=scope.listed(marks)))] if marks else []
    upright = [mark(piece.id) for piece in own if piece.upright]
    if upright:
        remarks.append(Paragraph(scope.inlines(f"cutting.one-way.{fabric.direction}", pieces=scope.listed(upright))))
    remarks += [*_matched(scope, fabric), *_set_aside(scope, fabric)]
    widths = scope.valued([size.smallest_width if size is not None else None for size in fabric.sizes])
    if widths:
        width = scope.by_size_inline(widths, scope.wording.length)
        remarks.append(Paragraph(scope.inlines("cutting.least-width", width=width), "fine"))
    return remarks


def _matched(scope: Scope, fabric: PlannedFabric) -> list[Block]:
    """How pieces are cut by the repeat of their cloth."""
    if fabric.repeat is None:
        return []
    key = "cutting.matched.motif" if fabric.repeat[1] else "cutting.matched.stripe"
    extra = scope.valued([dict(size.extra).get("matching") if size else None for size in fabric.sizes])
    length = scope.by_size_inline(extra, scope.wording.length) if extra else ""
    words = scope.inlines(key, width=fabric.repeat[0], height=fabric.repeat[1], length=length)
    return [Paragraph(words)]


def _set_aside(scope: Scope, fabric: PlannedFabric) -> list[Block]:
    """Lengths that are not cut in strips, such as the backing's."""
    sizes = [size for size in scope.here(fabric.sizes) if size is not None]
    uses = dict.fromkeys(use for size in sizes for use, _ in size.extra if use != "matching")
    paragraphs: list[Block] = []
    for use in uses:
        lengths = scope.valued([dict(size.extra).get(use) if size else None for size in fabric.sizes])
        shown = scope.by_size_inline(lengths, scope.wording.length)
        paragraphs.append(Paragraph(scope.inlines("cutting.set-aside", length=shown, use=scope.say(f"use.{use}"))))
    return paragraphs
