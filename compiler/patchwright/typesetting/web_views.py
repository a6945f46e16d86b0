"""Booklets of one pattern → one tree that shows any of them: what they share stands once, what differs stands by view.

In: a booklet for each view: an edition, for all sizes together or for one size, in one colorway.
Out: a tree for the web template in which every part that is not in all views says in which it is; every drawing once.
Never: a number chosen or made; leaving out what a view does not show gives that view's booklet again.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import Any

from patchwright.typesetting.booklet import Booklet
from patchwright.typesetting.booklet_tree import BookletTree, Tree, booklet_tree
from patchwright.typesetting.web_colors import Shown, named_colors
from patchwright.typesetting.web_drawings import Drawn, Pen
from patchwright.typesetting.web_merging import Views, merged

_SWATCH = "swatch "
"""Begins the names of swatches among the drawings of a view."""


@dataclass(frozen=True, slots=True)
class View:
    """One of the booklets that a web page can show."""

    booklet: Booklet
    edition: str = "whole"
    size: str = ""
    """The name of a size; empty for all sizes together."""
    colorway: str = ""
    """The name of a colorway; empty for the first one of a page."""
    colors: str = ""
    """What a reader calls the colorway."""

    @property
    def key(self) -> str:
        """How the page's script calls it: `by-block/throw/`."""
        return f"{self.edition}/{self.size}/{self.colorway}"


@dataclass(frozen=True, slots=True)
class WebTree:
    """The merged tree, with the drawings, texts and labels of all views."""

    data: Tree
    drawings: dict[str, Drawn]
    swatches: dict[str, Drawn]
    texts: frozenset[str]
    labels: frozenset[str]
    colors: str = ""
    """Rules for the names of colors that differ between colorways."""


def web_tree(views: Sequence[View], pen: Pen) -> WebTree:
    """Merge the views, the first of which is what a reader sees who has no script."""
    drawings, swatches = _Shared(), _Shared()
    trees = [booklet_tree(view.booklet) for view in views]
    named, colors = named_colors([
        Shown(view.colorway, f"{view.edition}/{view.size}", _drawn(tree, pen))
        for view, tree in zip(views, trees, strict=True)
    ])
    prepared = [_prepared(tree, own, drawings, swatches) for tree, own in zip(trees, named, strict=True)]
    everywhere = frozenset(range(len(views)))
    sets = _Sets()
    first = prepared[0]
    sections = merged([(one["sections"], frozenset({place})) for place, one in enumerate(prepared)])
    covers = [(_cover_parts(one), frozenset({place})) for place, one in enumerate(prepared)]
    data = {key: first[key] for key in ("title", "author", "subject", "language", "words")}
    data |= {
        "cover": first["cover"],
        "cover_parts": sets.told(merged(covers), everywhere),
        "sections": sets.told(sections, everywhere),
        "logo": first["logo"],
        "choices": _choices(views, first["words"]),
        "views": " ".join(view.key for view in views),
        "sets": sets.text(),
        "converted": any(_has_aside(tree["sections"]) for tree in prepared),
        "measures": "both",
    }
    _name(data)
    texts = frozenset().union(*(tree.texts for tree in trees))
    labels = frozenset().union(*(tree.labels for tree in trees))
    return WebTree(data, drawings.drawn, swatches.drawn, texts, labels, colors.style())


@dataclass(slots=True)
class _Shared:
    """Every drawing once, by a key of its own."""

    drawn: dict[str, Drawn] = field(default_factory=dict)
    _keys: dict[str, str] = field(default_factory=dict)

    def key(self, name: str, drawing: Drawn) -> str:
        """The key of a drawing; one that looks like it may have come before."""
        if drawing.key not in self._keys:
            key, count = name, 1
            while key in self.drawn:
                count += 1
                key = f"{name}--{count}"
            self.drawn[key] = drawing
            self._keys[drawing.key] = key
        return self._keys[drawing.key]


def _drawn(tree: BookletTree, pen: Pen) -> dict[str, Drawn]:
    """All drawings and swatches of one view."""
    swatches = {_SWATCH + letter: pen.swatch(letter, one) for letter, one in tree.data["swatches"].items()}
    return {key: pen.drawing(scene) for key, scene in tree.scenes.items()} | swatches


def _prepared(tree: BookletTree, drawn: dict[str, Drawn], drawings: _Shared, swatches: _Shared) -> Tree:
    """The tree with shared drawings, without the marks of sizes (the views say more), with keys for what is ticked."""
    keys = {key: drawings.key(scene.id, drawn[key]) for key, scene in tree.scenes.items()}
    cloths = {
        letter: {**one, "swatch": swatches.key(letter, drawn[_SWATCH + letter])}
        for letter, one in tree.data["swatches"].items()
    }
    data: Tree = _stripped(tree.data, keys, cloths)
    for section in data["sections"]:
        _give_checks(section["blocks"], section["id"])
    return data


