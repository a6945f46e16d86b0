"""Cutting sorted by block: a bag for every block and shared unit, each with a label that lists its pieces.

In: the plan's bags of one size.
Out: a section that stands beside the cutting by fabric.
Never: a count that the plan does not have.
"""

from __future__ import annotations

from patchwright.planning.bags import Bag, plan_bags
from patchwright.typesetting.booklet import Block, Bullets, Notice, Paragraph, Section
from patchwright.typesetting.content.buying import use_text
from patchwright.typesetting.content.names import heading, plain_name, unit_name, varied
from patchwright.typesetting.content.pieces import counted_piece, cut_text
from patchwright.typesetting.content.scope import Scope


def bags(scope: Scope) -> tuple[Section, ...]:
    """The bags of every covered size."""
    return tuple(_page(scope, index) for index in scope.chosen)


def _page(scope: Scope, index: int) -> Section:
    size = scope.plan.sizes[index]
    found = plan_bags(scope.plan, index)
    labels = [_label(scope, bag, number, len(found), index) for number, bag in enumerate(found, 1)]
    lead = Paragraph(scope.inlines("bags.lead", count=len(found)), "lead")
    blocks: tuple[Block, ...] = (lead, scope.paragraph("bags.how"), *labels)
    title = scope.say("section.bags", size=size.label)
    return Section(f"bags-{size.name}", title, blocks, new_page=True)


def _label(scope: Scope, bag: Bag, number: int, bags: int, index: int) -> Notice:
    """A label: which bag of how many, what it makes, and a box to tick for each of its pieces."""
    size = scope.plan.sizes[index]
    title = scope.say("bags.title", number=number, bags=bags, name=heading(_name(scope, bag)))
    quilt = scope.inlines("bags.quilt", title=scope.plan.title, size=size.label)
    items = []
    for id, count in bag.pieces:
        piece = scope.piece(id)
        own = piece.sizes[index]
        if own is not None:
            counted = counted_piece(scope, id, count)
            text = cut_text(scope, piece, own)
            items.append(scope.inlines("bags.piece", counted=counted, size=text, name=scope.fabric(piece.fabric).name))
    return Notice("check", title, (Paragraph(quilt, "fine"), Bullets(tuple(items), checklist=True)))


def _name(scope: Scope, bag: Bag) -> str:
    """`21 lantern blocks`, `24 turn units for coil and chain`, `sashing`."""
    if bag.kind == "part":
        return use_text(scope, bag.ref)
    if bag.kind == "block":
        block = scope.assembly(bag.ref)
        name = scope.say("part.block", count=bag.made, name=varied(scope, block, plain_name(block.block)))
    else:
        name = scope.say("part.unit", count=bag.made, name=unit_name(scope, scope.unit(bag.ref)))
    blocks = dict.fromkeys(plain_name(scope.assembly(root).block) for root in bag.roots)
    shared = len(blocks) > 1
    return scope.say("bags.shared", name=name, blocks=scope.wording.listed_text(list(blocks))) if shared else name
