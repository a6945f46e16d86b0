"""Mitered borders: sewing their strips together where several are mitered as one, sewing them on, and the corners.

In: one mitered border in every size.
Out: its steps; those of a group stand with its last border.
"""

from __future__ import annotations

from collections.abc import Iterable

from patchwright.core.length import Finished, Unfinished
from patchwright.planning.plan import PlannedBorder
from patchwright.typesetting.booklet import Block, Inline, Paragraph, Step
from patchwright.typesetting.content.buying import use_text
from patchwright.typesetting.content.pressing_borders import sets_words, sewn_on_words
from patchwright.typesetting.content.scope import Scope, Valued, mark

BySize = tuple[PlannedBorder | None, ...]


def mitered_steps(scope: Scope, id: str, by_size: BySize, joined: tuple[Inline, ...]) -> list[Step]:
    """All steps of a border that is mitered alone or comes last of its group; for others, where the steps stand."""
    names = scope.only(by_size)
    shown = scope.valued(by_size)
    group = next(border.joined for _, border in shown)
    bodies: list[tuple[Block, ...]] = [(Paragraph(joined),)] if joined else []
    if id != group[-1]:
        bodies.append((Paragraph(scope.inlines("borders.mitered.later", last=use_text(scope, group[-1]))),))
    else:
        bodies += _bodies(scope, shown[0][1], _widths(scope, shown))
        after = scope.by_size_inline(tuple((label, border.after) for label, border in shown), scope.rectangle)
        bodies[-1] += (Paragraph(scope.inlines("borders.measure", size=after), "measure"),)
    return [Step(f"step-{id}-{number}", number, body, names) for number, body in enumerate(bodies, 1)]


def _bodies(scope: Scope, border: PlannedBorder, widths: Valued[Unfinished]) -> list[tuple[Block, ...]]:
    """Sewing the strips of a group together, sewing them on, and mitering a corner; `widths` are those of a set."""
    group = border.joined
    made: list[tuple[Block, ...]] = []
    pieces = _marks((border.side_piece, border.end_piece))
    key = "strips"
    if len(group) > 1:
        names = scope.wording.listed_text([use_text(scope, id) for id in group])
        wide = scope.by_size_inline(widths, scope.wording.length)
        sets = scope.inlines("borders.mitered.together", borders=names, press=sets_words(scope, group), wide=wide)
        made.append((Paragraph(sets),))
        key = "sets"
    seam = scope.wording.length(scope.plan.rules.seam)
    listed = scope.listed(pieces)
    press = sewn_on_words(scope, group[0], "side")
    made.append((Paragraph(scope.inlines(f"borders.mitered.sew-{key}", pieces=listed, seam=seam, press=press)),))
    made.append((Paragraph(scope.inlines("borders.mitered.fold")),))
    made.append((Paragraph(scope.inlines("borders.mitered.seam", seam=seam)),))
    return made


def _widths(scope: Scope, shown: Valued[PlannedBorder]) -> Valued[Unfinished]:
    """How wide a set of the group's strips is, sewn side by side."""
    sizes = {size.label: size for size in scope.sizes}
    found: list[tuple[str, Unfinished]] = []
    for label, border in shown:
        widths = [own.width.length for own in sizes[label].borders if own.id in border.joined]
        found.append((label, Finished(sum(widths[1:], widths[0])).unfinished(scope.plan.rules.seam)))
    return tuple(found)


def _marks(pieces: Iterable[str]) -> list[tuple[Inline, ...]]:
    return [mark(piece) for piece in dict.fromkeys(pieces)]
