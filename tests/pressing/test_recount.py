"""The planner's count against a count on the finished top, and what must hold for every quilt."""

from __future__ import annotations

import dataclasses
import os
import subprocess
import sys
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from patchwright.core.length import ROOT_TWO, Cut, Finished, Length, Unfinished
from patchwright.diagrams.pressing import plain_pressing
from patchwright.planning.plan import Plan
from patchwright.planning.pressing.drawing import drawn_pressing
from patchwright.planning.pressing.press import plan_pressing
from patchwright.planning.pressing.recount import recount, recount_points
from patchwright.planning.pressing.results import PressingPlan
from patchwright.planning.pressing.terms import Rule
from planning.compiling import PATTERNS, plan_of
from pressing.generated import generated
from pressing.quilts import NINE_PATCH, SASHED, quilt, turned_four_patches

ROOT = Path(__file__).resolve().parents[2]
DEMOS = sorted([*(ROOT / "patterns").glob("*.yaml"), *PATTERNS.glob("*.yaml")])
SEEDS = range(200, 215)


def demo(path: Path) -> Plan:
    house = path.parent / "house.yaml"
    return plan_of(path.read_text(encoding="utf-8"), house.read_text(encoding="utf-8") if house.exists() else "")


def assert_counted(plan: Plan, pressing: PressingPlan) -> None:
    assert recount(plan, pressing) == tuple((size.nested, size.total) for size in pressing.sizes)
    for index in range(len(plan.sizes)):
        assert recount_points(plan, pressing, index)[2] == sum(point.counts[index] for point in pressing.heavy)
    assert pressing.nested <= pressing.bound <= pressing.total
    assert pressing.nested == sum((Fraction(s.nested, s.total) for s in pressing.sizes if s.total), Fraction(0))


@pytest.mark.parametrize("path", [path for path in DEMOS if path.name != "house.yaml"], ids=lambda path: path.stem)
@pytest.mark.parametrize("rule", ["nest", "dark", "open"])
def test_demo_patterns_count_the_same_on_the_top(path: Path, rule: Rule) -> None:
    plan = demo(path)
    pressing = plan_pressing(plan, rule)
    assert pressing.proof != "gap"
    assert_counted(plan, pressing)


@pytest.mark.parametrize("seed", SEEDS)
def test_generated_quilts_count_the_same_on_the_top(seed: int) -> None:
    for two_ways in (False, True):
        plan = plan_of(generated(seed, two_ways))
        pressing = plan_pressing(plan, "nest")
        assert_counted(plan, pressing)
        assert pressing.proof in ("parity", "elimination")
        assert all(p.reason and (p.way == "open") == (p.seam.part == "miter") for p in pressing.seams)
        assert_counted(plan, plan_pressing(plan, "dark"))


@pytest.mark.parametrize("seed", [201, 207, 213])
def test_more_freedom_and_the_rule_of_nesting_never_nest_less(seed: int) -> None:
    plan, freer = plan_of(generated(seed)), plan_of(generated(seed, two_ways=True))
    alone = plan_pressing(plan, "nest").nested
    assert plan_pressing(freer, "nest").nested >= alone
    assert plan_pressing(plan, "dark").nested <= alone


def times_root_two(thing: Any) -> Any:
    """A plan with every length multiplied by the root of two."""
    if isinstance(thing, Length):
        return thing * ROOT_TWO
    if isinstance(thing, Finished | Unfinished | Cut):
        return type(thing)(thing.length * ROOT_TWO)
    if isinstance(thing, tuple):
        return tuple(times_root_two(part) for part in thing)
    if dataclasses.is_dataclass(thing) and not isinstance(thing, type):
        fields = {field.name: times_root_two(getattr(thing, field.name)) for field in dataclasses.fields(thing)}
        return type(thing)(**fields)
    return thing


@pytest.mark.parametrize("seed", [202, 217])
def test_roots_in_lengths_change_nothing(seed: int) -> None:
    plan = plan_of(generated(seed))
    askew = dataclasses.replace(
        plan, units=times_root_two(plan.units), assemblies=times_root_two(plan.assemblies),
        sizes=times_root_two(plan.sizes),
    )
    assert plan_pressing(askew, "nest") == plan_pressing(plan, "nest")
    assert_counted(askew, plan_pressing(askew, "nest"))


def test_a_wrong_direction_is_found_by_counting_again() -> None:
    plan = quilt(SASHED)
    pressing = plan_pressing(plan, "nest")
    wrong = [
        dataclasses.replace(seam, halves=(-seam.halves[0], -seam.halves[1]))
        if seam.seam.owner.id == "strip-framed" else seam for seam in pressing.seams
    ]
    turned = dataclasses.replace(pressing, seams=tuple(wrong))
    assert all(found[0] < size.nested for found, size in zip(recount(plan, turned), pressing.sizes, strict=True))


def test_drawings_get_a_way_for_every_seam() -> None:
    for plan in (quilt(SASHED), quilt(NINE_PATCH), turned_four_patches("[[four, four@90]]")):
        drawn = drawn_pressing(plan, plan_pressing(plan, "nest"))
        for assembly in plan.assemblies:
            shape = plain_pressing([len(line) for line in assembly.lines], "nest")
            ways = drawn[assembly.id]
            assert [len(line) for line in ways.within] == [len(line) for line in shape.within]
            assert len(ways.between) == len(shape.between)
        for size in plan.sizes:
            assert len(drawn[f"top-{size.name}"].between) == len(drawn[f"top-{size.name}"].within) - 1
    assert drawn["four"].between[0].startswith("spun")


def test_the_order_of_hashing_changes_nothing() -> None:
    code = (
        "from planning.compiling import plan_of\nfrom pressing.generated import generated\n"
        "from patchwright.planning.pressing.press import plan_pressing\n"
        "for seed in (3, 217):\n    plan = plan_of(generated(seed, two_ways=seed > 9))\n"
        "    print(plan_pressing(plan, 'nest'), [[item.ref for item in size.items] for size in plan.sizes])\n"
    )
    path = os.pathsep.join([str(ROOT), str(ROOT / "compiler"), str(ROOT / "tests")])
    outputs = {
        subprocess.run(
            [sys.executable, "-c", code], env={**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": path},
            capture_output=True, text=True, check=True,
        ).stdout
        for seed in ("0", "1", "77")
    }
    assert len(outputs) == 1
