"""How large a top finishes with so many blocks and borders so wide, without laying it out.

In: a size of the design with the repeat of its arrangement, and its measured blocks.
Out: exact finished sizes for any number of blocks and any widths of plain borders.
Never: a part at its place; what is chosen by these sizes is laid out by the settings, and the plan compares the two.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from patchwright.core.diagnostics import Findings
from patchwright.core.length import ZERO, Length
from patchwright.design.design import Border, Fit, Size
from patchwright.design.on_point import repeated
from patchwright.planning.instances import Instances
from patchwright.planning.line_sums import Lengths
from patchwright.planning.settings.drawing import Center, Drawing
from patchwright.planning.settings.laying_out import LayingOut
from patchwright.planning.settings.pieced import along, coping_widths, repeat_of
from patchwright.planning.settings.registry import SETTINGS, setting_of
from patchwright.planning.settings.side_rows import Repeat

Pair = tuple[Length, Length]


@dataclass(frozen=True, slots=True)
class Line:
    """Blocks side by side in one direction: their widths before they repeat, what lies between and at the ends."""

    sides: tuple[Length, ...]
    gap: Length
    ends: Length
    """At both ends together."""

    def length(self, count: int) -> Length:
        """Finished length of so many blocks, before borders."""
        whole, rest = divmod(count, len(self.sides))
        total = self.gap * (count - 1) + self.ends
        for number, side in enumerate(self.sides):
            total += side * (whole + (number < rest))
        return total


@dataclass(frozen=True, slots=True)
class TopMeasures:
    """The two directions of a top, and its borders from the inside out."""

    across: Line
    down: Line
    borders: tuple[Border, ...]
    repeats: tuple[Repeat | None, ...]
    """Of pieced borders and of their coping."""

    @property
    def slack(self) -> Length:
        """The most that coping may add to a side."""
        total = ZERO
        for border, repeat in zip(self.borders, self.repeats, strict=True):
            if border.kind == "coping" and border.pieced is not None and repeat is not None:
                total += (border.pieced.least_coping or ZERO) * 2 + repeat.length
        return total

    def around(self, widths: tuple[Length, ...]) -> Pair:
        """What borders add to the width and to the height, coping left out."""
        made = (ZERO, ZERO)
        for border, repeat, width in zip(self.borders, self.repeats, widths, strict=True):
            if border.kind != "coping":
                made = _grown(made, border, repeat.depth if repeat is not None else width)
        return made

    def finished(self, across: int, down: int, widths: tuple[Length, ...]) -> Pair | None:
        """Finished width and height; None where a pieced border does not fit."""
        size = (self.across.length(across), self.down.length(down))
        for border, repeat, width in zip(self.borders, self.repeats, widths, strict=True):
            pieced = border.pieced
            if repeat is None or pieced is None:
                size = _grown(size, border, width)
            elif border.kind == "coping":
                aside, above = coping_widths(repeat, pieced.least_coping or ZERO, size, border)
                if pieced.most_coping is not None and max(aside, above) > pieced.most_coping:
                    return None
                size = (size[0] + aside * 2, size[1] + above * 2)
            else:
                if not all(repeat.fits(side) for side, runs in zip(size, along(border), strict=True) if runs):
                    return None
                size = _grown(size, border, repeat.depth)
        return size


def _grown(size: Pair, border: Border, width: Length) -> Pair:
    """Width and height with a border so wide, all around or on two sides."""
    return size[0] + (width * 2 if border.sides else ZERO), size[1] + (width * 2 if border.ends else ZERO)


def measured_top(
    instances: Instances, cells: Mapping[str, Lengths], size: Size, fit: Fit, index: int
) -> TopMeasures | None:
    """Measure one size; None where its blocks do not fit together, which laying it out reports."""
    laying = LayingOut(instances, Findings(), _small(size, fit), index, cells)
    center = SETTINGS[setting_of(size)](laying, Drawing())
    if center is None:
        return None
    whole = replace(laying, size=size)
    repeats = tuple(
        repeat_of(whole, number, border.pieced) if border.pieced is not None else None
        for number, border in enumerate(size.borders, 1)
    )
    if laying.findings.has_errors:
        return None
    across, down = _lines(size, center)
    return TopMeasures(across, down, size.borders, repeats)


def _lines(size: Size, center: Center) -> tuple[Line, Line]:
    """What repeats across and down, from a center that is laid out."""
    beyond = size.on_point.float * 2 if size.on_point is not None else ZERO
    strips, sashing = size.strips, size.sashing
    if strips is not None:
        edges = strips.edge_width * 2 if strips.edge_width is not None else ZERO
        return Line(center.columns, strips.width, edges), Line(center.rows, ZERO, beyond)
    if size.on_point is not None and size.on_point.trim_to is not None:
        # Trimmed, the center is as large with any number of blocks.
        return Line((ZERO,), ZERO, center.width), Line((ZERO,), ZERO, center.height)
    if size.on_point is not None:
        return Line(center.columns[:1], ZERO, beyond), Line(center.rows[:1], ZERO, beyond)
    gaps = center.sash or (ZERO, ZERO)
    both = 2 if sashing is not None and sashing.frame else 0
    return Line(center.columns, gaps[0], gaps[0] * both), Line(center.rows, gaps[1], gaps[1] * both)


def can_be_laid(
    instances: Instances, cells: Mapping[str, Lengths], size: Size, index: int
) -> Callable[[int, int], bool]:
    """Whether so many blocks fit together: always, but for straight columns with strips, which must be equally high."""
    fit = size.fit
    if size.strips is None or size.on_point is not None or fit is None:
        return lambda across, down: True

    def laid(across: int, down: int) -> bool:
        own = replace(size, across=across, down=down, grid=repeated(fit.blocks, across, down))
        return SETTINGS[setting_of(size)](LayingOut(instances, Findings(), own, index, cells), Drawing()) is not None

    return laid


def _small(size: Size, fit: Fit) -> Size:
    """The arrangement once; in diagonal rows all steps are alike, so the size itself will do."""
    if size.on_point is not None and size.strips is None:
        return size
    across, down = len(fit.blocks[0]), len(fit.blocks)
    return replace(size, across=across, down=down, grid=repeated(fit.blocks, across, down))
