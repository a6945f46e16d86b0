"""The top of one size: where every block, sash, cornerstone and border lies.

In: a design's size and the pattern's instances.
Out: a `Top`: placed parts with finished places, and the plain cloth (sashing, borders, setting squares) that it takes.
Never: letters of pieces or cut sizes.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from patchwright.core.diagnostics import Findings, Note
from patchwright.core.geometry import UPRIGHT, Orientation
from patchwright.core.length import ZERO, Length
from patchwright.core.measure import plain_length
from patchwright.core.source import NOWHERE, Span
from patchwright.design.design import Border, Placement, Sashing, Size
from patchwright.planning.instances import BlockKey, Instances, Lengths, sum_lengths


@dataclass(frozen=True, slots=True)
class ClothKey:
    """Plain cloth of the top, by what it is; the same key in another size is the same piece there."""

    fabric: str
    part: str
    """`sashing`, `cornerstones`, `border-1` …, `setting`."""
    label: str
    """Tells apart different pieces of one part: `upright`, `level`, `long`, `side`, `end`, `corner`."""
    number: int = 1
    """Counts pieces of one label that differ in length, in the order in which they are met."""


@dataclass(frozen=True, slots=True)
class TopPart:
    """A placed part with its finished place in the top."""

    key: BlockKey | ClothKey
    part: str
    orientation: Orientation
    x: Length
    y: Length
    width: Length
    height: Length


@dataclass(slots=True)
class Top:
    """The finished drawing of one size, before letters."""

    columns: tuple[Length, ...]
    rows: tuple[Length, ...]
    center: tuple[Length, Length]
    size: tuple[Length, Length]
    parts: list[TopPart] = field(default_factory=list)
    cloth: dict[ClothKey, tuple[Length, Length, int]] = field(default_factory=dict)
    """Finished width, height and count of every plain piece."""
    spans: dict[ClothKey, Span] = field(default_factory=dict)


@dataclass(slots=True)
class TopBuilder:
    """Lays out one size."""

    instances: Instances
    findings: Findings
    size: Size
    index: int
    cells: dict[str, Lengths]
    """The cell in every size of each block that has one."""
    _parts: list[TopPart] = field(default_factory=list)
    _cloth: dict[ClothKey, tuple[Length, Length, int]] = field(default_factory=dict)
    _spans: dict[ClothKey, Span] = field(default_factory=dict)

    def build(self) -> Top | None:
        """The top, or None where blocks do not fit together; the mistakes are reported."""
        placed = [[self._block(placement) for placement in row] for row in self.size.grid]
        if any(entry is None for row in placed for entry in row):
            return None
        columns = self._sides(placed, across=True)
        rows = self._sides(placed, across=False)
        if columns is None or rows is None:
            return None
        sashing = self.size.sashing
        gap = sashing.width if sashing is not None else ZERO
        start = gap if sashing is not None and sashing.frame else ZERO
        lefts, tops = _starts(columns, gap, start), _starts(rows, gap, start)
        self._place_blocks(placed, columns, rows, lefts, tops)
        width = lefts[-1] + columns[-1] + start
        height = tops[-1] + rows[-1] + start
        if sashing is not None:
            self._place_sashing(sashing, columns, rows, lefts, tops, width)
        size = self._place_borders(width, height)
        return Top(columns, rows, (width, height), size, self._parts, self._cloth, self._spans)

    def _block(self, placement: Placement) -> tuple[Placement, BlockKey | None, Orientation, Length, Length] | None:
        if placement.kind == "fabric":
            return placement, None, UPRIGHT, ZERO, ZERO
        cells = self.cells.get(placement.ref)
        if cells is None or placement.ref not in dict(self.size.cells):
            self.findings.error(
                "block-without-cell", f"`{placement.ref}` has no size in `{self.size.name}`", placement.span,
                "give the block `cell` or `size`; only a block inside another takes its cell from there",
            )
            return None
        key, orientation = self.instances.place_block(placement.ref, cells, placement.orientation)
        instance = self.instances.blocks[key]
        width, height = orientation.size(instance.widths[self.index], instance.heights[self.index])
        return placement, key, orientation, width, height

    def _sides(self, placed: list[list[tuple[Placement, BlockKey | None, Orientation, Length, Length] | None]],
               across: bool) -> tuple[Length, ...] | None:
        """Widths of the grid's columns, or heights of its rows."""
        lines = [list(line) for line in zip(*placed, strict=True)] if across else placed
        word, side = ("column", "wide") if across else ("row", "high")
        made: list[Length] = []
        for number, line in enumerate(lines, 1):
            known = [(entry[0], entry[3] if across else entry[4]) for entry in line if entry and entry[1] is not None]
            if not known:
                first = line[0]
                self.findings.error(
                    "block-size-mismatch", f"{word} {number} of `{self.size.name}` holds only plain cloth",
                    first[0].span if first else NOWHERE, f"a block in each {word} gives it its size",
                )
                return None
            odd = next((entry for entry in known if entry[1] != known[0][1]), None)
            if odd is not None:
                system = self.instances.design.system
                self.findings.error(
                    "block-size-mismatch",
                    f"`{odd[0].ref}` is {plain_length(odd[1], system)} {side} and `{known[0][0].ref}` is "
                    f"{plain_length(known[0][1], system)} {side}, in one {word} of `{self.size.name}`", odd[0].span,
                    f"blocks of one {word} are equally {side}; change `cell` or `size` of one",
                    notes=[Note(known[0][0].span, f"{plain_length(known[0][1], system)} {side}")],
                )
                return None
            made.append(known[0][1])
        return tuple(made)

    def _place_blocks(
        self, placed: list[list[tuple[Placement, BlockKey | None, Orientation, Length, Length] | None]],
        columns: tuple[Length, ...], rows: tuple[Length, ...], lefts: list[Length], tops: list[Length],
    ) -> None:
        for row, line in enumerate(placed):
            for column, entry in enumerate(line):
                if entry is None:
                    continue
                placement, key, orientation = entry[:3]
                place = (lefts[column], tops[row], columns[column], rows[row])
                if key is not None:
                    self._parts.append(TopPart(key, "block", orientation, *place))
                else:
                    self._lay(placement.ref, "setting", "square", place, placement.span)

    def _lay(
        self, fabric: str, part: str, label: str, place: tuple[Length, Length, Length, Length], span: Span
    ) -> None:
        """Place a plain piece; pieces of one label that differ in size are numbered."""
        x, y, width, height = place
        number = 1
        while (known := self._cloth.get(key := ClothKey(fabric, part, label, number))) is not None:
            if known[:2] == (width, height):
                break
            number += 1
        count = self._cloth[key][2] if key in self._cloth else 0
        self._cloth[key] = (width, height, count + 1)
        self._spans[key] = span
        self._parts.append(TopPart(key, part, UPRIGHT, x, y, width, height))

    def _place_sashing(
        self, sashing: Sashing, columns: tuple[Length, ...], rows: tuple[Length, ...], lefts: list[Length],
        tops: list[Length], width: Length,
    ) -> None:
        gap = sashing.width
        gap_xs = _gaps(columns, lefts, gap, sashing.frame)
        gap_ys = _gaps(rows, tops, gap, sashing.frame)
        for row, y in enumerate(tops):
            for x in gap_xs:
                self._lay(sashing.fabric, "sashing", "upright", (x, y, gap, rows[row]), sashing.span)
        for y in gap_ys:
            if not sashing.cornerstone:
                self._lay(sashing.fabric, "sashing", "long", (ZERO, y, width, gap), sashing.span)
                continue
            for column, x in enumerate(lefts):
                self._lay(sashing.fabric, "sashing", "level", (x, y, columns[column], gap), sashing.span)
            for x in gap_xs:
                self._lay(sashing.cornerstone, "cornerstones", "square", (x, y, gap, gap), sashing.span)

    def _place_borders(self, width: Length, height: Length) -> tuple[Length, Length]:
        """Place the borders around everything so far, which moves inward; return the size of the whole top."""
        total = sum_lengths([border.width for border in self.size.borders])
        self._parts = [
            TopPart(p.key, p.part, p.orientation, p.x + total, p.y + total, p.width, p.height) for p in self._parts
        ]
        inset = total
        for number, border in enumerate(self.size.borders, 1):
            inset -= border.width
            self._place_border(border, f"border-{number}", inset, width, height)
            width, height = width + border.width * 2, height + border.width * 2
        return width, height

    def _place_border(self, border: Border, part: str, inset: Length, width: Length, height: Length) -> None:
        """Two sides as long as what they frame; then top and bottom over the whole width, or between corners."""
        wide = border.width
        right, bottom = inset + wide + width, inset + wide + height
        for x in (inset, right):
            self._lay(border.fabric, part, "side", (x, inset + wide, wide, height), border.span)
        cornered = border.corner_kind != "none"
        start, length = (inset + wide, width) if cornered else (inset, width + wide * 2)
        for y in (inset, bottom):
            self._lay(border.fabric, part, "end", (start, y, length, wide), border.span)
        if not cornered:
            return
        for y in (inset, bottom):
            for x in (inset, right):
                self._place_corner(border, part, (x, y, wide, wide))

    def _place_corner(self, border: Border, part: str, place: tuple[Length, Length, Length, Length]) -> None:
        if border.corner_kind == "fabric":
            self._lay(border.corner, part, "corner", place, border.span)
            return
        cells = self.cells.get(border.corner)
        key = self.instances.place_block(border.corner, cells, UPRIGHT)[0] if cells is not None else None
        instance = self.instances.blocks[key] if key is not None else None
        found = (instance.widths[self.index], instance.heights[self.index]) if instance is not None else None
        if key is None or found != place[2:]:
            system = self.instances.design.system
            size = " by ".join(plain_length(side, system) for side in found) if found else "of no size of its own"
            self.findings.error(
                "block-size-mismatch",
                f"the corner block `{border.corner}` is {size}, the border {plain_length(border.width, system)} wide",
                border.span, "a corner block is as wide and as high as its border",
            )
            return
        self._parts.append(TopPart(key, part, UPRIGHT, *place))


def _starts(sides: tuple[Length, ...], gap: Length, start: Length) -> list[Length]:
    made = [start]
    for side in sides[:-1]:
        made.append(made[-1] + side + gap)
    return made


def _gaps(sides: tuple[Length, ...], starts: list[Length], gap: Length, frame: bool) -> list[Length]:
    """Where strips between the sides begin, and with a frame those before the first and after the last."""
    inner = [start + side for start, side in zip(starts[:-1], sides[:-1], strict=True)]
    return [ZERO, *inner, starts[-1] + sides[-1]] if frame else inner
