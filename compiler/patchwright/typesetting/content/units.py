"""Units: for each how many, from which pieces, the steps of its method with their drawings, and what it measures.

In: planned units and their methods' stages.
Out: a part for each kind of unit; its variants (reversed, print turned) share the steps and the line that counts them.
Never: a step that its method does not have.
"""

from __future__ import annotations

from collections.abc import Sequence

from patchwright.core.length import Length
from patchwright.methods.method import Stage
from patchwright.methods.registry import BY_NAME
from patchwright.planning.plan import PlannedUnit, UnitSize
from patchwright.typesetting.booklet import Block, Column, Figure, FigureRow, Paragraph, Section, Step, Subheading, Table
from patchwright.typesetting.content.introduction import author_note
from patchwright.typesetting.content.names import hand_and_turn, heading, piece_noun, unit_heading, unit_name
from patchwright.typesetting.content.scope import Scope, Valued, mark
from patchwright.typesetting.content.tables import size_cells, size_table, text_cell

Alike = tuple[PlannedUnit, ...]
"""Units made in the same way, which differ by hand or by the turn of a print; the one as drawn comes first."""


def units(scope: Scope) -> Section | None:
    """Every unit that is sewn, or nothing where the quilt is of plain patches."""
    groups = [group for group in _groups(scope) if _stages(scope, group[0])]
    if not groups:
        return None
    blocks: list[Block] = [Paragraph(scope.inlines("units.lead"), "lead"), _overview(scope, groups)]
    for group in groups:
        blocks += _group(scope, group)
    return Section("units", scope.say("section.units"), tuple(blocks))


def _groups(scope: Scope) -> list[Alike]:
    grouped: dict[object, list[PlannedUnit]] = {}
    for unit in scope.plan.units:
        if scope.any(unit.sizes):
            grouped.setdefault((unit.name, unit.method, unit.how, unit.fabrics, _extents(unit)), []).append(unit)
    return [tuple(sorted(group, key=lambda unit: (unit.hand == "reversed", unit.turn))) for group in grouped.values()]


def _extents(unit: PlannedUnit) -> object:
    """Finished sizes, by which units of one name in blocks of different cells are told apart."""
    return tuple(size and size.finished for size in unit.sizes)


def _overview(scope: Scope, groups: Sequence[Alike]) -> Table:
    """How many of each, with the size that it must have."""
    rows = []
    for unit in (unit for group in groups for unit in group):
        variant = hand_and_turn(scope, unit)
        name = scope.say("variant.named", name=unit_name(scope, unit), variant=variant) if variant else unit_name(scope, unit)
        unfinished = scope.by_size_inline(scope.valued([size and size.unfinished for size in unit.sizes]), scope.extent)
        numbers = [size and scope.wording.number(size.need) for size in scope.here(unit.sizes)]
        rows.append((text_cell(heading(name)), text_cell(unfinished), *size_cells(scope, numbers)))
    heads = (Column(scope.say("column.unit")), Column(scope.say("column.unfinished")))
    return size_table(scope, "units-overview", scope.say("units.table"), heads, scope.say("column.make"), rows)


def _group(scope: Scope, group: Alike) -> list[Block]:
    first = group[0]
    blocks: list[Block] = [
        Subheading(unit_heading(scope, first), f"unit-{first.id}"),
        _count(scope, group),
        *(_pieces(scope, unit, len(group) > 1) for unit in group),
        *_remarks(scope, first),
        *_steps(scope, first),
    ]
    for unit in group[1:]:
        blocks += _variant(scope, unit)
    return blocks + list(author_note(scope, first.name))


def _count(scope: Scope, group: Alike) -> Paragraph:
    """`Make 7, and 6 reversed.` in one line, by size where sizes differ."""
    counts: list[str | None] = []
    for index in range(len(scope.plan.sizes)):
        present = [(unit, size) for unit in group if (size := unit.sizes[index]) is not None]
        counts.append(scope.wording.listed_text([_variant_count(scope, *each) for each in present]) if present else None)
    valued = scope.valued(counts)
    key = "units.make-by-size" if scope.differs(valued, str) else "units.make"
    return Paragraph(scope.inlines(key, counts=scope.by_size(valued, str)), sizes=scope.only(counts))


def _variant_count(scope: Scope, unit: PlannedUnit, size: UnitSize) -> str:
    variant = hand_and_turn(scope, unit)
    return scope.say("units.count-variant", count=size.need, variant=variant) if variant else scope.wording.number(size.need)


