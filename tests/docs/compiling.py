"""Compiles the examples of documents by the way that the command line takes."""

from __future__ import annotations

from pathlib import Path

from patchwright import driver
from patchwright.files import find_patterns


def compiled(text: str, folder: Path, name: str = "small-sail.yaml", house: str = "") -> driver.Compiled:
    """A pattern's text in a folder of its own, with a house file where one is given, as far as its plan."""
    if house:
        (folder / "house.yaml").write_text(house, encoding="utf-8")
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return driver.compile_project(find_patterns((path,))[0], "plain")


def said(result: driver.Compiled) -> list[str]:
    """What is wrong, one line each."""
    return [f"{item.span.line}: {item.severity}[{item.code}]: {item.message}" for item in result.diagnostics]
