"""Measures a binding again: its strips, on the straight grain or on the bias, give the length that it is said to have.

In: a planned binding and the rules.
Out: a sentence for each thing that does not agree.
Never: a function of the planner. A strip on the bias is measured between the four corners of what is left of it when
both its ends are cut to one slant, by the lines that bound the cloth.
"""

from __future__ import annotations

from collections.abc import Iterator

from patchwright.core.length import ROOT_TWO, Length
from patchwright.design.rules import Rules
from patchwright.planning.plan import FabricSize, PlannedBinding
from patchwright.planning.verifying.sums import NOTHING


def binding_faults(binding: PlannedBinding, rules: Rules) -> Iterator[str]:
    """Strips, joins and lengths."""
    if binding.joins != binding.strips - 1:
        yield "the joins of the binding do not fit its strips"
    strip, seams = binding.strip.length, rules.seam * 2
    bias = binding.way != "straight"
    loss = seams * ROOT_TWO if bias else strip if rules.binding_join == "diagonal" else seams
    if bias and binding.cloth is None:
        yield "a binding on the bias names no cloth that it is cut from"
        return
    if binding.cloth is not None and binding.cloth[0] > binding.width:
        yield "the binding's cloth is wider than what it is cut from"
    if not bias:
        each = binding.width if binding.cloth is None else max(binding.cloth)
        given, strips = each * binding.strips, binding.strips if binding.cloth is None else binding.cloths
        if binding.cloth is not None and min(binding.cloth) != strip:
            yield "what is cut for the binding is not as wide as its strips"
    elif binding.way == "continuous":
        given, strips = _spirals(binding, seams), binding.cloths
    else:
        given, strips = _slanted(binding)
    if strips != binding.strips:
        yield f"the binding has {binding.strips} strips, and its cloth gives {strips}"
    if given - loss * binding.joins < binding.made:
        yield "the binding's strips do not give the length that they are said to"


def length_of_binding(binding: PlannedBinding) -> Length:
    """The cloth that the strips or pieces take, laid side by side across the width while there is room."""
    if binding.cloth is None:
        return binding.strip.length * binding.strips
    left, used, room = binding.cloths, NOTHING, NOTHING
    while left:
        if room < binding.cloth[0]:
            used, room = used + binding.cloth[1], binding.width
        room -= binding.cloth[0]
        left -= 1
    return used


def cut_for_binding(cloth: FabricSize, piece: str) -> int:
    """How many strips or pieces for the binding a fabric's cutting has."""
    cut = 0
    for strip in cloth.strips:
        cut += strip.count * sum(segment.piece == piece for segment in strip.segments)
        cut += strip.count * sum(part.each for part in strip.yields if part.piece == piece)
    for sheet in cloth.precuts.sheets if cloth.precuts is not None else ():
        cut += sheet.count * sum(part.each for part in sheet.yields if part.piece == piece)
    return cut


def _spirals(binding: PlannedBinding, seams: Length) -> Length:
    """Rounds of every tube: the strips that lie side by side in it, each as long as the slant of its side."""
    side = min(binding.cloth) - seams if binding.cloth is not None else NOTHING
    across = side * ROOT_TWO / 2
    rounds = 0
    while binding.strip.length * (rounds + 1) <= across:
        rounds += 1
    return side * ROOT_TWO * (rounds * binding.cloths)


def _slanted(binding: PlannedBinding) -> tuple[Length, int]:
    """The strips of all rectangles, their total length and their number, those that are too short left out."""
    if binding.cloth is None or binding.least is None:
        return NOTHING, 0
    width, height = binding.cloth
    strip, first = binding.strip.length, min(width, height)
    step = strip * ROOT_TWO
    given, number = NOTHING, 0
    bounds: list[tuple[Length, Length]] = []
    inward = first
    while inward >= step:
        bounds.append((inward - step, inward))
        inward -= step
    outward = first
    while outward + step <= width + height:
        bounds.append((outward, outward + step))
        outward += step
    for low, high in bounds:
        long = _between(low, high, width, height, strip)
        if long >= binding.least:
            given, number = given + long, number + 1
    return given * binding.cloths, number * binding.cloths


def _between(low: Length, high: Length, width: Length, height: Length, strip: Length) -> Length:
    """Length of the strip between the lines x + y = low and x + y = high in a rectangle, with straight-grain ends."""

    def ends(total: Length) -> tuple[Length, Length]:
        """Where the line enters and leaves the rectangle, by x."""
        return max(NOTHING, total - height), min(width, total)

    (low_left, low_right), (high_left, high_right) = ends(low), ends(high)
    edges = ((low_right - low_left) * ROOT_TWO, (high_right - high_left) * ROOT_TWO)
    tapers = abs(edges[0] - edges[1]) == strip * 2
    return min(edges) + (strip if tapers else NOTHING)
