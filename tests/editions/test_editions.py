"""Every edition, built by the program and read back from its PDF: names, paper, type, color, words."""

from __future__ import annotations

import atexit
import ctypes
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from shutil import rmtree
from tempfile import mkdtemp
from typing import Any, get_args

import pikepdf
import pypdfium2
import pypdfium2.raw as pdfium
import pytest

from driver.running import exit_code
from patchwright.dialect import declared
from patchwright.typesetting.changes import NO_CHANGES, changed_theme
from patchwright.typesetting.content.editions import EDITIONS
from typesetting.booklet_sample import harbor

PATTERN = """\
dialect: 1
pattern: Small Sail
release: 1
summary: One sail, many ways.
lengths: inches
packs: {bundle: {squares: 10 in, count: 42}}
fabrics:
  rope: {name: Rope, color: a9482f}
  deck: {name: Deck, color: 2b2f36}
  sail: {name: Sail prints, colors: [3f6f8f, e0a458], cut-from: {pack: bundle}, same-print: block}
units:
  turn: {half-square: [rope, deck]}
blocks:
  coil: {cell: 3 in, rows: [[turn, sail], [sail, turn@90]]}
quilt: {arrange: [[coil]], binding: {fabric: deck}, backing: {}, borders: [{width: 3 in, fabric: rope}]}
sizes:
  kit: {name: Small, across: 2, down: 3}
  throw: {across: 5, down: 6}
text:
  introduction: A *slanted* word.
house: {name: Harbor Press}
"""


@cache
def built() -> Path:
    """The folder of all editions of the pattern, for Letter paper."""
    folder = Path(mkdtemp())
    atexit.register(rmtree, folder, ignore_errors=True)
    (folder / "sail.yaml").write_text(PATTERN, encoding="utf-8")
    wanted = [word for name in EDITIONS for word in ("--edition", name)]
    assert exit_code("build", folder / "sail.yaml", "--out", folder / "out", "--paper", "letter", *wanted) == 0
    return folder / "out" / "sail"


def document(name: str) -> pypdfium2.PdfDocument:
    return pypdfium2.PdfDocument(built() / f"{name}-letter.pdf")


def text_of(name: str) -> str:
    """All words of a PDF."""
    pages = document(name)
    return "\n".join(page.get_textpage().get_text_range() for page in pages)


def characters(name: str) -> Iterator[tuple[str, float, str]]:
    """(character, points on the page, name of its face) of everything that is set."""
    return characters_of(document(name))


def characters_of(pages: pypdfium2.PdfDocument) -> Iterator[tuple[str, float, str]]:
    for page in pages:
        text = page.get_textpage()
        for index in range(text.count_chars()):
            matrix, face, flags = pdfium.FS_MATRIX(), ctypes.create_string_buffer(200), ctypes.c_int()
            pdfium.FPDFText_GetMatrix(text, index, matrix)
            pdfium.FPDFText_GetFontInfo(text, index, face, 200, flags)
            height = pdfium.FPDFText_GetFontSize(text, index) * (matrix.c**2 + matrix.d**2) ** 0.5
            yield chr(pdfium.FPDFText_GetUnicode(text, index)), height, face.value.decode()


def test_files_are_named_by_pattern_edition_size_and_paper() -> None:
    """A size that is called as an edition is keeps a name of its own."""
    assert sorted(file.name for file in built().iterdir()) == sorted([
        "sail-letter.pdf", "sail.html", "sail.card.json", "sail-size-kit-letter.pdf", "sail-throw-letter.pdf",
        "sail-large-print-size-kit-letter.pdf", "sail-large-print-throw-letter.pdf", "sail-low-ink-letter.pdf",
        "sail-screen-letter.pdf", "sail-by-block-size-kit-letter.pdf", "sail-by-block-throw-letter.pdf",
        "sail-coloring-letter.pdf", "sail-labels-size-kit-letter.pdf", "sail-labels-throw-letter.pdf",
        "sail-class-size-kit-letter.pdf", "sail-class-throw-letter.pdf", "sail-kit-letter.pdf",
        "sail-fold-size-kit-letter.pdf", "sail-fold-size-kit-letter-pages.pdf", "sail-fold-throw-letter.pdf",
        "sail-fold-throw-letter-pages.pdf",
    ])  # fmt: skip


