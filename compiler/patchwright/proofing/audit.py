"""What can be wrong with finished pages, read from the PDF itself by a reader that did not write it.

In: the bytes of a PDF, and what its pages were promised to be: margins, least type, the sizes of drawings.
Out: faults, each with its page.
Never: what the page engine or a template intended; nothing of theirs is asked.
"""

from __future__ import annotations

import ctypes
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, Literal

from patchwright.core.theme import POINTS_PER_INCH, Paper
from patchwright.diagrams.scene import Area, Line, Scene

Kind = Literal[
    "off-margin", "off-page", "small-type", "missing-glyph", "slanted", "font-missing", "out-of-scale",
    "no-alternative",
]  # fmt: skip
MARGIN_SLACK = 3.0
"""Points by which ink may stand over a margin: the sides of letters, half the width of a line."""
TYPE_SLACK = 0.1
SCALE_SLACK = 2.5
"""Points by which a drawing may be larger than its outermost points, for the width of its lines."""


@dataclass(frozen=True, slots=True)
class Promise:
    """What the pages of one PDF were made to be."""

    paper: Paper
    least_type: float
    """In points."""
    upright: bool
    """Whether no words are slanted."""
    drawings: tuple[Scene, ...]
    """Every drawing that stands in the PDF at its own size."""
    cover: str = ""
    """The words for the picture on the first page, which has no scale."""


@dataclass(frozen=True, slots=True)
class PageFault:
    """One thing wrong with one page."""

    page: int
    """From 1; 0 for the whole document."""
    kind: Kind
    about: str


def audit(pdf: bytes, promise: Promise) -> tuple[PageFault, ...]:
    """Everything wrong with a finished PDF, in the order of its pages."""
    import pypdfium2

    document = pypdfium2.PdfDocument(pdf)
    sizes = _sizes(promise.drawings)
    found: list[PageFault] = list(_unembedded(pdf))
    for number, page in enumerate(document, 1):
        found += _type_faults(page, number, promise)
        found += _drawing_faults(page, number, promise, sizes)
        page.close()
    document.close()
    return tuple(dict.fromkeys(found))


def _type_faults(page: Any, number: int, promise: Promise) -> Iterator[PageFault]:
    """Characters beyond the margins, too small, slanted or without a glyph."""
    import pypdfium2.raw as pdfium

    paper = promise.paper
    left, right = paper.left * POINTS_PER_INCH, page.get_width() - paper.right * POINTS_PER_INCH
    text = page.get_textpage()
    for place in range(text.count_chars()):
        character = chr(pdfium.FPDFText_GetUnicode(text, place))
        if not character.strip() or pdfium.FPDFText_IsGenerated(text, place) > 0:
            continue
        shown = f"`{_around(text, place)}`"
        if pdfium.FPDFText_HasUnicodeMapError(text, place) > 0 or character in "\0\ufffd":
            yield PageFault(number, "missing-glyph", shown)
        box = text.get_charbox(place)
        if box[0] < left - MARGIN_SLACK or box[2] > right + MARGIN_SLACK:
            yield PageFault(number, "off-margin", shown)
        if box[1] < 0 or box[3] > page.get_height():
            yield PageFault(number, "off-page", shown)
        if _points(text, place) < promise.least_type - TYPE_SLACK:
            yield PageFault(number, "small-type", f"{shown} at {_points(text, place):.1f} points")
        if promise.upright and "italic" in _face(text, place).lower():
            yield PageFault(number, "slanted", shown)
    text.close()


def _points(text: Any, place: int) -> float:
    """The size of a character as it stands on the page."""
    import pypdfium2.raw as pdfium

    matrix = pdfium.FS_MATRIX()
    pdfium.FPDFText_GetMatrix(text, place, matrix)
    return float(pdfium.FPDFText_GetFontSize(text, place) * (matrix.c**2 + matrix.d**2) ** 0.5)


def _face(text: Any, place: int) -> str:
    import pypdfium2.raw as pdfium

    name, flags = ctypes.create_string_buffer(200), ctypes.c_int()
    pdfium.FPDFText_GetFontInfo(text, place, name, 200, flags)
    return name.value.decode("utf-8", "replace")


def _around(text: Any, place: int) -> str:
    """The words in which a character stands."""
    start = max(0, place - 8)
    return " ".join(str(text.get_text_range(start, 20)).split())


def _sizes(scenes: tuple[Scene, ...]) -> dict[str, list[tuple[float, float, float, float]]]:
    """By description: least and most width and height, in points, that drawings of these scenes may have."""
    made: dict[str, list[tuple[float, float, float, float]]] = {}
    for scene in scenes:
        points = [point for item in scene.items if isinstance(item, Area) for point in item.outline]
        points += [point for item in scene.items if isinstance(item, Line) for point in item.points]
        across, down = [x for x, _ in points] or [0], [y for _, y in points] or [0]
        made.setdefault(" ".join(scene.description.split()), []).append((
            (max(across) - min(across)) * POINTS_PER_INCH, scene.width * POINTS_PER_INCH,
            (max(down) - min(down)) * POINTS_PER_INCH, scene.height * POINTS_PER_INCH,
        ))  # fmt: skip
    return made


