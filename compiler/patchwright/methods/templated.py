"""Units of straight-sided pieces that are cut with templates and sewn with straight seams.

In: the finished patches of a unit, each with the piece that it is.
Out: patches, recipe pieces with their templates, and the stages: cutting to shape, sewing part to part, the unit.
Never: a seam that is no straight line from edge to edge of what it joins; such units have stages of their own.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from patchwright.core.geometry import Polygon, moved, rectangle
from patchwright.core.length import ZERO, Cut, Length
from patchwright.methods.flat_shapes import Group, joins, raw_outlines
from patchwright.methods.method import (
    PatchSeam,
    Recipe,
    RecipePiece,
    Request,
    SeamMark,
    Stage,
    StageMark,
    StageShape,
    StageView,
    UnitPatch,
)
from patchwright.methods.pressed import joined, seam_between
from patchwright.methods.staging import face, finished_stage, gap, mark
from patchwright.methods.template import Template, outline_corners, piece_rectangle, straight_template

_APART = Fraction(2, 5)
"""How far parts are drawn from their places, as a share of their distance from the middle of the unit."""
_ABREAST = 4
"""Pieces drawn side by side."""


@dataclass(frozen=True, slots=True)
class Shaped:
    """One patch: its fabric's role, the recipe piece that it is, and its finished corners in the unit, clockwise."""

    role: str
    piece: str
    corners: Polygon
    frame: Polygon = ()
    """The same shape as it lies on the straight grain, where that is not as it lies in the unit."""


def unit_patches(shapes: Sequence[Shaped]) -> tuple[UnitPatch, ...]:
    return tuple(UnitPatch(shape.role, shape.corners) for shape in shapes)


def same_pieces(roles: Sequence[str], polygons: Sequence[Polygon]) -> tuple[Shaped, ...]:
    """Patches of one role and one shape, moved but not turned, are one piece; `piece-1`, `piece-2` … in order."""
    known: dict[tuple[str, Polygon], str] = {}
    made = []
    for role, polygon in zip(roles, polygons, strict=True):
        made.append(Shaped(role, known.setdefault((role, _look(polygon)), f"piece-{len(known) + 1}"), polygon))
    return tuple(made)


def _look(polygon: Polygon) -> Polygon:
    """The same for shapes that are moved, and not for those that are turned."""
    left, top = min(point.x for point in polygon), min(point.y for point in polygon)
    start = min(range(len(polygon)), key=lambda at: (polygon[at].y, polygon[at].x))
    return moved(polygon[start:] + polygon[:start], -left, -top)


def template_recipe(request: Request, shapes: Sequence[Shaped]) -> Recipe:
    """Every piece cut with its template; nothing is rounded but the rectangles that they are cut from."""
    rules = request.rules
    pieces = []
    for name in dict.fromkeys(shape.piece for shape in shapes):
        own = [shape for shape in shapes if shape.piece == name]
        template = straight_template(own[0].frame or own[0].corners, rules.seam)
        width, height = piece_rectangle(template, rules.step)
        pieces.append(RecipePiece(name, own[0].role, Cut(width), Cut(height), len(own), template=template))
    return Recipe(
        "template", tuple(pieces), batch=1, gives=(0,), trim=False, rounding=ZERO, leaning=_leaning(shapes)
    )


def _leaning(shapes: Sequence[Shaped]) -> tuple[str, ...]:
    """Roles with patches that are turned as against others cut with the same template, or lie off the grain."""
    looks: dict[str, set[Polygon]] = {}
    for shape in shapes:
        looks.setdefault(shape.piece, set()).add(_look(shape.corners))
    turned = {shape.role for shape in shapes if shape.frame or len(looks[shape.piece]) > 1}
    return tuple(role for role in dict.fromkeys(shape.role for shape in shapes) if role in turned)


