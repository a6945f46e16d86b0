"""The editions of a booklet, as data: which sections, in which order, for which sizes, and what they change of a theme.

A new edition is one entry of `EDITIONS` and its name in the dialect; a new section is one module and one entry in
`SECTIONS` of `make.py`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from patchwright.planning.plan import Plan
from patchwright.typesetting.changes import NO_CHANGES, Changes


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
    changes: Changes = NO_CHANGES
    upright: bool = False
    """Whether no words are set in italics."""
    figures: tuple[str, ...] = ()
    """Kinds of figures that it shows; all where none are named."""
    compact: bool = False
    """Whether a short head takes the place of the cover."""
    named: bool = True
    """Whether its files have the edition's name."""


_SECTIONS = (
    "contents", "introduction", "requirements", "before", "cutting", "layouts", "units", "blocks", "top", "borders",
    "finishing", "colorways", "about", "templates", "coloring",
)  # fmt: skip
_BY_BLOCK = tuple(name for own in _SECTIONS for name in ((own, "bags") if own == "layouts" else (own,)))
_LARGE = Changes(
    least_type=18, least_text=18.5, type_scale=1.75, most_scaled=30, space_scale=1.4, line_scale=1.8, strong=True,
    beside=2.3,
)
_FOLD = ("contents", "folding", *_SECTIONS[1:])
_LOW_INK = Changes(one_color=True, line_drawings=True)

EDITIONS: dict[str, Edition] = {
    edition.name: edition
    for edition in (
        Edition("all-sizes", "One booklet for every size, with a column for each.", "all", _SECTIONS, "pages",
                named=False),
        Edition("one-size", "A booklet for one size, with its numbers alone.", "each", _SECTIONS, "inline",
                named=False),
        Edition("large-print", "Type of 18 points and more, one column, heavy lines.", "each", _SECTIONS, "inline",
                _LARGE, upright=True),
        Edition("low-ink", "Line drawings in black on white.", "all", _SECTIONS, "pages", _LOW_INK),
        Edition("fold", "Half pages on sheets to fold and staple, and the same pages in reading order.", "each",
                _FOLD, "inline", Changes(folded=True, type_scale=0.84)),
        Edition("screen", "Landscape pages for reading on a screen.", "all", _SECTIONS, "pages",
                Changes(landscape=True)),
        Edition("by-block", "The pieces of one size sorted into a bag for each block.", "each", _BY_BLOCK, "inline"),
        Edition("templates", "Templates and foundations alone, at true size.", "each", ("before-printing", "templates"),
                "pages", figures=("cover", "template", "foundation"), compact=True),
        Edition("coloring", "The coloring page alone.", "all", ("coloring",), "pages", figures=("cover", "coloring"),
                compact=True),
        Edition("labels", "Labels for the stacks of cut pieces.", "each", ("labels",), "pages", figures=("cover",),
                compact=True),
        Edition("class", "The samples to prepare for a class.", "each", ("class",), "pages",
                figures=("cover", "steps", "block", "assembly"), compact=True),
        Edition("kit", "What a shop cuts and packs for its kits.", "all", ("kit",), "pages", figures=("cover",),
                compact=True),
    )
}  # fmt: skip


def file_sizes(plan: Plan, chosen: Sequence[int]) -> list[str]:
    """Sizes as names of files have them; one that is called as an edition is has a word before it."""
    names = [plan.sizes[index].name for index in chosen]
    return [f"size-{name}" if name in EDITIONS else name for name in names]
