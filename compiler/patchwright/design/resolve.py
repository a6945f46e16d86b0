"""Declared → Design.

In: a declared pattern and, if there is one, the house's rules.
Out: the design, or nothing and every mistake of this stage.
Never: a file, a cut size, a design with a name that does not exist.
"""

from __future__ import annotations

from dataclasses import replace

from patchwright.core.diagnostics import Diagnostic, Findings, nearest_names
from patchwright.core.measure import System
from patchwright.core.source import span_of
from patchwright.design.by_block import rag_seam
from patchwright.design.cloth import resolve_fabrics, resolve_packs
from patchwright.design.colorways import recolored, resolve_colorways
from patchwright.design.design import Design, Prose
from patchwright.design.house import resolve_rules
from patchwright.design.names import Names, gather_names
from patchwright.design.parts import Parts
from patchwright.design.sizes import Sizes
from patchwright.dialect.declared import HouseDeclaration, PatternDeclaration
from patchwright.dialect.scalars import Prose as ProseText


def make_design(
    declared: PatternDeclaration, house: HouseDeclaration | None, pattern_id: str, colorway: str = ""
) -> tuple[Design | None, tuple[Diagnostic, ...]]:
    """Resolve a pattern in its own colors or in a colorway; the design is None where there are errors.

    Raises KeyError for a colorway that the pattern does not have.
    """
    findings = Findings()
    written, declared = declared, recolored(declared, colorway)
    system: System = "in" if declared.lengths == "inches" else "cm"
    rules = resolve_rules(declared.house, house, system, findings)
    seam = rag_seam(declared.quilt, rules, findings)
    rules = replace(rules, seam=seam) if seam is not None else rules
    names = gather_names(declared, findings)
    packs = resolve_packs(declared.packs, rules, findings)
    fabrics, all_packs = resolve_fabrics(declared.fabrics, packs, names, rules, findings)
    colorways = resolve_colorways(written, names, rules, findings)
    parts = Parts(names, rules, findings, declared.units, declared.blocks)
    parts.resolve()
    sizes = Sizes(
        names, rules, findings, parts.blocks, declared.blocks, {fabric.id: fabric for fabric in fabrics}
    ).resolve(declared.quilt, declared.sizes)
    notes = _notes(declared, names, findings)
    if not findings.has_errors:
        names.report_unused()
    if findings.has_errors:
        return None, findings.ordered()
    text = declared.text
    design = Design(
        id=f"{pattern_id}-{colorway}" if colorway else pattern_id,
        title=declared.pattern.text.strip(), release=declared.release.number,
        summary=declared.summary.text.strip() if declared.summary is not None else "",
        skill=declared.skill or "", system=system, rules=rules, packs=all_packs, fabrics=fabrics,
        units=tuple(parts.units.values()), blocks=tuple(block for block in parts.blocks.values() if block is not None),
        sizes=sizes, introduction=_prose(text.introduction if text else None), steps=notes,
        finishing=_prose(text.finishing if text else None), about=_prose(text.about if text else None),
        colorways=colorways, colorway=colorway, span=declared.span,
    )
    return design, findings.ordered()


def _prose(written: ProseText | None) -> Prose | None:
    return Prose(written.text, written.span) if written is not None and written.text.strip() else None


def _notes(declared: PatternDeclaration, names: Names, findings: Findings) -> tuple[tuple[str, Prose], ...]:
    """The author's notes to units' and blocks' steps."""
    made = []
    steps = declared.text.steps if declared.text is not None else {}
    for name, prose in steps.items():
        if names.kinds.get(str(name)) not in ("unit", "block"):
            allowed = [known for known, kind in names.kinds.items() if kind != "fabric"]
            findings.error(
                "unknown-step-note", f"there is no unit or block `{name}` to put a note to", span_of(name),
                *nearest_names(str(name), allowed),
            )
        else:
            made.append((str(name), Prose(prose.text, prose.span)))
    return tuple(made)
