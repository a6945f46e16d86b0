"""One step of an explanation, and how a value of the plan is said in it.

In: a plan and one of its sizes.
Out: `Working`, with exact values as text.
Never: a number worked out anew.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from patchwright.core.length import Length
from patchwright.core.measure import plain_length
from patchwright.core.source import NOWHERE, Span
from patchwright.planning.plan import Plan, PlannedSize


@dataclass(frozen=True, slots=True)
class Working:
    """One step of an explanation in one size of the quilt."""

    about: str
    size: str
    rule: str
    """Wording key, such as `plain-patch` or `yardage`."""
    values: tuple[tuple[str, str], ...]
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Telling:
    """One size of a plan at hand."""

    plan: Plan
    index: int
    size: PlannedSize

    def say(self, about: str, rule: str, span: Span, **values: object) -> Working:
        texts = tuple((key, self.text(value)) for key, value in values.items())
        return Working(about, self.size.name, rule, texts, span)

    def text(self, value: object) -> str:
        if isinstance(value, Length):
            return plain_length(value, self.plan.system)
        length = getattr(value, "length", None)
        return plain_length(length, self.plan.system) if isinstance(length, Length) else str(value)
