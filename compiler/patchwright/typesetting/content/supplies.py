"""Supplies: what to have at hand beside the cloth, from what the units take."""

from __future__ import annotations

from collections.abc import Iterator

from patchwright.core.length import Length
from patchwright.planning.plan import UnitSize
from patchwright.typesetting.booklet import Block, Bullets, Inline, Subheading
from patchwright.typesetting.content.scope import Scope

ALWAYS = ("cutter", "machine", "thread", "pins", "iron", "scissors")
FINISHING = ("backing-pins", "quilting-thread", "hand-needle")


def supplies(scope: Scope) -> tuple[Block, ...]:
    """A list to tick off."""
    items: list[tuple[Inline, ...]] = [scope.inlines(f"supplies.{name}") for name in ALWAYS[:1]]
    items.append(_ruler(scope))
    items += [scope.inlines("plain", text=scope.say(f"supply.{name}")) for name in _needed(scope)]
    items += [scope.inlines(f"supplies.{name}") for name in (*ALWAYS[1:], *FINISHING)]
    title = Subheading(scope.say("supplies.title"), "supplies")
    return (title, Bullets(tuple(items), checklist=True))


def _needed(scope: Scope) -> tuple[str, ...]:
    """Keys of what the covered units' ways of making need, each once."""
    named: list[str] = []
    for unit in scope.plan.units:
        if scope.any(unit.sizes):
            named += scope.say(f"{unit.method}.supplies.{unit.how}").split()
    return tuple(dict.fromkeys(named))


def _ruler(scope: Scope) -> tuple[Inline, ...]:
    """A ruler, and how large a square one must be where units are trimmed."""
    sides = [max(side.length for side in size.unfinished) for size in _trimmed(scope)]
    if not sides:
        return scope.inlines("supplies.ruler")
    largest: Length = max(sides)
    return scope.inlines("supplies.ruler-and-square", side=largest)


def _trimmed(scope: Scope) -> Iterator[UnitSize]:
    """The units that are trimmed after sewing."""
    for unit in scope.plan.units:
        yield from (size for size in scope.here(unit.sizes) if size is not None and size.recipe.trim)
