"""Assembly, top, borders, backing and binding: the parts of the plan, their order and their sizes."""

from __future__ import annotations

import pytest
from shapely.geometry import Polygon

from diagrams.drawings import areas, figures_of, labels, sample_figures
from diagrams.sample import NAMES, sample_plan
from patchwright.core.length import Length
from patchwright.diagrams.pressing import plain_pressing, top_pressing
from patchwright.diagrams.scene import Line, Scene


def _press(scene: Scene) -> list[Line]:
    return [item for item in scene.items if isinstance(item, Line) and item.style == "press"]


@pytest.mark.parametrize("name", NAMES)
def test_an_assembly_shows_its_parts_apart_and_joined(name: str) -> None:
    plan = sample_plan(name)
    for assembly in plan.assemblies:
        block = sample_figures(name)[f"block-{assembly.id}"]
        apart = sample_figures(name)[f"assembly-{assembly.id}"]
        assert len(areas(apart)) == 2 * len(areas(block))


@pytest.mark.parametrize("name", NAMES)
def test_every_seam_between_parts_has_one_arrow(name: str) -> None:
    for assembly in sample_plan(name).assemblies:
        seams = sum(len(line) - 1 for line in assembly.lines) + len(assembly.lines) - 1
        assert len(_press(sample_figures(name)[f"assembly-{assembly.id}"])) == seams


def test_rows_alternate() -> None:
    assert plain_pressing([3, 3, 1], "nest").within == (("forward", "forward"), ("back", "back"), ())
    assert plain_pressing([2, 2], "open").between == ("open",)


def test_seams_are_pressed_toward_the_sashing() -> None:
    rows = [["cornerstones", "sashing", "cornerstones"], ["sashing", "block", "sashing"]]
    pressing = top_pressing(rows, "nest")
    assert pressing.within == (("forward", "back"), ("back", "forward"))
    assert pressing.between == ("back",)


@pytest.mark.parametrize("name", NAMES)
def test_the_top_shows_every_patch_of_the_center(name: str) -> None:
    plan = sample_plan(name)
    for size in plan.sizes:
        scene = sample_figures(name)[f"top-{size.name}"]
        layout = sample_figures(name)[f"layout-{size.name}"]
        edge = sum(item.part.startswith("border") for item in size.items) + (4 if size.binding else 0)
        assert len(areas(scene)) == len(areas(layout)) - edge


def test_the_rows_of_the_top_are_numbered() -> None:
    texts = [label.text for label in labels(sample_figures()["top-crib"])]
    assert texts == [str(number) for number in range(1, 12)]
    assert "11 rows" in sample_figures()["top-crib"].description


def test_borders_are_numbered_in_sewing_order_with_their_cut_lengths() -> None:
    plan = sample_plan()
    for number in (1, 2):
        border = plan.sizes[0].borders[number - 1]
        scene = figures_of(plan, ("crib",))[f"border-{number}-crib"]
        texts = [label.text for label in labels(scene)]
        assert texts.count(f"{2 * number - 1}: {border.side_piece}") == 2
        assert texts.count(f"{2 * number}: {border.end_piece}") == 2
        assert texts.count("measure here") == 2
        assert any(text.endswith("″ cut") and "/" not in text for text in texts)


def test_one_drawing_serves_all_sizes_that_sew_a_border_alike() -> None:
    figures = sample_figures()
    assert [entry.scene.id for entry in figures.drawn if entry.kind == "border"] == ["border-1-crib", "border-2-crib"]
    assert "46½″ / 64½″ / 101½″ cut" in [label.text for label in labels(figures["border-1-crib"])]
    assert all(size.label in figures["border-1-crib"].title for size in sample_plan().sizes)


def test_backing_panels_make_the_backing() -> None:
    for name in NAMES:
        for size in sample_plan(name).sizes:
            if size.backing is None:
                continue
            scene = sample_figures(name)[f"backing-{size.name}"]
            panels = [Polygon(area.outline) for area in areas(scene)]
            assert len(panels) == len(size.backing.panels)
            left, top, right, bottom = (
                min(panel.bounds[0] for panel in panels),
                min(panel.bounds[1] for panel in panels),
                max(panel.bounds[2] for panel in panels),
                max(panel.bounds[3] for panel in panels),
            )
            ratio = float(size.backing.size[0]) / float(size.backing.size[1])
            assert (right - left) / (bottom - top) == pytest.approx(ratio)
            assert sum(panel.area for panel in panels) == pytest.approx((right - left) * (bottom - top))


def test_binding_drawings_follow_the_house_and_say_the_width() -> None:
    figures = sample_figures()
    assert [scene.id for scene in figures.of("binding")] == [
        "binding-join", "binding-fold", "binding-corner", "binding-close", "binding-turn",
    ]  # fmt: skip
    assert "2½ inches" in figures["binding-join"].description
    assert "1¼ inches" in figures["binding-fold"].description
    assert Length("5/2") == sample_plan().sizes[0].binding.strip.length  # type: ignore[union-attr]


def test_no_binding_means_no_drawing_of_one() -> None:
    assert not sample_figures("single").of("binding")
    assert not sample_figures("single").of("border")
