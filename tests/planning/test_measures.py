"""What rows measure before they are joined, against the places of their parts in the finished drawing."""

from __future__ import annotations

from math import isclose, sqrt

import pytest

from patchwright.planning.measures import diagonal_extents, line_extents
from patchwright.planning.plan import Plan
from patchwright.planning.pressing.tops import first_chain, top_rows
from pressing.quilts import ON_POINT, quilt

MIXED = """\
units:
  gull: {flying-geese: {goose: dark, sky: light}}
blocks:
  inner: {cell: 1 in, rows: [[dark, light], [gull 2x1]]}
  rows: {cell: 1 in, rows: [[dark, light 3x1], [inner, inner@180], [other 4x1]]}
  columns: {cell: 1 in, columns: [[dark 1x2, other 1x2], [light 3x1, other 3x3]]}
quilt: {arrange: [[rows, columns]]}
sizes: {small: {across: 2, down: 2}, large: {across: 4, down: 4, block-size: 8 in}}
"""
STRIPPY = """\
blocks:
  nine: {cell: 2 in, rows: [[dark, light, dark], [light, dark, light], [dark, light, dark]]}
quilt:
  setting: strippy
  arrange: [[nine]]
  strips: {width: 3 in, fabric: other}
  setting-triangles: {fabric: light}
sizes: {small: {across: 2, down: 4}}
"""
SASHED_ON_POINT = """\
blocks:
  nine: {cell: 2 in, rows: [[dark, light, dark], [light, dark, light], [dark, light, dark]]}
quilt:
  setting: on-point
  arrange: [[nine]]
  setting-triangles: {fabric: light}
  sashing: {width: 1 in, fabric: other, cornerstone: dark}
sizes: {small: {across: 3, down: 2}}
"""


def test_rows_of_a_block_are_measured_by_hand() -> None:
    """Cells of an inch: rows of 4 x 1, 4 x 2 and one part; columns of 1 x 4 beside one of 3 x 4."""
    plan = quilt(MIXED)
    seam = plan.rules.seam
    told = {
        made.block: [tuple(str(side) for side in extent) for extent in line_extents(made, 0, seam)]
        for made in plan.assemblies
    }
    assert told["rows"] == [("9/2", "3/2"), ("9/2", "5/2"), ("9/2", "3/2")]
    assert told["columns"] == [("3/2", "9/2"), ("7/2", "9/2")]


def test_rows_of_a_block_add_up_to_it() -> None:
    """Joined with one seam between any two, they are as large as the block."""
    plan = quilt(MIXED)
    seams = plan.rules.seam * 2
    for made in plan.assemblies:
        for index, size in enumerate(made.sizes):
            assert size is not None
            along, across = (0, 1) if made.axis == "rows" else (1, 0)
            lines = line_extents(made, index, plan.rules.seam)
            assert {line[along].length for line in lines} == {size.unfinished[along].length}
            high = sum((line[across].length - seams for line in lines[1:]), lines[0][across].length)
            assert high == size.unfinished[across].length


@pytest.mark.parametrize("text", [ON_POINT, STRIPPY, SASHED_ON_POINT])
def test_diagonal_rows_reach_from_seam_to_seam(text: str) -> None:
    """The parts between the ends of a row, measured in the drawing along the diagonal by floating point."""
    plan = quilt(text)
    for size in plan.sizes:
        rows = first_chain(size) or top_rows(size)
        for strips in (False, True):
            found = diagonal_extents(rows, strips, plan.rules.seam)
            drawn = [row.items[1:-1] for row in rows if len(row.items) > 2 and row.is_strip == strips]
            assert len(found) == len(drawn)
            for row, items in zip(found, drawn, strict=True):
                corners = [corner for item in items for corner in item.outline]
                along = [(float(corner.x) - float(corner.y)) / sqrt(2) for corner in corners]
                high = [(float(corner.x) + float(corner.y)) / sqrt(2) for corner in corners]
                assert isclose(float(row.between.length), max(along) - min(along))
                assert isclose(float(row.high.length - plan.rules.seam * 2), max(high) - min(high))


def lengths(plan: Plan, index: int, strips: bool = False) -> list[str]:
    rows = diagonal_extents(top_rows(plan.sizes[index]), strips, plan.rules.seam)
    return [str(row.between) for row in rows]


def test_diagonal_rows_are_counted_by_hand() -> None:
    """Three by three blocks of 6 in, and squares between: rows of 1, 3, 5, 3 and 1.

    Sashed with 1 in, 3 by 2: rows of 1, 3, 3 and 1 blocks with a strip more than blocks, and of 1, 3, 4, 3, 1 strips.
    """
    assert lengths(quilt(ON_POINT), 0) == ["6", "18", "30", "18", "6"]
    sashed = quilt(SASHED_ON_POINT)
    assert lengths(sashed, 0) == ["8", "22", "22", "8"]
    assert lengths(sashed, 0, strips=True) == ["6", "20", "27", "20", "6"]
