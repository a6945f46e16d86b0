"""Booklets' content: plan, figures and words become a Booklet, one module for each section.

`make_booklet` is the way in; `EDITIONS` says which booklets there are.
What is named here is imported when it is first used, since checking a pattern needs almost none of it.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from patchwright.typesetting.content.editions import EDITIONS, Edition
    from patchwright.typesetting.content.make import make_booklet
    from patchwright.typesetting.content.plain import to_text
    from patchwright.typesetting.content.prose import ProseFault, parse_prose
    from patchwright.typesetting.content.values import UnknownValue, fill

__all__ = [
    "EDITIONS",
    "Edition",
    "ProseFault",
    "UnknownValue",
    "fill",
    "make_booklet",
    "parse_prose",
    "to_text",
]
_HOMES = {
    "EDITIONS": "editions",
    "Edition": "editions",
    "ProseFault": "prose",
    "UnknownValue": "values",
    "fill": "values",
    "make_booklet": "make",
    "parse_prose": "prose",
    "to_text": "plain",
}


def __getattr__(name: str) -> Any:
    if name not in _HOMES:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(f"{__name__}.{_HOMES[name]}"), name)
