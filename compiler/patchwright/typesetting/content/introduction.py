"""The author's own text: the introduction, and notes wherever they belong."""

from __future__ import annotations

from patchwright.design.design import Prose
from patchwright.typesetting.booklet import Block, Notice, Section
from patchwright.typesetting.content.prose import parse_prose
from patchwright.typesetting.content.scope import Scope
from patchwright.typesetting.content.values import fill


class UnfilledProseError(ValueError):
    """Prose with a name that the plan does not have; checks report it before a booklet is made."""


def introduction(scope: Scope) -> Section | None:
    """The author's introduction, where there is one."""
    blocks = prose_blocks(scope, scope.plan.introduction)
    return Section("introduction", scope.say("section.introduction"), blocks) if blocks else None


def prose_blocks(scope: Scope, prose: Prose | None) -> tuple[Block, ...]:
    """An author's text with its values filled in for the covered sizes."""
    if prose is None:
        return ()
    names = tuple(size.name for size in scope.sizes)
    filled = fill(prose.text, scope.plan, names, scope.wording)
    if not isinstance(filled, str):
        raise UnfilledProseError(", ".join(value.name for value in filled))
    return parse_prose(filled).blocks


def author_note(scope: Scope, name: str) -> tuple[Block, ...]:
    """The author's note on a unit or block, in a box of its own."""
    blocks = prose_blocks(scope, dict(scope.plan.notes).get(name))
    return (Notice("tip", scope.say("notice.note"), blocks),) if blocks else ()
