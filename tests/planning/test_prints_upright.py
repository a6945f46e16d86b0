"""One-way prints from the cloth to the quilt: every cut piece is followed through the plan to where it lies.

The plan is flattened here, apart from the compiler: quarter turns are added up from the top down to patches and units.
A plain patch must be cut as wide and as high as it lies in the quilt, for then its print runs up there; a unit must be
among those that are made to lie so, and enough of its batches' units must lie so.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

import pytest

from patchwright.core.geometry import Orientation, Polygon
from patchwright.core.length import Length
from patchwright.methods.method import UnitPatch
from patchwright.methods.registry import BY_NAME
from patchwright.planning.plan import Plan, PlannedUnit, UnitSize
from patchwright.planning.verify import verify
from planning.compiling import codes, plan_of, sample, unit_size

Place = tuple[str, str, int, tuple[Length, Length]]
"""What lies there, its quarter turns in the quilt, and its finished width and height in the quilt."""


def laid(plan: Plan) -> Iterator[Place]:
    """Every plain piece and unit of the first size, one by one."""
    assemblies = {assembly.id: assembly for assembly in plan.assemblies}

    def inside(kind: str, ref: str, turns: int, place: tuple[Length, Length]) -> Iterator[Place]:
        if kind != "assembly":
            yield kind, ref, turns % 4, place
            return
        for line in assemblies[ref].lines:
            for part in line:
                size = part.sizes[0]
                assert size is not None
                box = (size[0].length, size[1].length)
                own = part.orientation.turns if part.kind != "piece" else 0
                yield from inside(part.kind, part.ref, turns + own, box[::-1] if turns % 2 else box)

    for item in plan.sizes[0].items:
        if not item.outline:
            turns = item.orientation.turns if item.kind != "piece" else 0
            yield from inside(item.kind, item.ref, turns, (item.width, item.height))


def check_prints(plan: Plan) -> int:
    """Follow every one-way print to its place; how many places there were."""
    ways = {fabric.id: fabric.direction for fabric in plan.fabrics}
    pieces, units = {piece.id: piece for piece in plan.pieces}, {unit.id: unit for unit in plan.units}
    seam, found = plan.rules.seam * 2, 0
    needed: dict[str, Counter[int]] = {}
    for kind, ref, turns, box in laid(plan):
        if kind == "piece":
            piece = pieces[ref]
            cut, way = piece.sizes[0], ways[piece.fabric]
            assert cut is not None
            if way != "none":
                found += 1
                along = (cut.width.length, cut.height.length)
                assert (along if way == "lengthwise" else along[::-1]) == (box[0] + seam, box[1] + seam), ref
        elif any(ways[fabric] != "none" for _, fabric in units[ref].fabrics):
            found += 1
            needed.setdefault(ref, Counter())[turns] += 1
    for ref, counts in needed.items():
        unit = units[ref]
        check_unit(unit, unit_size(unit), [role for role, fabric in unit.fabrics if ways[fabric] != "none"], counts)
    return found


def check_unit(unit: PlannedUnit, size: UnitSize, one_way: list[str], counts: Counter[int]) -> None:
    """Of every look that is needed, the batches give as many with their prints up."""
    given = Counter(look(unit, size, unit.turn + turn) for turn in size.recipe.turns(one_way))
    wanted: Counter[frozenset[tuple[str, Polygon]]] = Counter()
    for turns, count in counts.items():
        wanted[look(unit, size, turns)] += count
    for shape, count in wanted.items():
        assert count <= given[shape] * size.batches, (unit.id, counts)


def look(unit: PlannedUnit, size: UnitSize, turns: int) -> frozenset[tuple[str, Polygon]]:
    """The patches of a unit that is turned so, with their fabrics."""
    fabrics, lay = dict(unit.fabrics), Orientation(turns % 4, unit.hand == "reversed")
    width, height = (side.length for side in size.finished)
    patches: tuple[UnitPatch, ...] = BY_NAME[unit.method].patches(size.request)
    return frozenset((fabrics[patch.role], frozenset(lay.polygon(patch.outline, width, height)))  # type: ignore[misc]
                     for patch in patches)


UNITS = {
    "patch": "u: {patch: red, size: 2 x 1}",
    "half-square": "u: {half-square: [red, cream], size: 2 x 2}",
    "half-square, eight": "u: {half-square: [red, cream], size: 2 x 2, make: eight-at-a-time}",
    "half-square, singly": "u: {half-square: [red, cream], size: 2 x 2, make: singly}",
    "quarter-square": "u: {quarter-square: [red, cream], size: 2 x 2}",
    "quarter-square of three": "u: {quarter-square: [red, cream, blue], size: 2 x 2}",
    "quarter-square, cut": "u: {quarter-square: [red, cream, blue, cream], size: 2 x 2, make: cut}",
    "split-square": "u: {split-square: [cream, red, blue], size: 2 x 2}",
    "half-rectangle": "u: {half-rectangle: [red, cream], size: 1 x 2}",
    "geese": "u: {flying-geese: {goose: red, sky: cream}}",
    "geese, four": "u: {flying-geese: {goose: red, sky: cream}, make: four-at-a-time}",
    "geese, cut": "u: {flying-geese: {goose: cream, sky: red}, make: cut}",
    "flipped corners": "u: {flipped-corners: {base: red, ne: cream}, size: 2 x 1}",
    "square in a square": "u: {square-in-square: {center: red, corners: cream}, make: flipped}",
    "four-patch": "u: {four-patch: [red, cream], size: 2 x 2}",
    "strips": "u: {strip-set: [red, cream], heights: 2 1, size: 2 x 3}",
    "cabin": "u: {log-cabin: [cream, red, blue], rounds: 1, size: 3 x 3}",
    "steps": "u: {courthouse-steps: [cream, red, blue], rounds: 1, size: 3 x 3}",
    "foundation": 'u: {foundation: [red, cream], patches: "0 0, 1 0, 0 1; 1 0, 1 1, 0 1"}',
    "quarter circle": "u: {quarter-circle: [red, cream], radius: 3/2}",
}
LAYS = ("", "@90", "@180", "@270", "@mirror", "@mirror@90", "@mirror@180", "@mirror@270")


def turned_about(unit: str, way: str, cream: str = "none") -> str:
    """Every lay of a unit, in blocks that are turned and mirrored inside blocks that are turned and mirrored too."""
    other = f", directional: {cream}" if cream != "none" else ""
    columns = "\n".join(f"  leaf-{number}: {{rows: [[u{lay}]]}}" for number, lay in enumerate(LAYS))
    return sample(f"""\
