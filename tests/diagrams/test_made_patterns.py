"""Drawings of patterns made at random: whatever can be sewn can be drawn, fits the page, and is drawn once."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon

from diagrams.doubles import PlainType
from diagrams.drawings import ROOM, areas, box_of, figures_of, words
from diagrams.sample import plan_of, sample_plan
from patchwright.diagrams.figures import Figures, booklet_figures
from patchwright.diagrams.scene import TypeSize

ITEMS = ("one", "two", "three", "turn", "turn@90", "turn@180", "turn@mirror", "cleat", "cleat@mirror", "cleat@270")


@st.composite
def patterns(draw: st.DrawFn) -> str:
    """A grid block of one-cell items, in rows or columns, in a quilt with or without sashing and borders."""
    across, down = draw(st.integers(1, 5)), draw(st.integers(1, 5))
    axis = draw(st.sampled_from(["rows", "columns"]))
    lines = [", ".join(draw(st.sampled_from(ITEMS)) for _ in range(across)) for _ in range(down)]
    cell = draw(st.sampled_from(["1 in", "2 in", "3 1/4 in"]))
    extras = [
        draw(st.sampled_from(["", "  sashing: {width: 1 in, fabric: two}\n"])),
        draw(st.sampled_from(["", "  borders: [{width: 2 in, fabric: three}, {width: 1 in, fabric: one}]\n"])),
        draw(st.sampled_from(["", "  binding: {fabric: one}\n", "  binding: {fabric: one}\n  backing: {}\n"])),
    ]
    rows = "\n".join(f"      - [{line}]" for line in lines)
    size = f"{{across: {draw(st.integers(1, 4))}, down: {draw(st.integers(1, 4))}}}"
    return _TEMPLATE.format(cell=cell, axis=axis, rows=rows, extras="".join(extras), size=size)


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(patterns())
def test_whatever_can_be_sewn_can_be_drawn(text: str) -> None:
    plan = plan_of(text)
    figures = figures_of(plan)
    _fits(figures)
    layout = figures["layout-made"]
    finished = plan.sizes[0].finished
    edge = 4 if plan.sizes[0].binding is not None else 0
    patches = [Polygon(area.outline) for area in areas(layout)[edge:]]
    left, top = min(p.bounds[0] for p in patches), min(p.bounds[1] for p in patches)
    right, bottom = max(p.bounds[2] for p in patches), max(p.bounds[3] for p in patches)
    assert sum(p.area for p in patches) == pytest.approx((right - left) * (bottom - top))
    assert (right - left) / (bottom - top) == pytest.approx(float(finished[0]) / float(finished[1]))
    assert f"{len(patches)} patches" in layout.description


class LargeType(PlainType):
    """Labels for a large-print edition."""

    def text_width(self, text: str, size: TypeSize = "normal", bold: bool = False) -> float:
        return 1.6 * PlainType.text_width(self, text, size, bold)

    def text_height(self, size: TypeSize = "normal", bold: bool = False) -> float:
        return 1.6 * PlainType.text_height(self, size, bold)


def test_large_print_fits_the_same_pages() -> None:
    plan = sample_plan()
    _fits(booklet_figures(plan, words(plan), LargeType(), ROOM))


def _fits(figures: Figures) -> None:
    for drawn in figures.drawn:
        scene = drawn.scene
        assert scene.width <= ROOM.width + 1e-6, scene.id
        assert scene.height <= ROOM.height + 1e-6, scene.id
        for area in areas(scene):
            left, top, right, bottom = box_of(area)
            assert min(left, top) >= -1e-6, scene.id
            assert right <= scene.width + 1e-6, scene.id
            assert bottom <= scene.height + 1e-6, scene.id


_TEMPLATE = """
dialect: 1
pattern: Made
release: 1
lengths: inches
fabrics:
  one: {{name: One, color: "#c9772f"}}
  two: {{name: Two, color: "#ece7db"}}
  three: {{name: Three, color: "#2b2f36"}}
units:
  turn: {{half-square: [one, two]}}
  cleat: {{flipped-corners: {{base: three, ne: one, sw: two}}, size: 1 x 1, corner: 1/2}}
  spare: {{half-square: [three, two]}}
blocks:
  grid:
    cell: {cell}
    {axis}:
{rows}
  keep:
    cell: {cell}
    rows:
      - [one, two, three, turn, cleat, spare]
quilt:
  arrange: [[grid]]
{extras}
sizes:
  made: {size}
"""
