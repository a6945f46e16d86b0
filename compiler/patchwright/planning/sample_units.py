"""Samples of units for a class: one at every stage, and what they take.

In: a planned unit in one size.
Out: `UnitSamples`: its stages, batches for them, and what is left over.
Rule: before a batch is cut apart a sample takes all of it, and afterwards one of its things; what is laid together
again is taken whole. Samples of strip sets are short: long enough for a unit or two, not for the quilt.
Never: a sample of a unit that is not sewn.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise
from math import ceil, floor

from patchwright.core.length import Cut
from patchwright.methods.method import Recipe, Request, Stage
from patchwright.methods.registry import BY_NAME
from patchwright.methods.strip_set import AS_NEEDED
from patchwright.planning.plan import Plan, PlannedUnit, UnitSize

_SHOWN = 2
"""Segments that are cut at least from a sample of a strip set, so that one sees it being cut."""


@dataclass(frozen=True, slots=True)
class SamplePiece:
    """A piece to cut for samples, cut sizes as on the cloth; strips are shorter than those of the quilt."""

    piece: str
    width: Cut
    height: Cut
    count: int


@dataclass(frozen=True, slots=True)
class UnitSamples:
    """The samples of one unit, one at each stage."""

    unit: str
    stages: tuple[Stage, ...]
    made: UnitSize
    """How the samples are made: as in the quilt, but for shorter strip sets."""
    batches: int
    spare: int
    """Units that can be made of what is left over."""
    second: str = ""
    """The unit pressed the second of two ways, of which there is one sample more, at the stage that presses."""

    @property
    def count(self) -> int:
        return len(self.stages) + bool(self.second)


def unit_samples(plan: Plan, index: int) -> Iterator[UnitSamples]:
    """The samples of all units of a size that are sewn; what is pressed in two ways once, with one sample more."""
    for unit in _in_order(plan):
        size = unit.sizes[index]
        if size is None or unit.second_of:
            continue
        second = next((own.id for own in plan.units if own.second_of == unit.id and own.sizes[index] is not None), "")
        made = _as_sample(unit, size)
        stages = tuple(
            stage for stage in BY_NAME[unit.method].stages(made.request, made.recipe) if not stage.only_measures
        )
        if stages and is_strips(unit, size):
            batches, spare = len({stage.key for stage in stages}) + bool(second), 0
            yield UnitSamples(unit.id, stages, made, batches, spare, second)
        elif stages:
            parts = [stage.apart for stage in stages]
            parts += [_pressing(stages).apart] if second else []
            yield UnitSamples(unit.id, stages, made, *count_batches(parts, size.recipe.batch), second)


def _in_order(plan: Plan) -> list[PlannedUnit]:
    """The plan's units, each before its mirror image and what is turned."""
    first: dict[tuple[object, ...], int] = {}
    for number, unit in enumerate(plan.units):
        first.setdefault((unit.name, unit.method, unit.how, unit.fabrics), number)
    return sorted(
        plan.units,
        key=lambda unit: (first[unit.name, unit.method, unit.how, unit.fabrics], unit.hand == "reversed", unit.turn),
    )


def count_batches(parts: Sequence[int], batch: int) -> tuple[int, int]:
    """Batches for samples that take one of so many things of a batch each, in order, and units to make of the rest.

    Where there are fewer things again, since some are laid together, whole groups of them go on.
    """
    runs = [[parts[0]]]
    for before, after in pairwise(parts):
        if after < before:
            runs.append([])
        runs[-1].append(after)
    taken = spare = Fraction(0)
    for run in reversed(runs):
        need = taken + sum(Fraction(1, part) for part in run)
        taken = Fraction(ceil(need * run[0]), run[0])
        spare += taken - need if run is runs[-1] else 0
    batches = ceil(taken)
    # What is left before the last time that things are laid together goes on in whole groups too.
    group = runs[-1][0] if len(runs) > 1 else batch
    spare += Fraction(floor((batches - taken) * group), group)
    return batches, int(spare * batch)


def unit_pieces(unit: PlannedUnit, size: UnitSize, plan: Plan, index: int, more: int) -> Iterator[SamplePiece]:
    """What to cut for so many units beside the samples, in whole batches; strip sets are as long as these take."""
    if not more:
        return
    if is_strips(unit, size):
        runs = -(-more // size.recipe.batch)
        made = strips_for(unit, size, -(-more // runs))
        yield from recipe_pieces(unit, made.recipe, runs)
        return
    batches = -(-more // size.recipe.batch)
    yield from batch_pieces(unit, plan, index, batches)


def sample_pieces(unit: PlannedUnit, samples: UnitSamples, plan: Plan, index: int) -> Iterator[SamplePiece]:
    """What to cut for the samples of a unit."""
    size = unit.sizes[index]
    if size is not None and is_strips(unit, size):
        yield from recipe_pieces(unit, samples.made.recipe, samples.batches)
    else:
        yield from batch_pieces(unit, plan, index, samples.batches)


def batch_pieces(unit: PlannedUnit, plan: Plan, index: int, batches: int) -> Iterator[SamplePiece]:
    sizes = {piece.id: piece.sizes[index] for piece in plan.pieces}
    for part in unit.pieces:
        own = sizes[part.piece]
        if own is not None:
            yield SamplePiece(part.piece, own.width, own.height, batches * part.per_batch)


def recipe_pieces(unit: PlannedUnit, recipe: Recipe, batches: int) -> Iterator[SamplePiece]:
    served = {part.recipe_piece: part.piece for part in unit.pieces}
    for piece in recipe.pieces:
        yield SamplePiece(served[piece.id], piece.width, piece.height, batches * piece.per_batch)


def is_strips(unit: PlannedUnit, size: UnitSize) -> bool:
    """Whether a unit is cut from strip sets."""
    return size.recipe.how == "strips" and BY_NAME[unit.method].strip_sets is not None


def strips_for(unit: PlannedUnit, size: UnitSize, units: int) -> UnitSize:
    """One run of strip sets that gives so many units, no more than one of the quilt's does."""
    words = tuple((key, AS_NEEDED if key == "segments" else word) for key, word in size.request.words)
    if size.request.strips is None:
        return size
    request: Request = replace(
        size.request, words=words, strips=replace(size.request.strips, units=min(units, size.recipe.batch))
    )
    return replace(size, request=request, recipe=BY_NAME[unit.method].recipe(request), batches=1)


def _as_sample(unit: PlannedUnit, size: UnitSize) -> UnitSize:
    if not is_strips(unit, size):
        return size
    made = strips_for(unit, size, 1)
    stages = BY_NAME[unit.method].stages(made.request, made.recipe)
    cuts = [stage.gives for stage in stages if stage.kind == "cut-apart"]
    return made if min(cuts) >= _SHOWN else strips_for(unit, size, _SHOWN)


def _pressing(stages: Sequence[Stage]) -> Stage:
    """The stage at which a unit is pressed: the last that presses, or else sews, or the last of all."""
    for kind in ("press", "sew"):
        found = [stage for stage in stages if stage.kind == kind]
        if found:
            return found[-1]
    return stages[-1]
