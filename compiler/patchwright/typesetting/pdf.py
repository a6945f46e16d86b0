"""Booklet → PDF: tagged, with bookmarks, the same bytes every time.

In: a booklet, a theme, a paper.
Out: the bytes and the number of pages, or a `TypesettingError`.
Never: a figure scaled, a text in a font that lacks its characters, an engine's warning passed over.
"""

from __future__ import annotations

import json
from dataclasses import asdict, dataclass

from patchwright.typesetting.booklet import Booklet
from patchwright.typesetting.booklet_tree import BookletTree, booklet_tree
from patchwright.typesetting.drawings import Drawings, swatch_scene
from patchwright.typesetting.engine import PageEngine, TypstEngine
from patchwright.typesetting.fitting import check_figures, check_glyphs
from patchwright.typesetting.fonts import font_folder
from patchwright.typesetting.pdf_catalog import page_count, with_true_scale
from patchwright.typesetting.pdf_tables import with_row_heads
from patchwright.typesetting.themes import Theme


@dataclass(frozen=True, slots=True)
class PdfResult:
    """A finished PDF."""

    content: bytes
    pages: int


def page_engine(theme: Theme) -> PageEngine:
    """The engine for a theme's fonts; one serves any number of booklets."""
    tokens = theme.tokens
    packages = dict.fromkeys(face.package for face in (tokens.text_face, tokens.label_face, tokens.display_face))
    return TypstEngine(tuple(font_folder(package) for package in packages))


def write_pdf(
    booklet: Booklet, theme: Theme, paper: str, drawings: Drawings | None = None, engine: PageEngine | None = None
) -> PdfResult:
    """Make the PDF for one paper; hand in `drawings` and `engine` to share their work between papers."""
    data = page_data(booklet, theme, (paper,), drawings or Drawings(theme.look))[0]
    return compose_pdf(theme, data, engine or page_engine(theme))


def page_data(booklet: Booklet, theme: Theme, papers: tuple[str, ...], drawings: Drawings) -> tuple[str, ...]:
    """What the page template is given for each paper, after the checks that a page cannot make."""
    tree = booklet_tree(booklet)
    check_figures(tree, theme)
    check_glyphs(tree, theme)
    return tuple(_data(tree, theme, paper, drawings) for paper in papers)


def compose_pdf(theme: Theme, data: str, engine: PageEngine) -> PdfResult:
    """Let the engine compose what `page_data` gave."""
    composed = engine.compose(theme.page_source, data)
    return PdfResult(with_true_scale(with_row_heads(composed)), page_count(composed))


def _data(tree: BookletTree, theme: Theme, paper: str, drawings: Drawings) -> str:
    """What the page template sees, as JSON."""
    tokens = theme.tokens
    gaps = tokens.spacing
    swatches = {
        letter: drawings.svg(
            swatch_scene(letter, one["name"], tuple(one["colors"]), one["hatch"], gaps.swatch_width, gaps.swatch_height)
        )
        for letter, one in tree.data["swatches"].items()
    }
    given = {
        "tokens": {
            "text_face": asdict(tokens.text_face),
            "label_face": asdict(tokens.label_face),
            "display_face": asdict(tokens.display_face),
            "type": asdict(tokens.type),
            "light": {name.replace("_", "-"): color for name, color in asdict(tokens.light).items()},
            "spacing": asdict(gaps),
            "logo": asdict(tokens.logo),
            "lines": {name: stroke.width for name, stroke in tokens.drawing.strokes},
        },
        "paper": {"name": paper, **asdict(tokens.paper(paper))},
        "booklet": tree.data,
        "drawings": {key: drawings.svg(scene) for key, scene in tree.scenes.items()},
        "swatches": swatches,
    }
    return json.dumps(given, ensure_ascii=False, separators=(",", ":"))