fabrics:
  red: {{color: a9482f, directional: {way}}}
  cream: {{color: ece7db{other}}}
  blue: {{color: 2b2f90}}
units:
  {UNITS[unit]}
blocks:
{columns}
  quad: {{rows: [[leaf-0, leaf-2], [leaf-4, leaf-6]]}}
  side: {{rows: [[leaf-1, leaf-3], [leaf-5, leaf-7]]}}
  one: {{cell: 2 in, rows: [[quad, quad@mirror], [quad@180, quad@mirror@180]]}}
  two: {{cell: 2 in, rows: [[side, side@mirror], [side@180, side@mirror@180]]}}
quilt:
  arrange: [[one], [one@mirror], [two@90], [two@mirror@270]]
sizes: {{only: {{across: 1, down: 4}}}}
""")


@pytest.mark.parametrize("unit", UNITS)
@pytest.mark.parametrize("way", ["lengthwise", "crosswise"])
def test_prints_stand_upright_however_units_are_turned(unit: str, way: str) -> None:
    assert check_prints(plan_of(turned_about(unit, way))) > 0


@pytest.mark.parametrize("unit", ["half-square", "half-square, eight", "quarter-square", "split-square", "geese, four"])
def test_two_one_way_prints_in_one_unit(unit: str) -> None:
    assert check_prints(plan_of(turned_about(unit, "lengthwise", "crosswise"))) > 0


def test_both_prints_of_half_squares_eight_at_a_time_take_twice_the_squares() -> None:
    """Four of each of two lays: a batch gives two of every lay of one print, and of two prints only every other lay."""
    text = """\
