"""What units, blocks and pieces are called in a booklet.

In: parts of the plan.
Out: names as text and inlines, the same wherever they stand.
"""

from __future__ import annotations

from collections.abc import Sequence

from patchwright.planning.plan import Assembly, Placed, PlannedUnit
from patchwright.typesetting.booklet import Inline
from patchwright.typesetting.content.pieces import counted_piece
from patchwright.typesetting.content.scope import Scope


def plain_name(id: str) -> str:
    """An author's name as words: `dark-chain` is `dark chain`."""
    return id.replace("-", " ").replace("_", " ")


def heading(text: str) -> str:
    """The text with its first letter large."""
    return text[:1].upper() + text[1:]


def method_name(scope: Scope, method: str, count: int = 2) -> str:
    """The trade's name of a method's unit, one or several."""
    return scope.say(f"{method}.title" if count == 1 else f"{method}.titles")


def unit_name(scope: Scope, unit: PlannedUnit) -> str:
    """The author's name of a unit, or the trade's with its fabrics where it has none."""
    if unit.name:
        return plain_name(unit.name)
    if unit.row_of[0]:
        return scope.say("units.row", block=plain_name(unit.row_of[0]), number=unit.row_of[1])
    fabrics = [scope.fabric(fabric).letter for _, fabric in unit.fabrics]
    return scope.say(
        "units.unnamed", kind=method_name(scope, unit.method, 1), fabrics=scope.wording.listed_text(fabrics)
    )


def unit_heading(scope: Scope, unit: PlannedUnit) -> str:
    """`Turn: half-square triangles, two at a time`."""
    kind = method_name(scope, unit.method)
    how = scope.say(f"{unit.method}.how.{unit.how}")
    what = scope.say("units.kind-and-way", kind=kind, how=how) if how else kind
    if unit.name or unit.row_of[0]:
        return heading(scope.say("units.heading", name=unit_name(scope, unit), what=what))
    return heading(scope.say("units.unnamed", kind=what, fabrics=_letters(scope, unit)))


def _letters(scope: Scope, unit: PlannedUnit) -> str:
    """The letters of a unit's fabrics, each once."""
    letters = dict.fromkeys(scope.fabric(fabric).letter for _, fabric in unit.fabrics)
    return scope.wording.listed_text(list(letters))


def varied(scope: Scope, part: PlannedUnit | Assembly, name: str) -> str:
    """The name with what tells this variant from the part as drawn: `coil, reversed`."""
    variant = hand_and_turn(scope, part)
    return scope.say("variant.named", name=name, variant=variant) if variant else name


def hand_and_turn(scope: Scope, part: PlannedUnit | Assembly) -> str:
    """What tells a variant from the part as drawn: nothing, `reversed`, `pressed the second way`."""
    words = [scope.say("variant.reversed")] if part.hand == "reversed" else []
    words += [scope.say("variant.turned")] if part.turn else []
    words += [scope.say("variant.pressed")] if part.second_of else []
    words += [scope.say("variant.coped")] if isinstance(part, Assembly) and part.coped else []
    return scope.wording.listed_text(words)


def part_label(scope: Scope, part: Placed, count: int) -> tuple[Inline, ...]:
    """`4 turn units`, `1 hub block`, `2 A1 squares`."""
    if part.kind == "piece":
        return counted_piece(scope, part.ref, count)
    if part.kind == "unit":
        unit = scope.unit(part.ref)
        key = "part.segment" if unit.row_of[0] else "part.unit"
        named = scope.inlines(key, count=count, name=unit_name(scope, unit))
        return _varied(scope, unit, named)
    assembly = scope.assembly(part.ref)
    return _varied(scope, assembly, scope.inlines("part.block", count=count, name=plain_name(assembly.block)))


def _varied(scope: Scope, part: PlannedUnit | Assembly, named: tuple[Inline, ...]) -> tuple[Inline, ...]:
    variant = hand_and_turn(scope, part)
    return scope.inlines("variant.named", name=named, variant=variant) if variant else named


def counted_parts(scope: Scope, parts: Sequence[Placed]) -> tuple[Inline, ...]:
    """The parts with their counts, each once, in the order of their first place."""
    counts: dict[tuple[str, str], int] = {}
    first: dict[tuple[str, str], Placed] = {}
    for part in parts:
        key = (part.kind, part.ref)
        counts[key] = counts.get(key, 0) + 1
        first.setdefault(key, part)
    labels = [part_label(scope, first[key], count) for key, count in counts.items()]
    return scope.listed(labels)


def skill_text(scope: Scope) -> str:
    """For whom the pattern is, in the booklet's language; nothing where the author does not say."""
    skill = scope.plan.skill
    return scope.say(f"skill.{skill.replace(' ', '-')}") if skill else ""
