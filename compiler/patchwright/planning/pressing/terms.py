"""The words of pressing: who owns a seam, which seam it is, and which way it may lie.

In: nothing; these are the names that all modules of this package share.
Never: a direction chosen, or a length.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

OwnerKind = Literal["unit", "assembly", "strip-set", "row", "quarter", "top", "border"]
SeamPart = Literal["join", "within", "between", "side", "end", "miter"]
Way = Literal["forward", "back", "open", "spun"]
"""Toward the part that follows (right or below; the second side of a unit's seam), toward the one before, open, or
spun: both halves of the seam pressed opposite ways from the crossing in its middle."""
Rule = Literal["nest", "dark", "open"]
Spinning = Literal["any", "middle", "never"]
"""At which crossings the house has seams spun: at any, only in the middle of a seam or at its only one, or at none."""
Proof = Literal["parity", "elimination", "program", "gap", "rule"]
"""Nothing pulls against anything; all ways compared in whole numbers; the solver's bound is reached; it is not; nothing
was to be chosen."""
Reason = Literal["fixed", "nest", "points", "bulk", "sashing", "darker", "rule", "open"]
"""Why a seam lies so: its method fixes it; so that seams nest; away from points; toward the plain side; toward sashing
and borders; toward the darker cloth; by the plain rule (lines alternate); since the house presses open."""


@dataclass(frozen=True, slots=True, order=True)
class Owner:
    """A pressing class: what is pressed alike wherever it occurs."""

    kind: OwnerKind
    id: str
    """A unit's or assembly's id; `block` or `strip` for rows of the top, followed by how they are made, such as
    `block-on-point-sashed`; `left` or `right` for its quarters; for what joins them `quarters`, for columns `columns`,
    for rows `top`; `border-1` …"""
    variant: int = 0
    """0, or 1 for the second variant where the house allows one."""


@dataclass(frozen=True, slots=True, order=True)
class Seam:
    """One joining line of a pressing class.

    Units: `join`, `line` counts in sewing order. Assemblies: `within` a line between the parts `place` and `place + 1`,
    or `between` the lines `line` and `line + 1`. Rows of the top: `within`, `line` is 0 for the first, third … row of
    its kind and 1 for the others. The top: `between` rows, `place` counts the rows above without the last, `line` is 0
    for two rows of blocks, 1 where the lower row is sashing, 2 where the upper row is, 3 and 4 for the first and the
    last corner of a center on point, whose rows are diagonal and numbered from that first corner. Quarters: `between`
    rows as the top; then the top's `quarters`: `within` the upper (`line` 0) and the lower half, and `between` both.
    Borders: `side` (`place` 0 left, 1 right), `end` (`place` 0 top, 1 bottom), `within` one of its four strips (`line`
    0 left, 1 right, 2 top, 3 bottom), and `miter` (`place` 0 upper left, then clockwise), which starts at the inner
    corner and is followed by the strip clockwise of it. Strip sets: `within`, `place` counts the seams; all segments of
    a set share them, and one turned by 180° shows them pressed the other way.
    """

    owner: Owner
    part: SeamPart
    line: int = 0
    place: int = 0


@dataclass(frozen=True, slots=True, order=True)
class SeamEnd:
    """One end of a seam: its start (top, or right) or its finish, and the sense there if it is pressed forward."""

    seam: Seam
    half: Literal[0, 1]
    sign: Literal[-1, 1]
    """1 if a seam pressed forward lies clockwise of its ray from this end; its other end has the opposite sign."""


def seam_name(seam: Seam) -> str:
    """A name for one seam, such as `assembly:coil/within-1-2`; numbers count from 1, a second variant says so."""
    owner = f"{seam.owner.kind}:{seam.owner.id}" + ("#2" if seam.owner.variant else "")
    return f"{owner}/{seam.part}-{seam.line + 1}-{seam.place + 1}"
