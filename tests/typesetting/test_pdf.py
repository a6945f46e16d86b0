"""The PDF as a structure: text, boxes, tags, fonts, true scale, and the same bytes every time."""

from __future__ import annotations

import ctypes
import io
import os
import re
import subprocess
import sys
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import pikepdf
import pypdfium2
import pypdfium2.raw as pdfium
import pytest

from patchwright.diagrams.scene import Area, Label
from patchwright.typesetting.booklet import Cover, Figure, Link, Section, Step, Table
from patchwright.typesetting.faults import (
    BookletStructureError,
    FigureRoomError,
    MissingGlyphError,
    MissingWordsError,
    PageEngineError,
)
from patchwright.typesetting.fitting import room
from patchwright.typesetting.pdf import PdfResult, page_engine, write_pdf
from patchwright.typesetting.pdf_tables import with_row_heads
from typesetting.booklet_sample import SIZES, block, harbor, paragraph, quilt, rectangle, sample_booklet, scene, words
from typesetting.structure import elements

PAPERS = ("letter", "a4")
POINTS_PER_MILLIMETER = 72 / 25.4


@cache
def made(paper: str) -> PdfResult:
    return write_pdf(sample_booklet(), harbor(), paper)


@cache
def texts(paper: str) -> tuple[str, ...]:
    document = pypdfium2.PdfDocument(made(paper).content)
    pages = []
    for page in document:
        reader = page.get_textpage()
        pages.append(reader.get_text_range())
        reader.close()
        page.close()
    document.close()
    return tuple(pages)


@pytest.mark.parametrize("paper", PAPERS)
def test_pages_and_boxes(paper: str) -> None:
    document = pypdfium2.PdfDocument(made(paper).content)
    size = harbor().tokens.paper(paper)
    assert len(document) == made(paper).pages
    for number in range(len(document)):
        assert document.get_page_size(number) == pytest.approx((size.width * 72, size.height * 72), abs=0.5)
    document.close()


@pytest.mark.parametrize("paper", PAPERS)
def test_text_comes_back_with_its_fractions(paper: str) -> None:
    text = "\n".join(texts(paper))
    for expected in ("½", "⅜", "⅝", "⅞", "⅓", "13⁄16", "40½″", "Sea stripe", "8½″ × 8½″ unfinished"):
        assert expected in text, expected


@pytest.mark.parametrize("paper", PAPERS)
def test_every_page_says_its_number(paper: str) -> None:
    pages = texts(paper)
    for number, text in enumerate(pages[1:], 2):
        assert f"Page {number} of {len(pages)}" in text
    assert "Page 1 of" not in pages[0]


def test_table_heads_are_repeated() -> None:
    pages = [text for text in texts("letter") if re.search(r"\b[A-H]\d\s+2⅜″", text)]
    assert len(pages) > 1
    for text in pages:
        assert all(size.capitalize() in text for size in SIZES)


@pytest.mark.parametrize("paper", PAPERS)
def test_steps_stay_with_their_drawings(paper: str) -> None:
    """A step's text and its figure's caption are on one page."""
    for number in range(1, 7):
        pages = [text for text in texts(paper) if f"Make {7 * number}, and 6 reversed" in text]
        assert len(pages) == 1
        assert f"Figure\xa0{number + 3}" in pages[0].replace("Figure ", "Figure\xa0")


@pytest.mark.parametrize("paper", PAPERS)
def test_nothing_leaves_the_text_block(paper: str) -> None:
    document = pypdfium2.PdfDocument(made(paper).content)
    size = harbor().tokens.paper(paper)
    left, right = size.left * 72 - 3, (size.width - size.right) * 72 + 3
    for page in document:
        for item in page.get_objects():
            bounds = item.get_bounds()
            assert left <= bounds[0] <= bounds[2] <= right, bounds
            assert 0 < bounds[1] <= bounds[3] < size.height * 72
        page.close()
    document.close()


