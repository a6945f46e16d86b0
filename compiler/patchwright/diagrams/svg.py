"""Scene → SVG text, in real units, for pages, screens and single pictures alike.

In: a finished scene and the look of a theme.
Out: one `<svg>` element with title and description; one filled path per cloth, print and side, one hatch per cloth.
Never: patterns, clip paths, styles or scripts; renderers differ in them. Nothing is moved, scaled or chosen here.
"""

from __future__ import annotations

import re
from array import array
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from functools import lru_cache
from hashlib import blake2b
from math import hypot
from xml.sax.saxutils import escape, quoteattr

from patchwright.core.theme import POINTS_PER_INCH, Hatch, Stroke
from patchwright.diagrams.hatches import hatch_strokes
from patchwright.diagrams.look import Look
from patchwright.diagrams.scene import XY, Area, Label, Line, Scene, Swatch
from patchwright.diagrams.svg_layers import Layer, layers

_GRAIN = 100
"""Coordinates are written in hundredths of a point, a quarter of a thousandth of an inch at worst."""
_GRAINS_PER_INCH = POINTS_PER_INCH * _GRAIN
_DARK_CLOTH = 0.42
"""Cloth of a lower luminance than this is hatched in light ink, and its seams are paler than it is."""
_SEAM_PALENESS = 0.5
"""The share of white in the seams of dark cloth, so that a dark patch shows beside one of the same cloth."""

Grid = tuple[int, int]
"""A place in whole hundredths of a point, so that sums of written steps never drift."""


def write_svg(scene: Scene, look: Look, instance: str = "") -> str:
    """Write a scene; `instance` keeps ids apart where one document shows it twice."""
    return framed_svg(scene, svg_body(scene, look), instance)


def framed_svg(scene: Scene, body: str, instance: str = "") -> str:
    """The whole element around a body, with the scene's size, title and description."""
    name = re.sub(r"[^A-Za-z0-9_-]", "-", scene.id + instance)
    width, height = _number(_grid(scene.width)), _number(_grid(scene.height))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{_inches(scene.width)}in" height="{_inches(scene.height)}in"'
        f' viewBox="0 0 {width} {height}" role="img" aria-labelledby="{name}-title {name}-desc">'
        f'<title id="{name}-title">{escape(scene.title)}</title>'
        f'<desc id="{name}-desc">{escape(scene.description)}</desc>{body}</svg>'
    )


def svg_body(scene: Scene, look: Look) -> str:
    """What is drawn, without the element around it."""
    swatches = {swatch.letter: swatch for swatch in scene.swatches}
    return "".join(part for layer in layers(scene.items) for part in _layer(layer, swatches, look))


def _layer(layer: Layer, swatches: dict[str, Swatch], look: Look) -> Iterator[str]:
    yield from _areas(layer.areas, swatches, look)
    yield from _hatches(layer.areas, swatches, look)
    yield from _lines(layer.lines, look)
    for label in layer.labels:
        yield from _label(label, look)


def _areas(areas: Iterable[Area], swatches: dict[str, Swatch], look: Look) -> Iterator[str]:
    """One path for all areas of one cloth, color and outline."""
    groups: dict[tuple[str, str, str], list[Area]] = {}
    for area in areas:
        groups.setdefault((area.fabric, _fill(area, swatches, look), area.style), []).append(area)
    for (_, fill, style), group in groups.items():
        outlines = "".join([_closed(_places(area.outline)) for area in group])
        stroke = look.drawing.stroke(style)
        if style == "seam" and _luminance((fill,)) < _DARK_CLOTH:
            stroke = replace(stroke, color=_paled(fill, _SEAM_PALENESS))
        yield f'<path d="{outlines}" fill="{fill}"{_stroke(stroke)} stroke-linejoin="round"/>'


def _fill(area: Area, swatches: dict[str, Swatch], look: Look) -> str:
    if area.tone == "fabric":
        colors = swatches[area.fabric].colors
        color = colors[area.print % len(colors)]
        return _paled(color, look.drawing.wrong_side) if area.wrong_side else color
    if area.tone == "waste":
        return look.drawing.waste
    return look.drawing.highlight if area.tone == "highlight" else look.drawing.paper


_MOST_KNOWN = 2000
_known: dict[tuple[bytes, Hatch], str] = {}
"""Strokes that were written lately, by a digest of their outlines; in another colorway the same are asked for again."""


