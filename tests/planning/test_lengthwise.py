"""Long strips along the cloth: borders, sashing and binding, where that is asked or takes less cloth."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from patchwright.core.length import Length
from patchwright.planning.plan import Plan, PlannedBinding
from patchwright.planning.verify import verify
from planning.compiling import cloth, codes, sample
from planning.compiling import plan_of as compiled

PRACTICE = "house: {inches: {usable-width: 42 in, straightening: 0 in, round-yardage: [1/8 yd]}}\n"
BLOCKS = "blocks: {one: {cell: 5 in, rows: [[cream, cream], [cream, cream]]}}\nsizes: {only: {across: 4, down: 5}}\n"
"""Tops of 40 x 50 in without sashing."""


def quilt(parts: str, house: str = PRACTICE) -> str:
    return sample(f"{BLOCKS}quilt: {{arrange: [[one]], {parts}}}\n{house}")


def plan_of(text: str) -> Plan:
    """The best plan, as it is printed."""
    return compiled(text, effort="best")


def binding(plan: Plan) -> PlannedBinding:
    made = plan.sizes[0].binding
    assert made is not None
    return made


def bought(plan: Plan, fabric: str = "red") -> Fraction:
    buy = cloth(plan, fabric).buy
    return buy.amount if buy is not None else Fraction(0)


def lies_along(plan: Plan, piece: str) -> bool:
    """Whether every piece of that id has its longer side along the cloth, wherever it is cut."""
    yields = [part for fabric in plan.fabrics for size in fabric.sizes if size is not None
              for strip in size.strips for part in strip.yields if part.piece == piece]
    return bool(yields) and all(part.height > part.width for part in yields)


def test_borders_and_binding_from_one_length() -> None:
    """Borders 5 in finished on a 40 x 50 in top: 4 strips 5 1/2 x 50 1/2 in of 1 1/2 yd (54 in) without joins, as one
    of the trade's published cases has it. Beside them lie 20 in of width, of which 5 strips of 2 1/2 in, joined on the
    diagonal, reach around: 5 x 48 1/2 - 4 x 2 1/2 = 232 1/2 in, and 2 x (50 1/2 + 60 1/2) + 10 = 232 in are needed. So
    the binding costs nothing, and across the cloth it would cost 6 strips: worked by hand.
    """
    borders = "borders: [{width: 5 in, fabric: red, cut: lengthwise}]"
    assert bought(plan_of(quilt(borders))) == Fraction(3, 2)
    free = plan_of(quilt(f"{borders}, binding: {{fabric: red}}"))
    assert bought(free) == Fraction(3, 2)
    made = binding(free)
    assert (made.strips, made.joins, made.made) == (5, 4, Length(Fraction(465, 2)))
    assert made.cloth == (Length(Fraction(5, 2)), Length(Fraction(97, 2)))
    assert made.is_along
    assert lies_along(free, made.piece)
    across = plan_of(quilt(f"{borders}, binding: {{fabric: red, cut: crosswise}}"))
    assert (binding(across).strips, binding(across).is_along) == (6, False)
    assert bought(across) == Fraction(15, 8), "50 1/2 in and 6 strips of 2 1/2 in"
    for plan in (free, across):
        assert list(verify(plan)) == []


@pytest.mark.parametrize(("borders", "strip"), [
    ("", "2 1/4 in"), ("borders: [{width: 3 in, fabric: red}], ", "2 1/2 in"),
    ("borders: [{width: 6 in, fabric: red, cut: lengthwise}], ", "2 1/4 in"),
])
@pytest.mark.parametrize("size", ["across: 3, down: 3", "across: 4, down: 6"])
def test_the_choice_never_buys_more(borders: str, size: str, strip: str) -> None:
    """Left free, a binding takes what is less of both ways, and across the cloth where they are equal."""
    amounts = {}
    for cut in ("", ", cut: crosswise", ", cut: lengthwise"):
        text = quilt(f"{borders}binding: {{fabric: red, strip: {strip}{cut}}}").replace("across: 4, down: 5", size)
        plan = plan_of(text)
        assert list(verify(plan)) == []
        made = binding(plan)
        width, height = plan.sizes[0].unfinished
        around = (width.length + height.length) * 2 + plan.rules.binding_extra
        assert made.made >= around
        assert made.is_along == lies_along(plan, made.piece)
        amounts[cut] = bought(plan), made.is_along
    (free, along), (across, never), (asked, always) = amounts.values()
    assert not never
    assert always
    assert free == min(across, asked)
    assert along == (asked < across)


@pytest.mark.parametrize("grain", ["crosswise", "lengthwise"])
@pytest.mark.parametrize("stones", ["", ", cornerstone: cream"])
def test_sashing_is_cut_as_asked(grain: str, stones: str) -> None:
    """Short strips and long ones; along the cloth none is joined."""
    plan = plan_of(quilt(f"sashing: {{width: 2 in, fabric: red, cut: {grain}{stones}}}"))
    assert list(verify(plan)) == []
    sashing = [piece for piece in plan.pieces if piece.kind == "sashing"]
    assert len(sashing) == (1 if stones else 2)
    joins = [size.joins for piece in sashing for size in piece.sizes if size is not None]
    if grain == "lengthwise":
        assert all(lies_along(plan, piece.id) for piece in sashing)
        assert not any(joins)
    else:
        assert not any(lies_along(plan, piece.id) for piece in sashing)
        assert any(joins) == (not stones), "strips of 46 1/2 in are joined from cloth 42 in wide"


def test_long_sashing_left_free_takes_what_is_less() -> None:
    """A long strip may lie either way; short ones lie as they fit."""
    amounts = [
        bought(plan_of(quilt(f"sashing: {{width: 2 in, fabric: red{cut}}}")))
        for cut in ("", ", cut: crosswise", ", cut: lengthwise")
    ]
    assert amounts[0] <= min(amounts[1:])


def test_a_binding_of_its_own_cloth_along_it() -> None:
    """Strips of 2 1/2 in for 192 in: 16 side by side on 42 in. n strips of (192 + 2 1/2 (n - 1)) / n in: 16 of
    14 3/8 in need half a yard, which 15 of 15 1/4 in and 14 of 16 1/8 in and 13 of 17 1/8 in need too, and 12 of 18 3/8
    in do not: worked by hand for the fewest joins that half a yard allows.
    """
    parts = "binding: {cut: lengthwise}"
    plan = plan_of(quilt(parts))
    made = binding(plan)
    needed = (Length(Fraction(81, 2)) + Length(Fraction(101, 2))) * 2 + plan.rules.binding_extra
    assert needed == Length(192)
    assert made.strips == 13
    assert made.cloth == (Length(Fraction(5, 2)), Length(Fraction(137, 8)))
    assert made.buy is not None
    assert made.buy.amount == Fraction(1, 2)
    assert list(verify(plan)) == []


@pytest.mark.parametrize(("parts", "cloths"), [
    ("borders: [{width: 3 in, fabric: red, cut: lengthwise}]", ", directional: lengthwise"),
    ("borders: [{width: 3 in, fabric: red, cut: crosswise}]", ", stripe: 3 in"),
    ("sashing: {width: 2 in, fabric: red, cut: crosswise}", ", directional: crosswise"),
    ("binding: {fabric: red, bias: strips, cut: lengthwise}", ""),
])
def test_what_cannot_be_followed_is_said(parts: str, cloths: str) -> None:
    text = quilt(parts).replace("red: {color: a9482f}", f"red: {{color: a9482f{cloths}}}")
    assert "cut-without-effect" in codes(text)


def test_verify_measures_strips_along_the_cloth() -> None:
    """A strip that is said to be longer than it is cut does not pass."""
    plan = plan_of(quilt("borders: [{width: 5 in, fabric: red, cut: lengthwise}], binding: {fabric: red}"))
    made = binding(plan)
    assert made.cloth is not None
    wrong = replace(made, made=made.made + Length(1))
    assert list(verify(replace(plan, sizes=(replace(plan.sizes[0], binding=wrong),))))
