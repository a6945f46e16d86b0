"""All drawings of a pattern together: ids, room on the page, words, determinism."""

from __future__ import annotations

import re

import pytest

from diagrams.drawings import ROOM, TYPE, Box, box_of, figures_of, label_box, labels, sample_figures, words
from diagrams.sample import NAMES, sample_plan
from patchwright.diagrams.figures import KINDS, Drawn, booklet_figures
from patchwright.diagrams.scene import Area, Scene

DRAWN = [pytest.param(drawn, id=f"{name}:{drawn.scene.id}") for name in NAMES for drawn in sample_figures(name).drawn]


@pytest.mark.parametrize("name", NAMES)
def test_ids_are_unique_and_plain(name: str) -> None:
    ids = [drawn.scene.id for drawn in sample_figures(name).drawn]
    assert len(ids) == len(set(ids))
    assert all(re.fullmatch(r"[A-Za-z0-9-]+", id) for id in ids)


def test_every_kind_is_drawn_for_the_sample() -> None:
    elsewhere = {"template", "foundation", "hanging", "colorway", "column", "by-block"}
    assert {drawn.kind for drawn in sample_figures().drawn} == set(KINDS) - elsewhere


def test_ids_of_units_and_blocks_do_not_depend_on_the_sizes_shown() -> None:
    plan = sample_plan()
    timeless = ("steps", "block", "assembly", "binding", "key")

    def ids(*sizes: str) -> list[str]:
        return [drawn.scene.id for drawn in figures_of(plan, sizes).drawn if drawn.kind in timeless]

    assert ids("crib") == ids("queen") == ids("crib", "throw", "queen")
    assert not any("crib" in id for id in ids("crib"))


def test_figures_are_found_by_id_kind_size_and_subject() -> None:
    figures = sample_figures()
    assert "layout-throw" in figures
    assert figures["layout-throw"] in figures.of("layout", size="throw")
    assert [scene.id for scene in figures.of("block", "coil")] == ["block-coil"]
    assert figures.of("steps", "turn")[0].id == "unit-turn-pieces"
    assert "layout-king" not in figures


def test_only_the_kinds_asked_for_are_drawn() -> None:
    plan = sample_plan()
    figures = booklet_figures(plan, words(plan), TYPE, ROOM, ["crib"], ["layout", "key"])
    assert [drawn.scene.id for drawn in figures.drawn] == ["key", "layout-crib"]


def test_drawing_twice_gives_equal_scenes() -> None:
    plan = sample_plan()
    assert figures_of(plan).drawn == figures_of(plan).drawn


@pytest.mark.parametrize("drawn", DRAWN)
def test_a_drawing_fits_its_page(drawn: Drawn) -> None:
    height = ROOM.cover_height if drawn.kind == "cover" else ROOM.height
    assert 0 < drawn.scene.width <= ROOM.width + 1e-6
    assert 0 < drawn.scene.height <= height + 1e-6


@pytest.mark.parametrize("drawn", DRAWN)
def test_everything_lies_inside_the_drawing(drawn: Drawn) -> None:
    scene = drawn.scene
    for item in scene.items:
        left, top, right, bottom = box_of(item)
        assert min(left, top) >= -1e-6, item
        assert right <= scene.width + 1e-6, item
        assert bottom <= scene.height + 1e-6, item


@pytest.mark.parametrize("drawn", DRAWN)
def test_labels_do_not_overlap(drawn: Drawn) -> None:
    boxes = [(label.text, label_box(label)) for label in labels(drawn.scene)]
    for number, (text, box) in enumerate(boxes):
        for other_text, other in boxes[:number]:
            assert not _meet(box, other), (text, other_text)


@pytest.mark.parametrize("drawn", DRAWN)
def test_title_and_description_are_whole_sentences(drawn: Drawn) -> None:
    scene = drawn.scene
    assert scene.title
    assert scene.title.strip() == scene.title
    assert scene.description.endswith(".")
    assert not re.search(r"  |[{}]", scene.description)


@pytest.mark.parametrize("drawn", DRAWN)
def test_every_cloth_shown_has_its_swatch(drawn: Drawn) -> None:
    letters = {area.fabric for area in _areas(drawn.scene) if area.tone == "fabric"}
    assert letters == {swatch.letter for swatch in drawn.scene.swatches}
    assert all(len(area.outline) >= 3 for area in _areas(drawn.scene))


@pytest.mark.parametrize("name", NAMES)
def test_every_piece_named_on_cloth_exists(name: str) -> None:
    plan = sample_plan(name)
    known = {piece.id for piece in plan.pieces} | {fabric.letter for fabric in plan.fabrics}
    for drawn in sample_figures(name).drawn:
        if drawn.kind in ("steps", "block", "assembly"):
            shown = {label.text for label in labels(drawn.scene) if label.over == "cloth"}
            assert shown <= known, drawn.scene.id


def _areas(scene: Scene) -> list[Area]:
    return [item for item in scene.items if isinstance(item, Area)]


def _meet(box: Box, other: Box) -> bool:
    slack = 1e-6
    across = min(box[2], other[2]) - max(box[0], other[0])
    down = min(box[3], other[3]) - max(box[1], other[1])
    return across > slack and down > slack