def _strokes(polygons: Sequence[Sequence[XY]], hatch: Hatch) -> str:
    """The strokes of a hatch over outlines, in points."""
    if not hatch.lines:
        return ""
    digest = blake2b(digest_size=20)
    for polygon in polygons:
        digest.update(array("d", [side for point in polygon for side in point]).tobytes() + b"|")
    key = (digest.digest(), hatch)
    if key not in _known:
        while len(_known) >= _MOST_KNOWN:
            del _known[next(iter(_known))]
        _known[key] = "".join([_segment(*stroke) for stroke in hatch_strokes(polygons, hatch)])
    return _known[key]


def _hatches(areas: Iterable[Area], swatches: dict[str, Swatch], look: Look) -> Iterator[str]:
    """One path of strokes for each cloth's right sides."""
    outlines: dict[str, list[Sequence[XY]]] = {}
    for area in areas:
        if area.tone == "fabric" and not area.wrong_side:
            scaled = [(x * POINTS_PER_INCH, y * POINTS_PER_INCH) for x, y in area.outline]
            outlines.setdefault(area.fabric, []).append(scaled)
    tokens = look.drawing
    for letter, polygons in outlines.items():
        swatch = swatches[letter]
        hatch = tokens.hatches[swatch.hatch % len(tokens.hatches)]
        strokes = _strokes(polygons, hatch)
        if strokes:
            ink = tokens.hatch_light if _luminance(swatch.colors) < _DARK_CLOTH else tokens.hatch_dark
            yield (
                f'<path d="{strokes}" fill="none" stroke="{ink}" stroke-width="{hatch.width:g}"'
                f' stroke-linecap="round" stroke-opacity="{tokens.hatch_strength:g}"/>'
            )


def _lines(lines: Iterable[Line], look: Look) -> Iterator[str]:
    """One path for all lines of one style, and one for their arrowheads."""
    groups: dict[str, list[Line]] = {}
    for line in lines:
        groups.setdefault(line.style, []).append(line)
    for style, group in groups.items():
        stroke = look.drawing.stroke(style)
        shafts, heads, backed = [], [], []
        for line in group:
            points, tips = _arrows(line, look)
            shafts.append(_open(_places(points)))
            heads.extend(tips)
            if line.over == "cloth":
                backed += [shafts[-1], *tips]
        if backed:
            yield _arrow_backing("".join(backed), stroke, look)
        yield f'<path d="{"".join(shafts)}" fill="none"{_stroke(stroke)} stroke-linejoin="round"/>'
        if heads:
            yield f'<path d="{"".join(heads)}" fill="{stroke.color}"/>'


def _arrow_backing(path: str, stroke: Stroke, look: Look) -> str:
    """A light edge around arrows over cloth."""
    width = stroke.width + look.drawing.backing_padding
    return (
        f'<path d="{path}" fill="none" stroke="{look.drawing.backing}" stroke-width="{width:g}"'
        f' stroke-opacity="{look.drawing.backing_strength:g}" stroke-linecap="round" stroke-linejoin="round"/>'
    )


def _arrows(line: Line, look: Look) -> tuple[tuple[XY, ...], list[str]]:
    """The line's points, shortened under its arrowheads, and the outlines of the heads."""
    points, heads = list(line.points), []
    for end in {"none": (), "end": (-1,), "both": (0, -1)}[line.arrow]:
        tip, tail = points[end], points[1 if end == 0 else -2]
        reach = hypot(tip[0] - tail[0], tip[1] - tail[1])
        if not reach:
            continue
        long = min(look.drawing.arrow_length / POINTS_PER_INCH, reach * 0.9)
        wide = long * look.drawing.arrow_width / look.drawing.arrow_length / 2
        ux, uy = (tip[0] - tail[0]) / reach, (tip[1] - tail[1]) / reach
        neck = (tip[0] - ux * long, tip[1] - uy * long)
        corners = (tip, (neck[0] - uy * wide, neck[1] + ux * wide), (neck[0] + uy * wide, neck[1] - ux * wide))
        heads.append(_closed(_places(corners)))
        points[end] = (tip[0] - ux * long * 0.8, tip[1] - uy * long * 0.8)
    return tuple(points), heads


