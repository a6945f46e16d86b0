"""The catalogue: one web page over all built patterns, with their pictures, sizes and files.

In: a card for each pattern, which its build left beside its booklets, and the names of its files.
Out: cards as text; the page, which needs nothing else and fetches nothing.
Never: a plan or a booklet; what a page shows of a pattern is on its card.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Sequence
from dataclasses import asdict, dataclass, replace
from typing import Any

from patchwright.typesetting.booklet import FigureRow
from patchwright.typesetting.content.editions import EDITIONS
from patchwright.typesetting.drawings import Drawings
from patchwright.typesetting.faults import WebTemplateError
from patchwright.typesetting.themes import Theme
from patchwright.typesetting.web_drawings import drawn
from patchwright.typesetting.web_style import page_policy, page_style
from patchwright.typesetting.web_template import render
from patchwright.typesetting.web_views import View
from patchwright.wording import Wording

FORMAT = 2
MARK = "patchwright catalogue"
"""What the page says of itself, so that a build replaces no page of another's."""
_PICTURE = re.compile(r"(<(path|rect)( [a-z-]+=\"[^\"<>]*\")*/>|<text( [a-z-]+=\"[^\"<>]*\")*>[^<>]*</text>)*")
"""All that a drawing holds; a card may have been written by anyone."""


@dataclass(frozen=True, slots=True)
class Card:
    """What the catalogue shows of one pattern."""

    id: str
    title: str
    summary: str
    publisher: str
    language: str
    theme: str
    facts: tuple[tuple[str, str], ...]
    """Pairs such as ("Skill level", "confident beginner")."""
    sizes: tuple[tuple[str, str, str], ...]
    """(name, label, finished size) of every size."""
    picture: str
    """What the drawing of the quilt holds, as SVG."""
    box: str
    """Its measures, as attributes."""
    alt: str
    colorways: tuple[tuple[str, str, str, str, str], ...]
    """(name, label, picture, its measures, its description) of every colorway, where a reader may choose."""


@dataclass(frozen=True, slots=True)
class Listed:
    """A pattern with the files of its folder and their sizes in bytes."""

    card: Card
    files: tuple[tuple[str, int], ...]


class CardError(ValueError):
    """A text that is no card."""


def make_card(views: Sequence[View], theme: Theme, drawings: Drawings) -> Card:
    """The card of a pattern's web page; its picture is the plainest of its covers."""
    whole = views[0].booklet
    covers = [view.booklet.cover.figure.scene for view in views if view.edition == "whole" and not view.colorway]
    parts = [(scene, drawn(scene, drawings)) for scene in covers]
    scene, part = min(parts, key=lambda own: len(own[1].inside))
    names = [name for name, _ in whole.sizes]
    sizes = tuple((name, label, size) for name, (label, size) in zip(names, whole.cover.sizes, strict=True))
    return Card(
        whole.pattern, whole.title, whole.cover.summary, whole.cover.publisher, whole.language, theme.name,
        _facts(views), sizes, part.inside, part.box, f"{scene.title} {scene.description}",
        tuple(_colorways(views, drawings)),
    )  # fmt: skip


def _facts(views: Sequence[View]) -> tuple[tuple[str, str], ...]:
    """The cover's facts that hold in every colorway."""
    covers = [view.booklet.cover for view in views if view.edition == "whole" and not view.size]
    return tuple(fact for fact in covers[0].facts if all(fact in cover.facts for cover in covers))


def _colorways(views: Sequence[View], drawings: Drawings) -> Iterator[tuple[str, str, str, str, str]]:
    """The small picture of each colorway that the page shows, from its section on colorways."""
    labels = {view.colorway: view.colors for view in views}
    if len(labels) == 1:
        return
    rows = [block for section in views[0].booklet.sections if section.id == "colorways"
            for block in section.blocks if isinstance(block, FigureRow)]
    pictures = [figure.scene for row in rows for figure in row.figures]
    for (name, label), scene in zip(labels.items(), pictures, strict=True):
        part = drawn(scene, drawings)
        yield name, label, part.inside, part.box, f"{scene.title} {scene.description}"


def card_text(card: Card) -> str:
    """The card as it is kept."""
    return json.dumps({"format": FORMAT} | asdict(card), ensure_ascii=False, indent=1) + "\n"


def read_card(text: str) -> Card:
    """A card from its text; raise CardError where it is none."""
    try:
        loaded = json.loads(text)
    except (ValueError, RecursionError):
        raise CardError("this is no JSON") from None
    if not isinstance(loaded, dict) or loaded.pop("format", None) != FORMAT:
        raise CardError("this is no card")
    plain = {name: _plain(value) for name, value in loaded.items()}
    shapes = {"facts": 2, "sizes": 3, "colorways": 5}
    for field in Card.__dataclass_fields__:
        value = plain.get(field)
        width = shapes.get(field)
        if not (isinstance(value, str) if width is None else _are_texts(value, width)):
            raise CardError(f"`{field}` is missing or wrong")
    drawings = [(plain["picture"], plain["box"]), *((way[2], way[3]) for way in plain["colorways"])]
    if len(plain) != len(Card.__dataclass_fields__) or not all(_PICTURE.fullmatch(picture) for picture, _ in drawings):
        raise CardError("it holds what a card does not")
    if not all(re.fullmatch(r'viewBox="[0-9. ]+"', box) for _, box in drawings):
        raise CardError("its picture has no measures")
    return Card(**plain)


