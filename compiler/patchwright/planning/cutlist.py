"""A bare list of pieces → a cutting plan, in exact lengths.

In: a declared list.
Out: `ListPlan`, and every mistake in the list.
Never: a pattern, or a rounded piece.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from patchwright.core.diagnostics import Findings
from patchwright.core.length import ZERO, Cut, Finished, Length, Unfinished
from patchwright.core.measure import System
from patchwright.core.source import Span
from patchwright.design.design import Pack
from patchwright.design.house import native_length, native_pair
from patchwright.design.rules import Rules
from patchwright.dialect.cutlist import CutListDeclaration
from patchwright.dialect.scalars import LengthText
from patchwright.planning import cutting
from patchwright.planning.cloth import ClothPlan, Flat, Long, TooWide, plan_cloth
from patchwright.planning.packs import PackTooSmall, PackUse, Wanted, plan_precuts
from patchwright.planning.plan import (
    FabricSize,
    FabricSource,
    Piece,
    PieceSize,
    Plan,
    PlannedBatting,
    PlannedFabric,
    PlannedSize,
    Precuts,
    Strip,
)

MOST_PIECES = 100_000


@dataclass(frozen=True, slots=True)
class _ListRules:
    """How the cloth of a list is bought."""

    system: System
    round_yardage: tuple[Length, ...]
    straightening: Length
    shrinkage: Fraction


@dataclass(frozen=True, slots=True)
class ListPlan:
    """What a list comes to: strips of cloth, or precuts."""

    name: str
    system: System
    width: Length
    height: Length
    """Of a precut; 0 for cloth."""
    step: Length
    pieces: tuple[Flat, ...]
    longs: tuple[Long, ...]
    cloth: ClothPlan | None
    precuts: PackUse | None


def plan_list(declared: CutListDeclaration, number: int, findings: Findings) -> ListPlan | None:
    """Plan one list; report what cannot be cut."""
    system: System = "cm" if declared.lengths == "centimeters" else "in"
    turn = declared.turn not in ("no", "false")
    name = declared.name.text if declared.name is not None else f"list {number}"
    if (declared.width is None) == (declared.precut is None):
        findings.error(
            "missing-key", f"`{name}` needs either `width` or `precut`", declared.span,
            "give `width` for cloth, or `precut` with the size of precut pieces",
        )
        return None
    flats = _flats(declared, system, turn, findings)
    longs = _longs(declared, system, findings)
    if findings.has_errors:
        return None
    if not flats and not longs:
        findings.error("no-entries", f"`{name}` asks for no pieces", declared.span, "give `items` or `join`")
        return None
    try:
        if declared.width is not None:
            return _on_cloth(declared, name, system, flats, longs, findings)
        return _on_precuts(declared, name, system, flats, findings)
    except TooWide as fault:
        _refuse(declared, fault, findings)
    except PackTooSmall as fault:
        findings.error("pack-not-enough", f"`{name}`: {fault.needed} needed", declared.span, "get more precuts")
    return None


def _flats(declared: CutListDeclaration, system: System, turn: bool, findings: Findings) -> tuple[Flat, ...]:
    made = []
    for index, row in enumerate(declared.items, 1):
        if _is_row(row, "a piece is [width, height, count]", findings):
            width, height = (native_length(text, system, findings) for text in row[:2])
            count = row[2].measure.value
            sides = min(width, height) > ZERO
            if not sides or count.denominator != 1 or not 0 < count <= MOST_PIECES:
                findings.error(
                    "size-out-of-range", f"[{', '.join(text.text for text in row)}] is not a piece", row[0].span,
                    f"sides are above zero, counts whole numbers up to {MOST_PIECES}",
                )
                continue
            made.append(Flat(f"A{index}", width, height, int(count), turn))
    return tuple(made)


def _longs(declared: CutListDeclaration, system: System, findings: Findings) -> tuple[Long, ...]:
    made = []
    for index, row in enumerate(declared.join, 1):
        if _is_row(row, "a joined strip is [height, total length, loss at each join]", findings):
            height, total, loss = (native_length(text, system, findings) for text in row)
            if min(height, total) <= ZERO:
                findings.error("size-out-of-range", "a joined strip has a side of nothing", row[0].span)
                continue
            made.append(Long(f"A{len(declared.items) + index}", height, total, loss, False))
    return tuple(made)


def _is_row(row: list[LengthText], hint: str, findings: Findings) -> bool:
    if len(row) == 3:
        return True
    span = row[0].span if row else Span("", 0, 0, 0, 0)
    findings.error("wrong-shape", f"three numbers are expected here, not {len(row)}", span, hint)
    return False


def _on_cloth(
    declared: CutListDeclaration, name: str, system: System, flats: tuple[Flat, ...], longs: tuple[Long, ...],
    findings: Findings,
) -> ListPlan | None:
    width = native_length(declared.width, system, findings) if declared.width is not None else ZERO
    step = Length(Fraction(9, 2) if system == "in" else Fraction(10))
    if declared.step is not None:
        step = native_length(declared.step, system, findings)
    off = native_length(declared.straightening, system, findings) if declared.straightening is not None else ZERO
    if min(width, step) <= ZERO:
        findings.error("size-out-of-range", f"`{name}` has a width or step of nothing", declared.span)
    if findings.has_errors:
        return None
    plan = plan_cloth(flats, longs, width, ZERO, _ListRules(system, (step,), off, Fraction(0)), cutting.best)
    return ListPlan(name, system, width, ZERO, step, flats, longs, plan, None)


def _on_precuts(
    declared: CutListDeclaration, name: str, system: System, flats: tuple[Flat, ...], findings: Findings
) -> ListPlan | None:
    if declared.precut is None:
        return None
    sides = native_pair(declared.precut, system, findings)
    if min(sides) <= ZERO:
        findings.error("size-out-of-range", f"`{declared.precut.text}` has a side of nothing", declared.precut.span)
        return None
    width, height = max(sides), min(sides)
    count = declared.count.number if declared.count is not None else 0
    single = declared.count is None
    pack = Pack(name, "squares", width, height, width, height, count, max(1, count), single=single)
    use = plan_precuts(Wanted(flats, (), {flat.piece: "" for flat in flats}), pack)
    if declared.count is not None and use.packs > 1:
        findings.error(
            "pack-not-enough", f"`{name}` has {count} precuts, {use.needed} needed", declared.count.span,
            "get more precuts, or cut fewer pieces",
        )
        return None
    return ListPlan(name, system, width, height, ZERO, flats, (), None, use)


def _refuse(declared: CutListDeclaration, fault: TooWide, findings: Findings) -> None:
    row = [*declared.items, *declared.join][int(fault.piece[1:]) - 1]
    text = " x ".join(side.text for side in row[:2])
    findings.error(
        "piece-too-wide", f"the piece {text} does not fit the cloth", row[0].span,
        "cut it from wider cloth, allow it to be turned, or join it from strips",
    )


def as_plan(made: ListPlan, rules: Rules) -> Plan:
    """The list as a plan of one fabric and one size, for those who draw plans."""
    lengths = {flat.piece: (flat.width, flat.height, flat.count) for flat in made.pieces}
    lengths |= {long.piece: (long.total, long.height, 1) for long in made.longs}
    use, cloth = made.precuts, made.cloth
    pieces = tuple(
        Piece(id, "cloth", "none", "patch", ("cut",), False, (PieceSize(Cut(width), Cut(height), count, count, 0),))
        for id, (width, height, count) in lengths.items()
    )
    precuts = Precuts(use.used, use.packs, use.left, use.sheets) if use is not None else None
    own = FabricSize(
        strips=cloth.strips if cloth is not None else (), length=cloth.length if cloth is not None else ZERO, extra=(),
        buy=cloth.buy if cloth is not None else None,
        smallest_width=cloth.smallest_width if cloth is not None else None, precuts=precuts,
        proof=cloth.proof if cloth is not None else "", bound=cloth.bound if cloth is not None else ZERO,
    )
    source = FabricSource("yardage" if use is None else "squares", "", (made.width, made.height))
    fabric = PlannedFabric(
        "cloth", "A", made.name, ("#e9e2d0",), "light", 0, "none", source, "", ("cut",), (own,)
    )
    size = PlannedSize(
        name="list", label=made.name, across=1, down=1, finished=(Finished(1), Finished(1)),
        unfinished=(Unfinished(1), Unfinished(1)), center=(Unfinished(1), Unfinished(1)), columns=(Finished(1),),
        rows=(Finished(1),), items=(), sash_width=None, sash_frame=False, cornerstones=False, borders=(), binding=None,
        backing=None, batting=(Length(1), Length(1)), batting_bought=PlannedBatting(None, None), infant=False,
    )
    return Plan(
        id="list", title=made.name, release=1, summary="", skill="", system=made.system, rules=rules, packs=(),
        fabrics=(fabric,), pieces=pieces, units=(), assemblies=(), sizes=(size,), introduction=None, notes=(),
        finishing=None, about=None,
    )


def list_json(made: ListPlan) -> dict[str, Any]:
    """The numbers of a list: steps bought (`k`), length, their bounds, the kind of proof, strips or precuts."""
    shown: dict[str, Any] = {"name": made.name, "unit": made.system, "width": str(made.width)}
    shown["pieces"] = [
        {"piece": flat.piece, "cut": [str(flat.width), str(flat.height)], "count": flat.count} for flat in made.pieces
    ]
    shown["joined"] = [
        {"piece": long.piece, "height": str(long.height), "total": str(long.total), "loss": str(long.loss)}
        for long in made.longs
    ]
    if made.cloth is not None:
        cloth = made.cloth
        shown |= {
            "step": str(made.step), "k": cloth.step, "k-bound": cloth.step_bound, "length": str(cloth.length),
            "length-bound": str(cloth.bound), "proof": cloth.proof,
            "buy": {"amount": str(cloth.buy.amount), "unit": cloth.buy.unit} if cloth.buy is not None else None,
            "smallest-usable-width": str(cloth.smallest_width),
            "strips": [_strip_json(strip) for strip in cloth.strips],
            "joins": [{"piece": piece, "joins": joins} for piece, joins in cloth.joins.items()],
        }
    if made.precuts is not None:
        use = made.precuts
        shown |= {
            "height": str(made.height), "used": use.used, "needed": use.needed, "needed-bound": use.bound,
            "proof": use.proof, "left": use.left,
            "sheets": [
                {"count": sheet.count, "cuts": [
                    {"piece": piece, "x": str(x), "y": str(y), "width": str(width), "height": str(height)}
                    for piece, x, y, width, height in sheet.places
                ]}
                for sheet in use.sheets
            ],
            "scraps": [
                {"width": str(part.width), "height": str(part.height), "count": part.count} for part in use.scraps
            ],
        }
    return shown


def _strip_json(strip: Strip) -> dict[str, Any]:
    return {
        "height": str(strip.height), "count": strip.count, "used": str(strip.used),
        "cuts": [
            {"piece": part.piece, "each": part.each, "width": str(part.width), "height": str(part.height),
             "turned": part.turned, "stack": part.stack}
            for part in strip.yields
        ],
        "segments": [{"piece": part.piece, "length": str(part.length)} for part in strip.segments],
    }
