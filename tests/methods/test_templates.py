"""Templates: their shapes against geometry of its own, and their pages at true size in the finished PDF."""

from __future__ import annotations

import ctypes
from collections.abc import Iterator, Sequence
from fractions import Fraction
from math import atan2, hypot, pi, sqrt
from pathlib import Path
from typing import Any

import pypdfium2
import pypdfium2.raw as raw
import pytest
from shapely import affinity
from shapely.geometry import LineString
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union

from diagrams.drawings import board_of, figures_of
from diagrams.sample import plan_of
from driver.running import run
from methods.asking import ask
from methods.samples import samples
from methods.tracing import net_of, radius_of, traced
from patchwright.core.geometry import Arc, Orientation, Point
from patchwright.core.length import Length
from patchwright.diagrams.scene import Line, Scene
from patchwright.diagrams.templates import template_sheet
from patchwright.diagrams.tiles import CROSS, OVERLAP, Tile, tiles_of
from patchwright.methods.method import RecipePiece, Request
from patchwright.methods.registry import BY_NAME
from patchwright.methods.template import cut_corners, straight_template

MILLIMETERS = 25.4
CURVES = """
dialect: 1
pattern: Curves
release: 1
lengths: inches
fabrics:
  rope: {color: a9482f}
  deck: {color: ece7db}
units:
  wave: {quarter-circle: [rope, deck], radius: RADIUS in, size: SIDE in x SIDE in}
blocks:
  coil: {cell: 1 in, rows: [[wave]]}
quilt:
  arrange: [[coil]]
sizes:
  throw: {across: 2, down: 2}
"""


def shaped() -> list[tuple[str, Request, RecipePiece]]:
    return [
        (f"{name} {piece.id}", request, piece)
        for _, name, request in samples()
        for piece in BY_NAME[_].recipe(request).pieces
        if piece.template is not None
    ]


@pytest.mark.parametrize(("request_", "piece"), [pytest.param(r, p, id=name) for name, r, p in shaped()])
def test_one_seam_lies_around_the_seam_line(request_: Request, piece: RecipePiece) -> None:
    """A seam inside the cut line lies the seam line, whatever was blunted, and both fit the rectangle to cut."""
    template = piece.template
    assert template is not None
    seam = float(request_.rules.seam)
    slack = 1e-6 + 1e-3 * radius_of(template)
    assert net_of(template, seam).hausdorff_distance(traced(template.seam_line)) < slack
    cut = traced(template.cut_line)
    assert cut.bounds == pytest.approx((0, 0, float(template.width), float(template.height)), abs=1e-6 + slack / 10)
    assert float(piece.width) >= cut.bounds[2] - slack
    assert float(piece.height) >= cut.bounds[3] - slack
    assert piece.width.length.is_rational
    assert piece.height.length.is_rational
    low, high = template.grain
    assert traced(template.cut_line).buffer(1e-6).covers(LineString([(float(p.x), float(p.y)) for p in (low, high)]))


@pytest.mark.parametrize("turns", range(4))
@pytest.mark.parametrize("mirror", [False, True])
def test_turned_and_mirrored(turns: int, mirror: bool) -> None:
    """A laid template is the same shape, and a way around it still closes."""
    recipe = BY_NAME["quarter-circle"].recipe(ask("quarter-circle", "4", "4", extents={"radius": "3"}))
    for piece in recipe.pieces:
        template = piece.template
        assert template is not None
        laid = template.laid(Orientation(turns, mirror))
        for outline in (laid.cut_line, laid.seam_line):
            ends = [side.end for side in outline]
            assert [side.start for side in outline] == [ends[-1], *ends[:-1]]
        assert traced(laid.cut_line).area == pytest.approx(traced(template.cut_line).area)
        assert traced(laid.cut_line).bounds == pytest.approx((0, 0, float(laid.width), float(laid.height)), abs=1e-4)


@pytest.mark.parametrize("radius", ["2", "3", "9/2"])
def test_radii_of_curves_differ_by_two_seams(radius: str) -> None:
    """Published: the templates' radii differ by 1/2 in (a teaching blog on drafting the block's templates, 2020)."""
    pie, around = curve_radii(radius)
    assert pie - around == Length("1/2")
    assert (pie + around) / 2 == Length(radius)


def test_radius_of_the_outer_piece() -> None:
    """Derived by plane geometry: a finished radius of 3 in is cut at 2 3/4 in."""
    assert curve_radii("3")[1] == Length("11/4")


def curve_radii(radius: str) -> list[Length]:
    recipe = BY_NAME["quarter-circle"].recipe(ask("quarter-circle", "8", "8", extents={"radius": radius}))
    return [
        next(side.radius for side in piece.template.cut_line if isinstance(side, Arc))
        for piece in recipe.pieces if piece.template is not None
    ]


