"""Pages that are left half empty though no section ends on them are found in the finished PDF."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from patchwright.proofing.fullness import page_fullness, scant_pages
from patchwright.typesetting.booklet import Figure, Section
from patchwright.typesetting.pdf import write_pdf
from typesetting.booklet_sample import block, harbor, paragraph, sample_booklet

PAPER = harbor().tokens.paper("letter")
WORDS = tuple(paragraph(f"Line {number} of a few words.") for number in range(5))


def tall(height: float) -> Figure:
    return Figure(replace(block("tall"), width=5, height=height, items=block("tall").items))


def pdf(*sections: Section) -> bytes:
    return write_pdf(replace(sample_booklet(), sections=sections), harbor(), "letter").content


def section(name: str, *blocks: Any, new_page: bool = False) -> Section:
    return Section(name, name.capitalize(), blocks, new_page)


def test_words_before_a_drawing_that_does_not_fit_below_them_leave_a_scant_page() -> None:
    made = pdf(section("one", *WORDS, tall(8), *WORDS))
    assert scant_pages(made, PAPER) == (2,)
    full = page_fullness(made, PAPER)
    assert full[1] == pytest.approx(0.2, abs=0.08)
    assert scant_pages(pdf(section("one", *WORDS, tall(5), *WORDS)), PAPER) == ()


def test_ends_of_sections_and_the_last_page_may_be_scant() -> None:
    made = pdf(section("one", *WORDS), section("two", *WORDS, new_page=True))
    assert [share < 0.45 for share in page_fullness(made, PAPER)] == [False, True, True]
    assert scant_pages(made, PAPER) == ()
