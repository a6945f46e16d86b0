"""Sizes: the quilt with each size's overrides laid over it.

In: `quilt` and `sizes` as declared; resolved blocks.
Out: one `Size` for each, with its grid of placements, cells of blocks, sashing, borders and finishing.
Never: a length that is worked out from the blocks; that is the plan's business.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field

from patchwright.core.diagnostics import Findings, Note
from patchwright.core.length import ZERO, Length
from patchwright.core.source import Span, span_of
from patchwright.design.assembling import asked_assembling
from patchwright.design.beds import Fits, for_infants, is_open, names_bed
from patchwright.design.block_sizes import BlockSizes
from patchwright.design.borders import Borders
from patchwright.design.by_block import ByBlockParts
from patchwright.design.design import Block, BlockCoping, Border, Fabric, OnPoint, Placement, Size
from patchwright.design.finishing import FinishingParts
from patchwright.design.house import native_length, native_pair
from patchwright.design.names import Names
from patchwright.design.on_point import Grid, OnPointSettings, is_on_point, is_strippy, repeated
from patchwright.design.on_point import first as _first
from patchwright.design.rules import Rules
from patchwright.design.sashing import SashingParts, blocks_of
from patchwright.design.strippy import StrippySettings
from patchwright.design.symmetry import asked_symmetry
from patchwright.dialect.declared import (
    BlockDeclaration,
    BlockSizeDeclaration,
    QuiltDeclaration,
    SizeDeclaration,
    TopDeclaration,
)
from patchwright.dialect.scalars import ItemText, PairText

MOST_ACROSS = 100
MOST_PLACEMENTS = 2500
_INFANT = re.compile(r"\b(crib|baby|cot|cradle|infant|bassinet|nursery)\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class _Grids:
    """The blocks of a size by rows, what lies between them on point, and both before they repeat."""

    blocks: Grid
    between: Grid
    period: tuple[Grid, Grid]


@dataclass(slots=True)
class Sizes:
    """Resolves every size of a pattern."""

    names: Names
    rules: Rules
    findings: Findings
    blocks: Mapping[str, Block | None]
    declared_blocks: Mapping[str, BlockDeclaration]
    fabrics: Mapping[str, Fabric]
    _placed: set[str] = field(default_factory=set)

    def resolve(self, quilt: QuiltDeclaration, sizes: Mapping[str, SizeDeclaration]) -> tuple[Size, ...]:
        """Resolve all sizes; those with mistakes are reported and left out."""
        made = [self._size(str(name), declared, quilt) for name, declared in sizes.items()]
        if all(size is not None for size in made):
            self._warn_of_nested_cells()
        return tuple(size for size in made if size is not None)

    def _warn_of_nested_cells(self) -> None:
        """Warn of a block's own cell where the block stands in no size by itself, but only inside others."""
        for name, declared in self.declared_blocks.items():
            key = next((key for key in ("cell", "size") if declared.has(key)), None)
            if key is not None and str(name) in self.names.used and str(name) not in self._placed:
                self.findings.warning(
                    "cell-without-effect", f"`{name}` is a part of other blocks only, so its `{key}` has no effect",
                    declared.key_span(key), "a block inside another takes its cell from there",
                )

    def _size(self, name: str, declared: SizeDeclaration, quilt: QuiltDeclaration) -> Size | None:
        layers = (declared, quilt)
        grids = self._grid(name, layers)
        between = grids.between if grids is not None else ()
        on_point = OnPointSettings(self.names, self.rules, self.findings).resolve(layers, between)
        among = on_point.between if on_point is not None else ()
        placed = {placement.ref for row in (*(grids.blocks if grids is not None else ()), *among) for placement in row}
        coping = BlockSizes(self.names, self.rules, self.findings).coping(layers)
        cells = self._cells(declared, _first(layers, "block_size"), placed, coping)
        strips = StrippySettings(self.names, self.rules, self.findings, self.fabrics).resolve(layers)
        sashed = SashingParts(self.names, self.rules, self.findings, self.blocks, self.fabrics)
        sashing = sashed.resolve(layers) if not is_strippy(layers) else None
        if sashing is None and strips is None:
            strips = sashed.between_columns(layers)
        period = grids.period if grids is not None else ((), ())
        if among and among[0] and _first(layers, "alternate") is not None:
            period = (period[0], ((among[0][0],),))
        fit = Fits(self.rules, self.findings).resolve(layers, period)
        on_bed = names_bed(layers)
        surround = Borders(self.names, self.rules, self.findings, self.fabrics, on_bed)
        borders = surround.resolve(_first(layers, "borders") or [])
        finishing = FinishingParts(self.names, self.rules, self.findings, self.fabrics)
        binding, hanging = finishing.binding(layers), finishing.hanging(layers)
        by_block = ByBlockParts(self.names, self.rules, self.findings, self.fabrics).resolve(layers, quilt)
        backing = finishing.backing(layers) if quilt.rag is None and quilt.quilt_as_you_go is None else None
        if grids is None or (strips is None and is_strippy(layers)):
            return None
        grid = grids.blocks
        self._warn_of_idle_cells(name, declared, grid, borders, on_point, blocks_of(sashing))
        label = declared.name.text.strip() if declared.name is not None else name.replace("-", " ").capitalize()
        return Size(
            name=name, label=label, across=len(grid[0]), down=len(grid), grid=grid, cells=cells,
            sashing=sashing, borders=borders, binding=binding, backing=backing, hanging=hanging,
            by_block=by_block,
            infant=_INFANT.search(f"{name.replace('-', ' ')} {label}") is not None or for_infants(fit),
            on_point=on_point, coping=coping, fit=fit, strips=strips, medallion=self._is_medallion(layers, borders),
            symmetry=asked_symmetry(layers, grids.period, on_point),
            assemble=asked_assembling(layers, quilt, self.findings), span=declared.span,
        )

    def _is_medallion(self, layers: tuple[TopDeclaration, ...], rounds: tuple[Border, ...]) -> bool:
        """Whether a size is a center with rounds about it; one without rounds is reported."""
        if _first(layers, "setting") != "medallion":
            return False
        if not rounds and not _first(layers, "borders"):
            owner = next(layer for layer in layers if layer.setting is not None)
            self.findings.error(
                "medallion-without-rounds", "a medallion has no rounds about its center", owner.key_span("setting"),
                "list them under `borders`, from the inside out",
            )
        return True

    def _grid(self, name: str, layers: tuple[TopDeclaration, ...]) -> _Grids | None:
        """The blocks by rows and, on point, what the arrangement puts between them.

        On point and without `alternate`, the rows of `arrange` are in turn those of the blocks and those between.
        """
        arrange: list[list[ItemText]] | None = _first(layers, "arrange")
        if not arrange or not all(arrange):
            where = layers[0].span if arrange is None else layers[0].key_span("arrange")
            self.findings.error(
                "arrange-empty", f"the size `{name}` has no arrangement of blocks", where,
                "give `arrange` under `quilt` with at least one row of blocks",
            )
            return None
        rows = [[placement for text in row for placement in self._placements(text)] for row in arrange]
        if any(placement is None for row in rows for placement in row):
            return None
        placed = [[placement for placement in row if placement is not None] for row in rows]
        if not self._same_lengths(placed, arrange):
            return None
        step = 2 if is_on_point(layers) and _first(layers, "alternate") is None else 1
        across = self._count(layers, "across", len(placed[0]))
        down = self._count(layers, "down", (len(placed) + step - 1) // step)
        between = is_on_point(layers)
        if not self._fits_bounds(name, layers[0].span, across, down, between):
            return None
        if between and names_bed(layers):
            # Stand-ins until planning decides: so large that everything of the arrangement is among them.
            across, down = (count + is_open(layers, key) for count, key in ((across, "across"), (down, "down")))
        if len(placed) > down * step or len(placed[0]) > across:
            self.findings.warning(
                "arrange-too-large",
                f"the arrangement is {len(placed[0])} by {len(placed)} blocks, but `{name}` has {across} by {down}",
                layers[0].span, "the part that does not fit is left out",
            )
        blocks = repeated(placed, across, down, 0, step)
        wide, high = len(placed[0]), len(placed)
        period = (repeated(placed, wide, high, 0, step), repeated(placed, wide, high, step - 1, step))
        return _Grids(blocks, repeated(placed, across - 1, down - 1, step - 1, step) if between else (), period)

    def _fits_bounds(self, name: str, span: Span, across: int, down: int, between: bool) -> bool:
        blocks = across * down + ((across - 1) * (down - 1) if between else 0)
        if blocks <= MOST_PLACEMENTS and max(across, down) <= MOST_ACROSS:
            return True
        self.findings.error(
            "pattern-too-large", f"the size `{name}` has {across} by {down} blocks", span,
            f"at most {MOST_ACROSS} a side and {MOST_PLACEMENTS} in all; nest blocks in larger ones",
        )
        return False

    def _count(self, layers: tuple[TopDeclaration, ...], key: str, default: int) -> int:
        written = _first(layers, key)
        return int(written.number) if written is not None and written.number is not None else default

    def _same_lengths(self, placed: list[list[Placement]], arrange: list[list[ItemText]]) -> bool:
        for number, row in enumerate(placed[1:], 2):
            if len(row) != len(placed[0]):
                self.findings.error(
                    "arrange-ragged",
                    f"row {number} of the arrangement has {len(row)} blocks, row 1 has {len(placed[0])}",
                    arrange[number - 1][0].span, "all rows of `arrange` are equally long",
                    notes=[Note(arrange[0][0].span, f"row 1 has {len(placed[0])}")],
                )
                return False
        return True

    def _placements(self, text: ItemText) -> list[Placement | None]:
        kind = None
        if text.other:
            self.findings.error(
                "wrong-kind", f"`{text.text}` is a unit, but a block or a fabric is needed here", text.span,
                f"make a block of it, such as `rows: [[{text.text}]]`",
            )
        elif text.width is not None:
            self.findings.error(
                "sized-placement", f"`{text.text}` has a size, but blocks of the quilt keep their own", text.span,
                "give the block's `cell` or `size` instead",
            )
        else:
            kind = self.names.find(text.name, text.span, "block", "fabric")
        if kind is None or (kind == "block" and self.blocks.get(text.name) is None):
            return [None]
        made = Placement("block" if kind == "block" else "fabric", text.name, text.orientation, text.span)
        return [made] * text.repeat

    def _cells(
        self, declared: SizeDeclaration, common: PairText | None, placed: set[str], coping: BlockCoping | None
    ) -> tuple[tuple[str, Length], ...]:
        """The cell of every block that has one; `common` is the size that all placed blocks share, if they do."""
        for name, override in declared.blocks.items():
            if str(name) not in self.declared_blocks:
                self.names.find(str(name), span_of(name), "block")
            elif not override.has("cell") and not override.has("size"):
                self.findings.error(
                    "missing-key", f"`{name}` changes nothing in this size", span_of(name), "give `cell` or `size`"
                )
        made = []
        for name in self.declared_blocks:
            block = self.blocks.get(str(name))
            if block is not None and common is not None and str(name) in placed and name not in declared.blocks:
                sizing = BlockSizes(self.names, self.rules, self.findings)
                cell = sizing.cell(block, coping) if coping is not None else self._cell_for(str(name), common)
            else:
                cell = self._cell(str(name), declared) if block is not None else None
            if cell is not None:
                made.append((str(name), cell))
        return tuple(made)

    def _warn_of_idle_cells(
        self, name: str, declared: SizeDeclaration, grid: Grid, borders: tuple[Border, ...], on_point: OnPoint | None,
        sashed: set[str],
    ) -> None:
        """Warn of a cell given for a block that stands in this size only inside others, whose cells it takes."""
        between = on_point.between if on_point is not None else ()
        placed = {placement.ref for row in (*grid, *between) for placement in row}
        placed |= {border.corner for border in borders} | sashed
        pieced = [border.pieced for border in borders if border.pieced is not None]
        placed |= {placement.ref for one in pieced for placement in (*one.repeat, one.corner, one.middle) if placement}
        placed |= {like.like.text for block, like in self.declared_blocks.items() if block in placed and like.like}
        self._placed |= placed
        for block in declared.blocks:
            if str(block) in self.declared_blocks and str(block) not in placed:
                self.findings.warning(
                    "cell-without-effect", f"`{block}` is no block of the top in `{name}`", span_of(block),
                    "a block inside another takes its cell from there; change the outer block",
                )

    def _cell(self, name: str, declared: SizeDeclaration) -> Length | None:
        """The block's cell in this size: its override, its own, or that of the block it is like."""
        override = declared.blocks.get(name)
        if override is not None and (override.has("cell") or override.has("size")):
            return self._cell_of(name, override)
        own = self.declared_blocks[name]
        if own.cell is not None or own.size is not None:
            return self._cell_of(name, own)
        if own.like is not None and own.like.text in self.declared_blocks and own.like.text != name:
            return self._cell(own.like.text, declared)
        return None

    def _cell_of(self, name: str, declared: BlockDeclaration | BlockSizeDeclaration) -> Length | None:
        if declared.cell is not None and declared.size is not None:
            self.findings.error(
                "cell-and-size", f"`{name}` has both `cell` and `size`", declared.key_span("size"),
                "keep one of them; the other follows",
            )
            return None
        if declared.cell is not None:
            cell = native_length(declared.cell, self.rules.system, self.findings)
            return self._positive(cell, declared.cell.text, declared.cell.span)
        return self._cell_for(name, declared.size) if declared.size is not None else None

    def _cell_for(self, name: str, size: PairText) -> Length | None:
        """The cell of a block of this finished size."""
        block = self.blocks.get(name)
        if block is None:
            return None
        width, height = native_pair(size, self.rules.system, self.findings)
        sides = ((width - block.width.fixed, block.width.cells), (height - block.height.fixed, block.height.cells))
        cells = {left / count for left, count in sides if count}
        if len(cells) > 1 or any(left for left, count in sides if not count):
            self.findings.error(
                "size-not-square-grid",
                f"`{size.text}` does not fit the grid of `{name}`, "
                f"{block.width.cells} by {block.height.cells} cells", size.span,
                "give `cell`, or a size in the proportions of the grid",
            )
            return None
        return self._positive(next(iter(cells), width), size.text, size.span)

    def _positive(self, length: Length, text: str, span: Span) -> Length | None:
        if length > ZERO:
            return length
        self.findings.error("size-out-of-range", f"`{text}` leaves nothing for a cell", span, "sizes are above zero")
        return None

