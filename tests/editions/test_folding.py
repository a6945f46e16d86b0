"""The folded edition: sheets that the test folds read in order, each page once; inner sheets move to the fold."""

from __future__ import annotations

import atexit
from functools import cache
from itertools import pairwise
from pathlib import Path
from shutil import rmtree
from tempfile import mkdtemp

import pikepdf
import pypdfium2
import pytest

from driver.running import exit_code
from editions.test_editions import PATTERN, characters_of
from patchwright.core.theme import Folds, Paper
from patchwright.typesetting.folding import BLANK, FoldedSheet, Place, fold_plan, impose
from typesetting.booklet_sample import harbor

COUNTS = [*range(1, 42), 63, 64, 65, 97]


def folded(sheets: tuple[FoldedSheet, ...]) -> list[Place]:
    """What is read when sheets are laid one into another, folded in the middle, and turned page by page.

    Flipped on a short edge, the back's left lies behind the front's right.
    """
    read: list[Place] = []
    for number in range(max(sheet.set for sheet in sheets) + 1):
        own = [sheet for sheet in sheets if sheet.set == number]
        first = [side for sheet in own for side in (sheet.front[1], sheet.back[0])]
        second = [side for sheet in reversed(own) for side in (sheet.back[1], sheet.front[0])]
        read += first + second
    return read


