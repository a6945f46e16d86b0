"""Plan of a pattern → plan of one of its colorways, where the cloths are called and look otherwise and no more.

In: the pattern's plan, its design, and the design of the colorway.
Out: the plan that planning the colorway would give; nothing where a print differs, so that it has to be planned.
Never: a count or a length changed. Only pressing looks at what is light and what is dark, so it is found anew then.
"""

from __future__ import annotations

from dataclasses import replace

from patchwright.design.design import Design, Fabric
from patchwright.planning.plan import Plan
from patchwright.planning.pressing.press import plan_pressing


def recolored_plan(plan: Plan, own: Design, design: Design) -> Plan | None:
    """The plan of `design` from the `plan` of `own`; None where more than names, colors and values differs."""
    if len(own.fabrics) != len(design.fabrics):
        return None
    plain = tuple(_as(fabric, like) for fabric, like in zip(design.fabrics, own.fabrics, strict=True))
    if replace(design, id=own.id, colorway=own.colorway, fabrics=plain) != own:
        return None
    shown = {fabric.id: fabric for fabric in design.fabrics}
    fabrics = tuple(
        replace(fabric, name=new.name, colors=new.colors, value=new.value)
        for fabric in plan.fabrics for new in (shown[fabric.id],)
    )
    made = replace(plan, id=design.id, colorway=design.colorway, fabrics=fabrics)
    if plan.pressing is None or all(one.value == old.value for one, old in zip(fabrics, plan.fabrics, strict=True)):
        return made
    return replace(made, pressing=plan_pressing(replace(made, pressing=None), design.rules.pressing))


def _as(fabric: Fabric, like: Fabric) -> Fabric:
    return replace(fabric, name=like.name, colors=like.colors, value=like.value)
