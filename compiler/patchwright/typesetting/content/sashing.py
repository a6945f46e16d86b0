"""How the rows of a top are sewn and joined: without sashing, with long or pieced strips, or with cornerstones.

In: the sizes whose tops are built in one way.
Out: the bodies of steps; numbers that differ by size stand at the end of the sentence.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from patchwright.planning.plan import PlannedSize
from patchwright.typesetting.booklet import Block, Inline, Paragraph
from patchwright.typesetting.content.chaining import chained_rows
from patchwright.typesetting.content.grid import Grid
from patchwright.typesetting.content.names import plain_name
from patchwright.typesetting.content.pressing import join_words, row_words
from patchwright.typesetting.content.pressing_remarks import nests_on_top
from patchwright.typesetting.content.quarters import left_open, quarter_steps
from patchwright.typesetting.content.row_measures import row_measures
from patchwright.typesetting.content.scope import Scope, as_inlines, mark

Body = list[Block]


@dataclass(frozen=True, slots=True)
class Way:
    """One way of building a top and the covered sizes that are built so."""

    name: str
    built: tuple[tuple[PlannedSize, Grid], ...]
    named: bool
    """Whether other sizes are built in another way, so that the steps must name theirs."""
    quarters: bool = False

    @property
    def grids(self) -> tuple[tuple[str, Grid], ...]:
        """(label, grid) of each size."""
        return tuple((size.label, grid) for size, grid in self.built)

    @property
    def end(self) -> str:
        """Whether sashing also runs around the outside."""
        return "frame" if self.grids[0][1].frame else "inner"

    @property
    def size_names(self) -> tuple[str, ...]:
        return tuple(size.name for size, _ in self.built) if self.named else ()


def joining_steps(scope: Scope, way: Way) -> list[Body]:
    """Sewing the rows, making what goes between them, and joining all."""
    start = ""
    if way.named:
        start = scope.say("only-for", sizes=scope.wording.listed_text([label for label, _ in way.grids]))
    sizes = tuple(size for size, _ in way.built)
    said = [_rows(scope, way, start), *([_between(scope, way, start)] if way.name != "plain" else [])]
    made: list[Body] = [[Paragraph(words, sizes=way.size_names)] if words else [] for words in said]
    if way.quarters:
        made[0].append(left_open(scope, sizes, way.size_names))
    for body, strips in zip(made, (False, True), strict=False):
        if body:
            chained = "" if strips else chained_rows(scope, sizes)
            body += [Paragraph(as_inlines((chained,)), sizes=way.size_names)] if chained else []
            body += row_measures(scope, sizes, strips, way.size_names)
    if way.quarters:
        made += quarter_steps(scope, sizes, start, way.size_names)
    else:
        made.append([Paragraph(_join(scope, way, start), sizes=way.size_names)])
    return [body for body in made if body]


def _join(scope: Scope, way: Way, start: str) -> tuple[Inline, ...]:
    """Row to row."""
    press = join_words(scope, [size for size, _ in way.built])
    if way.name != "plain":
        return scope.inlines(f"top.sashed.join.{way.end}", start=start, press=press)
    return scope.inlines(f"top.plain.join.{'nest' if nests_on_top(scope) else 'match'}", start=start, press=press)


def _rows(scope: Scope, way: Way, start: str) -> tuple[Inline, ...]:
    """Rows of blocks with sashing strips between them; a quilt one block wide, or sashed between rows, has none."""
    strips = _marks(scope, (piece for _, grid in way.grids for piece in grid.in_rows))
    if not strips:
        if all(size.across == 1 for size, _ in way.built):
            return ()
        press = row_words(scope, [size for size, _ in way.built], strips=False)
        return scope.inlines("top.plain.sew", start=start, press=press)
    count = _numbers(scope, way, lambda grid: scope.say("top.sashed.strips", count=grid.strips_in_row))
    press = row_words(scope, [size for size, _ in way.built], strips=False)
    return scope.inlines(f"top.sashed.row.{way.end}", start=start, count=count, pieces=strips, press=press)


def _between(scope: Scope, way: Way, start: str) -> tuple[Inline, ...]:
    """Sashing rows: one long strip each, or strips and cornerstones."""
    strips = _marks(scope, (piece for _, grid in way.grids for piece in grid.between))
    if not strips:
        return ()
    if way.name.startswith("long"):
        count = _numbers(scope, way, lambda grid: scope.say("top.sashed.strips", count=grid.sash_rows))
        return scope.inlines("top.sashed.long", start=start, count=count, pieces=strips)
    if way.name.startswith("strips"):
        if all(grid.strips_between == 1 for _, grid in way.grids):
            return ()
        rows = _numbers(scope, way, lambda grid: scope.say(
            "top.sashed.strip-row", rows=grid.sash_rows, strips=grid.strips_between
        ))
        press = row_words(scope, [size for size, _ in way.built], strips=True)
        return scope.inlines("top.sashed.strip-rows", start=start, rows=rows, pieces=strips, press=press)
    rows = _numbers(scope, way, lambda grid: _sash_row(scope, grid))
    stones = _marks(scope, (piece for _, grid in way.grids for piece in grid.stones))
    press = row_words(scope, [size for size, _ in way.built], strips=True)
    return scope.inlines(
        f"top.sashed.stones.{way.end}", start=start, rows=rows, pieces=strips, stones=stones, press=press
    )


def _sash_row(scope: Scope, grid: Grid) -> str:
    return scope.say("top.sashed.sash-row", rows=grid.sash_rows, strips=grid.strips_between, stones=grid.stones_between)


def _numbers(scope: Scope, way: Way, show: Callable[[Grid], str]) -> str:
    return scope.told(way.grids, show)


def _marks(scope: Scope, parts: Iterable[str]) -> tuple[Inline, ...]:
    """Pieces by their marks, strips and cornerstones that are blocks by their names."""
    blocks = {assembly.id: assembly.block for assembly in scope.plan.assemblies}
    return scope.listed([
        scope.inlines("top.on-point.block", name=plain_name(blocks[part])) if part in blocks else mark(part)
        for part in dict.fromkeys(parts)
    ])
