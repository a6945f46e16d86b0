"""How a top is sewn in quarters: which seam of each row stays open, joining rows to quarters, and quarters to the top.

In: the sizes that are sewn in quarters.
Out: what is said beside the steps of rows, and the bodies of the steps that follow them.
Never: where a top is divided; that is planned.
"""

from __future__ import annotations

from patchwright.core.length import Finished, Unfinished
from patchwright.planning.plan import PlannedSize
from patchwright.planning.pressing.drawing import as_top_pressing
from patchwright.planning.pressing.tops import SIDES, STRIPS, TopRow, quarter_rows
from patchwright.typesetting.booklet import Block, Inline, Paragraph
from patchwright.typesetting.content.pressing import quarter_words, way_words
from patchwright.typesetting.content.pressing_remarks import nests_on_top
from patchwright.typesetting.content.scope import Scope, words

Body = list[Block]
Extent = tuple[Unfinished, Unfinished]


def left_open(scope: Scope, sizes: tuple[PlannedSize, ...], names: tuple[str, ...]) -> Block:
    """After which block of a row a seam is left open, or after which sash."""
    ends = tuple((size.label, _end_of_left(size)) for size in sizes)
    after = scope.by_size_inline(ends, lambda end: scope.say(f"top.quarters.after.{end[0]}", number=end[1]))
    strips = any(row.is_strip for size in sizes for half in quarter_rows(size) for row in half[0])
    key = "sashed" if strips else "plain"
    return Paragraph(scope.inlines(f"top.quarters.open.{key}", after=after), sizes=names)


def _end_of_left(size: PlannedSize) -> tuple[str, int]:
    """With what the left halves of rows of blocks end, and how many blocks they have."""
    row = next(row for row in quarter_rows(size)[0][0] if not row.is_strip)
    last = "sashing" if row.items[-1].part in STRIPS else "block"
    return last, sum(item.part in ("block", "setting") for item in row.items)


def quarter_steps(scope: Scope, sizes: tuple[PlannedSize, ...], start: str, names: tuple[str, ...]) -> list[Body]:
    """Joining rows to quarters, and the quarters."""
    ends = tuple((size.label, _end_of_upper(quarter_rows(size)[0][0])) for size in sizes)
    last = scope.by_size_inline(ends, lambda end: scope.say(f"top.quarters.last.{end[0]}", number=end[1]))
    joined = scope.inlines("top.quarters.rows", start=start, last=last)
    ways = as_top_pressing(scope.pressing, sizes[0])
    (upper,), (lower,) = ways.within
    same = scope.say("press.quarters.both" if upper == lower else "press.quarters.halves",
                     upper=way_words(scope, upper, "rows"), lower=way_words(scope, lower, "rows"))
    middle = scope.say("press.one", way=way_words(scope, ways.between[0], "columns"))
    how = "nest" if nests_on_top(scope) else "match"
    halves = scope.inlines(f"top.quarters.halves.{how}", start=start, press=same)
    return [
        [Paragraph(joined, sizes=names), Paragraph(words(quarter_words(scope, sizes)), sizes=names),
         Paragraph(_measures(scope, sizes), "measure", sizes=names)],
        [Paragraph(halves, sizes=names), Paragraph(scope.inlines("top.quarters.whole", press=middle), sizes=names)],
    ]


def _end_of_upper(rows: tuple[TopRow, ...]) -> tuple[str, int]:
    """With what the upper quarters end, and the number, on the layout, of their last row of blocks."""
    last = max(row.number for row in rows if not row.is_strip) + 1
    return ("sashing" if rows[-1].is_strip else "block"), last


def _measures(scope: Scope, sizes: tuple[PlannedSize, ...]) -> tuple[Inline, ...]:
    """What the quarters should measure: in words for one size, else in the table of the center."""
    if len(sizes) > 1:
        return scope.inlines("top.quarters.measure-table")
    made: dict[str, list[str]] = {}
    for name, extent in quarter_extents(scope, sizes[0]).items():
        made.setdefault(scope.rectangle(extent), []).append(scope.say(f"top.quarters.{name}"))
    if len(made) == 1:
        return scope.inlines("top.quarters.measure-all", size=next(iter(made)))
    return scope.inlines("top.quarters.measure", sizes=scope.wording.listed_text([
        scope.say("top.quarters.extent", size=text, quarters=scope.wording.listed_text(names))
        for text, names in made.items()
    ]))


def quarter_extents(scope: Scope, size: PlannedSize) -> dict[str, Extent]:
    """The unfinished size of each quarter, by its place; nothing for a top that is not sewn in quarters."""
    made = {}
    for half, up in zip(quarter_rows(size), ("upper", "lower"), strict=False):
        for rows, side in zip(half, SIDES, strict=True):
            first, last = rows[0].items[0], rows[-1].items[-1]
            sides = last.x + last.width - first.x, last.y + last.height - first.y
            wide, high = (Finished(side).unfinished(scope.plan.rules.seam) for side in sides)
            made[f"{up}-{side}"] = wide, high
    return made
