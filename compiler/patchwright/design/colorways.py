"""Colorways: the same pattern with other cloths, as the author names them.

In: a declared pattern.
Out: the declaration with the fabrics of one colorway laid over its own; what every colorway shows.
Never: a count or a length; those are planned anew for each colorway, and differ only where a print does.
"""

from __future__ import annotations

from typing import Any

from patchwright.core.diagnostics import Findings
from patchwright.core.source import span_of
from patchwright.design.cloth import resolve_fabrics, resolve_packs
from patchwright.design.design import Colorway, ColorwayFabric
from patchwright.design.names import Names
from patchwright.design.rules import Rules
from patchwright.dialect.declared import (
    ColorwayDeclaration,
    ColorwayFabricDeclaration,
    FabricDeclaration,
    PatternDeclaration,
)

COLORS = ("color", "colors")


def recolored(declared: PatternDeclaration, colorway: str) -> PatternDeclaration:
    """The pattern with the fabrics of a colorway; raise KeyError if it has none of that name."""
    if not colorway:
        return declared
    fabrics = _fabrics(declared, {str(name): way for name, way in declared.colorways.items()}[colorway])
    values: dict[str, Any] = {info.attribute: getattr(declared, info.attribute) for info in declared.keys.values()}
    return PatternDeclaration(declared.span, declared.key_spans, **values | {"fabrics": fabrics})


def _fabrics(declared: PatternDeclaration, own: ColorwayDeclaration) -> dict[str, FabricDeclaration]:
    changes = {str(name): change for name, change in own.fabrics.items()}
    return {
        name: _changed(fabric, changes[str(name)]) if str(name) in changes else fabric
        for name, fabric in declared.fabrics.items()
    }


def _changed(fabric: FabricDeclaration, change: ColorwayFabricDeclaration) -> FabricDeclaration:
    """What the colorway says goes before what the fabric says; a color takes the place of colors and value too."""
    values: dict[str, Any] = {info.attribute: getattr(fabric, info.attribute) for info in fabric.keys.values()}
    spans = dict(fabric.key_spans)
    if any(getattr(change, key) is not None for key in COLORS):
        for key in (*COLORS, "value"):
            values[key] = None
            spans.pop(key, None)
    for info in change.keys.values():
        written = getattr(change, info.attribute)
        if written is not None:
            values[info.attribute] = written
            spans[info.name] = change.key_span(info.name)
    return FabricDeclaration(fabric.span, spans, **values)


def resolve_colorways(
    declared: PatternDeclaration, names: Names, rules: Rules, findings: Findings
) -> tuple[Colorway, ...]:
    """The pattern's own colors and those of every colorway; a fabric that does not exist is reported."""
    if not declared.colorways:
        return ()
    for way in declared.colorways.values():
        for fabric in way.fabrics:
            names.find(str(fabric), span_of(fabric), "fabric")
    made = [Colorway("", "", _shown(declared, names, rules, findings))]
    for name, way in declared.colorways.items():
        label = way.name.text.strip() if way.name is not None else str(name).replace("-", " ").capitalize()
        shown = _shown(recolored(declared, str(name)), names, rules, findings)
        made.append(Colorway(str(name), label, shown))
    return tuple(made)


def _shown(
    declared: PatternDeclaration, names: Names, rules: Rules, findings: Findings
) -> tuple[ColorwayFabric, ...]:
    """The fabrics of one colorway; what is wrong with the cloths of one is found here, before it is built."""
    packs = resolve_packs(declared.packs, rules, findings)
    fabrics, _ = resolve_fabrics(declared.fabrics, packs, names, rules, findings)
    return tuple(
        ColorwayFabric(fabric.letter, fabric.name, fabric.colors, fabric.value, fabric.hatch) for fabric in fabrics
    )
