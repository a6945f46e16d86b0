"""The layout: every patch once, nothing over anything else, the words with the right counts."""

from __future__ import annotations

import time

import pytest
from shapely.geometry import Polygon
from shapely.ops import unary_union
from shapely.strtree import STRtree

from diagrams.drawings import areas, board_of, labels, sample_figures
from diagrams.sample import NAMES, plan_of, sample_plan
from patchwright.core.geometry import Orientation
from patchwright.diagrams.layout import cover_scene, layout_scene, quilt_picture
from patchwright.diagrams.patches import laid_outline
from patchwright.diagrams.prints import PrintChooser
from patchwright.diagrams.scene import Area
from patchwright.planning.plan import Plan

SIZES = [(name, index) for name in NAMES for index in range(len(sample_plan(name).sizes))]


def _top(plan: Plan, index: int) -> tuple[list[Polygon], float, float]:
    """The patches inside the binding at one inch (or centimeter) to one, and the finished size."""
    picture = quilt_picture(board_of(plan), index, 1.0)
    body = picture.body
    polygons = [Polygon(item.outline) for item in picture.items if isinstance(item, Area)]
    inside = Polygon([(body.x, body.y), (body.right, body.y), (body.right, body.bottom), (body.x, body.bottom)])
    return [polygon for polygon in polygons if inside.buffer(1e-6).contains(polygon)], body.width, body.height


@pytest.mark.parametrize(("name", "index"), SIZES)
def test_patches_cover_the_top_exactly(name: str, index: int) -> None:
    polygons, width, height = _top(sample_plan(name), index)
    assert sum(polygon.area for polygon in polygons) == pytest.approx(width * height, rel=1e-9)
    assert unary_union(polygons).area == pytest.approx(width * height, rel=1e-6)


@pytest.mark.parametrize(("name", "index"), SIZES)
def test_no_patch_lies_over_another(name: str, index: int) -> None:
    polygons, _, _ = _top(sample_plan(name), index)
    tree = STRtree(polygons)
    for number, polygon in enumerate(polygons):
        for other in tree.query(polygon):
            if other > number:
                assert polygon.intersection(polygons[other]).area < 1e-6


@pytest.mark.parametrize(("name", "index"), SIZES)
def test_the_layout_has_the_plans_proportions(name: str, index: int) -> None:
    size = sample_plan(name).sizes[index]
    body = quilt_picture(board_of(sample_plan(name)), index, 0.5).body
    assert body.width == pytest.approx(float(size.finished[0]) / 2)
    assert body.height == pytest.approx(float(size.finished[1]) / 2)


def test_the_description_says_size_grid_blocks_and_patches() -> None:
    scene = sample_figures()["layout-throw"]
    assert "68 inches by 77 inches" in scene.description
    assert "7 rows of 6 blocks" in scene.description
    assert "21 × coil" in scene.description
    assert "9 × dark chain" in scene.description
    assert f"{len(areas(scene)) - 4} patches" in scene.description


def test_rows_and_columns_are_numbered_and_the_size_is_finished() -> None:
    texts = [label.text for label in labels(sample_figures()["layout-crib"])]
    assert [text for text in texts if text.isdecimal()] == ["1", "2", "3", "4", "1", "2", "3", "4", "5"]
    assert [text for text in texts if not text.isdecimal()] == ["50″ finished", "59″ finished"]


def test_the_cover_has_no_labels() -> None:
    assert not labels(sample_figures()["cover-queen"])


def test_a_coloring_page_has_the_same_patches_and_no_cloth() -> None:
    page, layout = sample_figures()["coloring-crib"], sample_figures()["layout-crib"]
    assert len(areas(page)) == len(areas(layout))
    assert not page.swatches


def test_a_turned_and_mirrored_outline_stays_clockwise() -> None:
    outline = ((0.0, 0.0), (3.0, 0.0), (0.0, 1.0))
    for turns in range(4):
        for mirror in (False, True):
            laid = laid_outline(outline, Orientation(turns, mirror), 3, 1)
            assert Polygon(laid).exterior.is_ccw == Polygon(outline).exterior.is_ccw
            assert Polygon(laid).area == pytest.approx(1.5)


def test_prints_vary_and_stay_the_same_on_every_run() -> None:
    chooser, again = PrintChooser({"B": 4}), PrintChooser({"B": 4})
    chosen = [[chooser.choose("B", column, row) for column in range(6)] for row in range(6)]
    assert chosen == [[again.choose("B", column, row) for column in range(6)] for row in range(6)]
    assert {number for row in chosen for number in row} == {0, 1, 2, 3}
    assert all(row[place] != row[place + 1] for row in chosen for place in range(5))
    assert chooser.choose("A", 3, 3) == 0


def test_neighboring_blocks_show_different_prints() -> None:
    scene = sample_figures()["layout-throw"]
    assert {area.print for area in areas(scene) if area.fabric == "B"} == {0, 1, 2, 3}
    assert {area.print for area in areas(scene) if area.fabric == "A"} == {0}


@pytest.mark.slow
def test_three_thousand_patches_are_drawn_quickly() -> None:
    plan = plan_of(_MANY)
    board = board_of(plan)
    start = time.process_time()
    scenes = [layout_scene(board, 0), cover_scene(board, 0)]
    assert time.process_time() - start < 1.2
    assert len(areas(scenes[0])) > 3000


_MANY = """
dialect: 1
pattern: Many
release: 1
lengths: inches
fabrics:
  one: {name: One, color: "#c9772f"}
  two: {name: Two, color: "#2f6f7e"}
units:
  turn: {half-square: [one, two]}
blocks:
  pane:
    cell: 1 in
    rows:
      - [turn, one, turn@90, two]
      - [two, turn, one, turn]
      - [turn@180, two, turn, one]
      - [one, turn@270, two, turn]
quilt:
  arrange: [[pane]]
sizes:
  wide: {across: 12, down: 11}
"""
