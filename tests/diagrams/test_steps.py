"""Unit drawings: what the method gave, at one scale, with its sizes."""

from __future__ import annotations

import pytest

from diagrams.drawings import areas, board_of, figures_of, labels, sample_figures
from diagrams.sample import NAMES, sample_plan
from patchwright.core.measure import printed_length
from patchwright.diagrams.scene import Area, Line
from patchwright.diagrams.steps import unit_scale
from patchwright.methods.registry import BY_NAME


@pytest.mark.parametrize("name", NAMES)
def test_every_stage_is_drawn_in_order(name: str) -> None:
    plan = sample_plan(name)
    for unit in plan.units:
        size = next(size for size in unit.sizes if size is not None)
        stages = BY_NAME[unit.method].stages(size.request, size.recipe)
        wanted = [f"unit-{unit.id}-{number}-{stage.kind}" for number, stage in enumerate(stages, 1)]
        ids = [scene.id for scene in sample_figures(name).of("steps", unit.id)]
        assert ids == ([f"unit-{unit.id}-pieces", *wanted] if wanted else [])


def test_pieces_carry_their_names_and_cut_sizes() -> None:
    plan = sample_plan()
    figures = figures_of(plan, ("crib",))
    for unit in plan.units:
        texts = {label.text for label in labels(figures[f"unit-{unit.id}-pieces"])}
        assert {piece.piece for piece in unit.pieces} <= texts
        size = unit.sizes[0]
        assert size is not None
        for piece in size.recipe.pieces:
            assert f"{printed_length(piece.width.length, 'in')} cut" in texts


def test_sizes_that_differ_stand_side_by_side() -> None:
    texts = {label.text for label in labels(sample_figures()["unit-turn-pieces"])}
    assert "2⅞″ / 3⅛″ cut" in texts
    assert "2⅞ inches square (Crib and Throw) and 3⅛ inches square (Queen)" in (
        sample_figures()["unit-turn-pieces"].description
    )


def test_a_finished_unit_says_what_it_measures() -> None:
    scene = figures_of(sample_plan(), ("crib",))["unit-turn-6-finished"]
    assert "2½″ unfinished" in {label.text for label in labels(scene)}
    assert "measures 2½ inches square, unfinished" in scene.description


def test_equal_pieces_are_counted() -> None:
    texts = [label.text for label in labels(sample_figures()["unit-wave-pieces"])]
    assert "× 2" in texts


def test_the_wrong_side_and_the_lines_are_told_apart() -> None:
    scene = sample_figures()["unit-turn-3-sew"]
    assert {area.wrong_side for area in areas(scene)} == {True, False}
    assert {item.style for item in scene.items if isinstance(item, Line)} == {"mark", "stitch"}


def test_a_reversed_unit_is_the_mirror_image() -> None:
    figures = sample_figures("tide-marks")
    for end in ("1-mark", "4-finished"):
        drawn, mirrored = figures[f"unit-drift-{end}"], figures[f"unit-drift-reversed-{end}"]
        flipped = {
            (area.fabric, frozenset((round(drawn.width - x, 6), round(y, 6)) for x, y in area.outline))
            for area in areas(drawn)
        }
        assert {
            (area.fabric, frozenset((round(x, 6), round(y, 6)) for x, y in area.outline)) for area in areas(mirrored)
        } == flipped


def test_one_scale_serves_the_booklet() -> None:
    plan = sample_plan()
    scale = unit_scale(board_of(plan))
    figures = figures_of(plan)
    goose = next(item for item in figures["unit-wave-pieces"].items if isinstance(item, Area))
    xs = [x for x, _ in goose.outline]
    assert max(xs) - min(xs) == pytest.approx(4.5 * scale)
