"""The editions of a booklet, as data: which sections, in which order, for which sizes.

A new edition is one entry of `EDITIONS`; a new section is one module and one entry in `sections.py`.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, slots=True)
class Edition:
    """One kind of booklet of a pattern."""

    name: str
    doc: str
    covers: Literal["all", "each"]
    """Whether one booklet covers all sizes, or each size gets its own."""
    sections: tuple[str, ...]
    """Names of sections, in order."""
    layouts: Literal["pages", "inline"]
    """Whether cutting layouts stand on pages by size or beside the cutting of each fabric."""


_SECTIONS = (
    "contents", "introduction", "requirements", "before", "cutting", "layouts", "units", "blocks", "top", "borders",
    "finishing", "coloring", "about",
)  # fmt: skip

EDITIONS: dict[str, Edition] = {
    edition.name: edition
    for edition in (
        Edition("all-sizes", "One booklet for every size, with a column for each.", "all", _SECTIONS, "pages"),
        Edition("one-size", "A booklet for one size, with its numbers alone.", "each", _SECTIONS, "inline"),
    )
}
