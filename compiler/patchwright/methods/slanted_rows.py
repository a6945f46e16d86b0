"""Rows of pieces with sides of 60°: triangles, and half-hexagons that make hexagons over two rows.

A row of finished height r has sides of 2r/√3, whatever its width; what the width leaves beside whole pieces goes to the
end pieces. All pieces are cut with templates, one seam outside their finished lines; 60° triangles are then r + 3 seams
high (published: finished height + 3/4 in), half-hexagons r + 2 seams (published: + 1/2 in).
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import partial

from patchwright.core.geometry import Polygon
from patchwright.core.length import ROOT_THREE, Length
from patchwright.core.measure import plain_length
from patchwright.methods.allowance import hint_step
from patchwright.methods.limits import refuse_wide_seam, size_text
from patchwright.methods.method import (
    Key,
    Method,
    PatchSeam,
    Recipe,
    Refusal,
    Request,
    Role,
    Stage,
    UnitPatch,
    unfinished_size,
)
from patchwright.methods.staging import at
from patchwright.methods.templated import (
    Shaped,
    same_pieces,
    template_recipe,
    template_seams,
    template_stages,
    unit_patches,
)

_MOST_PIECES = 60


@dataclass(frozen=True, slots=True)
class _Kind:
    """What a row is made of."""

    name: str
    noun: str
    pitch: Fraction
    """The mean width of a piece, in sides."""
    rows: tuple[str, ...]


def _row_height(request: Request) -> Length:
    return request.height / int(request.word("rows"))


def _side(request: Request) -> Length:
    return _row_height(request) * 2 / ROOT_THREE


def _count(kind: _Kind, request: Request) -> int:
    """Whole pieces of a row: as many as leave at least nothing at the shorter edge of both end pieces."""
    side = _side(request)
    return ((request.width - side / 2) / side / kind.pitch).floor()


def _refuse(kind: _Kind, request: Request) -> tuple[Refusal, ...]:
    if not (request.width.is_rational and request.height.is_rational):
        message = f"{kind.noun} need sides that a ruler shows"
        return (Refusal("not-measurable", "size", message, ("give the size as lengths of its own",)),)
    wide = refuse_wide_seam(request, _row_height(request) / 2, f"a row of {kind.noun}")
    return wide or _refuse_count(kind, request)


def _refuse_count(kind: _Kind, request: Request) -> tuple[Refusal, ...]:
    """At least two whole pieces fit a row, and not more than a sensible number."""
    count, rules, rows = _count(kind, request), request.rules, int(request.word("rows"))
    if 2 <= count <= _MOST_PIECES:
        return ()
    least, most = ((kind.pitch * number + Fraction(1, 2)) for number in (2, _MOST_PIECES))
    step = hint_step(rules)
    low, high = (request.width * rows / number * ROOT_THREE / 2 for number in (most, least))
    near = high.down_to(step) if count < 2 else low.up_to(step)
    message = (
        f"{kind.noun} of 60° do not fit {size_text(request.width, request.height, rules)} in rows of "
        f"{plain_length(_row_height(request), rules.system)}"
    )
    works = near > Length(0) and near / rows / 2 >= rules.seam
    hint = f"nearest size that works: `{size_text(request.width, near, rules)}`"
    return (Refusal("rows-do-not-fit", "size", message, (hint,) if works else ("make the unit larger",)),)


def _shapes(kind: _Kind, request: Request) -> tuple[Shaped, ...]:
    roles, polygons = [], []
    for row in range(int(request.word("rows"))):
        for role, polygon in _row(kind, request, row):
            roles.append(role)
            polygons.append(polygon)
    return same_pieces(roles, polygons)


def _row(kind: _Kind, request: Request, row: int) -> list[tuple[str, Polygon]]:
    """The end pieces and the pieces between them, from left to right; rows by turns begin leaning right and left."""
    side, count = _side(request), _count(kind, request)
    top = _row_height(request) * row
    low = top + _row_height(request)
    start = (request.width - side * kind.pitch * count) / 2
    lean = side / 4
    lines = []
    for number in range(count + 1):
        middle = start + side * kind.pitch * number
        sign = 1 if (number + row) % 2 == 0 else -1
        lines.append((at(middle + lean * sign, top), at(middle - lean * sign, low)))
    edges = [(at(Length(0), top), at(Length(0), low)), *lines, (at(request.width, top), at(request.width, low))]
    made = []
    for number in range(count + 2):
        (left, under), (right, below) = edges[number], edges[number + 1]
        corners = [left, right, below, under]
        polygon = tuple(point for place, point in enumerate(corners) if point != corners[place - 1])
        made.append((_role(kind, number, count, row), polygon))
    return made


def _role(kind: _Kind, number: int, count: int, row: int) -> str:
    """Triangles by the way they point, half-hexagons by their column."""
    if number in (0, count + 1):
        return "ends"
    turn = number + row if kind.name == "triangle-60" else number
    return "first" if turn % 2 == 1 else "second"


def _patches(kind: _Kind, request: Request) -> tuple[UnitPatch, ...]:
    return unit_patches(_shapes(kind, request))


def _recipe(kind: _Kind, request: Request) -> Recipe:
    return template_recipe(request, _shapes(kind, request))


def _seams(kind: _Kind, request: Request) -> tuple[PatchSeam, ...]:
    return template_seams(_shapes(kind, request))


def _stages(kind: _Kind, request: Request, recipe: Recipe) -> tuple[Stage, ...]:
    size = tuple(side.length for side in unfinished_size(request))
    return template_stages(kind.name, request, recipe, _shapes(kind, request), size)


def _method(kind: _Kind, doc: str, roles: tuple[Role, ...], default_size: tuple[Fraction, Fraction]) -> Method:
    rows = Key("rows", "How many rows lie one below the other.", "word", choices=kind.rows, default=kind.rows[0])
    return Method(
        name=kind.name,
        doc=doc,
        roles=(*roles, Role("ends", "The pieces at both ends of every row.")),
        listed=True,
        keys=(rows,),
        default_size=default_size,
        refuse=partial(_refuse, kind),
        patches=partial(_patches, kind),
        recipe=partial(_recipe, kind),
        stages=partial(_stages, kind),
        seams=partial(_seams, kind),
    )


TRIANGLE_60 = _method(
    _Kind("triangle-60", "triangles", Fraction(1, 2), ("1", "2", "3", "4")),
    "Rows of 60° triangles in two fabrics by turns, with end pieces. Cut with templates.",
    (Role("first", "The triangles that point up."), Role("second", "The triangles that point down.")),
    (Fraction(6), Fraction(2)),
)
HEXAGON = _method(
    _Kind("hexagon", "half-hexagons", Fraction(3, 2), ("2", "4", "6")),
    "Hexagons in columns, each sewn from two half-hexagons in neighboring rows, with end pieces. Cut with templates.",
    (Role("first", "The hexagons of the first column and every second one."), Role("second", "Those between them.")),
    (Fraction(9), Fraction(4)),
)
