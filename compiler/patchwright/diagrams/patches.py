"""Every patch of a thing of the plan, flat on the page of the quilt: outlines in the pattern's unit with their cloth.

In: a plan; a piece, unit or assembly, how it lies, and the size of the quilt.
Out: patches in the thing's own coordinates, from its upper left corner.
Never: anything per place in the quilt; a thing is flattened once for each way in which it lies.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import sqrt

from patchwright.core.geometry import UPRIGHT, Orientation
from patchwright.diagrams.scene import XY
from patchwright.methods.registry import BY_NAME
from patchwright.planning.plan import Assembly, PlacedKind, Plan, PlannedUnit, TopItem

Outline = tuple[XY, ...]
ROOT = sqrt(2)


@dataclass(frozen=True, slots=True)
class ClothPatch:
    """One finished patch: the letter of its fabric, its corners, and the piece that it is where it is cut to shape."""

    letter: str
    outline: Outline
    piece: str = ""


@dataclass(frozen=True, slots=True)
class Flat:
    """A thing lying flat: its finished width and height, and its patches."""

    width: float
    height: float
    patches: tuple[ClothPatch, ...]


class PatchBook:
    """All flattened things of one plan, each worked out when first asked for."""

    __slots__ = ("_assemblies", "_flats", "_letters", "_pieces", "_units")

    def __init__(self, plan: Plan) -> None:
        fabrics = {fabric.id: fabric.letter for fabric in plan.fabrics}
        self._pieces = {piece.id: fabrics[piece.fabric] for piece in plan.pieces}
        self._letters = fabrics
        self._units = {unit.id: unit for unit in plan.units}
        self._assemblies = {assembly.id: assembly for assembly in plan.assemblies}
        self._flats: dict[tuple[str, str, Orientation, int], Flat] = {}

    def unit(self, ref: str) -> PlannedUnit:
        return self._units[ref]

    def assembly(self, ref: str) -> Assembly:
        return self._assemblies[ref]

    def piece_letter(self, ref: str) -> str:
        """The letter of the fabric that a piece is cut from."""
        return self._pieces[ref]

    def fabric_letter(self, fabric: str) -> str:
        """The letter of a fabric by its id, or nothing where it is a cloth outside the plan's fabrics."""
        return self._letters.get(fabric, "")

    def item(self, item: TopItem, size: int) -> Flat:
        """A part of the top as it lies there, in the box around it."""
        if item.on_point:
            side = float(item.width) / ROOT
            return on_point(self.flat(item.kind, item.ref, item.orientation, size, (side, side)))
        if item.outline:
            outline = tuple((float(corner.x - item.x), float(corner.y - item.y)) for corner in item.outline)
            return Flat(float(item.width), float(item.height), (ClothPatch(self._pieces[item.ref], outline, item.ref),))
        return self.flat(item.kind, item.ref, item.orientation, size, (float(item.width), float(item.height)))

    def flat(self, kind: PlacedKind, ref: str, lay: Orientation, size: int, extent: tuple[float, float]) -> Flat:
        """A thing as it lies; `extent` is its finished width and height there, which only a plain piece needs."""
        if kind == "piece":
            return self._flat_piece(ref, *extent)
        key = (kind, ref, lay, size)
        if key not in self._flats:
            upright = self._flat_unit(ref, size) if kind == "unit" else self._flat_assembly(ref, size)
            self._flats[key] = laid(upright, lay)
        return self._flats[key]

    def _flat_piece(self, ref: str, width: float, height: float) -> Flat:
        outline = ((0.0, 0.0), (width, 0.0), (width, height), (0.0, height))
        return Flat(width, height, (ClothPatch(self._pieces[ref], outline, ref),))

    def _flat_unit(self, ref: str, size: int) -> Flat:
        unit = self._units[ref]
        planned = unit.sizes[size]
        if planned is None:
            raise ValueError(f"unit {ref} does not exist in size {size}")
        letters = {role: self._letters[fabric] for role, fabric in unit.fabrics}
        patches = tuple(
            ClothPatch(letters[patch.role], tuple((float(corner.x), float(corner.y)) for corner in patch.outline))
            for patch in BY_NAME[unit.method].patches(planned.request)
        )
        flat = Flat(float(planned.request.width), float(planned.request.height), patches)
        return laid(flat, Orientation(0, mirror=True)) if unit.hand == "reversed" else flat

    def _flat_assembly(self, ref: str, size: int) -> Flat:
        parts = list(self.parts(self._assemblies[ref], size))
        width = max(x + flat.width for _, x, _, flat in parts)
        height = max(y + flat.height for _, _, y, flat in parts)
        patches = tuple(patch for _, x, y, flat in parts for patch in moved_patches(flat.patches, x, y))
        return Flat(width, height, patches)

    def parts(self, assembly: Assembly, size: int) -> Iterator[tuple[int, float, float, Flat]]:
        """The parts of an assembly at @0: the number of their row or column, their place, and their patches."""
        rows = assembly.axis == "rows"
        across = 0.0
        for number, line in enumerate(assembly.lines):
            along = thickness = 0.0
            for placed in line:
                extent = placed.sizes[size]
                if extent is None:
                    continue
                width, height = float(extent[0]), float(extent[1])
                flat = self.flat(placed.kind, placed.ref, placed.orientation, size, (width, height))
                yield (number, along, across, flat) if rows else (number, across, along, flat)
                along += width if rows else height
                thickness = height if rows else width
            across += thickness


def moved_patches(patches: Sequence[ClothPatch], dx: float, dy: float) -> Iterator[ClothPatch]:
    for patch in patches:
        yield ClothPatch(patch.letter, tuple((x + dx, y + dy) for x, y in patch.outline), patch.piece)


def laid(flat: Flat, lay: Orientation) -> Flat:
    """A flat thing mirrored and turned as an orientation says."""
    if lay == UPRIGHT:
        return flat
    width, height = (flat.height, flat.width) if lay.sideways else (flat.width, flat.height)
    patches = tuple(
        ClothPatch(patch.letter, laid_outline(patch.outline, lay, flat.width, flat.height), patch.piece)
        for patch in flat.patches
    )
    return Flat(width, height, patches)


def on_point(flat: Flat) -> Flat:
    """A square thing turned by an eighth counterclockwise, in the box around it: its upper left corner points left."""
    half = flat.width / ROOT
    patches = tuple(
        ClothPatch(patch.letter, tuple(((x + y) / ROOT, half + (y - x) / ROOT) for x, y in patch.outline), patch.piece)
        for patch in flat.patches
    )
    return Flat(2 * half, 2 * half, patches)


def laid_outline(outline: Outline, lay: Orientation, width: float, height: float) -> Outline:
    """An outline in a `width` x `height` rectangle, mirrored and turned with it, corners still clockwise."""
    points = [(width - x, y) for x, y in reversed(outline)] if lay.mirror else list(outline)
    for _ in range(lay.turns):
        points = [(height - y, x) for x, y in points]
        width, height = height, width
    return tuple(points)
