"""Which units and assemblies a pattern really needs, and how many of each in every size.

In: a design.
Out: `Instances`: every distinct unit and assembly as it is made, with its counts per size, inner ones first.
Two placements are the same made thing when one is the other turned; mirrored ones only where the mirror image is truly
a turned original; a one-way print keeps every lay apart that would turn it.
Never: a cut size, a letter, or cloth.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from patchwright.core.diagnostics import Findings
from patchwright.core.geometry import UPRIGHT, Orientation, Polygon, canonical, moved, rectangle
from patchwright.core.length import ZERO, Length
from patchwright.design.design import Block, Design, Extent, Item, Unit
from patchwright.methods.method import Request
from patchwright.methods.registry import BY_NAME
from patchwright.planning.line_sums import Lengths, check_lines

Counts = list[int]
Look = frozenset[tuple[str, Polygon]]
"""Fabrics and outlines of patches; equal for what cannot be told apart."""
COPED = "-with-coping"
"""Ends the name of a block in coping."""


@dataclass(frozen=True, slots=True)
class UnitKey:
    """What makes two units the same made thing."""

    unit: str
    widths: Lengths
    heights: Lengths
    extents: tuple[tuple[str, Lengths], ...]
    mirror: bool
    turn: int
    variant: int = 0
    """1 for the second of two ways of pressing."""


@dataclass(frozen=True, slots=True)
class BlockKey:
    """What makes two assemblies the same made thing."""

    block: str
    cells: Lengths
    mirror: bool
    turn: int
    coping: Lengths = ()
    """Of a block in coping: the strips at its sides in every size, then those at top and bottom."""
    variant: int = 0
    """1 for the second of two ways of pressing."""


@dataclass(frozen=True, slots=True)
class PatchKey:
    """A plain patch as it lies: finished sizes for every size of the pattern."""

    fabric: str
    widths: Lengths
    heights: Lengths




@dataclass(slots=True)
class UnitInstance:
    key: UnitKey
    unit: Unit
    counts: Counts
    lays: dict[int, Counts] = field(default_factory=dict)
    """Counts by quarter turns in the quilt, where one-way prints make them matter."""


@dataclass(frozen=True, slots=True)
class PlacedInstance:
    """A part of an assembly in the assembly's own frame."""

    key: UnitKey | BlockKey | PatchKey
    orientation: Orientation
    widths: Lengths
    heights: Lengths
    lay: Orientation
    """How it lies in the quilt when the assembly does as its key says."""


@dataclass(slots=True)
class BlockInstance:
    key: BlockKey
    block: Block
    axis: str
    lines: tuple[tuple[PlacedInstance, ...], ...]
    widths: Lengths
    heights: Lengths
    counts: Counts
    nested: bool = True


