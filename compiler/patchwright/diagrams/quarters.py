"""How a top in quarters is sewn: its rows pulled apart within each quarter, and the quarters apart from each other.

In: one size of the plan that is sewn in quarters.
Out: the scene `top-SIZE`.
Never: borders; they come when the center is whole.
"""

from __future__ import annotations

from collections.abc import Sequence

from patchwright.diagrams.board import Board
from patchwright.diagrams.layout import Spot
from patchwright.diagrams.phrases import spoken_extent
from patchwright.diagrams.picture import Picture, above, beside
from patchwright.diagrams.pressing import Way, plain_pressing, top_pressing
from patchwright.diagrams.prints import PrintChooser
from patchwright.diagrams.pulled_apart import Gaps, pulled_apart
from patchwright.diagrams.scene import XY, Line, Scene
from patchwright.diagrams.top import (
    center_rows,
    numbered,
    part_picture,
    row_gaps,
    row_phrases,
)
from patchwright.planning.pressing.tops import SIDES, quarter_rows

_APART = 2.4
"""The room between quarters, in heights of capitals of a usual label."""
Rows = list[list[Spot]]


def quarters_scene(board: Board, index: int) -> Scene:
    """Upper and lower quarters, an arrow at every seam, rows numbered from the top."""
    size = board.size(index)
    rows = center_rows(board, index)
    halves = _divided(board, index, rows)
    gaps, arrows = row_gaps(board, index, rows)
    apart = _APART * board.em
    scale = _scale(board, index, rows, gaps, apart)
    chooser = PrintChooser({swatch.letter: len(swatch.colors) for swatch in board.swatches})
    rule = board.plan.rules.pressing
    joins = board.pressing.get(f"top-{size.name}") or plain_pressing([2, 2], rule)
    made, first = [], 1
    for half, (way,), name in zip(halves, joins.within, ("upper", "lower"), strict=True):
        parts = [[[part_picture(board, index, spot, chooser, scale) for spot in row] for row in side] for side in half]
        ways = [
            (board.pressing.get(f"quarter-{size.name}-{name}-{side}") or top_pressing(_parts(rows), rule))
            if arrows else None for side, rows in zip(SIDES, half, strict=True)
        ]
        left, right = (pulled_apart(p, "rows", gaps, w) for p, w in zip(parts, ways, strict=True))
        joined = beside([left, right], apart)
        arrow = _arrow((left.width + apart / 2, joined.height / 2), apart, way, level=True)
        made.append((numbered(board, joined.with_items([arrow]), parts[0], gaps, first), left))
        first += len(half[0])
    (upper, left), (lower, _) = made
    picture = above([upper, lower], apart)
    at = picture.width - _right_width(upper, left) - left.body.width / 2, upper.height + apart / 2
    picture = picture.with_items([_arrow(at, apart, joins.between[0], level=False)])
    title = board.say("top.title", size=size.label)
    return board.scene(f"top-{size.name}", picture, title, _description(board, index, rows, halves))


def _right_width(half: Picture, left: Picture) -> float:
    """How much of a half lies to the right of the cloth of its left quarter."""
    return half.width - (half.body.x + left.body.x + left.body.width)


def _divided(board: Board, index: int, rows: Rows) -> list[list[Rows]]:
    """The upper and the lower half, each with the rows of its left and of its right quarter."""
    spots = {id(spot.item): spot for row in rows for spot in row}
    return [
        [[[spots[id(item)] for item in row.items] for row in quarter] for quarter in half]
        for half in quarter_rows(board.size(index))
    ]


def _parts(rows: Rows) -> list[list[str]]:
    return [[spot.item.part for spot in row] for row in rows]


def _scale(board: Board, index: int, rows: Rows, gaps: Gaps, apart: float) -> float:
    """The largest at which the quarters fit a page."""
    width, height = (float(side) for side in board.size(index).center)
    room = board.rows_room(index)
    across = max(len(row) - 2 for row in rows) * gaps.within + 2 * gaps.margin + apart + 3 * board.em
    down = (len(rows) - 2) * gaps.between + apart + 2 * board.bleed
    return min((room.width - across) / width, (room.height - down) / height)


def _arrow(at: XY, apart: float, way: Way, level: bool) -> Line:
    """An arrow over the seam between two quarters, or two halves."""
    x, y = at
    dx, dy = (apart * 0.4, 0.0) if level else (0.0, apart * 0.4)
    ends = (x - dx, y - dy), (x + dx, y + dy)
    return Line(ends[::-1] if way == "back" else ends, "press", "both" if way == "open" else "end")


def _description(board: Board, index: int, rows: Rows, halves: Sequence[Sequence[Rows]]) -> str:
    """How many rows there are, which of them each quarter has, and what they hold."""
    size = board.size(index)
    upper, left = len(halves[0][0]), len(halves[0][0][0])
    center = size.center[0].length, size.center[1].length
    return " ".join([
        board.say("top.rows", count=len(rows), size=size.label),
        *row_phrases(board, rows),
        board.say("top.quarters", rows=upper, parts=left),
        board.say("top.measures", extent=spoken_extent(board, center)),
    ])
