"""A text as a tree: mappings and lists of texts, each with the place where it stands.

In: what the reader of a file builds.
Out: ordinary dictionaries, lists and strings that carry spans, so that anything that reads those can read these.
Never: a number, a switch or an empty value guessed from how a text looks.
"""

from __future__ import annotations

from patchwright.core.source import NOWHERE, Span, Text


class TreeMap(dict[Text, "Node"]):
    """A mapping in the order of the text; its span runs from its first key or bracket to its end."""

    __slots__ = ("span",)
    span: Span

    def __init__(self, span: Span = NOWHERE) -> None:
        super().__init__()
        self.span = span

    def key(self, name: str) -> Text | None:
        """The key of that name as it stands in the text, with its span."""
        return next((key for key in self if key == name), None)


class TreeList(list["Node"]):
    """A list with the span from its first dash or bracket to its end."""

    __slots__ = ("span",)
    span: Span

    def __init__(self, span: Span = NOWHERE) -> None:
        super().__init__()
        self.span = span


class Lost(Text):
    """Stands in for a value that has been reported as missing or unreadable, so that it is reported only once."""


Node = Text | TreeMap | TreeList
