"""How a block is sewn: its parts pulled apart in rows or columns with pressing arrows, then joined.

In: an assembly of the plan.
Out: the scene `assembly-ID`.
Never: a way of pressing chosen here; the board brings them.
"""

from __future__ import annotations

from collections.abc import Iterator

from patchwright.core.geometry import UPRIGHT
from patchwright.diagrams.arrows import in_sequence
from patchwright.diagrams.board import Board
from patchwright.diagrams.cloth import flat_picture, framed
from patchwright.diagrams.dimensions import with_extent
from patchwright.diagrams.fitting import fitted
from patchwright.diagrams.letters import box_place, letter_box
from patchwright.diagrams.names import block_name, first_size, part_name
from patchwright.diagrams.patches import Flat
from patchwright.diagrams.phrases import by_size, dimension, each, listed, spoken_extent
from patchwright.diagrams.picture import Picture, corners, padded
from patchwright.diagrams.pulled_apart import Gaps, pulled_apart
from patchwright.diagrams.scene import Label, Scene
from patchwright.planning.plan import Assembly, Placed

JOINED_SIDE = 1.6
"""The longer side of the joined block on the page, in inches, where the room allows."""


def assembly_scene(board: Board, assembly: Assembly) -> Scene:
    """Parts, rows and block."""
    index = first_size(board, assembly.sizes)
    whole = board.book.flat("assembly", assembly.id, UPRIGHT, index, (0, 0))
    gaps = _gaps(board, assembly)

    def draw(scale: float) -> Picture:
        parts = _part_pictures(board, assembly, index, scale)
        apart = pulled_apart(parts, assembly.axis, gaps, board.pressing.get(assembly.id))
        joined = framed(flat_picture(board, whole, scale, letters=False))
        return in_sequence(board, [apart, _measured(board, assembly, joined)])

    picture = fitted(board, draw, JOINED_SIDE / max(whole.width, whole.height))
    title = board.say("assembly.title", name=block_name(board, assembly))
    return board.scene(f"assembly-{assembly.id}", picture, title, _description(board, assembly, index))


def _gaps(board: Board, assembly: Assembly) -> Gaps:
    """Gaps wide enough for an arrow, narrower where a line has very many parts."""
    most = max(len(line) for line in assembly.lines) - 1
    usual = 2.2 * board.em
    return Gaps(min(usual, board.room.width * 0.22 / most) if most else usual, usual, 1.6 * board.em)


def _part_pictures(board: Board, assembly: Assembly, index: int, scale: float) -> list[list[Picture]]:
    """Every part with its name on or below it."""
    flats = list(board.book.parts(assembly, index))
    pictures: list[list[Picture]] = []
    for number, line in enumerate(assembly.lines):
        parts = [flat for at, _, _, flat in flats if at == number]
        drawn = [placed for placed in line if placed.sizes[index] is not None]
        named = [_part(board, placed, flat, scale) for placed, flat in zip(drawn, parts, strict=True)]
        pictures.append(_even(board, named, assembly.axis == "columns"))
    return pictures


def _part(board: Board, placed: Placed, flat: Flat, scale: float) -> tuple[Picture, str]:
    """A part, and the name that must stand below it since it has no room on it."""
    picture = framed(flat_picture(board, flat, scale, letters=placed.kind == "piece"))
    name = part_name(board, placed)
    if placed.kind == "piece" and _fits_on(board, flat, scale, name):
        return picture, ""
    return picture, name if board.type.text_width(name, "small") <= picture.width + 1.6 * board.em else ""


def _fits_on(board: Board, flat: Flat, scale: float, name: str) -> bool:
    outline = corners(0, 0, flat.width * scale, flat.height * scale)
    return box_place(outline, *letter_box(name, board.type, "small")) is not None


def _even(board: Board, named: list[tuple[Picture, str]], each: bool) -> list[Picture]:
    """Names below the parts; in a row all parts make room for them if one needs it."""
    room = 1.9 * board.type.text_height("small")
    any_name = any(name for _, name in named)
    pictures = []
    for picture, name in named:
        grown = padded(picture, bottom=room if name or (any_name and not each) else 0.0)
        labels = [Label((picture.body.center[0], picture.height + room * 0.55), name, "small")] if name else []
        pictures.append(grown.with_items(labels))
    return pictures


def _measured(board: Board, assembly: Assembly, picture: Picture) -> Picture:
    sizes = [assembly.sizes[index] for index in board.shown]
    width = dimension(board, "unfinished", each(sizes, lambda size: size.unfinished[0].length))
    height = dimension(board, "unfinished", each(sizes, lambda size: size.unfinished[1].length))
    return with_extent(picture, width, "" if width == height else height, board)


def _description(board: Board, assembly: Assembly, index: int) -> str:
    """The parts of every line, the pressing, and what the block measures."""
    sizes = [assembly.sizes[shown] for shown in board.shown]
    extents = each(
        sizes, lambda size: spoken_extent(board, (size.unfinished[0].length, size.unfinished[1].length))
    )
    sentences = [
        board.say(f"assembly.{assembly.axis}", name=block_name(board, assembly), count=len(assembly.lines)),
        *_lines(board, assembly, index),
        board.say("assembly.measures", extent=by_size(board, extents)),
    ]
    return " ".join(sentences)


def _lines(board: Board, assembly: Assembly, index: int) -> Iterator[str]:
    pressing = board.pressing.get(assembly.id)
    for number, line in enumerate(assembly.lines):
        names = [part_name(board, placed) for placed in line if placed.sizes[index] is not None]
        kind = "row" if assembly.axis == "rows" else "column"
        ways = set(pressing.within[number]) if pressing else set()
        only = ways.pop() if len(ways) == 1 else "mixed" if ways else "none"
        way = "mixed" if only.startswith("spun") else only
        pressed = board.say(f"press.{kind}.{way}")
        yield board.say(f"assembly.{kind}", number=number + 1, parts=listed(board, names), pressed=pressed)
