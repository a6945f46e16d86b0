"""The Booklet: a finished document as a tree, which two writers turn into PDF and HTML and decide nothing.

In: what the plan says, in words of one language, and finished scenes.
Never: markup of any kind in a string; numbers are already text with glyphs and no-break spaces.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from patchwright.diagrams.scene import Scene


@dataclass(frozen=True, slots=True)
class Words:
    text: str


@dataclass(frozen=True, slots=True)
class Strong:
    inlines: tuple[Inline, ...]


@dataclass(frozen=True, slots=True)
class Emphasis:
    inlines: tuple[Inline, ...]


@dataclass(frozen=True, slots=True)
class Link:
    target: str
    """An address (https or mailto), or `#id` of a section or figure."""
    inlines: tuple[Inline, ...]


@dataclass(frozen=True, slots=True)
class PieceMark:
    """A piece letter such as A1, set so that it stands out and is never parted."""

    text: str


@dataclass(frozen=True, slots=True)
class Aside:
    """The same measure in the other system, in parentheses; a web page can leave it out."""

    text: str


Inline = Words | Strong | Emphasis | Link | PieceMark | Aside


@dataclass(frozen=True, slots=True)
class Paragraph:
    inlines: tuple[Inline, ...]
    role: Literal["body", "lead", "measure", "fine"] = "body"
    """`lead` opens a section, `measure` says what a thing should measure, `fine` is small print."""
    sizes: tuple[str, ...] = ()
    """Names of the pattern's sizes that this is about; empty means all (web booklets hide the others)."""


@dataclass(frozen=True, slots=True)
class Subheading:
    text: str
    id: str = ""


@dataclass(frozen=True, slots=True)
class Bullets:
    items: tuple[tuple[Inline, ...], ...]
    checklist: bool = False
    """Drawn with boxes to tick."""


@dataclass(frozen=True, slots=True)
class Cell:
    inlines: tuple[Inline, ...]
    swatch: str = ""
    """A fabric's letter, whose colors and hatch are shown before the text."""
    size: str = ""
    """The size that the cell is about, for web booklets that show one size."""


@dataclass(frozen=True, slots=True)
class Column:
    head: str
    align: Literal["start", "end", "middle"] = "start"
    size: str = ""
    weight: int = 1
    """Share of the width left over after columns that fit their content; 0 fits its content."""


@dataclass(frozen=True, slots=True)
class Table:
    """A table whose head is repeated on each page; the first column names its row."""

    id: str
    caption: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]


@dataclass(frozen=True, slots=True)
class Figure:
    """A drawing at its own size, never scaled by a writer, with a caption that may be empty."""

    scene: Scene
    caption: str = ""
    sizes: tuple[str, ...] = ()
    number: str = ""
    floats: bool = False
    """Whether it may go to the head or the foot of its page or the next, so that words fill what it would leave."""


@dataclass(frozen=True, slots=True)
class FigureRow:
    """Small figures side by side, wrapped to the text width, in order; each keeps its own size."""

    figures: tuple[Figure, ...]


@dataclass(frozen=True, slots=True)
class Notice:
    """A boxed remark, or a tag to cut out; tags that follow each other stand side by side."""

    kind: Literal["caution", "check", "tip", "tag"]
    title: str
    blocks: tuple[Block, ...]


@dataclass(frozen=True, slots=True)
class Step:
    """One numbered step: words, drawings and count stay together on a page."""

    id: str
    number: int
    blocks: tuple[Block, ...]
    sizes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class FabricKey:
    """The legend: every swatch with its letter, name, value and hatch in words."""

    scene_swatches: tuple[str, ...]
    """Letters of the fabrics shown, in order."""


@dataclass(frozen=True, slots=True)
class ScaleMark:
    """A square of one inch and a bar of five centimeters, true to scale, with the words to check them by."""

    caption: str


@dataclass(frozen=True, slots=True)
class Contents:
    """The list of sections with their pages (PDF) or links (HTML)."""

    title: str


Block = (
    Paragraph | Subheading | Bullets | Table | Figure | FigureRow | Notice | Step | FabricKey | ScaleMark | Contents
)


@dataclass(frozen=True, slots=True)
class Section:
    id: str
    title: str
    blocks: tuple[Block, ...]
    new_page: bool = False


@dataclass(frozen=True, slots=True)
class Cover:
    """The first page: the picture of the quilt and what a buyer looks for.

    The picture has no scale, and is the only figure that a writer may show smaller, where the words need its room.
    """

    title: str
    summary: str
    figure: Figure
    facts: tuple[tuple[str, str], ...]
    """Pairs such as ("Skill", "confident beginner")."""
    sizes: tuple[tuple[str, str], ...]
    """(name, finished size as text) of every size."""
    publisher: str
    compact: bool = False
    """Whether it is only a head above the first section, as on sheets that need no page of their own for it."""


@dataclass(frozen=True, slots=True)
class SwatchInfo:
    letter: str
    name: str
    colors: tuple[str, ...]
    value: str
    """The value in words of the booklet's language."""
    hatch: int
    hatch_name: str


@dataclass(frozen=True, slots=True)
class Booklet:
    """One document of one edition, for any paper."""

    id: str
    """Stem of the file name: `rope-walk`, `rope-walk-throw`."""
    title: str
    subtitle: str
    author: str
    subject: str
    language: str
    cover: Cover
    sections: tuple[Section, ...]
    swatches: tuple[SwatchInfo, ...]
    sizes: tuple[tuple[str, str], ...]
    """(name, label) of the sizes it covers, in order."""
    running_head: str
    words: tuple[tuple[str, str], ...] = ()
    """The few words that writers set themselves (page, contents, skip to content, choose size …), by key."""
    logo: Figure | None = None
    """The mark of the house, which a theme has on the cover or at the end; it has no scale."""
    pattern: str = ""
    """The pattern's id, alike in all its booklets."""
    release: str = ""
