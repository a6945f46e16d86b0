"""Checks of mattresses and of quilts made for them."""

from __future__ import annotations

from fractions import Fraction

from patchwright.core.length import Length
from patchwright.core.measure import System
from patchwright.design.mattresses import INFANT_BEDS, MATTRESSES
from patchwright.planning.plan import PlannedFit
from planning.compiling import plan_of, sample
from published.values import Row, checks, exclude

exclude("no pattern says whether a crib is full-size; only the usual mattress of one is known", "cfr-range")

NAMES: dict[str, tuple[System, str]] = {
    "us-twin": ("in", "twin"), "us-twinxl": ("in", "twin-xl"), "us-full": ("in", "full"), "us-queen": ("in", "queen"),
    "us-calking": ("in", "california-king"), "eu-single": ("cm", "single"), "eu-double": ("cm", "double"),
    "eu-king": ("cm", "king"), "uk-double": ("cm", "british-double"), "uk-super-king": ("cm", "british-super-king"),
}


def mattress(system: System, bed: str) -> tuple[int, int]:
    return next((width, length) for name, width, length, _ in MATTRESSES[system] if name == bed)


def fit_of(keys: str, block: str) -> PlannedFit:
    """The fit of a quilt of blocks so many quarter inches wide and high; four by four of them reach it exactly."""
    plan = plan_of(sample(f"""\
blocks: {{one: {{cell: 1/4 in, rows: [[red {block}]]}}}}
quilt: {{arrange: [[one]], fit: {{{keys}}}}}
sizes: {{only: {{}}}}
"""))
    fit = plan.sizes[0].fit
    assert fit is not None
    assert [side.length for side in plan.sizes[0].finished] == list(fit.target)
    return fit


@checks(*NAMES)
def mattress_of_the_table(row: Row) -> None:
    assert list(mattress(*NAMES[row.id])) == row.expected


@checks("crib-w")
def crib(row: Row) -> None:
    """Within the tolerance of the rule, and with the caution about infants."""
    assert abs(mattress("in", "crib")[0] - row.expected) <= row.tolerance
    assert "crib" in INFANT_BEDS


@checks("crib-nonfull")
def full_size_crib(row: Row) -> None:
    """The table's crib is none of those that the rule calls not full-size."""
    assert "longer than 55 or shorter than 49 3/4; wider than 30 5/8 or narrower than 25 3/8" in row.expected
    width, length = mattress("in", "crib")
    assert Fraction("25.375") <= width <= Fraction("30.625")
    assert Fraction("49.75") <= length <= 55


@checks("bed-twin-12", "bed-queen-13")
def drop_at_the_sides_and_the_foot(row: Row) -> None:
    """Twice the drop in width, once in length."""
    bed = {(39, 75): "twin", (60, 80): "queen"}[tuple(row.inputs["mattress"])]
    width, length = row.expected
    fit = fit_of(f"bed: {bed}, drop: {row.inputs['drop']} in", f"{width}x{length}")
    assert [str(length) for length in fit.target] == [str(length) for length in row.expected]


@checks("bed-pillow")
def pillow_tuck(row: Row) -> None:
    """What is tucked under pillows is added to the length alone."""
    for tuck in row.expected.split("-"):
        plain, tucked = fit_of("bed: twin, drop: 12 in", "63x87"), Length(int(tuck))
        with_tuck = fit_of(f"bed: twin, drop: 12 in, tuck: {tuck} in", f"63x{87 + int(tuck)}")
        assert with_tuck.target == (plain.target[0], plain.target[1] + tucked)


@checks("bed-double-salsa")
def drop_that_a_magazine_reached(row: Row) -> None:
    """A quilt 85 1/2 long on a mattress of 75, with nothing tucked: the drop at the foot."""
    plan = plan_of(sample("""\
blocks: {one: {cell: 1/2 in, rows: [[red 34x19]]}}
quilt: {arrange: [[one]], fit: {bed: full, drop: 31/2 in, foot: 21/2 in}}
sizes: {only: {across: 5, down: 9}}
"""))
    size = plan.sizes[0]
    assert size.fit is not None
    assert size.finished[1].length == Length(Fraction(str(row.inputs["quilt length"])))
    assert size.fit.drops(size.finished)[1] == Length(Fraction(str(row.expected)))
