"""Small patterns for tests: a base text, fragments laid over it, and the real passes as far as the plan."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

from patchwright.core.codes import laid_over
from patchwright.core.diagnostics import Diagnostic
from patchwright.core.geometry import double_area
from patchwright.core.length import Length
from patchwright.core.source import Source
from patchwright.design.design import Design
from patchwright.design.resolve import make_design
from patchwright.dialect.parse import read_house, read_pattern
from patchwright.methods.registry import BY_NAME
from patchwright.planning.build import make_plan
from patchwright.planning.laying import Effort
from patchwright.planning.plan import FabricSize, Piece, PieceSize, Plan, PlannedUnit, UnitSize
from patchwright.planning.verify import verify

PATTERNS = Path(__file__).parent.parent / "patterns"

BASE = """\
dialect: 1
pattern: Sample
release: 1
lengths: inches
fabrics:
  red: {color: a9482f}
  cream: {color: ece7db}
blocks:
  one: {cell: 3 in, rows: [[red]]}
quilt:
  arrange: [[one]]
sizes:
  only: {across: 2, down: 2}
"""

PLAIN_PRACTICE = """\
house:
  inches:
    straightening: 0 in
    usable-width: 40 in
    round-yardage: [1/8 yd]
"""
"""Nothing for straightening, 40 inches of width, lengths by the eighth of a yard."""


class CannotCompileError(ValueError):
    """A pattern of the tests that the passes refuse."""


def sample(fragment: str = "") -> str:
    """The base pattern with the top-level keys of a fragment in place of its own."""
    return laid_over(fragment, BASE)


def read(text: str, house: str = "") -> tuple[Design | None, tuple[Diagnostic, ...]]:
    """Text → Design, with everything that was found on the way."""
    declared, found = read_pattern(Source("sample.yaml", text))
    rules = None
    if house:
        rules, of_house = read_house(Source("house.yaml", house))
        found += of_house
    if declared is None or any(item.severity == "error" for item in found):
        return None, found
    design, of_design = make_design(declared, rules, "sample")
    return design, found + of_design


def compile_text(
    text: str, house: str = "", effort: Effort = "plain"
) -> tuple[Plan | None, tuple[Diagnostic, ...]]:
    """Text → Plan, with everything that was found on the way."""
    design, found = read(text, house)
    if design is None:
        return None, found
    plan, of_plan = make_plan(design, effort)
    return plan, found + of_plan


def design_of(text: str, house: str = "") -> Design:
    design, found = read(text, house)
    if design is None:
        raise CannotCompileError(found)
    return design


def plan_of(text: str, house: str = "", effort: Effort = "plain") -> Plan:
    """The plan of a good pattern, which adds up."""
    plan, found = compile_text(text, house, effort)
    if plan is None:
        raise CannotCompileError(found)
    faults = verify(plan)
    if faults:
        raise CannotCompileError(faults)
    return plan


def plan_of_file(name: str, effort: Effort = "plain") -> Plan:
    """The plan of a pattern in `tests/patterns`."""
    return plan_of((PATTERNS / f"{name}.yaml").read_text(encoding="utf-8"), effort=effort)


def errors(text: str, house: str = "") -> list[Diagnostic]:
    return [item for item in compile_text(text, house)[1] if item.severity == "error"]


def codes(text: str, house: str = "") -> list[str]:
    """The codes of all diagnostics of a pattern."""
    return [item.code for item in compile_text(text, house)[1]]


def lengths(*texts: str) -> tuple[Length, ...]:
    """Lengths written as authors do: `2 1/2`."""
    return tuple(Length(sum((Fraction(part) for part in text.split()), Fraction(0))) for text in texts)


def piece_size(piece: Piece, index: int = 0) -> PieceSize:
    size = piece.sizes[index]
    if size is None:
        raise LookupError(piece.id)
    return size


def unit_size(unit: PlannedUnit, index: int = 0) -> UnitSize:
    size = unit.sizes[index]
    if size is None:
        raise LookupError(unit.id)
    return size


def unit(plan: Plan, unit_id: str) -> PlannedUnit:
    return next(made for made in plan.units if made.id == unit_id)


def cloth(plan: Plan, fabric: str, index: int = 0) -> FabricSize:
    size = next(known for known in plan.fabrics if known.id == fabric).sizes[index]
    if size is None:
        raise LookupError(fabric)
    return size


def bought(plan: Plan, fabric: str, index: int = 0) -> Fraction:
    """How much of a fabric is bought, in yards or meters."""
    buy = cloth(plan, fabric, index).buy
    return buy.amount if buy is not None else Fraction(0)


def cuts(plan: Plan, use: str = "", index: int = 0) -> Counter[tuple[str, str, str]]:
    """(fabric, width, height) of all pieces with their needs, or only of those for one use."""
    made: Counter[tuple[str, str, str]] = Counter()
    for piece in plan.pieces:
        size = piece.sizes[index]
        if size is not None and (not use or use in piece.uses):
            made[piece.fabric, str(size.width), str(size.height)] += size.need
    return made


def cut_sides(plan: Plan, fabric: str, index: int = 0) -> set[tuple[Length, ...]]:
    """The cut sizes of a fabric's pieces, the shorter side first."""
    return {
        tuple(sorted((size.width.length, size.height.length)))
        for piece in plan.pieces if piece.fabric == fabric and (size := piece.sizes[index]) is not None
    }


def drawn_areas(plan: Plan, index: int = 0) -> dict[str, Length]:
    """The finished area of every fabric in the top, added up over all patches of the drawing."""
    areas: dict[str, Length] = {}
    pieces = {piece.id: piece for piece in plan.pieces}
    seams = plan.rules.seam * 2
    for kind, ref in _leaves(plan, index):
        if kind == "piece":
            size = piece_size(pieces[ref], index)
            area = (size.width.length - seams) * (size.height.length - seams)
            areas[pieces[ref].fabric] = areas.get(pieces[ref].fabric, Length()) + area
            continue
        made = unit(plan, ref)
        fabrics = dict(made.fabrics)
        for patch in BY_NAME[made.method].patches(unit_size(made, index).request):
            fabric = fabrics.get(patch.role, "")
            areas[fabric] = areas.get(fabric, Length()) + double_area(patch.outline) / 2
    return areas


def _leaves(plan: Plan, index: int) -> Iterator[tuple[str, str]]:
    """(kind, id) of every piece and unit of the top, as often as it is drawn."""
    assemblies = {assembly.id: assembly for assembly in plan.assemblies}
    waiting = [(item.kind, item.ref) for item in plan.sizes[index].items]
    while waiting:
        kind, ref = waiting.pop()
        if kind != "assembly":
            yield kind, ref
            continue
        waiting += [(placed.kind, placed.ref) for line in assemblies[ref].lines for placed in line]
