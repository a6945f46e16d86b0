"""The author's Markdown as blocks of a booklet.

In: Markdown text, its values already filled in.
Out: paragraphs, subheadings, lists and what was refused, with the line on which it stands.
Never: raw HTML (it stays visible text), a picture, or a link to anything but https and mailto.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from markdown_it import MarkdownIt
from markdown_it.token import Token

from patchwright.typesetting.booklet import Block, Bullets, Emphasis, Inline, Link, Paragraph, Strong, Subheading, Words
from patchwright.typesetting.content.scope import as_inlines

SAFE_TARGETS = ("https://", "mailto:")
_OFF = ("table", "strikethrough", "html_block", "html_inline", "reference")


@dataclass(frozen=True, slots=True)
class ProseFault:
    """Something that prose may not hold: a picture, or a link that is not https or mailto."""

    kind: Literal["picture", "link"]
    target: str
    line: int
    """Line of the text, from 0, at which the paragraph begins."""


@dataclass(frozen=True, slots=True)
class Parsed:
    blocks: tuple[Block, ...]
    faults: tuple[ProseFault, ...]


def parse_prose(text: str) -> Parsed:
    """The blocks of a Markdown text, and everything in it that is refused."""
    tokens = MarkdownIt("js-default").disable(list(_OFF)).parse(text)
    faults: list[ProseFault] = []
    return Parsed(tuple(_blocks(tokens, faults)), tuple(faults))


def _blocks(tokens: Sequence[Token], faults: list[ProseFault]) -> list[Block]:
    blocks: list[Block] = []
    position = 0
    while position < len(tokens):
        token = tokens[position]
        if token.type in ("bullet_list_open", "ordered_list_open"):
            end = _closing(tokens, position)
            blocks += _list(token, tokens[position + 1 : end], faults)
            position = end
        elif token.type == "heading_open":
            blocks.append(Subheading(_plain(_inline(tokens[position + 1], faults))))
            position += 2
        elif token.type == "inline":
            blocks.append(Paragraph(_inline(token, faults)))
        elif token.type in ("fence", "code_block"):
            blocks += [Paragraph((Words(line),)) for line in token.content.splitlines() if line.strip()]
        position += 1
    return blocks


def _closing(tokens: Sequence[Token], start: int) -> int:
    level = tokens[start].level
    return next(index for index in range(start + 1, len(tokens)) if tokens[index].level == level)


def _list(opening: Token, inside: Sequence[Token], faults: list[ProseFault]) -> list[Block]:
    """A bulleted list as bullets; a numbered one as paragraphs that begin with their numbers.

    A paragraph or list within an item becomes an item of its own: booklets have one level of lists.
    """
    items = [_inline(token, faults) for token in inside if token.type == "inline"]
    if opening.type == "bullet_list_open":
        return [Bullets(tuple(items))]
    first = int(opening.attrs.get("start", 1))
    return [Paragraph(as_inlines((f"{number}. ", *item))) for number, item in enumerate(items, first)]


def _inline(token: Token, faults: list[ProseFault]) -> tuple[Inline, ...]:
    line = token.map[0] if token.map else 0
    inlines, _ = _nested(token.children or [], 0, line, faults)
    return inlines


def _nested(tokens: Sequence[Token], start: int, line: int, faults: list[ProseFault]) -> tuple[tuple[Inline, ...], int]:
    """Inlines up to the tag that closes this level, and where it stands."""
    parts: list[object] = []
    position = start
    while position < len(tokens) and tokens[position].nesting != -1:
        token = tokens[position]
        if token.nesting == 1:
            inside, position = _nested(tokens, position + 1, line, faults)
            parts.append(_styled(token, inside, line, faults))
        elif token.type == "image":
            faults.append(ProseFault("picture", str(token.attrs.get("src", "")), line))
        elif token.type in ("softbreak", "hardbreak"):
            parts.append(" ")
        else:
            parts.append(token.content)
        position += 1
    return as_inlines(parts), position


def _styled(token: Token, inside: tuple[Inline, ...], line: int, faults: list[ProseFault]) -> tuple[Inline, ...]:
    if token.type == "strong_open":
        return (Strong(inside),)
    if token.type == "em_open":
        return (Emphasis(inside),)
    target = str(token.attrs.get("href", ""))
    if target.lower().startswith(SAFE_TARGETS):
        return (Link(target, inside),)
    faults.append(ProseFault("link", target, line))
    return inside


def _plain(inlines: Sequence[Inline]) -> str:
    """The text of inlines without their styles, for a heading."""
    return "".join(
        _plain(inline.inlines) if isinstance(inline, Strong | Emphasis | Link) else inline.text for inline in inlines
    )
