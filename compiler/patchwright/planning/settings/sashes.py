"""Sashing between blocks that lie straight: strips of cloth or blocks, between rows alone or all around.

In: the columns and rows of a grid, where they begin, and the size's sashing.
Out: strips and cornerstones at their places.
A strip that is a block stands upright between two columns, and lies turned clockwise by a quarter between two rows.
Never: a place of a block of the grid.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from patchwright.core.geometry import Orientation
from patchwright.core.length import ZERO, Length
from patchwright.design.design import Placement, Sashing
from patchwright.planning.settings.drawing import Drawing, Place
from patchwright.planning.settings.laying_out import LayingOut, Measured

Sides = tuple[tuple[Length, ...], tuple[Length, ...]]
"""Widths of columns and heights of rows."""
LEVEL = Orientation(1)


def sash_widths(laying: LayingOut, sashing: Sashing, sides: Sides) -> tuple[Length, Length] | None:
    """How wide sashing is between columns and between rows; None where its blocks do not fit, which is reported."""
    across = ZERO if sashing.between == "rows" else sashing.width
    widths = (across, sashing.height)
    if sashing.block is not None:
        strip = laying.measured(sashing.block)
        if strip is None or not _strips_fit(laying, sashing, strip, sides):
            return None
        widths = (ZERO if sashing.between == "rows" else strip.width, strip.width)
    stone = laying.measured(sashing.cornerstone_block) if sashing.cornerstone_block is not None else None
    if sashing.cornerstone_block is not None and (stone is None or not _stone_fits(laying, stone, widths)):
        return None
    return widths


def _strips_fit(laying: LayingOut, sashing: Sashing, strip: Measured, sides: Sides) -> bool:
    """Whether the block that is a strip is as long as all sides that it lies beside."""
    wanted = sides[0] if sashing.between == "rows" else (*sides[0], *sides[1])
    odd = next((side for side in wanted if side != strip.height), None)
    if odd is None:
        return True
    laying.findings.error(
        "block-size-mismatch",
        f"`{strip.placement.ref}` is {laying.text(strip.width)} by {laying.text(strip.height)} and lies as sashing "
        f"beside a block {laying.text(odd)} long, in `{laying.size.name}`", strip.placement.span,
        f"make the strip {laying.text(odd)} high; it is written as it stands between two columns",
        "blocks of several sizes, or that are not square, take plain sashing",
    )
    return False


def _stone_fits(laying: LayingOut, stone: Measured, widths: tuple[Length, Length]) -> bool:
    if (stone.width, stone.height) == widths:
        return True
    laying.findings.error(
        "block-size-mismatch",
        f"the cornerstone `{stone.placement.ref}` is {laying.text(stone.width)} by {laying.text(stone.height)}, and "
        f"the sashing crosses in {laying.text(widths[0])} by {laying.text(widths[1])}, in `{laying.size.name}`",
        stone.placement.span, f"make it {laying.text(widths[0])} by {laying.text(widths[1])}",
    )
    return False


@dataclass(frozen=True, slots=True)
class Sashes:
    """Places the sashing of one grid."""

    laying: LayingOut
    drawing: Drawing
    sashing: Sashing
    sides: Sides
    begins: tuple[list[Length], list[Length]]
    widths: tuple[Length, Length]

    def place(self, width: Length) -> None:
        """Strips beside the blocks of each row, then the rows of sashing: one long strip, or strips and stones."""
        columns, rows = self.sides
        lefts, tops = self.begins
        across, down = self.widths
        gap_xs, gap_ys = self._gaps(0), self._gaps(1)
        for row, y in enumerate(tops):
            for x in gap_xs:
                self._strip("upright", (x, y, across, rows[row]))
        for y in gap_ys:
            if not self.sashing.cornerstone and self.sashing.block is None:
                self._strip("long", (ZERO, y, width, down))
                continue
            for column, x in enumerate(lefts):
                self._strip("level", (x, y, columns[column], down))
            for x in gap_xs:
                self._stone((x, y, across, down))

    def _strip(self, label: str, place: Place) -> None:
        if self.sashing.block is None:
            self.drawing.lay(self.sashing.fabric, "sashing", label, place, self.sashing.span)
            return
        for entry in self._block(self.sashing.block, Orientation(0) if label == "upright" else LEVEL):
            if entry.key is not None:
                self.drawing.place(entry.key, "sashing", entry.orientation, place)

    def _stone(self, place: Place) -> None:
        if self.sashing.cornerstone_block is None:
            self.drawing.lay(self.sashing.cornerstone, "cornerstones", "square", place, self.sashing.span)
            return
        for entry in self._block(self.sashing.cornerstone_block, Orientation(0)):
            if entry.key is not None:
                self.drawing.place(entry.key, "cornerstones", entry.orientation, place)

    def _block(self, placement: Placement, turned: Orientation) -> Iterator[Measured]:
        entry = self.laying.measured(placement, turned)
        if entry is not None:
            yield entry

    def _gaps(self, axis: int) -> list[Length]:
        """Where strips between the sides begin, and with a frame those before the first and after the last."""
        if not self.widths[axis]:
            return []
        sides, begins = self.sides[axis], self.begins[axis]
        inner = [start + side for start, side in zip(begins[:-1], sides[:-1], strict=True)]
        return [ZERO, *inner, begins[-1] + sides[-1]] if self.sashing.frame else inner
