"""Pressing maps of the top: one for every way in which covered sizes are built and pressed, and what each stands for.

In: the plan's pressing and the drawings.
Out: a title, how many junctions nest, and the maps.
Never: a direction; the drawings have them.
"""

from __future__ import annotations

from typing import Literal

from patchwright.planning.plan import PlannedSize
from patchwright.planning.pressing.alike_tops import ShownTop, shown_tops
from patchwright.typesetting.booklet import Block, Figure, FigureRow, Paragraph, Subheading
from patchwright.typesetting.content.pressing_remarks import nesting_words
from patchwright.typesetting.content.scope import Scope, words


def top_maps(scope: Scope) -> list[Block]:
    """Nothing where no covered size has a seam outside its blocks."""
    shown = shown_tops(scope.plan, scope.pressing, scope.chosen)
    if not shown:
        return []
    said = nesting_words(scope) or map_lead(scope, "top")
    maps = [figure for top in shown for figure in _map(scope, top, len(shown) == 1)]
    laid = maps if len(maps) == 1 else [FigureRow(tuple(maps[at : at + 2])) for at in range(0, len(maps), 2)]
    return [Subheading(scope.say("press.map.title"), "pressing-map-top"), Paragraph(words(said)), *laid]


def map_lead(scope: Scope, of: Literal["blocks", "top"]) -> str:
    """The sentence that tells what the arrows of these maps mean, as the house presses."""
    key = "lead-open" if scope.pressing.rule == "open" else "lead"
    return scope.say(f"press.map.{key}", of=scope.say(f"press.map.of.{of}"))


def _map(scope: Scope, top: ShownTop, only: bool) -> tuple[Figure, ...]:
    """The map of one size; `only` where there is no other."""
    size = scope.plan.sizes[top.index]
    others = [scope.plan.sizes[index].label for index in top.stands_for if index != top.index]
    every = len(top.stands_for) == len(scope.chosen)
    key = "one" if scope.single else "own" if not others else "all" if only and every else "some"
    caption = scope.say(
        f"press.map.{key}", parts=_parts(scope, size), size=size.label, count=len(others),
        others=scope.wording.listed_text(others),
    )
    names = () if every else tuple(scope.plan.sizes[index].name for index in top.stands_for)
    return tuple(
        Figure(figure.scene, figure.caption, figure.sizes, floats=scope.single)
        for figure in scope.figure_if(f"pressing-top-{size.name}", caption, names)
    )


def _parts(scope: Scope, size: PlannedSize) -> str:
    """What a map of the top shows: `rows and borders`."""
    center = "medallion" if size.medallion else size.setting if size.setting == "strippy" else "rows"
    return scope.say(f"press.map.parts.{center}{'-bordered' if size.borders else ''}")
