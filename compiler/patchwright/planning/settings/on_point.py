"""The setting on point: blocks turned by an eighth in diagonal rows, filled up with triangles along the edges.

The edges of the quilt lie on the straight grain: a side triangle is a quarter of a square that is cut twice, so that
its long edge is on the grain, and a corner is half of a square that is cut once, so that its short edges are.
In: the grid of a size and what lies between its blocks.
Out: blocks, plain squares and triangles at their places, and the squares that the triangles are cut from.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from patchwright.core.diagnostics import Note
from patchwright.core.geometry import Point, Polygon
from patchwright.core.length import ROOT_TWO, ZERO, Length
from patchwright.design.design import OnPoint, Sashing
from patchwright.methods.allowance import TriangleCut, half_square_cut, quarter_square_cut
from patchwright.methods.method import Then
from patchwright.planning.settings.coped_blocks import coped
from patchwright.planning.settings.drawing import Center, ClothKey, ClothNeed, Drawing, TopPart, around
from patchwright.planning.settings.laying_out import LayingOut, Measured
from patchwright.planning.settings.sashed_on_point import SashedDiagonals

PART = "setting-triangles"
SIDES_OF_A_SQUARE = 4
CORNERS_OF_A_SQUARE = 2


def on_point(laying: LayingOut, drawing: Drawing) -> Center | None:
    """Lay out the center, or report blocks that are not square or not alike."""
    setting = laying.size.on_point
    if setting is None:
        raise ValueError(f"{laying.size.name} is not set on point")
    grids = coped(laying, [laying.grid(grid) for grid in (laying.size.grid, setting.between)], square=True)
    side = common_side(laying, [entry for grid in grids for row in grid for entry in row])
    if side is None:
        return None
    warn_of_one_way(laying, [entry for grid in grids for row in grid for entry in row if entry is not None])
    trimmed = _trimmed(laying, setting, side)
    if trimmed is None:
        return None
    setting = trimmed
    sashing = laying.size.sashing
    if sashing is not None:
        _warn_of_one_way_sashing(laying, sashing)
        return SashedDiagonals(laying, drawing, setting, sashing, grids[0], grids[1], side).place()
    diagonals = Diagonals(laying, drawing, setting, grids[0], grids[1], side)
    center = diagonals.place()
    diagonals.need_squares()
    return center


def _trimmed(laying: LayingOut, setting: OnPoint, side: Length) -> OnPoint | None:
    """The setting with the float that a size to trim to asks for; one that is too small or uneven is reported."""
    if setting.trim_to is None:
        return setting
    across, down = (side * ROOT_TWO * count for count in (laying.size.across, laying.size.down))
    floats = [(whole - own) / 2 for whole, own in zip(setting.trim_to, (across, down), strict=True)]
    if min(floats) >= ZERO and floats[0] == floats[1]:
        return replace(setting, float=floats[0])
    step = laying.instances.design.rules.round_cuts
    least = across.up_to(step)
    short = "is smaller than the blocks from point to point"
    told = short if min(floats) < ZERO else "floats unevenly about the blocks"
    hint = f"the least that would do is {laying.text(least)} square"
    if across != down:
        hint = "give `float` in its place, which is the same on all sides"
    laying.findings.error(
        "trim-to-does-not-fit",
        f"{laying.text(setting.trim_to[0])} by {laying.text(setting.trim_to[1])} {told}, {laying.text(across)} by "
        f"{laying.text(down)}, in `{laying.size.name}`", setting.span, hint,
    )
    return None


def common_side(laying: LayingOut, placed: list[Measured | None]) -> Length | None:
    """The finished side of all blocks; those that are not square or not alike are reported."""
    if any(entry is None for entry in placed):
        return None
    known = [entry for entry in placed if entry is not None and entry.key is not None]
    if not known:
        laying.findings.error(
            "block-size-mismatch", f"`{laying.size.name}` holds only plain cloth", laying.size.span,
            "a block gives the setting its size",
        )
        return None
    first = known[0]
    for entry in known:
        if entry.width != entry.height:
            laying.findings.error(
                "on-point-not-square",
                f"`{entry.placement.ref}` is {laying.text(entry.width)} by {laying.text(entry.height)}, and blocks set "
                "on point are square", entry.placement.span, "make the block as high as it is wide",
            )
            return None
        if entry.width != first.width:
            laying.findings.error(
                "block-size-mismatch",
                f"`{entry.placement.ref}` is {laying.text(entry.width)} square and `{first.placement.ref}` is "
                f"{laying.text(first.width)}, in `{laying.size.name}`", entry.placement.span,
                "all blocks set on point have one size; change `cell` or `size` of one",
                notes=[Note(first.placement.span, f"{laying.text(first.width)} square")],
            )
            return None
    return first.width


def warn_of_one_way(laying: LayingOut, placed: list[Measured]) -> None:
    """Warn of one-way prints in blocks that stand on their corners."""
    for name, entry in {entry.placement.ref: entry for entry in placed}.items():
        if laying.instances.is_one_way(name):
            laying.findings.warning(
                "one-way-on-point", f"the one-way print in `{name}` lies on the diagonal on point",
                entry.placement.span, "choose a print without a direction, or turn it to suit you and allow this",
            )


def _warn_of_one_way_sashing(laying: LayingOut, sashing: Sashing) -> None:
    for fabric in dict.fromkeys(name for name in (sashing.fabric, sashing.cornerstone) if name):
        if laying.instances.is_one_way(fabric):
            laying.findings.warning(
                "one-way-on-point", f"the one-way print `{fabric}` lies on the diagonal in sashing on point",
                sashing.span, "choose a print without a direction, or allow this",
            )


@dataclass(frozen=True, slots=True)
class Diagonals:
    """Lays out blocks on point in a rectangle of setting triangles; `side` is the finished side of the blocks."""

    laying: LayingOut
    drawing: Drawing
    setting: OnPoint
    blocks: list[list[Measured | None]]
    between: list[list[Measured | None]]
    side: Length

    @property
    def across(self) -> int:
        return len(self.blocks[0])

    @property
    def down(self) -> int:
        return len(self.blocks)

    @property
    def diagonal(self) -> Length:
        """The diagonal of a block, which is its width and height as it lies."""
        return self.side * ROOT_TWO

    def place(self) -> Center:
        """Place row by row, each from its lower left end; the two corners that end no row come first and last."""
        self._corner(0, Point(ZERO, ZERO), (-1, -1))
        for row in range(1, self.across + self.down):
            self._row(row)
        self._corner(self.across + self.down, self._at(self.across, self.down), (1, 1))
        width, height = (self.diagonal * count + self.setting.float * 2 for count in (self.across, self.down))
        return Center((self.diagonal,) * self.across, (self.diagonal,) * self.down, width, height)

    def _at(self, across: int, down: int) -> Point:
        """A point of the grid of whole diagonals, from the upper left corner of the box around the block points."""
        return Point(self.diagonal * across, self.diagonal * down)

    def _row(self, row: int) -> None:
        """A triangle, blocks and what lies between them by turns, and a triangle."""
        first = max(0, row - self.down)
        last = min(self.across, row) - 1
        self._end(row, first, row - 1 - first, lower=True)
        for column in range(first, last + 1):
            down = row - 1 - column
            self._block(row, self.blocks[down][column], 2 * column + 1, 2 * down + 1)
            if column < last:
                self._block(row, self.between[down - 1][column], 2 * column + 2, 2 * down)
        self._end(row, last, row - 1 - last, lower=False)

    def _block(self, row: int, entry: Measured | None, halves_across: int, halves_down: int) -> None:
        """A block or a plain square with its middle so many half diagonals from the upper left."""
        if entry is None:
            return
        half = self.diagonal / 2
        middle = Point(half * halves_across + self.setting.float, half * halves_down + self.setting.float)
        outline = (
            middle.moved(-half, ZERO), middle.moved(ZERO, -half), middle.moved(half, ZERO), middle.moved(ZERO, half)
        )
        part = "setting" if entry.key is None else "block"
        key = entry.key or self.drawing.need(
            ClothKey(entry.placement.ref, part, "square"), ClothNeed(self.side, self.side, 1), entry.placement.span
        )
        self.drawing.parts.append(
            TopPart(key, part, entry.orientation, *around(outline), outline, on_point=True, row=row)
        )

    def _end(self, row: int, column: int, down: int, lower: bool) -> None:
        """What ends a row beside a block: a side triangle, or a corner where the block lies in a corner."""
        left, top = self.diagonal * column, self.diagonal * down
        half = self.diagonal / 2
        if lower:
            near, far = Point(left, top + half), Point(left + half, top + half * 2)
            at_edge, at_other = column == 0, down == self.down - 1
        else:
            near, far = Point(left + half, top), Point(left + half * 2, top + half)
            at_edge, at_other = down == 0, column == self.across - 1
        if at_edge and at_other:
            if lower:
                self._corner(row, self._at(0, self.down), (-1, 1))
            else:
                self._corner(row, self._at(self.across, 0), (1, -1))
            return
        self._triangle(row, near, far, at_edge, lower)

    def _triangle(self, row: int, near: Point, far: Point, apex_is_far: bool, lower: bool) -> None:
        """A side triangle beside the edge from `near` to `far` of a block, between the seams of its row.

        With float, the seams run on beyond the points of the blocks to the edge of the quilt.
        """
        beyond, step = self.setting.float, self.diagonal / 2
        sign = -1 if lower else 1
        apex, own = (far, near) if apex_is_far else (near, far)
        other = apex.moved(step * sign, -step * sign)
        outline = (
            apex, own, own.moved(beyond * sign, -beyond * sign), other.moved(beyond * sign, -beyond * sign)
        )
        self.drawing.shape(ClothKey(self.setting.fabric, PART, "side"), self._settled(outline), row)

    def _corner(self, row: int, point: Point, way: tuple[int, int]) -> None:
        """The triangle in a corner of the quilt; `point` is the corner of the box around the block points."""
        beyond, half = self.setting.float, self.diagonal / 2
        level, upright = way
        tip = point.moved(beyond * level, beyond * upright)
        beside, below = point.moved(-half * level, ZERO), point.moved(ZERO, -half * upright)
        outline: Polygon
        if level == upright:
            reach = half + beyond * 2
            outline = (tip, tip.moved(-reach * level, ZERO), tip.moved(ZERO, -reach * upright))
        else:
            along = Point(beyond * level, beyond * upright)
            outline = (
                beside, beside.moved(along.x, along.y), tip, below.moved(along.x, along.y), below
            )
        self.drawing.shape(ClothKey(self.setting.fabric, PART, "corner"), self._settled(outline), row)

    def _settled(self, outline: Polygon) -> Polygon:
        """Moved in by the float, without corners that stand twice, clockwise."""
        beyond = self.setting.float
        points = tuple(dict.fromkeys(point.moved(beyond, beyond) for point in outline))
        turning = sum_of_turns(points)
        return points if turning.sign() > 0 else points[::-1]

    def need_squares(self, times: int = 1) -> None:
        """The squares to cut for so many such rectangles: four sides from each, or two corners.

        Cut twice, a square of a one-way print gives one triangle for each edge of the quilt.
        """
        rules = self.laying.instances.design.rules.triangle_rules
        beyond, fabric = self.setting.float, self.setting.fabric
        sides = 2 * (self.across + self.down - 2) * times
        squares = -(-sides // SIDES_OF_A_SQUARE)
        if self.laying.instances.is_one_way(fabric):
            squares = (max(self.across, self.down) - 1) * times
        long_side, short_side = self.diagonal + beyond * 2, self.diagonal / 2 + beyond * 2
        if sides:
            self._need("side", long_side, squares, quarter_square_cut(long_side, rules), "twice")
        self._need("corner", short_side, 4 * times // CORNERS_OF_A_SQUARE, half_square_cut(short_side, rules), "once")

    def _need(self, label: str, finished: Length, count: int, square: TriangleCut, then: Then) -> None:
        """Enter squares; the metric rule of the trade, which may fall short of the geometry, is remarked."""
        if square.excess < ZERO:
            self.laying.findings.warning(
                "rounded-down", "the setting triangles are cut by a rule that rounds down", self.setting.span,
                "the metric rule gives slightly too little; `triangles: exact` rounds up",
            )
        need = ClothNeed(finished, finished, count, (square.cut, square.cut), then)
        self.drawing.need(ClothKey(self.setting.fabric, PART, label), need, self.setting.span)


def sum_of_turns(points: Polygon) -> Length:
    """Twice the signed area; above zero where the corners run clockwise."""
    total = ZERO
    for here, there in zip(points, points[1:] + points[:1], strict=True):
        total += here.x * there.y - there.x * here.y
    return total