def square_path(page: Any) -> list[tuple[float, float]]:
    """Width and height of all plain rectangles of about an inch that are paths of four corners."""
    found = []
    for item in page.get_objects(filter=[pdfium.FPDF_PAGEOBJ_PATH]):
        count = pdfium.FPDFPath_CountSegments(item.raw)
        points = []
        for index in range(count):
            segment = pdfium.FPDFPath_GetPathSegment(item.raw, index)
            x, y = ctypes.c_float(), ctypes.c_float()
            pdfium.FPDFPathSegment_GetPoint(segment, x, y)
            points.append((x.value, y.value))
        if 4 <= count <= 5:
            matrix = item.get_matrix()
            xs, ys = zip(*(matrix.on_point(*point) for point in points), strict=True)
            found.append((max(xs) - min(xs), max(ys) - min(ys)))
    return [size for size in found if abs(size[0] - 72) < 3 and abs(size[1] - 72) < 3]


@pytest.mark.parametrize("paper", PAPERS)
def test_one_inch_is_one_inch(paper: str) -> None:
    document = pypdfium2.PdfDocument(made(paper).content)
    pages = [page for page, text in zip(document, texts(paper), strict=True) if "Test your seam" in text]
    squares = square_path(pages[0])
    assert squares
    for size in squares[0]:
        assert size / POINTS_PER_MILLIMETER == pytest.approx(25.4, abs=0.1)
    pages[0].close()
    document.close()


def test_figures_are_as_large_on_the_page_as_in_the_scene() -> None:
    """The queen's layout is the largest thing on its page: its edges are as far apart as in the scene."""
    document = pypdfium2.PdfDocument(made("letter").content)
    page = next(page for page, text in zip(document, texts("letter"), strict=True) if "The queen" in text)
    boxes = [item.get_bounds() for item in page.get_objects() if item.type == pdfium.FPDF_PAGEOBJ_FORM] or [
        item.get_bounds() for item in page.get_objects()
    ]
    widths = [box[2] - box[0] for box in boxes]
    expected = (20 + 2) * 0.25 * 72
    assert any(width == pytest.approx(expected, abs=2) for width in widths)
    page.close()
    document.close()


def test_tags_language_and_preferences() -> None:
    with pikepdf.open(io.BytesIO(made("letter").content)) as pdf:
        assert str(pdf.Root.Lang) == "en"
        assert bool(pdf.Root.MarkInfo.Marked)
        assert pdf.Root.ViewerPreferences.PrintScaling == pikepdf.Name("/None")
        assert bool(pdf.Root.ViewerPreferences.DisplayDocTitle)
        assert str(pdf.docinfo["/Title"]) == "Rope Walk"
        assert "/CreationDate" not in pdf.docinfo
        assert b"pdfuaid:part>1" in pdf.Root.Metadata.read_bytes()
        found = list(elements(pdf.Root.StructTreeRoot.K))
        kinds = [str(element.S) for element in found]
        figures = [element for element in found if str(element.S) == "/Figure"]
        assert len(figures) >= 20
        assert all(str(element.get("/Alt", "")) for element in figures)
        assert kinds.count("/Table") == 2
        assert kinds.count("/TH") == 15 + kinds.count("/TR") - 2, "heads of columns, and one in every row below them"
        assert kinds.count("/H1") == len(sample_booklet().sections)
        with pdf.open_outline() as outline:
            assert [item.title for item in outline.root] == [section.title for section in sample_booklet().sections]


def test_fonts_are_embedded_and_only_the_theme_s() -> None:
    with pikepdf.open(io.BytesIO(made("letter").content)) as pdf:
        fonts = [item for item in pdf.objects if isinstance(item, pikepdf.Dictionary) and "/FontName" in item]
        names = {str(font.FontName).split("+")[-1].split("-")[0] for font in fonts}
        assert names == {"Spectral", "Lato"}
        assert all(any(f"/FontFile{kind}" in font for kind in ("", "2", "3")) for font in fonts)


def test_no_page_resource_leads_out() -> None:
    content = made("letter").content
    assert b"/JavaScript" not in content
    assert re.findall(rb"/URI ?\((.*?)\)", content) == [b"https://example.com/corrections"]


def test_same_bytes_in_one_process_and_with_shared_work() -> None:
    engine = page_engine(harbor())
    first = write_pdf(sample_booklet(), harbor(), "letter", engine=engine)
    assert write_pdf(sample_booklet(), harbor(), "letter", engine=engine) == first == made("letter")


