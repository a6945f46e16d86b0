"""Strippy quilts: places checked by another geometry library, hand-worked sizes, pressing recounted, what is refused.

Common practice, no source: columns of blocks and long strips by turns, all strips as long as the columns.
"""

from __future__ import annotations

from collections import Counter
from itertools import product

import pytest
from shapely.geometry import Polygon, box
from shapely.ops import unary_union

from content.compiled import EvenLabels
from patchwright.core.length import ROOT_TWO, Length
from patchwright.diagrams.figures import booklet_figures
from patchwright.diagrams.seam_places import places_on_top
from patchwright.planning.plan import Plan, TopItem
from patchwright.planning.pressing.press import plan_pressing
from patchwright.planning.pressing.recount import recount
from patchwright.planning.verify import verify
from patchwright.planning.workings import explain
from patchwright.wording import load_wording
from planning.compiling import codes, compile_text, cut_sides, errors, lengths, plan_of, sample
from planning.mutating import Step, changed

PATTERN = """\
fabrics: {{red: {{}}, cream: {{{way}}}, blue: {{}}, gray: {{}}}}
units: {{turn: {{half-square: [red, gray]}}}}
blocks:
  one: {{size: 6 in, rows: [[red, gray], [gray, red]]}}
  two: {{size: 6 in, rows: [[turn, turn@90], [turn@270, turn@180]]}}
quilt:
  setting: strippy
  arrange: [[one, two]]
  strips: {{width: 4 in, fabric: blue{edges}}}
{more}
sizes: {{only: {{across: {across}, down: {down}}}}}
house: {{inches: {{usable-width: {usable} in}}}}
"""
EDGES = ", edges: {width: 2 in}"
ON_POINT = "  setting-triangles: {fabric: cream}"
FLOATING = "  setting-triangles: {fabric: cream, float: 1/2 in}"
GRIDS = list(product((1, 4), (1, 5)))


def text(
    across: int = 4, down: int = 8, edges: str = EDGES, more: str = "", way: str = "", usable: int = 120
) -> str:
    return sample(PATTERN.format(across=across, down=down, edges=edges, more=more, way=way, usable=usable))


def shape(item: TopItem) -> Polygon:
    if item.outline:
        return Polygon([(float(corner.x), float(corner.y)) for corner in item.outline])
    x, y, width, height = (float(side) for side in (item.x, item.y, item.width, item.height))
    return box(x, y, x + width, y + height)


@pytest.mark.parametrize("more", ["", ON_POINT, FLOATING])
@pytest.mark.parametrize("edges", ["", EDGES])
@pytest.mark.parametrize(("across", "down"), GRIDS)
def test_the_pieces_tile_the_stated_quilt(across: int, down: int, edges: str, more: str) -> None:
    plan = plan_of(text(across, down, edges, more))
    size = plan.sizes[0]
    width, height = (float(side) for side in size.finished)
    shapes = [shape(item) for item in size.items]
    assert unary_union(shapes).symmetric_difference(box(0, 0, width, height)).area == pytest.approx(0, abs=1e-9)
    assert sum(one.area for one in shapes) == pytest.approx(width * height)
    counts = Counter(item.part for item in size.items)
    assert counts["block"] == across * down
    assert counts["strips"] == across - 1 + (2 if edges else 0)
    assert counts["setting-triangles"] == (across * (2 * (down - 1) + 4) if more else 0)


def test_four_straight_columns_of_eight() -> None:
    """Six-inch blocks: 4 x 6, three strips of 4 and two of 2 are 40 across; 8 x 6 are 48 down."""
    plan = plan_of(text())
    assert [side.length for side in plan.sizes[0].finished] == list(lengths("40", "48"))
    assert cut_sides(plan, "blue") == {lengths("4 1/2", "48 1/2"), lengths("2 1/2", "48 1/2")}
    assert [(strip.place, strip.count) for strip in plan.sizes[0].strips] == [("inner", 3), ("edge", 2)]


def test_three_columns_on_point_of_five() -> None:
    """Side triangles for 6-inch blocks are cut from squares of 9 3/4 (see `set-side-6` in `setting-triangles.yaml`).

    24 of them need six squares; 12 corners need six squares of 5 1/8 (the diagonal's half, 4.243, and 7/8, rounded up).
    """
    plan = plan_of(text(3, 5, more=ON_POINT))
    found = {(piece.then, piece.sizes[0].width.length, piece.sizes[0].need)  # type: ignore[union-attr]
             for piece in plan.pieces if piece.then != "none" and piece.fabric == "cream"}
    assert found == {("twice", *lengths("9 3/4"), 6), ("once", *lengths("5 1/8"), 6)}
    assert plan.sizes[0].finished[1].length == ROOT_TWO * 30
    assert plan.sizes[0].finished[0].length == ROOT_TWO * 18 + Length(12)
    # 42.43 and two seams are 42.93, cut 43 and trimmed to the columns.
    assert cut_sides(plan, "blue") == {lengths("4 1/2", "43"), lengths("2 1/2", "43")}


