"""Strip piecing: units that are rows and columns of rectangles, made from strips sewn together and cut across.

In: the finished rectangles of a unit, and how many units one set of strips is to give.
Out: the strip sets that it takes, what to cut for them, and the stages of their making.
Rules (common practice, no source): a strip is as high as its patch + 2 seams, and so long that it gives all segments,
each as wide as its column + 2 seams, with half an inch or a centimeter and a half more for squaring up one end; only
strips about as long as the cloth is wide go with less, since there what lies toward the selvage is left too.
Never: a segment that is turned where that would turn a one-way print; such units are made from single pieces.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby, pairwise

from patchwright.core.geometry import rectangle
from patchwright.core.length import ZERO, Cut, Finished, Length
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
    StripRun,
    StripSet,
    TriangleRules,
)
from patchwright.methods.pressed import in_lines, pressing_view, seam_between
from patchwright.methods.staging import at, face, finished_stage, gap, mark, view
from patchwright.methods.straight import Tile, sewn, sewn_size

SQUARING = {"in": Length("1/2"), "cm": Length("3/2")}
"""What a strip set loses where one end is squared up."""
_DRAWN_WHOLE = 5
"""Segments up to which a strip set is drawn at its full length; a longer one is broken in its middle."""
_DRAWN_LEFT = 3
"""Segments drawn before the break; one more stands after it."""

Column = tuple[tuple[str, Length], ...]


@dataclass(frozen=True, slots=True)
class _Columns:
    """The columns of a unit from left to right, and which strip set each is cut from, turned or not."""

    sets: tuple[StripSet, ...]
    places: tuple[tuple[int, bool], ...]
    """(number of the set, whether the segment is turned half around)."""
    width: Length
    patches: tuple[tuple[int, ...], ...]
    """The numbers of each column's patches, from top to bottom."""

    def of_set(self, number: int) -> tuple[int, ...]:
        """The patches of the first column that a set gives, which lies as the set does."""
        return next(patches for patches, place in zip(self.patches, self.places, strict=True) if place[0] == number)


def strip_sets(tiles: tuple[Tile, ...]) -> tuple[StripSet, ...]:
    """The strip sets of a unit whose columns are all equally wide; a column and its reverse are one set."""
    return _columns(tiles).sets


def strip_seams(tiles: tuple[Tile, ...]) -> tuple[PatchSeam, ...]:
    """The seams within each column, then those between the columns."""
    return in_lines(_columns(tiles).patches)


def most_units(sets: tuple[StripSet, ...], seam: Length, room: Length) -> int:
    """How many units one run of strips gives at most, 0 where the segments of one are longer than a strip."""
    segments = (room / (sets[0].width + seam * 2)).floor()
    return segments // max(one.each for one in sets)


def strip_length(strip_set: StripSet, run: StripRun | None, units: int, rules: TriangleRules) -> Length:
    """How long the strips of a set are cut that gives its segments for so many units."""
    net = (strip_set.width + rules.seam * 2) * (strip_set.each * units)
    spare = SQUARING[rules.system]
    return net + spare if run is None else max(net, min(net + spare, run.room - spare))


def strip_recipe(request: Request, sets: tuple[StripSet, ...], units: int) -> Recipe:
    """Strips for so many units; every strip is a piece of its own, `set-1-strip-2`."""
    pieces = []
    for number, one in enumerate(sets, 1):
        length = Cut(strip_length(one, request.strips, units, request.rules))
        for place, (role, height) in enumerate(one.strips, 1):
            cut = Finished(height).cut(request.rules.seam)
            pieces.append(RecipePiece(f"set-{number}-strip-{place}", role, length, cut, 1))
    return Recipe("strips", tuple(pieces), units, (0,) * units, trim=False, rounding=ZERO)


def strip_stages(key: str, request: Request, tiles: tuple[Tile, ...], recipe: Recipe) -> tuple[Stage, ...]:
    """Strips into sets, sets into segments, segments into units: `sew`, `cut-apart`, `join`, `finished`."""
    columns, rules = _columns(tiles), request.rules
    segment = columns.width + rules.seam * 2
    sewing: list[Stage] = []
    cutting: list[Stage] = []
    for number, one in enumerate(columns.sets, 1):
        count, sewn_set = one.each * recipe.batch, _set_shapes(one, rules, one.each * recipe.batch)
        high = sum((height for _, height in one.strips), ZERO) + rules.seam * 2
        strips = tuple(piece.id for piece in recipe.pieces if piece.id.startswith(f"set-{number}-"))
        lengths = (("seam", rules.seam), ("height", high))
        patches = columns.of_set(number - 1)
        steps = (view(_strips_apart(one, rules, count)), _sewn_set(one, rules, count, patches))
        sewing.append(Stage("sew", f"{key}.strips.sew", steps, strips, lengths))
        cuts = (view(sewn_set, *_cross_cuts(segment, high, count)),)
        lengths = (("segment", segment), ("height", high))
        cutting.append(Stage("cut-apart", f"{key}.strips.cut-apart", cuts, lengths=lengths, gives=count))
    made = sewing + cutting
    if len(columns.places) > 1:
        views = view(_segments_apart(columns, rules)), _joined(tiles, columns, rules.seam)
        made.append(Stage("sew", f"{key}.strips.join", views, lengths=(("seam", rules.seam),)))
    size = sewn_size(tiles, rules.seam)
    sides = (size[0],) if size[0] == size[1] and len(columns.places) > 1 else size
    return (*made, finished_stage(f"{key}.finished", sewn(tiles, rules.seam), *sides))


