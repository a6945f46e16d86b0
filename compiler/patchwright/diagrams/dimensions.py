"""Dimension lines: how wide and how high the body of a picture is, in words beside a line with arrows.

In: a picture and the text of the dimension, which says its kind.
Out: the picture with the line beside its body, and with more room where the text needs it.
Never: a text made here.
"""

from __future__ import annotations

from patchwright.diagrams.board import Board
from patchwright.diagrams.picture import Picture, padded
from patchwright.diagrams.scene import Item, Label, Line, TypeSize


def with_width(picture: Picture, text: str, board: Board, size: TypeSize = "small") -> Picture:
    """Write the body's width below the picture."""
    if not text:
        return picture
    side = max(0.0, (board.type.text_width(text, size) + board.em - picture.body.width) / 2)
    left = max(0.0, side - picture.body.x)
    right = max(0.0, side - (picture.width - picture.body.right))
    line, room = _clearances(board, size)
    grown = padded(picture, left=left, right=right, bottom=room)
    body, y = grown.body, picture.height + line
    middle = body.center[0]
    items = [*_level(body.x, body.right, y, board), Label((middle, grown.height - _half(board, size)), text, size)]
    return grown.with_items(items)


def with_height(picture: Picture, text: str, board: Board, size: TypeSize = "small") -> Picture:
    """Write the body's height left of the picture, read upward."""
    if not text:
        return picture
    side = max(0.0, (board.type.text_width(text, size) + board.em - picture.body.height) / 2)
    top = max(0.0, side - picture.body.y)
    bottom = max(0.0, side - (picture.height - picture.body.bottom))
    line, room = _clearances(board, size)
    grown = padded(picture, left=room, top=top, bottom=bottom)
    body = grown.body
    label = Label((_half(board, size), body.center[1]), text, size, turned=True)
    return grown.with_items([*_upright(body.y, body.bottom, room - line, board), label])


def with_extent(picture: Picture, width: str, height: str, board: Board, size: TypeSize = "small") -> Picture:
    """Write both."""
    return with_height(with_width(picture, width, board, size), height, board, size)


def _clearances(board: Board, size: TypeSize) -> tuple[float, float]:
    """Distances from the picture to the line, and to the far side of the text."""
    line = board.em * 0.9
    return line, line + board.em * 0.6 + 2 * _half(board, size)


def _half(board: Board, size: TypeSize) -> float:
    """From the middle of a line of text to its edge, with a little air for descenders."""
    return board.type.text_height(size) * 0.7


def _level(x: float, right: float, y: float, board: Board) -> list[Item]:
    tick = board.em * 0.4
    return [
        Line(((x, y), (right, y)), "dimension", "both"),
        Line(((x, y - tick), (x, y + tick)), "dimension"),
        Line(((right, y - tick), (right, y + tick)), "dimension"),
    ]


def _upright(y: float, bottom: float, x: float, board: Board) -> list[Item]:
    tick = board.em * 0.4
    return [
        Line(((x, y), (x, bottom)), "dimension", "both"),
        Line(((x - tick, y), (x + tick, y)), "dimension"),
        Line(((x - tick, bottom), (x + tick, bottom)), "dimension"),
    ]
