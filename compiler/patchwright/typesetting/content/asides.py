"""What a buyer reads in parentheses: the same amount or size in the other system of measure.

In: the plan's quantities in the other system.
Out: inlines with the pattern's own measure first; that alone where the house does not tell the other.
Never: a conversion made here, and none beside a size to cut.
"""

from __future__ import annotations

from patchwright.planning.plan import Buy
from patchwright.typesetting.booklet import Aside, Inline, Words
from patchwright.typesetting.content.buying import buy_text
from patchwright.typesetting.content.scope import Scope


def amount(scope: Scope, buy: Buy) -> tuple[Inline, ...]:
    """`2½ yd (2.3 m)`."""
    told = scope.plan.elsewhere
    like = told.amount(buy) if told is not None else None
    return _with(scope, buy_text(scope, buy), buy_text(scope, like) if like is not None else "")


def width(scope: Scope) -> tuple[Inline, ...]:
    """The usable width of cloth: `42″ (107 cm)`."""
    told = scope.plan.elsewhere
    other = scope.wording.measured_in(told.system).length(told.width) if told is not None else ""
    return _with(scope, scope.wording.length(scope.plan.rules.usable_width), other)


def finished(scope: Scope, index: int) -> tuple[Inline, ...]:
    """The finished size of one size, by its index in the plan: `60″ × 72″ (152 × 183 cm)`."""
    return _with(scope, scope.wording.extent(*scope.plan.sizes[index].finished), finished_elsewhere(scope, index))


def batting(scope: Scope, index: int) -> tuple[Inline, ...]:
    """The size of its batting."""
    told = scope.plan.elsewhere
    other = scope.wording.measured_in(told.system).extent(*told.batting[index]) if told is not None else ""
    return _with(scope, scope.wording.extent(*scope.plan.sizes[index].batting), other)


def finished_elsewhere(scope: Scope, index: int) -> str:
    """A finished size in the other system alone, or nothing."""
    told = scope.plan.elsewhere
    return scope.wording.measured_in(told.system).extent(*told.finished[index]) if told is not None else ""


def _with(scope: Scope, own: str, other: str) -> tuple[Inline, ...]:
    if not other:
        return (Words(own),)
    return (Words(f"{own} "), Aside(scope.say("aside", value=other.replace(" ", "\u00a0"))))
