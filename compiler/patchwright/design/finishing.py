"""Binding, backing and what hangs a quilt: Declared → Design, the keys of a size laid over those of the quilt.

In: the declarations of a size and of the quilt, the rules and the fabrics.
Out: what follows the top, with the house's widths where nothing else is said.
Never: a length that depends on the size of the top.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from patchwright.core.diagnostics import Findings
from patchwright.core.length import ZERO, Length
from patchwright.core.measure import plain_length
from patchwright.design.design import Backing, Binding, BindingWay, Fabric, Hanging
from patchwright.design.grain import asked_grain_of_binding
from patchwright.design.house import native_length, native_pair
from patchwright.design.names import Names
from patchwright.design.on_point import first
from patchwright.design.rules import Rules
from patchwright.dialect.declared import Declaration, TopDeclaration

BINDING_WAYS: dict[str, BindingWay] = {
    "strips": "bias-strips", "squares": "bias-squares", "continuous": "continuous",
}


@dataclass(frozen=True, slots=True)
class FinishingParts:
    """Resolves what follows the top."""

    names: Names
    rules: Rules
    findings: Findings
    fabrics: Mapping[str, Fabric]

    def binding(self, layers: tuple[TopDeclaration, ...]) -> Binding | None:
        parts = declarations_of(layers, "binding")
        if not parts:
            return None
        fabric, strip = first(parts, "fabric"), first(parts, "strip")
        if fabric is not None:
            self.names.find(fabric.text, fabric.span, "fabric")
        fold: Literal["double", "single"] = first(parts, "fold") or "double"
        bias = first(parts, "bias")
        way: BindingWay = BINDING_WAYS[bias] if bias is not None else "straight"
        width = self.rules.binding_strip if fold == "double" else self.rules.binding_single
        if strip is not None:
            width = native_length(strip, self.rules.system, self.findings)
            if width <= self.rules.seam * 2:
                self.findings.error(
                    "seam-too-wide", f"binding strips of `{strip.text}` are used up by their seams", strip.span,
                    "double-fold binding is usually cut 2 1/4 or 2 1/2 in (6 or 6.5 cm) wide",
                )
        known = self.fabrics.get(fabric.text) if fabric is not None else None
        if known is not None and known.pack and way == "bias-strips":
            self.findings.error(
                "bias-from-precut", f"`{known.id}` is cut from precuts, and bias strips run across yardage",
                parts[0].key_span("bias"), "use `bias: squares` or `bias: continuous`, or bind with another fabric",
            )
        where = next((part.key_span("cut") for part in parts if part.has("cut")), parts[0].span)
        cut = asked_grain_of_binding(first(parts, "cut"), known, bias is not None, where, self.findings)
        return Binding(fabric.text if fabric is not None else "", width, parts[0].span, fold, way, cut)

    def backing(self, layers: tuple[TopDeclaration, ...]) -> Backing | None:
        parts = declarations_of(layers, "backing")
        if not parts:
            return None
        fabric, width, direction = first(parts, "fabric"), first(parts, "usable_width"), first(parts, "directional")
        usable = self.rules.usable_width
        if fabric is not None:
            self.names.find(fabric.text, fabric.span, "fabric")
            known = self.fabrics.get(fabric.text)
            if known is not None:
                usable, direction = known.usable_width, direction or known.direction
        wide = self._wide(parts)
        if wide is not None:
            usable = wide - self.rules.backing_selvages
        if width is not None:
            usable = native_length(width, self.rules.system, self.findings)
        self._check_cloth(self.fabrics.get(fabric.text) if fabric is not None else None, usable, parts[0])
        seams = first(parts, "seams")
        if seams is not None and direction not in (None, "none", seams):
            self.findings.error(
                "seams-against-print", f"with {seams} seams, a print that runs {direction} would lie on its side",
                next(part.key_span("seams") for part in parts if getattr(part, "seams", None) is not None),
                f"leave `seams` out or say `{direction}`; or choose a cloth that is not one-way",
            )
        if usable <= self.rules.backing_seam * 2:
            self.findings.error("seam-too-wide", "the backing cloth is used up by its seams", parts[0].span)
        centered = first(parts, "centered")
        return Backing(
            fabric.text if fabric is not None else "", usable, direction or "none", parts[0].span, seams or "auto",
            centered.on if centered is not None else False, wide,
        )

    def _check_cloth(self, fabric: Fabric | None, usable: Length, where: Declaration) -> None:
        """Refuse a backing from a fabric of the top that is cut from precuts, or that is narrower than is said here."""
        if fabric is None or (not fabric.pack and usable <= fabric.usable_width):
            return
        system = self.rules.system
        why = "is cut from precuts" if fabric.pack else (
            f"is {plain_length(fabric.usable_width, system)} wide, not {plain_length(usable, system)}"
        )
        self.findings.error(
            "backing-cloth", f"the backing cannot be cut from `{fabric.id}`, which {why}", where.key_span("fabric"),
            "leave `fabric` out for a cloth of its own, or name a fabric of yardage that is as wide",
        )

    def _wide(self, parts: tuple[Declaration, ...]) -> Length | None:
        """The width by which a wide backing cloth is sold, which leaves more than its selvages."""
        written = first(parts, "wide")
        if written is None:
            return None
        wide = native_length(written, self.rules.system, self.findings)
        if wide > self.rules.backing_selvages + self.rules.backing_seam * 2:
            return wide
        self.findings.error(
            "seam-too-wide", f"a cloth `{written.text}` wide is used up by its selvages and seams", written.span,
            "wide backing cloth is sold about 108 in (275 cm) wide",
        )
        return None

    def hanging(self, layers: tuple[TopDeclaration, ...]) -> Hanging | None:
        """The sleeve, the corners and the label that are asked for."""
        parts = declarations_of(layers, "hanging")
        if not parts:
            return None
        named = {part: first(parts, part) for part in ("sleeve", "corners", "label")}
        for name in named.values():
            if name is not None:
                self.names.find(name.text, name.span, "fabric")
        if not any(named.values()):
            self.findings.error(
                "missing-key", "`hanging` names no fabric, so nothing is made", parts[0].span,
                "give the fabric of a `sleeve`, of `corners` or of a `label`",
            )
        written = first(parts, "label_size")
        size = (Length(6), Length(4)) if self.rules.system == "in" else (Length(15), Length(10))
        if written is not None:
            size = native_pair(written, self.rules.system, self.findings)
            if min(size) <= ZERO:
                self.findings.error(
                    "size-out-of-range", f"`{written.text}` has a side of nothing", written.span, "sizes are above zero"
                )
        texts = {part: name.text if name is not None else "" for part, name in named.items()}
        return Hanging(texts["sleeve"], texts["corners"], texts["label"], size, parts[0].span)


def declarations_of(layers: tuple[TopDeclaration, ...], key: str) -> tuple[Declaration, ...]:
    """The mappings of one key, the size's before the quilt's, to be merged key by key."""
    return tuple(value for layer in layers if isinstance(value := getattr(layer, key), Declaration))