@pytest.mark.slow
def test_same_bytes_in_other_surroundings(tmp_path: Path) -> None:
    script = (
        "import hashlib\n"
        "from typesetting.booklet_sample import harbor, sample_booklet\n"
        "from patchwright.typesetting.pdf import write_pdf\n"
        "from patchwright.typesetting.web import write_html\n"
        "digest = hashlib.sha256(write_pdf(sample_booklet(), harbor(), 'a4').content)\n"
        "digest.update(write_html(sample_booklet(), harbor()).encode())\n"
        "print(digest.hexdigest())\n"
    )
    root = Path(__file__).resolve().parents[2]
    results = set()
    for number, zone in enumerate(("UTC", "Pacific/Auckland")):
        folder = tmp_path / zone.replace("/", "-")
        folder.mkdir()
        environment = os.environ | {
            "TZ": zone,
            "PYTHONHASHSEED": str(number + 1),
            "PYTHONPATH": os.pathsep.join((str(root / "compiler"), str(root / "tests"))),
        }
        run = subprocess.run(
            [sys.executable, "-c", script], cwd=folder, env=environment, capture_output=True, text=True, check=True
        )
        results.add(run.stdout)
    assert len(results) == 1


def test_a_step_taller_than_a_page_goes_on_over_pages() -> None:
    assert sum("Row" in text.split() for text in texts("letter")) >= 2
    assert any("Join the rows of the quilt" in text and "Row" in text.split() for text in texts("letter"))


def with_section(*blocks: Any) -> Any:
    booklet = sample_booklet()
    return replace(booklet, sections=(*booklet.sections, Section("more", "More", blocks)))


def test_a_missing_glyph_is_an_error_that_names_it() -> None:
    with pytest.raises(MissingGlyphError, match=r"U\+4E2D.*'a 中 b'"):
        write_pdf(with_section(paragraph("a 中 b")), harbor(), "letter")
    drawn = block("odd")
    odd = replace(drawn, items=(*drawn.items, Label((0.5, 0.5), "☐")))
    with pytest.raises(MissingGlyphError, match="☐"):
        write_pdf(with_section(Figure(odd)), harbor(), "letter")


def test_a_figure_too_large_for_its_place_is_an_error_that_names_it() -> None:
    limits = room(harbor().tokens)
    wide = replace(block("wide"), width=limits.section[0] + 0.1)
    with pytest.raises(FigureRoomError, match="`wide`"):
        write_pdf(with_section(Figure(wide)), harbor(), "a4")
    fits = replace(block("fits"), width=limits.section[0])
    with pytest.raises(FigureRoomError, match="step `one`"):
        write_pdf(with_section(Step("one", 1, (Figure(fits),))), harbor(), "a4")


def test_the_largest_figures_fit_one_page() -> None:
    limits = room(harbor().tokens)
    tall = replace(block("tall"), width=limits.section[0], height=limits.section[1])
    stepped = replace(block("stepped"), width=limits.step[0], height=limits.step[1])
    booklet = with_section(Figure(tall, "In full"), Step("one", 1, (Figure(stepped, "In a step"),)))
    document = pypdfium2.PdfDocument(write_pdf(booklet, harbor(), "letter").content)
    last = [page.get_textpage().get_text_range() for page in document][-3:]
    assert "In full" in last[-2]
    assert "In a step" in last[-1]


def test_a_cover_with_the_largest_figure_and_eight_sizes_is_one_page() -> None:
    limits = room(harbor().tokens)
    booklet = sample_booklet()
    cover: Cover = replace(
        booklet.cover,
        figure=Figure(replace(quilt("cover", 10, 10, 0.1), width=limits.cover[0], height=limits.cover[1])),
        sizes=tuple((f"Size {number}", "60½″ × 72½″") for number in range(8)),
    )
    usual = {paper: made(paper).pages for paper in PAPERS}
    for paper in PAPERS:
        assert write_pdf(replace(booklet, cover=cover), harbor(), paper).pages == usual[paper]
    longer = replace(cover, sizes=cover.sizes * 9)
    assert write_pdf(replace(booklet, cover=longer), harbor(), "letter").pages == usual["letter"] + 1
    with pytest.raises(PageEngineError, match="cover"):
        write_pdf(replace(booklet, cover=replace(cover, sizes=cover.sizes * 60)), harbor(), "letter")