fabrics: {{red: {{directional: lengthwise}}, cream: {{{other}}}}}
units: {{u: {{half-square: [red, cream], make: eight-at-a-time}}}}
blocks: {{one: {{cell: 2 in, rows: [[u, u@90]]}}}}
sizes: {{only: {{across: 4, down: 1}}}}
"""
    plain, both = (plan_of(sample(text.format(other=other))) for other in ("", "directional: lengthwise"))
    assert [unit_size(unit).batches for unit in plain.units] == [2]
    assert [unit_size(unit).batches for unit in both.units] == [2, 2]


@pytest.mark.parametrize("unit", ["half-square", "geese", "geese, four", "split-square", "four-patch"])
def test_the_check_finds_batches_that_lack_upright_units(unit: str) -> None:
    """One batch fewer, or a unit that is made to lie otherwise, is found; the total alone would not show it."""
    plan = plan_of(turned_about(unit, "lengthwise"))
    for number, own in enumerate(plan.units):
        size = unit_size(own)
        wrong = (
            replace(own, sizes=(replace(size, batches=size.batches - 1, made=10**6),)),
            *((replace(own, turn=own.turn + 1),) if size.recipe.batch < 4 and unit != "four-patch" else ()),
        )
        for other in wrong:
            faults = verify(replace(plan, units=(*plan.units[:number], other, *plan.units[number + 1 :])))
            assert any("prints upright" in fault for fault in faults)


def rectangles(direction: str, quilt: str) -> Plan:
    return plan_of(sample(f"""\
fabrics: {{red: {{directional: {direction}}}, cream: {{}}}}
blocks:
  one: {{cell: 3 in, rows: [[red 2x1], [cream 2x1]]}}
  rail: {{cell: 1 in, rows: [[red 1x6, cream 1x6]]}}
  fan: {{cell: 1 in, rows: [[red 2x3, cream 1x3]]}}
  tooth: {{cell: 1 in, rows: [[red 3x1], [cream 3x2]]}}
quilt: {{arrange: [[one, one@mirror]], {quilt}}}
sizes: {{only: {{across: 2, down: 2}}}}
"""))


TOPS = {
    "turned blocks": "binding: {}",
    "sashing": "sashing: {width: 1 in, fabric: red, frame: yes}",
    "sashing with cornerstones": "sashing: {width: 1 in, fabric: red, cornerstone: cream, frame: yes}",
    "sashing of blocks": "sashing: {block: rail, cornerstone: cream, frame: yes}",
    "butted border": "borders: [{width: 2 in, fabric: red}]",
    "corner squares": "borders: [{width: 2 in, fabric: red, corners: red}]",
    "upright corner blocks": "borders: [{width: 3 in, fabric: red, corners: fan}]",
    "turned corner blocks": "borders: [{width: 3 in, fabric: red, corner: fan@mirror@90}]",
    "pieced border": "borders: [{pieced: {repeat: [tooth], corner: fan, turn-at: middle}}]",
}


@pytest.mark.parametrize("quilt", [pytest.param(quilt, id=name) for name, quilt in TOPS.items() if "rail" not in quilt])
@pytest.mark.parametrize("way", ["lengthwise", "crosswise"])
def test_prints_stand_upright_in_everything_of_a_top(quilt: str, way: str) -> None:
    assert check_prints(rectangles(way, quilt)) > 0


@pytest.mark.parametrize("way", ["lengthwise", "crosswise"])
def test_prints_stand_upright_in_sashing_of_blocks(way: str) -> None:
    assert check_prints(rectangles(way, TOPS["sashing of blocks"])) > 0


@pytest.mark.parametrize(("way", "upright"), [("lengthwise", True), ("crosswise", False)])
def test_prints_stand_upright_on_all_sides_of_a_mitered_border(way: str, upright: bool) -> None:
    """Blocks of 6 x 6, 2 across and 2 down, border of 2, extra of 6 in: strips of 2 1/2 x 22, two each way."""
    plan = rectangles(way, "borders: [{width: 2 in, fabric: red, corners: mitered}]")
    border = plan.sizes[0].borders[0]
    cut = {piece.id: piece.sizes[0] for piece in plan.pieces}
    side, end = cut[border.side_piece], cut[border.end_piece]
    assert side is not None
    assert end is not None
    narrow, long = Length(Fraction(5, 2)), Length(22)
    assert (side.width.length, side.height.length) == ((narrow, long) if upright else (long, narrow))
    assert (end.width.length, end.height.length) == ((long, narrow) if upright else (narrow, long))
    assert (side.need, end.need) == (2, 2)


def corners(quilt: str, more: str = "") -> list[tuple[str, int]]:
    """What lies in the corners of a border, clockwise from the upper left, and its turns."""
    plan = plan_of(sample(f"""\