def test_large_print_is_large_and_upright() -> None:
    set_in = list(characters("sail-large-print-throw"))
    assert len(set_in) > 2000
    assert min(points for character, points, _ in set_in if character.strip()) >= 17.9
    assert not [face for _, _, face in set_in if "Italic" in face]
    assert [face for _, _, face in characters("sail-throw") if "Italic" in face]


def line_widths(name: str) -> Iterator[float]:
    """Of every line drawn after the cover, whose picture has no scale, its width on the page in points."""
    for page in list(document(name))[1:]:
        for item in page.get_objects(filter=[pdfium.FPDF_PAGEOBJ_PATH], max_depth=15):
            fill, stroked, width = ctypes.c_int(), ctypes.c_int(), ctypes.c_float()
            pdfium.FPDFPath_GetDrawMode(item.raw, fill, stroked)
            pdfium.FPDFPageObj_GetStrokeWidth(item.raw, width)
            matrix = item.get_matrix()
            if stroked.value:
                yield width.value * abs(matrix.a * matrix.d - matrix.b * matrix.c) ** 0.5


def test_lines_are_heavier_in_large_print() -> None:
    """Read from the finished pages: the usual thin lines are gone but for those of the scale mark.

    Swatches in tables are drawn smaller, and so are their lines.
    """
    widths = {name: stroke.width for name, stroke in harbor().tokens.drawing.strokes}
    mark = widths.pop("scale") + 0.05
    thin = 1.4 * min(widths.values())
    assert sum(mark < width < thin for width in line_widths("sail-throw")) > 100
    large = list(line_widths("sail-large-print-throw"))
    assert [width for width in large if mark < width < thin] == []
    assert sum(width <= mark for width in large) < 12
    seams = 1.8 * widths["seam"]
    assert sum(width == pytest.approx(seams, abs=0.01) for width in large) > 20, "lines as the edition says"


@pytest.mark.parametrize("name", [
    "sail", "sail-throw", "sail-low-ink", "sail-screen", "sail-by-block-throw", "sail-labels-throw", "sail-kit",
    "sail-coloring", "sail-class-throw",
])  # fmt: skip
def test_no_type_is_smaller_than_the_theme_allows(name: str) -> None:
    least = harbor().tokens.type.minimum
    assert min(points for character, points, _ in characters(name) if character.strip()) >= least - 0.1


@pytest.mark.parametrize("name", ["sail-large-print-throw", "sail-screen", "sail-by-block-throw", "sail-kit"])
def test_no_word_leaves_the_page_s_margins(name: str) -> None:
    paper = harbor().tokens.paper("letter")
    for page in document(name):
        text = page.get_textpage()
        for index in range(text.count_chars()):
            if chr(pdfium.FPDFText_GetUnicode(text, index)).strip():
                left, bottom, right, top = text.get_charbox(index)
                assert left >= paper.left * 72 - 3
                assert right <= page.get_width() - paper.right * 72 + 3
                assert 0 < bottom <= top < page.get_height()


def test_low_ink_has_no_color_and_no_dark_cloth() -> None:
    """Sampled from the pages as they print: every pixel is gray, and most of the cover's picture is white."""
    for page in document("sail-low-ink"):
        image = page.render(scale=1).to_pil().convert("RGB")
        assert all(max(pixel) - min(pixel) < 4 for _, pixel in image.getcolors(1 << 24))
    cover = document("sail-low-ink")[0].render(scale=1).to_pil().convert("L")
    dark = sum(count for count, shade in cover.getcolors() if shade < 128)
    assert dark < 0.2 * cover.width * cover.height


def test_screen_pages_lie_on_their_side_and_have_links() -> None:
    pages = document("sail-screen")
    assert all(page.get_width() > page.get_height() for page in pages)
    assert pdfium.FPDFLink_Enumerate(pages[1], ctypes.c_int(0), pdfium.FPDF_LINK())


@pytest.mark.parametrize("edition", [name for name in EDITIONS if name != "templates"])
def test_every_edition_is_tagged_with_words_for_its_drawings(edition: str) -> None:
    name = EDITIONS[edition].name if EDITIONS[edition].named else ""
    size = "throw" if EDITIONS[edition].covers == "each" else ""
    ending = "letter-pages.pdf" if EDITIONS[edition].changes.folded else "letter.pdf"
    with pikepdf.open(built() / "-".join(word for word in ("sail", name, size, ending) if word)) as pdf:
        assert pdf.Root.MarkInfo.Marked
        assert str(pdf.Root.Lang) == "en"
        assert str(pdf.Root.ViewerPreferences.PrintScaling) == "/None"
        figures = [one for one in elements(pdf.Root.StructTreeRoot) if one.get("/S") == "/Figure"]
        assert figures or EDITIONS[edition].compact
        assert all(str(one.get("/Alt", "")).strip() for one in figures)


