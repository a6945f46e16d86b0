"""What a buyer in the other system asks for: exact factors as published, rounded up where cloth is bought.

Sources: the international yard and pound agreement (United States: Federal Register, July 1, 1959, "Refinement of
Values for the Yard and the Pound"), which makes 1 yd 0.9144 m and so 1 in 2.54 cm exactly; the same factors stand in
NIST Special Publication 811, appendix B.8, as exact.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from functools import cache

import pytest
from hypothesis import given
from hypothesis import strategies as st

from content.compiled import booklet_of, plan_of
from patchwright.core.length import Length
from patchwright.planning.elsewhere import with_other_measures
from patchwright.planning.plan import Buy, Elsewhere, Plan
from patchwright.planning.verify import verify
from patchwright.typesetting.booklet import Aside, Booklet, Bullets, Inline, Notice, Paragraph, Step, Table

YARD = Fraction("0.9144")
INCH = Fraction("2.54")
CENTIMETERS = (Length(10),)
EIGHTHS = (Length(Fraction(36, 8)),)


@cache
def plans() -> tuple[Plan, Plan]:
    """A pattern in inches and one in centimeters."""
    return plan_of("rope-walk"), plan_of("tide-pool")


def asked(amount: Fraction, unit: str, steps: tuple[Length, ...]) -> Buy:
    """What the plan tells for an amount, in a plan that buys just this."""
    plan = plans()[0 if unit == "yd" else 1]
    fabric = next(own for own in plan.fabrics if any(size is not None and size.buy for size in own.sizes))
    index = next(index for index, size in enumerate(fabric.sizes) if size is not None and size.buy)
    bought = Buy(amount, "yd" if unit == "yd" else "m")
    own = replace(fabric, sizes=tuple(
        replace(size, buy=bought) if place == index and size is not None else size
        for place, size in enumerate(fabric.sizes)
    ), alternatives=())
    changed = replace(plan, fabrics=(own,), rules=replace(plan.rules, round_elsewhere=steps, other_measures=True))
    told = with_other_measures(changed).elsewhere
    assert told is not None
    found = told.amount(bought)
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("yards", "meters"),
    # 0.1143 m, 0.2286 m, 0.4572 m, 0.9144 m, 2.286 m, 9.144 m by the published factor.
    [("1/8", "0.2"), ("1/4", "0.3"), ("1/2", "0.5"), ("1", "1"), ("5/2", "2.3"), ("10", "9.2")],
)
def test_yards_are_asked_for_in_tenths_of_a_meter(yards: str, meters: str) -> None:
    assert asked(Fraction(yards), "yd", CENTIMETERS) == Buy(Fraction(meters), "m")


@pytest.mark.parametrize(
    ("meters", "yards"),
    # 0.1094 yd, 0.5468 yd, 1.0936 yd, 1.3123 yd, 10.936 yd by the published factor.
    [("0.1", "1/8"), ("0.5", "5/8"), ("1", "9/8"), ("1.2", "11/8"), ("10", "11")],
)
def test_meters_are_asked_for_in_eighths_of_a_yard(meters: str, yards: str) -> None:
    assert asked(Fraction(meters), "m", EIGHTHS) == Buy(Fraction(yards), "yd")


def test_an_exact_amount_is_not_rounded_further() -> None:
    """12 1/2 yd are 11.43 m exactly, and 114.3 m are 125 yd exactly."""
    assert asked(Fraction("12.5"), "yd", (Length(1),)) == Buy(Fraction("11.43"), "m")
    assert asked(Fraction("114.3"), "m", EIGHTHS) == Buy(Fraction(125), "yd")


@given(
    st.fractions(min_value=Fraction(1, 8), max_value=40, max_denominator=24), st.sampled_from(["yd", "m"]),
    st.lists(st.sampled_from([1, 5, 10, 12, 25, 50]), min_size=1, max_size=3),
)
def test_never_less_cloth_and_never_a_step_too_much(amount: Fraction, unit: str, steps: list[int]) -> None:
    lengths = tuple(sorted({Length(step) for step in steps}))
    told = asked(amount, unit, lengths)
    exact = amount * YARD * 100 if unit == "yd" else amount * 100 / INCH
    there = told.amount * (100 if unit == "yd" else 36)
    assert exact <= there < exact + min(steps)
    assert any((there / step).denominator == 1 for step in steps)


def test_sizes_of_both_systems() -> None:
    inches, metric = plans()
    for plan, factor, step in ((inches, INCH, Fraction(1)), (metric, 1 / INCH, Fraction(1, 2))):
        told = _told(plan)
        width = plan.rules.usable_width.rational() * factor
        assert width <= told.width.rational() < width + step
        for size, finished, batting in zip(plan.sizes, told.finished, told.batting, strict=True):
            for own, there in zip(size.finished, finished, strict=True):
                assert abs(there - own.length * factor) * 2 <= Length(step)
            for side, there in zip(size.batting, batting, strict=True):
                assert side * factor <= there < side * factor + Length(step)


def test_a_wrong_conversion_is_found() -> None:
    """The independent check tells an amount that is too small, one that is too large, and one that is not there."""
    plan = plans()[0]
    told = _told(plan)
    (own, like), *others = told.amounts
    assert verify(plan) == ()
    for amounts in (
        ((own, Buy(like.amount - Fraction(1, 10), "m")), *others),
        ((own, Buy(like.amount + Fraction(1, 10), "m")), *others),
        ((own, Buy(like.amount + Fraction(1, 1000), "m")), *others),
        ((own, own), *others),
        tuple(others),
    ):
        assert verify(replace(plan, elsewhere=replace(told, amounts=amounts)))
    longer = tuple((width + Length(1), height) for width, height in told.finished)
    for wrong in (
        replace(told, width=told.width - Length(1)), replace(told, width=told.width + Length(1)),
        replace(told, finished=longer), replace(told, batting=told.finished), None,
    ):
        assert verify(replace(plan, elsewhere=wrong))


def test_a_house_may_leave_it_out() -> None:
    plan = plans()[0]
    without = replace(plan, elsewhere=None, rules=replace(plan.rules, other_measures=False))
    assert with_other_measures(without).elsewhere is None
    assert verify(without) == ()


@pytest.mark.parametrize("name", ["rope-walk", "tide-pool"])
def test_no_cutting_line_is_converted(name: str) -> None:
    """Measures in parentheses stand in the list of requirements alone."""
    booklet = booklet_of(name)
    found = {section.id: asides(section.blocks) for section in booklet.sections}
    assert len(found.pop("requirements")) > 6
    assert all(own == [] for own in found.values())
    assert any("never by a measure in parentheses" in text for text in _texts(booklet, "before"))


def asides(blocks: tuple[object, ...]) -> list[str]:
    """Every measure in the other system below these blocks."""
    return [inline.text for inline in _inlines(blocks) if isinstance(inline, Aside)]


def _inlines(blocks: tuple[object, ...]) -> list[Inline]:
    found: list[Inline] = []
    for block in blocks:
        if isinstance(block, Paragraph):
            found += block.inlines
        elif isinstance(block, Bullets):
            found += [inline for item in block.items for inline in item]
        elif isinstance(block, Table):
            found += [inline for row in block.rows for cell in row for inline in cell.inlines]
        elif isinstance(block, Notice | Step):
            found += _inlines(block.blocks)
    return found


def _texts(booklet: Booklet, section: str) -> list[str]:
    blocks = next(own.blocks for own in booklet.sections if own.id == section)
    return [getattr(inline, "text", "") for inline in _inlines(blocks)]


def _told(plan: Plan) -> Elsewhere:
    assert plan.elsewhere is not None
    return plan.elsewhere
