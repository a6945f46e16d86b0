"""The free choice of a way for each block: against all choices there are, and on quilts made up at random."""

from __future__ import annotations

import dataclasses
from fractions import Fraction
from itertools import product
from random import Random
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from patchwright.planning import build
from patchwright.planning.plan import Plan
from patchwright.planning.pressing import variants
from patchwright.planning.pressing.chessboard import dark_places
from patchwright.planning.pressing.gathering import make_model
from patchwright.planning.pressing.press import with_pressing
from patchwright.planning.pressing.problem import Problem, make_problem
from patchwright.planning.pressing.recount import recount_points
from patchwright.planning.pressing.results import Choice
from patchwright.planning.pressing.solve import solve
from patchwright.planning.pressing.terms import Rule
from patchwright.planning.pressing.variants import Chosen, choose_ways, pressed_alike
from patchwright.planning.verify import verify
from planning.compiling import compile_text, plan_of, sample
from pressing.generated import ALLOWED, generated
from pressing.quilts import NINE_PATCH, SASHED, quilt
from pressing.test_solving import only_entangled

COLORS = """\
fabrics:
  dark: {color: 22344c, value: dark}
  light: {color: ece7db, value: light}
  other: {color: 6b7a3a, value: medium}
"""
PARTS = """\
units:
  sail: {half-square: [dark, light]}
blocks:
  four: {cell: 3 in, strip-piece: no, rows: [[dark, light], [light, dark]]}
  nine: {cell: 2 in, strip-piece: no, rows: [[dark, light, dark], [light, dark, light], [dark, light, dark]]}
  pair: {cell: 3 in, strip-piece: no, rows: [[dark 2x1], [light 2x1]]}
  rail: {cell: 2 in, strip-piece: no, rows: [[dark 3x1], [light 3x1], [dark 3x1]]}
  post: {cell: 2 in, strip-piece: no, columns: [[light, dark, light], [other 1x3], [light, dark, light]]}
  stop: {cell: 1 in, strip-piece: no, columns: [[light 2x3, dark 2x3], [other 2x6], [light 2x3, dark 2x3]]}
  wheel: {cell: 3 in, rows: [[sail@90, sail@180], [sail, sail@270]]}
  inner: {cell: 1 in, strip-piece: no, rows: [[dark, light], [light, dark]]}
  mill: {cell: 3 in, rows: [[sail, light], [dark, sail@180]]}
  dock: {cell: 3 in, rows: [[inner 1x1@90, sail@270], [light, inner 1x1]]}
  nest: {cell: 3 in, strip-piece: no, rows: [[inner 1x1, light], [dark, inner 1x1@90]]}
"""
NAMES = ("four", "nine", "pair", "rail", "post", "wheel", "nest", "mill", "dock")
SMALL = [
    ("[[pair]]", 4, 1), ("[[pair, pair@90]]", 3, 2), ("[[pair, pair, stop]]", 6, 1), ("[[four, four@90]]", 2, 2),
    ("[[rail, rail, rail@90]]", 3, 2), ("[[pair, rail], [rail, pair]]", 3, 2), ("[[four, pair@90, pair]]", 3, 1),
    ("[[pair, stop@90], [stop, pair]]", 2, 2),
]


def small(arrange: str, across: int, down: int) -> Plan:
    return quilt(f"{PARTS}quilt: {{arrange: {arrange}}}\nsizes: {{only: {{across: {across}, down: {down}}}}}\n")


def best_of_all_directions(problem: Problem) -> tuple[int, int]:
    """(nested, kinds made in two ways) of the best of all ways there are to press."""
    problem = only_entangled(problem)
    free = [number for number in range(problem.count) if number not in problem.fixed]
    assert len(free) <= 14
    values = [problem.fixed.get(number, 1) for number in range(problem.count)]
    best = (0, 0)
    for chosen in product((1, -1), repeat=len(free)):
        for number, value in zip(free, chosen, strict=True):
            values[number] = value
        if problem.is_possible(values):
            best = max(best, (problem.nested(values), -sum(values[flag] == 1 for flag in problem.flags.values())))
    return best


def best_of_solved(problem: Problem) -> tuple[int, int]:
    """The same by the solver, which other tests hold against all directions."""
    solution = solve(problem)
    return solution.nested, -sum(solution.values[flag] == 1 for flag in problem.flags.values())


def best_of_all_ways(plan: Plan, rule: Rule, best: Any) -> tuple[Fraction, int]:
    """(nested, kinds) of the best of all choices; without borders, the last block lies the first way in all of them."""
    places = [
        (index, place) for index, size in enumerate(plan.sizes) for place, item in enumerate(size.items)
        if item.part == "block"
    ]
    found = []
    bordered = any(item.part.startswith("border") for size in plan.sizes for item in size.items)
    for ways in product((0, 1), repeat=len(places) - (not bordered)):
        lying = {spot for spot, way in zip(places, ways, strict=False) if way}
        second = tuple(
            frozenset(place for index, place in lying if index == own) for own in range(len(plan.sizes))
        )
        problem = make_problem(make_model(plan, second), rule)
        nested, kinds = best(problem)
        found.append((problem.scale * nested, kinds))
    return max(found)