def _columns(tiles: tuple[Tile, ...]) -> _Columns:
    sets: list[tuple[Column, Column]] = []
    counts: list[int] = []
    places: list[tuple[int, bool]] = []
    column: Column
    width = tiles[0].width
    ordered = sorted(range(len(tiles)), key=lambda number: (tiles[number].x, tiles[number].y))
    patches = [tuple(group) for _, group in groupby(ordered, key=lambda number: tiles[number].x)]
    for numbers in patches:
        column = tuple((tiles[number].role, tiles[number].height) for number in numbers)
        known = next((n for n, known in enumerate(sets) if column in known), None)
        if known is None:
            sets.append((column, column[::-1]))
            counts.append(0)
            known = len(sets) - 1
        counts[known] += 1
        places.append((known, column != sets[known][0]))
    turned = {number for number, is_turned in places if is_turned}
    made = tuple(StripSet(sets[n][0], width, count, n in turned) for n, count in enumerate(counts))
    return _Columns(made, tuple(places), width, tuple(patches))


def _column_tiles(column: Column, width: Length, x: Length = ZERO) -> tuple[Tile, ...]:
    made, y = [], ZERO
    for role, height in column:
        made.append(Tile(role, x, y, width, height))
        y += height
    return tuple(made)


def _spans(segment: Length, count: int) -> tuple[tuple[Length, Length], ...]:
    """Start and length of what is drawn of a strip set of so many segments: all, or two parts with a break between."""
    if count <= _DRAWN_WHOLE:
        return ((ZERO, segment * count + segment / 8),)
    left = segment * _DRAWN_LEFT + segment / 3
    start = left + segment / 6
    return (ZERO, left), (start, segment + segment / 3)


def _set_shapes(one: StripSet, rules: TriangleRules, count: int) -> tuple[StageShape, ...]:
    """A sewn strip set."""
    shapes: tuple[StageShape, ...] = ()
    for start, length in _spans(one.width + rules.seam * 2, count):
        shapes += sewn(_column_tiles(one.strips, length - rules.seam * 2), rules.seam, start)
    return shapes


def _sewn_set(one: StripSet, rules: TriangleRules, count: int, patches: tuple[int, ...]) -> StageView:
    """A sewn strip set with its seams, which are pressed before it is cut."""
    segment = one.width + rules.seam * 2
    end = _spans(segment, count)[0][1]
    marks, y = [], rules.seam
    for (_, height), (before, after) in zip(one.strips, pairwise(patches), strict=False):
        y += height
        marks.append(SeamMark(before, after, (at(end, y), at(ZERO, y))))
    return pressing_view(_set_shapes(one, rules, count), *marks)


def _joined(tiles: tuple[Tile, ...], columns: _Columns, seam: Length) -> StageView:
    """The segments sewn together, with the seams between them."""
    outlines = [tile.patch().outline for tile in tiles]
    marks = [seam_between(outlines, *pair, seam, seam) for pair in pairwise(columns.patches)]
    return pressing_view(sewn(tiles, seam), *marks)


def _strips_apart(one: StripSet, rules: TriangleRules, count: int) -> tuple[StageShape, ...]:
    """Its strips as cut, one below the other."""
    shapes, y = [], ZERO
    away = gap(one.strips[0][1])
    for role, height in one.strips:
        high = height + rules.seam * 2
        shapes += [
            face(role, rectangle(length, high, start, y))
            for start, length in _spans(one.width + rules.seam * 2, count)
        ]
        y += high + away
    return tuple(shapes)


def _cross_cuts(segment: Length, high: Length, count: int) -> tuple[StageMark, ...]:
    """Cuts between segments: after each one that is drawn, from the squared end on."""
    spans = _spans(segment, count)
    first = count if len(spans) == 1 else _DRAWN_LEFT
    cuts = [segment * number for number in range(1, first + 1)]
    if len(spans) > 1:
        cuts.append(spans[1][0] + spans[1][1] - segment / 8)
        cuts.append(spans[1][0] + segment / 3 - segment / 8)
    return tuple(mark("cut", at(x, ZERO), at(x, high)) for x in cuts)


def _segments_apart(columns: _Columns, rules: TriangleRules) -> tuple[StageShape, ...]:
    """The segments of a unit side by side, as they will be sewn."""
    shapes: tuple[StageShape, ...] = ()
    x, away = ZERO, gap(columns.width)
    for number, turned in columns.places:
        column = columns.sets[number].strips
        shapes += sewn(_column_tiles(column[::-1] if turned else column, columns.width), rules.seam, x)
        x += columns.width + rules.seam * 2 + away
    return shapes
