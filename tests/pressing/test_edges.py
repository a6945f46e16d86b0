"""Junctions along the edges of centers on point: a case by hand, and quilts made up at random, counted twice."""

from __future__ import annotations

from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from patchwright.planning.plan import Plan
from patchwright.planning.pressing.press import plan_pressing
from patchwright.planning.pressing.recount import recount_points
from patchwright.planning.pressing.results import PressingPlan
from planning.compiling import compile_text, sample
from pressing.quilts import counts, quilt

PARTS = """\
units:
  sail: {half-square: [dark, light]}
  peak: {flying-geese: {goose: dark, sky: light}}
  wheel: {quarter-square: [dark, light]}
blocks:
  four: {cell: 3 in, rows: [[dark, light], [light, dark]]}
  vanes: {cell: 3 in, rows: [[sail@90, sail@180], [sail, sail@270]]}
  star: {cell: 1 1/2 in, rows: [[dark, peak, dark], [peak@270, wheel 2x2, peak@90], [dark, peak@180, dark]]}
  points: {cell: 2 in, rows: [[sail@90, light, sail], [light, dark, light], [sail, light, sail@90]]}
  jib: {size: 2 in, rows: [[sail]]}
  jub: {size: 2 in, rows: [[sail@90]]}
  wave: {size: 4 in x 2 in, rows: [[peak]]}
  trim: {size: 2 in, rows: [[sail@90, sail@180], [sail, sail@270]]}
"""
MEDALLION = PARTS + """\
quilt:
  setting: medallion
  arrange: [[four]]
  setting-triangles: {fabric: light, float: FLOAT}
  borders: [{pieced: {repeat: [jub, jib], corner: other, spacers: {fabric: other, at: ends, least: 1/4 in}}}]
sizes: {only: {}}
"""


def along_the_border(plan: Plan, pressing: PressingPlan, seams: tuple[str, ...] = ("side", "end")) -> tuple[int, int]:
    """(nested, all) where the border is sewn on, of the first size."""
    found = [j for j in pressing.junctions if j.line.owner.kind == "border" and j.line.part in seams]
    return sum(j.counts[0] for j in found if j.nests), sum(j.counts[0] for j in found)


def assert_twice_the_same(plan: Plan, pressing: PressingPlan) -> None:
    for index, size in enumerate(pressing.sizes):
        heavy = sum(point.counts[index] for point in pressing.heavy)
        assert recount_points(plan, pressing, index) == (size.nested, size.total, heavy)


def test_a_block_on_point_whose_points_touch_a_ring_of_sails() -> None:
    """Worked by hand, from the definition of a junction alone.

    In the block: its four patches meet once, and that nests. In each of the four rows, two sails lean on each other in
    the middle: their slanted seams meet where the seam between them begins. One unit is the other turned by a quarter,
    so that these are the two ends of one seam, and their allowances lie the same way around: none of the four nests.
    Beside the middle of each side a point of the block touches the border: the seam of its row and the seam between
    rows meet one slanted seam each, eight in all. Going around clockwise, the first of each pair wants one sense and
    the second the other; of each of the four seams of the center, one end is a first and the other a second one, and
    two ends of a seam have opposite senses: all eight nest. At the four corners of the border the seams of corner
    squares meet those of the sides; nothing else asks anything of them, so that they nest. Together 13 of 17.
    In each middle, two seams of the center, two slanted ones and the one between the sails meet the border's seam,
    which counts twice: seven, four times.
    """
    plan = quilt(MEDALLION.replace("FLOAT", "0 in"))
    pressing = plan_pressing(plan, "nest")
    assert counts(pressing) == [(13, 17)]
    assert along_the_border(plan, pressing) == (12, 12)
    assert [(point.seams, point.line.part) for point in pressing.heavy] == [(7, "side")] * 2 + [(7, "end")] * 2
    assert_twice_the_same(plan, pressing)


def test_a_center_that_floats_meets_a_ring_of_sails_nowhere() -> None:
    """An inch beyond its points, only the seams between rows reach the edge, an inch and more off the middle."""
    plan = quilt(MEDALLION.replace("FLOAT", "1 in"))
    pressing = plan_pressing(plan, "nest")
    assert along_the_border(plan, pressing) == (4, 4)
    assert pressing.heavy == ()
    assert_twice_the_same(plan, pressing)


MITERED = """\
blocks: {one: {cell: 6 in, rows: [[dark]]}}
quilt:
  arrange: [[one]]
  borders:
    - {width: 2 in, fabric: dark, corners: mitered}
    - {width: 1 in, fabric: light, corners: mitered}
    - {width: 3 in, fabric: other, corners: mitered}
sizes: {only: {across: 1, down: 1}}
"""