def _drawing_faults(
    page: Any, number: int, promise: Promise, sizes: dict[str, list[tuple[float, float, float, float]]]
) -> Iterator[PageFault]:
    """Drawings without words for them, off the page, or larger or smaller on it than their scenes are."""
    boxes = _marked_boxes(page)
    wide, high = page.get_width(), page.get_height()
    for description, marks in _figures(page):
        if not description:
            yield PageFault(number, "no-alternative", "a drawing")
        own = [boxes[mark] for mark in marks if mark in boxes]
        if not own:
            continue
        left, bottom = min(box[0] for box in own), min(box[1] for box in own)
        right, top = max(box[2] for box in own), max(box[3] for box in own)
        if left < 0 or bottom < 0 or right > wide or top > high:
            yield PageFault(number, "off-page", description[:60])
        elif left < promise.paper.left * POINTS_PER_INCH - MARGIN_SLACK or (
            right > wide - promise.paper.right * POINTS_PER_INCH + MARGIN_SLACK
        ):
            yield PageFault(number, "off-margin", description[:60])
        known = sizes.get(" ".join(description.split()), [])
        is_cover = number == 1 and description == promise.cover
        if known and not is_cover and not any(
            least_wide - SCALE_SLACK <= right - left <= most_wide + SCALE_SLACK
            and least_high - SCALE_SLACK <= top - bottom <= most_high + SCALE_SLACK
            for least_wide, most_wide, least_high, most_high in known
        ):
            shown = f"{right - left:.0f} x {top - bottom:.0f} points"
            yield PageFault(number, "out-of-scale", f"{description[:60]}: {shown}")


def _marked_boxes(page: Any) -> dict[int, tuple[float, float, float, float]]:
    """Left, bottom, right and top of what stands under each mark of the structure."""
    import pypdfium2.raw as pdfium

    boxes: dict[int, tuple[float, float, float, float]] = {}
    for item in page.get_objects(max_depth=15):
        mark = pdfium.FPDFPageObj_GetMarkedContentID(item.raw)
        if mark >= 0:
            box = item.get_bounds()
            known = boxes.get(mark, box)
            boxes[mark] = (
                min(known[0], box[0]), min(known[1], box[1]), max(known[2], box[2]), max(known[3], box[3])
            )
    return boxes


def _figures(page: Any) -> Iterator[tuple[str, tuple[int, ...]]]:
    """Of every figure of a page's structure its words and the marks of its content."""
    import pypdfium2.raw as pdfium

    tree = pdfium.FPDF_StructTree_GetForPage(page.raw)
    if not tree:
        return
    count = pdfium.FPDF_StructTree_CountChildren(tree)
    waiting = [pdfium.FPDF_StructTree_GetChildAtIndex(tree, index) for index in range(count)]
    while waiting:
        element = waiting.pop()
        if not element:
            continue
        if _string(pdfium.FPDF_StructElement_GetType, element) == "Figure":
            count = pdfium.FPDF_StructElement_GetMarkedContentIdCount(element)
            marks = (pdfium.FPDF_StructElement_GetMarkedContentIdAtIndex(element, index) for index in range(count))
            words = _string(pdfium.FPDF_StructElement_GetAltText, element)
            yield words, tuple(mark for mark in marks if mark >= 0)
        children = pdfium.FPDF_StructElement_CountChildren(element)
        waiting += [pdfium.FPDF_StructElement_GetChildAtIndex(element, index) for index in range(children)]
    pdfium.FPDF_StructTree_Close(tree)


def _string(read: Any, element: Any) -> str:
    """A text of the structure, which is handed out in UTF-16."""
    size = read(element, None, 0)
    if size < 2:
        return ""
    held = ctypes.create_string_buffer(size)
    read(element, held, size)
    return held.raw.decode("utf-16-le").rstrip("\0")


def _unembedded(pdf: bytes) -> Iterator[PageFault]:
    """Fonts whose letters are not in the file."""
    import io

    from pypdf import PdfReader

    reader = PdfReader(io.BytesIO(pdf))
    seen: set[str] = set()
    for page in reader.pages:
        fonts = page.get("/Resources", {}).get_object().get("/Font", {}).get_object()
        for reference in fonts.values():
            font = reference.get_object()
            inner = font["/DescendantFonts"][0].get_object() if "/DescendantFonts" in font else font
            name = str(font.get("/BaseFont", ""))
            described = inner.get("/FontDescriptor")
            keys = described.get_object().keys() if described is not None else ()
            if name not in seen and not {"/FontFile", "/FontFile2", "/FontFile3"} & set(keys):
                yield PageFault(0, "font-missing", name)
            seen.add(name)
