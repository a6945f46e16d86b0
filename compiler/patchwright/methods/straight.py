"""Units of rectangles only: how their pieces lie apart, side by side and sewn, for every method that has no triangles.

In: finished rectangles that tile a unit, and the seam.
Out: what shows of each in a sewn unit with raw edges, and pieces drawn apart.
Never: a rounded size: a plain piece is cut at finished size + 2 seams (common practice).
"""

from __future__ import annotations

from dataclasses import dataclass

from patchwright.core.geometry import Polygon, rectangle
from patchwright.core.length import ZERO, Finished, Length
from patchwright.methods.method import RecipePiece, StageShape, UnitPatch
from patchwright.methods.staging import face


@dataclass(frozen=True, slots=True)
class Tile:
    """A finished rectangle in its unit."""

    role: str
    x: Length
    y: Length
    width: Length
    height: Length

    def patch(self) -> UnitPatch:
        return UnitPatch(self.role, rectangle(self.width, self.height, self.x, self.y))

    def piece(self, name: str, seam: Length, count: int) -> RecipePiece:
        """The piece to cut for it, `count` of them for one batch."""
        return RecipePiece(name, self.role, Finished(self.width).cut(seam), Finished(self.height).cut(seam), count)


def sewn(tiles: tuple[Tile, ...], seam: Length, x: Length = ZERO, y: Length = ZERO) -> tuple[StageShape, ...]:
    """Tiles that form a rectangle, sewn together: those at its edges show the seam allowance there."""
    left, top, right, bottom = _box(tiles)
    shapes = []
    for tile in tiles:
        start = tile.x - (seam if tile.x == left else ZERO), tile.y - (seam if tile.y == top else ZERO)
        end = tile.x + tile.width, tile.y + tile.height
        width = end[0] + (seam if end[0] == right else ZERO) - start[0]
        height = end[1] + (seam if end[1] == bottom else ZERO) - start[1]
        shapes.append(face(tile.role, rectangle(width, height, start[0] + seam + x, start[1] + seam + y)))
    return tuple(shapes)


def raw(tile: Tile, seam: Length, x: Length = ZERO, y: Length = ZERO) -> Polygon:
    """The cut piece of a tile, lying where it will be sewn in a unit whose raw corner is the origin."""
    return rectangle(tile.width + seam * 2, tile.height + seam * 2, tile.x + x, tile.y + y)


def sewn_size(tiles: tuple[Tile, ...], seam: Length) -> tuple[Length, Length]:
    """Width and height of the tiles sewn together, raw edges included."""
    left, top, right, bottom = _box(tiles)
    return right - left + seam * 2, bottom - top + seam * 2


def _box(tiles: tuple[Tile, ...]) -> tuple[Length, Length, Length, Length]:
    return (
        min(tile.x for tile in tiles),
        min(tile.y for tile in tiles),
        max(tile.x + tile.width for tile in tiles),
        max(tile.y + tile.height for tile in tiles),
    )
