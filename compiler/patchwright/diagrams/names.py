"""What units and assemblies are called on drawings, and in which size they are drawn.

In: a unit or assembly of the plan.
Out: its name in words; the first shown size that has it.
"""

from __future__ import annotations

from collections.abc import Sequence

from patchwright.diagrams.board import Board
from patchwright.planning.plan import Assembly, Placed, PlannedUnit


def first_size(board: Board, sizes: Sequence[object | None]) -> int:
    """The first shown size in which a thing exists."""
    return next(index for index in board.shown if sizes[index] is not None)


def exists(board: Board, sizes: Sequence[object | None]) -> bool:
    """Whether a thing exists in any of the shown sizes."""
    return any(sizes[index] is not None for index in board.shown)


def unit_name(board: Board, unit: PlannedUnit) -> str:
    """The author's name, or its fabrics; and whether it is the mirrored one, or pressed the second way."""
    letters = [board.book.fabric_letter(fabric) for _, fabric in unit.fabrics]
    block, number = unit.row_of
    row = board.say("row-of", block=_spaced(block), number=number) if block else ""
    return _varied(board, _spaced(unit.name) or row or "/".join(letters), unit)


def block_name(board: Board, assembly: Assembly) -> str:
    """The author's name, and whether it is the mirrored one, or pressed the second way."""
    return _varied(board, _spaced(assembly.block), assembly)


def part_name(board: Board, placed: Placed) -> str:
    """What a part of an assembly is called: a piece by its letter and number."""
    if placed.kind == "unit":
        return unit_name(board, board.book.unit(placed.ref))
    if placed.kind == "assembly":
        return block_name(board, board.book.assembly(placed.ref))
    return placed.ref


def _varied(board: Board, name: str, part: PlannedUnit | Assembly) -> str:
    named = board.say("reversed", name=name) if part.hand == "reversed" else name
    return board.say("second-way", name=named) if part.second_of else named


def _spaced(name: str) -> str:
    """A name as words: `dark-chain` is a dark chain."""
    return name.replace("-", " ")
