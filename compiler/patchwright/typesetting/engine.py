"""The page engine behind a small interface: a template and data in, a PDF out.

In: a theme's page template, and a booklet as data.
Out: the bytes of a tagged PDF.
Never: a font of this machine, a file, a package from a network, or a warning passed over.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any, Protocol

from patchwright.typesetting.faults import PageEngineError

STANDARD = "ua-1"
_EPOCH = 0
"""The moment that a PDF claims to be from; a real one would change its bytes."""
_NO_PACKAGES = Path("/nonexistent/patchwright")
"""Where packages would be looked up and kept: a folder that cannot be."""

_PLACE = re.compile(r"\.typ:(\d+):(\d+)")


class PageEngine(Protocol):
    """Composes pages."""

    def compose(self, template: str, data: str) -> bytes:
        """Return a PDF of `template` fed with `data` (JSON text); raise `PageEngineError` on errors and warnings."""

    def picture(self, template: str, data: str, pixels_per_inch: float) -> bytes:
        """Return a PNG of the one page of `template` fed with `data`; raise `PageEngineError` as `compose` does."""


class TypstEngine:
    """Typst, with nothing but the fonts of the given folders."""

    def __init__(self, font_folders: tuple[Path, ...]) -> None:
        self._compiler: Callable[[], Any] = cache(lambda: _compiler(font_folders))

    def compose(self, template: str, data: str) -> bytes:
        return self._made(template, data, format="pdf", pdf_standards=[STANDARD], timestamp=_EPOCH)

    def picture(self, template: str, data: str, pixels_per_inch: float) -> bytes:
        return self._made(template, data, format="png", ppi=pixels_per_inch)

    def _made(self, template: str, data: str, **options: Any) -> bytes:
        import typst

        try:
            made, warnings = self._compiler().compile_with_warnings(
                input=template.encode("utf-8"), sys_inputs={"data": data}, **options
            )
        except typst.TypstError as error:
            raise PageEngineError(_explained(error)) from error
        if warnings:
            raise PageEngineError("; ".join(_explained(warning) for warning in warnings))
        if not isinstance(made, bytes):
            raise PageEngineError("the page engine returned no document")
        return made


def _compiler(font_folders: tuple[Path, ...]) -> Any:
    import typst

    fonts = typst.Fonts(
        include_system_fonts=False,
        include_embedded_fonts=False,
        font_paths=[str(folder) for folder in font_folders],
    )
    # The engine wants a root that exists. A font package holds nothing but its fonts and their license.
    return typst.Compiler(
        root=font_folders[0], font_paths=fonts, package_path=_NO_PACKAGES, package_cache_path=_NO_PACKAGES
    )


def _explained(report: Any) -> str:
    """An engine's message with its place in the template and its hints."""
    place = _PLACE.search(report.diagnostic)
    where = f"line {place[1]}, column {place[2]} of the page template: " if place else ""
    hints = "".join(f" ({hint})" for hint in report.hints)
    return f"{where}{report.message}{hints}"
