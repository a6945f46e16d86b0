"""Scenes → SVG, each written once for all papers, booklets and writers of one run."""

from __future__ import annotations

from patchwright.diagrams.look import Look
from patchwright.diagrams.scene import Area, Scene, Swatch
from patchwright.diagrams.svg import framed_svg, svg_body


class Drawings:
    """Writes scenes and remembers them, so that a second paper or another booklet with an equal scene costs nothing."""

    def __init__(self, look: Look) -> None:
        self.look = look
        self._written: dict[int, tuple[Scene, str]] = {}
        self._alike: dict[tuple[object, ...], list[tuple[Scene, str]]] = {}

    def svg(self, scene: Scene, instance: str = "") -> str:
        """The scene as SVG; `instance` keeps ids apart where one document shows it twice."""
        return framed_svg(scene, self.body(scene), instance)

    def body(self, scene: Scene) -> str:
        """What the SVG holds; the scene itself is kept, so that its identity can stand for it."""
        if id(scene) not in self._written:
            self._written[id(scene)] = (scene, self._equal(scene))
        return self._written[id(scene)][1]

    def know(self, scene: Scene, body: str) -> None:
        """Take a body that was written before, of a scene that may have lost its items since."""
        self._written[id(scene)] = (scene, body)

    def _equal(self, scene: Scene) -> str:
        """What was written for an equal scene, or this one written; only scenes that look alike are compared."""
        looks = (scene.id, scene.width, scene.height, len(scene.items), scene.description)
        alike = self._alike.setdefault(looks, [])
        for other, written in alike:
            if other.items == scene.items and other.swatches == scene.swatches:
                return written
        alike.append((scene, svg_body(scene, self.look)))
        return alike[-1][1]


def swatch_scene(letter: str, name: str, colors: tuple[str, ...], hatch: int, width: float, height: float) -> Scene:
    """A small rectangle of cloth, striped where the fabric is many cloths."""
    stripe = width / len(colors)
    edges = tuple((number * stripe, (number + 1) * stripe) for number in range(len(colors)))
    areas = tuple(
        Area(((left, 0), (right, 0), (right, height), (left, height)), "fabric", letter, number)
        for number, (left, right) in enumerate(edges)
    )
    swatch = Swatch(letter, name, colors, "medium", hatch)
    return Scene(f"swatch-{letter}", width, height, areas, (swatch,), name, name)