fabrics: {{red: {{{more}}}, cream: {{}}}}
units: {{sail: {{half-square: [red, cream]}}}}
blocks:
  one: {{cell: 3 in, rows: [[red 2x1], [cream 2x1]]}}
  tooth: {{size: 2 in, rows: [[sail]]}}
quilt: {{arrange: [[one]], borders: [{{width: 2 in, fabric: cream, {quilt}}}]}}
sizes: {{only: {{across: 2, down: 3}}}}
"""))
    size = plan.sizes[0]
    right, bottom = (side.length - Length(2) for side in size.finished)
    places = {(item.x, item.y): item for item in size.items if item.part == "border-1"}
    zero = Length(0)
    found = [places[x, y] for x, y in ((zero, zero), (right, zero), (right, bottom), (zero, bottom))]
    return [(item.ref, item.orientation.turns) for item in found]


def test_corner_blocks_are_turned_at_each_corner() -> None:
    assert corners("corner: tooth") == [("tooth", 0), ("tooth", 1), ("tooth", 2), ("tooth", 3)]
    assert corners("corner: tooth@180") == [("tooth", 2), ("tooth", 3), ("tooth", 0), ("tooth", 1)]


def test_corner_blocks_under_corners_lie_upright() -> None:
    assert corners("corners: tooth") == [("tooth", 0)] * 4


def test_corner_blocks_of_a_one_way_print_are_four_blocks() -> None:
    found = corners("corner: tooth", "directional: lengthwise")
    assert [turns for _, turns in found] == [0, 1, 2, 3]
    assert len({ref for ref, _ in found}) == 4


def test_a_fabric_may_be_the_corner() -> None:
    assert len({ref for ref, _ in corners("corner: red")}) == 1


LEANING = {
    "half-square: [red, cream], make: four-at-a-time": True,
    "half-square: [red, cream], make: eight-at-a-time": False,
    "square-in-square: {center: red, corners: cream}": True,
    "square-in-square: {center: cream, corners: red}": False,
    "square-in-square: {center: red, corners: cream}, make: flipped": False,
    "nested-square: {center: cream, inner: red, corners: cream}": True,
    "nested-square: {center: red, inner: cream, corners: red}": False,
    "eight-point-star: [red, cream, cream]": True,
    "kaleidoscope: [red, cream, cream]": True,
}


@pytest.mark.parametrize(("unit", "leans"), LEANING.items())
def test_prints_that_cannot_stand_upright_are_told(unit: str, leans: bool) -> None:
    text = sample(f"""\
fabrics: {{red: {{directional: lengthwise}}, cream: {{}}}}
units: {{u: {{{unit}, size: 4 x 4}}}}
blocks: {{one: {{cell: 2 in, rows: [[u]]}}}}
""")
    assert ("one-way-leaning" in codes(text)) is leans
