"""The making of one unit, drawn from its method's own stages: first the pieces, then one drawing for each stage.

In: a planned unit and the scale of the booklet's unit drawings.
Out: scenes `unit-ID-pieces`, `unit-ID-1-mark`, `unit-ID-2-sew` … in order.
Never: a shape that the method did not give; a reversed unit is its mirror image.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from patchwright.core.geometry import Polygon, rectangle
from patchwright.core.length import Length
from patchwright.diagrams.arrows import in_sequence
from patchwright.diagrams.board import Board
from patchwright.diagrams.dimensions import with_extent
from patchwright.diagrams.fitting import fitted
from patchwright.diagrams.names import first_size, unit_name
from patchwright.diagrams.phrases import by_size, dimension, each, fabric_names, listed, spoken_extent
from patchwright.diagrams.picture import Picture, padded, wrapped
from patchwright.diagrams.scene import Label, Scene
from patchwright.diagrams.stage_views import Cloths, trimmed_picture, view_picture
from patchwright.methods.method import RecipePiece, Stage, StageKind, StageMark, StageShape, StageView, Then
from patchwright.methods.registry import BY_NAME
from patchwright.planning.plan import PlannedUnit, UnitSize

LARGEST = 0.85
"""The longer side, in inches on the page, of the largest piece of any unit, so that two drawings stand beside words."""
_UNIT_SHARE = 0.65
"""A unit of many pieces counts as a piece of this share of its side, lest it outgrow the page's width."""
SMALLEST = 0.7
"""The same for a unit of small pieces, which is drawn at a larger scale."""
_LONG = 6
"""A strip longer than so many times its height is drawn with a break."""
_LONG_COUNTS = 3
"""For the scale it counts as so many times its height, since it may be drawn across the page."""
_NAMED: tuple[StageKind, ...] = ("place", "mark", "sew")
"""Stages in which pieces still have their cut shapes and are called by their names."""

_DIAGONALS: dict[Then, int] = {"none": 0, "once": 1, "twice": 2}
"""On how many diagonals a cut square is cut again."""


def unit_scale(board: Board) -> float:
    """Inches on the page for one of the pattern's unit, at which the largest piece of any unit has its size."""
    sides = [
        _longest(planned)
        for unit in board.plan.units
        for index in board.shown
        if (planned := unit.sizes[index]) is not None
    ]
    return LARGEST / max(sides) if sides else 1.0


def step_scenes(board: Board, unit: PlannedUnit, scale: float) -> Iterator[Scene]:
    """The pieces and the stages of a unit at the booklet's scale, or larger where it would be tiny."""
    made = _making(board, unit, scale)
    if not made.stages:
        return
    yield _pieces_scene(board, made)
    for number, stage in enumerate(made.stages, 1):
        yield _stage_scene(board, made, number, stage)


@dataclass(frozen=True, slots=True)
class _Making:
    """One unit in the size that is drawn, with what all its drawings share."""

    unit: PlannedUnit
    planned: UnitSize
    shown: tuple[UnitSize | None, ...]
    """The unit in every shown size."""
    scale: float
    stages: tuple[Stage, ...]
    cloths: Cloths
    recipe_pieces: tuple[tuple[str, str, int, int], ...]
    """(piece, the recipe's first piece that it is, its place there, how many for a batch), each piece once."""


def _making(board: Board, unit: PlannedUnit, scale: float) -> _Making:
    planned = unit.sizes[first_size(board, unit.sizes)]
    if planned is None:
        raise ValueError(f"unit {unit.id} is in none of the shown sizes")
    names = {piece.recipe_piece: piece.piece for piece in unit.pieces}
    fabrics = {role: board.book.fabric_letter(fabric) for role, fabric in unit.fabrics}
    sides: dict[tuple[str, float, float], str] = {}
    for piece in planned.recipe.pieces:
        look, name = (piece.role, *_sides(piece)), names.get(piece.id, "")
        # Two pieces of one fabric that measure alike but differ in shape cannot be told apart by their sides.
        sides[look] = name if sides.get(look, name) == name else ""
    pieces: dict[str, tuple[str, str, int, int]] = {}
    for place, piece in enumerate(planned.recipe.pieces):
        name = names.get(piece.id, "")
        first = pieces.get(name, (name, piece.id, place, 0))
        pieces[name] = (*first[:3], first[3] + piece.per_batch)
    return _Making(
        unit,
        planned,
        tuple(unit.sizes[index] for index in board.shown),
        max(scale, SMALLEST / _longest(planned)),
        BY_NAME[unit.method].stages(planned.request, planned.recipe),
        Cloths(fabrics, sides, unit.hand == "reversed", board.pressed.seams_of("unit", unit.id)),
        tuple(pieces.values()),
    )


def _pieces_scene(board: Board, made: _Making) -> Scene:
    """What a batch takes: every piece at its cut size, with its name and how many of it."""
    gap = 2.5 * board.em

    def draw(scale: float) -> Picture:
        pictures = [_piece_picture(board, made, scale, *piece) for piece in made.recipe_pieces]
        return wrapped(pictures, board.room.width - 2 * board.bleed, gap, gap)

    picture = fitted(board, draw, made.scale)
    words = [
        board.say("steps.piece", count=count, piece=name, extent=by_size(board, _cut_extents(board, made, place)))
        for name, _, place, count in made.recipe_pieces
    ]
    description = board.say(
        "steps.pieces",
        name=unit_name(board, made.unit),
        units=made.planned.recipe.batch,
        pieces=listed(board, words),
    )
    return _scene(board, made, "pieces", "pieces", picture, description)


