"""Binding on the bias, backings with a panel in the middle, batting as it is sold: simulated, and checked again."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from math import sqrt

import pytest
from shapely import LineString, Polygon, box
from shapely.affinity import rotate

from patchwright.core.length import Cut, Length
from patchwright.planning.finishing.bias import BiasCloth, continuous_squares, strip_lengths, strips_across
from patchwright.planning.plan import Plan, PlannedBacking, PlannedBinding, PlannedSize
from patchwright.planning.verify import verify
from patchwright.planning.workings import explain, known_names
from planning.compiling import codes, compile_text, plan_of, sample

BLOCK = "blocks: {one: {cell: 6 in, rows: [[red]]}}\n"
SIZES = BLOCK + "sizes: {only: {across: 10, down: 12}}\n"
PACK = """\
packs: {bundle: {strips: 2 1/2 in x 42 in, count: 40}}
fabrics:
  red: {color: a9482f}
  cream: {color: ece7db, cut-from: {pack: bundle}}
"""


def quilt(more: str, base: str = "") -> Plan:
    return plan_of(sample(f"{base}quilt: {{arrange: [[one]], {more}}}\n{SIZES}"))


def binding(plan: Plan) -> PlannedBinding:
    made = plan.sizes[0].binding
    assert made is not None
    return made


def backing(plan: Plan) -> PlannedBacking:
    made = plan.sizes[0].backing
    assert made is not None
    return made


# -- the bias, cut again by independent geometry ----------------------------------------------------------------------


def cut_by_geometry(width: float, height: float, strip: float) -> list[float]:
    """Cut a rectangle at 45 degrees into bands, the first cut from the corner; measure each band's whole width.

    A band is as long as the longest shape of one slant that fits it: of the two lines parallel to its sides a hair
    inside them, the shorter, and half the difference where it narrows evenly at both ends.
    """
    cloth, first, far = box(0, 0, width, height), min(width, height), width + height
    step, found = strip * sqrt(2), []
    lows = [first - step * number for number in range(1, 400)] + [first + step * number for number in range(400)]
    for low in lows:
        if low < -1e-9 or low + step > far + 1e-9:
            continue
        band = Polygon([(low, 0), (low + step, 0), (-far + low + step, far), (-far + low, far)])
        edges = [
            cloth.intersection(LineString([(at + far, -far), (at - far, far)])).length for at in (low, low + step)
        ]
        tapers = abs(abs(edges[0] - edges[1]) - 2 * strip) < 1e-9
        long = min(edges) + (strip if tapers else 0)
        assert cloth.intersection(band).area >= long * strip - 1e-6
        if long >= 4 * strip - 1e-9:
            found.append(long)
    return sorted(found, reverse=True)


@pytest.mark.parametrize(
    ("width", "height", "strip"),
    [(20, 20, 2), (39, 12, "5/2"), (31, 20, "5/2"), (23, 23, "9/4"), (12, 39, "5/2"), (40, 33, "13/4"), (9, 9, 3)],
)
def test_bias_strips_are_as_long_as_they_can_be_cut(width: int, height: int, strip: str) -> None:
    own = strip_lengths(Length(width), Length(height), Length(strip))
    again = cut_by_geometry(width, height, float(Fraction(strip)))
    assert [float(length) for length in own] == pytest.approx(again)


def test_bias_strips_of_a_rectangle_fall_short_of_its_area() -> None:
    """Of 31 x 20 the area allows 248 of 2 1/2; whole strips with joins give less. Common practice, no source."""
    lengths = strip_lengths(Length(31), Length(20), Length("5/2"))
    given = sum(float(length) for length in lengths) - (len(lengths) - 1) * sqrt(2) / 2
    assert given < 248 < 272


def test_continuous_bias_gives_whole_rounds() -> None:
    """S = 22, w = 2, s = 1/4: seven strips, 212.8. Common practice, no source."""
    made = continuous_squares(Length(22), Length(212), Length(2), Length("1/4"))
    assert made is not None
    assert (made.size, made.count, made.lines) == ((Length(22), Length(22)), 1, 7)
    assert float(made.made) == pytest.approx(212.84, abs=0.01)
    assert continuous_squares(Length(22), Length(213), Length(2), Length("1/4")) != made


@pytest.mark.parametrize(("needed", "strip"), [(120, "5/2"), (276, "5/2"), (400, "9/4"), (900, "5/2")])
def test_no_smaller_cloth_would_do(needed: int, strip: str) -> None:
    found = strips_across(Length(39), Length(needed), Length(strip), Length("1/4"))
    assert found is not None
    assert found.made >= Length(needed)
    less = strip_lengths(Length(39), found.size[1] - Length(1), Length(strip))
    given = sum(float(length) for length in less) - (len(less) - 1) * sqrt(2) / 2
    assert given < needed


def test_a_tube_has_the_area_of_its_spiral() -> None:
    """The two triangles of a square, sewn together, hold every round that is counted."""
    side, strip, seam = 29.0, 2.5, 0.25
    upper = Polygon([(seam, 0), (side, 0), (seam, side - seam)])
    turned = rotate(upper, 180, origin=(seam, (side - seam) / 2))
    made = continuous_squares(Length(29), Length(300), Length("5/2"), Length("1/4"))
    assert isinstance(made, BiasCloth)
    assert made.lines * strip * (side - 2 * seam) * sqrt(2) <= upper.area + turned.area + 1e-9


# -- binding in plans -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("way", ["strips", "squares", "continuous"])
@pytest.mark.parametrize("fabric", ["fabric: cream, ", ""])
def test_bias_binding_is_planned_and_adds_up(way: str, fabric: str) -> None:
    made = binding(quilt(f"binding: {{{fabric}bias: {way}}}"))
    assert made.made >= made.length
    assert made.joins == made.strips - 1
    assert (made.buy is None) == bool(fabric)
    assert made.cloth is not None


def test_binding_from_strips_of_a_pack() -> None:
    """Strips of 2 1/2 x 42 joined diagonally, as published strip counts have it."""
    plan = quilt("binding: {fabric: cream}", PACK)
    made = binding(plan)
    assert made.cloth == (Length(42), Length("5/2"))
    assert made.made == Length(42) * made.strips - Length("5/2") * (made.strips - 1)
    assert made.made - Length(42) + Length("5/2") < made.length <= made.made
    pack = plan.packs[0].sizes[0]
    assert pack is not None
    assert pack.used == made.strips


def test_a_single_fold_has_the_width_of_its_house_rule() -> None:
    assert binding(quilt("binding: {fold: single}")).strip.length == Length("5/4")
    assert binding(quilt("binding: {fold: single, strip: 1 1/8 in}")).strip.length == Length("9/8")


def test_every_size_may_bind_another_way() -> None:
    plan = plan_of(sample(BLOCK + """\
