"""The author's prose, before it is set: every value that it fills in must exist, and every link must be one we take.

In: a plan.
Out: what is wrong with its prose, at its place.
Never: a text changed.
"""

from __future__ import annotations

from patchwright.core.diagnostics import Diagnostic, Findings, nearest_names
from patchwright.design.design import Prose
from patchwright.planning.plan import Plan
from patchwright.planning.prose_values import has_open_value, unknown_values, value_names


def check_prose(plan: Plan) -> tuple[Diagnostic, ...]:
    """Every value that the author's prose fills in must exist, and every `{{` must end."""
    prose = [plan.introduction, plan.finishing, plan.about, *(note for _, note in plan.notes)]
    findings = Findings()
    for text in prose:
        if text is None:
            continue
        if "{{" in text.text or "}}" in text.text:
            _check_values(plan, text, findings)
        if "](" in text.text or "<" in text.text:
            _check_markdown(text, findings)
    return findings.ordered()


def _check_markdown(prose: Prose, findings: Findings) -> None:
    """Report pictures and links that a booklet does not take."""
    from patchwright.typesetting.content.prose import parse_prose

    for fault in parse_prose(prose.text).faults:
        findings.error(
            f"prose-{fault.kind}", f"a {fault.kind} here does not go into a booklet: `{fault.target}`", prose.span,
            "links go to https addresses or mailto; pictures are drawn from the pattern itself",
        )


def _check_values(plan: Plan, prose: Prose, findings: Findings) -> None:
    if has_open_value(prose.text):
        findings.error(
            "unfinished-value", "a `{{` here has no `}}`, or the other way round", prose.span,
            "write values like `{{ quilt.across }}`",
        )
        return
    for unknown in unknown_values(prose.text, plan):
        findings.error(
            "unknown-value", f"there is no value `{unknown}`", prose.span, *nearest_names(unknown, value_names(plan))
        )