def test_triangles_of_a_one_way_print_stand_upright() -> None:
    """Cut twice, a square gives one triangle for each side of a column: four sides of a column take four squares."""
    plan = plan_of(text(3, 5, more=ON_POINT, way="directional: lengthwise"))
    needs = {piece.then: piece.sizes[0].need for piece in plan.pieces  # type: ignore[union-attr]
             if piece.fabric == "cream"}
    assert needs == {"twice": 12, "once": 6}


@pytest.mark.parametrize("cut", ["crosswise", "lengthwise"])
def test_strips_are_joined_across_the_cloth_or_cut_along_it(cut: str) -> None:
    plan = plan_of(text(edges=f", cut: {cut}", usable=40))
    strip = next(piece for piece in plan.pieces if piece.kind == "strip")
    size = strip.sizes[0]
    assert size is not None
    assert plan.sizes[0].strips[0].cut == cut
    # Across: three of 48 1/2 in from strips of 40, so joined. Along: three of 4 1/2 lie side by side in 48 1/2.
    assert (size.joins > 0) == (cut == "crosswise")
    blue = next(fabric for fabric in plan.fabrics if fabric.id == "blue").sizes[0]
    assert blue is not None
    assert blue.length == (Length("9/2") * 4 if cut == "crosswise" else Length("97/2"))


def test_a_one_way_print_leaves_no_choice_of_grain() -> None:
    pattern = text(edges=", cut: lengthwise", usable=40).replace("blue: {}", "blue: {directional: lengthwise}")
    assert codes(pattern) == ["unused-fabric", "cut-without-effect"]


def test_strips_at_the_edges_are_the_same_where_nothing_else_is_said() -> None:
    plan = plan_of(text(edges=", edges: {}"))
    assert [(strip.place, strip.count) for strip in plan.sizes[0].strips] == [("inner", 5)]
    assert len([piece for piece in plan.pieces if piece.kind == "strip"]) == 1


def test_columns_of_other_blocks_need_no_level_rows() -> None:
    """Three blocks of 4 in and two of 6 in are both 12 in high."""
    text_of = sample("""\
fabrics: {red: {}, cream: {}, blue: {}}
blocks:
  three: {cell: 2 in, rows: [[red, cream], [cream, red]]}
  two: {cell: 3 in, rows: [[red, cream], [cream, red]]}
  chain: {cell: 1 in, columns: [[three 4x4, three 4x4, three 4x4]]}
  pair: {cell: 1 in, columns: [[two 6x6, two 6x6]]}
quilt: {setting: strippy, arrange: [[chain, pair]], strips: {width: 2 in, fabric: blue}}
sizes: {only: {across: 3, down: 2}}
""")
    size = plan_of(text_of).sizes[0]
    assert [side.length for side in size.columns] == list(lengths("4", "6", "4"))
    assert [side.length for side in size.finished] == list(lengths("18", "24"))


@pytest.mark.parametrize("more", ["", ON_POINT])
@pytest.mark.parametrize("rule", ["nest", "dark", "open"])
def test_pressing_is_recounted_on_the_finished_top(more: str, rule: str) -> None:
    plan = plan_of(text(3, 4, more=more).replace("house: {", f"house: {{pressing: {rule}, "))
    pressing = plan_pressing(plan, rule)  # type: ignore[arg-type]
    counted = recount(plan, pressing)
    assert [(size.nested, size.total) for size in pressing.sizes] == list(counted)
    if rule == "nest":
        assert counted[0][1] > 0


@pytest.mark.parametrize("more", ["", ON_POINT])
def test_two_ways_of_pressing_are_laid_by_turns(more: str) -> None:
    pattern = text(3, 4, more=more).replace("house: {", "house: {pressing-variants: 2, ")
    plan = plan_of(pattern, effort="best")
    assert plan.pressing is not None
    counted = recount(plan, plan.pressing)
    assert [(size.nested, size.total) for size in plan.pressing.sizes] == list(counted)


@pytest.mark.parametrize("more", ["", ON_POINT, FLOATING])
def test_seams_are_drawn_where_they_lie(more: str) -> None:
    """No seam of a column reaches over its edges, so that the arrows of the map stand beside their seams."""
    plan = plan_of(text(3, 5, more=more), effort="best")
    assert plan.pressing is not None
    placed = places_on_top(plan, plan.pressing, 0).seams
    columns = [(float(i.x), float(i.x + i.width)) for i in plan.sizes[0].items if i.part in ("block", "setting")]
    left, right = min(x for x, _ in columns), max(x for _, x in columns)
    height = float(plan.sizes[0].finished[1])
    assert len(placed) > 3 * 4
    for seam in placed:
        xs, ys = zip(*seam.ends, strict=True)
        assert min(ys) > -1e-6
        assert max(ys) < height + 1e-6
        if seam.seam.owner.kind == "row":
            assert left - 1e-6 < min(xs) <= max(xs) < right + 1e-6
        assert max(xs) - min(xs) < 10


