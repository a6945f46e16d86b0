"""Four-patch, nine-patch and sixteen-patch: squares of two fabrics, the first in the corner, like a checkerboard.

Cut size of each square: its finished size + 2 seams (common practice); strip-pieced where the request says so.
"""

from __future__ import annotations

from fractions import Fraction
from functools import partial
from itertools import pairwise

from patchwright.core.length import ZERO
from patchwright.methods.limits import refuse_unless_square, refuse_wide_seam
from patchwright.methods.method import (
    Method,
    PatchSeam,
    Recipe,
    Refusal,
    Request,
    Role,
    Stage,
    StageShape,
    StripSet,
    UnitPatch,
)
from patchwright.methods.pressed import in_lines, pressing_view, seam_between
from patchwright.methods.staging import face, finished_stage, gap, view
from patchwright.methods.straight import Tile, raw, sewn, sewn_size
from patchwright.methods.strip_piecing import strip_recipe, strip_seams, strip_sets, strip_stages

_ROLES = ("first", "second")


def _tiles(side: int, request: Request) -> tuple[Tile, ...]:
    """The squares row by row."""
    one = request.width / side
    return tuple(
        Tile(_ROLES[(row + column) % 2], one * column, one * row, one, one)
        for row in range(side)
        for column in range(side)
    )


def _refuse(side: int, name: str, request: Request) -> tuple[Refusal, ...]:
    return refuse_unless_square(request, f"a {name}") or refuse_wide_seam(request, request.width / side, "a square")


def _patches(side: int, request: Request) -> tuple[UnitPatch, ...]:
    return tuple(tile.patch() for tile in _tiles(side, request))


def _strip_sets(side: int, request: Request) -> tuple[StripSet, ...]:
    return strip_sets(_tiles(side, request))


def _recipe(side: int, request: Request) -> Recipe:
    tiles = _tiles(side, request)
    if request.strips is not None:
        return strip_recipe(request, strip_sets(tiles), request.strips.units)
    counts = ((side * side + 1) // 2, side * side // 2)
    pieces = tuple(
        tile.piece(tile.role, request.rules.seam, count) for tile, count in zip(tiles[:2], counts, strict=True)
    )
    return Recipe("squares", pieces, batch=1, gives=(0,), trim=False, rounding=ZERO)


def _rows(side: int) -> tuple[tuple[int, ...], ...]:
    """Numbers of the patches, row by row."""
    return tuple(tuple(range(start, start + side)) for start in range(0, side * side, side))


def _seams(side: int, request: Request) -> tuple[PatchSeam, ...]:
    """Rows are joined, or the columns that strip sets give."""
    return strip_seams(_tiles(side, request)) if request.strips is not None else in_lines(_rows(side))


def _stages(side: int, name: str, request: Request, recipe: Recipe) -> tuple[Stage, ...]:
    """Squares into rows, rows into the unit; or strips into sets, segments, and the unit."""
    tiles, seam, key = _tiles(side, request), request.rules.seam, f"{name}.squares."
    if request.strips is not None:
        return strip_stages(name, request, tiles, recipe)
    rows = tuple(tiles[start : start + side] for start in range(0, len(tiles), side))
    away, lengths = gap(tiles[0].width), (("seam", seam),)
    measure = (("long", request.width + seam * 2), ("high", tiles[0].height + seam * 2))
    apart = tuple(
        face(tile.role, raw(tile, seam, (away + seam * 2) * column, (away + seam * 2) * number))
        for number, row in enumerate(rows)
        for column, tile in enumerate(row)
    )
    joined: tuple[StageShape, ...] = ()
    marks = []
    outlines = [tile.patch().outline for tile in tiles]
    for number, row in enumerate(rows):
        down = (away + seam * 2) * number
        joined += sewn(row, seam, ZERO, down)
        marks += [
            seam_between(outlines, (place - 1,), (place,), seam, seam + down)
            for place in range(number * side + 1, number * side + side)
        ]
    numbers = _rows(side)
    between = [seam_between(outlines, *pair, seam, seam) for pair in pairwise(numbers)]
    return (
        Stage("sew", key + "rows", (view(apart), pressing_view(joined, *marks)), _ROLES, lengths + measure),
        Stage("sew", key + "join", (pressing_view(sewn(tiles, seam), *between),), lengths=lengths),
        finished_stage(f"{name}.finished", sewn(tiles, seam), sewn_size(tiles, seam)[0]),
    )


def _grid(name: str, side: int) -> Method:
    return Method(
        name=name,
        doc=f"A square of {side} by {side} squares in two fabrics, the first in the upper left corner.",
        roles=(Role("first", "The squares at the upper left and on from there."), Role("second", "The others.")),
        listed=True,
        keys=(),
        default_size=(Fraction(side), Fraction(side)),
        refuse=partial(_refuse, side, name),
        patches=partial(_patches, side),
        recipe=partial(_recipe, side),
        stages=partial(_stages, side, name),
        seams=partial(_seams, side),
        strip_sets=partial(_strip_sets, side),
    )


FOUR_PATCH = _grid("four-patch", 2)
NINE_PATCH = _grid("nine-patch", 3)
SIXTEEN_PATCH = _grid("sixteen-patch", 4)
