"""Supplies: what to have at hand beside the cloth, from what the units and the finishing take."""

from __future__ import annotations

from collections.abc import Iterator

from patchwright.core.length import Length
from patchwright.planning.plan import UnitSize
from patchwright.typesetting.booklet import Block, Bullets, Subheading
from patchwright.typesetting.content.names import heading
from patchwright.typesetting.content.scope import Scope, words

TO_CUT = ("cutter", "ruler")
TO_SEW = ("machine", "thread", "pins", "iron", "scissors")
TO_FINISH = ("backing-pins", "quilting-thread", "hand-needle")


def supplies(scope: Scope) -> tuple[Block, ...]:
    """A list to tick off."""
    items = [scope.inlines(f"supplies.{name}") for name in TO_CUT]
    items += [words(heading(_needed_text(scope, name))) for name in _needed(scope)]
    items += [scope.inlines(f"supplies.{name}") for name in (*TO_SEW, *TO_FINISH, *_for_finishing(scope))]
    title = Subheading(scope.say("supplies.title"), "part-supplies")
    return (title, Bullets(tuple(items), checklist=True))


def _for_finishing(scope: Scope) -> tuple[str, ...]:
    """Keys of what mitered borders, binding, motifs and hanging need beyond that, where a covered size has them."""
    bindings = [size.binding for size in scope.sizes if size.binding is not None]
    parts = {part.part for size in scope.sizes for part in size.hanging}
    fabrics = [fabric for fabric in scope.plan.fabrics if scope.any(fabric.sizes)]
    asked = {
        "miter-line": any(border.corner_kind == "mitered" for size in scope.sizes for border in size.borders),
        "clips": bool(bindings) and scope.plan.rules.binding_by == "machine",
        "bias-line": any(binding.way in ("bias-strips", "bias-squares") for binding in bindings),
        "bias-marker": any(binding.way == "continuous" for binding in bindings),
        "clear-template": any(fabric.repeat is not None and fabric.repeat[1] for fabric in fabrics),
        "label-pen": "hanging-label" in parts,
        "snips": any(size.by_block is not None and size.by_block.way == "rag" for size in scope.sizes),
        "rod": bool(parts & {"hanging-sleeve", "hanging-corners"}),
    }
    return tuple(name for name, needed in asked.items() if needed)


def _needed(scope: Scope) -> tuple[str, ...]:
    """Keys of what the covered units' ways of making need, each once."""
    named: list[str] = []
    for unit in scope.plan.units:
        if scope.any(unit.sizes):
            named += scope.say(f"{unit.method}.supplies.{unit.how}").split()
    return tuple(dict.fromkeys(named))


def _needed_text(scope: Scope, name: str) -> str:
    """What is needed; a square ruler must be as large as the largest unit that is trimmed with it."""
    sides = [max(side.length for side in size.unfinished) for size in _trimmed(scope)]
    if name == "square-ruler" and sides:
        largest: Length = max(sides)
        return scope.say("supplies.square-ruler", side=largest)
    return scope.say(f"supply.{name}")


def _trimmed(scope: Scope) -> Iterator[UnitSize]:
    """The units that are trimmed after sewing."""
    for unit in scope.plan.units:
        yield from (size for size in scope.here(unit.sizes) if size is not None and size.recipe.trim)