def test_every_column_is_drawn_and_each_strip_named() -> None:
    plan = plan_of(text(3, 4, more=ON_POINT), effort="best")
    figures = booklet_figures(plan, load_wording(), EvenLabels())
    found = {drawn.scene.id: drawn.scene for drawn in figures.drawn}
    assert {"top-only", "column-only", "layout-only", "pressing-top-only"} <= set(found)
    said = found["top-only"].description
    assert "3 columns" in said
    for strip in plan.sizes[0].strips:
        assert f"{strip.count} × {strip.piece}" in said


def test_a_size_may_be_set_otherwise() -> None:
    plan = plan_of(text(more=ON_POINT).replace(
        "down: 8}}", "down: 8}, flat: {setting: straight, across: 2, down: 2}}"
    ))
    assert [size.setting for size in plan.sizes] == ["strippy", "straight"]
    assert plan.sizes[1].strips == ()


def test_numbers_are_explained() -> None:
    plan = plan_of(text(3, 5, more=ON_POINT))
    strip = plan.sizes[0].strips[0].piece
    assert any(working.rule == "rounded-strip" for working in explain(plan, strip))
    assert any(working.rule == "quilt-strippy" for working in explain(plan, "size"))
    sides = next(piece for piece in plan.pieces if piece.then == "twice")
    told = next(dict(working.values) for working in explain(plan, sides.id) if working.rule == "setting-sides")
    assert told["count"] == "24"


# -- what is refused, and what the independent check names ------------------------------------------------------------

REFUSED = {
    "no strips": (("  strips: {width: 4 in, fabric: blue, edges: {width: 2 in}}\n", ""), "strips-missing"),
    "no fabric": ((", fabric: blue", ""), "strips-missing"),
    "no width": (("width: 4 in", "width: 0 in"), "strips-width-zero"),
    "no width at the edges": (("width: 2 in", "width: 0 in"), "strips-width-zero"),
    "another fabric": (("fabric: blue", "fabric: bleu"), "unknown-fabric"),
    "no strippy setting": (("setting: strippy", "setting: straight"), "strippy-only"),
    "sashing": (("  strips:", "  sashing: {width: 1 in, fabric: red}\n  strips:"), "strippy-sashing"),
    "alternate": (("  strips:", "  alternate: red\n  strips:"), "only-on-point"),
    "columns that differ": (("two: {size: 6 in", "two: {size: 5 in"), "column-height-mismatch"),
    "plain columns": (("[[one, two]]", "[[one, red]]"), "block-size-mismatch"),
}


@pytest.mark.parametrize("name", REFUSED)
def test_what_cannot_be_is_refused_where_it_stands(name: str) -> None:
    (old, new), code = REFUSED[name]
    wrong = text().replace(old, new)
    assert wrong != text()
    found = errors(wrong)
    assert [item.code for item in found] == [code], found
    assert found[0].span.line > 1


def test_a_column_that_is_off_is_told_which_blocks_would_fit() -> None:
    found = errors(text().replace("two: {size: 6 in", "two: {size: 5 in"))
    assert "40 in high and column 1 is 48 in" in found[0].message
    assert found[0].hints[0] == "blocks 6 in high in column 2 would fit"


def test_blocks_of_one_column_that_differ_take_coping() -> None:
    wrong = text().replace("[[one, two]]", "[[one], [two]]").replace("two: {size: 6 in", "two: {size: 4 in")
    found = errors(wrong)
    assert [item.code for item in found] == ["block-size-mismatch"]
    assert "puts strips 1 in wide" in found[0].hints[1]
    coped = plan_of(wrong.replace("  strips:", "  coping: {fabric: cream}\n  strips:"))
    assert [side.length for side in coped.sizes[0].finished] == list(lengths("40", "48"))


def test_one_way_blocks_on_point_are_remarked() -> None:
    pattern = text(more=ON_POINT).replace("red: {}", "red: {directional: lengthwise}")
    assert "one-way-on-point" in codes(pattern)
    assert compile_text(pattern)[0] is not None


ITEMS = ("sizes", 0, "items")
FAULTS: dict[str, tuple[tuple[Step, ...], object, str]] = {
    "a strip of another width": (("sizes", 0, "strips", 0, "width"), "wider", "is not cut as wide"),
    "a strip too few": (("sizes", 0, "strips", 0, "count"), "fewer", "are not those that are stated"),
    "another setting": (("sizes", 0, "setting"), "straight", "not strippy"),
    "a column moved": ((*ITEMS, lambda item: item.column == 2, "column"), 3, "does not begin where"),
    "two columns in one": (("sizes", 0, "across"), 3, "has 4 columns and not 3"),
}


@pytest.mark.parametrize("name", FAULTS)
def test_every_wrong_column_is_named(name: str) -> None:
    where, value, told = FAULTS[name]
    changes = {"wider": lambda width: type(width)("5"), "fewer": lambda count: count - 1}
    wrong = changed(plan_of(text()), where, changes.get(str(value), lambda _: value))
    assert any(told in fault for fault in verify(wrong)), verify(wrong)


def test_a_good_plan_has_no_fault() -> None:
    plan: Plan = plan_of(text(more=FLOATING))
    assert verify(plan) == ()
