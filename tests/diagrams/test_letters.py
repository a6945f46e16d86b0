"""Letters in patches: inside, clear of seams, or not there."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import LineString, Polygon, box

from diagrams.drawings import TYPE, areas, label_box, labels, sample_figures
from diagrams.sample import NAMES
from patchwright.diagrams.letters import CLEAR, Obstacles, box_place, letter
from patchwright.diagrams.scene import XY

SIDE = st.floats(0.2, 3)


@st.composite
def outlines(draw: st.DrawFn) -> tuple[XY, ...]:
    """Convex patches with three to six corners."""
    points = draw(st.lists(st.tuples(st.floats(0, 2), st.floats(0, 2)), min_size=6, max_size=12))
    hull = Polygon(LineString(points).convex_hull.exterior.coords) if _has_area(points) else box(0, 0, 1, 1)
    return tuple((x, y) for x, y in hull.exterior.coords[:-1])


def _has_area(points: list[XY]) -> bool:
    return bool(LineString(points).convex_hull.area > 0.05)


@given(outlines(), st.floats(0.05, 0.6), st.floats(0.05, 0.3))
def test_a_box_with_a_place_lies_inside(outline: tuple[XY, ...], wide: float, high: float) -> None:
    place = box_place(outline, wide, high)
    if place is not None:
        x, y = place
        placed = box(x - wide / 2, y - high / 2, x + wide / 2, y + high / 2)
        assert Polygon(outline).buffer(1e-6).contains(placed)


@given(SIDE, SIDE, st.floats(0.05, 0.5), st.floats(0.05, 0.5))
def test_a_rectangle_takes_every_box_that_is_smaller(width: float, height: float, wide: float, high: float) -> None:
    place = box_place(((0, 0), (width, 0), (width, height), (0, height)), wide, high)
    assert (place is not None) == (wide < width and high < height)


def test_a_triangle_takes_its_letter_beside_the_right_angle() -> None:
    place = box_place(((0, 0), (1, 0), (0, 1)), 0.3, 0.2)
    assert place is not None
    assert place[0] + 0.15 + place[1] + 0.1 < 1


def test_a_letter_keeps_clear_of_lines_and_of_cloth_above() -> None:
    square = ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0))
    half = ((0.0, 0.0), (1.0, 0.0), (1.0, 0.5), (0.0, 0.5))
    place = box_place(square, 0.3, 0.2, Obstacles((((0.0, 1.0), (1.0, 0.0)),), (half,)))
    assert place is not None
    assert place[1] - 0.1 > 0.5
    assert place[0] - 0.15 + place[1] - 0.1 > 1
    assert box_place(square, 0.3, 0.2, Obstacles((), (square,))) is None


def test_the_best_text_that_fits_is_taken() -> None:
    narrow = ((0.0, 0.0), (0.2, 0.0), (0.2, 1.0), (0.0, 1.0))
    chosen = letter(narrow, ("B12", "B"), TYPE)
    assert chosen is not None
    assert chosen.text == "B"
    assert letter(narrow, ("B12345",), TYPE, obstacles=CLEAR) is None


@pytest.mark.parametrize("name", NAMES)
def test_letters_of_blocks_lie_in_one_patch_of_their_fabric(name: str) -> None:
    for kind in ("block", "assembly"):
        for scene in sample_figures(name).of(kind):
            patches = [(area.fabric, Polygon(area.outline)) for area in areas(scene)]
            for label in labels(scene):
                if label.over == "cloth":
                    placed = box(*label_box(label))
                    homes = [fabric for fabric, polygon in patches if polygon.contains(placed)]
                    assert homes == [label.text.rstrip("0123456789")], (scene.id, label)
