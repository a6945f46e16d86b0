"""The other hand of every unit that has one, rebuilt from the pieces and templates that the plan lists for it.

Rectangles and squares serve both hands: making the reversed unit is making it as drawn with everything the other way
round, so what comes out is turned over here and must lie on the mirrored patches, in some turn and never turned over.
Templates have a hand: the plan's own, as printed, are traced, and must be the mirrored patches, never turned over.
A foundation is printed from its back, so the reversed unit's is the unit as drawn.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from methods.folding import Line, flip
from methods.samples import DRAWN
from methods.test_making import make, settle
from methods.tracing import UnmatchedPieceError, on_foundation, pieced
from patchwright.core.geometry import Orientation
from patchwright.methods.method import Recipe, UnitPatch
from patchwright.methods.registry import BY_NAME
from patchwright.planning.plan import Plan, PlannedUnit, UnitSize
from planning.compiling import plan_of, sample, unit_size

MIRROR = Orientation(0, True)
HANDED = {
    "half-rectangle": "half-rectangle: [red, cream], size: 2 x 4",
    "half-rectangle, wide": "half-rectangle: [red, cream], size: 4 x 2",
    "flipped corner": "flipped-corners: {base: red, ne: cream}, size: 4 x 2",
    "flipped corners": "flipped-corners: {base: red, nw: cream, ne: blue}, size: 4 x 4, order: opposite",
    "split-square": "split-square: [red, cream, blue], size: 4 x 4",
    "quarter-square": "quarter-square: [red, cream, blue, green], make: cut, size: 4 x 4",
    "log cabin": "log-cabin: [red, cream, blue], rounds: 2, size: 6 x 6",
    "parallelogram": "parallelogram: [red, cream], size: 4 x 2",
    "polygon": f'polygon: [red, cream, blue], size: 4 x 4, patches: "{DRAWN[1]}"',
    "pinwheel polygon": 'polygon: [red, cream, blue], size: 4 x 4, '
    'patches: "0 0, 3 0, 3 1, 0 1; 3 0, 4 0, 4 4, 3 4; 0 1, 3 1, 3 4, 0 4"',
    "quarter circle, turned": "quarter-circle: [red, cream], radius: 3, size: 4 x 4",
    "foundation": f'foundation: [red, cream, blue], size: 4 x 4, patches: "{DRAWN[1]}"',
}
SAME = ("quarter circle, turned",)
"""Units that are their own mirror image, turned: the plan makes one of them."""


def planned(unit: str) -> tuple[Plan, list[PlannedUnit]]:
    plan = plan_of(sample(f"""\
fabrics: {{red: {{}}, cream: {{}}, blue: {{}}, green: {{}}}}
units: {{u: {{{HANDED[unit]}}}}}
blocks: {{one: {{cell: 1 in, rows: [[u, u@mirror]]}}}}
quilt: {{arrange: [[one]]}}
"""))
    return plan, list(plan.units)


def mirrored(unit: PlannedUnit, size: UnitSize) -> tuple[UnitPatch, ...]:
    width, height = (side.length for side in size.finished)
    patches = BY_NAME[unit.method].patches(size.request)
    return tuple(UnitPatch(patch.role, MIRROR.polygon(patch.outline, width, height)) for patch in patches)


def as_listed(plan: Plan, unit: PlannedUnit, size: UnitSize) -> Recipe:
    """The recipe with the sizes and the templates of the pieces that the plan lists for the unit."""
    printed = {template.id: template.shape for template in plan.templates}
    cut = {piece.id: piece.sizes[0] for piece in plan.pieces}
    served = {part.recipe_piece: cut[part.piece] for part in unit.pieces}
    pieces = []
    for piece in size.recipe.pieces:
        own = served[piece.id]
        assert own is not None
        assert sorted((own.width, own.height)) == sorted((piece.width, piece.height))
        pieces.append(replace(piece, template=printed[own.template] if own.template else None))
    return replace(size.recipe, pieces=tuple(pieces))


@pytest.mark.parametrize("unit", [name for name in HANDED if name not in SAME])
def test_the_other_hand_is_made_of_the_pieces_that_are_listed_for_it(unit: str) -> None:
    plan, units = planned(unit)
    assert [own.hand for own in units] == ["as-drawn", "reversed"]
    for own in units:
        size = unit_size(own)
        assert size.need == 4
        recipe, wanted = as_listed(plan, own, size), BY_NAME[own.method].patches(size.request)
        if own.hand == "reversed":
            wanted = mirrored(own, size)
        if recipe.foundation:
            made = [on_foundation(recipe, wanted, size.request)]
        elif any(piece.template for piece in recipe.pieces):
            made = [pieced(recipe, wanted, size.request)]
        else:
            made = make(own.method, recipe, size.request)
            if own.hand == "reversed":
                made = [flip(seen, Line((0.0, 0.0), (0.0, 1.0))) for seen in made]
        assert all(settle(own.method, seen, wanted, size.request, recipe) is not None for seen in made)


@pytest.mark.parametrize("unit", [name for name in HANDED if name not in (*SAME, "log cabin")])
def test_the_hand_as_drawn_is_not_the_other(unit: str) -> None:
    """The check above is a real one: what is made as drawn fits the mirrored patches in no turn.

    The hands of a log cabin differ by the order of their logs alone; their colors lie alike when turned.
    """
    plan, (drawn, _) = planned(unit)
    size = unit_size(drawn)
    recipe, wanted = as_listed(plan, drawn, size), mirrored(drawn, size)
    if recipe.foundation:
        patches = BY_NAME[drawn.method].patches(size.request)
        made = [on_foundation(recipe, patches, size.request)]
    elif any(piece.template for piece in recipe.pieces):
        if all(len(piece.template.cut_line) == 4 for piece in recipe.pieces if piece.template is not None):
            return  # Rectangles have no hand.
        try:
            made = [pieced(recipe, wanted, size.request)]
        except UnmatchedPieceError:
            return
    else:
        made = make(drawn.method, recipe, size.request)
    assert not any(settle(drawn.method, seen, wanted, size.request, recipe) for seen in made)


def test_a_unit_that_is_its_own_mirror_image_has_no_other_hand() -> None:
    _, units = planned(SAME[0])
    assert [(own.hand, unit_size(own).need) for own in units] == [("as-drawn", 8)]


def test_a_foundation_is_printed_from_its_back() -> None:
    """The foundation of the unit as drawn is its mirror image; the reversed unit's is mirrored once more when drawn."""
    _, (drawn, other) = planned("foundation")
    for own in (drawn, other):
        size = unit_size(own)
        assert {frozenset(outline) for outline in size.recipe.foundation} == {
            frozenset(patch.outline) for patch in mirrored(own, size)
        }
