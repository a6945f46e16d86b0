"""Checks of units of measure, metric seams and paper. Each names the rules that its source assumes."""

from __future__ import annotations

from fractions import Fraction

import pytest

from patchwright.core.length import ROOT_TWO, Length
from patchwright.core.measure import parse_measure
from planning.compiling import codes, cut_sides, design_of, plan_of, sample
from published.values import Row, checks, exclude

METRIC = """\
lengths: centimeters
blocks: {one: {cell: 15 cm, rows: [[red, cream], [cream, red]]}}
"""
TRADE = "house: {centimeters: {triangles: standard}}\n"


def centimeters(text: str) -> Length:
    return parse_measure(text).within("cm")


@checks("seam-mm")
def seam_in_millimeters(row: Row) -> None:
    assert centimeters("1/4 in") * 10 == Length(Fraction(str(row.expected)))


@checks("seam-mm-nominal")
def seam_as_printed(row: Row) -> None:
    assert abs(float(centimeters("1/4 in") * 10) - row.expected) <= row.tolerance


@checks("seam-metric")
def metric_seam(row: Row) -> None:
    assert design_of(sample(METRIC)).rules.seam == Length(Fraction(str(row.expected)))


@checks("seam-metric-qst")
def metric_quarter_square(row: Row) -> None:
    """The trade's rule adds less than the geometry, which is warned of; the exact rule rounds the geometry up."""
    seam = Length(Fraction(str(row.inputs["seam cm"])))
    assert abs(float((seam + seam * ROOT_TWO) * 2) - row.expected) <= row.tolerance
    text = METRIC.replace("[red, cream], [cream, red]", "[hour]").replace("15 cm", "10 cm")
    text = sample(text + "units: {hour: {quarter-square: [red, cream]}}\n")
    assert cut_sides(plan_of(text + TRADE), "red") == {(Length("27/2"), Length("27/2"))}
    assert "rounded-down" in codes(text + TRADE)
    assert cut_sides(plan_of(text), "red") == {(Length("55/4"), Length("55/4"))}


@checks("seam-metric-geese")
def metric_geese(row: Row) -> None:
    """Four at a time by the trade's rule."""
    text = sample(TRADE + """\
lengths: centimeters
units: {goose: {flying-geese: {goose: red, sky: cream}, make: four-at-a-time}}
blocks: {one: {cell: 5 cm, rows: [[goose]]}}
""")
    plan = plan_of(text)
    large, small = (Length(Fraction(str(side))) for side in row.expected)
    assert cut_sides(plan, "red") == {(large, large)}
    assert cut_sides(plan, "cream") == {(small, small)}


@checks("seam-metric-block")
def block_redrawn_in_centimeters(row: Row) -> None:
    """A metric block is drawn anew; the converted size gives cuts that no ruler has, which is warned of."""
    inches = centimeters(f"{row.inputs['inch block']} in")
    assert abs(float(inches) - row.expected) <= row.tolerance
    assert codes(sample(METRIC)) == []
    converted = sample(METRIC.replace("15 cm", "15.24 cm"))
    assert set(codes(converted)) == {"off-step"}


@checks("yd-m")
def yard_in_meters(row: Row) -> None:
    assert centimeters("1 yd") == Length(Fraction(str(row.expected)) * 100)


@checks("sqin")
def square_inch(row: Row) -> None:
    side = centimeters("1 in") * 10
    assert abs(float(side * side) - row.expected) <= row.tolerance


@checks("sqyd")
def square_yard(row: Row) -> None:
    side = centimeters("1 yd") / 100
    assert abs(float(side * side) - row.expected) <= row.tolerance


@checks("museum-met-w", "museum-met-l", "museum-met2-w", "museum-cwf-w", "museum-cwf-l")
def museum_label(row: Row) -> None:
    """Rounded to a tenth of a centimeter, as museums print."""
    inches = Length(Fraction(str(row.inputs["inch"])))
    assert abs(float(centimeters(f"{inches.rational()} in").nearest(Fraction(1, 10))) - row.expected) <= row.tolerance


@checks("a4", "a4pt", "letter", "letter-a4")
def paper(row: Row) -> None:
    """The pages of a written booklet, to a hundredth of a point."""
    from published.pages import page_sizes

    sizes = page_sizes()
    a4, letter = sizes["a4"], sizes["letter"]
    wanted = {
        "a4": (a4, [side * 72 / 25.4 for side in (210, 297)]), "a4pt": (a4, row.expected),
        "letter": (letter, [612, 792]), "letter-a4": (
            [(ours - theirs) * 25.4 / 72 for ours, theirs in zip(a4, letter, strict=True)], [-5.9, 17.6]
        ),
    }
    found, expected = wanted[row.id]
    assert list(found) == pytest.approx(expected, abs=0.02)


@checks("pt", "pt-mm")
def point(row: Row) -> None:
    """A page of 8 1/2 inches measures 612 points: 72 to the inch."""
    from published.pages import page_sizes

    width = float(page_sizes()["letter"][0])
    per_inch = width / 8.5
    assert (per_inch if row.id == "pt" else per_inch / 25.4) == pytest.approx(row.expected, abs=1e-3)


exclude(
    "what a page printed at a wrong scale measures; booklets carry a scale mark to find that out",
    "print-97", "print-2in",
)


@checks("diag-4", "diag-5", "diag-6", "diag-8", "diag-9", "diag-10", "diag-14")
def diagonal(row: Row) -> None:
    """The chart rounds some down and some up."""
    assert abs(float(Length.root(2, row.inputs["side"])) - row.expected) <= row.tolerance


@checks("sqrt2")
def root_of_two(row: Row) -> None:
    assert abs(float(ROOT_TWO) - row.expected) <= row.tolerance
