"""The pages of the finished PDFs: nothing runs over, nothing overlaps, nothing is parted that belongs together."""

from __future__ import annotations

import re
from itertools import pairwise
from pathlib import Path

import pikepdf
import pytest

from booklets.built import PAPERS, Box, Built, Glyph, page_fills, page_glyphs, page_texts, tagged

pytestmark = [pytest.mark.slow, pytest.mark.xdist_group("booklets")]

_MARGIN = 0.5 * 72
"""No theme's type comes nearer to the paper's edge."""
_CELL = 18.0
_LIGATURE = 2
"""Characters so near in reading order may be one sign."""


def overlap(one: Box, other: Box) -> float:
    """The share of the smaller box that the other covers."""
    wide = min(one[2], other[2]) - max(one[0], other[0])
    high = min(one[3], other[3]) - max(one[1], other[1])
    if wide <= 0 or high <= 0:
        return 0.0
    areas = [(box[2] - box[0]) * (box[3] - box[1]) for box in (one, other)]
    return wide * high / max(min(areas), 1e-6)


def clashes(glyphs: list[Glyph]) -> list[str]:
    """Pairs of characters that stand one over the other."""
    cells: dict[tuple[int, int], list[Glyph]] = {}
    found = []
    for glyph in glyphs:
        left, bottom, right, top = glyph.box
        near = {
            id(other): other
            for column in range(int(left // _CELL), int(right // _CELL) + 1)
            for row in range(int(bottom // _CELL), int(top // _CELL) + 1)
            for other in cells.setdefault((column, row), [])
        }
        found += [
            f"{glyph.text} over {other.text}"
            for other in near.values()
            if abs(glyph.place - other.place) > _LIGATURE and overlap(glyph.box, other.box) > 0.35
        ]
        for column in range(int(left // _CELL), int(right // _CELL) + 1):
            for row in range(int(bottom // _CELL), int(top // _CELL) + 1):
                cells[column, row].append(glyph)
    return found


def some_pdfs(built: Built) -> list[Path]:
    """Both papers with all sizes, and one size of each paper."""
    names = [str(size["size"]) for size in built.plan["sizes"]]
    return [built.pdf("", "letter"), built.pdf("", "a4"), built.pdf(names[0], "letter"), built.pdf(names[-1], "a4")]


def test_text_stays_on_the_page_and_nothing_overlaps(built: Built) -> None:
    for path in some_pdfs(built):
        for number, ((width, height), glyphs) in enumerate(page_glyphs(path), 1):
            for glyph in glyphs:
                left, bottom, right, top = glyph.box
                assert _MARGIN < left < right < width - _MARGIN, (path.name, number, glyph)
                assert 0.3 * 72 < bottom < top < height - 0.3 * 72, (path.name, number, glyph)
            assert clashes(glyphs) == [], (path.name, number)


@pytest.mark.parametrize("paper", PAPERS)
def test_steps_stay_with_their_drawings(built: Built, paper: str) -> None:
    """What is read before a step's drawing is on the drawing's page."""
    own = built.step_figures()
    with pikepdf.open(built.pdf("", paper)) as document:
        told = [one for one in tagged(document) if one.kind not in ("/Link", "/Reference")]
    checked = 0
    for before, one in pairwise(told):
        if one.kind == "/Figure" and one.alt in own:
            assert before.page == one.page, one.alt
            checked += 1
    assert checked > 10


@pytest.mark.parametrize("paper", PAPERS)
def test_no_heading_is_left_alone(built: Built, paper: str) -> None:
    """What follows a heading is on its page."""
    for path in (built.pdf("", paper), built.pdf(str(built.plan["sizes"][0]["size"]), paper)):
        with pikepdf.open(path) as document:
            told = tagged(document)
        for one, after in pairwise(told):
            if one.kind in ("/H1", "/H2"):
                assert one.page == after.page, (path.name, one.page)


@pytest.mark.parametrize("paper", PAPERS)
def test_pages_are_filled(built: Built, paper: str) -> None:
    """A page less than a third full is the last one, or comes before a section that begins a page of its own."""
    for path in (built.pdf("", paper), built.pdf(str(built.plan["sizes"][0]["size"]), paper)):
        texts = page_texts(path)
        for number, share in enumerate(page_fills(path)[1:-1], 2):
            ends = "Cutting Layouts" in texts[number] or "Cutting Layouts" in texts[number - 1]
            assert share > 1 / 3 or ends, (path.name, number, share)


def test_page_counts_are_those_of_a_printed_pattern(built: Built) -> None:
    sizes = built.plan["sizes"]
    for paper in PAPERS:
        assert len(page_texts(built.pdf("", paper))) <= 20 + 4 * len(sizes)
        for size in sizes:
            assert len(page_texts(built.pdf(str(size["size"]), paper))) <= 23


def test_every_figure_named_in_the_text_is_there(built: Built) -> None:
    for path in some_pdfs(built):
        text = " ".join(page_texts(path))
        named = set(re.findall(r"[Ff]igure (\d+)", text))
        captions = set(re.findall(r"Figure (\d+)", text))
        assert named <= captions
    sizes = [str(size["size"]) for size in built.plan["sizes"]]
    for size in sizes:
        for kind in ("layout", "top", "backing"):
            assert f'id="{kind}-{size}"' in built.web