@dataclass(slots=True)
class Instances:
    """Builds the instances of one design; filled by `place`, counted by `count`."""

    design: Design
    findings: Findings
    pressed_twice: frozenset[UnitKey | BlockKey] = frozenset()
    """What is pressed in two ways, or holds what is; all others are the same made thing wherever they lie."""
    units: dict[UnitKey, UnitInstance] = field(default_factory=dict)
    blocks: dict[BlockKey, BlockInstance] = field(default_factory=dict)
    patches: dict[PatchKey, Counts] = field(default_factory=dict)
    patch_uses: dict[PatchKey, list[str]] = field(default_factory=dict)
    _by_unit: dict[str, Unit] = field(default_factory=dict)
    _by_block: dict[str, Block] = field(default_factory=dict)
    _one_way: dict[str, bool] = field(default_factory=dict)
    _turns: dict[tuple[str, Lengths], int | None] = field(default_factory=dict)
    _flat: dict[tuple[str, Lengths], tuple[tuple[str, Polygon], ...]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self._by_unit = {unit.id: unit for unit in self.design.units}
        self._by_block = {block.id: block for block in self.design.blocks}
        for fabric in self.design.fabrics:
            self._one_way[fabric.id] = fabric.direction != "none"
        for unit in self.design.units:
            self._one_way[unit.id] = any(self._one_way[fabric] for _, fabric in unit.fabrics)
        for block in self.design.blocks:
            self._block_one_way(block)

    def _block_one_way(self, block: Block) -> bool:
        if block.id not in self._one_way:
            self._one_way[block.id] = any(
                self._block_one_way(self._by_block[item.ref]) if item.kind == "block" else self._one_way[item.ref]
                for line in block.lines for item in line
            )
        return self._one_way[block.id]

    def is_one_way(self, name: str) -> bool:
        """Whether a fabric, unit or block has a one-way print in it."""
        return self._one_way[name]

    @property
    def size_count(self) -> int:
        return len(self.design.sizes)

    def look(self, block: str, cells: Lengths, lay: Orientation) -> Look:
        """The patches of a block that lies so, with their fabrics."""
        known = self._by_block[block]
        width, height = known.width.at(cells[0]), known.height.at(cells[0])
        return _laid(self._flat_block(known, cells), width, height, lay)

    def look_of_unit(self, name: str, size: tuple[Extent, Extent], cell: Length, lay: Orientation) -> Look:
        """The patches of a unit of a size that lies so; nothing for a size in which it cannot be made."""
        unit = self._by_unit[name]
        width, height = (side.at(cell) for side in size)
        extents = tuple((key, (extent.at(cell),)) for key, extent in unit.extents)
        flat = self._flat_unit(unit, UnitKey(name, (width,), (height,), extents, False, 0), 0)
        return _laid(flat, width, height, lay)

    def place_block(self, block: str, cells: Lengths, lay: Orientation) -> tuple[BlockKey, Orientation]:
        """The made assembly for a block that lies so, and how that assembly is then turned."""
        return self._key_of_block(self._by_block[block], cells, lay)

    def _key_of_block(self, block: Block, cells: Lengths, lay: Orientation) -> tuple[BlockKey, Orientation]:
        if self._one_way[block.id]:
            key = BlockKey(block.id, cells, lay.mirror, lay.turns)
            self._build(key, block, lay)
            return key, Orientation(lay.turns)
        mirror, turns = lay.mirror, lay.turns
        if mirror:
            same = self._mirror_turn(block.id, cells, self._flat_block(block, cells), self._block_size(block, cells))
            if same is not None:
                mirror, turns = False, (turns + same) % 4
        key = BlockKey(block.id, cells, mirror, 0)
        self._build(key, block, Orientation(0, mirror))
        return key, Orientation(turns)

    def _build(self, key: BlockKey, block: Block, lay: Orientation) -> None:
        if key in self.blocks:
            return
        frame = Orientation(0, lay.mirror)
        lines = []
        for line in block.lines:
            placed = [self._placed(item, key, frame, lay) for item in line]
            lines.append(tuple(placed[::-1] if lay.mirror and block.axis == "rows" else placed))
        if lay.mirror and block.axis == "columns":
            lines = lines[::-1]
        widths, heights = self._block_size(block, key.cells)
        check_lines(self.design, self.findings, block, key.cells)
        self.blocks[key] = BlockInstance(key, block, block.axis, tuple(lines), widths, heights, [0] * self.size_count)

    def _placed(self, item: Item, outer: BlockKey, frame: Orientation, lay: Orientation) -> PlacedInstance:
        cells = outer.cells
        own = item.orientation.then(frame)
        absolute = item.orientation.then(lay)
        widths, heights = self._at(item.across, cells), self._at(item.down, cells)
        if item.kind == "fabric":
            sideways = self._one_way[item.ref] and lay.sideways
            key = PatchKey(item.ref, *((heights, widths) if sideways else (widths, heights)))
            return PlacedInstance(key, UPRIGHT, widths, heights, absolute)
        if item.kind == "unit":
            unit_key, extra = self._key_of_unit(item, cells, own, absolute)
            self.units.setdefault(unit_key, UnitInstance(unit_key, self._by_unit[unit_key.unit], [0] * self.size_count))
            lies = Orientation((absolute.turns + extra) % 4)
            return PlacedInstance(unit_key, Orientation((own.turns + extra) % 4), widths, heights, lies)
        inner = self._by_block[item.ref]
        block_key, turned = self._key_of_block(
            inner, self._inner_cells(item, inner, cells), absolute if self._one_way[inner.id] else own
        )
        if self._one_way[inner.id]:
            turned = Orientation(own.turns)
        return PlacedInstance(block_key, turned, widths, heights, absolute)

    def _inner_cells(self, item: Item, inner: Block, cells: Lengths) -> Lengths:
        """The cell of a nested block, scaled where the item gives a size."""
        if not item.scaled or not inner.width.cells or not inner.height.cells:
            return cells
        widths, heights = self._at(item.width, cells), self._at(item.height, cells)
        made = []
        for width, height in zip(widths, heights, strict=True):
            cell = (width - inner.width.fixed) / inner.width.cells
            other = (height - inner.height.fixed) / inner.height.cells
            if cell != other or cell <= ZERO:
                self.findings.error(
                    "nested-size-mismatch",
                    f"`{inner.id}` has a grid of {inner.width.cells} by {inner.height.cells} cells and cannot be "
                    f"{item.width.cells} by {item.height.cells}", item.span,
                    "scale a nested block in the proportions of its grid",
                )
                return cells
            made.append(cell)
        return tuple(made)

    def _key_of_unit(
        self, item: Item, cells: Lengths, own: Orientation, absolute: Orientation
    ) -> tuple[UnitKey, int]:
        """The made unit of an item, and the extra quarter turns where its mirror image is a turned original."""
        unit = self._by_unit[item.ref]
        widths, heights = self._at(item.width, cells), self._at(item.height, cells)
        extents = tuple((name, self._at(extent, cells)) for name, extent in unit.extents)
        base = UnitKey(unit.id, widths, heights, extents, False, 0)
        mirror, extra = own.mirror, 0
        flat = self._flat_unit(unit, base, 0)
        if mirror:
            same = self._mirror_turn(f"unit {unit.id}", (*widths, *heights), flat, (widths, heights))
            if same is not None:
                mirror, extra = False, same
        turn = 0
        if self._one_way[unit.id]:
            turn = (absolute.turns + extra) % 4
            recipe = BY_NAME[unit.method].recipe(self.request(base, 0)) if flat else None
            gives = set(recipe.turns(self.one_way_roles(unit))) if recipe is not None else {0}
            turn = min(_least_turn(flat, widths[0], heights[0], (turn - offset) % 4) for offset in gives)
        return UnitKey(unit.id, widths, heights, extents, mirror, turn), extra

    def least_turn(self, key: UnitKey, turn: int) -> int:
        """The least turn in which a unit looks as in this one; its prints up, it is then made alike."""
        return _least_turn(self._flat_unit(self._by_unit[key.unit], key, 0), key.widths[0], key.heights[0], turn % 4)

    def one_way_roles(self, unit: Unit) -> tuple[str, ...]:
        """The roles of a unit whose fabrics have one-way prints."""
        return tuple(role for role, fabric in unit.fabrics if self._one_way[fabric])

    def request(self, key: UnitKey, size: int) -> Request:
        """The unit as its method is asked for it in one size."""
        unit = self._by_unit[key.unit]
        return Request(
            width=key.widths[size], height=key.heights[size], roles=tuple(role for role, _ in unit.fabrics),
            words=unit.words, extents=tuple((name, lengths[size]) for name, lengths in key.extents),
            rules=self.design.rules.triangle_rules,
        )

    def _flat_unit(self, unit: Unit, key: UnitKey, size: int) -> tuple[tuple[str, Polygon], ...]:
        method = BY_NAME[unit.method]
        fabrics = dict(unit.fabrics)
        request = self.request(key, size)
        if method.refuse(request):
            return ()
        return tuple((fabrics[patch.role], patch.outline) for patch in method.patches(request))

    def _flat_block(self, block: Block, cells: Lengths) -> tuple[tuple[str, Polygon], ...]:
        """All patches of a block in its first size, for comparing it with its mirror image."""
        known = self._flat.get((block.id, cells))
        if known is not None:
            return known
        patches: list[tuple[str, Polygon]] = []
        aside = ZERO
        for line in block.lines:
            along = ZERO
            for item in line:
                x, y = (along, aside) if block.axis == "rows" else (aside, along)
                width, height = item.width.at(cells[0]), item.height.at(cells[0])
                for fabric, polygon in self._flat_item(item, cells, width, height):
                    laid = item.orientation.polygon(polygon, width, height)
                    patches.append((fabric, moved(laid, x, y)))
                along += (item.across if block.axis == "rows" else item.down).at(cells[0])
            aside += (line[0].down if block.axis == "rows" else line[0].across).at(cells[0])
        self._flat[block.id, cells] = tuple(patches)
        return tuple(patches)

    def _flat_item(
        self, item: Item, cells: Lengths, width: Length, height: Length
    ) -> tuple[tuple[str, Polygon], ...]:
        if item.kind == "fabric":
            return ((item.ref, rectangle(width, height)),)
        if item.kind == "unit":
            unit = self._by_unit[item.ref]
            extents = tuple((name, self._at(extent, cells)) for name, extent in unit.extents)
            widths, heights = self._at(item.width, cells), self._at(item.height, cells)
            return self._flat_unit(unit, UnitKey(unit.id, widths, heights, extents, False, 0), 0)
        inner = self._by_block[item.ref]
        return self._flat_block(inner, self._inner_cells(item, inner, cells))

    def _mirror_turn(
        self, name: str, sizes: Lengths, flat: tuple[tuple[str, Polygon], ...], extent: tuple[Lengths, Lengths]
    ) -> int | None:
        """The quarter turns of the original that show its mirror image, or None where nothing but mirroring does."""
        if (name, sizes) not in self._turns:
            width, height = extent[0][0], extent[1][0]
            mirrored = _laid(flat, width, height, Orientation(0, True))
            self._turns[name, sizes] = next(
                (turn for turn in range(4) if _laid(flat, width, height, Orientation(turn)) == mirrored), None
            )
        return self._turns[name, sizes]

    def _block_size(self, block: Block, cells: Lengths) -> tuple[Lengths, Lengths]:
        return self._at(block.width, cells), self._at(block.height, cells)

    @staticmethod
    def _at(extent: Extent, cells: Lengths) -> Lengths:
        return tuple(extent.at(cell) for cell in cells)

    def count(self, key: BlockKey | UnitKey | PatchKey, counts: Counts, use: str, lay: Orientation) -> None:
        """Add so many of a made thing (per size), and everything that it is made of."""
        if isinstance(key, PatchKey):
            total = self.patches.setdefault(key, [0] * self.size_count)
            uses = self.patch_uses.setdefault(key, [])
            if use not in uses:
                uses.append(use)
        elif isinstance(key, UnitKey):
            total = self.units[key].counts
            by_lay = self.units[key].lays.setdefault(lay.turns, [0] * self.size_count)
            for index, number in enumerate(counts):
                by_lay[index] += number
        else:
            instance = self.blocks[key]
            total = instance.counts
            for line in instance.lines:
                for placed in line:
                    if isinstance(placed.key, BlockKey):
                        self.count(placed.key, counts, placed.key.block, placed.lay)
                    else:
                        self.count(placed.key, counts, key.block, placed.lay)
        for index, number in enumerate(counts):
            total[index] += number


def _least_turn(flat: tuple[tuple[str, Polygon], ...], width: Length, height: Length, turn: int) -> int:
    """The least turn that shows the same patches, for units that look alike turned."""
    wanted = _laid(flat, width, height, Orientation(turn))
    return next(other for other in range(4) if _laid(flat, width, height, Orientation(other)) == wanted)


def cells_of_blocks(design: Design) -> dict[str, Lengths]:
    """Cells per size of every block that has one somewhere; a size without one borrows it, as it is not used."""
    made: dict[str, Lengths] = {}
    for block in design.blocks:
        cells = [dict(size.cells).get(block.id) for size in design.sizes]
        known = [cell for cell in cells if cell is not None]
        if known:
            made[block.id] = tuple(cell if cell is not None else known[0] for cell in cells)
    return made


def _laid(
    flat: tuple[tuple[str, Polygon], ...], width: Length, height: Length, lay: Orientation
) -> frozenset[tuple[str, Polygon]]:
    return frozenset((fabric, canonical(_clockwise(lay.polygon(polygon, width, height)))) for fabric, polygon in flat)


def _clockwise(polygon: Polygon) -> Polygon:
    """The polygon with its corners clockwise (y running down)."""
    total = ZERO
    for here, there in zip(polygon, polygon[1:] + polygon[:1], strict=True):
        total += here.x * there.y - there.x * here.y
    return polygon if total.sign() >= 0 else polygon[::-1]
