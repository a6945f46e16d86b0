"""The page on narrow and low screens, and on paper."""

from __future__ import annotations

import io
import re
from pathlib import Path
from typing import Any

import pypdfium2
import pytest

from patchwright.typesetting.booklet_tree import booklet_tree
from web.browser import visiting
from web.pages import Made

pytestmark = [pytest.mark.slow, pytest.mark.xdist_group("web")]


@pytest.mark.parametrize("width", [320, 390, 1280])
def test_nothing_is_wider_than_the_screen(page: Made, browser: Any, width: int) -> None:
    """WCAG 2.2, 1.4.10: no scrolling in two directions at 320 px, tables and wide drawings apart."""
    with visiting(browser, page.path, width=width) as visit:
        for view in page.views:
            if view.size in ("", page.sizes[-1]):
                visit.choose(size=view.size, show=view.edition)
                assert visit.page.evaluate("document.documentElement.scrollWidth") <= width, view.key
        assert _smallest_type(visit.page) >= 12


def test_the_bar_leaves_room_to_read(page: Made, browser: Any) -> None:
    """It takes little of a phone, and none of a screen that is low or enlarged."""
    with visiting(browser, page.path, width=320, height=640) as visit:
        assert visit.page.locator(".chooser").bounding_box()["height"] <= 80
    with visiting(browser, page.path, width=640, height=320) as visit:
        visit.page.evaluate("document.querySelector('#cutting').scrollIntoView()")
        assert visit.page.locator(".chooser").bounding_box()["y"] < 0


def test_things_to_touch_are_large_enough(page: Made, browser: Any) -> None:
    """WCAG 2.2, 2.5.8: 24 by 24 px at least, links in running text apart."""
    with visiting(browser, page.path, f"size={page.sizes[0]}", width=390) as visit:
        visit.page.locator(".more summary").click()
        small = visit.page.evaluate(
            """[...document.querySelectorAll('input, select, button, summary, .contents a')]
               .filter(one => one.checkVisibility() && !one.closest('dialog'))
               .map(one => [one.outerHTML.slice(0, 80), one.getBoundingClientRect()])
               .filter(([, box]) => box.width < 24 || box.height < 24).map(([text]) => text)"""
        )
        assert small == []


def test_paper_has_the_content_of_the_pdf(page: Made, browser: Any, tmp_path: Path) -> None:
    """Every text of a size's booklet, from which its PDF is set, is in the page as printed; no control is."""
    size = page.sizes[0]
    booklet = page.view("whole", size).booklet
    with visiting(browser, page.path, f"size={size}", look="dark") as visit:
        visit.page.locator("main .step input:visible").first.check()
        printed = _stripped(_pdf_text(visit.page.pdf(format="Letter")))
        visit.page.emulate_media(media="print")
        assert visit.page.locator("select:visible, button:visible, input:visible, .chooser:visible").count() == 0
        assert visit.page.evaluate("getComputedStyle(document.body).backgroundColor") == "rgb(255, 255, 255)"
    tree = booklet_tree(booklet)
    own = tree.texts - {text for _, text in booklet.words} - {booklet.subject, booklet.running_head}
    steps = {f"Step {number}" for number in range(1, 200)}
    hidden = {text for text in own if text.replace("\u00a0", " ") in steps} | {page.views[0].booklet.author}
    missing = [text for text in own - hidden if _stripped(text) not in printed]
    assert missing == []
    others = {text for name in page.sizes[1:] for _, text in page.view("whole", name).booklet.cover.sizes}
    assert not [text for text in others - tree.texts if _stripped(text) in printed]


def test_drawings_are_printed_true_to_scale(rope_walk: Made, browser: Any) -> None:
    with visiting(browser, rope_walk.path, f"size={rope_walk.sizes[0]}") as visit:
        visit.page.emulate_media(media="print")
        side = visit.page.evaluate("document.querySelector('.scale svg path').getBoundingClientRect().height")
        assert side == pytest.approx(96, abs=1.5), "the side of the square is one inch"


def _smallest_type(page: Any) -> float:
    found: float = page.evaluate(
        """Math.min(...[...document.querySelectorAll('p, td, th, li, label, select, dt, dd, figcaption, small')]
           .filter(one => one.checkVisibility()).map(one => parseFloat(getComputedStyle(one).fontSize)))"""
    )
    return found


def _pdf_text(content: bytes) -> str:
    with pypdfium2.PdfDocument(io.BytesIO(content)) as document:
        return "".join(page.get_textpage().get_text_range() for page in document)


def _stripped(text: str) -> str:
    """Without spaces and the marks by which a reader of PDFs tells broken words."""
    return re.sub(r"[\s\u00a0\u202f\u00ad\ufffe-]", "", text)
