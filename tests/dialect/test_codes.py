"""Every diagnostic code is explained, its wrong example shows it, and its corrected example does not."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from cases.runner import WORDING
from patchwright.core.codes import CODES, Explained, load_codes
from patchwright.core.diagnostics import Diagnostic
from patchwright.dialect.allowances import allowed_codes
from patchwright.dialect.parse import read_house, read_pattern
from patchwright.dialect.reader import decode

BOOK = load_codes(WORDING.read_text(encoding="utf-8"))

Compile = Callable[[bytes, bool], tuple[Diagnostic, ...]]
"""All diagnostics of a pattern's (or, if the flag is set, of a house file's) bytes."""


def misfits(told: Explained, compile_text: Compile) -> list[str]:
    """What is wrong with a code's examples when a compiler reads them."""
    wrong = compile_text(told.wrong_bytes, told.house)
    right = compile_text(told.right_bytes, told.house)
    made = [] if told.code in [item.code for item in wrong] else [f"not reached: {[item.code for item in wrong]}"]
    made += [f"severity {item.severity}" for item in wrong
             if item.code == told.code and item.severity != CODES[told.code].severity]
    return made + [f"still there: {item}" for item in right if item.severity == "error" or item.code == told.code]


def read_dialect(data: bytes, house: bool) -> tuple[Diagnostic, ...]:
    """The dialect's own stage."""
    source, found = decode("example.yaml", data)
    if source is None:
        return found
    read = read_house(source) if house else read_pattern(source)
    return (*read[1], *allowed_codes(source)[1])


@pytest.mark.parametrize("code", [code for code, entry in CODES.items() if entry.stage == "dialect"])
def test_examples_of_the_dialect(code: str) -> None:
    assert misfits(BOOK[code], read_dialect) == []
    others = {item.code for item in read_dialect(BOOK[code].wrong_bytes, BOOK[code].house)} - {code}
    assert not others or code == "too-many-mistakes"


@pytest.mark.parametrize("code", [
    code for code, entry in CODES.items() if entry.stage != "dialect" and BOOK[code].kind in ("pattern", "house")
])
def test_examples_of_later_stages_can_be_read(code: str) -> None:
    told = BOOK[code]
    assert not read_dialect(told.right_bytes, told.house)
    assert not read_dialect(told.wrong_bytes, told.house) or told.house


def test_every_code_is_explained() -> None:
    assert set(BOOK) == set(CODES)
    for told in BOOK.values():
        assert told.summary.endswith(".")
        assert len(told.summary) <= 100
        assert len(told.explanation) > 40
        assert told.wrong_bytes != told.right_bytes
