"""Sizes of the pages of a booklet that was really written, on both papers."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

from pypdf import PdfReader

from patchwright.driver import BuildRequest, build_project
from patchwright.files import find_patterns
from planning.compiling import sample


@cache
def page_sizes() -> dict[str, tuple[float, float]]:
    """Width and height in points by paper; every page of a booklet is alike."""
    with TemporaryDirectory() as folder:
        pattern = Path(folder) / "pages.yaml"
        pattern.write_text(sample(), encoding="utf-8")
        request = BuildRequest(editions=("all-sizes",), out=Path(folder) / "out")
        built = build_project(find_patterns((pattern,))[0], request)
        made = {}
        for name, _ in built.pages:
            paper = name.removesuffix(".pdf").rpartition("-")[2]
            sizes = {
                (float(page.mediabox.width), float(page.mediabox.height))
                for page in PdfReader(built.folder / name).pages
            }
            made[paper] = sizes.pop()
            if sizes:
                raise ValueError(f"pages of {name} differ in size")
        return made
