"""Units: for each how many, from which pieces, the steps of its method with their drawings, and what it measures.

In: planned units.
Out: a part for each kind of unit; its variants (reversed, print turned) share the steps and the line that counts them.
Never: a count that is not the plan's.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from patchwright.planning.plan import PlannedUnit, UnitSize
from patchwright.planning.pressing.terms import Owner
from patchwright.typesetting.booklet import Block, Column, Figure, FigureRow, Paragraph, Section, Subheading, Table
from patchwright.typesetting.content.chaining import chained_units
from patchwright.typesetting.content.introduction import author_note
from patchwright.typesetting.content.names import hand_and_turn, heading, unit_heading, unit_name, varied
from patchwright.typesetting.content.pieces import counted_piece
from patchwright.typesetting.content.plain import inline_text
from patchwright.typesetting.content.pressing import has_heavy_points, needs_map, unit_words
from patchwright.typesetting.content.pressing_remarks import advice_of, heavy_words, two_hands_words
from patchwright.typesetting.content.scope import Scope, as_inlines, each, words
from patchwright.typesetting.content.tables import size_cells, size_table, text_cell
from patchwright.typesetting.content.unit_steps import stage_figures, told_stages, unit_steps

Alike = tuple[PlannedUnit, ...]
"""Units made in the same way, which differ by hand, by the turn of a print, or by pressing; the plain one is first."""


def units(scope: Scope) -> Section | None:
    """Every unit that is sewn, or nothing where the quilt is of plain patches."""
    groups = [group for group in alike_units(scope) if told_stages(scope, group[0])]
    if not groups:
        return None
    blocks: list[Block] = [Paragraph(scope.inlines("units.lead"), "lead"), _overview(scope, groups)]
    for group in groups:
        blocks += group_blocks(scope, group)
    return Section("units", scope.say("section.units"), tuple(blocks))


def alike_units(scope: Scope) -> list[Alike]:
    """The units of the covered sizes, those that are made in one way together."""
    grouped: list[list[PlannedUnit]] = []
    for unit in scope.plan.units:
        if scope.any(unit.sizes):
            group = next((group for group in grouped if _is_alike(unit, group[0])), None)
            if group is None:
                grouped.append([unit])
            else:
                group.append(unit)
    return [tuple(sorted(group, key=_order)) for group in grouped]


def _order(unit: PlannedUnit) -> tuple[bool, int, bool]:
    return unit.hand == "reversed", unit.turn, bool(unit.second_of)


def _is_alike(one: PlannedUnit, other: PlannedUnit) -> bool:
    """Whether two units are made in one way; those of one name in blocks of different cells are not."""
    pairs = zip(one.sizes, other.sizes, strict=True)
    return (one.name, one.method, one.how, one.fabrics) == (other.name, other.method, other.how, other.fabrics) and all(
        mine.request == theirs.request for mine, theirs in pairs if mine is not None and theirs is not None
    )


def _overview(scope: Scope, groups: Sequence[Alike]) -> Table:
    """How many of each, with the size that it must have."""
    rows = []
    for unit in (unit for group in groups for unit in group):
        unfinished = scope.by_size_inline(scope.valued(each(unit.sizes, lambda size: size.unfinished)), scope.extent)
        numbers = each(scope.here(unit.sizes), lambda size: scope.wording.number(size.need))
        name = heading(varied(scope, unit, unit_name(scope, unit)))
        rows.append((text_cell(name), text_cell(unfinished), *size_cells(scope, numbers)))
    heads = (Column(scope.say("column.unit")), Column(scope.say("column.unfinished")))
    return size_table(scope, "table-units", scope.say("units.table"), heads, scope.say("column.make"), rows)


def group_blocks(scope: Scope, group: Alike) -> list[Block]:
    """The part for units that are made in one way: count, pieces, steps, and what differs of variants."""
    first = group[0]
    title = unit_heading(scope, first)
    blocks: list[Block] = [
        Subheading(varied(scope, first, title) if first.second_of else title, f"make-{first.id}"),
        _count(scope, group),
        *(_pieces(scope, unit, len(group) > 1) for unit in group[:-1]),
        _with(_pieces(scope, group[-1], len(group) > 1), chained_units(scope, first)),
        *_remarks(scope, first),
        *unit_steps(scope, first, group),
    ]
    for unit in group[1:]:
        blocks += _variant(scope, first, unit)
    return blocks + list(author_note(scope, first.name))


def _count(scope: Scope, group: Alike) -> Paragraph:
    """`Make 7, and 6 reversed.` in one line, by size where sizes differ."""
    counts: list[str | None] = []
    for index in range(len(scope.plan.sizes)):
        present = [(unit, size) for unit in group if (size := unit.sizes[index]) is not None]
        told = [_variant_count(scope, unit, size) for unit, size in present]
        counts.append(scope.say("list.last").join(told) if told else None)
    return Paragraph(scope.inlines("make", counts=scope.told(scope.valued(counts), str)), sizes=scope.only(counts))


def _variant_count(scope: Scope, unit: PlannedUnit, size: UnitSize) -> str:
    variant = hand_and_turn(scope, unit)
    if not variant:
        return scope.wording.number(size.need)
    return scope.say("units.count-variant", count=size.need, variant=variant)


def _with(paragraph: Paragraph, more: str) -> Paragraph:
    """The paragraph with a sentence after it."""
    return replace(paragraph, inlines=as_inlines((paragraph.inlines, f" {more}"))) if more else paragraph


def _pieces(scope: Scope, unit: PlannedUnit, several: bool) -> Paragraph:
    """The pieces to take for all of them, with what the batches give beyond the need."""
    taken = scope.valued(each(unit.sizes, lambda size: _taken(scope, unit, size)))
    variant = hand_and_turn(scope, unit)
    key = "units.take-variant" if several and variant else "units.take"
    words = scope.inlines(key, variant=variant, pieces=scope.told(taken, str))
    return Paragraph(words, sizes=scope.only(unit.sizes))


def _taken(scope: Scope, unit: PlannedUnit, size: UnitSize) -> str:
    pieces: dict[str, int] = {}
    for piece in unit.pieces:
        pieces[piece.piece] = pieces.get(piece.piece, 0) + piece.per_batch * size.batches
    listed = scope.listed([counted_piece(scope, id, count) for id, count in pieces.items()])
    spare = size.made - size.need
    if not size.batches:
        return scope.say("units.taken-shared")
    text = inline_text(listed)
    text = scope.say("units.taken-both", pieces=text) if size.lent else text
    return scope.say("units.taken-spare", pieces=text, spare=spare) if spare else text


def _remarks(scope: Scope, unit: PlannedUnit) -> list[Block]:
    notes = dict.fromkeys(note for size in scope.here(unit.sizes) if size is not None for note in size.recipe.notes)
    made: list[Block] = [Paragraph(scope.inlines(f"remark.{note}")) for note in notes]
    hands = two_hands_words(scope, unit)
    return [*made, Paragraph(words(hands))] if hands else made


def _variant(scope: Scope, first: PlannedUnit, unit: PlannedUnit) -> list[Block]:
    """A reversed or turned unit: the same steps with its own drawings; one pressed the second way: its pressing."""
    name, press = heading(varied(scope, unit, unit_name(scope, unit))), unit_words(scope, unit)
    mapped = needs_map(scope, unit) if unit.second_of else has_heavy_points(scope, unit)
    shown = scope.figure_if(f"pressing-unit-{unit.id}") if mapped else ()
    heavy = _advised(scope, first, unit)
    if unit.second_of:
        return [Paragraph(scope.inlines("units.second-way", name=name, press=press)), *heavy, *shown]
    figures: list[Figure] = []
    for told in told_stages(scope, unit):
        figures += stage_figures(scope, unit, told)
    said = [Paragraph(scope.inlines("units.variant", name=name))]
    if press and (press != unit_words(scope, first) or shown):
        said.append(Paragraph(words(press)))
    return [*said, *heavy, FigureRow(tuple(figures)), *shown]


def _advised(scope: Scope, first: PlannedUnit, unit: PlannedUnit) -> list[Paragraph]:
    """What to do where seams of a variant pile up, if it is not what the steps say of the plain one."""
    owner = Owner("unit", unit.id)
    if advice_of(scope, owner) == advice_of(scope, Owner("unit", first.id)):
        return []
    return [Paragraph(words(heavy_words(scope, owner) or scope.say("press.heavy.unit.none")))]
