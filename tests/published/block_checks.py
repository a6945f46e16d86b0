"""Checks of whole blocks and of areas by fabric, on compiled patterns with seams of 1/4 and the trade's constants."""

from __future__ import annotations

from fractions import Fraction

from patchwright.core.length import Length
from planning.compiling import codes, cut_sides, drawn_areas, lengths, plan_of, sample
from published.values import Row, checks

PINWHEEL_STAR = """\
units:
  blade: {quarter-square: [red, cream], size: 3 in x 3 in}
  goose: {flying-geese: {goose: red, sky: cream}, size: 6 in x 3 in, make: cut}
blocks:
  wheel: {rows: [[blade, blade@90], [blade@270, blade@180]]}
  one:
    cell: 3 in
    rows:
      - [red,      goose,    red]
      - [goose@90, wheel,    goose@270]
      - [red,      goose@180, red]
"""
FAVORITE = """\
units: {large: {half-square: [red, cream], size: 2 x 2}}
blocks:
  one:
    cell: 2 in
    strip-piece: no
    rows:
      - [large, cream 2x2, large@90]
      - [red 1x2, cream 1x2, blue 2x2, cream 1x2, red 1x2]
      - [large@270, cream 2x2, large@180]
fabrics: {red: {}, cream: {}, blue: {}}
"""
PINWHEEL = """\
units: {turn: {half-square: [red, cream]}}
blocks: {one: {size: 8 in, rows: [[turn, turn@90], [turn@270, turn@180]]}}
sizes: {only: {across: 1, down: 1}}
"""
SAWTOOTH = """\
units: {point: {flying-geese: {goose: cream, sky: red}}}
blocks:
  one:
    size: 8 in
    rows:
      - [cream,    point@180, cream]
      - [point@90, star,      point@270]
      - [cream,    point,     cream]
  star: {rows: [[red 2x2]]}
sizes: {only: {across: 1, down: 1}}
"""
OHIO = """\
units: {hour: {quarter-square: [cream, red]}}
blocks:
  one:
    size: 9 in
    rows:
      - [cream,   hour, cream]
      - [hour@90, red,  hour@90]
      - [cream,   hour, cream]
sizes: {only: {across: 1, down: 1}}
"""
NESTED = """\
units: {inner: {square-in-square: {center: red, corners: cream}, size: 1 x 1}}
blocks: {one: {size: 12 in, rows: [[inner]]}}
sizes: {only: {across: 1, down: 1}}
"""


def is_cut(text: str, *sides: str) -> bool:
    """Whether a piece of these cut sides is in the plan, of any fabric."""
    plan = plan_of(sample(text))
    wanted = tuple(sorted(lengths(*sides)))
    return any(wanted in cut_sides(plan, fabric.id) for fabric in plan.fabrics)


@checks("block-apq-pinstar-0", "block-apq-pinstar-2", "block-apq-pinstar-3")
def pinwheel_star(row: Row) -> None:
    assert is_cut(PINWHEEL_STAR, row.text, row.text)


@checks("block-apq-mother-4", "block-apq-mother-7")
def favorite_squares(row: Row) -> None:
    assert is_cut(FAVORITE, row.text, row.text)


@checks("block-apq-mother-6")
def favorite_rectangles(row: Row) -> None:
    assert is_cut(FAVORITE, *row.expected.split(" x "))


@checks("block-apq-pin8-8")
def eight_inch_pinwheel(row: Row) -> None:
    assert is_cut(PINWHEEL, row.text, row.text)


@checks("block-apq-saw-9", "block-apq-saw-10")
def sawtooth_star(row: Row) -> None:
    assert is_cut(SAWTOOTH, row.text, row.text)


@checks("block-starz-negative")
def block_that_does_not_add_up(row: Row) -> None:
    """Cuts of 3, 6 and 3 finish at 10 1/2; twelve cannot be said of them, and asking for it gives other cuts."""
    thirds = "blocks: {one: {cell: 1/2 in, rows: [[red 5x5, cream 11x5, red 5x5]]}}\n"
    plan = plan_of(sample(thirds))
    assert cut_sides(plan, "red") == {lengths("3", "3")}
    assert cut_sides(plan, "cream") == {lengths("3", "6")}
    assert plan.assemblies[0].sizes[0] is not None
    assert plan.assemblies[0].sizes[0].finished[0].length == Length(Fraction(str(row.expected)))
    assert codes(sample(thirds.replace("rows:", "size: 12 in x 12 in, rows:"))) == ["cell-and-size"]
    asked = plan_of(sample(thirds.replace("cell: 1/2 in", "size: 12 in x 20/7 in")))
    assert cut_sides(asked, "red") != {lengths("3", "3")}


def areas(text: str) -> list[Length]:
    plan = plan_of(sample(text))
    made = drawn_areas(plan)
    return [made["red"], made["cream"]]


@checks("pinwheel-area")
def pinwheel_area(row: Row) -> None:
    assert areas(PINWHEEL) == [Length(area) for area in row.expected]


@checks("ohio-area-9")
def ohio_area(row: Row) -> None:
    assert areas(OHIO) == [Length(area) for area in row.expected]


@checks("saw-area-8")
def sawtooth_area(row: Row) -> None:
    assert areas(SAWTOOTH) == [Length(area) for area in row.expected]


@checks("sis-area")
def square_in_square_area(row: Row) -> None:
    assert areas(NESTED) == [Length(area) for area in row.expected]


@checks("conserve")
def areas_conserved(row: Row) -> None:
    for text in (PINWHEEL, OHIO, SAWTOOTH, NESTED, PINWHEEL_STAR, FAVORITE):
        plan = plan_of(sample(text))
        width, height = (side.length for side in plan.sizes[0].finished)
        total = Length()
        for area in drawn_areas(plan).values():
            total += area
        assert total - width * height == Length(row.expected)
