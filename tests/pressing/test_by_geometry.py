"""Planner and checker against a third count by general geometry: the same junctions, at the same points."""

from __future__ import annotations

from collections import Counter

import pytest

from patchwright.diagrams.seam_places import _spot
from patchwright.planning.plan import Plan
from patchwright.planning.pressing.press import with_pressing
from patchwright.planning.pressing.recount import Walk
from patchwright.planning.verify import verify
from pressing.by_geometry import Joiner, Spot, crowded
from pressing.generated import ALLOWED
from pressing.quilts import ON_POINT, PINWHEEL, SASHED, quilt
from pressing.test_edges import MEDALLION, MITERED, PARTS
from pressing.test_recount import ROOT, demo
from pressing.test_set_in import CURVES, STARS

STRIPPY = PARTS + """\
quilt:
  setting: strippy
  arrange: [[vanes, star]]
  strips: {width: 2 in, fabric: other, edges: {}}
  borders: [{width: 1 in, fabric: light, corners: dark}]
sizes: {only: {across: 3, down: 2}}
"""
CHAINS = PARTS + """\
quilt:
  setting: strippy
  arrange: [[points]]
  setting-triangles: {fabric: dark}
  strips: {width: 2 in, fabric: other}
  borders:
    - {pieced: {repeat: [jub, jib], corner: trim, spacers: {fabric: other, at: ends, least: 1/4 in}}}
    - {width: 1 in, fabric: light, corners: mitered}
sizes: {only: {across: 2, down: 3}}
"""
SASHED_ON_POINT = PARTS + """\
quilt:
  setting: on-point
  arrange: [[vanes]]
  alternate: points
  sashing: {width: 1 in, fabric: other, cornerstone: dark}
  setting-triangles: {fabric: dark}
  borders: [{pieced: {repeat: [wave], corner: trim, spacers: {fabric: other, at: ends, least: 1/4 in}}}]
sizes: {only: {across: 2, down: 3}}
"""
FLOATING = SASHED_ON_POINT.replace("  sashing: {width: 1 in, fabric: other, cornerstone: dark}\n", "").replace(
    "{fabric: dark}", "{fabric: dark, float: 1 in}"
)
RINGED = PARTS + """\
quilt:
  setting: on-point
  arrange: [[points, points@90]]
  alternate: star
  setting-triangles: {fabric: dark}
  borders:
    - {pieced: {repeat: [jib, jub], middle: trim, corner: trim, spacers: {fabric: other, least: 1/4 in}}}
    - {pieced: {repeat: [jub, jib], corner: trim, spacers: {fabric: other, at: ends, least: 1/4 in}}}
sizes: {only: {across: 2, down: 3}}
"""
IN_TWO_WAYS = ALLOWED + PARTS + """\
  nine: {cell: 2 in, strip-piece: no, rows: [[dark, light, dark], [light, dark, light], [dark, light, dark]]}
quilt:
  setting: medallion
  arrange: [[nine, nine]]
  borders:
    - {pieced: {repeat: [trim], corner: trim, turn-at: middle, spacers: {fabric: other, least: 1/4 in}}}
    - {pieced: {repeat: [wave], corner: trim, spacers: {fabric: other, at: ends, least: 1/4 in}}}
    - {width: 1 in, fabric: light, corners: mitered}
    - {width: 2 in, fabric: dark, corners: mitered}
sizes: {only: {}}
"""
IN_QUARTERS = PARTS + """\
quilt:
  arrange: [[star, points]]
  sashing: {width: 2 in, fabric: other, cornerstone: dark, frame: yes}
  borders: [{width: 2 in, fabric: dark, corners: light}]
sizes: {only: {across: 3, down: 4}}
house: {inches: {long-seam: 24 in}}
"""
QUILTS = {
    "pinwheel": PINWHEEL, "sashed": SASHED.replace("sizes: {small", "sizes: {only"), "floats": ON_POINT,
    "ring of sails": MEDALLION.replace("FLOAT", "0 in"), "trimmed wide": MEDALLION.replace("FLOAT", "1 in"),
    "mitered": MITERED, "strippy": STRIPPY, "chains": CHAINS, "sashed on point": SASHED_ON_POINT, "floating": FLOATING,
    "rings": RINGED, "stars": STARS, "medallion in two ways": IN_TWO_WAYS,
    "in quarters": IN_QUARTERS,
    "curves": CURVES.replace("[ROW]", "[[curve@180, curve@270], [curve@90, curve]]"),
}


def rounded(spots: list[Spot]) -> Counter[Spot]:
    return Counter((round(x, 2) + 0.0, round(y, 2) + 0.0) for x, y in spots)


def checked(plan: Plan) -> tuple[list[Spot], list[Spot]]:
    """Where the checker finds junctions, and where seams pile up, in the first size."""
    assert plan.pressing is not None
    walk = Walk(plan, plan.pressing, 0)
    walk.lay_top()
    junctions, heavy = [], []
    for number in range(len(walk.laid)):
        turned = next((known for known in walk.turned if number < known[0]), None)
        scale, base = (walk.scale, None) if turned is None else turned[1:]
        junctions += [_spot(place, scale, base) for place, _ in walk.junctions(number)]
        heavy += [_spot(place, scale, base) for place, _ in walk.heavy(number)]
    return junctions, heavy


def plan_of_name(name: str) -> Plan:
    return quilt(QUILTS[name]) if name in QUILTS else demo(ROOT / "patterns" / f"{name}.yaml")


@pytest.mark.parametrize("name", [*QUILTS, "gallery/lamp-room", "gallery/pilings", "twelve-berths"])
def test_three_counts_find_the_same_junctions(name: str) -> None:
    plan = plan_of_name(name)
    plan = with_pressing(plan)
    assert plan.pressing is not None
    joiner = Joiner(plan, 0)
    patches = joiner.top()
    planned: Counter[tuple[str, str]] = Counter()
    for junction in plan.pressing.junctions:
        planned[junction.line.owner.kind, junction.line.part] += junction.counts[0]
    found: Counter[tuple[str, str]] = Counter()
    for join in joiner.joins:
        found[join.kind] += len(join.junctions)
    assert +found == +planned
    junctions, heavy = checked(plan)
    assert rounded([spot for join in joiner.joins for spot in join.junctions]) == rounded(junctions)
    assert rounded([spot for join in joiner.joins for spot in join.heavy]) == rounded(heavy)
    assert sum(point.counts[0] for point in plan.pressing.heavy) == len(heavy)
    assert rounded(crowded(patches)) == rounded(heavy)


def test_a_medallion_in_two_ways_is_counted_round_by_round() -> None:
    """Blocks of its center are made in two ways, its rounds in one; the check of every plan finds the same."""
    plan = with_pressing(quilt(IN_TWO_WAYS))
    assert plan.pressing is not None
    assert plan.pressing.variants
    assert verify(plan) == ()
    lines = {junction.line.owner.id for junction in plan.pressing.junctions if junction.line.owner.kind == "border"}
    assert lines >= {"border-1", "border-2", "border-4"}