def _label(label: Label, look: Look) -> Iterator[str]:
    """The text, its baseline set so that capitals and figures are centered, and the backing over cloth."""
    size = look.points(label.size)
    width = look.text_width(label.text, label.size, label.bold) * POINTS_PER_INCH
    height = look.text_height(label.size, label.bold) * POINTS_PER_INCH
    x, y = label.at[0] * POINTS_PER_INCH, label.at[1] * POINTS_PER_INCH
    turn = f' transform="rotate(-90 {_round(x)} {_round(y)})"' if label.turned else ""
    if label.over == "cloth":
        left = {"start": x, "middle": x - width / 2, "end": x - width}[label.anchor]
        yield _backing(left, y - height / 2, width, height, turn, look)
    anchor = "" if label.anchor == "start" else f' text-anchor="{label.anchor}"'
    weight = ' font-weight="700"' if label.bold else ""
    yield (
        f'<text x="{_round(x)}" y="{_round(y + height / 2)}" font-family={quoteattr(look.regular.family)}'
        f' font-size="{size:g}"{weight}{anchor} fill="{look.drawing.label}"{turn}>{escape(label.text)}</text>'
    )


def _backing(left: float, top: float, width: float, height: float, turn: str, look: Look) -> str:
    padding = look.drawing.backing_padding
    return (
        f'<rect x="{_round(left - padding)}" y="{_round(top - padding)}" width="{_round(width + 2 * padding)}"'
        f' height="{_round(height + 2 * padding)}" rx="{_round(padding)}" fill="{look.drawing.backing}"'
        f' fill-opacity="{look.drawing.backing_strength:g}"{turn}/>'
    )


def _stroke(stroke: Stroke) -> str:
    dash = f' stroke-dasharray="{" ".join(f"{part:g}" for part in stroke.dash)}"' if stroke.dash else ""
    cap = f' stroke-linecap="{stroke.cap}"' if stroke.cap != "butt" else ""
    return f' stroke="{stroke.color}" stroke-width="{stroke.width:g}"{dash}{cap}'


def _closed(points: list[Grid]) -> str:
    """A closed path; equal corners in a row, and a last one equal to the first, are left out."""
    while len(points) > 1 and points[-1] == points[0]:
        points = points[:-1]
    return _open(points) + "z"


def _open(points: list[Grid]) -> str:
    """A path in short relative steps."""
    x, y = points[0]
    parts = [f"M{_number(x)} {_number(y)}"]
    for next_x, next_y in points[1:]:
        dx, dy = next_x - x, next_y - y
        if not dy:
            parts.append(f"h{_number(dx)}" if dx else "")
        else:
            parts.append(f"l{_number(dx)} {_number(dy)}" if dx else f"v{_number(dy)}")
        x, y = next_x, next_y
    return "".join(parts)


def _segment(x: float, y: float, to_x: float, to_y: float) -> str:
    from_x, from_y = round(x * _GRAIN), round(y * _GRAIN)
    step_x, step_y = round(to_x * _GRAIN) - from_x, round(to_y * _GRAIN) - from_y
    return f"M{_number(from_x)} {_number(from_y)}l{_number(step_x)} {_number(step_y)}"


def _places(points: Iterable[XY]) -> list[Grid]:
    return [(round(x * _GRAINS_PER_INCH), round(y * _GRAINS_PER_INCH)) for x, y in points]


def _grid(inches: float) -> int:
    return round(inches * _GRAINS_PER_INCH)


@lru_cache(maxsize=1 << 16)
def _number(hundredths: int) -> str:
    """The shortest text of a number of hundredths."""
    whole, rest = divmod(abs(hundredths), _GRAIN)
    sign = "-" if hundredths < 0 else ""
    if not rest:
        return f"{sign}{whole}"
    return f"{sign}{whole or ''}.{rest:02d}".rstrip("0")


def _round(points: float) -> str:
    return _number(round(points * _GRAIN))


def _inches(value: float) -> str:
    return f"{value:.4f}".rstrip("0").rstrip(".")


def _paled(color: str, share: float) -> str:
    """A color mixed with white."""
    parts = (int(color[place : place + 2], 16) for place in (1, 3, 5))
    return "#" + "".join(f"{round(part + (255 - part) * share):02x}" for part in parts)


def _luminance(colors: Sequence[str]) -> float:
    """The mean relative lightness of colors, 0 to 1, by the eye's weights for red, green and blue."""
    total = 0.0
    for color in colors:
        red, green, blue = (int(color[place : place + 2], 16) / 255 for place in (1, 3, 5))
        total += 0.2126 * red + 0.7152 * green + 0.0722 * blue
    return total / len(colors)
