"""Sashing: strips between blocks, plain or blocks of their own, between rows, columns or both, with cornerstones.

In: the layers of one size's quilt as declared.
Out: `Sashing`, or None; the strips of a strippy quilt where sashing lies between columns alone.
Never: the width of a strip that is a block; it follows from the block in planning.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from patchwright.core.diagnostics import Findings
from patchwright.core.geometry import UPRIGHT
from patchwright.core.length import ZERO, Length
from patchwright.design.design import Block, Fabric, GrainChoice, Placement, Sashing, Strips
from patchwright.design.grain import asked_grain, without_cloth
from patchwright.design.house import native_length
from patchwright.design.names import Names
from patchwright.design.on_point import Layers, first, is_on_point
from patchwright.design.rules import Rules
from patchwright.dialect.declared import SashingDeclaration
from patchwright.dialect.scalars import LengthText, Name

Parts = tuple[SashingDeclaration, ...]


@dataclass(frozen=True, slots=True)
class SashingParts:
    """Resolves the sashing of one pattern."""

    names: Names
    rules: Rules
    findings: Findings
    blocks: Mapping[str, Block | None]
    fabrics: Mapping[str, Fabric]

    def resolve(self, layers: Layers) -> Sashing | None:
        """The sashing of one size, its keys merged; None where there is none, or none but between columns."""
        parts = _parts(layers)
        if not parts:
            return None
        block = self._block(parts)
        if block is None and self._owner(parts, "block") is not None:
            return None
        width = height = ZERO
        fabric = ""
        if block is None:
            plain = self._plain(parts)
            if plain is None:
                return None
            width, height, fabric = plain
        between, frame = first(parts, "between"), first(parts, "frame")
        stone = first(parts, "cornerstone")
        kind = self.names.find(stone.text, stone.span, "fabric", "block") if stone is not None else None
        if stone is not None and (kind is None or (kind == "block" and self.blocks.get(stone.text) is None)):
            return None
        self._check(layers, parts, block, kind == "block")
        if between == "columns":
            return None
        if block is not None:
            where = next((part.key_span("cut") for part in parts if part.has("cut")), parts[0].span)
            without_cloth(first(parts, "cut"), "since the strips are blocks", where, self.findings)
        stone_block = Placement("block", stone.text, UPRIGHT, stone.span) if kind == "block" else None
        return Sashing(
            width, fabric, stone.text if stone is not None else "", frame.on if frame is not None else False,
            self._grain(parts, fabric) if fabric else "auto", parts[0].span, height, between or "both", block,
            stone_block,
        )

    def between_columns(self, layers: Layers) -> Strips | None:
        """Sashing between columns alone, which runs from the top to the bottom as the strips of a strippy quilt do."""
        parts = _parts(layers)
        if first(parts, "between") != "columns" or self._owner(parts, "block") is not None or is_on_point(layers):
            return None
        width, fabric, frame = first(parts, "width"), first(parts, "fabric"), first(parts, "frame")
        if width is None or fabric is None:
            return None
        wide = native_length(width, self.rules.system, self.findings)
        if wide <= ZERO:
            return None
        edge = wide if frame is not None and frame.on else None
        return Strips(wide, fabric.text, self._grain(parts, fabric.text), edge, fabric.text, parts[0].span)

    def _grain(self, parts: Parts, fabric: str) -> GrainChoice:
        where = next((part.key_span("cut") for part in parts if part.has("cut")), parts[0].span)
        return asked_grain(first(parts, "cut"), self.fabrics.get(fabric), where, self.findings)

    def _owner(self, parts: Parts, key: str) -> SashingDeclaration | None:
        """The innermost layer that says of what the strips are, where it says so by this key."""
        owner = next((part for part in parts if part.block is not None or part.fabric is not None), None)
        return owner if owner is not None and owner.has(key) else None

    def _block(self, parts: Parts) -> Placement | None:
        """The block that is a strip, where the innermost layer names one."""
        owner = self._owner(parts, "block")
        if owner is None or owner.block is None:
            return None
        for key in ("width", "height", "fabric"):
            if owner.has(key):
                self.findings.error(
                    "sashing-says-nothing", f"the strips are blocks, whose size and fabrics are their own, "
                    f"so `{key}` says nothing", owner.key_span(key), f"take `{key}` out, or `block`",
                )
        written: Name = owner.block
        if self.names.find(written.text, written.span, "block") is None or self.blocks.get(written.text) is None:
            return None
        return Placement("block", written.text, UPRIGHT, written.span)

    def _plain(self, parts: Parts) -> tuple[Length, Length, str] | None:
        """Width between columns, width between rows, and fabric."""
        width, fabric, height = first(parts, "width"), first(parts, "fabric"), first(parts, "height")
        if width is None:
            self.findings.error("sashing-without-width", "the sashing has no width", parts[0].span, "give `width`")
        if fabric is None:
            self.findings.error("sashing-without-fabric", "the sashing has no fabric", parts[0].span, "give `fabric`")
        if width is None or fabric is None or self.names.find(fabric.text, fabric.span, "fabric") is None:
            return None
        # A size takes the quilt's sashing away by a width of nothing.
        wide = self._width(width, len(parts) > 1 and parts[0].width is not None)
        high = self._width(height, False) if height is not None else wide
        return (wide, high, fabric.text) if wide is not None and high is not None else None

    def _width(self, written: LengthText, may_be_nothing: bool) -> Length | None:
        length = native_length(written, self.rules.system, self.findings)
        if length > ZERO:
            return length
        if not may_be_nothing:
            self.findings.error(
                "sashing-width-zero", f"sashing `{written.text}` wide has no width", written.span,
                "give a width above zero, or leave `sashing` out",
            )
        return None

    def _check(self, layers: Layers, parts: Parts, block: Placement | None, stone_block: bool) -> None:
        """What does not go together."""
        between = first(parts, "between")
        crossed = next((part for part in parts if part.cornerstone is not None), None)
        if between is not None and crossed is not None:
            self.findings.error(
                "sashing-without-crossings", f"sashing only between {between} never crosses, so it has no cornerstones",
                crossed.key_span("cornerstone"), "take `cornerstone` out, or `between`",
            )
        idle = next((part for part in parts if part.height is not None), None)
        if between == "columns" and idle is not None:
            self.findings.error(
                "sashing-says-nothing", "sashing only between columns has no strips between rows, so `height` says "
                "nothing", idle.key_span("height"), "take `height` out, or `between`",
            )
        if between == "columns" and block is not None:
            self.findings.error(
                "sashing-without-crossings", "sashing only between columns runs from top to bottom in one strip, so it "
                "cannot be blocks", block.span, "take `between` out and give `cornerstone`, or give `fabric`",
            )
        if between is None and block is not None and crossed is None:
            self.findings.error(
                "sashing-without-crossings", "strips that are blocks leave squares open where they cross", block.span,
                "give `cornerstone: …`, a fabric or a block, or `between: rows`",
            )
        if is_on_point(layers):
            self._check_on_point(parts, block, stone_block)

    def _check_on_point(self, parts: Parts, block: Placement | None, stone_block: bool) -> None:
        keys = [key for key in ("between", "height") if any(part.has(key) for part in parts)]
        keys += ["block"] if block is not None else []
        keys += ["cornerstone"] if stone_block else []
        for key in keys:
            owner = next(part for part in parts if part.has(key))
            self.findings.error(
                "sashing-on-point", f"on point, sashing is plain strips of one width around every block, so `{key}` "
                "does not fit", owner.key_span(key),
                "name a fabric" if key == "cornerstone" else f"take `{key}` out",
            )


def blocks_of(sashing: Sashing | None) -> set[str]:
    """The names of the blocks in sashing."""
    found = (sashing.block, sashing.cornerstone_block) if sashing is not None else ()
    return {placement.ref for placement in found if placement is not None}


def _parts(layers: Layers) -> Parts:
    return tuple(part for layer in layers if (part := layer.sashing) is not None)
