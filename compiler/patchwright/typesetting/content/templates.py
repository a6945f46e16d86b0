"""Templates and foundations at true size: what to know before printing them, then their pages.

In: the drawings of the plan's templates and of units that are sewn to a foundation.
Out: the section, or nothing where the booklet needs neither.
Never: a template beside other words than its own, which stand in its drawing with its scale mark.
"""

from __future__ import annotations

from patchwright.typesetting.booklet import Block, Figure, Notice, Section
from patchwright.typesetting.content.before import print_scale
from patchwright.typesetting.content.cautions import cautions
from patchwright.typesetting.content.editions import file_sizes
from patchwright.typesetting.content.scope import Scope

MOST_PAGES = 400
_ALONE = 7.4
"""A template so high, in inches, stands on a page of its own, so that nothing is cut away with it."""


def before_printing(scope: Scope) -> Section | None:
    """What to check and to mind before templates are printed and cut by, where they stand alone."""
    if templates(scope) is None:
        return None
    sizes = scope.wording.listed_text([size.label for size in scope.sizes])
    title = scope.say("section.templates-of", title=scope.plan.title, sizes=sizes)
    return Section("before-printing", title, (*print_scale(scope), *cautions(scope)))


def templates(scope: Scope) -> Section | None:
    """Every template and foundation that a covered size needs, each page of it a figure of its own."""
    needed = {
        size.template for piece in scope.plan.pieces for size in scope.here(piece.sizes) if size is not None
    } - {""}
    own = [template.id for template in scope.plan.templates if template.id in needed]
    pages = [_pages(scope, f"template-{id}") for id in own]
    foundations = [
        found for unit in scope.plan.units for size in scope.sizes
        if (found := _pages(scope, f"foundation-{unit.id}-{size.name}"))
    ]
    if not (pages or foundations):
        return None
    if scope.edition.changes.folded:
        return _elsewhere(scope)
    blocks: list[Block] = [scope.paragraph("templates.print")]
    if pages:
        blocks.append(scope.paragraph("templates.words", seam=scope.plan.rules.seam))
    if foundations:
        blocks.append(scope.paragraph("templates.foundations"))
    if any(len(figures) > 1 for figures in (*pages, *foundations)):
        blocks.append(scope.paragraph("templates.tiles"))
    drawn = [figure for figures in (*pages, *foundations) for figure in figures]
    alone = "before-printing" in scope.edition.sections
    is_cut_out = drawn[0].scene.height < _ALONE
    return Section(
        "templates", scope.say("section.templates"), (*blocks, *drawn), new_page=is_cut_out and not alone
    )


def _elsewhere(scope: Scope) -> Section:
    """Where to find templates, which cannot be as small as half pages."""
    parts = (scope.plan.id, "templates", *file_sizes(scope.plan, scope.chosen))
    note = Notice("caution", scope.say("templates.elsewhere-title"), (
        scope.paragraph("templates.elsewhere", file="-".join(parts)),
    ))
    return Section("templates", scope.say("section.templates"), (note,))


def _pages(scope: Scope, id: str) -> tuple[Figure, ...]:
    """A drawing, or those of all its parts; nothing where there is none."""
    if id in scope.figures:
        return (scope.figure(id),)
    figures = []
    for number in range(1, MOST_PAGES):
        if f"{id}-{number}" not in scope.figures:
            break
        figures.append(scope.figure(f"{id}-{number}"))
    return tuple(figures)
