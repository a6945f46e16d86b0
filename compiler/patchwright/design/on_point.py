"""The setting on point: what lies between the blocks and along the edges.

In: the layers of one size's quilt as declared, and its placements.
Out: `OnPoint`, or None for a straight setting; keys that do not go with the setting are reported.
Never: the size of a setting triangle; it follows from the blocks in planning.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from patchwright.core.diagnostics import Findings
from patchwright.core.geometry import UPRIGHT
from patchwright.core.length import ZERO, Length
from patchwright.design.design import OnPoint, Placement
from patchwright.design.house import native_length, native_pair
from patchwright.design.names import Names
from patchwright.design.rules import Rules
from patchwright.dialect.declared import SettingTrianglesDeclaration, TopDeclaration
from patchwright.dialect.scalars import LengthText, Name

Layers = tuple[TopDeclaration, ...]
Pair = tuple[Length, Length]
Grid = tuple[tuple[Placement, ...], ...]
ONLY_ON_POINT = ("alternate", "setting-triangles")


def first(layers: tuple[Any, ...], attribute: str) -> Any:
    """The value of the first layer that has one; lists replace, so there is nothing to merge."""
    return next((value for layer in layers if (value := getattr(layer, attribute)) is not None), None)


def repeated(
    placed: Sequence[Sequence[Placement]], across: int, down: int, start: int = 0, step: int = 1
) -> Grid:
    """So many rows of placements: every `step`-th row of the arrangement from row `start`, over and over."""
    return tuple(
        tuple(placed[(start + row * step) % len(placed)][column % len(placed[0])] for column in range(across))
        for row in range(down)
    )


def is_on_point(layers: Layers) -> bool:
    """Whether the blocks of a size stand on point in diagonal rows; those of a medallion do where it has triangles."""
    setting = first(layers, "setting")
    return bool(setting == "on-point" or (setting == "medallion" and first(layers, "setting_triangles") is not None))


def is_strippy(layers: Layers) -> bool:
    """Whether a size is set in columns with strips between them."""
    return bool(first(layers, "setting") == "strippy")


@dataclass(frozen=True, slots=True)
class OnPointSettings:
    """Resolves the keys of the setting for one pattern."""

    names: Names
    rules: Rules
    findings: Findings

    def resolve(self, layers: Layers, between: Grid) -> OnPoint | None:
        """The setting of one size; `between` is what the arrangement puts between the blocks."""
        strippy = is_strippy(layers)
        if strippy or not is_on_point(layers):
            self._refuse_idle(layers, ("alternate",) if strippy else ONLY_ON_POINT)
            if not strippy or first(layers, "setting_triangles") is None:
                return None
        parts = tuple(part for layer in layers if (part := layer.setting_triangles) is not None)
        fabric, beyond = first(parts, "fabric"), first(parts, "float")
        if fabric is None:
            setting = next(layer for layer in layers if layer.setting is not None)
            self.findings.error(
                "setting-triangles-missing", "set on point, the quilt needs triangles along its edges",
                setting.key_span("setting"), "give `setting-triangles: {fabric: …}`",
            )
            return None
        self.names.find(fabric.text, fabric.span, "fabric")
        width = native_length(beyond, self.rules.system, self.findings) if beyond is not None else ZERO
        if strippy:
            self._refuse_trim_to(parts)
            return OnPoint((), fabric.text, width, span=parts[0].span)
        self._check_sashing(layers, beyond, width)
        alternate = first(layers, "alternate")
        if alternate is not None:
            placement = self._alternate(alternate)
            if placement is None:
                return None
            between = tuple(tuple(placement for _ in row) for row in between)
        return OnPoint(between, fabric.text, width, self._trim_to(layers, parts), parts[0].span)

    def _trim_to(self, layers: Layers, parts: tuple[SettingTrianglesDeclaration, ...]) -> Pair | None:
        """The size to trim to, of the innermost layer that has one or a float; sashing reaches the edges instead."""
        owner = next((part for part in parts if part.trim_to is not None or part.float is not None), None)
        if owner is None or owner.trim_to is None:
            return None
        if owner.float is not None:
            self.findings.error(
                "trim-and-float", "`trim-to` says how large the center becomes, and `float` follows from it",
                owner.key_span("float"), "keep one of them",
            )
        if any(layer.sashing is not None for layer in layers):
            self.findings.error(
                "sashing-on-point", "sashing on point reaches the edges, so the center cannot be trimmed to a size",
                owner.key_span("trim-to"), "take `trim-to` out, or put a border around the center",
            )
        return native_pair(owner.trim_to, self.rules.system, self.findings)

    def _refuse_trim_to(self, parts: tuple[SettingTrianglesDeclaration, ...]) -> None:
        """Columns of a strippy quilt are as long as their blocks say."""
        owner = next((part for part in parts if part.trim_to is not None), None)
        if owner is not None:
            self.findings.error(
                "only-on-point", "`trim-to` is for the center of a quilt on point, and the setting is strippy",
                owner.key_span("trim-to"), "give `float` in its place, which widens the columns",
            )

    def _check_sashing(self, layers: Layers, beyond: LengthText | None, width: Length) -> None:
        """On point, sashing runs around every block and reaches the edge."""
        parts = tuple(part for layer in layers if (part := layer.sashing) is not None)
        if not parts:
            return
        frame = next((part for part in parts if part.frame is not None), None)
        if frame is not None:
            self.findings.error(
                "sashing-on-point", "on point, sashing runs around every block, so `frame` says nothing",
                frame.key_span("frame"), "take `frame` out; a border frames the whole quilt",
            )
        if beyond is not None and width > ZERO:
            self.findings.error(
                "sashing-on-point", "sashing on point reaches the edges, so the setting cannot float", beyond.span,
                "take `float` out, or put a border of the triangles' fabric around the quilt, which looks the same",
            )

    def _alternate(self, name: Name) -> Placement | None:
        kind = self.names.find(name.text, name.span, "block", "fabric")
        if kind is None:
            return None
        return Placement("block" if kind == "block" else "fabric", name.text, UPRIGHT, name.span)

    def _refuse_idle(self, layers: Layers, keys: tuple[str, ...]) -> None:
        """Report keys of the setting on point where the setting is another; a size may set them aside on purpose."""
        setting = first(layers, "setting") or "straight"
        for layer in layers:
            for key in keys:
                if layer.has(key):
                    self.findings.error(
                        "only-on-point", f"`{key}` has a meaning only on point, and the setting is {setting}",
                        layer.key_span(key), "write `setting: on-point`, or take the key out",
                    )
            if layer.setting is not None:
                return
