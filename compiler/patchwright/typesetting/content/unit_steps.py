"""The steps of one unit over several sizes: each stage of its method once, its words by size where lengths differ.

In: a planned unit and its method's stages in every covered size.
Out: numbered steps with their drawings; a stage that some sizes lack says which have it.
Never: a step that the method does not have, or a piece by another name than its cutting.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from patchwright.methods.method import Stage
from patchwright.methods.registry import BY_NAME
from patchwright.planning.plan import PlannedSize, PlannedUnit, UnitSize
from patchwright.planning.pressing.in_stages import pressed_in
from patchwright.planning.pressing.terms import Owner
from patchwright.typesetting.booklet import Block, Figure, Inline, Paragraph, Step, Strong, Words
from patchwright.typesetting.content.pressing import has_heavy_points, rows_nest_words, stage_press_words
from patchwright.typesetting.content.pressing_remarks import advice_of, heavy_words
from patchwright.typesetting.content.scope import Scope, as_inlines, each, mark, words

ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth")
"""By which a method's words name the pieces of a stage."""
MOST_STAGES = 60
_Name = tuple[str, int]
"""A stage's key and how many stages before it have the same."""


@dataclass(frozen=True, slots=True)
class ToldStage:
    """One stage, in the covered sizes that have it, and which of the stages of its kind it is, from 0."""

    by_size: tuple[Stage | None, ...]
    place: int

    @property
    def stage(self) -> Stage:
        return next(stage for stage in self.by_size if stage is not None)


def told_stages(scope: Scope, unit: PlannedUnit) -> tuple[ToldStage, ...]:
    """The ordered union of the stages of all covered sizes."""
    lists = each(scope.here(unit.sizes), lambda size: _named(BY_NAME[unit.method].stages(size.request, size.recipe)))
    order: list[_Name] = []
    for stages in lists:
        place = 0
        for name in stages or {}:
            if name not in order:
                order.insert(place, name)
            place = order.index(name) + 1
    kinds: Counter[str] = Counter()
    told: list[ToldStage] = []
    for name in order:
        by_size = tuple(None if stages is None else stages.get(name) for stages in lists)
        kind = next(stage.kind for stage in by_size if stage is not None)
        told.append(ToldStage(by_size, kinds[kind]))
        kinds[kind] += 1
    return tuple(told)


def unit_steps(scope: Scope, unit: PlannedUnit, alike: Sequence[PlannedUnit]) -> list[Block]:
    """A step for each stage; the last one says what the unit measures.

    `alike` are the units that are made by these steps, this one among them.
    """
    blocks: list[Block] = list(scope.figure_if(f"unit-{unit.id}-pieces"))
    stages = told_stages(scope, unit)
    heavy = _heavy_stage(scope, unit, stages)
    for number, told in enumerate(stages, 1):
        names = scope.names_with(told.by_size) if _is_partial(scope, unit, told) else ()
        said, shown = _piled_up(scope, unit, alike) if number == heavy else ((), ())
        # All words stand before the drawings, so that a step reads alike whatever stands beside it.
        body: tuple[Block, ...] = (
            *_paragraphs(scope, unit, told), *said, *stage_figures(scope, unit, told), *shown
        )
        blocks.append(Step(f"step-unit-{unit.id}-{number}", number, body, names))
    return blocks


def _heavy_stage(scope: Scope, unit: PlannedUnit, stages: tuple[ToldStage, ...]) -> int:
    """The number of the last step that presses a seam on which many others meet; 0 where none does."""
    lines = {point.line for point in scope.pressing.heavy if point.line.owner == Owner("unit", unit.id)}
    pressed = pressed_in(scope.pressing.seams_of("unit", unit.id), [told.stage for told in stages])
    return max(
        (number for number, seams in enumerate(pressed, 1) if any(seam.pressed.seam in lines for seam in seams)),
        default=0,
    )


def _piled_up(
    scope: Scope, unit: PlannedUnit, alike: Sequence[PlannedUnit]
) -> tuple[tuple[Block, ...], tuple[Block, ...]]:
    """What to do where many seams meet in a point, with a map of the places.

    It is told for all units together of which it is the same.
    """
    own = advice_of(scope, Owner("unit", unit.id))
    owners = [owner for other in alike if advice_of(scope, owner := Owner("unit", other.id)) == own]
    text = heavy_words(scope, *owners)
    if not text:
        return (), ()
    shown = scope.figure_if(f"pressing-unit-{unit.id}") if has_heavy_points(scope, unit) else ()
    return (Paragraph(words(text)),), shown