quilt: {arrange: [[one]], binding: {fabric: cream, bias: continuous}}
sizes:
  large: {across: 12, down: 14}
  small: {across: 5, down: 6, binding: {bias: squares, fold: single}}
"""))
    ways = [size.binding.way for size in plan.sizes if size.binding is not None]
    assert ways == ["continuous", "bias-squares"]


@pytest.mark.parametrize(
    ("more", "base", "code"),
    [
        ("binding: {fabric: cream, bias: strips}", PACK, "bias-from-precut"),
        ("binding: {fabric: cream, bias: squares}", PACK, "binding-too-long"),
        ("backing: {directional: lengthwise, seams: crosswise}", "", "seams-against-print"),
        ("backing: {wide: 2 in}", "", "seam-too-wide"),
        ("backing: {fabric: cream, wide: 108 in}", "", "backing-cloth"),
        ("backing: {fabric: cream, usable-width: 41 in}", "", "backing-cloth"),
        ("backing: {fabric: cream}", PACK, "backing-cloth"),
    ],
)
def test_what_cannot_be_cut_is_refused(more: str, base: str, code: str) -> None:
    assert code in codes(sample(f"{base}quilt: {{arrange: [[one]], {more}}}\n{SIZES}"))


# -- backing and batting ----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("across", "panels", "lengths"),
    [(10, 3, 2), (4, 1, 1), (16, 3, 3), (20, 5, 4), (26, 5, 5)],
)
def test_a_centered_backing_has_no_seam_in_its_middle(across: int, panels: int, lengths: int) -> None:
    plan = plan_of(sample(f"""\
{BLOCK}quilt: {{arrange: [[one]], backing: {{centered: yes, seams: lengthwise}}}}
sizes: {{only: {{across: {across}, down: 20}}}}
"""))
    made = backing(plan)
    widths = [panel[0] for panel in made.panels]
    assert (len(widths), made.lengths) == (panels, lengths)
    assert widths == widths[::-1]
    assert len(widths) % 2 == 1
    joined = sum((float(width) for width in widths), -float(plan.rules.backing_seam) * 2 * (len(widths) - 1))
    assert float(made.size[0]) <= joined <= float(made.size[0]) + 0.25


def test_seams_are_forced_by_the_author() -> None:
    for seams in ("lengthwise", "crosswise"):
        assert backing(quilt(f"backing: {{seams: {seams}}}")).seams == seams


def test_a_wide_cloth_is_used_without_its_selvages() -> None:
    """Wide backing cloth of 108 in is published; 2 in of selvages are common practice, no source."""
    made = backing(quilt("backing: {wide: 108 in}"))
    assert (made.usable_width, made.seams, len(made.panels)) == (Length(106), "none", 1)


def size_of(across: int, down: int, rules: str = "") -> PlannedSize:
    house = f"house: {{inches: {{batting: {{{rules}}}}}}}\n"
    return plan_of(sample(f"{BLOCK}sizes: {{only: {{across: {across}, down: {down}}}}}\n{house}")).sizes[0]


@pytest.mark.parametrize(
    ("across", "down", "package"),
    [(4, 6, (36, 45)), (6, 8, (45, 60)), (8, 8, (60, 60)), (10, 13, (72, 90)), (13, 10, (72, 90))],
)
def test_the_smallest_package_is_named(across: int, down: int, package: tuple[int, int]) -> None:
    made = size_of(across, down)
    assert made.batting_bought.package == tuple(Length(side) for side in package)


def test_no_package_is_named_where_none_is_large_enough() -> None:
    assert size_of(40, 40).batting_bought.package is None
    assert size_of(4, 6, "packages: []").batting_bought.package is None


def test_batting_off_the_roll_is_joined_where_no_roll_is_wide_enough() -> None:
    made = size_of(40, 40, "rolls: [60 in, 90 in]").batting_bought.roll
    assert made is not None
    assert (made.width, made.pieces, made.length) == (Length(90), 3, Length(747))


# -- sleeve, corners, label -------------------------------------------------------------------------------------------

HUNG = "hanging: {sleeve: cream, corners: red, label: cream}"


def test_what_hangs_a_quilt_is_cut_from_its_fabrics() -> None:
    """A sleeve as wide as the quilt less 1 in on each side, with hems of 1 in. Common practice, no source."""
    plan = quilt(HUNG)
    cuts = {
        part.part: (part.fabric, [str(side) for side in part.cut], part.count) for part in plan.sizes[0].hanging
    }
    assert cuts == {
        "hanging-sleeve": ("cream", ["60", "9"], 1), "hanging-corners": ("red", ["5", "5"], 2),
        "hanging-label": ("cream", ["13/2", "9/2"], 1),
    }
    sleeve = next(piece for piece in plan.pieces if "hanging-sleeve" in piece.uses).sizes[0]
    assert sleeve is not None
    assert sleeve.joins == 1


def test_a_short_sleeve_is_cut_in_one_and_corners_share_pieces_of_their_size() -> None:
    plan = plan_of(sample("""\
