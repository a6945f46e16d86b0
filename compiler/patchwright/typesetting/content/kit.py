"""The sheet for shops: for so many kits of each size, what to cut off the bolts, what to count out, and labels.

In: the plan's kits.
Out: a page for each covered size.
Never: a sum; bolts and lengths are the plan's.
"""

from __future__ import annotations

from patchwright.core.length import Length
from patchwright.planning.finishing.buying import METER, YARD, as_buy
from patchwright.planning.kits import Bolts, Kit, KitCloth, plan_kit
from patchwright.typesetting.booklet import Block, Bullets, Cell, Column, Inline, Notice, Paragraph, Section, Table
from patchwright.typesetting.booklet import Subheading as Heading
from patchwright.typesetting.content.buying import buy_text, pack_amount, pack_text
from patchwright.typesetting.content.scope import Scope
from patchwright.typesetting.content.tables import Row, text_cell


def kit(scope: Scope) -> tuple[Section, ...]:
    """A page for each size."""
    return tuple(_page(scope, index) for index in scope.chosen)


def _page(scope: Scope, index: int) -> Section:
    size, made = scope.plan.sizes[index], plan_kit(scope.plan, index)
    lead = scope.inlines("kit.lead", count=made.count, size=size.label, bolt=length_text(scope, made.bolt))
    blocks: tuple[Block, ...] = (
        Paragraph(lead, "lead", (size.name,)),
        _cloths(scope, made, size.name),
        Paragraph(scope.inlines("kit.never-joined"), "fine"),
        *_too_long(scope, made),
        _counted(scope, made, size.name),
        Heading(scope.say("kit.list"), f"part-kit-list-{size.name}"),
        Bullets(tuple(_cut(scope, cloth) for cloth in made.cloths if cloth.cut.bolts), checklist=True),
        Heading(scope.say("kit.labels"), f"part-kit-labels-{size.name}"),
        scope.paragraph("kit.labels-lead", count=made.count),
        Bullets(_labels(scope, made, size.label), checklist=True),
    )
    return Section(f"kit-{size.name}", scope.say("section.kit", size=size.label), blocks, new_page=True)


def length_text(scope: Scope, length: Length) -> str:
    """A length off the bolt in yards or meters; in inches or centimeters where it is no even part of them."""
    exact = length.rational() / (YARD if scope.plan.system == "in" else METER)
    if scope.plan.system == "in" and exact.denominator > 16:
        return scope.wording.length(length)
    return buy_text(scope, as_buy(length, scope.plan.system)) if length else scope.say("by-size.none")


def _name(scope: Scope, cloth: KitCloth) -> str:
    """`A · Night blue`, `Backing`."""
    if cloth.part == "fabric":
        fabric = scope.fabric(cloth.fabric)
        return scope.say("fabric.listed", letter=fabric.letter, name=fabric.name)
    return scope.say(f"requirements.{cloth.part}")


def _cloths(scope: Scope, made: Kit, size: str) -> Table:
    """A row for each cloth: for one kit, for all, from one bolt, bolts, and what the last keeps."""
    rows = [_row(scope, cloth) for cloth in made.cloths]
    heads = ("for-one", "for-all", "per-bolt", "bolts", "left")
    columns = (Column(scope.say("column.fabric"), weight=2), *(
        Column(scope.say(f"kit.{key}", count=made.count), "end", weight=0) for key in heads
    ))  # fmt: skip
    return Table(f"table-kit-{size}", scope.say("kit.table"), columns, tuple(rows))


def _row(scope: Scope, cloth: KitCloth) -> Row:
    cut, number = cloth.cut, scope.wording.number
    swatch = scope.fabric(cloth.fabric).letter if cloth.part == "fabric" else ""
    head = Cell(scope.inlines("plain", text=_name(scope, cloth)), swatch=swatch)
    texts = [buy_text(scope, cloth.buy), length_text(scope, cut.total)]
    texts += [number(cut.per_bolt), number(cut.bolts), length_text(scope, cut.left)] if cut.bolts else [
        scope.say("by-size.none")
    ] * 3  # fmt: skip
    return (head, *(text_cell(text) for text in texts))


def _too_long(scope: Scope, made: Kit) -> tuple[Block, ...]:
    """Cloths of which one kit takes more than a bolt."""
    names = [_name(scope, cloth) for cloth in made.cloths if not cloth.cut.bolts]
    if not names:
        return ()
    words = scope.paragraph(
        "kit.too-long", names=scope.wording.listed_text(names), bolt=length_text(scope, made.bolt), count=len(names)
    )
    return (Notice("caution", scope.say("kit.too-long-title"), (words,)),)


def _counted(scope: Scope, made: Kit, size: str) -> Table:
    """Packs, precuts and batting: for one kit and for all."""
    rows: list[Row] = []
    for own in made.packs:
        pack = next(pack for pack in scope.plan.packs if pack.id == own.pack)
        amounts = (pack_amount(scope, pack, own.each), pack_amount(scope, pack, own.total))
        rows.append((text_cell(pack_text(scope, pack)), *map(text_cell, amounts)))
    for batting, each in made.batting:
        counts = (scope.say("amount.piece", number=number, count=number) for number in (each, each * made.count))
        rows.append((text_cell(scope.say("kit.batting", size=scope.wording.extent(*batting))), *map(text_cell, counts)))
    columns = (
        Column(scope.say("kit.counted"), weight=2),
        Column(scope.say("kit.for-one"), "end", weight=0),
        Column(scope.say("kit.for-all", count=made.count), "end", weight=0),
    )
    return Table(f"table-kit-counted-{size}", scope.say("kit.counted-table"), columns, tuple(rows))


def _cut(scope: Scope, cloth: KitCloth) -> tuple[Inline, ...]:
    """`A · Night blue: from each of 2 bolts cut 5 lengths of 2⅜ yd, from the last cut 2.`"""
    cut = cloth.cut
    key = "kit.cut-one" if cut.bolts == 1 else "kit.cut-alike" if cut.from_last == cut.per_bolt else "kit.cut-more"
    return scope.inlines(
        key, name=_name(scope, cloth), bolts=_full_bolts(cut), each=cut.per_bolt, last=cut.from_last,
        length=buy_text(scope, cloth.buy),
    )  # fmt: skip


def _full_bolts(cut: Bolts) -> int:
    """Bolts that give as many lengths as a bolt can."""
    return cut.bolts if cut.from_last == cut.per_bolt else cut.bolts - 1


def _labels(scope: Scope, made: Kit, size: str) -> tuple[tuple[Inline, ...], ...]:
    """The words of one label for every cut and every thing counted out."""
    title = scope.plan.title
    lines = [
        scope.inlines("kit.label", title=title, size=size, name=_name(scope, one), amount=buy_text(scope, one.buy))
        for one in made.cloths
    ]
    for own in made.packs:
        pack = next(pack for pack in scope.plan.packs if pack.id == own.pack)
        amount = pack_amount(scope, pack, own.each)
        lines.append(
            scope.inlines("kit.label", title=title, size=size, name=pack_text(scope, pack), amount=amount)
        )
    return tuple(lines)