def test_cut_lines_of_polygons() -> None:
    """Derived by plane geometry: hexagons and 60° triangles, seams of 1/4 in (rows hex1-flat, hex1-point, tri60)."""
    root = Length.root(3)
    hexagon = tuple(
        Point(Length(x), root * Fraction(y)) for x, y in
        ((Fraction(1, 2), 0), (Fraction(3, 2), 0), (2, Fraction(1, 2)), (Fraction(3, 2), 1), (Fraction(1, 2), 1),
         (0, Fraction(1, 2)))
    )
    cut = straight_template(hexagon, Length("1/4"))
    assert float(cut.height) == pytest.approx(2.232051, abs=1e-5)
    assert float(cut.width) == pytest.approx(2.57735, abs=1e-5)
    half = Length(2) / root
    triangle = (Point(half, Length(0)), Point(half * 2, Length(2)), Point(Length(0), Length(2)))
    cut = straight_template(triangle, Length("1/4"))
    assert float(cut.height) == pytest.approx(2.75, abs=1e-8)
    assert float(cut.width) == pytest.approx(3.175426, abs=1e-5)


def test_sharp_tips_are_blunted() -> None:
    """A tip of 45° ends one and a half seams beyond its corner, square to its middle."""
    tip = (Point(Length(0), Length(0)), Point(Length(4), Length(0)), Point(Length(0), Length(4)))
    corners = [(float(point.x), float(point.y)) for point in cut_corners(tip, Length("1/4"))]
    assert len(corners) == 5
    first, second = (corner for corner in corners if corner[0] > 4)
    middle = (first[0] + second[0]) / 2, (first[1] + second[1]) / 2
    assert sqrt((middle[0] - 4) ** 2 + middle[1] ** 2) == pytest.approx(0.375, abs=1e-8)


SLANTED = """
dialect: 1
pattern: Slanted
release: 1
lengths: inches
fabrics:
  rope: {color: a9482f}
  deck: {color: ece7db, directional: WAY}
units:
  tern: {UNIT}
blocks:
  coil: {cell: 1 in, rows: [[tern 12x4], [tern 12x4], [tern 12x4]]}
quilt:
  arrange: [[coil]]
sizes:
  throw: {across: 2, down: 2}
"""


@pytest.mark.parametrize("unit", ["triangle-60: [rope, deck, deck]", "hexagon: [rope, deck, deck]"])
@pytest.mark.parametrize("way", ["lengthwise", "crosswise", "no"])
def test_a_template_serves_both_ends_of_its_shape(unit: str, way: str) -> None:
    """On cloth without a way up no two templates are one shape turned by half; a one-way print has one
    for each way."""
    text = SLANTED.replace("UNIT", unit)
    plan = plan_of(text.replace(", directional: WAY", "") if way == "no" else text.replace("WAY", way))
    shapes = [traced(template.shape.seam_line) for template in plan.templates]
    alike = [
        first for number, first in enumerate(shapes) for second in shapes[:number]
        if from_origin(affinity.rotate(first, 180)).hausdorff_distance(from_origin(second)) < 1e-6
    ]
    assert len(shapes) >= 2
    assert bool(alike) == (way != "no")


def from_origin(shape: BaseGeometry) -> BaseGeometry:
    left, top, _, _ = shape.bounds
    return affinity.translate(shape, -left, -top)


def lines(scene: Scene, style: str) -> list[LineString]:
    return [LineString(item.points) for item in scene.items if isinstance(item, Line) and item.style == style]


@pytest.mark.parametrize(("side", "radius", "pages"), [("4", "3", 1), ("12", "10", 3), ("16", "14", 5)])
def test_tiles_rejoin(side: str, radius: str, pages: int) -> None:
    """Glued with crosses on crosses, as a maker glues them, the pages give the whole cut line and nothing else."""
    plan = plan_of(CURVES.replace("SIDE", side).replace("RADIUS", radius))
    board, figures = board_of(plan), figures_of(plan)
    for template in plan.templates:
        whole = traced(template.shape.cut_line).exterior
        tiles = tiles_of(board, template_sheet(board, template))
        scenes = figures.of("template", template.id)
        assert len(scenes) == len(tiles) >= (pages if template.id == "T1" else 1)
        parts = []
        for scene, (dx, dy) in zip(scenes, glued(scenes, tiles), strict=True):
            parts += [affinity.translate(line, dx, dy) for line in lines(scene, "outline")]
        drawn = unary_union(parts)
        left, top, _, _ = drawn.bounds
        drawn = affinity.translate(drawn, -left, -top)
        assert drawn.hausdorff_distance(whole) < 1e-3
        assert drawn.buffer(1e-3).covers(whole)
        assert all(tile.width <= board.room.width and tile.height <= board.room.height for tile in tiles)


def glued(scenes: Sequence[Scene], tiles: Sequence[Tile]) -> list[tuple[float, float]]:
    """How far each page is moved when it is laid on a neighbor, by the crosses of their shared strip alone."""
    shifts: dict[int, tuple[float, float]] = {0: (0.0, 0.0)}
    while len(shifts) < len(scenes):
        before = len(shifts)
        for number, tile in enumerate(tiles):
            for other in [] if number in shifts else list(shifts):
                step = tile.column - tiles[other].column, tile.row - tiles[other].row
                if step not in ((1, 0), (0, 1), (-1, 0), (0, -1)):
                    continue
                here, there = strip(scenes[number], (-step[0], -step[1])), strip(scenes[other], step)
                dx, dy = there[0][0] - here[0][0], there[0][1] - here[0][1]
                moved = [(x + dx, y + dy) for x, y in here]
                assert moved == [pytest.approx(spot) for spot in there], "the crosses of a strip lie on each other"
                shifts[number] = shifts[other][0] + dx, shifts[other][1] + dy
                break
        assert len(shifts) > before, "every page is joined to another"
    return [shifts[number] for number in range(len(scenes))]


