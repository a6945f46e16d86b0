"""What rows and columns must measure before they are joined, in words: those of blocks, and diagonal ones of the top.

In: an assembly, or sizes of the top.
Out: a paragraph, or nothing where nothing is sewn; rows that measure alike are told together.
Never: a length that the plan does not have.
"""

from __future__ import annotations

from collections.abc import Sequence

from patchwright.core.length import Finished
from patchwright.planning.measures import DiagonalRow, Extent, diagonal_extents, line_extents
from patchwright.planning.plan import Assembly, PlannedSize
from patchwright.planning.pressing.tops import first_chain, sewn_rows, top_rows
from patchwright.typesetting.booklet import Block, Paragraph
from patchwright.typesetting.content.scope import Scope, Valued, words


def line_measures(scope: Scope, assembly: Assembly) -> list[Block]:
    """`Each row should measure …`; else the rows by number; nothing of rows that are one part."""
    seam = scope.plan.rules.seam
    found = tuple(
        (size.label, extents) for size, index in zip(scope.sizes, scope.chosen, strict=True)
        if (extents := line_extents(assembly, index, seam))
    )
    alike: dict[Valued[Extent], list[int]] = {}
    for number, line in enumerate(assembly.lines):
        numbers = alike.setdefault(tuple((label, extents[number]) for label, extents in found), [])
        numbers += [number + 1] if len(line) > 1 else []
    told = {values: numbers for values, numbers in alike.items() if numbers}
    if not told:
        return []
    if len(alike) == 1:
        size = scope.by_size_inline(next(iter(told)), scope.extent)
        return [Paragraph(scope.inlines(f"blocks.line-measure.{assembly.axis}", size=size), "measure")]
    lines = [
        scope.say(
            f"blocks.line.{assembly.axis}", size=scope.by_size_inline(values, scope.extent), count=len(numbers),
            numbers=scope.wording.listed_text([str(number) for number in numbers]),
        )
        for values, numbers in told.items()
    ]
    return [Paragraph(words(" ".join(lines)), "measure")]


def row_measures(scope: Scope, sizes: Sequence[PlannedSize], strips: bool, names: tuple[str, ...]) -> list[Block]:
    """What the straight rows of blocks, or of sashing, measure that are sewn of several parts; equal ones told once.

    Of tops in quarters, both halves of the rows. Nothing where a size has no such row; `names` are the sizes to name.
    """
    left, right = (_row_extents(scope, sizes, strips, side) for side in (False, True))
    if not all(extents for _, extents in left):
        return []
    if all(extents for _, extents in right):
        key = "top.quarters.row-measure-same" if left == right else "top.quarters.row-measure"
        said = scope.inlines(key, left=_told(scope, left), right=_told(scope, right))
    else:
        several = max(len(extents) for _, extents in left)
        said = scope.inlines("top.row-measure", count=several, size=_told(scope, left))
    return [Paragraph(said, "measure", sizes=names)]


def _row_extents(
    scope: Scope, sizes: Sequence[PlannedSize], strips: bool, right: bool
) -> Valued[tuple[Extent, ...]]:
    """Width and height, unfinished, of rows of several parts, or of their halves on one side; equal ones once."""
    seam = scope.plan.rules.seam
    return tuple(
        (size.label, tuple(dict.fromkeys(
            (Finished(row.items[-1].x + row.items[-1].width - row.items[0].x).unfinished(seam),
             Finished(row.items[0].height).unfinished(seam))
            for row in sewn_rows(size)
            if row.is_strip == strips and len(row.items) > 1 and bool(row.before) == right
        )))
        for size in sizes
    )


def _told(scope: Scope, found: Valued[tuple[Extent, ...]]) -> str:
    return scope.by_size_inline(
        found, lambda extents: scope.wording.listed_text([scope.rectangle(extent) for extent in extents])
    )


def diagonal_measures(scope: Scope, sizes: Sequence[PlannedSize], strips: bool, names: tuple[str, ...]) -> list[Block]:
    """How high diagonal rows are, and how long between the seams of their ends; `names` are the sizes to name."""
    found = tuple(
        (size.label, diagonal_extents(first_chain(size) or top_rows(size), strips, scope.plan.rules.seam))
        for size in sizes
    )
    if not all(rows for _, rows in found):
        return []
    high = scope.by_size_inline(
        tuple((label, rows[0].high) for label, rows in found), scope.wording.length,
    )
    lengths = tuple((label, _lengths(scope, rows)) for label, rows in found)
    longest = max((own for _, own in lengths), key=len)
    # Rows of a smaller size are among those of the largest, unless its blocks differ.
    if all(own == longest[: len(own)] for _, own in lengths):
        lengths = (("", longest),)
    between = scope.by_size_inline(lengths, lambda own: scope.wording.listed_text(list(own)))
    key = "sashing" if strips else "blocks"
    text = scope.inlines(f"top.on-point.row-measure.{key}", high=high, between=between, count=len(longest))
    return [Paragraph(text, "measure", sizes=names)]


def _lengths(scope: Scope, rows: Sequence[DiagonalRow]) -> tuple[str, ...]:
    """From the shortest to the longest, each once."""
    return tuple(scope.wording.length(own) for own in sorted({row.between.length for row in rows}))
