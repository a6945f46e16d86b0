"""Samples for a class: one at every stage of units, blocks and top, what they take, and what is left over.

In: a plan and a size.
Out: `ClassPlan`: batches for the samples of each unit, blocks for those of each block, pieces, and extra cloth.
Never: cloth by area; it is laid out like that of a quilt.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import lcm

from patchwright.core.length import ZERO, Cut
from patchwright.planning import cutting
from patchwright.planning.cloth import Flat, plan_cloth
from patchwright.planning.plan import Assembly, Buy, Plan, PlannedFabric
from patchwright.planning.sample_tops import TopSamples, top_samples
from patchwright.planning.sample_units import SamplePiece, UnitSamples, sample_pieces, unit_pieces, unit_samples


@dataclass(frozen=True, slots=True)
class BlockSamples:
    """The samples of one block: laid out, its rows (or columns) sewn, and joined."""

    assembly: str
    stages: tuple[str, ...]
    """`laid-out`, `sewn`, `joined`; `among` where the joined one is a part of a larger block that is laid out."""
    among: str = ""
    """That larger block."""
    second: str = ""
    """The block pressed the second of two ways, of which there is one more, joined."""

    @property
    def taken(self) -> int:
        """Blocks of which all parts are needed, the one pressed the second way apart."""
        return len(self.stages) - ("among" in self.stages)

    @property
    def count(self) -> int:
        return len(self.stages) + bool(self.second)


@dataclass(frozen=True, slots=True)
class SampleCloth:
    """What the samples take of one fabric, beside the quilt."""

    fabric: str
    buy: Buy | None
    precuts: int
    """Precuts, where the fabric is cut from them; 0 for yardage."""


@dataclass(frozen=True, slots=True)
class ClassPlan:
    """Everything to prepare for a class, in the order of showing."""

    units: tuple[UnitSamples, ...]
    blocks: tuple[BlockSamples, ...]
    top: TopSamples | None
    pieces: tuple[SamplePiece, ...]
    """In the order of the plan's pieces; strips of several lengths apart, the shortest first."""
    cloth: tuple[SampleCloth, ...]


def plan_class(plan: Plan, index: int) -> ClassPlan:
    """The samples of one size."""
    units, blocks = tuple(unit_samples(plan, index)), tuple(_block_samples(plan, index))
    top = top_samples(plan, plan.sizes[index])
    pieces = _pieces(plan, index, units, blocks, top)
    return ClassPlan(units, blocks, top, pieces, tuple(_cloth(plan, pieces)))


def _block_samples(plan: Plan, index: int) -> Iterator[BlockSamples]:
    here = [own for own in plan.assemblies if own.sizes[index] is not None]
    shown = [own for own in here if not own.second_of and sum(map(len, own.lines)) > 1]
    for assembly in shown:
        lines = len(assembly.lines) > 1 and any(len(line) > 1 for line in assembly.lines)
        stages = ("laid-out", "sewn") if lines else ("laid-out",)
        among = next(
            (own.id for own in shown if any(part.ref == assembly.id for line in own.lines for part in line)), ""
        )
        second = next((own.id for own in here if own.second_of == assembly.id), "")
        yield BlockSamples(assembly.id, (*stages, "among" if among else "joined"), among, second)


def _pieces(
    plan: Plan, index: int, units: Sequence[UnitSamples], blocks: Sequence[BlockSamples], top: TopSamples | None
) -> tuple[SamplePiece, ...]:
    """How many of each piece all samples take; units in blocks are made in whole batches of their own."""
    by_id = {assembly.id: assembly for assembly in plan.assemblies}
    need: Counter[tuple[str, str]] = Counter()
    wanted = Counter(dict(top.parts)) if top is not None else Counter[str]()
    for samples in blocks:
        wanted[samples.assembly] += samples.taken
        wanted.update([samples.second] if samples.second else [])
    for ref, count in wanted.items():
        parts = _parts(by_id, by_id[ref]) if ref in by_id else Counter({("piece", ref): 1})
        for key, each in parts.items():
            need[key] += each * count
    found: Counter[tuple[int, Cut, Cut]] = Counter()
    order = {piece.id: number for number, piece in enumerate(plan.pieces)}
    for cut in _cut(plan, index, {samples.unit: samples for samples in units}, need):
        found[order[cut.piece], cut.width, cut.height] += cut.count
    return tuple(
        SamplePiece(plan.pieces[number].id, width, height, found[number, width, height])
        for number, width, height in sorted(found)
    )


def _cut(
    plan: Plan, index: int, units: Mapping[str, UnitSamples], need: Mapping[tuple[str, str], int]
) -> Iterator[SamplePiece]:
    """What to cut for the samples of units, for the units in blocks, and for the pieces in blocks and the top."""
    for unit in plan.units:
        size = unit.sizes[index]
        if size is not None:
            if unit.id in units:
                yield from sample_pieces(unit, units[unit.id], plan, index)
            yield from unit_pieces(unit, size, plan, index, need.get(("unit", unit.id), 0))
    for piece in plan.pieces:
        own, count = piece.sizes[index], need.get(("piece", piece.id), 0)
        if own is not None and count:
            yield SamplePiece(piece.id, own.width, own.height, count)


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


def _cloth(plan: Plan, cuts: Sequence[SamplePiece]) -> Iterator[SampleCloth]:
    pieces = {piece.id: piece for piece in plan.pieces}
    for fabric in plan.fabrics:
        flats = tuple(
            Flat(f"{cut.piece}:{number}", cut.width.length, cut.height.length, cut.count, not pieces[cut.piece].upright)
            for number, cut in enumerate(cuts) if pieces[cut.piece].fabric == fabric.id
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
