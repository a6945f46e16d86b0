"""Cutting layouts: every piece that the plan yields, to scale, and straight cuts that free all of them."""

from __future__ import annotations

from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagrams.drawings import areas, labels, sample_figures
from diagrams.sample import NAMES, sample_plan
from patchwright.planning.plan import FabricSize
from patchwright.planning.straight_cuts import Rectangle, cuts_in_order, left_over

CASES = [
    (name, size.name, fabric.letter, planned)
    for name in NAMES
    for index, size in enumerate(sample_plan(name).sizes)
    for fabric in sample_plan(name).fabrics
    if (planned := fabric.sizes[index]) is not None
]


def _yielded(planned: FabricSize) -> int:
    sheets = planned.precuts.sheets if planned.precuts is not None else ()
    strips = sum(part.each for strip in planned.strips for part in strip.yields)
    segments = sum(len(strip.segments) for strip in planned.strips)
    return strips + segments + sum(len(sheet.places) for sheet in sheets)


@pytest.mark.parametrize(("name", "size", "letter", "planned"), CASES)
def test_every_piece_of_every_kind_of_strip_is_drawn_once(
    name: str, size: str, letter: str, planned: FabricSize
) -> None:
    scenes = sample_figures(name).of("cutting", letter, size)
    drawn = sum(area.tone == "fabric" for scene in scenes for area in areas(scene))
    assert drawn == _yielded(planned)


@pytest.mark.parametrize(("name", "size", "letter", "planned"), CASES)
def test_pieces_are_lettered_and_strips_counted(name: str, size: str, letter: str, planned: FabricSize) -> None:
    scenes = sample_figures(name).of("cutting", letter, size)
    texts = Counter(label.text for scene in scenes for label in labels(scene))
    known = {piece.id for piece in sample_plan(name).pieces}
    pieces = {part.piece for strip in planned.strips for part in strip.yields}
    assert pieces <= known
    for strip in planned.strips:
        assert texts[f"cut {strip.count}"] >= 1


def test_strips_are_to_the_scale_that_is_stated() -> None:
    scene = sample_figures()["cutting-crib-A"]
    assert scene.scale is not None
    strips = [area for area in areas(scene) if area.tone == "waste"]
    for area in strips:
        xs = [x for x, _ in area.outline]
        assert max(xs) - min(xs) == pytest.approx(40 * scene.scale)


def test_a_metric_scale_is_stated_for_true_size_too() -> None:
    scene = sample_figures("tide-marks")["cutting-lap-A"]
    assert scene.scale is not None
    area = next(area for area in areas(scene) if area.tone == "waste")
    xs = [x for x, _ in area.outline]
    assert max(xs) - min(xs) == pytest.approx(105 / 2.54 * scene.scale)


@given(st.integers(1, 5), st.integers(1, 5), st.floats(0.3, 2), st.floats(0.3, 2))
def test_a_grid_is_cut_with_the_fewest_cuts_the_ruler_needs(columns: int, rows: int, wide: float, high: float) -> None:
    pieces = [
        Rectangle(x * wide, y * high, (x + 1) * wide, (y + 1) * high) for x in range(columns) for y in range(rows)
    ]
    cuts = cuts_in_order(pieces, Rectangle(0, 0, columns * wide, rows * high))
    assert len(cuts) == columns * rows - 1


def test_cuts_go_from_edge_to_edge_and_through_no_piece() -> None:
    cloth = Rectangle(0, 0, 10, 10)
    pieces = [Rectangle(0, 0, 4, 4), Rectangle(4, 0, 8, 4), Rectangle(0, 4, 10, 6), Rectangle(0, 6, 3, 10)]
    cuts = cuts_in_order(pieces, cloth)
    assert (cuts[0].x, cuts[0].y, cuts[0].to_x, cuts[0].to_y) == (0, 4, 10, 4)
    for cut in cuts:
        for piece in pieces:
            if cut.level:
                inside = piece.y + 1e-6 < cut.y < piece.bottom - 1e-6
                assert not (inside and cut.x < piece.right and piece.x < cut.to_x)
            else:
                inside = piece.x + 1e-6 < cut.x < piece.right - 1e-6
                assert not (inside and cut.y < piece.bottom and piece.y < cut.to_y)


def test_what_cuts_leave_is_one_piece_where_nothing_is_cut() -> None:
    """Half of a square that nothing is cut from is left whole, and all parts together are the cloth."""
    pieces = [Rectangle(x, y, x + 2.5, y + 2.5) for x in (0, 2.5) for y in (0, 2.5, 5, 7.5)]
    assert left_over(pieces, Rectangle(0, 0, 10, 10)) == (Rectangle(5, 0, 10, 10),)
