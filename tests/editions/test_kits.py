"""Kits for shops, worked by hand: lengths are never joined across bolts."""

from __future__ import annotations

from fractions import Fraction

import pytest

from patchwright.core.length import Length
from patchwright.planning.kits import Bolts, plan_kit
from patchwright.planning.workings import explain
from planning.compiling import plan_of, sample

YARD = 36


@pytest.mark.parametrize(
    ("yards", "kits", "bolt", "per_bolt", "bolts", "from_last", "left_yards"),
    [
        # 12 yards hold five lengths of 2 3/8 (11 7/8), so twelve kits take three bolts, the last giving two.
        (Fraction(19, 8), 12, 12, 5, 3, 2, Fraction(29, 4)),
        # By length alone 12 x 2 3/8 = 28 1/2 yards, which three bolts of 12 hold as well; of ten yards it takes three.
        (Fraction(19, 8), 12, 10, 4, 3, 4, Fraction(1, 2)),
        # Seven yards out of twelve: one a bolt, although 12 x 7 = 84 yards are seven bolts by length.
        (Fraction(7), 12, 12, 1, 12, 1, Fraction(5)),
        # An exact fit leaves nothing.
        (Fraction(1, 2), 24, 12, 24, 1, 24, Fraction(0)),
        (Fraction(1, 2), 25, 12, 24, 2, 1, Fraction(23, 2)),
        # Longer than a bolt: no bolt serves.
        (Fraction(13), 2, 12, 0, 0, 0, Fraction(0)),
    ],
)
def test_bolts_by_hand(
    yards: Fraction, kits: int, bolt: int, per_bolt: int, bolts: int, from_last: int, left_yards: Fraction
) -> None:
    made = Bolts(Length(yards * YARD), kits, Length(bolt * YARD))
    assert (made.per_bolt, made.bolts, made.from_last) == (per_bolt, bolts, from_last)
    assert made.left == Length(left_yards * YARD)
    assert made.total == Length(yards * YARD * kits)


PACKED = """\
packs: {bundle: {squares: 10 in, count: 42}}
fabrics:
  red: {color: a9482f, cut-from: {pack: bundle}}
  cream: {color: ece7db}
blocks:
  one: {cell: 3 in, rows: [[red, cream]]}
quilt: {arrange: [[one]], binding: {}, backing: {}}
sizes:
  only: {across: 4, down: 8}
"""


def test_a_kit_holds_what_the_requirements_say() -> None:
    plan = plan_of(sample(PACKED))
    kit = plan_kit(plan, 0)
    assert (kit.count, kit.bolt) == (12, Length(12 * YARD))
    parts = [(cloth.part, cloth.fabric) for cloth in kit.cloths]
    assert parts == [("fabric", "cream"), ("binding", ""), ("backing", "")]
    cream = plan.fabrics[1].sizes[0]
    assert cream is not None
    assert kit.cloths[0].buy == cream.buy
    assert [(pack.pack, pack.each, pack.total) for pack in kit.packs] == [("bundle", 1, 12)]
    assert kit.batting == ((plan.sizes[0].batting, 1),)
    assert plan_kit(plan, 0, 30).packs[0].total == 30


def test_kits_are_explained() -> None:
    plan = plan_of(sample(PACKED))
    said = explain(plan, "kit")
    assert [working.rule for working in said] == ["kit-cloth", "kit-cloth", "kit-cloth", "kit-pack"]
    assert dict(said[0].values)["kits"] == "12"
