"""Pieced borders and the coping or the spacers that make them fit.

Blocks repeat along every side, their upper edge outward, from the left end of each side as seen from the middle.
Coping is a plain border between the quilt and a pieced one: so wide at the sides, and so wide at top and bottom, that
whole repeats fit on every side; equal on opposite sides. Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from patchwright.core.geometry import Orientation
from patchwright.core.length import ZERO, Length
from patchwright.core.source import Span
from patchwright.design.design import Border, Pieced, Spacers
from patchwright.planning.line_sums import sum_lengths
from patchwright.planning.settings.drawing import Drawing, Frame, Place
from patchwright.planning.settings.laying_out import LayingOut, Measured
from patchwright.planning.settings.side_rows import Repeat, halves, side_row


def coping(laying: LayingOut, drawing: Drawing, number: int, frame: Frame) -> Frame:
    """Place the coping that stands as border `number` before a pieced border; none where that fits without."""
    border = laying.size.borders[number - 1]
    pieced = border.pieced
    repeat = repeat_of(laying, number, pieced) if pieced is not None else None
    if pieced is None or pieced.least_coping is None or repeat is None:
        return frame
    aside, above = coping_widths(repeat, pieced.least_coping, (frame.width, frame.height), border)
    if not (aside or above):
        return frame
    if pieced.most_coping is not None and max(aside, above) > pieced.most_coping:
        _report_wide_coping(laying, repeat, frame, border, (aside, above))
    outer = frame.grown(aside, above)
    part = f"border-{number}"
    for x in (outer.x, frame.x + frame.width) if aside else ():
        drawing.lay(border.fabric, part, "side", (x, frame.y, aside, frame.height), border.span)
    for y in (outer.y, frame.y + frame.height) if above else ():
        drawing.lay(border.fabric, part, "end", (outer.x, y, outer.width, above), border.span)
    return outer


def coping_widths(
    repeat: Repeat, least: Length, inside: tuple[Length, Length], border: Border
) -> tuple[Length, Length]:
    """The finished coping at each side, and at top and bottom, around so much; zeros where it fits without.

    Rows along top and bottom need coping at the sides, and those along the sides need it above and below.
    """
    if all(repeat.fits(side) for side, runs in zip(inside, along(border), strict=True) if runs):
        return ZERO, ZERO
    aside, above = (
        (repeat.least(side + least * 2) - side) / 2 if runs else ZERO
        for side, runs in zip(inside, along(border), strict=True)
    )
    return aside, above


def along(border: Border) -> tuple[bool, bool]:
    """Whether a border has rows as long as the quilt is wide, and as long as it is high."""
    return border.ends, border.sides


def pieced_border(laying: LayingOut, drawing: Drawing, number: int, frame: Frame) -> Frame:
    """Place border `number`; report where whole repeats do not fit."""
    border = laying.size.borders[number - 1]
    pieced = border.pieced
    repeat = repeat_of(laying, number, pieced) if pieced is not None else None
    if pieced is None or repeat is None:
        return frame
    sides = zip((frame.width, frame.height), along(border), strict=True)
    if not all(repeat.fits(side) for side, runs in sides if runs):
        _report_fit(laying, repeat, frame, border)
        return frame
    outer = frame.grown(repeat.depth if border.sides else ZERO, repeat.depth if border.ends else ZERO)
    placing = _Placing(drawing, f"border-{number}", repeat, border.span)
    right, bottom = frame.x + frame.width, frame.y + frame.height
    for turns in (*((3, 1) if border.sides else ()), *((0, 2) if border.ends else ())):
        units = side_row(laying, pieced, repeat, frame.height if turns % 2 else frame.width, turns)
        starts = {0: (frame.x, outer.y), 1: (right, frame.y), 2: (frame.x, bottom), 3: (outer.x, frame.y)}
        placing.side(units if turns < 2 else units[::-1], starts[turns], turns % 2 == 1)
    if not (border.sides and border.ends):
        return outer
    for turns, x, y in ((0, outer.x, outer.y), (1, right, outer.y), (3, outer.x, bottom), (2, right, bottom)):
        corner = laying.measured(pieced.corner, Orientation(turns))
        if corner is not None:
            placing.unit(corner, "corner", (x, y, repeat.depth, repeat.depth))
    return outer


@dataclass(frozen=True, slots=True)
class _Placing:
    drawing: Drawing
    part: str
    repeat: Repeat
    span: Span

    def side(self, units: Sequence[Measured], start: tuple[Length, Length], upright: bool) -> None:
        """Place blocks one after the other, to the right or downward."""
        x, y = start
        deep = self.repeat.depth
        for entry in units:
            plain = entry.key is None and not entry.width
            wide = deep if plain else entry.height if upright else entry.width
            label = "spacer" if entry.key is None and entry.width else "unit"
            self.unit(entry, label, (x, y, deep, wide) if upright else (x, y, wide, deep))
            x, y = (x, y + wide) if upright else (x + wide, y)

    def unit(self, entry: Measured, label: str, place: Place) -> None:
        if entry.key is not None:
            self.drawing.place(entry.key, self.part, entry.orientation, place)
        else:
            self.drawing.lay(entry.placement.ref, self.part, label, place, self.span)


def repeat_of(laying: LayingOut, number: int, pieced: Pieced) -> Repeat | None:
    """The measured repeat of a pieced border, or of the one that coping stands before; mistakes are reported."""
    border = laying.size.borders[number - 1]
    if border.kind == "coping":
        border = laying.size.borders[number]
    found = [laying.measured(placement) for placement in pieced.repeat]
    corner = laying.measured(pieced.corner)
    entries = tuple(entry for entry in found if entry is not None)
    if len(entries) < len(found) or corner is None:
        return None
    heights = [entry.height for entry in entries if entry.key is not None]
    depth = border.width or (heights[0] if heights else ZERO)
    if not depth:
        laying.findings.error(
            "missing-key", "a pieced border of plain squares has no `width`", border.span, "write `width: …`"
        )
        return None
    middle = laying.measured(pieced.middle) if pieced.middle is not None else None
    if pieced.middle is not None and middle is None:
        return None
    parts = (*entries, middle) if middle is not None else entries
    cornered = [(corner, True)] if border.sides and border.ends else []
    if _misfit(laying, [*((entry, False) for entry in parts), *cornered], depth):
        return None
    widths = [depth if entry.key is None else entry.width for entry in entries]
    return Repeat(entries, depth, corner, sum_lengths(widths) * halves(pieced), middle, pieced.spacers)


def _misfit(laying: LayingOut, entries: Sequence[tuple[Measured, bool]], depth: Length) -> bool:
    """Report a block that is not as high as its border is wide, or a corner that is not square."""
    for entry, is_corner in entries:
        if entry.key is None or (entry.height == depth and (not is_corner or entry.width == depth)):
            continue
        laying.findings.error(
            "block-size-mismatch",
            f"`{entry.placement.ref}` is {laying.text(entry.width)} by {laying.text(entry.height)}, in a border "
            f"{laying.text(depth)} wide", entry.placement.span,
            "the blocks of a pieced border are as high as it is wide, and its corners are square; "
            "name another block or fabric as `corner`" if is_corner else
            "the blocks of a pieced border are all as high as it is wide",
        )
        return True
    return False


def _report_wide_coping(
    laying: LayingOut, repeat: Repeat, frame: Frame, border: Border, coping: tuple[Length, Length]
) -> None:
    """Say how wide coping would have to be, and which sizes of the quilt inside it may have."""
    pieced = border.pieced
    if pieced is None or pieced.least_coping is None or pieced.most_coping is None:
        return
    least, most = pieced.least_coping * 2, pieced.most_coping * 2
    said = []
    for side, word in ((frame.width, "wide"), (frame.height, "high")):
        whole = repeat.least(side + least)
        ways = [f"{laying.text(low)} to {laying.text(high)}" if low < high else laying.text(high)
                for total in (whole - repeat.length, whole)
                if (high := total - least) > ZERO and (low := max(total - most, ZERO)) <= high]
        said.append(f"{' or '.join(ways)} {word}")
    laying.findings.error(
        "pieced-border-does-not-fit",
        f"coping would be {laying.text(coping[0])} wide at the sides and {laying.text(coping[1])} at top and bottom, "
        f"in `{laying.size.name}`, and `most` allows {laying.text(pieced.most_coping)}", border.span,
        f"{said[0]} and {said[1]} could be brought to whole repeats of {laying.text(repeat.length)}, where it is "
        f"{laying.text(frame.width)} by {laying.text(frame.height)} now",
        "or allow more, or make the blocks of the border smaller",
    )


def _report_fit(laying: LayingOut, repeat: Repeat, frame: Frame, border: Border) -> None:
    """Say which sizes of the quilt inside the border would fit, and which coping or spacers would make them."""
    if repeat.spacers is not None:
        _report_short(laying, repeat, frame, repeat.spacers)
        return
    inside = (frame.width, frame.height)
    above = [repeat.least(side) if runs else side for side, runs in zip(inside, along(border), strict=True)]
    below = [side if side == own else side - repeat.length for side, own in zip(above, inside, strict=True)]
    ways = [
        " or ".join(laying.text(side) for side in dict.fromkeys(pair) if side > repeat.base)
        for pair in zip(below, above, strict=True)
    ]
    widths = [(side - own) / 2 for side, own in zip(above, (frame.width, frame.height), strict=True)]
    laying.findings.error(
        "pieced-border-does-not-fit",
        f"blocks that repeat every {laying.text(repeat.length)} do not fit around {laying.text(frame.width)} by "
        f"{laying.text(frame.height)}, in `{laying.size.name}`", border.span,
        f"{ways[0]} wide and {ways[1]} high would fit",
        f"or give `coping: {{fabric: …}}`, which would be {laying.text(widths[0])} wide at the sides and "
        f"{laying.text(widths[1])} at top and bottom, or more where that is too narrow to sew",
        "or give `spacers: {fabric: …}` under `pieced`, which fill each row up to the side",
    )


def _report_short(laying: LayingOut, repeat: Repeat, frame: Frame, spacers: Spacers) -> None:
    """Say that a side is too short for one repeat with spacers, and which lengths would do."""
    exact = repeat.base + repeat.length
    least = exact + spacers.least * repeat.gaps
    laying.findings.error(
        "pieced-border-does-not-fit",
        f"blocks that repeat every {laying.text(repeat.length)} and spacers do not fit around "
        f"{laying.text(frame.width)} by {laying.text(frame.height)}, in `{laying.size.name}`", spacers.span,
        f"a side of {laying.text(exact)} takes them without spacers, one of {laying.text(least)} or more with spacers "
        f"of at least {laying.text(spacers.least)}",
    )
