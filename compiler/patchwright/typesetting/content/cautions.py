"""Cautions: rotary cutter, iron, needles, and, for crib sizes, safe sleep.

Every statement is one entry of the wording; which belong together is data here.
"""

from __future__ import annotations

from patchwright.typesetting.booklet import Block, Bullets, Notice
from patchwright.typesetting.content.scope import Scope

CAUTIONS: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("rotary", ("close", "away", "shoes", "children", "supervise")),
    ("iron", ("reach", "face", "unplug")),
    ("needles", ("pins", "fingers", "count")),
)
SNIPS = ("point", "rest", "lint")
INFANT = ("sleep", "mattress", "guidance", "use")


def cautions(scope: Scope) -> tuple[Block, ...]:
    """A box for each tool, and one for infants where a covered size is made for them."""
    boxes = [_box(scope, tool, statements) for tool, statements in CAUTIONS]
    if any(size.by_block is not None and size.by_block.way == "rag" for size in scope.sizes):
        boxes.append(_box(scope, "snips", SNIPS))
    if any(size.infant for size in scope.sizes):
        boxes.append(_box(scope, "infant", INFANT))
    return tuple(boxes)


def _box(scope: Scope, subject: str, statements: tuple[str, ...]) -> Block:
    items = tuple(scope.inlines(f"caution.{subject}.{statement}") for statement in statements)
    return Notice("caution", scope.say(f"caution.{subject}.title"), (Bullets(items),))
