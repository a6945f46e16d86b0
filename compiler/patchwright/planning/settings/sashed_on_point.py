"""Sashing on point: strips on all sides of every block, in diagonal rows of blocks and of sashing by turns.

Everything lies on a grid along the diagonals. Sashing that ends at an edge of the quilt ends there in half a
cornerstone, a triangle with its long edge outward, cut from a square twice, or is a long strip trimmed to a slant; the
edge runs through the middles of the outermost crossings, so that the setting triangles are as large as without sashing.
In: the grid of a size, what lies between its blocks, and the sashing.
Out: all parts of the center at their places, by diagonal rows, and the cloth that they take.
Never: a float; sashing reaches the edge.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from patchwright.core.geometry import Point, Polygon
from patchwright.core.length import ROOT_TWO, ZERO, Cut, Length
from patchwright.design.design import OnPoint, Sashing
from patchwright.methods.allowance import TriangleCut, half_square_cut, quarter_square_cut
from patchwright.planning.settings.drawing import Center, ClothKey, ClothNeed, Drawing, TopPart, around
from patchwright.planning.settings.laying_out import LayingOut, Measured

TRIANGLES = "setting-triangles"
FOUR = 4
Stretch = tuple[Length, Length]
"""Where something begins and ends along one of the two diagonals."""


@dataclass(frozen=True, slots=True)
class SashedDiagonals:
    """Lays out one center; `side` is the finished side of the blocks.

    Along a row, to the upper right, blocks stand at whole steps of block and sash; so do the rows, to the lower right.
    """

    laying: LayingOut
    drawing: Drawing
    setting: OnPoint
    sashing: Sashing
    blocks: Sequence[Sequence[Measured | None]]
    between: Sequence[Sequence[Measured | None]]
    side: Length

    @property
    def across(self) -> int:
        return self.laying.size.across

    @property
    def down(self) -> int:
        return self.laying.size.down

    @property
    def step(self) -> Length:
        """A block and a sash."""
        return self.side + self.sashing.width

    def place(self) -> Center:
        """Row by row from the upper left corner; rows of sashing have the odd numbers."""
        rows = self.across + self.down
        for row in range(rows + 1):
            self._row(row)
            if row < rows:
                self._sash_row(row)
        self._need_triangles()
        diagonal = self.step * ROOT_TWO
        return Center(
            (diagonal,) * self.across, (diagonal,) * self.down, diagonal * self.across, diagonal * self.down,
            (self.sashing.width, self.sashing.width),
        )

    def _reach(self, row: int) -> tuple[int, int] | None:
        """The first and the last step that a row's blocks stand at; None for the corners before and after them."""
        if not 0 < row < self.across + self.down:
            return None
        first, last = max(0, row - self.down), min(self.across, row) - 1
        return 2 * first - row + 1, 2 * last - row + 1

    def _row(self, row: int) -> None:
        """Triangle, strip, block, strip, block … triangle."""
        reach = self._reach(row)
        if reach is None:
            self._triangle(row, 0 if row == 0 else self.across - self.down)
            return
        low, high = reach
        self._triangle(row, low - 1)
        for step in range(low, high + 1):
            self._strip(self._gap(step - 1), self._cell(row), "upright", row * 2)
            self._block(row, step)
        self._strip(self._gap(high), self._cell(row), "upright", row * 2)
        self._triangle(row, high + 1)

    def _block(self, row: int, step: int) -> None:
        """The block at a step of a row, or what lies between four blocks."""
        column, down = (row - 1 + step) // 2, (row - 1 - step) // 2
        is_block = (row - 1 + step) % 2 == 0
        entry = self.blocks[down][column] if is_block else self.between[down][column]
        if entry is None:
            return
        outline = _tile(self._cell(step), self._cell(row))
        part = "setting" if entry.key is None else "block"
        key = entry.key or self.drawing.need(
            ClothKey(entry.placement.ref, part, "square"), ClothNeed(self.side, self.side, 1), entry.placement.span
        )
        self.drawing.parts.append(
            TopPart(key, part, entry.orientation, *around(outline), outline, on_point=True, row=row * 2)
        )

    def _sash_row(self, row: int) -> None:
        """Strips and cornerstones by turns, with half a cornerstone at both ends, or one long strip."""
        known = [reach for reach in (self._reach(row), self._reach(row + 1)) if reach is not None]
        low, high = min(reach[0] for reach in known), max(reach[1] for reach in known)
        number, aside, stone = row * 2 + 1, self._gap(row), self.sashing.cornerstone
        if not stone:
            self._long((self._gap(low - 1)[0], self._gap(high)[1]), aside, number)
            return
        for step in range(low - 1, high + 1):
            if step >= low:
                self._strip(self._cell(step), aside, "level", number)
            outline = self._inside(_tile(self._gap(step), aside))
            if step in (low - 1, high):
                self.drawing.shape(ClothKey(stone, "cornerstones", "edge"), outline, number)
            else:
                width = self.sashing.width
                key = self.drawing.need(
                    ClothKey(stone, "cornerstones", "square"), ClothNeed(width, width, 1), self.sashing.span
                )
                self.drawing.shape(key, outline, number)

    def _strip(self, along: Stretch, aside: Stretch, label: str, number: int) -> None:
        need = ClothNeed(along[1] - along[0], aside[1] - aside[0], 1)
        key = self.drawing.need(ClothKey(self.sashing.fabric, "sashing", label), need, self.sashing.span)
        self.drawing.shape(key, _tile(along, aside), number)

    def _long(self, along: Stretch, aside: Stretch, number: int) -> None:
        """A strip from edge to edge; the slants take a seam allowance that reaches further along it."""
        outline = self._inside(_tile(along, aside))
        places = [(corner.x - corner.y) * ROOT_TWO / 2 for corner in outline]
        long, seam = max(places) - min(places), self.laying.instances.design.rules.seam
        cut = (Cut(self.sashing.width + seam * 2), Cut(long + (seam + seam * ROOT_TWO) * 2))
        need = ClothNeed(self.sashing.width, long, 1, cut)
        key = self.drawing.need(ClothKey(self.sashing.fabric, "sashing", "long"), need, self.sashing.span)
        self.drawing.shape(key, outline, number)

    def _triangle(self, row: int, step: int) -> None:
        """The part of a block's place beside the edge that lies inside the quilt."""
        outline = self._inside(_tile(self._cell(step), self._cell(row)))
        square = self._is_corner(outline)
        self.drawing.shape(ClothKey(self.setting.fabric, TRIANGLES, "corner" if square else "side"), outline, row * 2)

    def _is_corner(self, outline: Polygon) -> bool:
        right, bottom = (self.step * ROOT_TWO * count for count in (self.across, self.down))
        return any(corner.x in (ZERO, right) and corner.y in (ZERO, bottom) for corner in outline)

    def _cell(self, step: int) -> Stretch:
        """The place of a block at a step, along either diagonal."""
        return self.step * step - self.side / 2, self.step * step + self.side / 2

    def _gap(self, step: int) -> Stretch:
        """The place of the sash after a step."""
        start = self.step * step + self.side / 2
        return start, start + self.sashing.width

    def _inside(self, outline: Polygon) -> Polygon:
        """What of a shape with slanted and straight edges lies within the quilt's edges, clockwise."""
        right, bottom = (self.step * ROOT_TWO * count for count in (self.across, self.down))
        for axis, limit, sign in ((0, ZERO, 1), (0, right, -1), (1, ZERO, 1), (1, bottom, -1)):
            outline = _cut_off(outline, axis, limit, sign)
        return outline

    def _need_triangles(self) -> None:
        """The squares to cut: four sides from each, or two corners; four half cornerstones too."""
        rules, diagonal = self.laying.instances.design.rules.triangle_rules, self.side * ROOT_TWO
        fabric, span = self.setting.fabric, self.setting.span
        sides = 2 * (self.across + self.down - 2)
        if sides:
            key = ClothKey(fabric, TRIANGLES, "side")
            self._need(key, diagonal, self._squares(fabric, sides, -1), quarter_square_cut(diagonal, rules))
        corner = half_square_cut(diagonal / 2, rules)
        need = ClothNeed(diagonal / 2, diagonal / 2, 2, (corner.cut, corner.cut), "once")
        self.drawing.need(ClothKey(fabric, TRIANGLES, "corner"), need, span)
        stone = self.sashing.cornerstone
        if stone:
            long = self.sashing.width * ROOT_TWO
            count = self._squares(stone, 2 * (self.across + self.down), 0)
            self._need(ClothKey(stone, "cornerstones", "edge"), long, count, quarter_square_cut(long, rules))

    def _squares(self, fabric: str, triangles: int, fewer: int) -> int:
        """A square gives four triangles; of a one-way print one for each edge, which has one for each block or less."""
        if self.laying.instances.is_one_way(fabric):
            return max(self.across, self.down) + fewer
        return -(-triangles // FOUR)

    def _need(self, key: ClothKey, long: Length, count: int, square: TriangleCut) -> None:
        if square.excess < ZERO:
            self.laying.findings.warning(
                "rounded-down", "the setting triangles are cut by a rule that rounds down", self.setting.span,
                "the metric rule gives slightly too little; `triangles: exact` rounds up",
            )
        self.drawing.need(key, ClothNeed(long, long, count, (square.cut, square.cut), "twice"), self.setting.span)


def _tile(along: Stretch, aside: Stretch) -> Polygon:
    """A rectangle on the diagonals, clockwise from its left corner; `along` runs to the upper right."""
    return tuple(
        Point((u + v) * ROOT_TWO / 2, (v - u) * ROOT_TWO / 2)
        for u, v in ((along[0], aside[0]), (along[1], aside[0]), (along[1], aside[1]), (along[0], aside[1]))
    )


def _cut_off(outline: Polygon, axis: int, limit: Length, sign: int) -> Polygon:
    """What of a polygon lies on one side of a level or upright line; its edges are on diagonals or along the line."""
    made: list[Point] = []
    for here, there in zip(outline, outline[1:] + outline[:1], strict=True):
        beyond = [((point.x, point.y)[axis] - limit) * sign for point in (here, there)]
        if beyond[0] >= ZERO:
            made.append(here)
        if beyond[0].sign() * beyond[1].sign() < 0:
            made.append(_crossing(here, there, axis, limit))
    return tuple(dict.fromkeys(made))


def _crossing(here: Point, there: Point, axis: int, limit: Length) -> Point:
    """Where an edge on a diagonal, or at right angles to a line, crosses the line."""
    rise = there.y - here.y if axis == 0 else there.x - here.x
    run = there.x - here.x if axis == 0 else there.y - here.y
    moved = limit - (here.x if axis == 0 else here.y)
    other = (here.y if axis == 0 else here.x) + moved * (rise.sign() * run.sign())
    return Point(limit, other) if axis == 0 else Point(other, limit)
