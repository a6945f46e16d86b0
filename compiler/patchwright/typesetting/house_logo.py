"""The house's logo: read from a drawing or a picture, checked, and shown as a drawing is.

In: the bytes of an SVG, PNG or JPEG file that a house names.
Out: the logo, written anew, and a scene in which it stands.
Never: an element or a value of the file that is not known to be a plain shape: no script, style sheet, text, link,
picture or reference gets into a booklet.
"""

from __future__ import annotations

import base64
import io
import re
import warnings
from collections.abc import Iterator
from dataclasses import dataclass
from xml.etree import ElementTree
from xml.sax.saxutils import quoteattr

from patchwright.core.theme import POINTS_PER_INCH
from patchwright.diagrams.scene import Scene

SCENE = "house-logo"
LARGEST_FILE = 2 << 20
"""Bytes of the file."""
MOST_SHAPES = 2000
LARGEST_DRAWING = 256 << 10
"""Characters of a drawing as it is written anew, since every booklet has it."""
LARGEST_PIXELS = 20_000_000
MOST_PIXELS = 800
"""Of the longer side as it is kept: more than 300 to the inch at the size that themes give it."""
LEAST_PIXELS = 100
_DEEPEST = 40
_SVG = "{http://www.w3.org/2000/svg}"
_SHAPES = ("path", "rect", "circle", "ellipse", "line", "polyline", "polygon")
_SILENT = ("title", "desc", "metadata", "defs", "namedview")
"""Elements that are left out: what programs note beside a drawing. `defs` holds only what is referred to."""
_PLAIN = re.compile(r"[-+.,%()#\sA-Za-z0-9]*")
_NUMBERS = re.compile(r"\s*([-+]?\d*\.?\d+(?:[eE][-+]?\d+)?)\s*(?:px|pt)?\s*")
_GEOMETRY = frozenset(("d", "x", "y", "width", "height", "rx", "ry", "r", "cx", "cy", "x1", "x2", "y1", "y2", "points"))
_PAINT = frozenset((
    "fill", "fill-rule", "fill-opacity", "stroke", "stroke-width", "stroke-linecap", "stroke-linejoin",
    "stroke-miterlimit", "stroke-dasharray", "stroke-dashoffset", "stroke-opacity", "opacity", "transform",
))
_HIDING = frozenset(("clip-path", "mask", "filter"))
_SAVE_PLAIN = "save it as plain SVG with shapes in flat colors and letters as outlines, or as PNG"
_SAVE = "save it as SVG, PNG or JPEG"


class LogoError(Exception):
    """A file that cannot be a logo; its message says why, `hint` what would work."""

    def __init__(self, reason: str, hint: str) -> None:
        super().__init__(reason)
        self.hint = hint


@dataclass(frozen=True, slots=True)
class Logo:
    """A logo as it is printed: shapes, or a picture, in a frame of its own units."""

    shapes: str
    """SVG elements, empty for a picture."""
    picture: bytes
    """A PNG, empty for shapes."""
    frame: tuple[float, float, float, float]
    """Left, top, width and height."""
    words: str


def read_logo(content: bytes, words: str) -> Logo:
    """Check a file and write it anew; raise `LogoError` where it is no logo that is safe and small enough."""
    if len(content) > LARGEST_FILE:
        raise LogoError(f"the file is larger than {LARGEST_FILE >> 20} megabytes", _SAVE + ", smaller")
    start = content[:400].lstrip(b"\xef\xbb\xbf \t\r\n").lower()
    read = _read_shapes if start.startswith((b"<?xml", b"<svg", b"<!")) else _read_picture
    return read(content, words)


def logo_scene(logo: Logo, room: tuple[float, float]) -> Scene:
    """A scene as large as fits the room, in inches."""
    width, height = logo.frame[2], logo.frame[3]
    scale = min(room[0] / width, room[1] / height)
    return Scene(SCENE, width * scale, height * scale, (), (), logo.words, logo.words)


def logo_body(logo: Logo, scene: Scene) -> str:
    """What stands in the drawing, whose unit is the point."""
    left, top, width, _ = logo.frame
    wide, high = (f"{side * POINTS_PER_INCH:.2f}" for side in (scene.width, scene.height))
    if logo.picture:
        data = base64.b64encode(logo.picture).decode("ascii")
        return (
            f'<image width="{wide}" height="{high}" preserveAspectRatio="none" href="data:image/png;base64,{data}"/>'
        )
    scale = scene.width * POINTS_PER_INCH / width
    return f'<g transform="scale({scale:.6g}) translate({-left:.6g} {-top:.6g})">{logo.shapes}</g>'


