"""What cut pieces are called: their nouns, their sizes as the trade writes them, and what long ones are for."""

from __future__ import annotations

from patchwright.planning.plan import Piece, PieceSize
from patchwright.typesetting.booklet import Inline
from patchwright.typesetting.content.buying import use_text
from patchwright.typesetting.content.scope import Scope, mark

STRIP = 4
"""A piece of a unit so many times as long as high is called a strip."""


def piece_noun(scope: Scope, piece: Piece, count: int) -> str:
    """`square`, `rectangle`, `sashing strip` or `border strip`, by the first size that has the piece."""
    size = next(size for size in (*scope.here(piece.sizes), *piece.sizes) if size is not None)
    if size.width == size.height:
        return scope.say("piece.square", count=count)
    shape = "strip" if piece.kind == "unit" and _is_long(size) else "rectangle"
    bias = any(one.binding is not None and one.binding.way != "straight" for one in scope.plan.sizes)
    named = ("sashing", "strip", "border") if bias else ("sashing", "strip", "border", "binding")
    kind = piece.kind if piece.kind in named and not _is_spacer(scope, piece) else shape
    return scope.say(f"piece.{kind}", count=count)


def _is_spacer(scope: Scope, piece: Piece) -> bool:
    """Whether it lies in the rows of a pieced border, and is no strip along a side."""
    return any(piece.id in border.spacers for size in scope.plan.sizes for border in size.borders)


def _is_long(size: PieceSize) -> bool:
    return max(size.width, size.height).length >= min(size.width, size.height).length * STRIP


def one_piece(scope: Scope, piece: str) -> tuple[Inline, ...]:
    """`A1 square`."""
    return scope.inlines("part.one", piece=mark(piece), noun=piece_noun(scope, scope.piece(piece), 1))


def counted_piece(scope: Scope, piece: str, count: int) -> tuple[Inline, ...]:
    """`4 A1 squares`."""
    noun = piece_noun(scope, scope.piece(piece), count)
    return scope.inlines("part.piece", count=count, piece=mark(piece), noun=noun)


def cut_text(scope: Scope, piece: Piece, size: PieceSize) -> str:
    """The cut size: a square's side, else the shorter side first; a one-way piece as it lies on the cloth."""
    if size.width == size.height:
        return scope.wording.length(size.width)
    if piece.upright:
        return scope.wording.extent(size.width, size.height)
    return scope.wording.extent(min(size.width, size.height), max(size.width, size.height))


def long_use(scope: Scope, piece: Piece) -> str:
    """What a long piece is for: `the sides of border 1`, `the binding`, `the sashing`."""
    if piece.kind == "border":
        border = piece.uses[0]
        side = any(own.side_piece == piece.id for size in scope.sizes for own in size.borders)
        only = max(len(own.borders) for own in scope.plan.sizes) == 1
        only = only and not any(own.medallion for own in scope.plan.sizes)
        name = scope.say("long.border") if only else use_text(scope, border)
        return scope.say("long.sides" if side else "long.ends", border=name)
    if piece.kind == "strip":
        edge = any(own.piece == piece.id and own.place == "edge" for size in scope.sizes for own in size.strips)
        return scope.say("long.edge-strips" if edge else "long.strips")
    if piece.kind == "hanging":
        return scope.say("long.sleeve")
    return scope.say("long.binding" if piece.kind == "binding" else "long.sashing")
