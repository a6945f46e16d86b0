"""Checks that the cautions of the trade and of public guidance stand in a composed booklet."""

from __future__ import annotations

from dataclasses import fields, is_dataclass
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

from patchwright import driver
from patchwright.files import find_patterns
from planning.compiling import sample
from published.values import Row, checks

STATED: dict[str, tuple[str, ...]] = {
    "safe-rotary-1": ("close the blade after every cut", "never lay the cutter down open"),
    "safe-rotary-2": ("away from your body", "ruler", "mat"),
    "safe-rotary-3": ("shoes", "children"),
    "safe-rotary-4": ("young people", "adult"),
    "safe-rotary-5": ("away from children", "store it closed"),
    "safe-iron-1": ("cord out of children’s reach", "hot or cooling", "never leave it face down"),
    "safe-iron-2": ("unplug the iron when it is not in use",),
    "safe-crib-1": ("quilts, comforters, pillows and other loose bedding", "under 12 months"),
    "safe-crib-2": ("firm, flat mattress", "fitted sheet"),
    "safe-crib-3": ("nothing else on it", "current safe-sleep guidance"),
    "print-scale": ("100 %", "measure"),
}
"""Words of the booklet's text, in small letters, that make the statement of a row."""


@cache
def booklet_text(size: str) -> str:
    """All text of the booklet of a pattern in this one size, in small letters."""
    with TemporaryDirectory() as folder:
        pattern = Path(folder) / "cautions.yaml"
        pattern.write_text(sample(f"sizes: {{{size}: {{across: 2, down: 2}}}}\n"), encoding="utf-8")
        compiled = driver.compile_project(find_patterns((pattern,))[0], "plain")
        assert compiled.plan is not None
        theme, _ = driver.load_project_theme(compiled.project, compiled.plan.rules.theme)
    assert theme is not None
    request = driver.BuildRequest(editions=("all-sizes",))
    booklets = driver.compose(compiled.plan, theme, request)
    return " ".join(" ".join(_texts(booklets[0][1])).split()).lower()


def _texts(value: object) -> list[str]:
    if isinstance(value, str):
        return [value]
    if isinstance(value, tuple | list):
        return [text for item in value for text in _texts(item)]
    if is_dataclass(value):
        return [text for field in fields(value) for text in _texts(getattr(value, field.name))]
    return []


@checks(*STATED)
def statement_is_there(row: Row) -> None:
    text = booklet_text("crib").replace("\u00a0", " ")
    missing = [words for words in STATED[row.id] if words not in text]
    assert not missing
