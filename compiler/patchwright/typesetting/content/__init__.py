"""Booklets' content: plan, figures and words become a Booklet, one module for each section.

`make_booklet` is the way in; `EDITIONS` says which booklets there are.
"""

from patchwright.typesetting.content.editions import EDITIONS, Edition
from patchwright.typesetting.content.make import make_booklet
from patchwright.typesetting.content.plain import to_text
from patchwright.typesetting.content.prose import ProseFault, parse_prose
from patchwright.typesetting.content.values import UnknownValue, fill, value_names

__all__ = [
    "EDITIONS",
    "Edition",
    "ProseFault",
    "UnknownValue",
    "fill",
    "make_booklet",
    "parse_prose",
    "to_text",
    "value_names",
]