def test_a_booklet_that_does_not_hold_together_is_refused() -> None:
    with pytest.raises(BookletStructureError, match="`#nowhere`"):
        write_pdf(with_section(paragraph(Link("#nowhere", words("there")))), harbor(), "letter")
    with pytest.raises(BookletStructureError, match="javascript"):
        write_pdf(with_section(paragraph(Link("javascript:alert(1)", words("there")))), harbor(), "letter")
    with pytest.raises(BookletStructureError, match="two parts"):
        write_pdf(with_section(Step("turn-1", 1, ())), harbor(), "letter")
    with pytest.raises(BookletStructureError, match="cells"):
        write_pdf(with_section(Table("t", "T", (), ((), (sample_cell(),)))), harbor(), "letter")
    with pytest.raises(MissingWordsError, match="`page`"):
        write_pdf(replace(sample_booklet(), words=()), harbor(), "letter")


def sample_cell() -> Any:
    from patchwright.typesetting.booklet import Cell

    return Cell(words("one"))


def test_words_of_authors_are_never_markup() -> None:
    text = '#panic() *bold* $x$ <b>&amp; @ref `code` \\ // #import "x" {{ 7*7 }}'
    pages = pypdfium2.PdfDocument(write_pdf(with_section(paragraph(text)), harbor(), "letter").content)
    assert text in pages[len(pages) - 1].get_textpage().get_text_range().replace("\r\n", " ")


def test_an_engine_s_warning_is_an_error() -> None:
    theme = replace(harbor(), page_source='#set text(font: "Nowhere")\n#set document(title: "x")\nText')
    with pytest.raises(PageEngineError, match="line 1, column"):
        write_pdf(sample_booklet(), theme, "letter")


@pytest.mark.parametrize(
    "source", ['#read("metadata.json").slice(1, 99999)', '#image("/etc/hostname", alt: "x")', "#panic()"]
)
def test_an_engine_s_error_is_an_error(source: str) -> None:
    theme = replace(harbor(), page_source=f'#set document(title: "x")\n{source}')
    with pytest.raises(PageEngineError):
        write_pdf(sample_booklet(), theme, "letter")


def test_heads_of_rows_are_marked_in_place_and_nothing_is_guessed() -> None:
    """An engine that writes its cells another way is noticed."""
    cell = b"\n7 0 obj\n<</Type/StructElem/S/TD/P 3 0 R/A[<</O/Table/Headers[(U1x%dy0)]>>]/K[4]/Pg 9 0 R>>\nendobj"
    marked = with_row_heads(cell % 0 + cell % 10)
    assert len(marked) == len(cell % 0 + cell % 10)
    assert marked.count(b"/S/TH/P 3 0 R/A[<</O/Table/Scope/Row ") == 1
    assert marked.count(b"/S/TD/P 3 0 R/A[<</O/Table  ") == 1
    with pytest.raises(PageEngineError, match="unknown way"):
        with_row_heads(cell.replace(b"/Headers", b"/Heads") % 0)


@pytest.mark.parametrize("wide", [1.6, 2.0, 2.3])
def test_words_keep_a_width_of_several_words_beside_a_drawing(wide: float) -> None:
    """Of two steps that share a line the one with the wide drawing has its words above it, not squeezed beside it."""
    told = "Sew the last seam as shown and press it."
    drawings = [
        Figure(scene(f"beside-{name}", width, 0.9, [Area(rectangle(0, 0, width, 0.9), "fabric", "A")], name, name))
        for name, width in (("wide", wide), ("narrow", 0.8))
    ]
    steps = tuple(
        Step(f"step-{number}", number, (paragraph(told), drawing)) for number, drawing in enumerate(drawings, 1)
    )
    sample = sample_booklet()
    sections = (Section("units", "Units", steps), *sample.sections[:1])
    result = write_pdf(replace(sample, sections=sections), harbor(), "letter")
    document = pypdfium2.PdfDocument(result.content)
    lines = [line for page in document for line in page.get_textpage().get_text_range().splitlines()]
    document.close()
    assert max(len(line) for line in lines if line and line in told) > 12
    assert sum(line in told and len(line) < 9 for line in lines if line.strip()) <= 3
