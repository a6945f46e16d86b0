"""Which pairs to chain-piece in diagonal rows and in columns of a top: alike pairs one after another, with counts.

In: the sizes of a top on point, or in columns.
Out: a sentence with the pairs that begin its rows (or columns) by their parts, and how many of each by size.
Rule: two pairs are alike when they are of the same parts; those turned otherwise are kept apart within them. Setting
triangles at the left and at the lower edge are sewn on as mirror images, so that they make other pairs.
Never: a pair of parts that lie in different rows.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from patchwright.planning.plan import PlannedSize, TopItem
from patchwright.planning.pressing.tops import TopRow, column_rows, top_rows
from patchwright.typesetting.booklet import Block, Inline, Paragraph
from patchwright.typesetting.content.names import plain_name, varied
from patchwright.typesetting.content.pieces import one_piece
from patchwright.typesetting.content.scope import Scope, Valued, as_inlines, mark

MOST_KINDS = 4
"""More kinds of pairs than these are told in one number; such a top has hardly two pairs alike."""
Edge = Literal["", "left", "lower"]


@dataclass(frozen=True, slots=True)
class _Pair:
    """The parts of a pair by their ids, and the edge at which a setting triangle begins its row."""

    refs: tuple[str, str]
    edge: Edge


def chained_diagonals(scope: Scope, sizes: Sequence[PlannedSize], names: tuple[str, ...]) -> list[Block]:
    """The pairs that begin the diagonal rows of a center on point, or of all columns of a strippy quilt on point."""
    return _chained(scope, sizes, _diagonals, "rows", names)


def chained_columns(scope: Scope, sizes: Sequence[PlannedSize], names: tuple[str, ...]) -> list[Block]:
    """The pairs that begin the straight columns of a strippy quilt."""
    return _chained(scope, sizes, top_rows, "columns", names)


def _diagonals(size: PlannedSize) -> tuple[TopRow, ...]:
    return tuple(row for rows in column_rows(size) for row in rows) if size.setting == "strippy" else top_rows(size)


def _chained(
    scope: Scope, sizes: Sequence[PlannedSize], read: Callable[[PlannedSize], tuple[TopRow, ...]],
    lines: Literal["rows", "columns"], names: tuple[str, ...],
) -> list[Block]:
    """Nothing where a size has but one row of several parts."""
    rows = [[row for row in read(size) if not row.is_strip and len(row.items) > 1] for size in sizes]
    if min(map(len, rows)) < 2:
        return []
    first: dict[_Pair, tuple[TopItem, TopItem]] = {}
    counts: list[dict[_Pair, int]] = []
    turns: dict[_Pair, set[tuple[int, int]]] = {}
    for own in rows:
        counts.append({})
        for row in own:
            pair, lay = _read_pair(scope, row)
            first.setdefault(pair, (row.items[0], row.items[1]))
            counts[-1][pair] = counts[-1].get(pair, 0) + 1
            turns.setdefault(pair, set()).add(lay)
    labels = [size.label for size in sizes]
    if len(first) > MOST_KINDS:
        total = scope.by_size_inline(tuple(zip(labels, map(len, rows), strict=True)), scope.wording.number)
        said = scope.inlines(f"chain.{lines}", total=total)
    else:
        counted = {
            pair: tuple((label, own[pair]) for label, own in zip(labels, counts, strict=True) if pair in own)
            for pair in first
        }
        said = scope.inlines("chain.pairs", pairs=_told(scope, first, counted))
    more = [scope.say("chain.turned")] if any(len(lays) > 1 for lays in turns.values()) else []
    more += [scope.say("chain.more")] if any(len(row.items) > 2 for own in rows for row in own) else []
    return [Paragraph(as_inlines((said, *(f" {text}" for text in more))), sizes=names)]


def _told(
    scope: Scope, first: Mapping[_Pair, tuple[TopItem, TopItem]], counted: Mapping[_Pair, Valued[int]]
) -> tuple[Inline, ...]:
    """Each kind of pair by its parts with its counts, between semicolons, since each has commas of its own."""
    edges = {pair.edge for pair in first} - {""}
    between = scope.say("by-size.between-long")
    said: list[object] = []
    for pair, (one, other) in first.items():
        edge = pair.edge if len(edges) > 1 and pair.edge else "any"
        total = scope.by_size_inline(counted[pair], scope.wording.number)
        named = scope.inlines(
            f"chain.pair.{edge}", first=_called(scope, one), second=_called(scope, other), total=total
        )
        said += [between, named] if said else [named]
    return as_inlines(said)


def _read_pair(scope: Scope, row: TopRow) -> tuple[_Pair, tuple[int, int]]:
    """The pair that begins a row, and how its parts lie; a pair and the same turned by half are one."""
    first, second = row.items[:2]
    as_drawn = ((first.ref, _turn(scope, first, 0)), (second.ref, _turn(scope, second, 0)))
    turned = ((second.ref, _turn(scope, second, 2)), (first.ref, _turn(scope, first, 2)))
    edge = _edge(scope, first)
    (one, lay), (other, lies) = as_drawn if edge else min(as_drawn, turned)
    return _Pair((one, other), edge), (lay, lies)


def _turn(scope: Scope, item: TopItem, more: int) -> int:
    """Quarter turns; none for a plain piece whose print has no direction."""
    if item.kind == "piece" and not scope.piece(item.ref).upright:
        return 0
    return (item.orientation.turns + more) % 4


def _edge(scope: Scope, item: TopItem) -> Edge:
    """The edge of the quilt on which the long side of a side triangle lies; nothing for all other parts."""
    if item.part != "setting-triangles" or scope.piece(item.ref).then != "twice":
        return ""
    left = min(corner.x for corner in item.outline)
    return "left" if sum(corner.x == left for corner in item.outline) > 1 else "lower"


def _called(scope: Scope, item: TopItem) -> tuple[Inline, ...]:
    """`A1 triangle`, `A3 square`, `lantern block`."""
    if item.part == "setting-triangles":
        return scope.inlines("chain.triangle", piece=mark(item.ref))
    if item.kind == "piece":
        return one_piece(scope, item.ref)
    made = scope.assembly(item.ref)
    return scope.inlines("top.on-point.block", name=varied(scope, made, plain_name(made.block)))
