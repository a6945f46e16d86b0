"""The strippy setting: the long strips between columns of blocks, and those beside the outermost columns.

In: the layers of one size's quilt as declared.
Out: `Strips`, or None for another setting; keys that do not go with the setting are reported.
Never: the length of a strip; it follows from the blocks in planning.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from patchwright.core.diagnostics import Findings
from patchwright.core.length import ZERO, Length
from patchwright.design.design import Fabric, GrainChoice, Strips
from patchwright.design.grain import asked_grain
from patchwright.design.house import native_length
from patchwright.design.names import Names
from patchwright.design.on_point import Layers, first, is_strippy
from patchwright.design.rules import Rules
from patchwright.dialect.declared import StripsDeclaration
from patchwright.dialect.scalars import LengthText, Name


@dataclass(frozen=True, slots=True)
class StrippySettings:
    """Resolves the strips of one pattern."""

    names: Names
    rules: Rules
    findings: Findings
    fabrics: Mapping[str, Fabric]

    def resolve(self, layers: Layers) -> Strips | None:
        """The strips of one size; the keys of all its layers are merged."""
        if not is_strippy(layers):
            self._refuse_idle(layers, "strips", "strippy-only", "write `setting: strippy`, or take the key out")
            return None
        self._refuse_idle(
            layers, "sashing", "strippy-sashing",
            "take `sashing` out; strips within a column can be a part of its blocks, as a last row of each",
        )
        parts = tuple(part for layer in layers if (part := layer.strips) is not None)
        width, fabric = first(parts, "width"), first(parts, "fabric")
        if width is None or fabric is None:
            setting = next(layer for layer in layers if layer.setting is not None)
            span = parts[0].span if parts else setting.key_span("setting")
            self.findings.error(
                "strips-missing", "a strippy quilt needs strips between its columns, with a width and a fabric", span,
                "give `strips: {width: …, fabric: …}`",
            )
            return None
        self.names.find(fabric.text, fabric.span, "fabric")
        wide = self._width(width)
        edges = tuple(part.edges for part in parts if part.edges is not None)
        edge, edge_fabric = first(edges, "width"), first(edges, "fabric")
        if edge_fabric is not None:
            self.names.find(edge_fabric.text, edge_fabric.span, "fabric")
        edge_wide = (self._width(edge) if edge is not None else wide) if edges else None
        if wide is None or (edges and edge_wide is None):
            return None
        return Strips(
            wide, fabric.text, self._grain(parts, fabric.text, edge_fabric), edge_wide,
            edge_fabric.text if edge_fabric is not None else fabric.text, parts[0].span,
        )

    def _grain(self, parts: tuple[StripsDeclaration, ...], fabric: str, edge: Name | None) -> GrainChoice:
        """What is asked of all strips; a warning where the cloth of one kind leaves no choice."""
        cut = first(parts, "cut")
        where = next((part.key_span("cut") for part in parts if part.has("cut")), parts[0].span)
        if edge is not None and edge.text != fabric:
            asked_grain(cut, self.fabrics.get(edge.text), where, self.findings)
        return asked_grain(cut, self.fabrics.get(fabric), where, self.findings)

    def _width(self, written: LengthText) -> Length | None:
        width = native_length(written, self.rules.system, self.findings)
        if width > ZERO:
            return width
        self.findings.error(
            "strips-width-zero", f"strips `{written.text}` wide have no width", written.span,
            "give a width above zero; columns side by side without strips are a straight setting",
        )
        return None

    def _refuse_idle(self, layers: Layers, key: str, code: str, hint: str) -> None:
        """Report a key that says nothing in this setting; a size may set it aside on purpose."""
        setting = first(layers, "setting") or "straight"
        for layer in layers:
            if layer.has(key):
                self.findings.error(
                    code, f"`{key}` has no meaning here, since the setting is {setting}", layer.key_span(key), hint
                )
            if layer.setting is not None:
                return
