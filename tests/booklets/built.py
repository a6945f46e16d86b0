"""Booklets built as a maker of patterns builds them, and what a reader can see in them: text, boxes and tags."""

from __future__ import annotations

import html
import json
import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any

import pikepdf
import pypdfium2

from patchwright import driver
from patchwright.files import find_patterns

ROOT = Path(__file__).resolve().parents[2]
PATTERNS = {"rope-walk": ROOT / "tests/patterns/rope-walk.yaml", "tidemark": ROOT / "patterns/tidemark.yaml"}
"""An inch pattern with a pack, and a metric one."""
PAPERS = ("letter", "a4")

Box = tuple[float, float, float, float]
"""Left, bottom, right and top in points."""


@dataclass(frozen=True)
class Built:
    """The folder of one pattern's booklets."""

    id: str
    folder: Path

    @cached_property
    def plan(self) -> dict[str, Any]:
        loaded: dict[str, Any] = json.loads((self.folder / "plan.json").read_text("utf-8"))
        return loaded

    @cached_property
    def web(self) -> str:
        return (self.folder / f"{self.id}.html").read_text("utf-8")

    def pdf(self, size: str, paper: str) -> Path:
        """The PDF of one size, or of all where `size` is empty."""
        return self.folder / ("-".join(part for part in (self.id, size, paper) if part) + ".pdf")

    def step_figures(self) -> frozenset[str]:
        """The descriptions of drawings that stand in steps, as the web page has them."""
        found: set[str] = set()
        for chunk in re.split(r'(?=<div class="step")', self.web)[1:]:
            own = re.split(r"<h[23]|</section|<div class=\"figures\"|<footer", chunk)[0]
            found.update(html.unescape(text) for text in re.findall(r"<desc[^>]*>(.*?)</desc>", own, re.DOTALL))
        return frozenset(found)


def build(name: str, out: Path) -> Built:
    """Build every edition of a pattern on both papers."""
    (project,) = find_patterns((PATTERNS[name],))
    built = driver.build_project(project, driver.BuildRequest(out=out))
    assert not built.compiled.failed
    return Built(name, built.folder)


@dataclass(frozen=True)
class Glyph:
    """A character where it stands on its page."""

    text: str
    box: Box
    place: int
    """In reading order."""


def page_texts(path: Path) -> list[str]:
    """The text of every page, spaces and line ends made one space."""
    with pypdfium2.PdfDocument(path) as document:
        texts = []
        for page in document:
            reader = page.get_textpage()
            texts.append(re.sub(r"\s+", " ", reader.get_text_range()))
            reader.close()
            page.close()
    return texts


def page_glyphs(path: Path) -> Iterator[tuple[tuple[float, float], list[Glyph]]]:
    """The size of every page, and its characters that leave ink."""
    with pypdfium2.PdfDocument(path) as document:
        for page in document:
            reader = page.get_textpage()
            text = [reader.get_text_range(place, 1) for place in range(reader.count_chars())]
            glyphs = [Glyph(one, reader.get_charbox(place), place) for place, one in enumerate(text) if one.strip()]
            yield page.get_size(), glyphs
            reader.close()
            page.close()


def page_fills(path: Path) -> list[float]:
    """How far down every page its text and drawings reach, as a share of the room between its head and its foot."""
    fills = []
    with pypdfium2.PdfDocument(path) as document:
        for page in document:
            head, foot = page.get_height() - 0.9 * 72, 0.85 * 72
            bottoms = [item.get_bounds()[1] for item in page.get_objects(max_depth=1)]
            lowest = min((bottom for bottom in bottoms if foot < bottom < head), default=head)
            fills.append((head - lowest) / (head - foot))
            page.close()
    return fills


@dataclass(frozen=True)
class Tagged:
    """An element of the structure tree, in reading order."""

    kind: str
    page: int
    alt: str


def tagged(document: pikepdf.Pdf) -> list[Tagged]:
    """All elements that hold content of a page themselves."""
    numbers = {page.obj.objgen: number for number, page in enumerate(document.pages, 1)}
    return list(_tagged(document.Root.StructTreeRoot.K, numbers, None))


def _tagged(node: Any, numbers: dict[tuple[int, int], int], page: Any) -> Iterator[Tagged]:
    if isinstance(node, pikepdf.Array):
        for one in node:
            yield from _tagged(one, numbers, page)
    elif isinstance(node, pikepdf.Dictionary) and "/S" in node:
        own = node.get("/Pg", page)
        children = node.get("/K", pikepdf.Array())
        held = [one for one in (children if isinstance(children, pikepdf.Array) else [children]) if _is_content(one)]
        if held:
            place = next((one.Pg for one in held if isinstance(one, pikepdf.Dictionary) and "/Pg" in one), own)
            yield Tagged(str(node.S), numbers[place.objgen], str(node.get("/Alt", "")))
        yield from _tagged(children, numbers, own)


def _is_content(node: Any) -> bool:
    return isinstance(node, int) or (isinstance(node, pikepdf.Dictionary) and str(node.get("/Type", "")) == "/MCR")
