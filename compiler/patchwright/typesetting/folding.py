"""Pages of half a sheet → sheets to print on both sides, fold in the middle and staple in the fold.

In: a finished PDF of half pages in reading order, and how a theme folds.
Out: where every page stands (`fold_plan`), and the imposed PDF (`impose`).
Never: a page left out, scaled or shown twice. The imposed PDF has no tags: the half pages are what is read aloud.
"""

from __future__ import annotations

import io
from dataclasses import dataclass
from typing import TYPE_CHECKING

from patchwright.core.theme import POINTS_PER_INCH, Folds
from patchwright.typesetting.pdf import PdfResult

if TYPE_CHECKING:
    from pypdf import PageObject, PdfReader, PdfWriter
    from pypdf.generic import IndirectObject

SIDES = 4
"""Pages on one folded sheet."""
PAGES_ENDING = "-pages.pdf"
"""How the name of the half pages in reading order ends."""
BLANK = None
Place = int | None
"""The number of a page, from 0, or `BLANK`."""


@dataclass(frozen=True, slots=True)
class FoldedSheet:
    """One sheet on its side: left and right of its front, then of its back, flipped on a short edge."""

    front: tuple[Place, Place]
    back: tuple[Place, Place]
    set: int
    """Which set of sheets it is folded in, from 0."""
    depth: int
    """How many sheets of its set lie around it."""


def fold_plan(pages: int, most_sheets: int) -> tuple[FoldedSheet, ...]:
    """Where every page stands, so that the sheets, folded set by set, read in order with the first page outermost.

    Sets have as nearly as possible as many sheets each, and at most `most_sheets`.
    """
    if pages < 1 or most_sheets < 1:
        raise ValueError("a booklet has at least one page, and a set at least one sheet")
    order = with_blanks(pages)
    sheets = len(order) // SIDES
    sets = -(-sheets // most_sheets)
    made: list[FoldedSheet] = []
    start = 0
    for number in range(sets):
        own = sheets // sets + (number < sheets % sets)
        made += _set(order[start : start + own * SIDES], number)
        start += own * SIDES
    return tuple(made)


def with_blanks(pages: int) -> tuple[Place, ...]:
    """The pages filled up to whole sheets: first the back cover stays blank, then the insides of both covers."""
    order: list[Place] = list(range(pages))
    blanks = -pages % SIDES
    if blanks >= 2:
        order.insert(1, BLANK)
    return (*order, *[BLANK] * (blanks - (blanks >= 2)))


def _set(order: tuple[Place, ...], number: int) -> list[FoldedSheet]:
    """The sheets of one set, the outermost first."""
    last = len(order) - 1
    return [
        FoldedSheet(
            (order[last - 2 * depth], order[2 * depth]), (order[2 * depth + 1], order[last - 2 * depth - 1]),
            number, depth,
        )
        for depth in range(len(order) // SIDES)
    ]


def impose(pdf: bytes, folds: Folds, paper: str) -> bytes:
    """The sheets for one paper, in the order in which they are printed, each front before its back."""
    from pypdf import PdfReader, PdfWriter
    from pypdf.generic import BooleanObject, DictionaryObject, NameObject

    reader, writer = PdfReader(io.BytesIO(pdf)), PdfWriter()
    wide, high = (side * POINTS_PER_INCH for side in folds.sheet(paper))
    forms = [_form(page, writer) for page in reader.pages]
    for sheet in fold_plan(len(reader.pages), folds.sheets):
        creep = sheet.depth * folds.thickness * POINTS_PER_INCH
        for left, right in (sheet.front, sheet.back):
            shown = []
            for place, is_left in ((left, True), (right, False)):
                if place is not BLANK:
                    page = reader.pages[place]
                    across = wide / 2 + creep - float(page.mediabox.width) if is_left else wide / 2 - creep
                    up = (high - float(page.mediabox.height)) / 2
                    shown.append((forms[place], across, up))
            _add_side(writer, (wide, high), shown)
    writer.root_object[NameObject("/ViewerPreferences")] = DictionaryObject({
        NameObject("/PrintScaling"): NameObject("/None"),
        NameObject("/Duplex"): NameObject("/DuplexFlipShortEdge"),
        NameObject("/DisplayDocTitle"): BooleanObject(True),
    })
    _describe(writer, reader)
    made = io.BytesIO()
    writer.write(made)
    return made.getvalue()


def _form(page: PageObject, writer: PdfWriter) -> IndirectObject:
    """A page as one drawing that can be placed, its content taken over byte for byte."""
    from pypdf.generic import DictionaryObject, NameObject, RectangleObject, StreamObject

    form = StreamObject()
    content = page.get_contents()
    form.set_data(content.get_data() if content is not None else b"")
    form[NameObject("/Type")], form[NameObject("/Subtype")] = NameObject("/XObject"), NameObject("/Form")
    form[NameObject("/BBox")] = RectangleObject(tuple(page.mediabox))
    resources = page.get("/Resources", DictionaryObject()).get_object()
    form[NameObject("/Resources")] = resources.clone(writer)
    return writer._add_object(form.flate_encode())


def _add_side(
    writer: PdfWriter, size: tuple[float, float], shown: list[tuple[IndirectObject, float, float]]
) -> None:
    """One side of a sheet with drawings on it, each moved across and up."""
    from pypdf.generic import DictionaryObject, NameObject, StreamObject

    side = writer.add_blank_page(*size)
    names = [(NameObject(f"/P{number}"), *own) for number, own in enumerate(shown)]
    content = StreamObject()
    content.set_data("".join(
        f"q 1 0 0 1 {across:.4f} {up:.4f} cm {name} Do Q\n" for name, _, across, up in names
    ).encode("ascii"))
    side[NameObject("/Resources")] = DictionaryObject({
        NameObject("/XObject"): DictionaryObject({name: form for name, form, _, _ in names})
    })
    side[NameObject("/Contents")] = writer._add_object(content)


def _describe(writer: PdfWriter, reader: PdfReader) -> None:
    """The title, author and language of the pages, and no moment of writing."""
    from pypdf.generic import NameObject, TextStringObject

    about = reader.metadata
    known = {"/Title": about.title, "/Author": about.author, "/Subject": about.subject} if about is not None else {}
    writer.metadata = {key: text for key, text in known.items() if text}
    language = reader.root_object.get("/Lang")
    if language is not None:
        writer.root_object[NameObject("/Lang")] = TextStringObject(str(language))


def folded_files(name: str, pages: PdfResult, folds: Folds, paper: str) -> tuple[tuple[str, bytes, int], ...]:
    """Names, bytes and pages of the imposed sheets and of the half pages in reading order."""
    imposed = impose(pages.content, folds, paper)
    sides = 2 * len(fold_plan(pages.pages, folds.sheets))
    return (f"{name}.pdf", imposed, sides), (f"{name}{PAGES_ENDING}", pages.content, pages.pages)
