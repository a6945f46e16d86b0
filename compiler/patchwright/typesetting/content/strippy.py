"""How a strippy top is laid out and sewn: its columns, straight or in diagonal rows, then the long strips between them.

In: the covered sizes that are set in columns.
Out: the bodies of steps; numbers that differ by size stand at the end of the sentence.
Never: a count or a measure that was not read from the drawing.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from patchwright.core.length import Finished, Unfinished
from patchwright.planning.plan import PlannedSize, TopItem
from patchwright.typesetting.booklet import Block, Inline, Paragraph
from patchwright.typesetting.content.chained_tops import chained_columns, chained_diagonals
from patchwright.typesetting.content.on_point import triangles
from patchwright.typesetting.content.pieces import one_piece
from patchwright.typesetting.content.pressing import join_words, long_strips_words, row_words
from patchwright.typesetting.content.pressing_remarks import nests_on_top, second_way_key
from patchwright.typesetting.content.row_measures import diagonal_measures
from patchwright.typesetting.content.scope import Scope, mark

Body = list[Block]
Extent = tuple[Unfinished, Unfinished]


def column_extents(scope: Scope, size: PlannedSize) -> tuple[Extent, ...]:
    """Width and height of the columns of a strippy quilt, unfinished; those that differ in width apart."""
    columns: dict[int, list[TopItem]] = {}
    for item in size.items:
        if item.column is not None and item.part != "strips":
            columns.setdefault(item.column, []).append(item)
    seam = scope.plan.rules.seam
    found = [
        (max(item.x + item.width for item in items) - min(item.x for item in items),
         max(item.y + item.height for item in items) - min(item.y for item in items))
        for items in columns.values()
    ]
    return tuple(
        (Finished(width).unfinished(seam), Finished(height).unfinished(seam))
        for width, height in dict.fromkeys(found)
    )


def column_text(scope: Scope, size: PlannedSize) -> str:
    """`8 1/2 x 40 1/2`, or several such where columns differ."""
    return scope.wording.listed_text([scope.rectangle(extent) for extent in column_extents(scope, size)])


def strippy_steps(scope: Scope, sizes: tuple[PlannedSize, ...], start: str) -> list[Body]:
    """Laying out and sewing the columns, straight ones and those on point apart, then the strips and joining all."""
    straight = tuple(size for size in sizes if size.float is None)
    on_point = tuple(size for size in sizes if size.float is not None)
    steps: list[Body] = []
    for alike, tell in ((straight, _straight), (on_point, _on_point)):
        if alike:
            steps += tell(_Telling(scope, alike, start if len(alike) == len(sizes) else _only(scope, alike)))
    with_strips = tuple(size for size in sizes if size.strips)
    if with_strips:
        telling = _Telling(scope, with_strips, start if len(with_strips) == len(sizes) else _only(scope, with_strips))
        steps += telling.cut_strips()
    ways = dict.fromkeys(_edges(size) for size in with_strips)
    for way in ways:
        alike = tuple(size for size in with_strips if _edges(size) == way)
        steps.append(_Telling(scope, alike, start if len(alike) == len(sizes) else _only(scope, alike)).join(way))
    return steps


def _only(scope: Scope, sizes: tuple[PlannedSize, ...]) -> str:
    return scope.say("only-for", sizes=scope.wording.listed_text([size.label for size in sizes]))


def _edges(size: PlannedSize) -> str:
    """Whether strips lie at both sides too: `inner` where none do, `edged` with the same strips, else `edges`."""
    first = next(item for item in size.items if item.column == 1)
    if first.part != "strips":
        return "inner"
    return "edges" if {strip.place for strip in size.strips} == {"inner", "edge"} else "edged"


def _straight(telling: _Telling) -> list[Body]:
    return [telling.lay_out("top.strippy.lay-out"), [*telling.sew(), telling.measure()]]


def _on_point(telling: _Telling) -> list[Body]:
    laid = [*telling.lay_out("top.strippy.on-point.lay-out"), *telling.triangles()]
    return [laid, telling.sew_rows(), telling.join_rows(), [*telling.trim(), telling.measure()]]


@dataclass(frozen=True, slots=True)
class _Telling:
    scope: Scope
    sizes: tuple[PlannedSize, ...]
    start: str

    def lay_out(self, key: str) -> Body:
        columns = self._told(
            lambda size: self.scope.say("top.strippy.grid", columns=size.across, blocks=size.down)
        )
        body: Body = [self._say(key, columns=columns)]
        squares = self._pieces(lambda item: item.part == "setting")
        if squares:
            named = self.scope.listed([one_piece(self.scope, piece) for piece in squares])
            body.append(self._say("top.squares", pieces=named))
        lying = second_way_key(self.scope, self.sizes)
        if lying:
            body.append(self._say(lying, mark=self.scope.say("figures.second-mark")))
        return body

    def triangles(self) -> Body:
        """Cutting the triangles and laying them beside the columns."""
        found = [triangles(self.scope, size) for size in self.sizes]
        sides = self._marks(one.side for one in found if one.side)
        corners = self._marks(one.corner for one in found)
        counts = self._told(lambda size: self.scope.wording.number(triangles(self.scope, size).sides))
        key = "triangles" if sides else "corners"
        body: Body = [self._say(f"top.strippy.on-point.{key}", side=sides, corner=corners, counts=counts)]
        if any(self.scope.piece(one.corner).upright for one in found):
            body.append(self._say("top.strippy.on-point.one-way", side=sides, corner=corners))
        return body

    def sew(self) -> Body:
        press = row_words(self.scope, self.sizes, strips=False)
        chained = chained_columns(self.scope, self.sizes, self._names)
        return [self._say("top.strippy.sew", start=self.start, press=press), *chained]

    def sew_rows(self) -> Body:
        count = self._told(lambda size: self.scope.wording.number(size.down))
        press = row_words(self.scope, self.sizes, strips=False)
        return [
            self._say("top.strippy.on-point.sew", start=self.start, count=count, press=press),
            self._say("top.on-point.align"),
            *chained_diagonals(self.scope, self.sizes, self._names),
            *diagonal_measures(self.scope, self.sizes, False, self._names),
        ]

    def join_rows(self) -> Body:
        how = "nest" if nests_on_top(self.scope) else "match"
        corners = self._marks(triangles(self.scope, size).corner for size in self.sizes)
        press = join_words(self.scope, self.sizes)
        if all(size.down == 1 for size in self.sizes):
            return [self._say("top.strippy.on-point.last", corner=corners, press=press)]
        return [
            self._say(f"top.strippy.on-point.join.{how}", start=self.start, press=press),
            self._say("top.strippy.on-point.last", corner=corners, press=""),
        ]

    def trim(self) -> Body:
        seam = self.scope.plan.rules.seam
        values = tuple((size.label, seam + size.float.length) for size in self.sizes if size.float is not None)
        beyond = self.scope.by_size_inline(values, self.scope.wording.length)
        key = "trim-float" if any(length > seam for _, length in values) else "trim"
        return [self._say(f"top.strippy.on-point.{key}", start=self.start, beyond=beyond)]

    def measure(self) -> Paragraph:
        """What each column must measure before it meets a strip."""
        values = tuple((size.label, size) for size in self.sizes)
        extents = self.scope.by_size_inline(values, lambda size: column_text(self.scope, size))
        return Paragraph(self.scope.inlines("top.strippy.measure", size=extents), "measure", sizes=self._names)

    def cut_strips(self) -> list[Body]:
        """Joining the strips where they are joined, and cutting all of them to the columns' length."""
        made: list[Body] = []
        joined = [piece for piece in self._strips() if self._joins(piece)]
        if joined:
            key = f"top.strippy.strips.joined.{self.scope.plan.rules.strip_join}"
            made.append([self._say(key, start=self.start, pieces=self._marks(joined))])
        values = tuple((size.label, column_extents(self.scope, size)[0][1]) for size in self.sizes)
        high = self.scope.by_size_inline(values, self.scope.wording.length)
        pieces = self._marks(self._strips())
        return [*made, [self._say("top.strippy.strips.trim", start=self.start, high=high, pieces=pieces)]]

    def join(self, way: str) -> Body:
        """Columns and strips by turns, from the left."""
        inner = self._marks(self._strips("inner"))
        edges = self._marks(self._strips("edge"))
        press = long_strips_words(self.scope, self.sizes)
        pieces = inner or edges
        return [self._say(f"top.strippy.join.{way}", start=self.start, pieces=pieces, edges=edges, press=press)]

    def _joins(self, piece: str) -> bool:
        sizes = self.scope.piece(piece).sizes
        return any(
            (own := sizes[self.scope.plan.sizes.index(size)]) is not None and own.joins for size in self.sizes
        )

    def _strips(self, place: str = "") -> tuple[str, ...]:
        return tuple(dict.fromkeys(
            strip.piece for size in self.sizes for strip in size.strips if place in ("", strip.place)
        ))

    def _say(self, key: str, **values: object) -> Paragraph:
        return Paragraph(self.scope.inlines(key, **({"start": self.start} | values)), sizes=self._names)

    @property
    def _names(self) -> tuple[str, ...]:
        return tuple(size.name for size in self.sizes) if self.start else ()

    def _told(self, show: Callable[[PlannedSize], str]) -> str:
        return self.scope.told(tuple((size.label, size) for size in self.sizes), show)

    def _pieces(self, wanted: Callable[[TopItem], bool]) -> tuple[str, ...]:
        found = [item.ref for size in self.sizes for item in size.items if wanted(item) and item.kind == "piece"]
        return tuple(dict.fromkeys(found))

    def _marks(self, pieces: Iterable[str]) -> tuple[Inline, ...]:
        return self.scope.listed([mark(piece) for piece in dict.fromkeys(pieces)])
