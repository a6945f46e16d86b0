"""The finished PDFs as documents: tags, alternatives, bookmarks, fonts, metadata, true scale."""

from __future__ import annotations

import re

import pikepdf
import pypdfium2
import pypdfium2.raw as pdfium
import pytest

from booklets.built import PAPERS, Built, page_texts, tagged

pytestmark = [pytest.mark.slow, pytest.mark.xdist_group("booklets")]

POINTS_PER_MILLIMETER = 72 / 25.4
_STROKE = 2 * 0.3
"""By how much the reader widens the bounds of the mark's line, whose width it adds on either side."""


def every_pdf(built: Built) -> list[tuple[str, str]]:
    """(size, paper) of every PDF, the size empty for all."""
    names = ["", *(str(size["size"]) for size in built.plan["sizes"])]
    return [(name, paper) for name in names for paper in PAPERS]


def test_every_pdf_is_tagged_and_says_so(built: Built) -> None:
    for size, paper in every_pdf(built):
        with pikepdf.open(built.pdf(size, paper)) as document:
            assert document.Root.MarkInfo.Marked
            assert str(document.Root.Lang) == "en"
            assert str(document.Root.ViewerPreferences.PrintScaling) == "/None"
            assert document.Root.ViewerPreferences.DisplayDocTitle
            metadata = document.Root.Metadata.read_bytes().decode()
            assert re.search(r"pdfuaid:part[>=\"]+1", metadata)
            assert str(built.plan["title"]) in metadata


def test_every_figure_has_an_alternative(built: Built) -> None:
    for size, paper in every_pdf(built):
        with pikepdf.open(built.pdf(size, paper)) as document:
            figures = [one for one in tagged(document) if one.kind == "/Figure"]
            assert len(figures) > 10
            assert all(len(one.alt) > 20 for one in figures)


def test_headings_are_bookmarks(built: Built) -> None:
    for size, paper in every_pdf(built):
        with pypdfium2.PdfDocument(built.pdf(size, paper)) as document:
            marks = [(mark.level, mark.get_title(), mark.get_dest().get_index()) for mark in document.get_toc()]
        titles = [title for level, title, _ in marks if level == 0]
        assert titles[0] == "Contents"
        assert {"Introduction", "Fabric Requirements", "Cutting", "Finishing"} <= set(titles)
        texts = page_texts(built.pdf(size, paper))
        for _, title, page in marks:
            assert re.sub(r"\s", "", title) in re.sub(r"\s", "", texts[page])


def test_fonts_are_embedded(built: Built) -> None:
    with pikepdf.open(built.pdf("", "letter")) as document:
        fonts = [one for one in document.objects if isinstance(one, pikepdf.Dictionary) and one.get("/Type") == "/Font"]
        assert fonts
        for font in fonts:
            inner = font.DescendantFonts[0] if "/DescendantFonts" in font else font
            if "/FontDescriptor" in inner:
                assert {"/FontFile", "/FontFile2", "/FontFile3"} & set(inner.FontDescriptor.keys())


def test_every_page_says_its_number(built: Built) -> None:
    for size, paper in every_pdf(built):
        pages = page_texts(built.pdf(size, paper))
        for number, text in enumerate(pages[1:], 2):
            assert f"Page {number} of {len(pages)}" in text
        assert "Page 1 of" not in pages[0]


@pytest.mark.parametrize("paper", PAPERS)
def test_an_inch_is_an_inch(built: Built, paper: str) -> None:
    """The square of the scale mark is 25.4 mm on the page, within a tenth of a millimeter."""
    sides: list[tuple[float, float]] = []
    with pypdfium2.PdfDocument(built.pdf("", paper)) as document:
        for page in document:
            reader = page.get_textpage()
            if "1 inch" in reader.get_text_range():
                for item in page.get_objects(filter=[pdfium.FPDF_PAGEOBJ_PATH]):
                    left, bottom, right, top = item.get_bounds()
                    sides.append((right - left, top - bottom))
            reader.close()
            page.close()
    inches = [
        side for side in sides if all(abs((length - _STROKE) / POINTS_PER_MILLIMETER - 25.4) < 0.1 for length in side)
    ]
    assert len(inches) == 1


def test_tables_have_heads_on_every_page(built: Built) -> None:
    """Where a table of sizes goes over pages, the pages say the sizes."""
    with pikepdf.open(built.pdf("", "letter")) as document:
        kinds = [one.kind for one in tagged(document)]
    assert kinds.count("/TH") > 20
    assert kinds.count("/TD") > 100
