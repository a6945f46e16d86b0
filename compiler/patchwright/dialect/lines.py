"""The lines of a text as YAML counts them.

In: a text.
Out: its lines, and the line and column of any place in it.
Never: a line break where YAML sees none; line separators and form feeds are characters like others here.
"""

from __future__ import annotations

import re
from bisect import bisect_right

LINE_BREAK = re.compile(r"\r\n|[\n\r]")


class Lines:
    """The lines of one text, found once."""

    __slots__ = ("_ends", "_starts", "_text")

    def __init__(self, text: str) -> None:
        breaks = list(LINE_BREAK.finditer(text))
        self._text = text
        self._starts = [0, *(found.end() for found in breaks)]
        self._ends = [*(found.start() for found in breaks), len(text)]

    @property
    def count(self) -> int:
        """How many lines there are."""
        return len(self._starts)

    def line(self, number: int) -> str:
        """A line, counted from 1, without its break; nothing outside of the text."""
        return self._text[self._starts[number - 1] : self._ends[number - 1]] if 1 <= number <= self.count else ""

    def place(self, offset: int) -> tuple[int, int]:
        """The line and column, from 1, of a place in the text."""
        number = bisect_right(self._starts, offset)
        return number, offset - self._starts[number - 1] + 1

    def end(self, number: int) -> int:
        """Where a line ends in the text."""
        return self._ends[number - 1]
