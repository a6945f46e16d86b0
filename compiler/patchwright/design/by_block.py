"""Quilts that are made block by block: rag quilts, and quilt-as-you-go. Declared → Design.

In: what the quilt says of its blocks' layers, the layers of one size, the rules.
Out: a `ByBlock`; the seam of a rag quilt.
Never: a combination that cannot be sewn; it is refused, with what would work.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from patchwright.core.diagnostics import Findings
from patchwright.core.length import ZERO, Length
from patchwright.core.measure import plain_length
from patchwright.design.design import ByBlock, Fabric
from patchwright.design.house import length_rule, native_length
from patchwright.design.names import Names
from patchwright.design.on_point import Layers, first
from patchwright.design.rules import Rules
from patchwright.dialect.declared import BackingDeclaration, Declaration, QuiltDeclaration
from patchwright.dialect.scalars import LengthText

PANEL_KEYS = ("usable-width", "wide", "seams", "centered", "directional")
"""What is said of a backing of panels, and means nothing for the backs of blocks."""
APART = ("sashing", "borders", "coping", "strips", "fit")
"""What cannot be sewn to blocks that have their layers already, or is not reckoned for them."""


def rag_seam(quilt: QuiltDeclaration, rules: Rules, findings: Findings) -> Length | None:
    """The width of all seams of a rag quilt; None for others."""
    if quilt.rag is None:
        return None
    return _within(("rag", "seam"), quilt.rag.seam, rules.rag_seam, rules, findings)


@dataclass(frozen=True, slots=True)
class ByBlockParts:
    """Resolves what a quilt says of its blocks' layers."""

    names: Names
    rules: Rules
    findings: Findings
    fabrics: Mapping[str, Fabric]

    def resolve(self, layers: Layers, quilt: QuiltDeclaration) -> ByBlock | None:
        """How blocks are made up in one size; None for a quilt whose top is sewn whole, or where it cannot be."""
        rag, go = quilt.rag, quilt.quilt_as_you_go
        if rag is None and go is None:
            return None
        if rag is not None and go is not None:
            self._refuse(
                "a quilt cannot be both `rag` and `quilt-as-you-go`", quilt, "quilt-as-you-go", "keep one of them"
            )
        self._check(layers, "rag" if rag is not None else "quilt-as-you-go")
        fabric = self._backs(layers, quilt)
        if fabric is None:
            return None
        if rag is not None:
            inset = _within(("rag", "inset"), rag.inset, self.rules.rag_inset, self.rules, self.findings)
            return ByBlock("rag", inset, ZERO, fabric, rag.span)
        if go is None:
            return None
        path, usual = ("quilt-as-you-go", "allowance"), self.rules.block_allowance
        allowance = _within(path, go.allowance, usual, self.rules, self.findings)
        return ByBlock("quilted", ZERO, allowance, fabric, go.span)

    def _check(self, layers: Layers, kind: str) -> None:
        """Report what cannot be combined with blocks that are joined when they have their layers."""
        for layer in layers:
            for key in APART:
                if layer.has(key) and getattr(layer, key) != []:
                    self._refuse(
                        f"a quilt that is made block by block (`{kind}`) has no `{key}`", layer, key,
                        f"take `{key}` out, or arrange other blocks around or between the blocks",
                    )
            if layer.has("setting") and first((layer,), "setting") != "straight":
                self._refuse(
                    f"a quilt that is made block by block (`{kind}`) is set straight", layer, "setting",
                    "take `setting` out",
                )
            if kind == "rag" and layer.has("binding"):
                self._refuse(
                    "the edge of a rag quilt is clipped and not bound", layer, "binding", "take `binding` out"
                )
            for key in ("sleeve", "corners"):
                if kind == "rag" and layer.hanging is not None and layer.hanging.has(key):
                    self._refuse(
                        f"the edge of a rag quilt is clipped, and holds no `{key}`", layer.hanging, key,
                        "leave it out; a `label` can be sewn to any quilt",
                    )

    def _backs(self, layers: Layers, quilt: QuiltDeclaration) -> str | None:
        """The fabric of the blocks' backs, which must be named."""
        parts = tuple(part for layer in layers if isinstance(part := layer.backing, BackingDeclaration))
        for part in parts:
            for key in PANEL_KEYS:
                if part.has(key):
                    self._refuse(
                        f"`{key}` is for a backing of panels, and every block has a back of its own", part, key,
                        "name the `fabric` of the backs, and leave the rest out",
                    )
        fabric = first(parts, "fabric")
        if fabric is None:
            self.findings.error(
                "missing-key", "the backs of the blocks have no fabric", parts[0].span if parts else quilt.span,
                "name one of the fabrics: `backing: {fabric: …}`",
            )
            return None
        if self.names.find(fabric.text, fabric.span, "fabric") is None:
            return None
        known = self.fabrics.get(fabric.text)
        return known.id if known is not None else None

    def _refuse(self, message: str, where: Declaration, key: str, hint: str) -> None:
        self.findings.error("not-by-block", message, where.key_span(key), hint)


def _within(
    path: tuple[str, str], written: LengthText | None, usual: Length, rules: Rules, findings: Findings
) -> Length:
    """What the pattern says, if the house's rule could be that too, or the house's."""
    if written is None:
        return usual
    value = native_length(written, rules.system, findings)
    low, high = length_rule(path).bounds(rules.system)
    if low <= value <= high:
        return value
    findings.error(
        "by-block-range", f"`{written.text}` is out of range for `{path[1]}`", written.span,
        f"it goes from {plain_length(low, rules.system)} to {plain_length(high, rules.system)}",
    )
    return usual