def _read_picture(content: bytes, words: str) -> Logo:
    """A picture's pixels, clear where the file is clear."""
    from PIL import Image, ImageOps

    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            picture = Image.open(io.BytesIO(content), formats=("PNG", "JPEG"))
            if picture.width * picture.height > LARGEST_PIXELS:
                raise LogoError(f"the picture has {picture.width} x {picture.height} pixels", _SAVE + ", smaller")
            flat = Image.new("RGBA", (upright := ImageOps.exif_transpose(picture)).size)
            flat.paste(upright.convert("RGBA"))
    except LogoError:
        raise
    except Exception as fault:
        raise LogoError("the file is no drawing and no picture that can be read", _SAVE) from fault
    if max(flat.size) < LEAST_PIXELS:
        wanted = f"take one with at least {LEAST_PIXELS} pixels on its longer side, better {MOST_PIXELS}"
        raise LogoError(f"the picture has only {flat.width} x {flat.height} pixels", wanted)
    _check_shape(flat.width, flat.height)
    flat.thumbnail((MOST_PIXELS, MOST_PIXELS))
    made = io.BytesIO()
    flat.save(made, "PNG", optimize=True)
    return Logo("", made.getvalue(), (0, 0, flat.width, flat.height), words)


def _read_shapes(content: bytes, words: str) -> Logo:
    """A drawing's plain shapes."""
    if b"<!doctype" in content.lower() or b"<!entity" in content.lower():
        raise LogoError("the drawing declares a document type, which could hold anything", _SAVE_PLAIN)
    try:
        root = ElementTree.fromstring(content)
    except Exception as fault:
        raise LogoError("the drawing is not well formed", _SAVE_PLAIN) from fault
    if root.tag != f"{_SVG}svg":
        raise LogoError("the file is no SVG", _SAVE)
    frame = _frame(root)
    shapes = "".join(_written(root, 0, [0]))
    if not shapes:
        raise LogoError("the drawing has no shapes", _SAVE_PLAIN)
    shapes = f"<g{_attributes(root, _PAINT)}>{shapes}</g>"
    if len(shapes) > LARGEST_DRAWING:
        raise LogoError("the drawing has too many points", "simplify it, or save it as PNG")
    return Logo(shapes, b"", frame, words)


def _frame(root: ElementTree.Element) -> tuple[float, float, float, float]:
    """The part of the drawing that is shown: its `viewBox`, or its width and height."""
    words = root.get("viewBox", "").replace(",", " ").split()
    if not words:
        words = ["0", "0", root.get("width", ""), root.get("height", "")]
    found = [_NUMBERS.fullmatch(word) for word in words]
    sides = [float(one[1]) for one in found if one is not None]
    if len(sides) != 4 or len(found) != 4 or min(sides[2:]) <= 0 or max(map(abs, sides)) > 1e6:
        raise LogoError("the drawing does not say how large it is", "give it a `viewBox`")
    _check_shape(sides[2], sides[3])
    return sides[0], sides[1], sides[2], sides[3]


def _check_shape(width: float, height: float) -> None:
    if not 1 / 12 <= width / height <= 12:
        raise LogoError("the logo is more than twelve times as long as it is high, or the other way", "crop it")


def _written(element: ElementTree.Element, depth: int, count: list[int]) -> Iterator[str]:
    """The shapes below an element, each with what it says of its own look."""
    if depth > _DEEPEST:
        raise LogoError("the drawing has groups within groups beyond reason", _SAVE_PLAIN)
    for one in element:
        space, _, name = str(one.tag).rpartition("}")
        if name in _SILENT or (space and space != _SVG[:-1]):
            continue
        count[0] += 1
        if count[0] > MOST_SHAPES:
            raise LogoError(f"the drawing has more than {MOST_SHAPES} shapes", "simplify it, or save it as PNG")
        if name == "g":
            yield f"<g{_attributes(one, _PAINT)}>{''.join(_written(one, depth + 1, count))}</g>"
        elif name in _SHAPES:
            yield f"<{name}{_attributes(one, _PAINT | _GEOMETRY)}/>"
        else:
            raise LogoError(f"the drawing holds `{name[:30]}`", _SAVE_PLAIN)


def _attributes(element: ElementTree.Element, known: frozenset[str]) -> str:
    """The known ones, those of `style` among them; what refers to something else is refused."""
    given = {name: value for name, value in element.attrib.items() if name in known}
    styled = {name.strip(): value.strip() for name, _, value in (
        part.partition(":") for part in element.get("style", "").split(";")
    )}
    given |= {name: value for name, value in styled.items() if name in known & _PAINT}
    if not _HIDING.isdisjoint(element.keys() | styled.keys()):
        raise LogoError("a shape is cut out, masked or blurred by something else", _SAVE_PLAIN)
    for name, value in given.items():
        if not _PLAIN.fullmatch(value) or "url" in value.lower():
            raise LogoError(f"`{name}` of a shape refers to something else, as gradients do", _SAVE_PLAIN)
    if element.get("class") is not None or any(name.startswith("on") for name in element.attrib):
        raise LogoError("the drawing has a style sheet or a script", _SAVE_PLAIN)
    return "".join(f" {name}={quoteattr(value)}" for name, value in sorted(given.items()))
