"""The last pages: the coloring page, and about the pattern and its publisher."""

from __future__ import annotations

from patchwright.typesetting.booklet import Block, Inline, Link, Paragraph, Section, Subheading, Words
from patchwright.typesetting.content.introduction import prose_blocks
from patchwright.typesetting.content.prose import SAFE_TARGETS
from patchwright.typesetting.content.scope import Scope


def coloring(scope: Scope) -> Section | None:
    """A page to color in, of the first size that has one."""
    figure = next((figure for size in scope.sizes for figure in scope.figure_if(f"coloring-{size.name}")), None)
    if figure is None:
        return None
    blocks: tuple[Block, ...] = (scope.paragraph("coloring.words"), figure)
    return Section("coloring", scope.say("section.coloring"), blocks)


def about(scope: Scope) -> Section:
    """Release, publisher, where to report a mistake, and the copyright line."""
    plan, imprint = scope.plan, scope.plan.rules.imprint
    blocks: list[Block] = list(prose_blocks(scope, plan.about))
    blocks.append(scope.paragraph("about.release", title=plan.title, release=plan.release, publisher=plan.rules.name))
    if imprint.address:
        blocks.append(Paragraph(_linked(imprint.address)))
    if imprint.corrections:
        blocks.append(Subheading(scope.say("about.corrections.title"), "part-corrections"))
        blocks.append(scope.paragraph("about.corrections.words", release=plan.release))
        blocks.append(Paragraph(_linked(imprint.corrections)))
    if imprint.copyright:
        blocks.append(Paragraph(scope.inlines("plain", text=imprint.copyright), "fine"))
    return Section("about", scope.say("section.about"), tuple(blocks))


def _linked(text: str) -> tuple[Inline, ...]:
    """An address as a link where it is one: https as it stands, a mail address as mailto."""
    word = Words(text)
    if " " in text:
        return (word,)
    if text.startswith(SAFE_TARGETS):
        return (Link(text, (Words(text.removeprefix("mailto:")),)),)
    return (Link(f"mailto:{text}", (word,)),) if "@" in text else (word,)