def write_catalogue(listed: Sequence[Listed], theme: Theme, wording: Wording) -> str:
    """The page, in the order of titles."""
    from markupsafe import Markup

    ordered = sorted(listed, key=lambda own: (own.card.title.casefold(), own.card.id))
    words = {key: wording.say(f"catalogue.{key}", count=len(listed)) for key in ("title", "count", "sizes", "files")}
    words["colorways"] = wording.say("section.colorways")
    words |= {key: wording.say(f"words.{key}") for key in ("look", "look-device", "look-light", "look-dark", "skip")}
    patterns = [_pattern(own, wording) for own in ordered]
    publishers = dict.fromkeys(own.card.publisher for own in ordered if own.card.publisher)
    style = page_style(theme, _texts((patterns, words, list(publishers))))
    policy = page_policy(style, theme.catalogue_script)
    text = render(
        theme.catalogue_template, patterns=patterns, words=words, publishers=list(publishers), policy=policy,
        language=wording.language, mark=MARK, style=Markup(style), script=Markup(theme.catalogue_script),
        several=len({own.card.publisher for own in ordered}) > 1,
    )  # fmt: skip
    mark = f'<meta name="generator" content="{MARK}">'
    for needed in (f'http-equiv="Content-Security-Policy" content="{Markup.escape(policy)}"', mark):
        if needed not in text:
            raise WebTemplateError("the theme's catalogue does not set the policy or the mark that it is given")
    return text


def _pattern(listed: Listed, wording: Wording) -> dict[str, Any]:
    """One pattern as the template sees it: its page, links to its sizes, and its PDF files."""
    from markupsafe import Markup

    card, names = listed.card, [name for name, _ in listed.files]
    page = f"{card.id}.html"
    made = asdict(replace(card, picture="", colorways=()))
    made["picture"] = Markup(card.picture)
    made["box"] = Markup(card.box)
    made["page"] = f"{card.id}/{page}" if page in names else ""
    made["sizes"] = [{"name": name, "label": label, "size": size} for name, label, size in card.sizes]
    made["colorways"] = [
        {"name": name, "label": label, "picture": Markup(picture), "box": Markup(box), "alt": alt}
        for name, label, picture, box, alt in card.colorways
    ]
    made["pdfs"] = [
        {"href": f"{card.id}/{name}", "label": _file_label(card, name, wording), "bytes": _bytes_text(size, wording)}
        for name, size in listed.files if name.endswith(".pdf")
    ]
    return made


def _file_label(card: Card, file: str, wording: Wording) -> str:
    """What a file holds, from its name: `Throw, large print, A4`; a name of another shape stands as it is."""
    rest = file.removeprefix(card.id).removesuffix(".pdf")
    labels = {f"-{paper}": wording.say(f"catalogue.paper.{paper}") for paper in ("letter", "a4")}
    editions = [name for name in (*EDITIONS, "pages") if wording.has(f"catalogue.edition.{name}")]
    labels |= {f"-{name}": wording.say(f"catalogue.edition.{name}") for name in editions}
    labels |= {f"-{name}": label for name, label, _ in card.sizes}
    labels |= {f"-size-{name}": label for name, label, _ in card.sizes}
    starts = sorted(labels, key=len, reverse=True)
    found: list[str] = []
    while rest:
        start = next((one for one in starts if f"{rest}-".startswith(f"{one}-")), "")
        if not start:
            return file
        found.append(labels[start])
        rest = rest[len(start) :]
    sizes = [label for _, label, _ in card.sizes]
    whole = [] if any(label in sizes for label in found) else [wording.say("words.all-sizes")]
    return wording.say("catalogue.parts-between").join([*whole, *found])


def _bytes_text(size: int, wording: Wording) -> str:
    """A file's size in whole kilobytes, or tenths of a megabyte, rounded up."""
    if size < 1_000_000:
        return wording.say("catalogue.kilobytes", number=-(-size // 1000))
    tenths = -(-size // 100_000)
    number = f"{tenths // 10}{wording.decimal_mark}{tenths % 10}"
    return wording.say("catalogue.megabytes", number=number)


def _texts(value: Any) -> frozenset[str]:
    if isinstance(value, str):
        return frozenset({value})
    if isinstance(value, dict):
        value = list(value.values())
    return frozenset().union(*map(_texts, value)) if isinstance(value, list | tuple) else frozenset()


def _plain(value: Any) -> Any:
    return tuple(map(_plain, value)) if isinstance(value, list) else value


def _are_texts(value: Any, width: int) -> bool:
    return isinstance(value, tuple) and all(
        isinstance(row, tuple) and len(row) == width and all(isinstance(cell, str) for cell in row) for row in value
    )
