"""Templates: text with holes `{name}` and choices `{name|one strip|{name} strips}`, nested as deep as needed.

In: a template's text.
Out: a tuple of runs of text, holes and choices.
Never: a condition other than a number's form, nor a call; whoever wants another sentence uses another key.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

_NAME = re.compile(r"[a-z][a-z0-9_-]*")


class WordingError(LookupError):
    """A key, a value or a form that the wording lacks, or a template that cannot be read."""


@dataclass(frozen=True, slots=True)
class Hole:
    """The place of a value."""

    name: str


@dataclass(frozen=True, slots=True)
class Choice:
    """Forms of which the number in `name` chooses one."""

    name: str
    forms: tuple[Template, ...]


Template = tuple[str | Hole | Choice, ...]


def parse_template(key: str, text: str) -> Template:
    """Read a template; `key` names it in errors."""
    template, end = _sequence(key, text, 0, "")
    if end != len(text):
        raise WordingError(f"`{key}` has a `}}` without its `{{`")
    return template


def hole_names(template: Template) -> frozenset[str]:
    """The names of all values that the template may ask for."""
    names: set[str] = set()
    for part in template:
        if isinstance(part, Hole):
            names.add(part.name)
        elif isinstance(part, Choice):
            names.add(part.name)
            for form in part.forms:
                names |= hole_names(form)
    return frozenset(names)


def _sequence(key: str, text: str, start: int, stops: str) -> tuple[Template, int]:
    """Parts from `start` up to one of `stops` (or a stray closing brace), and where that stands."""
    parts: list[str | Hole | Choice] = []
    position = start
    while position < len(text) and text[position] not in stops and text[position] != "}":
        if text[position] == "{":
            part, position = _braced(key, text, position)
            parts.append(part)
            continue
        end = position
        while end < len(text) and text[end] not in stops and text[end] not in "{}":
            end += 1
        parts.append(text[position:end])
        position = end
    return tuple(parts), position


def _braced(key: str, text: str, start: int) -> tuple[Hole | Choice, int]:
    match = _NAME.match(text, start + 1)
    if match is None:
        raise WordingError(f"`{key}` has a `{{` without a name")
    name, position = match[0], match.end()
    forms: list[Template] = []
    while text[position : position + 1] == "|":
        form, position = _sequence(key, text, position + 1, "|")
        forms.append(form)
    if text[position : position + 1] != "}":
        raise WordingError(f"`{key}` does not close `{{{name}`")
    return (Choice(name, tuple(forms)) if forms else Hole(name)), position + 1
