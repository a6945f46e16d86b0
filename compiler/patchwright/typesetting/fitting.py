"""What is checked before a page is made: that every figure fits its place, and every character has a glyph.

In: a booklet's tree and the theme.
Out: nothing, or a `TypesettingError` that names the figure or the character.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

from patchwright.core.theme import FontMetrics, Tokens
from patchwright.typesetting.booklet_tree import BookletTree, Tree
from patchwright.typesetting.faults import FigureRoomError, MissingGlyphError
from patchwright.typesetting.fonts import face_metrics
from patchwright.typesetting.themes import Theme

COVER_WORDS = 2.9
"""Inches of a cover's height that the fewest words take; beside more of them the picture is shown smaller."""
CAPTION = 0.45
"""Inches below a figure that are kept for its caption."""
_SLACK = 0.005

Size = tuple[float, float]


class SetTexts(Protocol):
    """What is set as text, and what is written in drawings."""

    @property
    def texts(self) -> frozenset[str]: ...

    @property
    def labels(self) -> frozenset[str]: ...


@dataclass(frozen=True, slots=True)
class Room:
    """The largest figures, width and height in inches, that fit on every paper of a theme."""

    section: Size
    """Directly in a section, on a page of its own if need be."""
    step: Size
    notice: Size
    cover: Size
    beside: float
    """The widest figure or row that stands beside a step's words."""


def room(tokens: Tokens) -> Room:
    """How large figures may be, by the place where they stand."""
    width = min(paper.text_width for _, paper in tokens.papers)
    height = min(paper.text_height for _, paper in tokens.papers)
    gaps = tokens.spacing
    tall = height - CAPTION
    return Room(
        section=(width, tall),
        step=(width - gaps.step_gutter, tall - gaps.step),
        notice=(width - 4 * gaps.notice, tall - 4 * gaps.notice),
        cover=(width, height - COVER_WORDS),
        beside=gaps.beside,
    )


def check_figures(tree: BookletTree, theme: Theme) -> None:
    """Raise `FigureRoomError` for the first figure that is too large for its place on any paper."""
    limits = room(theme.tokens)
    _check_figure(tree.data["cover"]["figure"], limits.cover, "the cover")
    for section in tree.data["sections"]:
        _check_blocks(section["blocks"], limits.section, f"the section `{section['title']}`", limits)


def _check_blocks(blocks: list[Tree], limit: Size, place: str, limits: Room) -> None:
    for block in blocks:
        if block["kind"] == "figure":
            _check_figure(block, limit, place)
        elif block["kind"] == "figures":
            for figure in block["figures"]:
                _check_figure(figure, limit, place)
        elif block["kind"] == "step":
            _check_blocks(block["blocks"], limits.step, f"the step `{block['id']}`", limits)
        elif block["kind"] == "notice":
            frame = limits.section[0] - limits.notice[0]
            inner = (limit[0] - frame, limit[1] - frame)
            _check_blocks(block["blocks"], inner, f"a notice in {place}", limits)


def _check_figure(figure: Tree, limit: Size, place: str) -> None:
    width, height = figure["width"], figure["height"]
    if width > limit[0] + _SLACK or height > limit[1] + _SLACK:
        raise FigureRoomError(figure["drawing"], (width, height), limit, place)


def check_glyphs(tree: SetTexts, theme: Theme) -> None:
    """Raise `MissingGlyphError` for the first character without a glyph.

    On pages the text and label faces stand in for each other; in drawings there is the label face alone.
    """
    tokens, look = theme.tokens, theme.look
    pages = (face_metrics(tokens.text_face), look.regular)
    _check_texts(tree.texts, pages)
    _check_texts(tree.labels, (look.regular,))
    _check_texts(tree.labels, (look.bold,))


def _check_texts(texts: frozenset[str], faces: tuple[FontMetrics, ...]) -> None:
    used = set().union(*texts) if texts else set()
    absent = {one for one in used if all(ord(one) not in face.advances for face in faces)}
    if absent:
        character = min(absent)
        raise MissingGlyphError(character, min(text for text in texts if character in text))
