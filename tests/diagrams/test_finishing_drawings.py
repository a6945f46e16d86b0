"""Drawings of binding on the bias and of what hangs a quilt: there where the plan has them, and true to it."""

from __future__ import annotations

from itertools import pairwise
from math import sqrt

import pytest
from shapely import Polygon

from diagrams.drawings import figures_of
from patchwright.diagrams.scene import Area
from planning.compiling import plan_of, sample

SIZES = "blocks: {one: {cell: 6 in, rows: [[red]]}}\nsizes: {only: {across: 10, down: 12}}\n"


def drawn(more: str) -> dict[str, tuple[Area, ...]]:
    """The areas of every finishing drawing, by its id."""
    figures = figures_of(plan_of(sample(f"quilt: {{arrange: [[one]], {more}}}\n{SIZES}")))
    return {
        one.scene.id: tuple(item for item in one.scene.items if isinstance(item, Area))
        for one in figures.drawn if one.kind in ("binding", "hanging")
    }


@pytest.mark.parametrize(("way", "id"), [("strips", "bias-strips"), ("squares", "bias-squares")])
def test_as_many_bias_strips_are_drawn_as_are_cut(way: str, id: str) -> None:
    plan = plan_of(sample(f"quilt: {{arrange: [[one]], binding: {{bias: {way}}}}}\n{SIZES}"))
    binding = plan.sizes[0].binding
    assert binding is not None
    assert binding.cloth is not None
    areas = drawn(f"binding: {{bias: {way}}}")[f"binding-cut-{id}"]
    strips = [Polygon(area.outline) for area in areas if area.tone == "highlight"]
    assert len(strips) * binding.cloths == binding.strips
    cloth = Polygon(next(area.outline for area in areas if area.tone == "waste"))
    scale = (cloth.bounds[2] - cloth.bounds[0]) / float(binding.cloth[0])
    assert sum(strip.area for strip in strips) <= cloth.area + 1e-6
    for one, other in pairwise(sorted(strips, key=lambda strip: strip.centroid.x)):
        assert one.intersection(other).area == pytest.approx(0, abs=1e-6)
        apart = (other.centroid.x + other.centroid.y - one.centroid.x - one.centroid.y) / sqrt(2)
        assert apart <= float(binding.strip) * scale * 1.5


def test_each_way_of_binding_has_its_own_drawings() -> None:
    assert "binding-cut-continuous" in drawn("binding: {bias: continuous}")
    assert "binding-join-bias" in drawn("binding: {bias: squares}")
    single = drawn("binding: {fold: single}")
    assert "binding-fold-single" in single
    assert "binding-fold" not in single
    assert "binding-close" in single


def test_what_hangs_a_quilt_is_drawn_where_it_is_asked_for() -> None:
    made = drawn("hanging: {sleeve: cream, label: cream}")
    assert set(made) == {"hanging-sleeve", "hanging-label"}
    assert not drawn("backing: {}")
