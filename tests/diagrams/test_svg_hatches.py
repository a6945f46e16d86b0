"""Hatches: their strokes lie inside the cloth, join across patches, and differ from each other."""

from __future__ import annotations

from math import cos, pi, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString, Polygon, box

from patchwright.core.theme import Hatch, HatchLines
from patchwright.diagrams.hatches import hatch_strokes
from patchwright.diagrams.scene import XY
from patchwright.files import installed_themes, theme_names, theme_reader
from patchwright.typesetting.themes import load_theme

PLAIN = Hatch("lines", (HatchLines(30, 4), HatchLines(120, 5, 1)), 0.5)


def theme_hatches() -> tuple[Hatch, ...]:
    folder = installed_themes()
    theme, mistakes = load_theme(theme_names(folder)[0], theme_reader(folder))
    assert theme is not None, mistakes
    return theme.tokens.drawing.hatches


@st.composite
def stars(draw: st.DrawFn) -> tuple[XY, ...]:
    """Outlines around a center, convex or not, that do not cross themselves."""
    reaches = draw(st.lists(st.floats(5, 60), min_size=3, max_size=9))
    x, y = draw(st.floats(0, 300)), draw(st.floats(0, 300))
    step = 2 * pi / len(reaches)
    return tuple((x + reach * cos(place * step), y + reach * sin(place * step)) for place, reach in enumerate(reaches))


@pytest.mark.parametrize("hatch", theme_hatches(), ids=lambda hatch: hatch.name)
@settings(max_examples=40, deadline=None)
@given(outline=stars())
def test_strokes_lie_inside(hatch: Hatch, outline: tuple[XY, ...]) -> None:
    inside = Polygon(outline).buffer(0.01)
    for x, y, to_x, to_y in hatch_strokes([outline], hatch):
        assert inside.covers(LineString([(x, y), (to_x, to_y)]))


@settings(max_examples=60, deadline=None)
@given(outline=stars())
def test_solid_lines_cover_all_of_the_shape(outline: tuple[XY, ...]) -> None:
    """The strokes of one family are as long together as its lines inside the shape."""
    hatch = Hatch("level", (HatchLines(0, 4),), 0)
    shape = Polygon(outline)
    low, high = shape.bounds[1], shape.bounds[3]
    levels = range(int(low // 4) - 1, int(high // 4) + 2)
    expected = sum(shape.intersection(LineString([(-500, 4 * level), (900, 4 * level)])).length for level in levels)
    drawn = sum(abs(to_x - x) for x, _, to_x, _ in hatch_strokes([outline], hatch))
    assert drawn == pytest.approx(expected, abs=0.5)


def test_strokes_run_on_over_seams() -> None:
    whole = [((0.0, 0.0), (40.0, 0.0), (40.0, 20.0), (0.0, 20.0))]
    halves = [
        ((0.0, 0.0), (20.0, 0.0), (20.0, 20.0), (0.0, 20.0)),
        ((20.0, 0.0), (40.0, 0.0), (40.0, 20.0), (20.0, 20.0)),
    ]
    pairs = zip(hatch_strokes(halves, PLAIN), hatch_strokes(whole, PLAIN), strict=True)
    assert all(one == pytest.approx(other) for one, other in pairs)


def test_a_gap_between_patches_stays_empty() -> None:
    patches = [
        ((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)),
        ((12.0, 0.0), (22.0, 0.0), (22.0, 10.0), (12.0, 10.0)),
    ]
    gap = box(10.01, 0, 11.99, 10)
    assert not any(gap.intersects(LineString([stroke[:2], stroke[2:]])) for stroke in hatch_strokes(patches, PLAIN))


def test_there_are_enough_hatches_and_no_two_alike() -> None:
    hatches = theme_hatches()
    assert len(hatches) >= 8
    assert len({hatch.name for hatch in hatches}) == len({hatch.lines for hatch in hatches}) == len(hatches)
