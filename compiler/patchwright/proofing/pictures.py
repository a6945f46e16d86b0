"""Pictures of finished pages, and sheets that show all pages of a booklet side by side.

In: the bytes of a PDF.
Out: the bytes of PNG pictures.
Never: more pixels than the bounds here allow, whatever the size of a page.
"""

from __future__ import annotations

import io
from collections.abc import Sequence
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from PIL.Image import Image

PAGE_DPI = 72
MOST_PAGE_PIXELS = 2000
"""Most pixels of a page's longer side."""
THUMB = 260
"""Pixels of a page's longer side on a sheet of all pages."""
ACROSS = 8
GAP = 8
MOST_ON_SHEET = 400
"""Most pages on one sheet; the others of a longer booklet are left out of it."""
_GROUND = "#8a8a8a"


def page_pictures(pdf: bytes) -> tuple[Image, ...]:
    """Every page as it prints."""
    import pypdfium2

    document = pypdfium2.PdfDocument(pdf)
    made = []
    for page in document:
        longer = max(page.get_size())
        scale = min(PAGE_DPI / 72, MOST_PAGE_PIXELS / longer)
        made.append(page.render(scale=scale).to_pil().convert("RGB"))
        page.close()
    document.close()
    return tuple(made)


def contact_sheet(pages: Sequence[Image]) -> Image:
    """All pages on one picture, in rows, small."""
    from PIL import Image as Images

    small = []
    for page in pages[:MOST_ON_SHEET]:
        thumb = page.copy()
        thumb.thumbnail((THUMB, THUMB))
        small.append(thumb)
    wide, high = max(one.width for one in small) + GAP, max(one.height for one in small) + GAP
    columns = min(ACROSS, len(small))
    sheet = Images.new("RGB", (columns * wide + GAP, -(-len(small) // columns) * high + GAP), _GROUND)
    for number, thumb in enumerate(small):
        sheet.paste(thumb, (GAP + number % columns * wide, GAP + number // columns * high))
    return sheet


def png(picture: Image) -> bytes:
    """A picture as a file, the same bytes every time."""
    made = io.BytesIO()
    picture.save(made, "PNG", optimize=False)
    return made.getvalue()