def kinds_of(plan: Plan, chosen: Chosen, rule: Rule) -> int:
    """How many kinds are made in two ways."""
    problem = make_problem(make_model(plan, chosen.second), rule)
    solution = solve(problem)
    assert problem.scale * solution.nested == chosen.nested
    return sum(solution.values[flag] == 1 for flag in problem.flags.values())


@pytest.mark.parametrize(("arrange", "across", "down"), SMALL)
def test_small_quilts_are_as_good_as_all_directions_of_all_choices(arrange: str, across: int, down: int) -> None:
    plan = small(arrange, across, down)
    chosen = choose_ways(plan, "nest")
    assert (chosen.nested, -kinds_of(plan, chosen, "nest")) == best_of_all_ways(plan, "nest", best_of_all_directions)
    assert chosen.bound == chosen.nested


@pytest.mark.parametrize("rule", ["nest", "dark"])
@pytest.mark.parametrize(("arrange", "across", "down"), [
    ("[[nine, nine@90]]", 3, 2), ("[[wheel]]", 2, 2), ("[[nest, four], [four@90, nest@90]]", 2, 2),
    ("[[dock, nest], [nest@90, mill]]", 2, 2),
    ("[[nine, post@90, nine@180]]", 3, 2), ("[[nest, wheel]]", 3, 2), ("[[nest, nest@90]]", 3, 2),
])
def test_small_quilts_are_as_good_as_all_choices(arrange: str, across: int, down: int, rule: Rule) -> None:
    plan = small(arrange, across, down)
    chosen = choose_ways(plan, rule)
    assert (chosen.nested, -kinds_of(plan, chosen, rule)) == best_of_all_ways(plan, rule, best_of_solved)
    assert chosen.bound == chosen.nested or rule == "dark"


@pytest.mark.parametrize("seed", range(12))
def test_irregular_quilts_are_as_good_as_all_choices(seed: int) -> None:
    random = Random(seed)
    names = [name for name in NAMES if name not in random.sample(NAMES, 3)]
    rows = [
        ", ".join(random.choice(names) + random.choice(["", "", "@90", "@180"]) for _ in range(3)) for _ in range(2)
    ]
    plan = small(f"[[{rows[0]}], [{rows[1]}]]", 3, 2)
    chosen = choose_ways(plan, "nest")
    assert (chosen.nested, -kinds_of(plan, chosen, "nest")) == best_of_all_ways(plan, "nest", best_of_solved)
    assert chosen.bound == chosen.nested


@pytest.mark.parametrize("name", ["four", "nine", "nest"])
def test_blocks_of_a_border_lie_the_first_way_and_the_others_as_suits_them(name: str) -> None:
    border = f"  borders: [{{pieced: {{repeat: [{name}]}}, coping: {{fabric: light}}}}]\n"
    arrange = f"  arrange: [[{name}, {name}@90], [{name}, {name}]]\n"
    plan = quilt(f"{PARTS}quilt:\n{arrange}{border}sizes: {{only: {{across: 2, down: 2}}}}\n")
    chosen = choose_ways(plan, "nest")
    assert (chosen.nested, -kinds_of(plan, chosen, "nest")) == best_of_all_ways(plan, "nest", best_of_solved)
    assert chosen.bound == chosen.nested
    assert all(plan.sizes[0].items[place].part == "block" for place in chosen.second[0])
    assert bool(chosen.second[0]) == (name == "nine")


def test_where_no_simple_bound_is_reached_a_program_proves_the_best_of_all_choices() -> None:
    plan = plan_of(generated(245))
    chosen = choose_ways(plan, "nest")
    nested, kinds = best_of_all_ways(plan, "nest", best_of_solved)
    assert chosen.bound == chosen.nested == nested < 1
    assert kinds_of(plan, chosen, "nest") == -kinds


def test_where_a_program_would_be_too_large_the_bound_is_honest(monkeypatch: pytest.MonkeyPatch) -> None:
    plan = plan_of(generated(245))
    monkeypatch.setattr(variants, "MOST_VALUES", 0)
    chosen = choose_ways(plan, "nest")
    assert chosen.bound is not None
    assert chosen.nested == best_of_all_ways(plan, "nest", best_of_solved)[0] < chosen.bound
    told = with_pressing(quilt(NINE_PATCH)).pressing
    assert told is not None
    assert told.is_best
    assert not dataclasses.replace(told, choice=Choice(told.nested + 1, ())).is_best