def test_seams_of_strips_that_are_mitered_as_one_nest_at_the_corners() -> None:
    """Three strips have two seams, which meet those of the next set at all four corners: eight. Common practice, no
    source: they nest where the sets of the sides are pressed outward and those of top and bottom inward. Where the
    first strips are sewn on, the seams end before the corner, and meet on no miter."""
    plan = quilt(MITERED)
    pressing = plan_pressing(plan, "nest")
    assert counts(pressing) == [(8, 8)]
    assert {j.line.part for j in pressing.junctions} == {"miter"}
    ways = {(p.seam.owner.id, p.seam.part): p.toward for p in pressing.seams}
    for border in ("border-2", "border-3"):
        assert (ways[border, "side"], ways[border, "end"]) == ((border,), ("center",))
    assert [p.way for p in pressing.seams if p.seam.part == "miter"] == ["open"] * 4
    assert_twice_the_same(plan, pressing)


AROUND_A_MITER = MITERED[:MITERED.index("    - {width: 1 in")] + """\
    - {pieced: {repeat: [jib], corner: other, spacers: {fabric: other, at: middle, least: 1/4 in}}}
sizes: {only: {across: 1, down: 1}}
"""


def test_a_miter_meets_the_seam_of_a_unit_beyond_it_and_nests_with_nothing() -> None:
    """A sail at both ends of each row, turned with it: at one corner of each side its slanted seam mirrors the miter.

    Of a row, the left sail leans to the right and begins where the miter ends; the right one ends beside the corner
    farther out. Four junctions with the miters, which are open; four where corner squares meet the sides' seams.
    """
    plan = quilt("units: {sail: {half-square: [dark, light]}}\n" + AROUND_A_MITER.replace(
        "blocks: {one", "blocks: {jib: {size: 2 in, rows: [[sail]]}, one"
    ))
    pressing = plan_pressing(plan, "nest")
    met = [j for j in pressing.junctions if "miter" in (j.first.seam.part, j.second.seam.part)]
    assert [j.counts[0] for j in met] == [1] * 4
    assert not any(j.nests for j in met)
    assert counts(pressing) == [(4, 8)]
    assert_twice_the_same(plan, pressing)


REPEATS = (
    "repeat: [jub, jib]", "repeat: [jib, jub]", "repeat: [wave]", "repeat: [jib], middle: trim",
    "repeat: [jib], turn-at: middle",
)
RINGS = (
    *(f"{{pieced: {{{parts}, corner: CORNER, spacers: {{fabric: other, at: PLACE, least: 1/4 in}}}}}}"
      for parts in REPEATS),
    "{pieced: {repeat: [jub, jib], corner: CORNER}, coping: {fabric: other}}",
)


@st.composite
def on_point(draw: st.DrawFn) -> str:
    """A pattern whose blocks stand on point, with one to three borders around them."""
    block, other = (draw(st.sampled_from(["four", "vanes", "star", "points"])) for _ in range(2))
    setting = draw(st.sampled_from(["on-point", "on-point", "medallion", "strippy"]))
    turned = draw(st.sampled_from(["", "@90"]))
    lines = [f"  setting: {setting}", f"  arrange: [[{block}, {block}{turned}]]"]
    beyond = draw(st.sampled_from(["", "", ", float: 1 in"]))
    if setting == "strippy":
        lines.append("  strips: {width: 2 in, fabric: other}")
    elif draw(st.booleans()) and not beyond and setting == "on-point":
        lines.append(f"  sashing: {{width: 1 in, fabric: other{draw(st.sampled_from(['', ', cornerstone: dark']))}}}")
    if setting != "strippy":
        lines.append(f"  alternate: {draw(st.sampled_from([other, 'light']))}")
    lines.append(f"  setting-triangles: {{fabric: {draw(st.sampled_from(['light', 'dark']))}{beyond}}}")
    kinds = st.sampled_from([*RINGS * 2, *["{width: 2 in, fabric: dark, corners: mitered}"] * 3,
                             "{width: 1 in, fabric: other, corners: light}", "{width: 2 in, fabric: light}",
                             "{width: 2 in, fabric: light, along: sides}", "{width: 2 in, fabric: dark, along: ends}"])
    rings = [
        kind.replace("CORNER", draw(st.sampled_from(["trim", "dark"])))
        .replace("PLACE", draw(st.sampled_from(["ends", "middle"])))
        for kind in draw(st.lists(kinds, min_size=1, max_size=3))
    ]
    lines.append(f"  borders: [{', '.join(rings)}]")
    across, down = draw(st.integers(1, 3)), draw(st.integers(1, 3))
    size = "{}" if setting == "medallion" else f"{{across: {across}, down: {down}}}"
    return PARTS + "quilt:\n" + "\n".join(lines) + f"\nsizes: {{only: {size}}}\n"


COLORS = """\
fabrics:
  dark: {color: 22344c, value: dark}
  light: {color: ece7db, value: light}
  other: {color: 6b7a3a, value: medium}
"""


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much])
@given(on_point())
def test_planner_and_checker_count_the_same_around_centers_on_point(text: str) -> None:
    plan, found = compile_text(sample(COLORS + text))
    assert plan is not None or {item.code for item in found} <= {"pieced-border-does-not-fit"}, found
    assume(plan is not None)
    assert plan is not None
    for rule in ("nest", "dark"):
        assert_twice_the_same(plan, plan_pressing(plan, rule))
