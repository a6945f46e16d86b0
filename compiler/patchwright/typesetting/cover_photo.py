"""A photograph for the cover: checked, made no larger than print needs, and shown as a drawing is.

In: the bytes of a file that a pattern names.
Out: a picture, written anew, and a scene in which it stands.
Never: anything of the file but its pixels: no place, no camera, no preview, no color profile.
"""

from __future__ import annotations

import base64
import io
import warnings
from dataclasses import dataclass, replace

from patchwright.core.theme import POINTS_PER_INCH
from patchwright.diagrams.scene import Scene

LARGEST_PIXELS = 80_000_000
"""Width times height; more would take too much memory to open."""
MOST_PIXELS = 2100
"""Of the longer side as it is kept: 300 to the inch over seven inches."""
LEAST_PIXELS = 300
"""Of the longer side; a smaller picture shows its pixels in print."""
FORMATS = ("JPEG", "PNG")
SCENE = "photograph"
_SMALLER = f"save it with {MOST_PIXELS} pixels on its longer side; more is not printed"
_QUALITY = 88


class PhotoError(Exception):
    """A file that cannot stand on a cover; its message says why, `hint` what would work."""

    def __init__(self, reason: str, hint: str) -> None:
        super().__init__(reason)
        self.hint = hint


@dataclass(frozen=True, slots=True)
class Photo:
    """A photograph as it is printed."""

    jpeg: bytes
    width: int
    height: int
    """In pixels."""
    words: str


def read_photo(content: bytes, words: str) -> Photo:
    """Check and write anew; raise `PhotoError` where it is no photograph, or too large or small a one."""
    from PIL import Image, ImageOps

    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            picture = Image.open(io.BytesIO(content), formats=FORMATS)
            if picture.width * picture.height > LARGEST_PIXELS:
                raise PhotoError(
                    f"the photograph has {picture.width} x {picture.height} pixels",
                    _SMALLER,
                )
            picture.draft("RGB", (MOST_PIXELS, MOST_PIXELS))
            upright = ImageOps.exif_transpose(picture)
            flat = Image.new("RGB", upright.size, "white")
            layered = upright.convert("RGBA")
            flat.paste(layered, mask=layered)
    except PhotoError:
        raise
    except Image.DecompressionBombError as fault:
        raise PhotoError("the photograph has far too many pixels", _SMALLER) from fault
    except Exception as fault:
        hint = "save it as JPEG or PNG in a program for pictures"
        raise PhotoError("the file is no photograph that can be read", hint) from fault
    if max(flat.size) < LEAST_PIXELS:
        raise PhotoError(
            f"the photograph has only {flat.width} x {flat.height} pixels",
            f"take one with at least {LEAST_PIXELS} pixels on its longer side, better {MOST_PIXELS}",
        )
    flat.thumbnail((MOST_PIXELS, MOST_PIXELS))
    made = io.BytesIO()
    flat.save(made, "JPEG", quality=_QUALITY)
    return Photo(made.getvalue(), flat.width, flat.height, words)


def photo_scene(photo: Photo, room: tuple[float, float], like: Scene) -> Scene:
    """A scene for the photograph, as large as fits the room, in inches, and at least 100 pixels to the inch."""
    scale = min(room[0] / photo.width, room[1] / photo.height, 1 / 100)
    width, height = photo.width * scale, photo.height * scale
    return replace(like, id=SCENE, width=width, height=height, items=(), title=photo.words, description=photo.words)


def photo_body(photo: Photo, scene: Scene) -> str:
    """What stands in the drawing, whose unit is the point: the picture itself."""
    width, height = (f"{side * POINTS_PER_INCH:.2f}" for side in (scene.width, scene.height))
    data = base64.b64encode(photo.jpeg).decode("ascii")
    return (
        f'<image width="{width}" height="{height}" preserveAspectRatio="none"'
        f' href="data:image/jpeg;base64,{data}"/>'
    )
