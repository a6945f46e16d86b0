"""How the pressing of one size is explained: what was asked for, how many junctions nest, the proof, and every seam.

In: a pressing plan and the place of a size.
Out: (wording key, values as text) in the order of telling.
Never: a number worked out anew, or a sentence.
"""

from __future__ import annotations

from collections.abc import Iterator

from patchwright.planning.pressing.results import PressingPlan
from patchwright.planning.pressing.terms import Spinning, seam_name

Told = tuple[str, dict[str, object]]
_COMPARED = ("elimination", "program", "gap")
"""Proofs that say something of other ways of pressing; by the rule `dark`, of those as much toward the dark only."""


def explained_pressing(pressing: PressingPlan, index: int, spinning: Spinning = "middle") -> Iterator[Told]:
    """The counts and the proof, heavy points, junctions that do not nest, and the seams."""
    own = pressing.sizes[index]
    yield "pressing-nested", {"nested": own.nested, "total": own.total, "wish": pressing.rule}
    proof = f"dark-{pressing.proof}" if pressing.rule == "dark" and pressing.proof in _COMPARED else pressing.proof
    yield f"pressing-proof-{proof}", {
        "nested": pressing.nested, "bound": pressing.bound, "total": pressing.total, "sizes": len(pressing.sizes),
    }
    if own.nested < own.total and pressing.rule != "open" and spinning != "any":
        yield f"pressing-spinning-{spinning}", {}
    for known in pressing.variants:
        if known.second[index]:
            yield "pressing-two-ways", {
                "id": known.id, "first": known.first[index], "second": known.second[index], "other": known.second_id,
            }
    yield from _choice(pressing, index)
    for point in pressing.heavy:
        if point.counts[index]:
            values = {"seam": seam_name(point.line), "seams": point.seams, "count": point.counts[index]}
            yield f"pressing-heavy-{point.advice}", values | {
                "loses": point.loses[index], "gains": point.gains[index],
            }
    for junction in pressing.junctions:
        if not junction.nests and junction.counts[index]:
            yield "pressing-missed", {
                "seam": seam_name(junction.line), "first": seam_name(junction.first.seam),
                "second": seam_name(junction.second.seam), "count": junction.counts[index],
            }
    for pressed in pressing.seams:
        if pressed.seam.owner.variant and not pressing.has_variants(pressed.seam.owner):
            continue
        key = "pressing-seam" if pressed.toward else f"pressing-seam-{pressed.way}"
        yield key, {
            "seam": seam_name(pressed.seam), "toward": ", ".join(pressed.toward),
            "reason": ", ".join(dict.fromkeys((pressed.reason, *pressed.also))),
        }


def _choice(pressing: PressingPlan, index: int) -> Iterator[Told]:
    """How the second ones lie, and whether any choice lets more nest."""
    if pressing.choice is None or pressing.choice.most is None:
        return
    if any(known.second[index] for known in pressing.variants):
        yield f"pressing-lying-{'chessboard' if pressing.choice.chessboard[index] else 'free'}", {}
    told: dict[str, object] = {"most": pressing.choice.most, "sizes": len(pressing.sizes), "nested": pressing.nested}
    yield f"pressing-choice-{'best' if pressing.nested == pressing.choice.most else 'gap'}", told
