"""Drawings of a page whose colors a reader may choose: what colorways draw alike stands once, its colors by name.

In: for each view its colorway, what else it shows, and its drawings as SVG.
Out: the same drawings, a color that differs between colorways written as a name; the style that says what names mean.
Never: a drawing whose lines differ between colorways taken for one; such drawings stay as they are.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from patchwright.typesetting.web_drawings import Drawn

_COLOR = re.compile(r'(?<=(?:fill|roke)=")#[0-9A-Fa-f]{6}(?=")')
"""A color of an attribute that fills or strokes."""


@dataclass(frozen=True, slots=True)
class Shown:
    """The drawings of one view by name, alike named in all colorways."""

    colorway: str
    view: str
    """What the view shows, but for the colorway."""
    drawings: Mapping[str, Drawn]


@dataclass(slots=True)
class ColorNames:
    """Names of colors, by what color they are in each colorway."""

    colorways: tuple[str, ...]
    _names: dict[tuple[str, ...], str] = field(default_factory=dict)

    def name(self, colors: tuple[str, ...]) -> str:
        """The color itself where it is alike in all colorways, or the name that stands for it."""
        if len(set(colors)) == 1:
            return colors[0]
        return f"var({self._names.setdefault(colors, f'--c{len(self._names)}')})"

    def style(self) -> str:
        """What the names mean: the first colorway's colors, unless the page says that it shows another."""
        rules = []
        for place, colorway in enumerate(self.colorways):
            chosen = f'[data-color="{colorway}"]' if place else ""
            values = "".join(f"{name}:{colors[place]};" for colors, name in self._names.items())
            rules.append(f":root{chosen}{{{values}}}" if values else "")
        return "".join(rules)


def named_colors(views: Sequence[Shown]) -> tuple[list[dict[str, Drawn]], ColorNames]:
    """The drawings of every view with names for colors that differ between colorways."""
    names = ColorNames(tuple(dict.fromkeys(view.colorway for view in views)))
    made = [dict(view.drawings) for view in views]
    if len(names.colorways) == 1:
        return made, names
    by_view: dict[str, dict[str, int]] = {}
    for place, view in enumerate(views):
        by_view.setdefault(view.view, {}).setdefault(view.colorway, place)
    for places in by_view.values():
        first = places.get(names.colorways[0])
        for name in views[first].drawings if first is not None else ():
            own = {way: views[place].drawings[name] for way, place in places.items() if name in views[place].drawings}
            for way, drawing in _named(own, names).items():
                made[places[way]][name] = drawing
    return made, names


def _named(own: Mapping[str, Drawn], names: ColorNames) -> dict[str, Drawn]:
    """One drawing of each colorway; those that differ from the first one's in colors alone become equal to it."""
    first = own[names.colorways[0]]
    shape = _shape(first)
    colors = {way: _COLOR.findall(drawing.inside) for way, drawing in own.items() if _shape(drawing) == shape}
    usual = colors[names.colorways[0]]
    if len(colors) == 1:
        return {}
    slots = [
        names.name(tuple(colors.get(way, usual)[slot] for way in names.colorways)) for slot in range(len(usual))
    ]
    parts = _COLOR.split(first.inside)
    inside = parts[0] + "".join(name + part for name, part in zip(slots, parts[1:], strict=True))
    return {way: replace(first, inside=inside) for way in colors}


def _shape(drawing: Drawn) -> str:
    """A drawing without its colors."""
    return _COLOR.sub("", drawing.key)
