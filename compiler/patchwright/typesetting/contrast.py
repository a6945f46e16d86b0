"""Whether the colors of a theme that meet on a page can be told apart: WCAG 2.2, level AA.

In: a theme's tokens.
Out: the pairs of colors that are too much alike.
Never: a pattern's fabrics; letters on cloth have a backing of the theme's own, which is checked over any cloth.

Text needs a ratio of 4.5 to 1 (success criterion 1.4.3), lines and signs of 3 to 1 (1.4.11). The ratio is that of
WCAG's definition of relative luminance.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from patchwright.core.theme import DrawingTokens, Palette, Tokens

TEXT, LINE = 4.5, 3.0
BLACK, WHITE = "#000000", "#ffffff"

_TONES = ("caution", "check", "tip")
_PAGE_PAIRS: tuple[tuple[str, str, float, str], ...] = (
    *((front, behind, TEXT, "text") for front in ("ink", "quiet", "accent", *_TONES) for behind in ("paper", "panel")),
    *(("ink", f"{tone}_pale", TEXT, "text") for tone in ("accent", *_TONES)),
    *((tone, f"{tone}_pale", TEXT, "headings") for tone in ("accent", *_TONES)),
    *(("paper", tone, TEXT, "text on a colored ground") for tone in ("accent", *_TONES)),
    ("quiet", "accent_pale", TEXT, "text"),
    ("rule", "paper", LINE, "lines"),
)
"""Front, behind, least ratio and use: every pair that pages of themes may set one on the other."""


@dataclass(frozen=True, slots=True)
class WeakPair:
    """Two colors that are too much alike, by the names of their tokens."""

    table: str
    """The part of the theme in which `token` stands."""
    token: str
    behind: str
    """The full name of the other."""
    use: str
    ratio: float
    least: float


def weak_pairs(tokens: Tokens) -> Iterator[WeakPair]:
    """Every pair of a theme that does not reach its least ratio."""
    for pair in (*_pages("light", tokens.light), *_pages("dark", tokens.dark), *_drawings(tokens.drawing)):
        if pair.ratio < pair.least:
            yield pair


def contrast(one: str, other: str) -> float:
    """The contrast ratio of two colors such as `#1c2a35`, from 1 to 21."""
    light, dark = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def over(front: str, behind: str, strength: float) -> str:
    """The color of a front that lets some of what is behind it through."""
    mixed = (
        round(own * strength + other * (1 - strength))
        for own, other in zip(_channels(front), _channels(behind), strict=True)
    )
    return "#" + "".join(f"{channel:02x}" for channel in mixed)


def _pages(table: str, palette: Palette) -> Iterator[WeakPair]:
    for front, behind, least, use in _PAGE_PAIRS:
        ratio = contrast(getattr(palette, front), getattr(palette, behind))
        yield WeakPair(table, front.replace("_", "-"), f"{table}.{behind.replace('_', '-')}", use, ratio, least)


def _drawings(drawing: DrawingTokens) -> Iterator[WeakPair]:
    """Lines on paper and on waste, labels on every ground, and labels on cloth of any color with their backing."""
    for behind in ("paper", "waste"):
        for name, stroke in drawing.strokes:
            ratio = contrast(stroke.color, getattr(drawing, behind))
            yield WeakPair("drawing", "strokes", f"drawing.{behind}", f"line `{name}`", ratio, LINE)
    for behind in ("paper", "waste", "highlight"):
        ratio = contrast(drawing.label, getattr(drawing, behind))
        yield WeakPair("drawing", "label", f"drawing.{behind}", "labels", ratio, TEXT)
    for cloth in (BLACK, WHITE):
        ground = over(drawing.backing, cloth, drawing.backing_strength)
        word = "black" if cloth == BLACK else "white"
        yield WeakPair(
            "drawing", "label", "drawing.backing", f"labels on {word} cloth", contrast(drawing.label, ground), TEXT
        )


def _luminance(color: str) -> float:
    """Relative luminance by WCAG 2.2."""
    red, green, blue = (
        share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4
        for share in (channel / 255 for channel in _channels(color))
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _channels(color: str) -> tuple[int, int, int]:
    return int(color[1:3], 16), int(color[3:5], 16), int(color[5:7], 16)
