"""How the top is sewn: rows of blocks and rows of sashing pulled apart and numbered, with the joined center's size.

In: one size of the plan.
Out: the scene `top-SIZE`.
Never: borders; they come when the center is whole.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from patchwright.diagrams.board import Board
from patchwright.diagrams.cloth import framed, scaled
from patchwright.diagrams.layout import Spot, is_second, spots
from patchwright.diagrams.names import block_name
from patchwright.diagrams.phrases import listed, spoken_extent
from patchwright.diagrams.picture import Picture, bare, padded
from patchwright.diagrams.pressing import top_pressing
from patchwright.diagrams.prints import PrintChooser
from patchwright.diagrams.pulled_apart import Gaps, pulled_apart
from patchwright.diagrams.scene import Area, Item, Label, Scene

_ARROWS_SHARE = 0.3
"""Gaps take an arrow as long as those of a row take no more than this share of the width; else they are slits."""


def top_scene(board: Board, index: int) -> Scene:
    """Every row of the center, its parts apart, numbered from the top."""
    rows = center_rows(board, index)
    gaps, arrows = row_gaps(board, index, rows)
    scale = _scale(board, index, rows, gaps)
    chooser = PrintChooser({swatch.letter: len(swatch.colors) for swatch in board.swatches})
    pictures = [[part_picture(board, index, spot, chooser, scale) for spot in row] for row in rows]
    parts = [[spot.item.part for spot in row] for row in rows]
    known = board.pressing.get(f"top-{board.size(index).name}")
    pressing = (known or top_pressing(parts, board.plan.rules.pressing)) if arrows else None
    picture = numbered(board, pulled_apart(pictures, "rows", gaps, pressing), pictures, gaps)
    size = board.size(index)
    title = board.say("top.title", size=size.label)
    return board.scene(f"top-{size.name}", picture, title, _description(board, index, rows))


def row_gaps(board: Board, index: int, rows: Sequence[Sequence[Spot]]) -> tuple[Gaps, bool]:
    """Gaps between the parts of rows, and whether they have room for arrows; else they are slits."""
    most, room = max(map(len, rows)), board.rows_room(index)
    arrows = (most - 1) * 1.8 * board.em <= _ARROWS_SHARE * room.width
    across = 1.8 * board.em if arrows else min(0.8 * board.em, room.width * 0.12 / most)
    down = (1.8 if arrows else 0.9) * board.em
    return Gaps(across, min(down, room.height * 0.25 / len(rows)), 1.6 * board.em), arrows


def center_rows(board: Board, index: int) -> list[list[Spot]]:
    """Blocks, sashing and cornerstones row by row, from the top and from the left."""
    items = [item for item in board.size(index).items if not item.part.startswith("border")]
    rows: dict[int, list[Spot]] = {}
    for spot in spots(items):
        rows.setdefault(spot.row, []).append(spot)
    return [sorted(rows[row], key=lambda spot: spot.column) for row in sorted(rows)]


def _scale(board: Board, index: int, rows: Sequence[Sequence[Spot]], gaps: Gaps) -> float:
    """The largest at which the rows, pulled apart, fit a page; never larger than a block of a usual size needs."""
    width, height = (float(side) for side in board.size(index).center)
    taken_across = max(len(row) - 1 for row in rows) * gaps.within + gaps.margin + 3 * board.em
    taken_down = (len(rows) - 1) * gaps.between + 2 * board.bleed
    room = board.rows_room(index)
    return min((room.width - taken_across) / width, (room.height - taken_down) / height)


def part_picture(board: Board, index: int, spot: Spot, chooser: PrintChooser, scale: float) -> Picture:
    """One block, sash or cornerstone as it lies."""
    flat = board.book.item(spot.item, index)
    items: list[Item] = [
        Area(
            scaled(patch.outline, scale),
            "fabric",
            patch.letter,
            chooser.choose(patch.letter, spot.column, spot.row),
        )
        for patch in flat.patches
    ]
    if is_second(board, spot.item):
        middle = flat.width * scale / 2, flat.height * scale / 2
        items.append(Label(middle, board.say("second-mark"), "small", over="cloth"))
    return framed(bare(flat.width * scale, flat.height * scale, items))


def numbered(
    board: Board, picture: Picture, rows: Sequence[Sequence[Picture]], gaps: Gaps, start: int = 1
) -> Picture:
    """A number left of every row, from this one on."""
    room, least = 2.4 * board.em, board.type.text_height("small") * 0.75
    first, last = (max(part.height for part in row) / 2 for row in (rows[0], rows[-1]))
    above, below = max(0.0, least - first), max(0.0, least - last)
    grown = padded(picture, left=room, top=above, bottom=below)
    labels, y = [], above
    for number, row in enumerate(rows, start):
        height = max(part.height for part in row)
        labels.append(Label((room * 0.4, y + height / 2), str(number), "small"))
        y += height + gaps.between
    return grown.with_items(labels)


def _description(board: Board, index: int, rows: Sequence[Sequence[Spot]]) -> str:
    """How many rows there are and what each kind of row holds; equal rows together."""
    size = board.size(index)
    sentences = [board.say("top.rows", count=len(rows), size=size.label), *row_phrases(board, rows)]
    if size.sash_width is not None and _is_toward_sashing(board, index, rows):
        sentences.append(board.say("top.toward-sashing"))
    center = size.center[0].length, size.center[1].length
    sentences.append(board.say("top.measures", extent=spoken_extent(board, center)))
    return " ".join(sentences)


def row_phrases(board: Board, rows: Sequence[Sequence[Spot]]) -> Iterator[str]:
    """What each kind of row holds; equal rows together."""
    kinds: dict[str, list[int]] = {}
    for number, row in enumerate(rows, 1):
        kinds.setdefault(listed(board, list(contents(board, row))), []).append(number)
    for parts, numbers in kinds.items():
        names = listed(board, [str(number) for number in numbers])
        yield board.say("top.row", count=len(numbers), numbers=names, parts=parts)


def _is_toward_sashing(board: Board, index: int, rows: Sequence[Sequence[Spot]]) -> bool:
    """Whether every seam within and between rows lies as the rule of the sashing has it."""
    known = board.pressing.get(f"top-{board.size(index).name}")
    parts = [[spot.item.part for spot in row] for row in rows]
    return (known or top_pressing(parts, board.plan.rules.pressing)) == top_pressing(parts, "nest")


def contents(board: Board, row: Sequence[Spot]) -> Iterator[str]:
    """What a row or a column holds, counted; a triangle by the piece that it is cut from."""
    counts: dict[str, int] = {}
    for spot in row:
        item = spot.item
        name = item.ref
        if item.kind == "assembly":
            name = block_name(board, board.book.assembly(item.ref))
        elif item.part == "setting-triangles":
            name = board.say("top.triangle", piece=item.ref)
        counts[name] = counts.get(name, 0) + 1
    for name, count in counts.items():
        yield board.say("counted", count=count, name=name)
