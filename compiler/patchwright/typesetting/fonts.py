"""The static faces of the font packages that a theme names: their files and metrics.

In: the slug of an installed font package.
Out: folders for the page engine, files to subset for the web, metrics as plain types.
Never: a font of this machine, and never a variable font.
"""

from __future__ import annotations

import importlib.util
import io
import json
import re
from functools import cache
from pathlib import Path
from typing import Any

from patchwright.core.theme import FontMetrics, Typeface

_SLUG = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")


class FontMissingError(Exception):
    """A font package that a theme names is not installed, or lacks a face."""

    def __init__(self, package: str, reason: str) -> None:
        super().__init__(f"the font package `{package}` cannot be used: {reason}")
        self.package = package


@cache
def face_file(package: str, bold: bool = False, italic: bool = False) -> Path:
    """The file of one static face of a package, by the package's own list."""
    folder = font_folder(package)
    listed = json.loads((folder / "metadata.json").read_text(encoding="utf-8"))["files"]
    wanted = (700 if bold else 400, "italic" if italic else "normal", False)
    for entry in listed:
        if (entry["weight"], entry["style"], entry["variable"]) == wanted:
            return folder / str(entry["path"])
    raise FontMissingError(package, f"it has no static face of weight {wanted[0]}, style {wanted[1]}")


@cache
def font_folder(package: str) -> Path:
    """The folder of an installed font package, named by its slug."""
    module = f"fontpkg_{package.replace('-', '_')}"
    found = importlib.util.find_spec(module) if _SLUG.fullmatch(package) else None
    if found is None or not found.submodule_search_locations:
        raise FontMissingError(package, f"`fontpkg-{package}` is not installed")
    return Path(found.submodule_search_locations[0])


@cache
def face_metrics(face: Typeface, bold: bool = False, italic: bool = False) -> FontMetrics:
    """Metrics of one face, read once in a process."""
    font = open_font(face_file(face.package, bold, italic))
    widths = font["hmtx"].metrics
    return FontMetrics(
        family=face.family,
        units_per_em=font["head"].unitsPerEm,
        ascent=font["hhea"].ascent,
        descent=-font["hhea"].descent,
        cap_height=font["OS/2"].sCapHeight,
        advances={code: widths[name][0] for code, name in font.getBestCmap().items()},
    )


def open_font(file: Path) -> Any:
    """A font file, its tables read when they are asked for."""
    from fontTools.ttLib import TTFont

    return TTFont(io.BytesIO(file.read_bytes()), lazy=True)
