"""Booklet → plain data: the one shape of a booklet that the templates of both writers see.

In: a booklet and its drawings.
Out: dictionaries, lists and text: `{"kind": "step", "number": 3, "blocks": […]}`; drawings by key, each once.
Never: markup, and nothing that a template would have to work out.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any
from urllib.parse import urlsplit

from patchwright.diagrams.scene import Label, Scene
from patchwright.typesetting.booklet import (
    Aside,
    Block,
    Booklet,
    Bullets,
    Cell,
    Contents,
    Emphasis,
    FabricKey,
    Figure,
    FigureRow,
    Inline,
    Link,
    Notice,
    Paragraph,
    PieceMark,
    ScaleMark,
    Section,
    Step,
    Strong,
    Subheading,
    Table,
    Words,
)
from patchwright.typesetting.faults import BookletStructureError, MissingWordsError

WORD_KEYS = (
    "page", "sizes", "figure", "step", "one-inch", "five-centimeters", "contents", "skip", "all-sizes",
    "choose", "size", "show", "colorway", "more", "table", "done", "progress", "clear", "clear-undo",
    "kept", "kept-not", "print", "enlarge", "larger", "smaller", "close", "measures", "measures-both", "measures-own",
    "look", "look-device", "look-light", "look-dark",
    "edition-whole", "edition-by-block", "edition-labels", "edition-class", "edition-kit",
)  # fmt: skip
"""Words that writers set: `page` holds {page} and {pages}, `figure` and `step` hold {number}, `progress` holds {done}
and {all}, the others are plain."""

Tree = dict[str, Any]
_SCHEMES = ("https", "mailto")


@dataclass(frozen=True, slots=True)
class BookletTree:
    """A booklet as data, with its scenes by key and all strings that will be set."""

    data: Tree
    scenes: dict[str, Scene]
    texts: frozenset[str]
    """Everything set as text on the page."""
    labels: frozenset[str]
    """Everything written in drawings."""


def booklet_tree(booklet: Booklet) -> BookletTree:
    """Lay a booklet out as data; raises a `TypesettingError` where it does not hold together."""
    words = dict(booklet.words)
    missing = tuple(key for key in WORD_KEYS if key not in words)
    if missing:
        raise MissingWordsError(missing)
    builder = _Builder(booklet)
    data = builder.booklet()
    builder.check_links()
    labels = {item.text for scene in builder.scenes.values() for item in scene.items if isinstance(item, Label)}
    return BookletTree(data, builder.scenes, frozenset(builder.texts), frozenset(labels))


@dataclass(slots=True)
class _Builder:
    """Walks a booklet once, collecting scenes, anchors, links and strings on the way."""

    source: Booklet
    scenes: dict[str, Scene] = field(default_factory=dict)
    texts: set[str] = field(default_factory=set)
    _anchors: set[str] = field(default_factory=set)
    _targets: set[str] = field(default_factory=set)
    _keys: dict[int, str] = field(default_factory=dict)

    def booklet(self) -> Tree:
        source, cover = self.source, self.source.cover
        return {
            "id": source.id,
            "title": self.text(source.title),
            "subtitle": self.text(source.subtitle),
            "author": self.text(source.author),
            "subject": self.text(source.subject),
            "language": source.language,
            "running_head": self.text(source.running_head),
            "words": {key: self.text(word) for key, word in source.words},
            "sizes": [{"name": name, "label": self.text(label)} for name, label in source.sizes],
            "swatches": {
                one.letter: {
                    "letter": self.text(one.letter),
                    "name": self.text(one.name),
                    "colors": list(one.colors),
                    "value": self.text(one.value),
                    "hatch": one.hatch,
                    "hatch_name": self.text(one.hatch_name),
                }
                for one in source.swatches
            },
            "cover": {
                "title": self.text(cover.title),
                "summary": self.text(cover.summary),
                "figure": self.figure(cover.figure),
                "facts": [[self.text(name), self.text(fact)] for name, fact in cover.facts],
                "sizes": [[self.text(name), self.text(size)] for name, size in cover.sizes],
                "publisher": self.text(cover.publisher),
                "compact": cover.compact,
            },
            "sections": [self.section(section) for section in source.sections],
            "logo": self.figure(source.logo) if source.logo is not None else None,
        }

    def section(self, section: Section) -> Tree:
        blocks = self.blocks(section.blocks)
        for block in blocks:
            if block["kind"] == "contents" and block["title"] == section.title:
                block["title"] = ""
        return {
            "id": self.anchor(section.id),
            "title": self.text(section.title),
            "new_page": section.new_page,
            "blocks": blocks,
        }

    def blocks(self, blocks: Iterable[Block]) -> list[Tree]:
        return [self.block(block) for block in blocks]

    def block(self, block: Block) -> Tree:
        match block:
            case Paragraph(inlines, role, sizes):
                return {"kind": "paragraph", "role": role, "sizes": list(sizes), "inlines": self.inlines(inlines)}
            case Subheading(text, name):
                return {"kind": "subheading", "text": self.text(text), "id": self.anchor(name)}
            case Bullets(items, checklist):
                return {"kind": "bullets", "checklist": checklist, "entries": [self.inlines(item) for item in items]}
            case Table():
                return self.table(block)
            case Figure():
                return self.figure(block)
            case FigureRow(figures):
                return {"kind": "figures", "figures": [self.figure(figure) for figure in figures]}
            case Notice(kind, title, inner):
                return {"kind": "notice", "notice": kind, "title": self.text(title), "blocks": self.blocks(inner)}
            case Step():
                return self.step(block)
            case FabricKey(letters):
                return {"kind": "key", "letters": [self.letter(letter) for letter in letters]}
            case ScaleMark(caption):
                return {"kind": "scale", "caption": self.text(caption)}
            case Contents(title):
                return {"kind": "contents", "title": self.text(title)}

    def step(self, step: Step) -> Tree:
        return {
            "kind": "step",
            "id": self.anchor(step.id),
            "number": step.number,
            "label": self.text(dict(self.source.words)["step"].replace("{number}", str(step.number))),
            "sizes": list(step.sizes),
            "blocks": self.blocks(step.blocks),
        }

    def table(self, table: Table) -> Tree:
        for row in table.rows:
            if len(row) != len(table.columns):
                raise BookletStructureError(
                    f"a row of the table `{table.id}` has {len(row)} cells, not {len(table.columns)}"
                )
        return {
            "kind": "table",
            "id": self.anchor(table.id),
            "caption": self.text(table.caption),
            "columns": [
                {"head": self.text(one.head), "align": one.align, "size": one.size, "weight": one.weight}
                for one in table.columns
            ],
            "rows": [[self.cell(cell) for cell in row] for row in table.rows],
        }

    def cell(self, cell: Cell) -> Tree:
        swatch = self.letter(cell.swatch) if cell.swatch else ""
        return {"inlines": self.inlines(cell.inlines), "swatch": swatch, "size": cell.size}

    def figure(self, figure: Figure) -> Tree:
        scene = figure.scene
        number = dict(self.source.words)["figure"].replace("{number}", figure.number) if figure.number else ""
        return {
            "kind": "figure",
            "id": self.anchor(scene.id, once=False),
            "drawing": self.drawing(scene),
            "width": scene.width,
            "height": scene.height,
            "title": scene.title,
            "alt": scene.description,
            "caption": self.text(figure.caption),
            "number": self.text(number),
            "sizes": list(figure.sizes),
            "floats": figure.floats,
        }

    def drawing(self, scene: Scene) -> str:
        """The key of a scene; equal ids with different scenes get different keys."""
        if id(scene) not in self._keys:
            key, count = scene.id, 1
            while key in self.scenes:
                count += 1
                key = f"{scene.id}--{count}"
            self.scenes[key] = scene
            self._keys[id(scene)] = key
        return self._keys[id(scene)]

    def inlines(self, inlines: Iterable[Inline]) -> list[Tree]:
        return [self.inline(inline) for inline in inlines]

    def inline(self, inline: Inline) -> Tree:
        match inline:
            case Words(text):
                return {"kind": "words", "text": self.text(text)}
            case Strong(inner):
                return {"kind": "strong", "inlines": self.inlines(inner)}
            case Emphasis(inner):
                return {"kind": "emphasis", "inlines": self.inlines(inner)}
            case Link(target, inner):
                return {"kind": "link", "target": self.target(target), "inlines": self.inlines(inner)}
            case Aside(text):
                return {"kind": "words", "text": self.text(text), "aside": True}
            case PieceMark(text):
                return {"kind": "piece", "text": self.text(text)}

    def text(self, text: str) -> str:
        self.texts.add(text)
        return text

    def letter(self, letter: str) -> str:
        if all(one.letter != letter for one in self.source.swatches):
            raise BookletStructureError(f"no swatch has the letter `{letter}`")
        return letter

    def anchor(self, name: str, once: bool = True) -> str:
        """A name to link to; a figure may be shown again, and only its first place is linked to."""
        if name and name not in self._anchors:
            self._anchors.add(name)
            return name
        if name and once:
            raise BookletStructureError(f"two parts of the booklet have the id `{name}`")
        return ""

    def target(self, target: str) -> str:
        if target.startswith("#"):
            self._targets.add(target[1:])
        elif urlsplit(target).scheme not in _SCHEMES:
            raise BookletStructureError(f"a link may lead to https, mailto or `#id`, not to `{target}`")
        return target

    def check_links(self) -> None:
        for target in sorted(self._targets - self._anchors):
            raise BookletStructureError(f"a link leads to `#{target}`, and nothing has that id")