def _pieces(scope: Scope, unit: PlannedUnit, named: bool) -> Paragraph:
    """The pieces to take for all of them, with what the batches give beyond the need."""
    by_size = [size and _taken(scope, unit, size) for size in unit.sizes]
    valued: Valued[str] = scope.valued(by_size)
    key = "units.take-by-size" if scope.differs(valued, str) else "units.take"
    text = scope.by_size(valued, str)
    variant = hand_and_turn(scope, unit)
    start = scope.say("units.for-variant", variant=variant) if named and variant else ""
    return Paragraph(scope.inlines(key, start=start, pieces=text), sizes=scope.only(unit.sizes))


def _taken(scope: Scope, unit: PlannedUnit, size: UnitSize) -> str:
    pieces: dict[str, int] = {}
    for piece in unit.pieces:
        pieces[piece.piece] = pieces.get(piece.piece, 0) + piece.per_batch * size.batches
    listed = scope.wording.listed_text(
        [
            scope.say("part.piece", count=count, piece=id, noun=piece_noun(scope, scope.piece(id), count))
            for id, count in pieces.items()
        ]
    )
    spare = size.made - size.need
    return scope.say("units.taken-spare", pieces=listed, spare=spare) if spare else listed


def _remarks(scope: Scope, unit: PlannedUnit) -> list[Block]:
    notes = dict.fromkeys(note for size in scope.here(unit.sizes) if size is not None for note in size.recipe.notes)
    return [Paragraph(scope.inlines(f"remark.{note}")) for note in notes]


def _stages(scope: Scope, unit: PlannedUnit) -> tuple[Stage, ...]:
    """The stages in the first covered size; what is done is the same in all."""
    size = next(size for size in scope.here(unit.sizes) if size is not None)
    return BY_NAME[unit.method].stages(size.request, size.recipe)


def _steps(scope: Scope, unit: PlannedUnit) -> list[Block]:
    """A step for each stage; the last one says what the unit measures."""
    pieces = scope.figure(f"unit-{unit.id}-pieces")
    blocks: list[Block] = [FigureRow((pieces,))]
    for number, stage in enumerate(_stages(scope, unit), 1):
        role = "measure" if stage.kind == "finished" else "body"
        words = Paragraph(scope.inlines(stage.key, **_values(scope, unit, number - 1)), role)
        figure = scope.figure(f"unit-{unit.id}-{number}-{stage.kind}")
        blocks.append(Step(f"unit-{unit.id}-{number}", number, (words, figure)))
    return blocks


_ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth")


def _values(scope: Scope, unit: PlannedUnit, place: int) -> dict[str, object]:
    """What a stage's words may name: its pieces in order, its lengths by size, and how many there are afterwards."""
    by_size = [_stage(unit, size, place) for size in unit.sizes]
    stage = next(stage for stage in scope.here(by_size) if stage is not None)
    size = next(size for size in scope.here(unit.sizes) if size is not None)
    lengths: dict[str, list[Length | None]] = {
        name: [each and dict(each.lengths).get(name) for each in by_size] for name, _ in stage.lengths
    }
    unfinished = [each and each.unfinished for each in unit.sizes]
    lengths.setdefault("width", [each and each[0].length for each in unfinished])
    lengths.setdefault("height", [each and each[1].length for each in unfinished])
    served = {piece.recipe_piece: piece.piece for piece in unit.pieces}
    named = {
        ordinal: scope.inlines("part.one", piece=mark(served[piece]), noun=_noun(scope, unit, piece))
        for ordinal, piece in zip(_ORDINALS, stage.pieces, strict=False)
    }
    shown = {name: scope.by_size_inline(scope.valued(each), scope.wording.length) for name, each in lengths.items()}
    return {**shown, **named, "gives": stage.gives or size.recipe.batch}


def _stage(unit: PlannedUnit, size: UnitSize | None, place: int) -> Stage | None:
    return None if size is None else BY_NAME[unit.method].stages(size.request, size.recipe)[place]


def _noun(scope: Scope, unit: PlannedUnit, piece: str) -> str:
    """The method's word for one of its pieces; `corner-ne` and `log-7` look under `corner` and `log`."""
    own = f"{unit.method}.piece.{piece}"
    return scope.say(own if scope.wording.has(own) else f"{unit.method}.piece.{piece.partition('-')[0]}", count=1)


def _variant(scope: Scope, unit: PlannedUnit) -> list[Block]:
    """A reversed or turned unit: the same steps with its own drawings."""
    figures: list[Figure] = []
    for number, stage in enumerate(_stages(scope, unit), 1):
        figures += scope.figure_if(f"unit-{unit.id}-{number}-{stage.kind}")
    variant = hand_and_turn(scope, unit)
    words = Paragraph(scope.inlines("units.variant", variant=variant, name=unit_name(scope, unit)))
    return [words, FigureRow(tuple(figures))] if figures else [words]
