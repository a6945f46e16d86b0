"""Figures as files of their own: SVG, PDF with words for the drawing, and PNG.

In: finished scenes and a theme.
Out: the bytes of each file, under a name that is the figure's own in every build.
Never: a figure scaled; more pixels than the bounds here allow, whatever its size.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Iterator

from patchwright.diagrams.scene import Scene
from patchwright.typesetting.drawings import Drawings
from patchwright.typesetting.pdf import page_engine
from patchwright.typesetting.pdf_catalog import with_true_scale
from patchwright.typesetting.themes import Theme

FORMATS = ("svg", "png", "pdf")
PIXELS_PER_INCH = 300
MOST_PIXELS = 4000
"""Most pixels of a picture's longer side; a larger figure gets fewer to the inch."""
MOST_FIGURES = 4000

_PAGE = """\
#let given = json(bytes(sys.inputs.data))
#set document(title: given.title, date: none)
#set text(lang: given.language, font: given.font, fallback: false)
#set page(width: given.width * 1in, height: given.height * 1in, margin: 0pt, fill: white)
#image(
  bytes(given.svg), format: "svg", width: given.width * 1in, height: given.height * 1in, alt: given.alt,
)
"""


class TooManyFiguresError(Exception):
    """A pattern with more figures than are written as files of their own."""


def figure_files(
    scenes: Iterable[Scene], theme: Theme, formats: tuple[str, ...], language: str
) -> Iterator[tuple[str, bytes]]:
    """Name and bytes of every figure in the formats asked for, each scene once."""
    drawings, engine = Drawings(theme.look), page_engine(theme)
    done: set[str] = set()
    for scene in scenes:
        name = re.sub(r"[^\w.-]+", "-", scene.id)
        if name in done:
            continue
        done.add(name)
        if len(done) > MOST_FIGURES:
            raise TooManyFiguresError(f"there are more than {MOST_FIGURES} figures; build some sizes alone")
        svg = drawings.svg(scene)
        data = json.dumps({
            "svg": svg, "width": scene.width, "height": scene.height, "title": scene.title, "alt": scene.description,
            "language": language, "font": theme.tokens.label_face.family,
        }, ensure_ascii=False)  # fmt: skip
        for format in formats:
            if format == "svg":
                yield f"{name}.svg", svg.encode("utf-8")
            elif format == "pdf":
                yield f"{name}.pdf", with_true_scale(engine.compose(_PAGE, data))
            else:
                yield f"{name}.png", engine.picture(_PAGE, data, _resolution(scene))


def _resolution(scene: Scene) -> float:
    """Pixels to the inch, fewer where a figure is so large that it would have too many."""
    return min(PIXELS_PER_INCH, MOST_PIXELS / max(scene.width, scene.height))