def _piece_picture(
    board: Board, made: _Making, scale: float, name: str, recipe_piece: str, place: int, count: int
) -> Picture:
    piece = made.planned.recipe.pieces[place]
    outline = rectangle(piece.width.length, piece.height.length)
    diagonals = (outline[3], outline[1]), (outline[0], outline[2])
    marks = tuple(StageMark("cut", ends) for ends in diagonals[: _DIAGONALS[piece.then]])
    shapes = tuple(StageShape(piece.role, part) for part in _broken(piece.width.length, piece.height.length))
    picture = view_picture(board, StageView(shapes, marks), made.cloths, scale)
    cuts = each(made.shown, lambda size: size.recipe.pieces[place])
    width = dimension(board, "cut", each(cuts, lambda cut: cut.width.length))
    height = dimension(board, "cut", each(cuts, lambda cut: cut.height.length))
    picture = with_extent(picture, width, "" if width == height else height, board)
    if count == 1:
        return picture
    text = board.say("steps.times", count=count)
    wide = board.type.text_width(text) + board.em
    picture = padded(picture, right=wide)
    return picture.with_items([Label((picture.width - wide / 2, picture.body.center[1]), text)])


def _stage_scene(board: Board, made: _Making, number: int, stage: Stage) -> Scene:
    """All views of a stage; a finished unit with what it measures."""

    def draw(scale: float) -> Picture:
        return in_sequence(board, _views(board, made, stage, scale))

    picture = fitted(board, draw, made.scale)
    words = [
        board.say(
            "steps.stage",
            name=unit_name(board, made.unit),
            number=number,
            total=len(made.stages),
            action=board.say(f"steps.action.{stage.kind}"),
        )
    ]
    if len(stage.views) > 1:
        words.append(board.say("steps.views", count=len(stage.views)))
    arrows = sum(len(view.pressed) for view in stage.views)
    if arrows and stage.kind != "press":
        words.append(board.say("steps.pressed", count=arrows))
    if stage.kind in ("finished", "trim"):
        words.append(board.say("steps.measures", extent=by_size(board, _unfinished_extents(board, made))))
    words.append(board.say("steps.cloth", fabrics=fabric_names(board, _letters(made, stage))))
    return _scene(board, made, f"{number}-{stage.kind}", stage.kind, picture, " ".join(words))


def _views(board: Board, made: _Making, stage: Stage, scale: float) -> list[Picture]:
    """The views of a stage, the last of a trimmed or finished unit with what it measures."""
    pictures = [view_picture(board, view, made.cloths, scale, stage.kind in _NAMED) for view in stage.views]
    if stage.kind == "finished":
        pictures[-1] = _measured(board, made, pictures[-1])
    elif stage.kind == "trim":
        pictures[-1] = _measured(board, made, trimmed_picture(board, stage.views[-1], made.cloths, scale))
    return pictures


def _measured(board: Board, made: _Making, picture: Picture) -> Picture:
    """The finished unit with its unfinished size, a square's side once."""
    width = dimension(board, "unfinished", each(made.shown, lambda size: size.unfinished[0].length))
    height = dimension(board, "unfinished", each(made.shown, lambda size: size.unfinished[1].length))
    return with_extent(picture, width, "" if width == height else height, board)


def _scene(board: Board, made: _Making, end: str, what: str, picture: Picture, description: str) -> Scene:
    title = board.say("steps.title", name=unit_name(board, made.unit), what=board.say(f"steps.what.{what}"))
    id = f"unit-{made.unit.id}-{end}"
    return board.scene(id, picture, title, description)


def _letters(made: _Making, stage: Stage) -> list[str]:
    return [made.cloths.fabrics[shape.role] for view in stage.views for shape in view.shapes]


def _cut_extents(board: Board, made: _Making, place: int) -> list[str | None]:
    pieces = each(made.shown, lambda size: size.recipe.pieces[place])
    return each(pieces, lambda piece: spoken_extent(board, (piece.width.length, piece.height.length)))


def _unfinished_extents(board: Board, made: _Making) -> list[str | None]:
    sizes = each(made.shown, lambda size: size.unfinished)
    return each(sizes, lambda size: spoken_extent(board, (size[0].length, size[1].length)))


def _longest(planned: UnitSize) -> float:
    """The longest side of any piece of the unit as cut, or the share of the unit's own that counts for scale."""
    sides = [_sides(piece) for piece in planned.recipe.pieces]
    pieces = max(min(long, short * _LONG_COUNTS) if long > short * _LONG else long for long, short in sides)
    return max(pieces, _UNIT_SHARE * max(float(side) for side in planned.unfinished))


def _broken(width: Length, height: Length) -> tuple[Polygon, ...]:
    """A long strip in two parts with a break between them, else the piece as it is."""
    most = height * _LONG
    if width <= most:
        return (rectangle(width, height),)
    left, right = most * Fraction(13, 20), most * Fraction(6, 20)
    return rectangle(left, height), rectangle(right, height, most - right)


def _sides(piece: RecipePiece) -> tuple[float, float]:
    long, short = sorted((_number(piece.width.length), _number(piece.height.length)), reverse=True)
    return long, short


def _number(length: Length) -> float:
    return round(float(length), 6)
