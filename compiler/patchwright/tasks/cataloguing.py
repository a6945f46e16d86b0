"""The catalogue over an output folder: written anew after every build, from the cards that builds left there.

In: the patterns that were built, and where.
Out: `index.html` of the output folder, over all patterns that were ever built there.
Never: a page of another's replaced; an entry lost because this build was of other patterns.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from patchwright.core.packed import fingerprint
from patchwright.driver import BuildRequest
from patchwright.files import Project, built_cards, installed_themes, replace_own_file, theme_reader
from patchwright.remembering import Memory

if TYPE_CHECKING:
    from patchwright.typesetting.catalogue import Listed
    from patchwright.typesetting.themes import Theme

PAGE = "index.html"
OWN = '<meta name="generator" content="patchwright catalogue">'
"""By this a build knows a page that it may replace."""
CARD_ENDING = ".card.json"
Read = Callable[[str], bytes | None]


def write_catalogue_page(projects: Sequence[Project], request: BuildRequest) -> None:
    """Write the page, in the look and the language of the first pattern; raise FileTroubleError where it cannot."""
    found = built_cards(request.out, CARD_ENDING)
    if not found:
        return
    memory = Memory(request.out if request.remember else None)
    read = theme_reader(*dict.fromkeys(project.themes for project in projects), installed_themes())
    key = fingerprint(found, [(name, read(name)) for name in _theme_files(found, read)])
    text: str | None = memory.recall("catalogue", key)
    if text is None:
        text = _page(found, read)
        memory.keep("catalogue", key, text)
    if text:
        replace_own_file(request.out / PAGE, text.encode("utf-8"), OWN)


def _theme_files(found: Sequence[tuple[str, str, object]], read: Read) -> list[str]:
    """The files by which themes that cards name may change the page."""
    from patchwright.files import theme_names

    known = theme_names(installed_themes())
    names = [name for name in known if any(f'"theme": "{name}"' in text for _, text, _ in found)]
    endings = ("theme.yaml", "style.css", "page.css", "catalogue.html.jinja", "catalogue.js")
    return [f"{name}/{ending}" for name in ("shared", *names) for ending in endings]


def _page(found: Sequence[tuple[str, str, tuple[tuple[str, int], ...]]], read: Read) -> str:
    """The page over all folders whose card can be read; empty where there is none, or none of their themes."""
    from patchwright.typesetting.catalogue import CardError, Listed, read_card, write_catalogue
    from patchwright.wording import LANGUAGES, load_wording

    listed: list[Listed] = []
    for id, text, files in found:
        try:
            card = read_card(text)
        except CardError:
            continue
        if card.id == id:
            listed.append(Listed(card, files))
    theme = _theme(listed, read)
    if theme is None:
        return ""
    language = next((own.card.language for own in listed if own.card.language in LANGUAGES), LANGUAGES[0])
    return write_catalogue(listed, theme, load_wording(language))


def _theme(listed: Sequence[Listed], read: Read) -> Theme | None:
    """The first theme of the cards that can be had."""
    from patchwright.typesetting.themes import load_theme

    for name in dict.fromkeys(own.card.theme for own in listed):
        theme, _ = load_theme(name, read)
        if theme is not None:
            return theme
    return None
