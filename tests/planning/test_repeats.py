"""Cloth with a repeat: motifs and stripes are counted for the worst place at which the cloth may begin."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from patchwright.core.length import Length
from patchwright.planning.cloth import Flat
from patchwright.planning.plan import Plan
from patchwright.planning.repeats import in_repeats
from patchwright.planning.verify import verify
from planning.compiling import cloth, codes, compile_text, plan_of, sample

BASE = """\
fabrics:
  red: {color: a9482f, fussy: 6 in x 8 in}
  cream: {color: ece7db}
blocks: {one: {cell: 4 in, rows: [[red, cream], [cream, red]]}}
quilt: {arrange: [[one]]}
sizes: {only: {across: 5, down: 6}}
house: {inches: {usable-width: 40 in, straightening: 0 in, round-yardage: [1 in]}}
"""
STRIPED = """\
fabrics:
  red: {color: a9482f, stripe: 5 in}
  cream: {color: ece7db}
blocks: {one: {cell: 6 in, rows: [[cream]]}}
sizes: {only: {across: 5, down: 6}}
"""


def striped(corners: str = "mitered", more: str = "") -> str:
    borders = f"borders: [{{width: 4 in, fabric: red, corners: {corners}{more}}}]"
    return sample(f"{STRIPED}quilt: {{arrange: [[one]], {borders}}}\n")


def motifs_in(begins: Fraction, repeat: Fraction, piece: Fraction, room: Fraction) -> int:
    """How many pieces, each centered on a motif, fit side by side in cloth that begins so far into its repeat."""
    count, end = 0, Fraction(0)
    place = repeat / 2 - begins
    while place + piece / 2 <= room:
        if place - piece / 2 >= end:
            count, end = count + 1, place + piece / 2
        place += repeat
    return count


@pytest.mark.parametrize(
    ("piece", "repeat", "room"),
    [("9/2", "6", "40"), ("6", "6", "40"), ("5/2", "8", "42"), ("7", "6", "40"), ("13", "6", "40"), ("1", "11", "42")],
)
def test_no_place_at_which_the_cloth_begins_gives_fewer(piece: str, repeat: str, room: str) -> None:
    """Counted motif by motif for every sixteenth at which a bolt may begin; the plan counts the fewest."""
    own, across, usable = Fraction(piece), Fraction(repeat), Fraction(room)
    flat = Flat("A1", Length(own), Length(own), 1, False)
    cells = in_repeats([flat], (Length(across), Length(across)), Length(usable))
    planned = (cells.width / cells.flats[0].width.rational()).floor()
    given = [motifs_in(across * step / 16, across, own, usable) for step in range(16)]
    assert planned <= min(given)
    if own <= across:
        assert planned == min(given)


def test_motifs_are_counted_and_not_area() -> None:
    """60 squares cut 4 1/2 at a repeat of 6 x 8: five across 40 in, twelve rows of 8 in and one square's height."""
    plan = plan_of(sample(BASE))
    own = cloth(plan, "red")
    assert sum(strip.count * part.each for strip in own.strips for part in strip.yields) == 60
    assert {str(strip.height) for strip in own.strips} == {"8"}
    assert (str(own.length), dict(own.extra)) == ("96", {"matching": Length("9/2")})
    assert own.buy is not None
    assert own.buy.amount * 36 == 101
    assert own.smallest_width == Length("69/2")
    area = Fraction(60) * Fraction(9, 2) ** 2 / 40
    assert area < 31


def test_borders_of_a_stripe_are_cut_along_it() -> None:
    """Four borders cut 4 1/2 at a repeat of 5: side by side, without joins, as long as the longest."""
    plan = plan_of(striped(), effort="best")
    own = cloth(plan, "red")
    assert not any(strip.segments for strip in own.strips)
    assert {str(part.width) for strip in own.strips for part in strip.yields} == {"5"}
    assert [border.cut for border in plan.sizes[0].borders] == ["lengthwise"]
    longest = max(
        max(size.width, size.height).length for piece in plan.pieces
        if piece.fabric == "red" and (size := piece.sizes[0]) is not None
    )
    assert own.length == longest


@pytest.mark.parametrize("corners", ["butted", "mitered", "cream"])
def test_every_corner_of_a_striped_border_adds_up(corners: str) -> None:
    assert verify(plan_of(striped(corners))) == ()


@pytest.mark.parametrize(
    ("fabric", "more", "code"),
    [
        ("fussy: 6 in x 8 in, stripe: 5 in", "", "repeat-of-precut"),
        ("fussy: 6 in x 8 in, cut-from: {fat-quarters: 4}", "", "repeat-of-precut"),
        ("stripe: 5 in, directional: lengthwise", "", "stripe-directional"),
        ("stripe: 30 in", "", "size-out-of-range"),
        ("fussy: 0 in x 8 in", "", "size-out-of-range"),
        ("fussy: 6 in x 8 in", ", binding: {fabric: red}", "repeat-too-long"),
        ("fussy: 6 in x 8 in", ", backing: {fabric: red}", "repeat-too-long"),
    ],
)
def test_what_cannot_be_matched_is_refused(fabric: str, more: str, code: str) -> None:
    text = f"fabrics: {{red: {{{fabric}}}, cream: {{}}}}\nquilt: {{arrange: [[one]]{more}}}\n"
    assert code in codes(sample(text))


def test_a_piece_that_no_whole_repeats_hold_is_refused() -> None:
    text = "fabrics: {red: {fussy: 20 in x 8 in}, cream: {}}\nblocks: {one: {cell: 25 in, rows: [[red]]}}\n"
    plan, found = compile_text(sample(text))
    assert plan is None
    assert "piece-too-wide" in [item.code for item in found]


def wrong_plans() -> list[Plan]:
    plan = plan_of(sample(BASE))
    fabric = plan.fabrics[0]
    own = cloth(plan, "red")
    strip = own.strips[0]
    part = strip.yields[0]
    crowded = replace(strip, yields=(replace(part, each=part.each + 1),))
    narrow = replace(strip, yields=(replace(part, width=Length(5)),))
    changed = [
        replace(own, extra=()), replace(own, strips=(crowded, *own.strips[1:])),
        replace(own, strips=(narrow, *own.strips[1:])),
    ]
    return [replace(plan, fabrics=(replace(fabric, sizes=(size,)), *plan.fabrics[1:])) for size in changed]


@pytest.mark.parametrize("number", range(3))
def test_motifs_that_are_not_there_are_found(number: int) -> None:
    assert verify(wrong_plans()[number])
