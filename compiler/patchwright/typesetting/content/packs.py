"""Packs of precut cloth: which fabrics share one, which print serves what, and what is left of the precuts cut up.

In: the use of a pack in the covered sizes.
Out: paragraphs and tables for cutting and for the pages of layouts, each pack told once, with its first fabric.
Never: a precut assigned here; prints and their places are the plan's.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from patchwright.planning.plan import PackSize, PlannedFabric, PlannedPack, PrintShare
from patchwright.typesetting.booklet import Block, Cell, Column, Inline, Paragraph, Table
from patchwright.typesetting.content.buying import pack_of
from patchwright.typesetting.content.cuts import SizeCuts, pack_cuts
from patchwright.typesetting.content.names import plain_name
from patchwright.typesetting.content.pieces import counted_piece
from patchwright.typesetting.content.scope import Scope, each
from patchwright.typesetting.content.tables import Row, size_cells, text_cell

LEAST_SEAMS = 4
"""What is left of a precut is worth telling from so many seam allowances wide."""


@dataclass(frozen=True, slots=True)
class Place:
    """A place in the quilt whose patches of some fabrics share a print: block 3 of its kind."""

    letter: str
    name: str
    number: int


def first_of(scope: Scope, fabric: PlannedFabric) -> PlannedPack | None:
    """The pack that is told with this fabric: its own, where it is the first of those that share it."""
    pack = pack_of(scope, fabric)
    sharing = sharers(scope, pack) if pack is not None else ()
    return pack if sharing and sharing[0].id == fabric.id else None


def sharers(scope: Scope, pack: PlannedPack) -> tuple[PlannedFabric, ...]:
    """The fabrics that are cut from a pack in the covered sizes, in the order of their letters."""
    return tuple(one for one in scope.plan.fabrics if one.source.pack == pack.id and scope.any(one.sizes))


def by_size_cuts(scope: Scope, pack: PlannedPack) -> tuple[SizeCuts | None, ...]:
    """What the precuts of a pack are cut into, for all its fabrics together, in every covered size."""
    return each(scope.here(pack.sizes), pack_cuts)


def left_row(scope: Scope, pack: PlannedPack) -> tuple[Row, ...]:
    """A row for the precuts that stay whole, where some do."""
    left = [use.left if use is not None else None for use in scope.here(pack.sizes)]
    if not any(left):
        return ()
    head = text_cell(scope.say(f"packs.whole.{pack.kind}"))
    return ((head, *size_cells(scope, each(left, scope.wording.number))),)


def left_words(scope: Scope, pack: PlannedPack, use: PackSize) -> tuple[Paragraph, ...]:
    """How many precuts of what is bought stay whole."""
    if not use.left:
        return ()
    bought = scope.say(f"buy.single.{pack.kind}", count=use.packs * (1 if pack.single else pack.count))
    return (scope.paragraph("packs.left", bought=bought, left=use.left),)


def pack_prints(scope: Scope, pack: PlannedPack, index: int) -> tuple[Block, ...]:
    """Which print serves what in one size, and what is left of the precuts that are cut up."""
    use = pack.sizes[index]
    if use is None:
        return ()
    return (*_prints(scope, pack, use, index), *_scraps(scope, pack, use))


def _prints(scope: Scope, pack: PlannedPack, use: PackSize, index: int) -> tuple[Block, ...]:
    """A sentence where all prints serve places of one kind, else a table print by print."""
    shares = [share for share in use.shares if share.places]
    places = [[_place(scope, place) for place in share.places] for share in shares]
    kinds = {(place.letter, place.name) for own in places for place in own}
    if not kinds:
        return ()
    size = scope.plan.sizes[index]
    names = () if scope.single else (size.name,)
    if len(kinds) > 1 or any(share.loose for share in shares):
        lead = Paragraph(scope.inlines("packs.places"), sizes=names)
        return (lead, _table(scope, pack, use, f"table-prints-{pack.id}-{size.name}"))
    letters = scope.wording.listed_text(list(_together(scope, pack, use)))
    (_, name), *_ = kinds
    if not name:
        return (Paragraph(scope.inlines("packs.one-print", letters=letters), sizes=names),)
    noun = scope.say("packs.batch" if _is_unit(scope, name) else "packs.block", name=plain_name(name))
    counts = Counter(len(own) for own in places)
    said = [_served(scope, prints, served, name) for served, prints in sorted(counts.items(), reverse=True)]
    rule = scope.inlines("packs.same-print", letters=letters, place=noun, served=scope.listed(said))
    return (Paragraph(rule, sizes=names),)


def _served(scope: Scope, prints: int, served: int, name: str) -> tuple[Inline, ...]:
    """`10 prints serve 2 lanterns each`."""
    key = "packs.batches" if _is_unit(scope, name) else "packs.blocks"
    places = scope.say(key, count=served, name=plain_name(name))
    return scope.inlines("packs.serve", count=prints, places=places)


def _is_unit(scope: Scope, name: str) -> bool:
    return any(name in (unit.name, unit.id) for unit in scope.plan.units)


def _together(scope: Scope, pack: PlannedPack, use: PackSize) -> tuple[str, ...]:
    """Letters of the fabrics that share prints: those named with places, and others matched with them."""
    named = {_place(scope, place).letter for share in use.shares for place in share.places}
    loose = {scope.piece(piece).fabric for share in use.shares for piece, _ in share.loose}
    own = sharers(scope, pack)
    return tuple(one.letter for one in own if one.letter in named or one.id not in loose)


def _place(scope: Scope, text: str) -> Place:
    """A place by its name in the plan: letter, name, number; a fabric's id alone stands for all of the fabric."""
    letter, _, rest = text.partition(" ")
    name, _, number = rest.rpartition(" ")
    if not number.isdecimal():
        return Place(scope.fabric(text).letter, "", 0)
    return Place(letter, name, int(number))