@pytest.mark.parametrize("seed", [255])
def test_no_more_nests_than_the_bound_says_where_blocks_share_what_is_in_them(seed: int) -> None:
    plan = plan_of(generated(seed))
    chosen = choose_ways(dataclasses.replace(plan, sizes=plan.sizes[:1]), "nest")
    assert chosen.bound is not None
    assert chosen.nested <= chosen.bound


SETTINGS = {
    "straight": "",
    "sashed": "  sashing: {width: 1 in, fabric: other, cornerstone: dark}\n",
    "between rows": "  sashing: {width: 1 in, fabric: other, between: rows}\n",
    "on point": "  setting: on-point\n  alternate: BETWEEN\n  setting-triangles: {fabric: light}\n",
    "strippy": "  setting: strippy\n  strips: {width: 2 in, fabric: other}\n",
    "medallion": "  setting: medallion\n  borders: [{width: 3 in, fabric: other}, {pieced: {repeat: [BETWEEN]}, "
                 "coping: {fabric: light}}]\n",
    "medallion on point": "  setting: medallion\n  setting-triangles: {fabric: light}\n"
                          "  borders: [{width: 3 in, fabric: other}]\n",
}


@st.composite
def quilts(draw: st.DrawFn) -> str:
    """Some blocks, turned or not, in some order, in every setting there is."""
    names = draw(st.lists(st.sampled_from(NAMES), min_size=1, max_size=3, unique=True))
    width, height = draw(st.integers(1, 4)), draw(st.integers(1, 3))
    one = st.builds("{}{}".format, st.sampled_from(names), st.sampled_from(["", "", "@90", "@180"]))
    rows = [", ".join(draw(one) for _ in range(width)) for _ in range(height)]
    setting = draw(st.sampled_from(sorted(SETTINGS)))
    lines = SETTINGS[setting].replace("BETWEEN", draw(st.sampled_from(names)))
    sizes = [
        f"{name}: {{}}" if "medallion" in setting
        else f"{name}: {{across: {draw(st.integers(2, 4))}, down: {draw(st.integers(2, 4))}}}"
        for name in (["only"] if "medallion" in setting else ["small", "large"])
    ]
    return f"{PARTS}quilt:\n  arrange: [[{'], ['.join(rows)}]]\n{lines}sizes: {{{', '.join(sizes)}}}\n"


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(quilts(), st.sampled_from(["nest", "dark"]))
def test_what_is_chosen_is_placed_counted_and_checked(text: str, rule: Rule) -> None:
    """Both ways add up to what one way takes, size by size; the count on the finished top and all checks agree."""
    house = f"house: {{pressing: {rule}, pressing-variants: NUMBER}}\n"
    once, _ = compile_text(sample(house.replace("NUMBER", "1") + COLORS + text))
    plan, found = compile_text(sample(house.replace("NUMBER", "2") + COLORS + text))
    assert once is not None, found
    assert plan is not None, found
    once, plan = with_pressing(once), with_pressing(plan)
    assert not verify(plan)
    assert once.pressing is not None
    assert plan.pressing is not None
    if rule == "nest":
        assert plan.pressing.nested >= once.pressing.nested
    for index, size in enumerate(plan.pressing.sizes):
        assert recount_points(plan, plan.pressing, index)[:2] == (size.nested, size.total)
        made: dict[str, int] = {}
        for part in plan.assemblies:
            own = part.sizes[index]
            made[part.second_of or part.id] = made.get(part.second_of or part.id, 0) + (own.count if own else 0)
        alone = {part.id: own.count if (own := part.sizes[index]) else 0 for part in once.assemblies}
        assert made == alone
        for known in plan.pressing.variants if rule == "nest" else ():
            if known.kind == "assembly":
                placed = sum(item.ref == known.second_id for item in plan.sizes[index].items if item.part == "block")
                assert placed <= known.second[index]


def test_what_lies_the_same_in_both_ways_has_no_second(monkeypatch: pytest.MonkeyPatch) -> None:
    """A choice that is not sure is looked at again, with everything in its place."""
    plan, text = quilt(SASHED), sample(ALLOWED + COLORS + SASHED)
    dark = tuple(dark_places(size) for size in plan.sizes)
    unsure = Chosen(frozenset({"four"}), dark, is_sure=False)
    monkeypatch.setattr(build, "choose_ways", lambda quilt, rule, spinning: unsure)
    asked, _ = compile_text(text)
    assert asked is not None
    assert not any(part.second_of for part in asked.assemblies)
    assert [(part.id, part.sizes) for part in asked.assemblies] == [(part.id, part.sizes) for part in plan.assemblies]
    assert not verify(with_pressing(asked))
    monkeypatch.setattr(build, "choose_ways", lambda quilt, rule, spinning: dataclasses.replace(unsure, is_sure=True))
    asked, _ = compile_text(text)
    assert asked is not None
    assert pressed_alike(asked, "nest") == {"four"}
    assert any("is pressed as `four` is" in fault for fault in verify(with_pressing(asked)))
