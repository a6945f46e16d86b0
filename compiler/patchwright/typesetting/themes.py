"""A theme's files → `Theme`: tokens, the look of drawings, and the templates of both writers.

In: the theme's name and a function that reads its files.
Out: the theme, or everything that is wrong with it as values.
Never: a theme's name in code; a file read from outside what the reader offers; a page template that could reach one.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

from patchwright.core.source import Span
from patchwright.core.theme import TokenMistake, Tokens
from patchwright.diagrams.look import Look
from patchwright.typesetting.fonts import FontMissingError, face_metrics
from patchwright.typesetting.tokens import FACES, read_tokens

Read = Callable[[str], bytes | None]
"""Gives the bytes of a file such as `harbor/theme.yaml`, or None where there is none."""

TOKENS_FILE = "theme.yaml"
PAGE_FILE = "booklet.typ"
WEB_FILE = "booklet.html.jinja"
STYLE_FILE = "style.css"
STRUCTURE_FILE = "page.css"
SCRIPT_FILE = "script.js"
CATALOGUE_FILE = "catalogue.html.jinja"
CATALOGUE_SCRIPT_FILE = "catalogue.js"
SHARED = "shared"
"""The folder of files that all themes share; a theme with a file of the same name has its own."""
START_FILE = "start.typ"
LAYOUT_FILE = "pages.typ"
SHARED_FILES = (
    WEB_FILE, STRUCTURE_FILE, SCRIPT_FILE, CATALOGUE_FILE, CATALOGUE_SCRIPT_FILE, START_FILE, LAYOUT_FILE,
)  # fmt: skip
PAGE_FILES = (START_FILE, PAGE_FILE, LAYOUT_FILE)
"""The page template, in this order: what all begin with, the theme's look, and the layout that uses it."""

THEME_NAME = re.compile(r"[a-z][a-z0-9]*(-[a-z0-9]+)*")
LARGEST_TEMPLATE = 256 * 1024

_FORBIDDEN = re.compile(r"(?<![\w-])(import|include|eval|plugin|std)(?![\w-])")
"""Words by which a page template could reach files or the network; refused even in its comments."""


@dataclass(frozen=True, slots=True)
class Theme:
    """The look of booklets and drawings."""

    name: str
    tokens: Tokens
    look: Look
    page_source: str
    web_template: str
    web_structure: str
    """The rules of style that all themes share; `web_style` follows them."""
    web_style: str
    web_script: str
    catalogue_template: str
    catalogue_script: str


def load_theme(name: str, read: Read) -> tuple[Theme | None, tuple[TokenMistake, ...]]:
    """Read and check a theme; it is None exactly if there are mistakes."""
    if not THEME_NAME.fullmatch(name) or read(f"{name}/{TOKENS_FILE}") is None:
        return None, (TokenMistake("unknown-theme", name, "a theme's name"),)
    mistakes: list[TokenMistake] = []
    files = {file: _text(f"{name}/{file}", read, mistakes) for file in (TOKENS_FILE, PAGE_FILE, STYLE_FILE)}
    files |= {file: _text(_own_or_shared(name, file, read), read, mistakes) for file in SHARED_FILES}
    for file in PAGE_FILES:
        mistakes.extend(_reaching_out(_own_or_shared(name, file, read), files[file]))
    tokens, wrong = read_tokens(files[TOKENS_FILE], f"{name}/{TOKENS_FILE}")
    mistakes.extend(wrong)
    look = _look(tokens, mistakes) if tokens else None
    if mistakes or tokens is None or look is None:
        return None, tuple(mistakes)
    return Theme(
        name, tokens, look, "\n".join(files[file] for file in PAGE_FILES), files[WEB_FILE], files[STRUCTURE_FILE],
        files[STYLE_FILE], files[SCRIPT_FILE], files[CATALOGUE_FILE], files[CATALOGUE_SCRIPT_FILE],
    ), ()  # fmt: skip


def _own_or_shared(name: str, file: str, read: Read) -> str:
    """The theme's file, or the one that all themes share."""
    own = f"{name}/{file}"
    return f"{SHARED}/{file}" if read(own) is None else own


def _text(path: str, read: Read, mistakes: list[TokenMistake]) -> str:
    """A file's text, or an empty one with a mistake noted."""
    content = read(path)
    if content is None:
        mistakes.append(TokenMistake("missing-file", path, "a file of the theme"))
        return ""
    if len(content) > LARGEST_TEMPLATE:
        mistakes.append(TokenMistake("unreadable", path, f"at most {LARGEST_TEMPLATE} bytes"))
        return ""
    try:
        return content.decode("utf-8")
    except UnicodeDecodeError:
        mistakes.append(TokenMistake("unreadable", path, "text in UTF-8"))
        return ""


def _reaching_out(path: str, source: str) -> list[TokenMistake]:
    """The places where a page template uses a word that could reach outside of what it is given."""
    mistakes = []
    for number, line in enumerate(source.splitlines(), 1):
        for match in _FORBIDDEN.finditer(line):
            span = Span(path, number, match.start() + 1, number, match.end() + 1)
            expected = "a template that reads nothing but the data it is given"
            mistakes.append(TokenMistake("wrong", path, expected, match[0], span))
    return mistakes


def _look(tokens: Tokens, mistakes: list[TokenMistake]) -> Look | None:
    """The look of drawings; fonts that are not installed are noted."""
    for key, face in zip(FACES, (tokens.text_face, tokens.label_face, tokens.display_face), strict=True):
        try:
            face_metrics(face)
            face_metrics(face, bold=True)
        except FontMissingError as error:
            mistakes.append(TokenMistake("wrong", f"fonts.{key}.package", "an installed font package", str(error)))
    if mistakes:
        return None
    label = tokens.label_face
    return Look(tokens.drawing, tokens.type, face_metrics(label), face_metrics(label, bold=True))
