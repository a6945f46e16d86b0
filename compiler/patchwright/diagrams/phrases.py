"""The words on and under drawings: lengths as printed, with their kind; lengths in sentences; lists; counts.

In: lengths and numbers of the plan, one for each size that is shown.
Out: text through the wording, so that another language needs no code.
Never: a length without its kind where a maker might cut or measure by it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import Literal, TypeVar

from patchwright.core.length import Length
from patchwright.core.measure import printed_length, printed_number
from patchwright.diagrams.board import Board

T = TypeVar("T")
R = TypeVar("R")
LengthKind = Literal["finished", "unfinished", "cut", "plain"]
MOST_VALUES = 3
"""A dimension line shows at most so many values of different sizes; more are left to the tables."""


def distinct(values: Iterable[T | None]) -> tuple[T, ...]:
    """The values that exist, each once, in order."""
    return tuple(dict.fromkeys(value for value in values if value is not None))


def each(sizes: Iterable[T | None], of: Callable[[T], R]) -> list[R | None]:
    """Something of a thing in every size, absent where the thing is."""
    return [None if size is None else of(size) for size in sizes]


def printed(board: Board, length: Length) -> str:
    """A length as every page of the booklet prints it."""
    return printed_length(length, board.plan.system, board.wording.decimal_mark)


def dimension(board: Board, kind: LengthKind, lengths: Iterable[Length | None]) -> str:
    """The text of a dimension line: `8½″ finished`, `4½″ / 5″ cut`; nothing where too many sizes differ."""
    values = distinct(lengths)
    if not values or len(values) > MOST_VALUES:
        return ""
    text = " / ".join(printed(board, value) for value in values)
    return board.say(f"dimension.{kind}", length=text)


def spoken(board: Board, length: Length) -> str:
    """A length for sentences that may be read aloud: `8½ inches`."""
    system = board.plan.system
    one = length == Length(1) or (system == "in" and length < Length(1))
    number = printed_number(length, system, board.wording.decimal_mark)
    return board.say(f"length.{system}.{'one' if one else 'many'}", number=number)


def spoken_extent(board: Board, extent: tuple[Length, Length]) -> str:
    """Width and height in a sentence; a square's side alone."""
    width, height = extent
    if width == height:
        return board.say("extent.square", side=spoken(board, width))
    return board.say("extent.rectangle", width=spoken(board, width), height=spoken(board, height))


def by_size(board: Board, texts: Sequence[str | None]) -> str:
    """Texts of the shown sizes in one: alone where all agree, else each with the names of its sizes."""
    values = distinct(texts)
    if len(values) <= 1:
        return values[0] if values else ""
    parts = []
    for value in values:
        names = [board.size(i).label for i, text in zip(board.shown, texts, strict=True) if text == value]
        parts.append(board.say("by-size", value=value, sizes=listed(board, names)))
    return listed(board, parts)


def listed(board: Board, words: Sequence[str]) -> str:
    """Words with commas and the last word between them, as the language has it."""
    return board.wording.listed_text(words)


def fabric_names(board: Board, letters: Iterable[str]) -> str:
    """Fabrics by letter and name, each once, in the order of their letters."""
    names = {fabric.letter: fabric.name for fabric in board.plan.fabrics}
    shown = sorted({letter for letter in letters if letter}, key=lambda letter: (len(letter), letter))
    return listed(board, [board.say("fabric", letter=letter, name=names[letter]) for letter in shown])