def _table(scope: Scope, pack: PlannedPack, use: PackSize, id: str) -> Table:
    """A row for each print that serves places: its number, the places, and loose pieces cut beside them."""
    shares = sorted((share for share in use.shares if share.places), key=_order)
    rows = [
        (text_cell(_print(scope, share)), Cell(_serves(scope, share)), text_cell(_layouts(scope, share)))
        for share in shares
    ]
    columns = (
        Column(scope.say("packs.print"), weight=0), Column(scope.say("packs.serves"), weight=1),
        Column(scope.say("packs.layout"), weight=0),
    )
    return Table(id, scope.say("packs.prints"), columns, tuple(rows))


def _order(share: PrintShare) -> tuple[str, int]:
    return share.pile, share.number


def _print(scope: Scope, share: PrintShare) -> str:
    """`3`, or `light 3` where the pack has piles."""
    piled = share.pile not in ("", "all", "rest")
    return scope.say("packs.piled" if piled else "plain-number", pile=plain_name(share.pile), number=share.number)


def _layouts(scope: Scope, share: PrintShare) -> str:
    """The layouts by which its precuts are cut: `1`, or `1 and 2`, or `3 × 1`."""
    said = [
        scope.say("packs.layout-times", number=number, count=count) if count > 1 else scope.wording.number(number)
        for number, count in Counter(share.layouts).items()
    ]
    return scope.wording.listed_text(said)


def _serves(scope: Scope, share: PrintShare) -> tuple[Inline, ...]:
    """`B for boat 1; C for boat 2 and 4`, then loose pieces."""
    numbers: dict[tuple[str, str], list[int]] = {}
    for place in sorted((_place(scope, text) for text in share.places), key=lambda one: (one.letter, one.number)):
        numbers.setdefault((place.letter, place.name), []).append(place.number)
    said: list[Inline | tuple[Inline, ...]] = []
    for (letter, name), own in numbers.items():
        listed = scope.wording.listed_text([scope.wording.number(number) for number in own])
        key = "packs.place" if name else "packs.whole-fabric"
        said.append(scope.inlines(key, letter=letter, name=plain_name(name), numbers=listed))
    said += [counted_piece(scope, piece, count) for piece, count in share.loose]
    return _semicolons(scope, said)


def _semicolons(scope: Scope, said: Sequence[Inline | tuple[Inline, ...]]) -> tuple[Inline, ...]:
    joined = said[0] if isinstance(said[0], tuple) else (said[0],)
    for one in said[1:]:
        joined = scope.inlines("packs.and-then", first=joined, second=one)
    return joined


def _scraps(scope: Scope, pack: PlannedPack, use: PackSize) -> tuple[Block, ...]:
    """What is left of precuts that are cut up, in rectangles that are wide enough to be of use."""
    least = scope.plan.rules.seam * LEAST_SEAMS
    sizes: Counter[str] = Counter()
    for scrap in use.scraps:
        if min(scrap.width, scrap.height) >= least:
            sizes[scope.extent((min(scrap.width, scrap.height), max(scrap.width, scrap.height)))] += scrap.count
    said = [scope.say("packs.scrap", count=count, size=text) for text, count in sizes.items()]
    words = scope.wording.listed_text(said)
    if not said:
        return ()
    return (Paragraph(scope.inlines(f"packs.scraps.{pack.kind}", scraps=words, least=least), "fine"),)
