"""Lists of blocks, one for each view, → one list in which equal blocks stand once and each view keeps its own order.

In: lists of tree nodes and the views that each list is for.
Out: nodes with the views that show them; steps, notices and sections hold merged nodes of their own.
Never: a node changed, or two nodes of one view out of their order.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher

from patchwright.typesetting.booklet_tree import Tree

Views = frozenset[int]
Listed = tuple[list[Tree], Views]

_HOLDERS = ("step", "notice", "section")
"""Nodes that are one where their heads agree, whatever blocks they hold."""


@dataclass(slots=True)
class _Entry:
    """Nodes of several views at one place of the merged list; all have one key."""

    key: str
    nodes: list[tuple[Tree, Views]]

    @property
    def views(self) -> Views:
        return frozenset().union(*(views for _, views in self.nodes))


def merged(lists: Sequence[Listed]) -> list[tuple[Tree, Views]]:
    """The ordered union of the lists."""
    entries: list[_Entry] = []
    for nodes, views in _grouped(lists):
        entries = _joined(entries, [_Entry(_key(node), [(node, views)]) for node in nodes])
    return [(_node(entry), entry.views) for entry in entries]


def _grouped(lists: Sequence[Listed]) -> list[Listed]:
    """Equal lists once, for all of their views."""
    found: dict[str, Listed] = {}
    for nodes, views in lists:
        text = _text(nodes)
        found[text] = (nodes, found[text][1] | views if text in found else views)
    return list(found.values())


def _joined(entries: list[_Entry], new: list[_Entry]) -> list[_Entry]:
    """Two lists of entries as one; entries with one key at matching places become one entry."""
    if not entries:
        return new
    made: list[_Entry] = []
    matcher = SequenceMatcher(None, [one.key for one in entries], [one.key for one in new], autojunk=False)
    for tag, start, end, new_start, new_end in matcher.get_opcodes():
        if tag == "equal":
            pairs = zip(entries[start:end], new[new_start:new_end], strict=True)
            made += [_Entry(old.key, old.nodes + own.nodes) for old, own in pairs]
        else:
            made += entries[start:end] + new[new_start:new_end]
    return made


def _node(entry: _Entry) -> Tree:
    """The one node of an entry; what its views hold differently is merged again, under `parts`."""
    first = entry.nodes[0][0]
    if _kind(first) not in _HOLDERS:
        return first
    parts = merged([(node["blocks"], views) for node, views in entry.nodes])
    return {**{name: value for name, value in first.items() if name != "blocks"}, "parts": parts}


def _key(node: Tree) -> str:
    """What makes nodes of different views one: everything, or the head of what holds blocks."""
    if _kind(node) not in _HOLDERS:
        return _text(node)
    return _text({name: value for name, value in node.items() if name not in ("blocks", "new_page")})


def _kind(node: Tree) -> str:
    return str(node.get("kind", "section"))


def _text(node: Tree | list[Tree]) -> str:
    return json.dumps(node, sort_keys=True, ensure_ascii=False)
