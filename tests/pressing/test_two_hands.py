"""Quarter-squares made two at a time: worked out by laying, sewing and cutting, and what the plan makes of it."""

from __future__ import annotations

from itertools import product

import pytest

from patchwright.planning.pressing.press import plan_pressing, with_pressing
from patchwright.planning.pressing.recount import recount
from patchwright.planning.verify import verify
from patchwright.typesetting.content.editions import EDITIONS
from patchwright.typesetting.content.pressing_remarks import two_hands_words
from patchwright.typesetting.content.scope import Scope
from patchwright.wording import load_wording
from pressing.quilts import counts, quilt

XY = tuple[int, int]
SIDES: dict[str, XY] = {"top": (0, 1), "right": (1, 0), "bottom": (0, -1), "left": (-1, 0)}
"""Toward which side of the square each triangle lies; y runs up."""
CORNERS: tuple[XY, ...] = ((-1, 1), (1, 1), (1, -1), (-1, -1))


def over_the_cut(at: XY) -> XY:
    """What a triangle that is sewn on along the falling diagonal and opened brings with it."""
    return -at[1], -at[0]


def turned(at: XY) -> XY:
    """By a quarter, clockwise."""
    return at[1], -at[0]


def cross(one: XY, two: XY) -> int:
    return one[0] * two[1] - one[1] * two[0]


Unit = tuple[dict[XY, str], dict[XY, XY], frozenset[XY]]
"""The cloth by its side, the allowance of the earlier seams by their corner, and the corners of the last seam."""


def two_units() -> tuple[Unit, Unit]:
    """Two half-squares, each light above its rising diagonal and pressed to the dark, laid face to face, the light of
    one on the dark of the other; sewn on both sides of the falling diagonal and cut on it."""
    below = {(0, 1): "light", (-1, 0): "light", (1, 0): "dark", (0, -1): "dark"}
    above = {side: "dark" if cloth == "light" else "light" for side, cloth in below.items()}
    toward = {"below": (1, -1), "above": (-1, 1)}  # Each toward its own dark: opposed, so that they nest.
    made = []
    for sides, corner in ((((0, 1), (1, 0)), (1, 1)), (((-1, 0), (0, -1)), (-1, -1))):
        cloth = {side: below[side] for side in sides} | {over_the_cut(side): above[side] for side in sides}
        earlier = {corner: toward["below"], over_the_cut(corner): over_the_cut(toward["above"])}
        made.append((cloth, earlier, frozenset({(-1, 1), (1, -1)})))
    return made[0], made[1]


def turned_unit(unit: Unit) -> Unit:
    cloth, earlier, last = unit
    return (
        {turned(side): name for side, name in cloth.items()},
        {turned(corner): turned(way) for corner, way in earlier.items()}, frozenset(map(turned, last)),
    )


def senses(unit: Unit, last_way: int) -> dict[XY, int]:
    """At each corner, whether the allowance there lies counterclockwise of the ray outward, 1, or clockwise, -1."""
    _, earlier, last = unit
    found = {corner: cross(corner, way) for corner, way in earlier.items()}
    one = min(last)
    across = (-one[1] * last_way, one[0] * last_way)
    found |= {corner: cross(corner, across) for corner in last}
    return {corner: (way > 0) - (way < 0) for corner, way in found.items()}


def test_two_units_of_a_pair_look_alike_turned_but_never_lie_alike() -> None:
    first, second = two_units()
    assert set(first[0].values()) == {"light", "dark"}
    alike = []
    for _ in range(4):
        second = turned_unit(second)
        if second[0] == first[0]:
            alike.append(second)
    assert len(alike) == 2
    assert all(unit[2].isdisjoint(first[2]) for unit in alike)  # The last seam is on the other diagonal.
    for unit, one, other in product(alike, (1, -1), (1, -1)):
        assert senses(first, one) != senses(unit, other)
        assert {senses(first, one)[corner] for corner in first[1]} == {-1}
        assert {senses(unit, other)[corner] for corner in unit[1]} == {1}


GRID = """\
units:
  glass: {quarter-square: [dark, light], make: MAKE}
blocks:
  one: {size: 4 in, rows: [[glass]]}
quilt: {arrange: [[one, one@90], [one@90, one]]}
sizes: {only: {across: 4, down: 4}}
"""


@pytest.mark.parametrize("make", ["two-at-a-time", "cut"])
def test_only_units_of_one_hand_nest_with_their_neighbors(make: str) -> None:
    plan = with_pressing(quilt(GRID.replace("MAKE", make)))
    pressing = plan_pressing(plan, "nest")
    ((nested, total),) = counts(pressing)
    assert recount(plan, pressing) == ((nested, total),)
    assert not verify(plan)
    inside = sum(j.counts[0] for j in pressing.junctions if j.line.owner.kind == "unit")
    own = [junction for junction in pressing.junctions if junction.line.owner.kind == "unit"]
    assert own
    assert all(junction.nests for junction in own)
    outside = [
        junction for junction in pressing.junctions
        if "unit" in (junction.first.seam.owner.kind, junction.second.seam.owner.kind) and junction not in own
    ]
    assert outside
    assert any(junction.nests for junction in outside) == (make == "cut")
    assert {junction.can_nest for junction in outside} == {make == "cut"}
    assert nested >= inside
    scope = Scope(plan, {}, load_wording("en"), EDITIONS["all-sizes"], (0,))
    said = two_hands_words(scope, plan.units[0])
    assert bool(said) == (make == "two-at-a-time")