def stage_figures(scope: Scope, unit: PlannedUnit, told: ToldStage) -> tuple[Figure, ...]:
    """The drawing of a stage: of all drawings of its kind the one at its place, whatever their numbers.

    Drawings show one size and may lack a stage that only another size has.
    """
    kind = told.stage.kind
    drawn = [id for number in range(1, MOST_STAGES + 1) if (id := f"unit-{unit.id}-{number}-{kind}") in scope.figures]
    return (scope.figure(drawn[told.place]),) if told.place < len(drawn) else ()


def _named(stages: tuple[Stage, ...]) -> dict[_Name, Stage]:
    seen: Counter[str] = Counter()
    named: dict[_Name, Stage] = {}
    for stage in stages:
        named[stage.key, seen[stage.key]] = stage
        seen[stage.key] += 1
    return named


def _is_partial(scope: Scope, unit: PlannedUnit, told: ToldStage) -> bool:
    """Whether a size that has the unit lacks this stage."""
    pairs = zip(scope.here(unit.sizes), told.by_size, strict=True)
    return any(size is not None and stage is None for size, stage in pairs)


def _paragraphs(scope: Scope, unit: PlannedUnit, told: ToldStage) -> list[Paragraph]:
    """The stage's words once, or once for each group of sizes whose lengths or pieces differ."""
    alike: dict[tuple[Inline, ...], list[tuple[PlannedSize, UnitSize, Stage]]] = {}
    for planned, size, stage in zip(scope.here(unit.sizes), scope.sizes, told.by_size, strict=True):
        if planned is not None and stage is not None:
            alike.setdefault(stage_words(scope, unit, planned, stage, sets=""), []).append((size, planned, stage))
    said: dict[tuple[Inline, ...], list[str]] = {}
    for group in alike.values():
        _, planned, stage = group[0]
        sets = scope.by_size_inline(
            tuple((size.label, own.batches) for size, own, _ in group), scope.wording.number
        )
        said[stage_words(scope, unit, planned, stage, sets)] = [size.name for size, _, _ in group]
    role: Literal["measure", "body"] = "measure" if told.stage.kind == "finished" else "body"
    if len(said) == 1 and not _is_partial(scope, unit, told):
        return [Paragraph(next(iter(said)), role)]
    return [Paragraph(_for(scope, names, text), role, tuple(names)) for text, names in said.items()]


def _for(scope: Scope, names: list[str], said: tuple[Inline, ...]) -> tuple[Inline, ...]:
    labels = scope.wording.listed_text([size.label for size in scope.sizes if size.name in names])
    return as_inlines((Strong((Words(scope.say("for-sizes", sizes=labels)),)), " ", said))


def stage_words(
    scope: Scope, unit: PlannedUnit, size: UnitSize, stage: Stage, sets: str | None = None
) -> tuple[Inline, ...]:
    """What a stage's words may name: its pieces in order, its lengths, and how many there are afterwards.

    How many strip sets it takes may be given for several sizes together.
    """
    one = scope.wording.number(1)
    sets = scope.wording.number(size.batches) if sets is None else sets
    served = {piece.recipe_piece: piece.piece for piece in unit.pieces}
    named = {
        ordinal: scope.inlines("part.one", piece=mark(served[piece]), noun=_noun(scope, unit, piece))
        for ordinal, piece in zip(ORDINALS, stage.pieces, strict=False)
    }
    lengths = {"width": size.unfinished[0].length, "height": size.unfinished[1].length, **dict(stage.lengths)}
    taken = scope.listed(_taken(scope, unit, stage)) if stage.pieces else ()
    gives = stage.gives or size.recipe.batch
    return scope.inlines(
        stage.key, **lengths, **named, taken=taken, gives=gives, sets=sets, batches=1 if sets == one else 2,
        press=stage_press_words(scope, unit, stage), nest=rows_nest_words(scope, unit),
    )


def _taken(scope: Scope, unit: PlannedUnit, stage: Stage) -> list[tuple[Inline, ...]]:
    """The stage's pieces with their counts, each once."""
    served = {piece.recipe_piece: piece.piece for piece in unit.pieces}
    counts = Counter(served[piece] for piece in stage.pieces)
    nouns = {served[piece]: piece for piece in stage.pieces}
    return [
        scope.inlines("part.piece", count=count, piece=mark(piece), noun=_noun(scope, unit, nouns[piece], count))
        for piece, count in counts.items()
    ]


def _noun(scope: Scope, unit: PlannedUnit, piece: str, count: int = 1) -> str:
    """The method's word for one of its pieces; `corner-ne` and `log-7` look under `corner` and `log`."""
    own = f"{unit.method}.piece.{piece}"
    return scope.say(own if scope.wording.has(own) else f"{unit.method}.piece.{piece.partition('-')[0]}", count=count)
