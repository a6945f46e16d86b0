"""What holds for every method's patches, recipe, stages and words, whatever the size, seam and rule."""

from __future__ import annotations

from itertools import combinations

import pytest
from shapely.geometry import Polygon

from methods.folding import Region
from methods.samples import samples
from methods.test_making import fits
from methods.words import method_words
from patchwright.core.geometry import Polygon as Polyline
from patchwright.core.length import ZERO, Length
from patchwright.methods.method import Recipe, Request, Stage, StageShape
from patchwright.methods.registry import BY_NAME, METHODS
from patchwright.wording.templates import hole_names, parse_template

SAMPLES = list(samples())
NOISE = 1e-9
ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth")
each_sample = pytest.mark.parametrize(("name", "request_"), [pytest.param(m, r, id=label) for m, label, r in SAMPLES])


def test_every_method_is_tried() -> None:
    assert {name for name, _, _ in SAMPLES} == set(BY_NAME)
    for method in METHODS:
        for key in method.keys:
            tried = {dict(r.words)[key.name] for name, _, r in SAMPLES if name == method.name and key.kind == "word"}
            assert key.kind != "word" or tried == set(key.choices), (method.name, key.name)


@each_sample
def test_unit(name: str, request_: Request) -> None:
    """It is not refused, its patches tile it, its recipe is whole, its stages are worded and end with the unit."""
    assert BY_NAME[name].refuse(request_) == ()
    check_patches_tile_the_unit(name, request_)
    check_recipe_is_whole(name, request_)
    check_stages_are_drawn_and_worded(name, request_)
    check_last_drawing_is_the_unit(name, request_)


def check_patches_tile_the_unit(name: str, request_: Request) -> None:
    """Exactly by area, and without overlap; every outline runs clockwise."""
    patches = BY_NAME[name].patches(request_)
    areas = [signed_double_area(patch.outline) for patch in patches]
    assert all(area > ZERO for area in areas)
    assert sum(areas, ZERO) == request_.width * request_.height * 2
    drawn = [Polygon([(float(p.x), float(p.y)) for p in patch.outline]) for patch in patches]
    assert all(shape.is_valid for shape in drawn)
    assert all(one.intersection(other).area < NOISE for one, other in combinations(drawn, 2))
    assert {patch.role for patch in patches} <= set(request_.roles)


def check_recipe_is_whole(name: str, request_: Request) -> None:
    """Pieces are distinct, every fabric of the drawing is cut, and there is more cloth than the patches cover."""
    method = BY_NAME[name]
    recipe, patches = method.recipe(request_), method.patches(request_)
    assert recipe.batch == len(recipe.gives) > 0
    assert len({piece.id for piece in recipe.pieces}) == len(recipe.pieces)
    assert {piece.role for piece in recipe.pieces} == {patch.role for patch in patches}
    for role in {patch.role for patch in patches}:
        needed = sum((signed_double_area(p.outline) for p in patches if p.role == role), ZERO) * recipe.batch
        cut = [p.width.length * p.height.length * p.per_batch * 2 for p in recipe.pieces if p.role == role]
        assert sum(cut, ZERO) > needed


def check_stages_are_drawn_and_worded(name: str, request_: Request) -> None:
    method = BY_NAME[name]
    recipe = method.recipe(request_)
    stages = method.stages(request_, recipe)
    for stage in stages:
        check_views(stage)
        check_words(stage, recipe)
    kinds = [stage.kind for stage in stages]
    assert kinds.count("finished") == (1 if stages else 0)
    assert not stages or kinds[-1] == "finished"
    assert ("trim" in kinds) == recipe.trim


def check_last_drawing_is_the_unit(name: str, request_: Request) -> None:
    """The finished stage shows every patch in its place and measures the unfinished size."""
    method = BY_NAME[name]
    stages = method.stages(request_, method.recipe(request_))
    if stages:
        seam = float(request_.rules.seam)
        shown = [region(shape, -seam) for shape in stages[-1].views[-1].shapes]
        assert not any(shape.wrong_side for shape in stages[-1].views[-1].shapes)
        assert fits(shown, method.patches(request_), request_, NOISE)


def test_words_are_all_used() -> None:
    """No sentence, title, way, noun, remark or supply is left that no method asks for, and none is missing."""
    assert set(method_words()) == set().union(*(wanted_keys(name, request) for name, _, request in SAMPLES))


def wanted_keys(name: str, request: Request) -> set[str]:
    method = BY_NAME[name]
    recipe = method.recipe(request)
    keys = {f"{name}.title", f"{name}.titles", f"{name}.how.{recipe.how}", f"{name}.supplies.{recipe.how}"}
    keys |= {stage.key for stage in method.stages(request, recipe)}
    keys |= {f"remark.{note}" for note in recipe.notes}
    keys |= {noun_key(name, piece.id) for piece in recipe.pieces}
    return keys | {f"supply.{key}" for key in method_words()[f"{name}.supplies.{recipe.how}"].split()}


def noun_key(name: str, piece: str) -> str:
    """A piece's own entry, or that of the part before its hyphen."""
    own = f"{name}.piece.{piece}"
    return own if own in method_words() else f"{name}.piece.{piece.partition('-')[0]}"


def check_views(stage: Stage) -> None:
    assert stage.views
    for view in stage.views:
        assert view.shapes
        for shape in view.shapes:
            assert len(set(shape.outline)) == len(shape.outline) >= 3
            assert signed_double_area(shape.outline) > ZERO
        for mark in view.marks:
            assert len(set(mark.points)) >= 2


def check_words(stage: Stage, recipe: Recipe) -> None:
    """Every value that the sentence asks for is there, and every piece is one of the recipe.

    How many batches are made, which way the unit is pressed and whether its rows nest is told to every sentence.
    """
    assert set(stage.pieces) <= {piece.id for piece in recipe.pieces}
    given = {*ORDINALS[: len(stage.pieces)], *dict(stage.lengths)} | ({"gives"} if stage.gives else set())
    given |= {"batches", "sets", "press", "nest"} | ({"taken"} if stage.pieces else set())
    assert all(length > ZERO for _, length in stage.lengths)
    assert hole_names(parse_template(stage.key, method_words()[stage.key])) <= given


def signed_double_area(points: Polyline) -> Length:
    """Twice the area, greater than 0 if the corners run clockwise with y down."""
    total = ZERO
    for here, there in zip(points, points[1:] + points[:1], strict=True):
        total += here.x * there.y - there.x * here.y
    return total


def region(shape: StageShape, shift: float) -> Region:
    return Region(shape.role, Polygon([(float(p.x) + shift, float(p.y) + shift) for p in shape.outline]))
