"""Plan, figures and words become a booklet.

In: a finished plan, its drawings by id, the words of one language, an edition, and the sizes to cover.
Out: a Booklet for the writers.
Never: a number that is not in the plan, nor a figure that the text does not name.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from patchwright.planning.plan import Plan
from patchwright.planning.pressing.press import with_pressing
from patchwright.typesetting.booklet import Booklet, Contents, Section, SwatchInfo
from patchwright.typesetting.booklet_tree import WORD_KEYS
from patchwright.typesetting.content.back import about, coloring
from patchwright.typesetting.content.bags import bags
from patchwright.typesetting.content.before import before_you_start
from patchwright.typesetting.content.blocks import blocks
from patchwright.typesetting.content.borders import borders
from patchwright.typesetting.content.class_sheet import class_sheet
from patchwright.typesetting.content.colorways import colorways
from patchwright.typesetting.content.cover import make_cover
from patchwright.typesetting.content.cutting import cutting
from patchwright.typesetting.content.editions import Edition, file_sizes
from patchwright.typesetting.content.finishing import finishing
from patchwright.typesetting.content.folding import folding
from patchwright.typesetting.content.introduction import introduction
from patchwright.typesetting.content.kit import kit
from patchwright.typesetting.content.labels import labels
from patchwright.typesetting.content.layouts import layouts
from patchwright.typesetting.content.requirements import requirements
from patchwright.typesetting.content.scope import Drawings, Scope
from patchwright.typesetting.content.templates import before_printing, templates
from patchwright.typesetting.content.top import top
from patchwright.typesetting.content.units import units
from patchwright.typesetting.content.upright import upright
from patchwright.typesetting.house_logo import SCENE as LOGO
from patchwright.wording import Wording

Made = Section | None | tuple[Section, ...]

SECTIONS: dict[str, Callable[[Scope], Made]] = {
    "contents": lambda scope: _contents(scope),
    "introduction": introduction,
    "requirements": requirements,
    "cutting": cutting,
    "layouts": layouts,
    "bags": bags,
    "units": units,
    "blocks": blocks,
    "top": top,
    "borders": borders,
    "finishing": finishing,
    "before-printing": before_printing,
    "templates": templates,
    "coloring": coloring,
    "colorways": colorways,
    "about": about,
    "folding": folding,
    "labels": labels,
    "kit": kit,
    "class": class_sheet,
}
"""How each section is made; `before` is made last, since it explains the abbreviations of the others."""


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
    scope = Scope(with_pressing(plan), figures, wording.measured_in(plan.system), edition, chosen)
    names = scope.wording.listed_text([size.label for size in scope.sizes])
    made = Booklet(
        id=_id(scope),
        title=plan.title,
        subtitle=scope.say("booklet.subtitle", count=len(chosen), sizes=names),
        author=plan.rules.name,
        subject=plan.summary,
        language=wording.language,
        cover=make_cover(scope),
        sections=_sections(scope),
        swatches=_swatches(scope, hatches),
        sizes=tuple((size.name, size.label) for size in scope.sizes),
        running_head=scope.say("booklet.running-head", title=plan.title, release=plan.release),
        words=tuple((key, _word(scope, key)) for key in WORD_KEYS),
        logo=scope.figure(LOGO) if LOGO in scope.figures and not edition.compact else None,
        pattern=plan.id,
        release=str(plan.release),
    )
    return upright(made) if edition.upright else made


def _id(scope: Scope) -> str:
    """The pattern's id with the edition's name, and the names of the sizes where it does not cover all of them.

    A size that is called as an edition is has a word before it, and the edition for all sizes has its name where it
    covers one of several, so that no two booklets share a name.
    """
    covers_some = len(scope.sizes) < len(scope.plan.sizes)
    is_said = scope.edition.named or (scope.edition.covers == "all" and covers_some and scope.single)
    parts = [scope.plan.id, *([scope.edition.name] if is_said else [])]
    if scope.edition.covers == "each" or covers_some:
        parts += file_sizes(scope.plan, scope.chosen)
    return "-".join(parts)


def _sections(scope: Scope) -> tuple[Section, ...]:
    """The edition's sections in its order, without those that this pattern has no use for."""
    made: dict[str, tuple[Section, ...]] = {}
    for name in scope.edition.sections:
        if name != "before":
            section = SECTIONS[name](scope)
            made[name] = () if section is None else section if isinstance(section, tuple) else (section,)
    others = [section for sections in made.values() for section in sections]
    if "before" in scope.edition.sections:
        made["before"] = (before_you_start(scope, others),)
    return tuple(section for name in scope.edition.sections for section in made[name])


def _contents(scope: Scope) -> Section:
    title = scope.say("words.contents")
    return Section("contents", title, (Contents(title),))


def _word(scope: Scope, key: str) -> str:
    """A word for the writers; what they fill in themselves stays in braces."""
    return scope.say(f"words.{key}", number="{number}", page="{page}", pages="{pages}", done="{done}", all="{all}")


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
