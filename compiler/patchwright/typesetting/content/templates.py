"""Templates at true size: what to know before printing them, then one to a page.

In: the drawings of the plan's templates.
Out: the section, or nothing where no piece is cut by a template.
Never: a template beside other words than its own, which stand in its drawing with its scale mark.
"""

from __future__ import annotations

from patchwright.typesetting.booklet import Block, Figure, Section
from patchwright.typesetting.content.scope import Scope

MOST_PAGES = 400


def templates(scope: Scope) -> Section | None:
    """Every template that a covered size needs, each page of it a figure of its own."""
    needed = {
        size.template for piece in scope.plan.pieces for size in scope.here(piece.sizes) if size is not None
    } - {""}
    own = [template.id for template in scope.plan.templates if template.id in needed]
    pages = {id: _pages(scope, id) for id in own}
    if not own:
        return None
    blocks: list[Block] = [scope.paragraph("templates.words", seam=scope.plan.rules.seam)]
    if any(len(figures) > 1 for figures in pages.values()):
        blocks.append(scope.paragraph("templates.tiles"))
    blocks += [figure for id in own for figure in pages[id]]
    return Section("templates", scope.say("section.templates"), tuple(blocks), new_page=True)


def _pages(scope: Scope, id: str) -> tuple[Figure, ...]:
    """The drawing of a template, or those of all its parts."""
    if f"template-{id}" in scope.figures:
        return (scope.figure(f"template-{id}"),)
    figures = [scope.figure(f"template-{id}-1")]
    for number in range(2, MOST_PAGES):
        if f"template-{id}-{number}" not in scope.figures:
            break
        figures.append(scope.figure(f"template-{id}-{number}"))
    return tuple(figures)
