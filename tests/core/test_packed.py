"""Data as bytes: fingerprints that spans take no part in, and bytes out of which nothing but data comes."""

from __future__ import annotations

import io
import pickle
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from patchwright.core.diagnostics import Diagnostic, Note
from patchwright.core.length import Cut, Finished, Length
from patchwright.core.packed import (
    UnpackError,
    fingerprint,
    fingerprint_and_spans,
    moved_spans,
    pack,
    unpack,
)
from patchwright.core.source import NOWHERE, Span, Text

HERE, THERE = Span("a.yaml", 1, 2, 3, 4), Span("b.yaml", 5, 6, 7, 8)

plain = st.one_of(
    st.none(), st.booleans(), st.integers(), st.floats(allow_nan=False), st.text(), st.fractions(),
    st.builds(Length, st.fractions()), st.builds(Finished, st.builds(Length, st.fractions())),
)
values = st.recursive(plain, lambda inner: st.lists(inner, max_size=4).map(tuple), max_leaves=12)


@given(values)
def test_a_value_comes_back(value: object) -> None:
    assert unpack(pack(value)) == value


@given(values, values)
def test_fingerprints_tell_values_apart(one: object, other: object) -> None:
    """Alike for copies of one value, and never alike for values whose texts differ."""
    assert fingerprint(one) == fingerprint(unpack(pack(one)))
    if repr(one) != repr(other):
        assert fingerprint(one) != fingerprint(other)


def test_types_are_told_apart() -> None:
    length = Length(Fraction(1))
    different = [1, 1.0, True, "1", (1,), ("1",), Fraction(1), length, Cut(length), Finished(length), ((1,),), (1, ())]
    assert len({fingerprint(value) for value in different}) == len(different)


def test_one_value_or_two_are_told_apart() -> None:
    assert fingerprint(1, 2) != fingerprint((1, 2))
    assert fingerprint("ab", "c") != fingerprint("a", "bc")


def test_the_same_object_twice_is_as_two_equal_ones() -> None:
    text = "".join(["sa", "il"])
    assert fingerprint(text, text) == fingerprint(text, "".join(["sai", "l"]))


def _found(span: Span) -> Diagnostic:
    return Diagnostic("code", "message", span, "error", (Note(THERE, "note"),))


def test_spans_take_no_part() -> None:
    assert fingerprint(_found(HERE), Text("word", HERE)) == fingerprint(_found(THERE), Text("word", THERE))
    assert fingerprint_and_spans(_found(HERE))[1] == (HERE, THERE)


def test_spans_are_moved() -> None:
    moved = moved_spans((HERE, THERE), (THERE, THERE))
    assert moved is not None
    assert unpack(pack(_found(HERE)), moved) == _found(THERE)
    assert unpack(pack(_found(NOWHERE)), moved) == _found(NOWHERE)
    assert unpack(pack(Text("word", HERE)), moved).span == THERE


def test_a_span_that_cannot_be_placed_is_refused() -> None:
    assert moved_spans((HERE, HERE), (HERE, THERE)) is None
    assert moved_spans((HERE,), (HERE, THERE)) is None
    with pytest.raises(UnpackError, match="nothing is known"):
        unpack(pack(_found(HERE)), {THERE: THERE})


@dataclass
class Outside:
    """A class that is no part of the package."""

    name: str


class Calls:
    """Would run a command when it is unpickled."""

    def __reduce__(self) -> tuple[object, ...]:
        import os

        return os.system, ("touch ran",)


class CallsOurs:
    """Would call a function of the package."""

    def __reduce__(self) -> tuple[object, ...]:
        from patchwright.files import find_patterns

        return find_patterns, ((),)


@pytest.mark.parametrize("value", [Outside("x"), Path("x"), Calls(), CallsOurs(), len, io.BytesIO])
def test_nothing_but_our_data_comes_out(value: object, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    with pytest.raises(UnpackError):
        unpack(pickle.dumps(value, 5))
    assert list(tmp_path.iterdir()) == []


@given(st.binary(max_size=60))
def test_any_bytes_are_refused_or_harmless(content: bytes) -> None:
    try:
        unpack(content)
    except UnpackError:
        return