def _stripped(node: Any, drawings: dict[str, str], cloths: dict[str, Tree]) -> Any:
    if isinstance(node, list):
        return [_stripped(one, drawings, cloths) for one in node]
    if not isinstance(node, dict):
        return node
    made = {key: _stripped(value, drawings, cloths) for key, value in node.items()}
    if node.get("kind") in ("paragraph", "step", "figure"):
        made["sizes"] = []
    if node.get("kind") == "figure":
        made["drawing"] = drawings[node["drawing"]]
    if node.get("kind") == "key":
        shown = ("swatch", "letter", "name", "value", "hatch_name")
        made["entries"] = [{name: cloths[letter][name] for name in shown} for letter in node["letters"]]
    if node.get("swatch"):
        made["swatch"] = cloths[node["swatch"]]["swatch"]
    return made


def _give_checks(blocks: list[Tree], path: str) -> None:
    """Name every step and every entry of a checklist by its section and part, alike in all sizes."""
    part, lists = "", 0
    for block in blocks:
        match block["kind"]:
            case "subheading":
                part, lists = block["id"] or block["text"], 0
            case "step":
                block["check"] = f"{path}/{block['id'] or block['number']}"
                _give_checks(block["blocks"], block["check"])
            case "notice":
                _give_checks(block["blocks"], f"{path}/{part}/{block['title']}")
            case "bullets" if block["checklist"]:
                lists += 1
                block["checks"] = [f"{path}/{part}/{lists}.{place}" for place, _ in enumerate(block["entries"], 1)]
            case _:
                pass


def _cover_parts(tree: Tree) -> list[Tree]:
    """What a cover shows, as blocks: texts, the picture, facts and sizes."""
    cover = tree["cover"]
    parts: list[Tree] = [{"kind": "subtitle", "text": tree["subtitle"]}] if tree["subtitle"] else []
    parts += [{"kind": "summary", "text": cover["summary"]}] if cover["summary"] else []
    parts.append({**cover["figure"], "kind": "cover-figure"})
    parts += [{"kind": "fact", "name": name, "text": text} for name, text in cover["facts"]]
    return [*parts, *({"kind": "size", "name": name, "text": text} for name, text in cover["sizes"])]


def _choices(views: Sequence[View], words: dict[str, str]) -> Tree:
    """What can be chosen: editions, sizes and colorways, each with its label."""
    labels = {name: label for view in views for name, label in view.booklet.sizes}
    editions = dict.fromkeys(view.edition for view in views)
    sizes = dict.fromkeys(view.size for view in views)
    colorways = {view.colorway: view.colors for view in views}
    return {
        "editions": [{"name": name, "label": words.get(f"edition-{name}", name)} for name in editions],
        "sizes": [{"name": name, "label": labels[name] if name else words["all-sizes"]} for name in sizes],
        "colorways": [{"name": name, "label": label or name} for name, label in colorways.items()],
    }


@dataclass(slots=True)
class _Sets:
    """The sets of views in which parts are, each told once, and the parts that name them by number."""

    _numbers: dict[Views, int] = field(default_factory=dict)

    def told(self, parts: Sequence[tuple[Tree, Views]], around: Views) -> list[Tree]:
        """The parts as tree nodes; one that is wherever its surroundings are says nothing."""
        return [self._told(node, views, around) for node, views in parts]

    def text(self) -> str:
        return ",".join(" ".join(map(str, sorted(views))) for views in self._numbers)

    def _told(self, node: Tree, views: Views, around: Views) -> Tree:
        shown = "" if views == around else str(self._numbers.setdefault(views, len(self._numbers)))
        made = {**node, "shown": shown, "hidden": bool(shown) and 0 not in views}
        if node.get("kind") == "step":
            made["beside"] = _is_pictured(node["parts"])
        if "parts" in node:
            made["blocks"] = self.told(node["parts"], views)
            del made["parts"]
        return made


def _is_pictured(parts: Sequence[tuple[Tree, Views]]) -> bool:
    """Whether a step has words with one picture to stand beside them, and no view has more than one."""
    pictures = [views for node, views in parts if node["kind"] in ("figure", "figures")]
    return 0 < len(pictures) < len(parts) and len(frozenset().union(*pictures)) == sum(map(len, pictures))


def _name(data: Tree) -> None:
    """Give every anchor once: the first part with an id has it, later ones have one of their own and say both."""
    taken: set[str] = set()
    for node in _walk((*data["cover_parts"], *data["sections"])):
        name = node.get("id")
        if not name:
            continue
        own, count = name, 1
        while own in taken:
            count += 1
            own = f"{name}--{count}"
        taken.add(own)
        node["id"], node["anchor"] = own, name if own != name else ""


def _walk(nodes: Iterable[Tree]) -> Iterator[Tree]:
    for node in nodes:
        yield node
        yield from _walk(node.get("blocks", ()))
        yield from _walk(node.get("figures", ()))


def _has_aside(node: Any) -> bool:
    """Whether anything is told in the other system of measure too."""
    if isinstance(node, list):
        return any(_has_aside(one) for one in node)
    return isinstance(node, dict) and ("aside" in node or any(_has_aside(one) for one in node.values()))


def figures_of(data: Tree) -> Iterator[Tree]:
    """All figures of a merged tree, in order."""
    nodes = _walk((*data["cover_parts"], *data["sections"]))
    return (node for node in nodes if node.get("kind") in ("figure", "cover-figure"))
