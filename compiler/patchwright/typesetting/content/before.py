"""Before you start: what the pattern assumes, words and abbreviations, tests, supplies, pressing and cautions."""

from __future__ import annotations

from collections.abc import Sequence

from patchwright.core.length import Finished, Length
from patchwright.typesetting.booklet import Block, Bullets, Inline, Notice, Paragraph, ScaleMark, Section, Subheading
from patchwright.typesetting.content.cautions import cautions
from patchwright.typesetting.content.plain import section_text
from patchwright.typesetting.content.scope import Scope, strong
from patchwright.typesetting.content.supplies import supplies
from patchwright.typesetting.content.trial import trial_block

TERMS = ("finished", "unfinished", "cut", "right-sides-together")
ABBREVIATIONS = ("inch", "wof", "yd", "cm", "m")
"""Each has a sign, for which the booklet's other pages are searched, and a meaning in words."""


def before_you_start(scope: Scope, others: Sequence[Section]) -> Section:
    """Everything to know before the first cut; abbreviations are those that the other sections use."""
    blocks: tuple[Block, ...] = (
        Paragraph(scope.inlines("before.read-first"), "lead"),
        *_assumptions(scope),
        *_terms(scope, others),
        *_seam_test(scope),
        *print_scale(scope),
        *supplies(scope),
        *_pressing(scope),
        *trial_block(scope),
        *cautions(scope),
    )
    return Section("before", scope.say("section.before"), blocks)


def _assumptions(scope: Scope) -> tuple[Block, ...]:
    rules = scope.plan.rules
    one_way = any(fabric.direction != "none" and scope.any(fabric.sizes) for fabric in scope.plan.fabrics)
    items = [
        scope.inlines("before.assume.width", width=rules.usable_width),
        scope.inlines("before.assume.seam", seam=rules.seam),
        scope.inlines("before.assume.strips"),
        scope.inlines("before.assume.right-sides"),
        scope.inlines("before.assume.wash"),
    ]
    items += [scope.inlines("before.assume.one-way")] if one_way else []
    elsewhere = scope.plan.elsewhere
    items += [scope.inlines(f"before.assume.elsewhere-{elsewhere.system}")] if elsewhere is not None else []
    return (Subheading(scope.say("before.assume.title"), "part-assumptions"), Bullets(tuple(items)))


def _terms(scope: Scope, others: Sequence[Section]) -> tuple[Block, ...]:
    """The words for sizes, and the abbreviations that the other sections use."""
    seam = scope.plan.rules.seam
    example = Finished(Length(2 if scope.plan.system == "in" else 5))
    values = {"finished": example, "unfinished": example.unfinished(seam), "seam": seam}
    terms = [
        scope.inlines(
            "before.term",
            term=strong(scope.say(f"term.{term}.name")),
            meaning=scope.say(f"term.{term}.meaning", **values),
        )
        for term in TERMS
    ]
    text = "\n".join(line for section in others for line in section_text(section))
    signs = [
        scope.inlines(
            "before.term",
            term=strong(scope.say(f"abbreviation.{key}.sign")),
            meaning=scope.say(f"abbreviation.{key}.meaning"),
        )
        for key in ABBREVIATIONS
        if _occurs(scope.say(f"abbreviation.{key}.sign"), text)
    ]
    return (Subheading(scope.say("before.terms.title"), "part-terms"), Bullets((*terms, *signs)))


def _occurs(sign: str, text: str) -> bool:
    """Whether a sign stands in a text as a word of its own, or right after a number."""
    start = text.find(sign)
    while start >= 0:
        before, after = text[start - 1 : start], text[start + len(sign) : start + len(sign) + 1]
        if not before.isalpha() and not after.isalpha():
            return True
        start = text.find(sign, start + 1)
    return False


def _seam_test(scope: Scope) -> tuple[Block, ...]:
    """Three strips sewn side by side show whether the seam is right."""
    seam = scope.plan.rules.seam
    finished = Finished(Length(1) if scope.plan.system == "in" else Length("5/2"))
    long = Length(4 if scope.plan.system == "in" else 10)
    words = scope.inlines(
        "before.seam-test.words",
        strip=scope.wording.extent(finished.cut(seam), long),
        width=(finished * 3).unfinished(seam),
        middle=finished,
        seam=seam,
    )
    body = (Paragraph(words), Paragraph(scope.inlines("before.seam-test.adjust")))
    return (Notice("check", scope.say("before.seam-test.title"), body),)


def print_scale(scope: Scope) -> tuple[Block, ...]:
    """A square and a bar to measure after printing."""
    body = (scope.paragraph("before.scale.words"), ScaleMark(scope.say("before.scale.caption")))
    return (Notice("check", scope.say("before.scale.title"), body),)


def _toward_borders(scope: Scope) -> bool:
    """Whether there are borders, and all their seams lie toward them."""
    ids = {border.id for size in scope.sizes for border in size.borders}
    parts = ("side", "end")
    seams = [seam for id in ids for seam in scope.pressing.seams_of("border", id) if seam.seam.part in parts]
    return bool(seams) and all(seam.seam.owner.id in seam.toward for seam in seams)


def _pressing(scope: Scope) -> tuple[Block, ...]:
    rule = scope.plan.rules.pressing
    items: list[tuple[Inline, ...]] = [
        scope.inlines("pressing.set"),
        scope.inlines(f"pressing.rule.{rule}"),
        scope.inlines("pressing.lift"),
    ]
    items += [scope.inlines("pressing.borders")] if _toward_borders(scope) else []
    title = Subheading(scope.say("pressing.title"), "part-pressing")
    return (title, Bullets(tuple(items)), *scope.figure_if("pressing-legend"))
