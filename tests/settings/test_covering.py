"""The independent check of tops that have more than upright rectangles: it names every single wrong place or piece.

And what is cut for setting triangles, cut apart and laid on its place by another geometry library.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from typing import Any

import pytest
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from patchwright.core.length import Cut, Finished, Length
from patchwright.planning.plan import Plan, TopItem
from patchwright.planning.verify import verify
from planning.compiling import plan_of, sample
from planning.mutating import Step, changed
from settings.setting import on_point, squares, triangles

QUILT = """\
fabrics: {red: {}, cream: {}, blue: {}}
blocks:
  one: {size: 6 in, rows: [[red, cream], [cream, red]]}
  tooth: {size: 2 1/2 in, rows: [[cream]]}
quilt:
  setting: on-point
  arrange: [[one]]
  alternate: blue
  setting-triangles: {fabric: cream, float: 1 in}
  borders:
    - {pieced: {repeat: [tooth]}, coping: {fabric: blue}}
    - {width: 2 in, fabric: red, corners: mitered}
sizes: {only: {across: 3, down: 4}}
"""


@cache
def good() -> Plan:
    return plan_of(sample(QUILT))


def longer(amount: str) -> Callable[[Any], Any]:
    return lambda value: value + (Length(amount) if isinstance(value, Length) else type(value)(amount))


def shifted(outline: Any) -> Any:
    return tuple(point.moved(Length(1), Length()) for point in outline)


def part(name: str) -> Callable[[Any], bool]:
    return lambda item: bool(item.part == name)


def cut(then: str) -> Callable[[Any], bool]:
    return lambda piece: bool(piece.then == then)


ITEMS = ("sizes", 0, "items")
SIDE, CORNER = ("pieces", cut("twice")), ("pieces", cut("once"))
CASES: dict[str, tuple[tuple[Step, ...], Callable[[Any], Any], str]] = {
    "a block moved": ((*ITEMS, part("block"), "outline"), shifted, "a gap or an overlap"),
    "a block lost": (ITEMS, lambda items: [item for item in items if item.part != "block"], "a gap or an overlap"),
    "a block twice": (ITEMS, lambda items: [*items, *(item for item in items if item.part == "block")], "a gap"),
    "a triangle turned inside out": (
        (*ITEMS, part("setting-triangles"), "outline"), lambda outline: outline[::-1], "inside out"
    ),
    "another block in its place": (
        (*ITEMS, part("block"), "ref"), lambda ref: "tooth", "does not fit its place on point"
    ),
    "sides cut once": ((*SIDE, "then"), lambda then: "once", "would put a bias edge along the quilt"),
    "corners cut twice": ((*CORNER, "then"), lambda then: "twice", "would put a bias edge along the quilt"),
    "a side too small": ((*SIDE, "sizes", 0, "width"), lambda side: Cut(10), "bias edge"),
    "squares too few": ((*SIDE, "sizes", 0, "need"), lambda need: need - 1, "cut for 2"),
    "coping of another width": (("sizes", 0, "borders", 0, "end_width"), longer("1/2"), "does not begin where"),
    "a mitered strip moved": ((*ITEMS, part("border-3"), "outline"), shifted, "a gap or an overlap"),
    "the top is said to be wider": (("sizes", 0, "finished", 0), lambda side: side + Finished(1), "unfinished top"),
}


@pytest.mark.parametrize("name", CASES)
def test_every_wrong_part_is_named(name: str) -> None:
    where, change, told = CASES[name]
    faults = verify(changed(good(), where, change))
    assert any(told in fault for fault in faults), faults


def both_sides(plan: Plan, then: str, side: Length) -> Plan:
    """The plan with squares of another size."""
    for edge in ("width", "height"):
        plan = changed(plan, ("pieces", cut(then), "sizes", 0, edge), lambda _: Cut(side))
    return plan


@pytest.mark.parametrize("then", ["once", "twice"])
def test_squares_that_are_too_small_are_named(then: str) -> None:
    side, _ = squares(good(), then)
    assert not any("too small" in fault for fault in verify(both_sides(good(), then, side)))
    assert any("too small" in fault for fault in verify(both_sides(good(), then, side - Length("1/4"))))
    assert any("much larger" in fault for fault in verify(both_sides(good(), then, side + Length(4))))


# -- what is cut, laid on its place ------------------------------------------------------------------------------------

SEAM = 0.25
MITRE = 2


def shape(item: TopItem) -> Polygon:
    return Polygon([(float(corner.x), float(corner.y)) for corner in item.outline])


def cut_triangles(side: float, twice: bool) -> list[BaseGeometry]:
    """What a square gives that is cut on one diagonal, or on both, inside its seam allowances."""
    middle = (side / 2, side / 2)
    ring = [(0.0, 0.0), (side, 0.0), (side, side), (0.0, side)]
    if twice:
        parts = [Polygon([ring[i], ring[(i + 1) % 4], middle]) for i in range(4)]
    else:
        parts = [Polygon([ring[0], ring[1], ring[2]]), Polygon([ring[0], ring[2], ring[3]]),
                 Polygon([ring[0], ring[1], ring[3]]), Polygon([ring[1], ring[2], ring[3]])]
    return [one.buffer(-SEAM, join_style=MITRE, mitre_limit=10) for one in parts]


def fits(place: Polygon, cloth: BaseGeometry) -> bool:
    """Whether a place lies in the cloth, moved so that both touch the same two sides of a box around them."""
    moves = [
        (cloth.bounds[i] - place.bounds[i], cloth.bounds[j] - place.bounds[j]) for i in (0, 2) for j in (1, 3)
    ]
    centered = (
        (cloth.bounds[0] + cloth.bounds[2] - place.bounds[0] - place.bounds[2]) / 2,
        (cloth.bounds[1] + cloth.bounds[3] - place.bounds[1] - place.bounds[3]) / 2,
    )
    moves += [(centered[0], dy) for _, dy in moves] + [(dx, centered[1]) for dx, _ in moves]
    around = cloth.buffer(1e-6)
    return any(around.contains(Polygon([(x + dx, y + dy) for x, y in place.exterior.coords])) for dx, dy in moves)


@pytest.mark.parametrize("beyond", ["0", "1", "2 1/2"])
@pytest.mark.parametrize("side", ["5", "6", "12"])
def test_cut_triangles_cover_their_places(side: str, beyond: str) -> None:
    plan = on_point(side, 3, 4, beyond, "triangles: exact, round-cuts: 1/16 in")
    for corners in (False, True):
        cloth = cut_triangles(float(squares(plan, "once" if corners else "twice")[0]), twice=not corners)
        for item in triangles(plan, corners):
            assert any(fits(shape(item), one) for one in cloth)
        too_small = cut_triangles(float(squares(plan, "once" if corners else "twice")[0]) - 0.2, twice=not corners)
        if beyond == "0":
            assert not any(fits(shape(item), one) for item in triangles(plan, corners) for one in too_small)
