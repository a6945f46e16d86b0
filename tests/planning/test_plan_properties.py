"""What is true of the plan of every pattern, tried on random small ones."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import HealthCheck, assume, given, settings

from patchwright.core.length import Length
from patchwright.core.source import Source
from patchwright.design.resolve import make_design
from patchwright.dialect.parse import read_pattern
from patchwright.planning.build import make_plan
from patchwright.planning.dump import text_dump
from patchwright.planning.laying import Effort
from patchwright.planning.plan import Plan
from patchwright.planning.verify import verify
from planning.compiling import drawn_areas
from planning.generating import Drawing, Recipe, doubled, placed_drawing, recipes, text_of, turned, wider
from planning.seeing import Seen

quick = settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
few = settings(max_examples=8, deadline=None, suppress_health_check=[HealthCheck.too_slow])


def plan(recipe: Recipe, effort: Effort = "plain") -> Plan:
    """The plan of a generated pattern; patterns too wide for their cloth are left out."""
    text = text_of(recipe)
    declared, found = read_pattern(Source("generated.yaml", text))
    assert declared is not None, (found, text)
    design, of_design = make_design(declared, None, "generated")
    assert design is not None, (of_design, text)
    made, of_plan = make_plan(design, effort)
    errors = [item for item in of_plan if item.severity == "error"]
    assert bool(errors) == (made is None)
    assume(not {item.code for item in errors} & {"one-way-too-long", "piece-too-wide"})
    assert made is not None, (errors, text)
    return made


def cell(recipe: Recipe) -> Length:
    return Length(recipe.cell) if recipe.metric else Length(Fraction(recipe.cell, 2))


@quick
@given(recipes())
def test_every_plan_adds_up(recipe: Recipe) -> None:
    assert verify(plan(recipe)) == ()


@quick
@given(recipes())
def test_the_plan_draws_what_was_written(recipe: Recipe) -> None:
    made = plan(recipe)
    seen = Seen(made, cell(recipe))
    blocks = [item for item in made.sizes[0].items if item.part == "block"]
    for number, item in enumerate(blocks):
        row, column = divmod(number, recipe.across)
        assert seen_item(seen, item.ref, item.orientation.turns) == placed_drawing(recipe, row, column)


def seen_item(seen: Seen, ref: str, turns: int) -> Drawing:
    return turned(seen.assembly(ref), turns)


@quick
@given(recipes())
def test_areas_are_conserved(recipe: Recipe) -> None:
    made = plan(recipe)
    total = Length()
    for area in drawn_areas(made).values():
        total += area
    width, height = (side.length for side in made.sizes[0].finished)
    assert total == width * height


@quick
@given(recipes())
def test_twice_as_many_blocks_across_are_twice_as_many_blocks(recipe: Recipe) -> None:
    counts, twice = (
        {known.id: size.count for known in made.assemblies if not known.nested and (size := known.sizes[0])}
        for made in (plan(recipe), plan(doubled(recipe)))
    )
    assert twice == {name: count * 2 for name, count in counts.items()}


@few
@given(recipes())
def test_a_plan_is_the_same_every_time(recipe: Recipe) -> None:
    assert text_dump(plan(recipe)) == text_dump(plan(recipe))


def bought(made: Plan) -> dict[str, Fraction]:
    """What is bought of every fabric, binding and backing."""
    size = made.sizes[0]
    buys = {fabric.id: own.buy for fabric in made.fabrics if (own := fabric.sizes[0]) is not None}
    if size.backing is not None:
        buys["backing"] = size.backing.buy
    return {name: buy.amount for name, buy in buys.items() if buy is not None}


@few
@given(recipes())
def test_looking_for_the_best_never_buys_more(recipe: Recipe) -> None:
    plain, best = bought(plan(recipe)), bought(plan(recipe, "best"))
    assert plain.keys() == best.keys()
    assert all(best[name] <= plain[name] for name in plain)


@few
@given(recipes())
def test_the_best_plan_adds_up(recipe: Recipe) -> None:
    assert verify(plan(recipe, "best")) == ()


@few
@given(recipes())
def test_wider_cloth_never_needs_more(recipe: Recipe) -> None:
    narrow, wide = bought(plan(recipe, "best")), bought(plan(wider(recipe, 4), "best"))
    assert all(wide[name] <= narrow[name] for name in narrow)