def elements(node: Any) -> Iterator[Any]:
    """All elements of a PDF's structure below one."""
    kids = node.get("/K", [])
    for kid in kids if isinstance(kids, pikepdf.Array) else [kids]:
        if isinstance(kid, pikepdf.Dictionary) and "/S" in kid:
            yield kid
            yield from elements(kid)


def test_bags_and_labels_say_what_to_cut() -> None:
    assert re.search(r"Bag 1 of \d+: 30 coil blocks", text_of("sail-by-block-throw"))
    labels = text_of("sail-labels-throw")
    assert re.search(r"A1 · Rope\s+30 squares 3⅞″", labels)
    assert "For turn units" in labels
    assert re.search(r"\d strips(?: and \d ends?)?, to be joined for\s+1\s+binding\s+strip", labels)


def test_a_kit_sheet_has_a_page_for_each_size() -> None:
    text = text_of("sail-kit").replace("\u00a0", " ")
    assert "Kits: Small" in text
    assert "For 12 kits of the size Throw, cut from bolts of 12 yd." in text
    assert "Pack of 42 squares" in text


def test_a_class_sheet_counts_samples_by_stage() -> None:
    text = text_of("sail-class-throw")
    assert "Samples to prepare" in text
    assert re.search(r"Turn: half-square triangles, two at a time\s+6\s+5 pairs of squares\s+1 unit", text)
    assert "2. Coil block" in text


def test_kits_asked_for_go_before_the_house_s(tmp_path: Path) -> None:
    (tmp_path / "sail.yaml").write_text(PATTERN, encoding="utf-8")
    wanted = ("--edition", "kit", "--size", "throw", "--paper", "a4", "--kits", "30")
    assert exit_code("build", tmp_path / "sail.yaml", "--out", tmp_path / "out", *wanted) == 0
    pages = pypdfium2.PdfDocument(tmp_path / "out" / "sail" / "sail-kit-throw-a4.pdf")
    assert "For 30 kits of the size Throw" in pages[0].get_textpage().get_text_range()


def test_a_house_names_the_editions_that_it_builds(tmp_path: Path) -> None:
    house = "house: {name: Harbor Press, editions: [coloring, kit], papers: [a4]}"
    text = PATTERN.replace("house: {name: Harbor Press}", house)
    (tmp_path / "sail.yaml").write_text(text, encoding="utf-8")
    assert exit_code("build", tmp_path / "sail.yaml", "--out", tmp_path / "out") == 0
    made = {file.name for file in (tmp_path / "out" / "sail").iterdir()}
    assert made == {"sail-coloring-a4.pdf", "sail-kit-a4.pdf", "plan.json"}


def test_the_dialect_names_every_edition() -> None:
    assert get_args(declared.Edition) == tuple(EDITIONS)


def test_an_edition_without_changes_leaves_a_theme_as_it_is() -> None:
    assert changed_theme(harbor(), NO_CHANGES) == harbor()


def test_one_size_of_editions_for_all_sizes_is_still_built(tmp_path: Path) -> None:
    text = PATTERN.replace("name: Harbor Press", "name: Harbor Press, editions: [kit], papers: [a4]")
    (tmp_path / "sail.yaml").write_text(text, encoding="utf-8")
    assert exit_code("build", tmp_path / "sail.yaml", "--out", tmp_path / "out", "--size", "throw") == 0
    assert [file.name for file in (tmp_path / "out" / "sail").iterdir()] == ["sail-kit-throw-a4.pdf"]


def test_a_length_beyond_a_bolt_is_said(tmp_path: Path) -> None:
    rules = "editions: [kit], papers: [a4], inches: {kit: {bolt: 1 yd, count: 3}}"
    (tmp_path / "sail.yaml").write_text(PATTERN.replace("name: Harbor Press", rules), encoding="utf-8")
    assert exit_code("build", tmp_path / "sail.yaml", "--out", tmp_path / "out", "--size", "throw") == 0
    pages = pypdfium2.PdfDocument(tmp_path / "out" / "sail" / "sail-kit-throw-a4.pdf")
    text = " ".join(pages[0].get_textpage().get_text_range().split())
    assert "takes more of Backing than a bolt of 1 yd holds" in text
