"""Exact lengths: arithmetic against decimals of sixty digits, rounding, text, and kinds that cannot mix."""

from __future__ import annotations

import operator
import os
import subprocess
import sys
from collections.abc import Callable
from decimal import Decimal, localcontext
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from patchwright.core.length import Cut, Finished, Length, Unfinished

_FACTORS = st.fractions(min_value=-500, max_value=500, max_denominator=64)
_STEPS = st.sampled_from([Fraction(1, 8), Fraction(1, 16), Fraction(1, 4), Fraction(1, 20), Fraction(1, 3)])
LENGTHS = st.lists(st.tuples(st.sampled_from([1, 2, 3, 6, 8, 12, 50]), _FACTORS), max_size=4).map(
    lambda terms: sum((Length.root(root, factor) for root, factor in terms), Length())
)


def _decimal(length: Length) -> Decimal:
    """The value to sixty digits."""
    with localcontext() as context:
        context.prec = 60
        total = Decimal(0)
        for root, factor in length.terms:
            total += Decimal(factor.numerator) / Decimal(factor.denominator) * Decimal(root).sqrt()
        return total


@given(LENGTHS)
def test_text_reads_back(length: Length) -> None:
    assert Length.parse(str(length)) == length
    assert hash(Length.parse(str(length))) == hash(length)


@given(LENGTHS, LENGTHS)
def test_order_agrees_with_sixty_digits(one: Length, other: Length) -> None:
    difference = _decimal(one) - _decimal(other)
    if abs(difference) > Decimal(10) ** -50:
        assert (one < other) == (difference < 0)
        assert (one > other) == (difference > 0)
        assert one != other
    else:
        assert one == other


@given(LENGTHS, LENGTHS, LENGTHS)
def test_arithmetic(one: Length, other: Length, third: Length) -> None:
    assert one + other == other + one
    assert (one + other) + third == one + (other + third)
    assert one * (other + third) == one * other + one * third
    assert one - one == Length()
    assert abs(_decimal(one * other) - _decimal(one) * _decimal(other)) < Decimal(10) ** -20


@given(LENGTHS, _FACTORS.filter(bool), st.sampled_from([1, 2, 3]))
def test_division_by_one_term(length: Length, factor: Fraction, root: int) -> None:
    divisor = Length.root(root, factor)
    assert length / divisor * divisor == length


@given(LENGTHS, _STEPS)
def test_rounding(length: Length, step: Fraction) -> None:
    up, down, nearest = length.up_to(step), length.down_to(step), length.nearest(step)
    for rounded in (up, down, nearest):
        assert rounded.is_multiple_of(step)
    assert down <= length <= up
    assert up - length < Length(step)
    assert length - down < Length(step)
    assert abs(nearest - length) <= Length(step / 2)
    assert (up == down) == length.is_multiple_of(step)


@given(LENGTHS)
def test_whole_numbers_around(length: Length) -> None:
    assert length.floor() <= length.ceil() <= length.floor() + 1
    assert Length(length.floor()) <= length <= Length(length.ceil())
    assert length.sign() == (_decimal(length) > 0) - (_decimal(length) < 0)


@pytest.mark.parametrize("text", ["", "x", "1/0", "√", "2√", "1 2", "--1", "√-2", "1.5"])
def test_no_exact_length(text: str) -> None:
    if text == "1 2":
        assert Length.parse(text) == Length(12)
    else:
        with pytest.raises((ValueError, ZeroDivisionError)):
            Length.parse(text)


@pytest.mark.parametrize("use", [operator.add, operator.sub, operator.lt, operator.le, operator.gt, operator.ge])
@pytest.mark.parametrize(("one", "other"), [
    (Cut(1), Finished(1)), (Finished(1), Unfinished(1)), (Unfinished(1), Cut(1)), (Cut(1), Length(1)),
])
def test_kinds_never_mix(use: Callable[[object, object], object], one: object, other: object) -> None:
    with pytest.raises(TypeError):
        use(one, other)
    assert one != other


def test_kinds_turn_into_each_other() -> None:
    seam = Length(Fraction(1, 4))
    assert Finished(2).cut(seam) == Cut("5/2")
    assert Finished(2).unfinished(seam).finished(seam) == Finished(2)
    assert Cut("5/2").unfinished() == Finished(2).unfinished(seam)


@pytest.mark.slow
def test_type_checker_keeps_kinds_apart(tmp_path: Path) -> None:
    snippet = tmp_path / "snippet.py"
    snippet.write_text(
        "from patchwright.core.length import Cut, Finished, Length, Unfinished\n"
        "fine: Cut = Finished(2).cut(Length(1)) + Cut(1)\n"
        "mixed = Cut(1) + Finished(1)\n"
        "bare = Cut(1) + Length(1)\n"
        "wrong: Finished = Unfinished(1)\n"
        "smaller = Cut(1) < Finished(1)\n"
    )
    source = Path(__file__).parent.parent.parent / "compiler"
    run = subprocess.run(
        [sys.executable, "-m", "mypy", "--strict", "--no-error-summary", f"--cache-dir={tmp_path}", str(snippet)],
        env=os.environ | {"MYPYPATH": str(source)}, cwd=tmp_path, capture_output=True, text=True, check=False,
    )
    lines = [line.split(":")[1] for line in run.stdout.splitlines() if line.startswith("snippet.py")]
    assert lines == ["3", "4", "5", "6"], run.stdout
