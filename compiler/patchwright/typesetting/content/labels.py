"""Labels to cut out and clip to the stacks of cut pieces: letter, size, how many, and what for.

In: the pieces of one size.
Out: a tag for every piece letter, to cut along its dashes.
Never: a count that is not the plan's; spare pieces are told apart.
"""

from __future__ import annotations

from patchwright.planning.plan import Piece, PlannedFabric
from patchwright.typesetting.booklet import Block, Notice, Paragraph, Section
from patchwright.typesetting.content.buying import use_text
from patchwright.typesetting.content.cuts import Joined, size_cuts
from patchwright.typesetting.content.cutting_tables import joined_text
from patchwright.typesetting.content.names import plain_name, unit_name
from patchwright.typesetting.content.pieces import cut_text, piece_noun
from patchwright.typesetting.content.scope import Scope, mark


def labels(scope: Scope) -> tuple[Section, ...]:
    """The labels of every covered size."""
    return tuple(_page(scope, index) for index in scope.chosen)


def _page(scope: Scope, index: int) -> Section:
    size = scope.plan.sizes[index]
    tags = [_label(scope, piece, index) for piece in scope.plan.pieces if piece.sizes[index] is not None]
    blocks: tuple[Block, ...] = (Paragraph(scope.inlines("labels.lead"), "lead"), *tags)
    return Section(f"labels-{size.name}", scope.say("section.labels", size=size.label), blocks, new_page=True)


def _label(scope: Scope, piece: Piece, index: int) -> Notice:
    """`A1 · Night blue` over `44 squares 2½″, 2 spare` and what they are for.

    What is joined is a stack of strips until then, so that the strips are counted.
    """
    size, fabric = piece.sizes[index], scope.fabric(piece.fabric)
    if size is None:
        raise ValueError(f"{piece.id} is not in this size")
    title = scope.say("labels.title", piece=piece.id, name=fabric.name)
    strips = _strips(scope, fabric, piece.id, index)
    key = "labels.joined" if strips else "labels.spare" if size.spare else "labels.count"
    words = scope.inlines(
        key, count=size.need, noun=piece_noun(scope, piece, size.need), size=cut_text(scope, piece, size),
        piece=mark(piece.id), spare=size.spare, quilt=scope.plan.title, name=scope.plan.sizes[index].label,
        strips=strips,
    )  # fmt: skip
    listed = scope.wording.listed_text([part_text(scope, use) for use in piece.uses])
    then = "labels.for" if piece.then == "none" else f"labels.for-cut.{piece.then}"
    return Notice("tag", title, (Paragraph(words), Paragraph(scope.inlines(then, uses=listed), "fine")))


def _strips(scope: Scope, fabric: PlannedFabric, piece: str, index: int) -> str:
    """The strips that are joined to a long piece, `3 strips and 1 end`; nothing for what is cut in one."""
    size = fabric.sizes[index]
    found = [
        joined for group in (size_cuts(size).groups if size is not None else ())
        for joined in group.joined if joined.piece == piece
    ]
    made = Joined(piece, sum(joined.whole for joined in found), sum(joined.ends for joined in found))
    return joined_text(scope, made) if made.whole + made.ends > 1 else ""


def part_text(scope: Scope, use: str) -> str:
    """What a piece is for, by the id of a unit, an assembly, or a part of the quilt."""
    unit = next((unit for unit in scope.plan.units if unit.id == use), None)
    if unit is not None:
        return scope.say("labels.segment" if unit.row_of[0] else "labels.unit", name=unit_name(scope, unit))
    block = next((own.block for own in scope.plan.assemblies if use in (own.id, own.block)), None)
    return scope.say("labels.block", name=plain_name(block)) if block is not None else use_text(scope, use)
