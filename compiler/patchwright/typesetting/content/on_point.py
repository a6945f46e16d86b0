"""How a top on point is laid out and sewn: diagonal rows with triangles at their ends, corners last, and the trimming.

In: the covered sizes that are set on point.
Out: the bodies of steps; numbers that differ by size stand at the end of the sentence.
Never: a count that was not counted in the drawing.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from patchwright.core.length import Length
from patchwright.planning.plan import PlannedSize, TopItem
from patchwright.typesetting.booklet import Block, Inline, Paragraph
from patchwright.typesetting.content.chained_tops import chained_diagonals
from patchwright.typesetting.content.names import plain_name, varied
from patchwright.typesetting.content.pieces import one_piece
from patchwright.typesetting.content.pressing import join_words, row_words
from patchwright.typesetting.content.pressing_remarks import nests_on_top, second_way_key
from patchwright.typesetting.content.row_measures import diagonal_measures
from patchwright.typesetting.content.scope import Scope, mark

Body = list[Block]
TRIANGLES = "setting-triangles"


@dataclass(frozen=True, slots=True)
class Triangles:
    """The setting triangles of one size: the piece that sides and corners are cut from, and how many sides."""

    side: str
    """Nothing where the quilt is one block, which has corners alone."""
    corner: str
    sides: int


def triangles(scope: Scope, size: PlannedSize) -> Triangles:
    """Read the triangles of a size from its drawing."""
    found = [item for item in size.items if item.part == TRIANGLES]
    sides = [item for item in found if scope.piece(item.ref).then == "twice"]
    corner = next(item.ref for item in found if scope.piece(item.ref).then == "once")
    return Triangles(sides[0].ref if sides else "", corner, len(sides))


def diagonal_rows(size: PlannedSize) -> int:
    """How many diagonal rows of blocks a top on point has."""
    return len({item.row for item in size.items if item.part in ("block", "setting")})


def is_single(size: PlannedSize) -> bool:
    """Whether the center of a medallion is one block."""
    return size.medallion and size.across == size.down == 1 and size.sash_width is None


def single_name(scope: Scope, size: PlannedSize) -> str:
    """What the block in the center of a medallion is called."""
    block = next(item for item in size.items if item.part == "block")
    return plain_name(scope.assembly(block.ref).block)


def on_point_steps(scope: Scope, sizes: tuple[PlannedSize, ...], start: str) -> list[Body]:
    """Laying out, cutting the triangles, sewing the rows, joining them, corners and trimming."""
    steps: list[Body] = []
    ways = dict.fromkeys(_way(size) for size in sizes)
    for way in ways:
        alike = tuple(size for size in sizes if _way(size) == way)
        said = start
        if len(ways) > 1:
            said = scope.say("only-for", sizes=scope.wording.listed_text([size.label for size in alike]))
        telling = _Telling(scope, alike, said)
        if way == "single":
            steps += [telling.lay_out_single(), telling.sew_single(), telling.trim()]
            continue
        steps += [telling.lay_out(), telling.sew()]
        steps += [telling.sash_rows()] if way != "plain" else []
        steps += [telling.join(), telling.trim()]
    return steps


def _way(size: PlannedSize) -> str:
    """How the rows are joined: `plain`, with `stones` in the sashing, or with `long` strips; or `single`."""
    if is_single(size):
        return "single"
    return "plain" if size.sash_width is None else "stones" if size.cornerstones else "long"


@dataclass(frozen=True, slots=True)
class _Telling:
    scope: Scope
    sizes: tuple[PlannedSize, ...]
    start: str

    def lay_out(self) -> Body:
        scope = self.scope
        rows = self._told(lambda size: scope.say("top.on-point.edges", across=size.across, down=size.down))
        body: Body = [self._say("top.on-point.sashed.place" if self._sashed else "top.on-point.lay-out", rows=rows)]
        between = [
            *(one_piece(scope, piece) for piece in self._between("piece")),
            *(scope.inlines("top.on-point.block", name=varied(scope, made, plain_name(made.block)))
              for made in map(scope.assembly, self._between("assembly"))),
        ]
        if between:
            counts = self._told(lambda size: scope.wording.number(len(_between(size))))
            body.append(self._say("top.on-point.between", parts=scope.listed(between), counts=counts))
        sides = self._told(lambda size: scope.wording.number(triangles(scope, size).sides))
        key = "top.on-point.triangles" if any(self._sides()) else "top.on-point.corners"
        body.append(self._say(key, side=self._marks(self._sides()),
                              corner=self._marks(self._corners()), counts=sides))
        if any(scope.piece(piece).upright for piece in self._corners()):
            marks = self._marks(self._sides()), self._marks(self._corners())
            body.append(self._say("top.on-point.one-way", side=marks[0], corner=marks[1]))
        if self._sashed:
            body.append(self._say("top.on-point.sashed.lay-out", pieces=self._marks(self._sashing(between=False))))
        lying = second_way_key(scope, self.sizes)
        if lying:
            body.append(self._say(lying, mark=scope.say("figures.second-mark")))
        return body

    def lay_out_single(self) -> Body:
        """One block and what is cut for its corners."""
        names = dict.fromkeys(single_name(self.scope, size) for size in self.sizes)
        body: Body = [self._say("top.on-point.single.lay-out", name=self.scope.wording.listed_text(list(names)))]
        corner = self._marks(self._corners())
        body.append(self._say("top.on-point.corners", corner=corner))
        if any(self.scope.piece(piece).upright for piece in self._corners()):
            body.append(self._say("top.on-point.single.one-way", corner=corner))
        return body

    def sew_single(self) -> Body:
        """Two triangles on opposite sides, then the other two."""
        corner = self._marks(self._corners())
        press = row_words(self.scope, self.sizes, strips=False)
        last = join_words(self.scope, self.sizes)
        return [self._say("top.on-point.single.sew", start=self.start, corner=corner, press=press),
                self._say("top.on-point.single.last", corner=corner, press=last)]

    def sew(self) -> Body:
        count = self._told(lambda size: self.scope.wording.number(diagonal_rows(size)))
        key = "top.on-point.sashed.sew" if self._sashed else "top.on-point.sew"
        press = row_words(self.scope, self.sizes, strips=False)
        said = [self._say(key, start=self.start, count=count, press=press), self._say("top.on-point.align")]
        chained = chained_diagonals(self.scope, self.sizes, self._names)
        return [*said, *chained, *self._measured(strips=False)]

    def sash_rows(self) -> Body:
        """Rows of sashing, which have half cornerstones or slanted tips at their ends."""
        rows = self._told(lambda size: self.scope.wording.number(diagonal_rows(size) + 1))
        strips = self._marks(self._sashing(between=True))
        if _way(self.sizes[0]) == "long":
            return [self._say("top.on-point.sashed.long", start=self.start, pieces=strips, count=rows)]
        stones = [item for size in self.sizes for item in size.items if item.part == "cornerstones"]
        halves = self._marks(dict.fromkeys(item.ref for item in stones if self.scope.piece(item.ref).then == "twice"))
        whole = self._marks(dict.fromkeys(item.ref for item in stones if self.scope.piece(item.ref).then == "none"))
        key = "stones" if whole else "halves"
        return [
            self._say("top.on-point.sashed.cut-halves", start=self.start, halves=halves),
            self._say(f"top.on-point.sashed.{key}", pieces=strips, stones=whole, halves=halves, count=rows,
                      press=row_words(self.scope, self.sizes, strips=True)),
            *self._measured(strips=True),
        ]

    def join(self) -> Body:
        last = self._say("top.on-point.last", corner=self._marks(self._corners()))
        how = "nest" if nests_on_top(self.scope) else "match"
        key = "top.on-point.sashed.join" if self._sashed else f"top.on-point.join.{how}"
        return [self._say(key, start=self.start, press=join_words(self.scope, self.sizes)), last]

    @property
    def _sashed(self) -> bool:
        return self.sizes[0].sash_width is not None

    def _sashing(self, between: bool) -> tuple[str, ...]:
        """Pieces of sashing in the rows of blocks, or in the rows between them."""
        blocks = {(size.name, item.row) for size in self.sizes for item in size.items if item.part == "block"}
        return tuple(dict.fromkeys(
            item.ref for size in self.sizes for item in size.items
            if item.part == "sashing" and ((size.name, item.row) in blocks) != between
        ))

    def trim(self) -> Body:
        seam = self.scope.plan.rules.seam
        values = tuple((size.label, seam + size.float.length) for size in self.sizes if size.float is not None)
        beyond = self.scope.by_size_inline(values, self.scope.wording.length)
        trimmed = [size for size in self.sizes if _is_trimmed(size)]
        if len(trimmed) == len(self.sizes):
            extents = tuple((size.label, size.center) for size in self.sizes)
            center = self.scope.by_size_inline(extents, self.scope.rectangle)
            return [self._say("top.on-point.trim-to", start=self.start, size=center, beyond=beyond)]
        floating = any(length > seam for _, length in values)
        key = "top.on-point.trim-float" if floating else "top.on-point.trim"
        if self._sashed:
            key = f"top.on-point.sashed.trim-{_way(self.sizes[0])}"
        return [self._say(key, start=self.start, beyond=beyond)]

    def _measured(self, strips: bool) -> Body:
        return diagonal_measures(self.scope, self.sizes, strips, self._names)

    @property
    def _names(self) -> tuple[str, ...]:
        return tuple(size.name for size in self.sizes) if self.start else ()

    def _say(self, key: str, **values: object) -> Paragraph:
        return Paragraph(self.scope.inlines(key, **({"start": self.start} | values)), sizes=self._names)

    def _told(self, show: Callable[[PlannedSize], str]) -> str:
        return self.scope.told(tuple((size.label, size) for size in self.sizes), show)

    def _between(self, kind: str) -> tuple[str, ...]:
        return tuple(dict.fromkeys(item.ref for size in self.sizes for item in _between(size) if item.kind == kind))

    def _sides(self) -> tuple[str, ...]:
        found = [triangles(self.scope, size).side for size in self.sizes]
        return tuple(dict.fromkeys(piece for piece in found if piece))

    def _corners(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys(triangles(self.scope, size).corner for size in self.sizes))

    def _marks(self, pieces: Iterable[str]) -> tuple[Inline, ...]:
        return self.scope.listed([mark(piece) for piece in pieces])


def _between(size: PlannedSize) -> tuple[TopItem, ...]:
    """What lies between four blocks: those on the crossings of the lines between rows and columns of blocks."""
    placed = [item for item in size.items if item.part in ("block", "setting") and item.on_point]
    left = min(item.x for item in placed)
    half: Length = size.columns[0].length / 2
    return tuple(
        item for item in placed
        if ((item.x - left) / half).rational() % 2 == 1
    )


def _is_trimmed(size: PlannedSize) -> bool:
    """Whether the center is trimmed to a size on the ruler, so that the float is what is left."""
    return size.float is not None and not size.float.length.is_rational and size.center[0].length.is_rational
