"""Every number of the plan, for every size, stands in the booklets: walked from the plan, not from their makers."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

import pytest

from content.compiled import BOOKLETS, SIZES, booklet_of, names_of, plan_of
from patchwright.core.length import Cut, Finished, Length, Unfinished
from patchwright.core.measure import decimal_text, fraction_text, printed_length, printed_number
from patchwright.planning.plan import Buy, PieceSize, Plan, PlannedSize
from patchwright.typesetting.booklet import Booklet
from patchwright.typesetting.content.plain import section_text, to_text

Lengthy = Length | Finished | Unfinished | Cut
Expected = Iterator[tuple[str, str, str]]
"""(section, what, text that must stand there)"""


def bare(length: Lengthy) -> Length:
    return length if isinstance(length, Length) else length.length


def side(plan: Plan, length: Lengthy) -> str:
    return printed_length(bare(length), plan.system)


def extent(plan: Plan, width: Lengthy, height: Lengthy) -> str:
    if plan.system == "in":
        return f"{side(plan, width)} × {side(plan, height)}"
    return f"{printed_number(bare(width), 'cm')} × {side(plan, height)}"


def square_or_extent(plan: Plan, width: Lengthy, height: Lengthy) -> str:
    return f"{side(plan, width)} square" if bare(width) == bare(height) else extent(plan, width, height)


def amount(buy: Buy) -> str:
    number = decimal_text(buy.amount) if buy.unit == "m" else fraction_text(Fraction(buy.amount))
    return f"{number}\u00a0{buy.unit}"


def expected(plan: Plan, index: int) -> Expected:
    """Everything that a maker of one size must be able to read."""
    size = plan.sizes[index]
    yield from _buying(plan, size, index)
    yield from _cutting(plan, index)
    yield from _sewing(plan, index)
    yield from _finishing(plan, size)


def _buying(plan: Plan, size: PlannedSize, index: int) -> Expected:
    yield "requirements", "finished size", extent(plan, *size.finished)
    yield "requirements", "batting", extent(plan, *size.batting)
    for fabric in plan.fabrics:
        cut = fabric.sizes[index]
        if cut is not None and cut.buy is not None and cut.buy.unit in ("yd", "m"):
            yield "requirements", f"buy {fabric.id}", amount(cut.buy)
    for part in (size.binding, size.backing):
        if part is not None and part.buy is not None:
            yield "requirements", "buy for finishing", amount(part.buy)
    for pack in plan.packs:
        use = pack.sizes[index]
        if use is not None:
            yield "requirements", f"packs of {pack.id}", f"{use.packs} "


def _cutting(plan: Plan, index: int) -> Expected:
    for fabric in plan.fabrics:
        cut = fabric.sizes[index]
        for strip in cut.strips if cut is not None else ():
            yield "cutting", f"strip of {fabric.id}", side(plan, strip.height)
            yield "layouts", f"strips of {fabric.id}", f"{strip.count} "
            yield "layouts", f"width used of {fabric.id}", side(plan, strip.used)
            for given in strip.yields:
                yield "layouts", f"each of {given.piece}", f"{given.each} {given.piece}"
    for piece in plan.pieces:
        own = piece.sizes[index]
        if own is not None and piece.kind not in ("border", "binding"):
            yield "cutting", piece.id, _cut(plan, own)
            if not own.joins:
                yield "cutting", f"need of {piece.id}", str(own.need)


def _cut(plan: Plan, piece: PieceSize) -> str:
    if piece.width == piece.height:
        return side(plan, piece.width)
    return extent(plan, min(piece.width, piece.height), max(piece.width, piece.height))


def _sewing(plan: Plan, index: int) -> Expected:
    for unit in plan.units:
        made = unit.sizes[index]
        if made is not None:
            yield "units", f"need of {unit.id}", str(made.need)
            yield "units", f"unfinished {unit.id}", square_or_extent(plan, *made.unfinished)
            for piece in {piece.piece for piece in unit.pieces}:
                each = sum(one.per_batch for one in unit.pieces if one.piece == piece)
                yield "units", f"{piece} for {unit.id}", f"{each * made.batches} {piece}"
    for assembly in plan.assemblies:
        block = assembly.sizes[index]
        if block is not None:
            yield "blocks", f"count of {assembly.id}", str(block.count)
            yield "blocks", f"unfinished {assembly.id}", square_or_extent(plan, *block.unfinished)
            yield "blocks", f"finished {assembly.id}", square_or_extent(plan, *block.finished)


def _finishing(plan: Plan, size: PlannedSize) -> Expected:
    yield "top", "rows", f"{size.down} row"
    yield "top", "across", f"of {size.across}"
    yield "top", "center", extent(plan, *size.center)
    for border in size.borders:
        yield "borders", f"after {border.id}", extent(plan, *border.after)
        yield "borders", f"width of {border.id}", side(plan, border.width)
    if size.borders:
        index = plan.sizes.index(size)
        for piece in (piece for piece in plan.pieces if piece.kind == "border"):
            own = piece.sizes[index]
            if own is not None and own.width != own.height:
                yield "borders", piece.id, _cut(plan, own)
    if size.binding is not None:
        binding = size.binding
        yield "finishing", "binding strips", f"{binding.strips} strips {side(plan, binding.strip)}"
        yield "finishing", "binding joins", str(binding.joins)
        yield "finishing", "binding length", side(plan, binding.length)
        yield "finishing", "binding made", side(plan, binding.made)
    if size.backing is not None:
        yield "finishing", "backing", extent(plan, *size.backing.size)
        yield "finishing", "backing length", side(plan, size.backing.length)
        for panel in size.backing.panels:
            yield "finishing", "backing panel", extent(plan, *panel)
    yield "finishing", "batting", extent(plan, *size.batting)


def section(booklet: Booklet, name: str, size: str) -> str:
    """The text of a section; layouts stand in the cutting where they have no pages of their own."""
    wanted = f"layouts-{size}" if name == "layouts" else name
    found = [one for one in booklet.sections if one.id == wanted]
    if not found and name == "layouts":
        found = [one for one in booklet.sections if one.id == "cutting"]
    return "\n".join(section_text(found[0])) if found else ""


def stands(text: str, inside: str) -> bool:
    """Whether a text stands there and is not a part of another number; kinds of spaces make no difference."""
    wanted = re.escape(text.replace("\u00a0", " "))
    pattern = rf"(?<![\d.,⁄½⅓⅔¼¾⅛⅜⅝⅞]){wanted}(?![\d⁄½⅓⅔¼¾⅛⅜⅝⅞])"
    return re.search(pattern, inside.replace("\u00a0", " ")) is not None


@pytest.mark.parametrize("name", SIZES)
def test_all_sizes_booklet_has_every_number(name: str) -> None:
    plan, booklet = plan_of(name), booklet_of(name)
    missing = [
        (size.name, where, what, text)
        for index, size in enumerate(plan.sizes)
        for where, what, text in expected(plan, index)
        if not stands(text, section(booklet, where, size.name))
    ]
    assert missing == []


@pytest.mark.parametrize(("name", "size"), [(name, size) for name, size in BOOKLETS if size])
def test_one_size_booklet_has_its_numbers_and_no_other_size(name: str, size: str) -> None:
    plan, booklet = plan_of(name), booklet_of(name, size)
    index = names_of(plan).index(size)
    missing = [
        (where, what, text)
        for where, what, text in expected(plan, index)
        if not stands(text, section(booklet, where, size))
    ]
    assert missing == []
    others = [other.label for other in plan.sizes if other.name != size]
    assert not [label for label in others if re.search(rf"\b{label}\b", to_text(booklet))]


def test_a_column_holds_the_numbers_of_its_own_size() -> None:
    plan, booklet = plan_of("rope-walk"), booklet_of("rope-walk")
    text = section(booklet, "requirements", "")
    for fabric in plan.fabrics:
        if fabric.source.kind == "yardage":
            amounts = [amount(cut.buy) for cut in fabric.sizes if cut is not None and cut.buy is not None]
            assert f"{' | '.join(amounts)}\n" in re.sub(r" \([^)]*\u00a0m\)", "", text)
    needs = [[str(size.need) for size in unit.sizes if size is not None] for unit in plan.units]
    units = section(booklet, "units", "")
    assert all(f"| {' | '.join(row)}\n" in units for row in needs)