blocks: {one: {cell: 4 1/2 in, rows: [[red]]}}
quilt: {arrange: [[one]], hanging: {sleeve: cream, corners: red}}
sizes: {only: {across: 4, down: 4}}
"""))
    sleeve = next(piece for piece in plan.pieces if "hanging-sleeve" in piece.uses).sizes[0]
    assert sleeve is not None
    assert (sleeve.joins, str(sleeve.width)) == (0, "18")
    corners = next(piece for piece in plan.pieces if "hanging-corners" in piece.uses)
    assert corners.sizes[0] is not None
    assert corners.sizes[0].need == 4 * 4 + 2


def test_a_size_may_be_hung_otherwise() -> None:
    plan = plan_of(sample(BLOCK + """\
quilt: {arrange: [[one]]}
sizes:
  wall: {across: 5, down: 5, hanging: {sleeve: cream, label: red, label-size: 3 in x 5 in}}
  bed: {across: 12, down: 14}
"""))
    assert [len(size.hanging) for size in plan.sizes] == [2, 0]
    assert [str(side) for side in plan.sizes[0].hanging[1].cut] == ["7/2", "11/2"]


def test_what_hangs_a_quilt_is_explained() -> None:
    plan = quilt(HUNG)
    assert [working.rule for working in explain(plan, "hanging")] == [
        "hanging-sleeve", "hanging-corners", "hanging-label",
    ]
    assert "hanging" in known_names(plan)
    assert "hanging" not in known_names(quilt("binding: {}"))


def test_a_hanging_without_fabric_is_refused() -> None:
    assert "missing-key" in codes(sample("quilt: {arrange: [[one]], hanging: {label-size: 3 in x 5 in}}\n" + SIZES))


def test_a_sleeve_that_is_short_is_found() -> None:
    plan = quilt(HUNG)
    size = plan.sizes[0]
    sleeve, *rest = size.hanging
    for wrong in (
        replace(sleeve, cut=(sleeve.cut[0] - Cut(2), sleeve.cut[1])), replace(sleeve, fabric="red"),
        replace(sleeve, count=2),
    ):
        assert verify(replace(plan, sizes=(replace(size, hanging=(wrong, *rest)),)))


# -- the independent check finds what is wrong ------------------------------------------------------------------------


def test_a_binding_or_batting_that_is_short_is_found() -> None:
    plan = quilt("binding: {bias: squares}, backing: {centered: yes}")
    size, one, back = plan.sizes[0], binding(plan), backing(plan)
    assert one.cloth is not None
    wrong = [
        replace(size, binding=replace(one, made=one.made + Length(20))),
        replace(size, binding=replace(one, cloth=(one.cloth[0] - Length(3), one.cloth[1] - Length(3)))),
        replace(size, binding=replace(one, strips=one.strips + 1, joins=one.joins + 1)),
        replace(size, backing=replace(back, length=back.length - Length(1))),
        replace(size, batting_bought=replace(size.batting_bought, package=(Length(36), Length(45)))),
    ]
    for changed in wrong:
        assert verify(replace(plan, sizes=(changed,)))


def test_nothing_is_said_of_a_good_one() -> None:
    _, found = compile_text(sample("quilt: {arrange: [[one]], binding: {fabric: cream, bias: strips}}\n" + SIZES))
    assert not [item for item in found if item.severity == "error"]


# -- cloth that is printed in a direction -----------------------------------------------------------------------------


@pytest.mark.parametrize("direction", ["lengthwise", "crosswise"])
def test_a_one_way_cloth_stands_upright_in_borders_backing_and_sleeve(direction: str) -> None:
    """A print along the bolt has the side borders cut along it, and one across the bolt those of top and bottom."""
    plan = plan_of(sample(f"""\
