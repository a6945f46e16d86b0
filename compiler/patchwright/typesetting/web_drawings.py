"""The drawings of a web page as SVG: one that is shown in several places stands once, and the places refer to it.

In: scenes by key, and the figures that will be shown.
Out: finished SVG for every place, with names of its own, and a store of what is shared.
Never: a drawing changed; the SVG of the scene's writer is taken apart and put together again.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from patchwright.core.theme import Tokens
from patchwright.diagrams.scene import Scene
from patchwright.diagrams.svg import framed_svg
from patchwright.typesetting.booklet_tree import Tree
from patchwright.typesetting.drawings import Drawings, swatch_scene

if TYPE_CHECKING:
    from markupsafe import Markup

_FRAME = re.compile(r'<svg [^>]*?(width="[^"]*" height="[^"]*") (viewBox="[^"]*")')


@dataclass(frozen=True, slots=True)
class Drawn:
    """One drawing, taken apart."""

    extent: str
    """Its width and height as attributes."""
    box: str
    inside: str

    @property
    def key(self) -> str:
        """Equal for drawings that look alike."""
        return f"{self.extent} {self.inside}"


def drawn(scene: Scene, drawings: Drawings) -> Drawn:
    """The scene's SVG, its frame apart from what it holds."""
    match = _FRAME.match(framed_svg(scene, ""))
    if match is None:
        raise ValueError(f"the drawing `{scene.id}` is not written as expected")
    return Drawn(match[1], match[2], drawings.body(scene))


@dataclass(frozen=True, slots=True)
class Pen:
    """Draws what a page shows."""

    drawings: Drawings
    tokens: Tokens

    def drawing(self, scene: Scene) -> Drawn:
        return drawn(scene, self.drawings)

    def swatch(self, letter: str, one: Tree) -> Drawn:
        """A fabric's swatch, as the tree of a booklet tells it."""
        size = (self.tokens.spacing.swatch_width, self.tokens.spacing.swatch_height)
        return drawn(swatch_scene(letter, one["name"], tuple(one["colors"]), one["hatch"], *size), self.drawings)


@dataclass(slots=True)
class PageDrawings:
    """Gives the drawing of every figure that a template shows."""

    parts: dict[str, Drawn]
    """By the key that figures name."""
    shared: frozenset[str]
    _shown: Counter[str] = field(default_factory=Counter)

    @classmethod
    def of(cls, parts: dict[str, Drawn], figures: Iterable[Tree]) -> PageDrawings:
        counted = Counter(str(figure["drawing"]) for figure in figures)
        shared = frozenset(key for key, count in counted.items() if count > 1)
        return cls(parts, shared)

    def figure(self, figure: Tree) -> Markup:
        """The drawing of a figure, named by its title and description."""
        from markupsafe import Markup, escape

        key = str(figure["drawing"])
        part = self.parts[key]
        self._shown[key] += 1
        name = f"{as_name(key)}-{self._shown[key]}"
        inside = f'<use href="#drawing-{as_name(key)}"/>' if key in self.shared else part.inside
        return Markup(
            f'<svg {part.extent} {part.box} role="img" aria-labelledby="{name}-title {name}-desc">'
            f'<title id="{name}-title">{escape(figure["title"])}</title>'
            f'<desc id="{name}-desc">{escape(figure["alt"])}</desc>{inside}</svg>'
        )

    def store(self) -> str:
        """The shared drawings as symbols."""
        return "".join(
            f'<symbol id="drawing-{as_name(key)}" {part.box}>{part.inside}</symbol>'
            for key, part in self.parts.items() if key in self.shared
        )


def as_name(key: str) -> str:
    """A key as an id."""
    return re.sub(r"[^A-Za-z0-9_-]", "-", key)
