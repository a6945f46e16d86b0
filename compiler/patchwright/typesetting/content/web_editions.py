"""The booklets that a pattern's web page can show: the whole one, and others that are of use on a screen.

In: a plan, its drawings by sizes, words, and the editions that the house asks for.
Out: views, all sizes together first, then each size.
Never: an edition that only changes how pages look; a screen has its own ways to do that.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from patchwright.planning.plan import Plan
from patchwright.typesetting.booklet import Booklet
from patchwright.typesetting.content.editions import EDITIONS
from patchwright.typesetting.content.make import make_booklet
from patchwright.typesetting.content.scope import Drawings
from patchwright.typesetting.web_views import View
from patchwright.wording import Wording

MAKERS = ("whole", "by-block", "labels")
"""What every maker can choose."""
ON_REQUEST = ("class", "kit")
"""What is shown only where the house builds that edition, since it is for teachers and shops."""


def web_views(
    plan: Plan,
    drawn: Callable[[tuple[str, ...]], Drawings],
    wording: Wording,
    sizes: tuple[str, ...],
    asked: Sequence[str] = (),
    hatches: Sequence[str] = (),
    colorway: str = "",
) -> tuple[View, ...]:
    """The views of the named sizes; `drawn` gives the drawings for some of them, `asked` are the house's editions.

    `colorway` names the colors of the plan to the page, where they are not the page's first.
    """
    shown = [*MAKERS, *(name for name in ON_REQUEST if name in asked)]
    groups = [sizes, *((name,) for name in sizes if len(sizes) > 1)]
    colors = next((way.label for way in plan.colorways if way.id == plan.colorway), "") or wording.say("colorways.own")
    views: list[View] = []
    for edition in shown:
        for place, group in enumerate(groups):
            booklet = _booklet(plan, drawn(group), wording, edition, group, hatches)
            views.append(View(booklet, edition, group[0] if place else "", colorway, colors))
    return tuple(views)


def _booklet(
    plan: Plan, figures: Drawings, wording: Wording, edition: str, sizes: tuple[str, ...], hatches: Sequence[str]
) -> Booklet:
    """The whole booklet is that of all sizes or of one, as in print."""
    several = len(sizes) > 1
    name = ("all-sizes" if several else "one-size") if edition == "whole" else edition
    return make_booklet(plan, figures, wording, EDITIONS[name], sizes, hatches)