fabrics: {{red: {{}}, cream: {{directional: {direction}}}}}
{BLOCK}quilt:
  arrange: [[one]]
  borders: [{{width: 4 in, fabric: cream}}]
  binding: {{fabric: cream}}
  backing: {{fabric: cream}}
  hanging: {{sleeve: cream, label: cream, label-size: 3 in x 5 in}}
sizes: {{only: {{across: 10, down: 12}}}}
"""))
    assert backing(plan).seams == direction
    by_use: dict[str, list[tuple[str, str]]] = {}
    for piece in plan.pieces:
        size = piece.sizes[0]
        if piece.fabric == "cream" and size is not None:
            by_use.setdefault(piece.uses[0], []).append((str(size.width), str(size.height)))
    upright = {"border-1": {("9/2", "145/2"), ("137/2", "9/2")}, "hanging-label": {("7/2", "11/2")}}
    if direction == "crosswise":
        upright = {use: {(high, wide) for wide, high in sizes} for use, sizes in upright.items()}
    assert {use: set(by_use[use]) for use in upright} == upright
    joined = {piece.uses[0] for piece in plan.pieces if (size := piece.sizes[0]) is not None and size.joins}
    assert ("hanging-sleeve" in joined) == (direction == "lengthwise")


def test_bias_and_straight_binding_of_a_one_way_cloth_add_up() -> None:
    for way in ("", ", bias: strips", ", bias: squares", ", bias: continuous"):
        plan = plan_of(sample(f"""\
fabrics: {{red: {{}}, cream: {{directional: crosswise}}}}
{BLOCK}quilt: {{arrange: [[one]], binding: {{fabric: cream{way}}}}}
sizes: {{only: {{across: 10, down: 12}}}}
"""))
        assert binding(plan).made >= binding(plan).length