def strip(scene: Scene, side: tuple[int, int]) -> list[tuple[float, float]]:
    """The four outermost crosses of the strip at one side of a page, from its near corner on."""
    across = [line for line in lines(scene, "scale") if len(line.coords) == 2 and line.bounds[1] == line.bounds[3]]
    spots = {(round((line.bounds[0] + line.bounds[2]) / 2, 6), round(line.bounds[1], 6)) for line in across
             if abs(line.length - 2 * CROSS) < 1e-6}
    axis = 0 if side[0] else 1
    levels = sorted({spot[axis] for spot in spots})
    near = levels[-2:] if sum(side) > 0 else levels[:2]
    ends = []
    for level in near:
        row = sorted((spot for spot in spots if abs(spot[axis] - level) < 1e-6), key=lambda spot: spot[1 - axis])
        ends += [row[0], row[-1]]
    assert near[1] - near[0] == pytest.approx(OVERLAP)
    return ends


@pytest.mark.parametrize("radius", ["3", "10"])
def test_notches_meet(radius: str) -> None:
    """Three marks across each curve's allowance, at the same angles and on the same seam on both pieces."""
    plan = plan_of(CURVES.replace("SIDE", "12").replace("RADIUS", radius))
    board = board_of(plan)
    angles = []
    for template in plan.templates:
        center = next(side.center for side in template.shape.cut_line if isinstance(side, Arc))
        marks = [stroke.points for stroke in template_sheet(board, template).strokes if stroke.style == "seam"]
        found = []
        for ends in marks:
            (x, y), (u, v) = ((px - float(center.x), py - float(center.y)) for px, py in ends)
            assert hypot(x, y) == pytest.approx(float(radius))
            assert abs(hypot(u, v) - hypot(x, y)) == pytest.approx(0.25)
            found.append(round(atan2(y, x), 9))
        angles.append(sorted(found))
    assert len(angles[0]) == 3
    assert angles[0] == angles[1]


@pytest.mark.slow
@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_true_size_in_the_pdf(tmp_path: Path, paper: str) -> None:
    """The square inch of every template's page, and a template of 4 1/2 in, are true to a tenth of a millimeter."""
    (tmp_path / "curves.yaml").write_text(CURVES.replace("SIDE", "4").replace("RADIUS", "3"), "utf-8")
    done = run("build", tmp_path / "curves.yaml", "--out", tmp_path / "out", "--paper", paper, folder=tmp_path)
    assert done.returncode == 0, done.stderr
    document = pypdfium2.PdfDocument(tmp_path / "out" / "curves" / f"curves-{paper}.pdf")
    pages = [page for page in document if "Print at 100 %" in page.get_textpage().get_text_range()]
    found = [size for page in pages for size in boxes(page)]
    squares = [size for size in found if max(abs(side - MILLIMETERS) for side in size) < 2]
    assert len(squares) >= 2
    for size in squares:
        assert size == pytest.approx((MILLIMETERS, MILLIMETERS), abs=0.1)
    assert any(size == pytest.approx((4.5 * MILLIMETERS, 4.5 * MILLIMETERS), abs=0.1) for size in found)
    # Seams: a quarter circle of 3 in with its two straight sides, and a square of 4 in less the same quarter.
    arc = 3 * pi / 2
    lengths = [LineString(points).length / 72 for page in pages for points in paths(page)]
    for seam in (arc + 6, arc + 4 + 4 + 1 + 1):
        assert any(length == pytest.approx(seam, abs=0.004) for length in lengths), (seam, lengths)


def boxes(page: Any) -> list[tuple[float, float]]:
    """Width and height in millimeters of every path of a page."""
    found = []
    for points in paths(page):
        xs, ys = zip(*points, strict=True)
        found.append(((max(xs) - min(xs)) / 72 * MILLIMETERS, (max(ys) - min(ys)) / 72 * MILLIMETERS))
    return found


def paths(page: Any) -> Iterator[list[tuple[float, float]]]:
    """The points in PDF points of every unbroken line of a page."""
    for item in page.get_objects(filter=[raw.FPDF_PAGEOBJ_PATH], max_depth=9):
        points: list[tuple[float, float]] = []
        for index in range(raw.FPDFPath_CountSegments(item.raw)):
            segment = raw.FPDFPath_GetPathSegment(item.raw, index)
            if raw.FPDFPathSegment_GetType(segment) == raw.FPDF_SEGMENT_MOVETO and points:
                yield points
                points = []
            x, y = ctypes.c_float(), ctypes.c_float()
            raw.FPDFPathSegment_GetPoint(segment, x, y)
            points.append(item.get_matrix().on_point(x.value, y.value))
        if len(points) > 1:
            yield points
