"""Loose pieces of many sizes from equal sheets: strips across each sheet, where all yields would be too many to list.

Comes in: a sheet and loose pieces. Goes out: one layout per sheet, and a bound by area.
Strips across are one kind of straight-ruler cutting; the bound holds for every kind.
"""

from __future__ import annotations

from collections.abc import Sequence

from .problem import Part
from .sheets import Left, Place, SheetCut, SheetLayout, SheetPiece
from .stock import StockSheet, StockStrip, plan_stock


def sheets_of_strips(
    width: int, height: int, pieces: Sequence[SheetPiece], counts: Sequence[int]
) -> tuple[list[SheetLayout], int]:
    """Return the layouts of as few sheets as strips across them can do with, and how many sheets area demands.

    Strips are tried across the sheet and along it, all sheets alike; the fewer sheets win.
    """
    across = _plan(width, height, pieces, counts)
    along = [_turned(one) for one in _plan(height, width, [_aside(piece) for piece in pieces], counts)]
    area = sum(piece.width * piece.height * count for piece, count in zip(pieces, counts, strict=True))
    return min(across, along, key=len) if across and along else across or along, -(-area // (width * height))


def _aside(piece: SheetPiece) -> SheetPiece:
    return SheetPiece(piece.key, piece.height, piece.width, piece.turn)


def _plan(width: int, height: int, pieces: Sequence[SheetPiece], counts: Sequence[int]) -> list[SheetLayout]:
    parts = [Part(p.key, p.width, p.height, n, p.turn) for p, n in zip(pieces, counts, strict=True)]
    plan = plan_stock([StockSheet(width, height, 1)], parts)
    turned = {(p.key, p.width, p.height): False for p in pieces}
    return [_laid(width, height, strips, turned) for _, strips in plan.sheets]


def _laid(
    width: int, height: int, strips: Sequence[StockStrip], unturned: dict[tuple[str, int, int], bool]
) -> SheetLayout:
    places: list[Place] = []
    cuts: list[SheetCut] = []
    left: list[Left] = []
    y = 0
    for strip in strips:
        if y + strip.height < height:
            cuts.append(SheetCut(0, y, width, height - y, False, y + strip.height))
        x = 0
        for key, number, wide, high in strip.yields:
            for _ in range(number):
                if x + wide < width:
                    cuts.append(SheetCut(x, y, width - x, strip.height, True, x + wide))
                if high < strip.height:
                    cuts.append(SheetCut(x, y, wide, strip.height, False, y + high))
                    left.append(Left(x, y + high, wide, strip.height - high))
                places.append(Place(key, x, y, wide, high, unturned.get((key, wide, high), True)))
                x += wide
        if x < width:
            left.append(Left(x, y, width - x, strip.height))
        y += strip.height
    if y < height:
        left.append(Left(0, y, width, height - y))
    return SheetLayout(tuple(places), tuple(cuts), tuple(left))


def _turned(drawn: SheetLayout) -> SheetLayout:
    """Return the layout with width and height exchanged."""
    return SheetLayout(
        tuple(Place(p.key, p.y, p.x, p.height, p.width, p.turned) for p in drawn.places),
        tuple(SheetCut(c.y, c.x, c.height, c.width, not c.upright, c.at) for c in drawn.cuts),
        tuple(Left(r.y, r.x, r.height, r.width) for r in drawn.left),
    )
