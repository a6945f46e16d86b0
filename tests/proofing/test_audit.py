"""The audit finds what is wrong with a finished page, and finds nothing on sound ones."""

from __future__ import annotations

import io
from dataclasses import replace
from functools import cache
from typing import Any

import pikepdf
import pytest

from patchwright.diagrams.scene import Area, Item, Line, Scene
from patchwright.proofing.audit import Kind, PageFault, Promise, audit
from patchwright.proofing.pictures import contact_sheet, page_pictures, png
from patchwright.tasks.proofs import drawings_of
from patchwright.typesetting.pdf import write_pdf
from typesetting.booklet_sample import harbor, sample_booklet


@cache
def sample() -> bytes:
    return write_pdf(sample_booklet(), harbor(), "letter").content


@cache
def promise() -> Promise:
    tokens = harbor().tokens
    return Promise(tokens.paper("letter"), tokens.type.minimum, False, tuple(drawings_of(sample_booklet())))


def kinds(faults: tuple[PageFault, ...]) -> set[Kind]:
    return {fault.kind for fault in faults}


def test_sound_pages_have_no_faults() -> None:
    assert audit(sample(), promise()) == ()


def test_type_below_the_least_is_found() -> None:
    assert kinds(audit(sample(), replace(promise(), least_type=9))) == {"small-type"}


def test_words_and_drawings_over_the_margins_are_found() -> None:
    narrow = replace(promise().paper, right=1.6)
    faults = audit(sample(), replace(promise(), paper=narrow))
    assert kinds(faults) == {"off-margin"}
    assert any("quilt" in fault.about.lower() for fault in faults), "a drawing too"


def test_slanted_words_are_found() -> None:
    assert kinds(audit(sample(), replace(promise(), upright=True))) == {"slanted"}


@pytest.mark.parametrize("scale", [0.8, 1.25])
def test_a_drawing_out_of_scale_is_found(scale: float) -> None:
    """The pages are promised drawings of another size than they have."""

    def resized(scene: Scene) -> Scene:
        items: list[Item] = []
        for item in scene.items:
            if isinstance(item, Area):
                items.append(replace(item, outline=tuple((x * scale, y * scale) for x, y in item.outline)))
            elif isinstance(item, Line):
                items.append(replace(item, points=tuple((x * scale, y * scale) for x, y in item.points)))
        return replace(scene, width=scene.width * scale, height=scene.height * scale, items=tuple(items))

    drawings = promise().drawings
    changed = (*drawings[:-1], resized(drawings[-1]))
    faults = audit(sample(), replace(promise(), drawings=changed))
    assert kinds(faults) == {"out-of-scale"}
    assert len(faults) == 1


def changed(change: str) -> bytes:
    """The sample with one thing broken in it."""
    with pikepdf.open(io.BytesIO(sample())) as pdf:
        for item in list(pdf.objects):
            if not isinstance(item, pikepdf.Dictionary):
                continue
            if change == "fonts" and "/FontName" in item:
                for key in ("/FontFile", "/FontFile2", "/FontFile3"):
                    if key in item:
                        del item[key]
            if change == "words" and item.get("/S") == "/Figure":
                item.Alt = ""
            if change == "page" and item.get("/Type") == "/Page":
                item.MediaBox = [0, 0, 612, 500]
        made = io.BytesIO()
        pdf.save(made)
        return made.getvalue()


def test_fonts_that_are_not_in_the_file_are_found() -> None:
    assert "font-missing" in kinds(audit(changed("fonts"), promise()))


def test_drawings_without_words_are_found() -> None:
    assert kinds(audit(changed("words"), promise())) == {"no-alternative"}


def test_what_leaves_the_page_is_found() -> None:
    assert "off-page" in kinds(audit(changed("page"), promise()))


def test_a_glyph_that_is_missing_is_found() -> None:
    """The first glyph of a font, number 0, is by the OpenType specification the one for missing characters."""
    with pikepdf.open(io.BytesIO(sample())) as pdf:
        page = pdf.pages[-1]
        drawn: list[Any] = []
        for step in pikepdf.parse_content_stream(page):
            if str(step.operator) == "TJ":
                old = list(step.operands[0])
                parts: list[Any] = [pikepdf.String(b"\0\0") if isinstance(one, pikepdf.String) else one for one in old]
                drawn.append(([pikepdf.Array(parts)], step.operator))
            else:
                drawn.append(step)
        page.Contents = pdf.make_stream(pikepdf.unparse_content_stream(drawn))
        made = io.BytesIO()
        pdf.save(made)
    assert "missing-glyph" in kinds(audit(made.getvalue(), promise()))


def test_pictures_are_bounded_and_the_same_every_time() -> None:
    pages = page_pictures(sample())
    assert len(pages) == len(page_pictures(sample())) > 5
    sheet = contact_sheet(pages)
    assert max(sheet.size) < 2400
    assert png(sheet) == png(contact_sheet(page_pictures(sample())))
    assert png(pages[0]).startswith(b"\x89PNG")
