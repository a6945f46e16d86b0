"""Small patterns set on point, and what is cut for their edges."""

from __future__ import annotations

from patchwright.core.length import Length
from patchwright.planning.plan import Plan, TopItem
from planning.compiling import piece_size, plan_of, sample

ON_POINT = """\
fabrics:
  red: {{color: a9482f}}
  cream: {{color: ece7db{direction}}}
blocks:
  one: {{size: {side} in, rows: [[red]]}}
quilt:
  setting: on-point
  arrange: [[one]]
  alternate: {alternate}
  setting-triangles: {{fabric: cream, float: {beyond} in}}
sizes:
  only: {{across: {across}, down: {down}}}
house: {{inches: {{usable-width: 120 in{rules}}}}}
"""


def on_point(
    side: str = "6", across: int = 3, down: int = 4, beyond: str = "0", rules: str = "", alternate: str = "red",
    direction: str = "",
) -> Plan:
    """Plain square blocks on point, `side` finished; the plan adds up. Cloth is wide, so that any triangle fits."""
    return plan_of(sample(ON_POINT.format(
        side=side, across=across, down=down, beyond=beyond, rules=f", {rules}" if rules else "", alternate=alternate,
        direction=f", {direction}" if direction else "",
    )))


def squares(plan: Plan, then: str) -> tuple[Length, int]:
    """The side and the count of the squares that are cut once (corners) or twice (sides)."""
    piece = next(piece for piece in plan.pieces if piece.then == then)
    size = piece_size(piece)
    assert size.width == size.height
    return size.width.length, size.need


def triangles(plan: Plan, corners: bool, index: int = 0) -> list[TopItem]:
    """The side triangles or the corner triangles of a top."""
    then = "once" if corners else "twice"
    cut = {piece.id for piece in plan.pieces if piece.then == then}
    return [item for item in plan.sizes[index].items if item.part == "setting-triangles" and item.ref in cut]