def template_stages(
    key: str, request: Request, recipe: Recipe, shapes: Sequence[Shaped], size: tuple[Length, ...]
) -> tuple[Stage, ...]:
    """Cut to shape, sew part to part from the inside out, and the unit: `shape`, `join`, `last`, `finished`.

    `size` is what the unit measures unfinished, one side of a square or width and height.
    """
    seam = request.rules.seam
    polygons = tuple(shape.corners for shape in shapes)
    made = [shaping_stage(f"{key}.template.shape", recipe)]
    found = joins(polygons) or ()
    seen: set[Group] = set()  # Parts of the last drawing are not drawn again where just these are joined.
    for depth in sorted({join.depth for join in found}, reverse=True):
        groups = [half for join in found if join.depth == depth for half in (join.first, join.second)]
        parts = [(join.whole, joined((join,))) for join in found if join.depth == depth]
        views: tuple[StageView, ...] = (parts_pressed(request, shapes, parts),)
        if set(groups) != seen:
            views = (StageView(parts_apart(request, shapes, groups)), *views)
        seen = {group for group, _ in parts}
        name = "join" if depth else "last"
        made.append(Stage("sew", f"{key}.template.{name}", views, lengths=(("seam", seam),)))
    return (*made, finished_stage(f"{key}.finished", whole_unit(request, shapes), *size))


def shaping_stage(key: str, recipe: Recipe) -> Stage:
    """Every piece's rectangle with its cut line on it."""
    drawn: list[StageShape] = []
    marks: list[StageMark] = []
    x = y = high = ZERO
    for number, piece in enumerate(recipe.pieces):
        if number and number % _ABREAST == 0:
            x, y, high = ZERO, y + high, ZERO
        width, height = piece.width.length, piece.height.length
        drawn.append(face(piece.role, rectangle(width, height, x, y)))
        if piece.template is not None:
            marks.append(_cut_mark(piece.template, x, y))
        x, high = x + width + gap(width), max(high, height + gap(height))
    pieces = tuple(piece.id for piece in recipe.pieces)
    return Stage("cut-apart", key, (StageView(tuple(drawn), tuple(marks)),), pieces=pieces)


def parts_apart(request: Request, shapes: Sequence[Shaped], groups: Sequence[Group]) -> tuple[StageShape, ...]:
    """Sewn parts with their raw edges, moved away from the middle of the unit."""
    polygons, seam = tuple(shape.corners for shape in shapes), request.rules.seam
    drawn: list[StageShape] = []
    for group in groups:
        dx, dy = _away(request, [polygons[number] for number in group])
        outlines = raw_outlines(polygons, group, seam)
        drawn += [
            face(shapes[number].role, moved(outline, dx, dy)) for number, outline in zip(group, outlines, strict=True)
        ]
    return tuple(drawn)


def parts_pressed(
    request: Request, shapes: Sequence[Shaped], parts: Sequence[tuple[Group, Sequence[PatchSeam]]]
) -> StageView:
    """Parts and the seams in each that were just sewn, the parts moved away from the middle of the unit."""
    polygons = [shape.corners for shape in shapes]
    marks: list[SeamMark] = []
    for group, seams in parts:
        away = _away(request, [polygons[number] for number in group])
        marks += [seam_between(polygons, seam.first, seam.second, *away) for seam in seams]
    return StageView(parts_apart(request, shapes, [group for group, _ in parts]), pressed=tuple(marks))


def template_seams(shapes: Sequence[Shaped]) -> tuple[PatchSeam, ...]:
    """The seams that join the patches, inner ones first."""
    return joined(joins(tuple(shape.corners for shape in shapes)) or ())


def whole_unit(request: Request, shapes: Sequence[Shaped]) -> tuple[StageShape, ...]:
    """The unit with its raw edges, from the origin."""
    seam = request.rules.seam
    polygons = tuple(shape.corners for shape in shapes)
    box = -seam, -seam, request.width + seam, request.height + seam
    outlines = raw_outlines(polygons, tuple(range(len(shapes))), seam, box)
    return tuple(
        face(shape.role, moved(outline, seam, seam)) for shape, outline in zip(shapes, outlines, strict=True)
    )


def _away(request: Request, polygons: Sequence[Polygon]) -> tuple[Length, Length]:
    """How far a part is moved: a share of its middle's distance from the unit's."""
    xs = [point.x for polygon in polygons for point in polygon]
    ys = [point.y for polygon in polygons for point in polygon]
    middle = (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2
    return (middle[0] - request.width / 2) * _APART, (middle[1] - request.height / 2) * _APART


def _cut_mark(template: Template, x: Length, y: Length) -> StageMark:
    corners = moved(outline_corners(template.cut_line), x, y)
    return mark("cut", *corners, corners[0])
