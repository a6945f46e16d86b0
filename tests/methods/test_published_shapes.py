"""Published and derived values of shapes cut with templates, each with its source in `data/shapes.yaml`."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from math import hypot
from pathlib import Path
from typing import Any

import pytest
import yaml

from methods.asking import ask
from patchwright.core.geometry import Arc, Point, Polygon, double_area
from patchwright.core.length import ROOT_TWO, Length
from patchwright.methods.registry import BY_NAME
from patchwright.methods.template import Template, straight_template

ROWS: dict[str, dict[str, Any]] = {
    row["id"]: row for row in yaml.safe_load((Path(__file__).parent / "data" / "shapes.yaml").read_text("utf-8"))
}
QUARTER = Length(Fraction(1, 4))
ROOT_THREE = Length.root(3)


def points(*pairs: tuple[Length, Length]) -> Polygon:
    return tuple(Point(x, y) for x, y in pairs)


def triangle(height: Length) -> Template:
    """A triangle of 60° that stands on its base."""
    half, none = height / ROOT_THREE, Length(0)
    return straight_template(points((half, none), (half * 2, height), (none, height)), QUARTER)


def hexagon(side: Length) -> Polygon:
    """Two sides lie level."""
    high = side * ROOT_THREE / 2
    half, none = side / 2, Length(0)
    upper = (half, none), (half * 3, none), (side * 2, high)
    return points(*upper, (half * 3, high * 2), (half, high * 2), (none, high))


def diamond(height: Length) -> Template:
    """A diamond of 45° with two level sides, so high across them."""
    side, none = height * ROOT_TWO, Length(0)
    corners = points((height, none), (height + side, none), (side, height), (none, height))
    return straight_template(corners, QUARTER)


def curves(radius: str) -> list[float]:
    """Cut radii of the two pieces of a quarter circle."""
    recipe = BY_NAME["quarter-circle"].recipe(ask("quarter-circle", "8", "8", extents={"radius": radius}))
    return sorted(
        float(next(side.radius for side in piece.template.cut_line if isinstance(side, Arc)))
        for piece in recipe.pieces if piece.template is not None
    )


def star_by_diamond() -> float:
    """The side of an eight-point star as often as the side of its diamonds, which are its longest sides."""
    patches = BY_NAME["eight-point-star"].patches(ask("eight-point-star", "12", "12"))
    diamonds = [patch.outline for patch in patches if len(patch.outline) == 4]
    slanted = [
        hypot(float(a.x - b.x), float(a.y - b.y))
        for outline in diamonds for a, b in zip(outline, outline[1:] + outline[:1], strict=True)
        if a.x != b.x and a.y != b.y
    ]
    assert max(slanted) - min(slanted) < 1e-9
    return 12 / slanted[0]


FOUND: dict[str, Callable[[], float]] = {
    "tri60-2": lambda: float(triangle(Length(2)).height),
    "tri60-rule": lambda: float(triangle(Length(5)).height) - 5,
    "tri60-cutside": lambda: float(triangle(Length(2)).width),
    "hex-strip-rule": lambda: float(straight_template(hexagon(Length(3)), QUARTER).height) - float(ROOT_THREE * 3),
    "hex-area-2_5": lambda: abs(float(double_area(hexagon(Length(Fraction(5, 2)))))) / 2,
    "hex-side-2_75": lambda: float(Length(Fraction(11, 4)) / ROOT_THREE),
    "dia-strip-rule": lambda: float(diamond(Length(3)).height) - 3,
    "curve-templates": lambda: curves("3")[1] - curves("3")[0],
    "curve-r3-L": lambda: curves("3")[0],
    "star8-3_41": star_by_diamond,
}


@pytest.mark.parametrize("row_id", ROWS)
def test_published_shape(row_id: str) -> None:
    row = ROWS[row_id]
    assert row["source"]
    assert FOUND[row_id]() == pytest.approx(row["expected"], abs=max(row["tolerance"], 1e-8))


def test_no_shape_is_forgotten() -> None:
    assert set(FOUND) == set(ROWS)
