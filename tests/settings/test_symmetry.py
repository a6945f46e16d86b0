"""Symmetric layouts: which sizes are, and the neighbors that are proposed for those that are not.

The proposals are checked against pictures of patches mirrored by another geometry library.
"""

from __future__ import annotations

import re

import pytest
from shapely.affinity import affine_transform
from shapely.geometry import Polygon
from shapely.ops import unary_union

from patchwright.core.diagnostics import Diagnostic
from patchwright.diagrams.patches import PatchBook
from patchwright.planning.plan import Plan
from planning.compiling import compile_text, plan_of, sample

PATTERN = """\
units: {{lean: {{half-square: [red, cream]}}}}
blocks:
  star: {{cell: 2 in, rows: [[lean, lean@90], [lean@270, lean@180]]}}
  plain: {{cell: 2 in, rows: [[cream 2x2]]}}
  leaf: {{cell: 2 in, rows: [[red, lean], [lean, cream]]}}
  wheel: {{cell: 2 in, rows: [[lean@90, lean@180], [lean, lean@270]]}}
quilt: {{{setting}, symmetric: yes}}
sizes: {{only: {{across: {across}, down: {down}}}}}
"""
STRAIGHT = "arrange: {arrange}"
ON_POINT = "setting: on-point, arrange: {arrange}, setting-triangles: {{fabric: red}}"


def text(arrange: str, across: int, down: int, setting: str = STRAIGHT) -> str:
    return sample(PATTERN.format(setting=setting.format(arrange=arrange), across=across, down=down))


def remarks(pattern: str) -> list[Diagnostic]:
    return [item for item in compile_text(pattern)[1] if item.code == "not-symmetric"]


def mirrors_itself(plan: Plan) -> bool:
    """Whether the drawing, by fabric, is the same mirrored left to right and top to bottom."""
    size = plan.sizes[0]
    book = PatchBook(plan)
    shapes: dict[str, list[Polygon]] = {}
    for item in size.items:
        for patch in book.item(item, 0).patches:
            moved = [(float(item.x) + x, float(item.y) + y) for x, y in patch.outline]
            shapes.setdefault(patch.letter, []).append(Polygon(moved))
    width, height = (float(side) for side in size.finished)
    for polygons in shapes.values():
        whole = unary_union(polygons)
        for matrix in ([-1, 0, 0, 1, width, 0], [1, 0, 0, -1, 0, height]):
            if affine_transform(whole, matrix).symmetric_difference(whole).area > 1e-6:
                return False
    return True


ARRANGEMENTS = ["[[star, plain], [plain, star]]", "[[star, plain, plain]]", "[[leaf, leaf@90], [leaf@270, leaf@180]]",
                "[[star], [plain], [plain]]"]


@pytest.mark.parametrize("setting", [STRAIGHT, ON_POINT])
@pytest.mark.parametrize("arrange", ARRANGEMENTS)
def test_a_warning_stands_where_the_drawing_is_not_its_own_mirror_image(arrange: str, setting: str) -> None:
    for across in (2, 3, 4):
        for down in (2, 3):
            pattern = text(arrange, across, down, setting)
            assert bool(remarks(pattern)) != mirrors_itself(plan_of(pattern)), (arrange, across, down)


@pytest.mark.parametrize(("arrange", "across", "down"), [(ARRANGEMENTS[0], 4, 5), (ARRANGEMENTS[1], 6, 6)])
def test_sizes_that_are_proposed_are_symmetric(arrange: str, across: int, down: int) -> None:
    found = remarks(text(arrange, across, down))
    proposed = re.findall(r"(\d+) by (\d+)", found[0].hints[0])
    assert len(proposed) == 4
    for wide, high in proposed:
        assert remarks(text(arrange, int(wide), int(high))) == []
        assert mirrors_itself(plan_of(text(arrange, int(wide), int(high))))


def test_the_nearest_are_proposed() -> None:
    found = remarks(text(ARRANGEMENTS[0], 6, 7))
    assert {"5 by 7", "7 by 7"} <= set(re.findall(r"\d+ by \d+", found[0].hints[0]))


def test_a_block_without_a_mirror_image_is_matched_by_itself() -> None:
    assert remarks(text("[[wheel]]", 3, 4)) == []
    assert remarks(text("[[wheel, plain]]", 4, 4)) != []


def test_nothing_is_proposed_where_nothing_is_near() -> None:
    found = remarks(text("[[leaf]]", 3, 4))
    assert "no size near it" in found[0].hints[0]
