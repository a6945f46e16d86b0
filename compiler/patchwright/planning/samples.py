"""Samples for a class: one at every stage of every unit and block, what they take, and what they leave over.

In: a plan and a size.
Out: `ClassPlan`: batches for the samples of each unit, blocks for those of each block, pieces, and extra cloth.
Never: cloth by area; it is laid out like that of a quilt.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import lcm

from patchwright.core.length import ZERO
from patchwright.methods.method import Stage
from patchwright.methods.registry import BY_NAME
from patchwright.planning import cutting
from patchwright.planning.cloth import Flat, plan_cloth
from patchwright.planning.plan import Assembly, Buy, Plan, PlannedFabric, PlannedUnit, UnitSize


@dataclass(frozen=True, slots=True)
class UnitSamples:
    """The samples of one unit, one at each stage."""

    unit: str
    stages: tuple[Stage, ...]
    batches: int
    """Batches to cut: before its batch is cut apart a sample takes all of it, and afterwards its own part."""
    spare: int
    """Units that can be made of what is left over."""


@dataclass(frozen=True, slots=True)
class BlockSamples:
    """The samples of one block: laid out, its rows (or columns) sewn, and joined."""

    assembly: str
    stages: tuple[str, ...]
    """`laid-out`, `sewn`, `joined`."""


@dataclass(frozen=True, slots=True)
class SampleCloth:
    """What the samples take of one fabric, beside the quilt."""

    fabric: str
    buy: Buy | None
    precuts: int
    """Precuts, where the fabric is cut from them; 0 for yardage."""


@dataclass(frozen=True, slots=True)
class ClassPlan:
    """Everything to prepare for a class; what is pressed in two ways is shown in the first."""

    units: tuple[UnitSamples, ...]
    blocks: tuple[BlockSamples, ...]
    pieces: tuple[tuple[str, int], ...]
    """(piece, count), in the order of the plan's pieces."""
    cloth: tuple[SampleCloth, ...]


def plan_class(plan: Plan, index: int) -> ClassPlan:
    """The samples of one size."""
    units = tuple(
        unit_samples(unit, own)
        for unit in plan.units if not unit.second_of and (own := unit.sizes[index]) is not None
    )
    blocks = tuple(_block_samples(plan, index))
    need = _pieces(plan, index, units, blocks)
    order = tuple((piece.id, need[piece.id]) for piece in plan.pieces if need[piece.id])
    return ClassPlan(units, blocks, order, tuple(_cloth(plan, index, need)))


def unit_samples(unit: PlannedUnit, size: UnitSize) -> UnitSamples:
    """Count the batches for one sample at each stage.

    When a batch has been cut apart into several things, a sample of a later stage takes one of them.
    """
    recipe = size.recipe
    stages = tuple(
        stage for stage in BY_NAME[unit.method].stages(size.request, recipe) if stage.kind != "finished"
    )
    taken, things = Fraction(0), 1
    for stage in stages:
        things = max(things, stage.gives)
        taken += Fraction(1, things)
    batches = -(-taken.numerator // taken.denominator)
    return UnitSamples(unit.id, stages, batches, int((batches - taken) * recipe.batch))


def _block_samples(plan: Plan, index: int) -> Iterator[BlockSamples]:
    for assembly in plan.assemblies:
        parts = sum(len(line) for line in assembly.lines)
        if assembly.sizes[index] is not None and parts > 1 and not assembly.second_of:
            lines = len(assembly.lines) > 1 and any(len(line) > 1 for line in assembly.lines)
            yield BlockSamples(assembly.id, ("laid-out", "sewn", "joined") if lines else ("laid-out", "joined"))


def _pieces(
    plan: Plan, index: int, units: tuple[UnitSamples, ...], blocks: tuple[BlockSamples, ...]
) -> Counter[str]:
    """How many of each piece all samples take; units in blocks are made in whole batches of their own."""
    by_id = {assembly.id: assembly for assembly in plan.assemblies}
    need: Counter[str] = Counter()
    made: Counter[str] = Counter()
    for samples in blocks:
        for (kind, ref), count in _parts(by_id, by_id[samples.assembly]).items():
            (need if kind == "piece" else made)[ref] += count * len(samples.stages)
    batches = Counter({samples.unit: samples.batches for samples in units})
    for unit in plan.units:
        own = unit.sizes[index]
        if own is not None:
            count = batches[unit.id] + -(-made[unit.id] // own.recipe.batch)
            for part in unit.pieces:
                need[part.piece] += count * part.per_batch
    return need


def _parts(by_id: Mapping[str, Assembly], assembly: Assembly) -> Counter[tuple[str, str]]:
    """The pieces and units of one block, inner blocks included."""
    found: Counter[tuple[str, str]] = Counter()
    for line in assembly.lines:
        for part in line:
            if part.kind == "assembly":
                found += _parts(by_id, by_id[part.ref])
            else:
                found[part.kind, part.ref] += 1
    return found


def _cloth(plan: Plan, index: int, need: Mapping[str, int]) -> Iterator[SampleCloth]:
    for fabric in plan.fabrics:
        flats = tuple(
            Flat(piece.id, size.width.length, size.height.length, need[piece.id], not piece.upright)
            for piece in plan.pieces
            if piece.fabric == fabric.id and need[piece.id] and (size := piece.sizes[index]) is not None
        )
        if not flats:
            continue
        if fabric.source.pack:
            yield SampleCloth(fabric.id, None, _precuts(fabric, flats))
        else:
            made = plan_cloth(flats, (), fabric.source.size[0], ZERO, plan.rules, cutting.best)
            yield SampleCloth(fabric.id, made.buy, 0)


def _precuts(fabric: PlannedFabric, flats: tuple[Flat, ...]) -> int:
    """The fewest precuts from which a fabric's samples can be cut, whatever their prints."""
    width, height = fabric.source.size
    lengths = [width, height, *(side for flat in flats for side in (flat.width, flat.height))]
    grid = lcm(*(length.rational().denominator for length in lengths))
    problem = cutting.PackProblem(
        int(width.rational() * grid), int(height.rational() * grid),
        tuple(
            cutting.SheetPiece(
                flat.piece, int(flat.width.rational() * grid), int(flat.height.rational() * grid), flat.turn
            )
            for flat in flats
        ),
        (cutting.Pile("all", sum(flat.count for flat in flats)),), (),
        tuple(cutting.Loose(flat.piece, flat.count) for flat in flats),
    )
    return cutting.plan_pack(problem).needed
