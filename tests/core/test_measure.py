"""Lengths as people write and read them: everything printed reads back as the same length."""

from __future__ import annotations

from contextlib import suppress
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from patchwright.core.length import ROOT_TWO, Length
from patchwright.core.measure import (
    Measure,
    System,
    decimal_text,
    fraction_text,
    parse_measure,
    parse_number,
    plain_length,
    plain_number,
    printed_length,
)

_INCHES = st.builds(Fraction, st.integers(0, 64 * 200), st.sampled_from([1, 2, 3, 4, 8, 16, 32, 64]))
_CENTIMETERS = st.builds(Fraction, st.integers(0, 100 * 500), st.just(100))


@pytest.mark.parametrize(("text", "value", "system"), [
    ("1/2", "1/2", None), ("2 1/2", "5/2", None), ("2½", "5/2", None), ("2.5", "5/2", None), ("2,5", "5/2", None),
    ("2 1/2 in", "5/2", "in"), ("2½″", "5/2", "in"), ('2 1/2"', "5/2", "in"), ("6 cm", "6", "cm"),
    ("0.75 cm", "3/4", "cm"), ("5 mm", "1/2", "cm"), ("0.1 m", "10", "cm"), ("1/8 yd", "9/2", "in"),
    ("2⅚", "17/6", None), ("2\u202f13⁄16", "45/16", None), ("10 inches", "10", "in"), (" 3 ", "3", None),
    ("-1/4", "-1/4", None), ("12", "12", None),
])
def test_read(text: str, value: str, system: System | None) -> None:
    assert parse_measure(text) == Measure(Fraction(value), system)


@pytest.mark.parametrize("text", [
    "", "in", "1/0", "2 3", "1//2", "2.5.1", "½½", "1/2/3", "x", "2 in cm", "1e3", "½ ½", "2 1/2.5",
])
def test_refused(text: str) -> None:
    with pytest.raises(ValueError, match=r"`|0 below"):
        parse_measure(text)


@given(_INCHES)
def test_inches_read_back(value: Fraction) -> None:
    length = Length(value)
    assert parse_number(plain_number(value)) == value
    assert parse_number(fraction_text(value)) == value
    assert parse_measure(plain_length(length, "in")).within("in") == length
    assert parse_measure(printed_length(length, "in")).within("in") == length


@given(_CENTIMETERS)
def test_centimeters_read_back(value: Fraction) -> None:
    length = Length(value)
    assert parse_number(decimal_text(value)) == value
    assert parse_number(decimal_text(value, mark=",")) == value
    assert parse_measure(plain_length(length, "cm")).within("cm") == length
    assert parse_measure(printed_length(length, "cm")).within("cm") == length


@given(_INCHES, st.sampled_from(["in", "cm"]))
def test_conversion_is_exact(value: Fraction, system: System) -> None:
    there: System = "cm" if system == "in" else "in"
    converted = Measure(value, system).within(there)
    assert Measure(converted.rational(), there).within(system) == Length(value)


def test_what_is_rounded_says_so() -> None:
    assert plain_length(ROOT_TWO * 6, "in") == "about 8 1/2 in"
    assert printed_length(ROOT_TWO * 6, "in").startswith("≈")
    assert plain_length(ROOT_TWO * 6, "cm") == "about 8.5 cm"


@given(st.text(max_size=12))
def test_any_text_is_read_or_refused(text: str) -> None:
    with suppress(ValueError):
        parse_measure(text)
