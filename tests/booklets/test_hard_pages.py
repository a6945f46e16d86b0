"""Twelve sizes, 28 fabrics, an overlong title and a word without a break: graceful pages, and no number clipped."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest

from booklets.built import page_glyphs, page_texts
from booklets.hard_pattern import TITLE, UNBROKEN, hard_pattern
from booklets.test_pages import clashes
from patchwright import driver
from patchwright.files import find_patterns

pytestmark = [pytest.mark.slow, pytest.mark.xdist_group("hard")]

SIZES, FABRICS = 12, 28


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("hard")
    (folder / "hard.yaml").write_text(hard_pattern(SIZES, FABRICS), encoding="utf-8")
    (project,) = find_patterns((folder / "hard.yaml",))
    request = driver.BuildRequest(editions=("all-sizes",), papers=("letter",), out=folder / "out")
    built = driver.build_project(project, request)
    assert not built.compiled.failed
    return built.folder / "hard-letter.pdf"


def test_nothing_runs_over_or_overlaps(pages: Path) -> None:
    for number, ((width, height), glyphs) in enumerate(page_glyphs(pages), 1):
        for glyph in glyphs:
            left, bottom, right, top = glyph.box
            assert 0.75 * 72 < left < right < width - 0.75 * 72, (number, glyph)
            assert 0.3 * 72 < bottom < top < height - 0.3 * 72, (number, glyph)
        assert clashes(glyphs) == [], number


def test_tables_of_many_sizes_stand_in_parts_with_heads_of_their_own(pages: Path) -> None:
    """Every part of the table names its rows again, and every size has a column."""
    texts = page_texts(pages)
    requirements = " ".join(text for text in texts if "Fabric Requirements" in text)
    assert requirements.count("C · Cloth 3") >= 2
    heads = re.findall(r"Fabric (?:For )?Size", requirements)
    assert len(heads) >= 3, "two parts, one of them over two pages"
    for number in range(3, SIZES, 3):
        assert f"Size {number + 1}" in requirements


def test_the_title_and_the_unbroken_word_are_whole(pages: Path) -> None:
    texts: list[Any] = [re.sub(r"[\s\u200b\ufffe\x02-]", "", text) for text in page_texts(pages)]
    assert TITLE.replace(" ", "") in texts[0]
    assert sum(UNBROKEN in text for text in texts) >= 2
