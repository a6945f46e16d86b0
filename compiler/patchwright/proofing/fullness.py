"""How full finished pages are: how far down the lowest ink of each reaches, and which are left scant for no reason.

In: the bytes of a PDF, and its paper.
Out: shares of the room between a page's margins, and numbers of pages.
Never: how much of a page is white above its lowest ink; words and drawings keep their distances.
"""

from __future__ import annotations

from typing import Any

from patchwright.core.theme import POINTS_PER_INCH, Paper

SCANT = 0.45
"""A page that is filled less far has room for another beginning."""
_SLACK = 3.0
"""Points by which ink may stand below the lower margin and still be no running foot."""
_TOP = 0.75
"""A heading in the first so many inches of a page begins it."""


def page_fullness(pdf: bytes, paper: Paper) -> tuple[float, ...]:
    """For each page the share of its room, from the upper margin down, that its lowest ink reaches."""
    import pypdfium2

    with pypdfium2.PdfDocument(pdf) as document:
        return tuple(_fullness(page, paper) for page in document)


def scant_pages(pdf: bytes, paper: Paper) -> tuple[int, ...]:
    """Numbers of the pages less full than `SCANT`, but for the last one and those before a page begun by a section."""
    full = page_fullness(pdf, paper)
    begun = _begun_pages(pdf, paper)
    return tuple(
        number for number, share in enumerate(full[:-1], 1) if share < SCANT and number + 1 not in begun
    )


def _fullness(page: Any, paper: Paper) -> float:
    head, foot = page.get_height() - paper.top * POINTS_PER_INCH, paper.bottom * POINTS_PER_INCH
    bottoms = [item.get_bounds()[1] for item in page.get_objects(max_depth=1)]
    page.close()
    lowest = min((bottom for bottom in bottoms if foot - _SLACK <= bottom <= head), default=head)
    return float((head - lowest) / (head - foot))


def _begun_pages(pdf: bytes, paper: Paper) -> frozenset[int]:
    """Pages that begin with the heading of a section, as the bookmarks say."""
    import pypdfium2

    with pypdfium2.PdfDocument(pdf) as document:
        begun = set()
        for mark in document.get_toc():
            target = mark.get_dest() if mark.level == 0 else None
            if target is None or target.get_index() is None:
                continue
            _, view = target.get_view()
            top = document.get_page_size(target.get_index())[1] - (view[1] if len(view) > 1 else 0)
            if top < (paper.top + _TOP) * POINTS_PER_INCH:
                begun.add(target.get_index() + 1)
        return frozenset(begun)
