"""Plan, figures and words become a booklet.

In: a finished plan, its drawings by id, the words of one language, an edition, and the sizes to cover.
Out: a Booklet for the writers.
Never: a number that is not in the plan, nor a figure that the text does not name.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from patchwright.planning.plan import Plan
from patchwright.typesetting.booklet import Booklet, Contents, Section, SwatchInfo
from patchwright.typesetting.content.back import about, coloring
from patchwright.typesetting.content.before import before_you_start
from patchwright.typesetting.content.blocks import blocks
from patchwright.typesetting.content.borders import borders
from patchwright.typesetting.content.cover import make_cover
from patchwright.typesetting.content.cutting import cutting
from patchwright.typesetting.content.editions import Edition
from patchwright.typesetting.content.finishing import finishing
from patchwright.typesetting.content.introduction import introduction
from patchwright.typesetting.content.layouts import layouts
from patchwright.typesetting.content.requirements import requirements
from patchwright.typesetting.content.scope import Drawings, Scope
from patchwright.typesetting.content.top import top
from patchwright.typesetting.content.units import units
from patchwright.wording import Wording

Made = Section | None | tuple[Section, ...]

SECTIONS: dict[str, Callable[[Scope], Made]] = {
    "contents": lambda scope: _contents(scope),
    "introduction": introduction,
    "requirements": requirements,
    "cutting": cutting,
    "layouts": layouts,
    "units": units,
    "blocks": blocks,
    "top": top,
    "borders": borders,
    "finishing": finishing,
    "coloring": coloring,
    "about": about,
}
"""How each section is made; `before` is made last, since it explains the abbreviations of the others."""

WRITER_WORDS = (
    "page", "sizes", "figure", "step", "one-inch", "five-centimeters", "contents", "skip", "choose-size", "all-sizes",
)  # fmt: skip


def make_booklet(
    plan: Plan,
    figures: Drawings,
    wording: Wording,
    edition: Edition,
    sizes: Sequence[str],
    hatches: Sequence[str] = (),
) -> Booklet:
    """The booklet of an edition for the named sizes, in the plan's order.

    `hatches` are the names of the theme's hatches, for the fabrics' key in words.
    Raises MissingFigureError where a drawing that the text needs is lacking.
    """
    chosen = tuple(index for index, size in enumerate(plan.sizes) if size.name in sizes)
    if not chosen:
        raise ValueError(f"`{plan.id}` has none of the sizes {', '.join(sizes)}")
    scope = Scope(plan, figures, wording.measured_in(plan.system), edition, chosen)
    labels = scope.wording.listed_text([size.label for size in scope.sizes])
    return Booklet(
        id=_id(scope),
        title=plan.title,
        subtitle=scope.say("booklet.subtitle", count=len(chosen), sizes=labels),
        author=plan.rules.name,
        subject=plan.summary,
        language=wording.language,
        cover=make_cover(scope),
        sections=_sections(scope),
        swatches=_swatches(scope, hatches),
        sizes=tuple((size.name, size.label) for size in scope.sizes),
        running_head=scope.say("booklet.running-head", title=plan.title, release=plan.release),
        words=tuple((key, _word(scope, key)) for key in WRITER_WORDS),
    )


def _id(scope: Scope) -> str:
    """The pattern's id; with the names of the sizes where the booklet does not cover all of them."""
    if scope.edition.covers == "all" and len(scope.sizes) == len(scope.plan.sizes):
        return scope.plan.id
    return "-".join([scope.plan.id, *(size.name for size in scope.sizes)])


def _sections(scope: Scope) -> tuple[Section, ...]:
    """The edition's sections in its order, without those that this pattern has no use for."""
    made: dict[str, tuple[Section, ...]] = {}
    for name in scope.edition.sections:
        if name != "before":
            section = SECTIONS[name](scope)
            made[name] = () if section is None else section if isinstance(section, tuple) else (section,)
    others = [section for sections in made.values() for section in sections]
    made["before"] = (before_you_start(scope, others),)
    return tuple(section for name in scope.edition.sections for section in made[name])


def _contents(scope: Scope) -> Section:
    title = scope.say("words.contents")
    return Section("contents", title, (Contents(title),))


def _word(scope: Scope, key: str) -> str:
    """A word for the writers; what they fill in themselves stays in braces."""
    return scope.say(f"words.{key}", number="{number}", page="{page}", pages="{pages}")


def _swatches(scope: Scope, hatches: Sequence[str]) -> tuple[SwatchInfo, ...]:
    return tuple(
        SwatchInfo(
            fabric.letter,
            fabric.name,
            fabric.colors,
            scope.say(f"value.{fabric.value}"),
            fabric.hatch,
            _hatch_name(scope, hatches[fabric.hatch % len(hatches)]) if hatches else "",
        )
        for fabric in scope.plan.fabrics
        if scope.any(fabric.sizes)
    )


def _hatch_name(scope: Scope, name: str) -> str:
    """The hatch in words; a theme's own hatch that the wording does not know is called by the theme's name."""
    key = f"hatch.{name}"
    return scope.say(key) if scope.wording.has(key) else name