@pytest.mark.parametrize("most", [1, 2, 5, 8, 30])
@pytest.mark.parametrize("pages", COUNTS)
def test_folded_sheets_read_in_order_and_have_every_page_once(pages: int, most: int) -> None:
    sheets = fold_plan(pages, most)
    read = folded(sheets)
    assert [place for place in read if place is not BLANK] == list(range(pages))
    assert read[0] == 0, "the cover is outermost"
    assert len(read) == 4 * len(sheets) == 4 * -(-pages // 4), "no sheet more than it takes"


@pytest.mark.parametrize("pages", COUNTS)
def test_blank_pages_are_the_backs_of_covers(pages: int) -> None:
    read = folded(fold_plan(pages, 30))
    blank = {place for place, page in enumerate(read) if page is BLANK}
    assert blank <= {1, len(read) - 2, len(read) - 1}
    if blank:
        assert len(read) - 1 in blank, "the back cover is the first to stay blank"


@pytest.mark.parametrize("pages", COUNTS)
def test_sets_are_no_thicker_than_they_may_be_and_nearly_alike(pages: int) -> None:
    sheets = fold_plan(pages, 5)
    sizes = [sum(sheet.set == number for sheet in sheets) for number in range(sheets[-1].set + 1)]
    assert max(sizes) <= 5
    assert max(sizes) - min(sizes) <= 1
    assert [sheet.depth for sheet in sheets] == [depth for size in sizes for depth in range(size)]


@cache
def built() -> Path:
    folder = Path(mkdtemp())
    atexit.register(rmtree, folder, ignore_errors=True)
    (folder / "sail.yaml").write_text(PATTERN, encoding="utf-8")
    wanted = ("--edition", "fold", "--size", "throw")
    assert exit_code("build", folder / "sail.yaml", "--out", folder / "out", *wanted) == 0
    return folder / "out" / "sail"


def texts(name: str) -> list[str]:
    return [page.get_textpage().get_text_range() for page in pypdfium2.PdfDocument(built() / name)]


@pytest.mark.parametrize(("paper", "wide", "high"), [("letter", 11, 8.5), ("a4", 297 / 25.4, 210 / 25.4)])
def test_two_pages_lie_on_each_side_of_a_whole_sheet(paper: str, wide: float, high: float) -> None:
    """Letter is 8 1/2 by 11 inches, A4 210 by 297 mm (ISO 216)."""
    pages = texts(f"sail-fold-throw-{paper}-pages.pdf")
    sheets = pypdfium2.PdfDocument(built() / f"sail-fold-throw-{paper}.pdf")
    assert len(sheets) == 2 * -(-len(pages) // 4)
    sides = [side for sheet in fold_plan(len(pages), 8) for side in (sheet.front, sheet.back)]
    for sheet, side in zip(sheets, sides, strict=True):
        assert sheet.get_size() == pytest.approx((wide * 72, high * 72), abs=0.1)
        text = sheet.get_textpage()
        for place, left, right in zip(side, (0, wide * 36), (wide * 36, wide * 72), strict=True):
            found = text.get_text_bounded(left=left, right=right, bottom=0, top=high * 72)
            expected = pages[place] if place is not BLANK else ""
            assert "".join(found.split()) == "".join(expected.split())


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_nothing_is_scaled_and_printers_are_told(paper: str) -> None:
    with pikepdf.open(built() / f"sail-fold-throw-{paper}.pdf") as sheets:
        preferences = sheets.Root.ViewerPreferences
        assert (str(preferences.PrintScaling), str(preferences.Duplex)) == ("/None", "/DuplexFlipShortEdge")
        assert str(sheets.Root.Lang) == "en"
        assert "Small Sail" in str(sheets.docinfo.Title)
    with pikepdf.open(built() / f"sail-fold-throw-{paper}-pages.pdf") as pages:
        assert pages.Root.MarkInfo.Marked
        assert str(pages.Root.ViewerPreferences.PrintScaling) == "/None"


def test_inner_sheets_move_toward_the_fold() -> None:
    """Each sheet by its own thickness more than the one around it, in both halves."""
    thickness = 0.01
    half = Paper(5.5, 8.5, 0.7, 0.7, 0.5, 0.5)
    folds = Folds(thickness, 8, (("letter", half),), (("letter", (11.0, 8.5)),))
    source = pikepdf.new()
    for _ in range(20):
        source.add_blank_page(page_size=(396, 612))
        source.pages[-1].Contents = source.make_stream(b"100 100 50 50 re f")
    made = Path(mkdtemp()) / "pages.pdf"
    source.save(made)
    moved = []
    for page in list(pypdfium2.PdfDocument(impose(made.read_bytes(), folds, "letter")))[::2]:
        left, right = sorted(item.get_bounds()[0] for item in page.get_objects(max_depth=1))
        assert (left - 100) == pytest.approx(496 - right, abs=0.01)
        moved.append(left - 100)
    rmtree(made.parent)
    assert moved == pytest.approx([depth * thickness * 72 for depth in range(5)], abs=0.01)
    assert all(inner > outer for outer, inner in pairwise(moved))


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_type_on_half_pages_is_no_smaller_than_the_theme_allows(paper: str) -> None:
    pages = pypdfium2.PdfDocument(built() / f"sail-fold-throw-{paper}-pages.pdf")
    set_in = [points for character, points, _ in characters_of(pages) if character.strip()]
    assert min(set_in) >= harbor().tokens.type.minimum - 0.1


def test_templates_stay_on_full_sheets(tmp_path: Path) -> None:
    """The folded booklet names the file that has them, and that file is built with their true size."""
    curved = PATTERN.replace("half-square: [rope, deck]", "quarter-circle: [rope, deck]")
    curved = curved.replace("[[turn, sail], [sail, turn@90]]", "[[turn, sail 2x2], [sail 2x2, turn@90]]")
    (tmp_path / "sail.yaml").write_text(curved, encoding="utf-8")
    wanted = ("--edition", "fold", "--edition", "templates", "--size", "throw", "--paper", "letter")
    assert exit_code("build", tmp_path / "sail.yaml", "--out", tmp_path / "out", *wanted) == 0
    folder = tmp_path / "out" / "sail"
    pages = pypdfium2.PdfDocument(folder / "sail-fold-throw-letter-pages.pdf")
    text = " ".join(" ".join(page.get_textpage().get_text_range().split()) for page in pages)
    assert "“sail-templates-throw”" in text
    assert (folder / "sail-templates-throw-letter.pdf").exists()
    assert pypdfium2.PdfDocument(folder / "sail-templates-throw-letter.pdf")[1].get_size() == (612, 792)


def test_a_pattern_without_templates_has_no_booklet_of_them(tmp_path: Path) -> None:
    (tmp_path / "sail.yaml").write_text(PATTERN, encoding="utf-8")
    wanted = ("--edition", "templates", "--edition", "coloring", "--paper", "letter")
    assert exit_code("build", tmp_path / "sail.yaml", "--out", tmp_path / "out", *wanted) == 0
    assert [file.name for file in (tmp_path / "out" / "sail").iterdir()] == ["sail-coloring-letter.pdf"]
