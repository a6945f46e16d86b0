"""Every seam of a unit is pressed in one step of its making: drawn there with its arrow, and told there if it is free.

Every method in every way of making it stands for the gallery of all methods.
"""

from __future__ import annotations

from functools import cache
from math import hypot

import pytest

from content.compiled import EvenLabels, compiled
from content.test_every_method import pattern_of, ways
from patchwright.core.geometry import Polygon
from patchwright.core.source import Source
from patchwright.diagrams.figures import booklet_figures
from patchwright.diagrams.scene import Line
from patchwright.methods.method import Method, Stage
from patchwright.methods.registry import BY_NAME, METHODS
from patchwright.planning.plan import Plan, PlannedUnit
from patchwright.planning.pressing.in_stages import pressed_in
from patchwright.planning.pressing.press import with_pressing
from patchwright.planning.pressing.results import PressedSeam
from patchwright.typesetting.content.editions import EDITIONS
from patchwright.typesetting.content.plain import inline_text
from patchwright.typesetting.content.pressing import stage_press_words
from patchwright.typesetting.content.scope import Scope
from patchwright.typesetting.content.unit_steps import stage_words
from patchwright.wording import load_wording

EVERY = [
    pytest.param(method, way, id="-".join([method.name, *way.values()]))
    for method in METHODS
    for way in ways(method)
]


@cache
def _plan(name: str, way: tuple[tuple[str, str], ...], rule: str) -> Plan:
    text = pattern_of(BY_NAME[name], dict(way)) + (f"house: {{pressing: {rule}}}\n" if rule else "")
    return with_pressing(compiled(Source("trial.yaml", text), None, "trial"))


def planned(method: Method, way: dict[str, str], rule: str = "") -> Plan:
    return _plan(method.name, tuple(way.items()), rule)


def stages_of(unit: PlannedUnit) -> tuple[Stage, ...]:
    size = unit.sizes[0]
    return BY_NAME[unit.method].stages(size.request, size.recipe) if size is not None else ()


def seams_of(plan: Plan, unit: PlannedUnit) -> tuple[PressedSeam, ...]:
    return plan.pressing.seams_of("unit", unit.id) if plan.pressing is not None else ()


@pytest.mark.parametrize(("method", "way"), EVERY)
def test_every_seam_is_pressed_in_one_stage_after_those_within_it(method: Method, way: dict[str, str]) -> None:
    plan = planned(method, way)
    for unit in plan.units:
        seams = seams_of(plan, unit)
        pressed = pressed_in(seams, stages_of(unit))
        found = [(own.sides.order, number) for number, stage in enumerate(pressed) for own in stage]
        stages = dict(found)
        assert len(set(found)) == len(stages)
        for seam in seams:  # Of parts that are made alike one may stand for all.
            drawn = [stages[sides.order] for sides in seam.drawn if sides.order in stages]
            assert drawn, seam
            for sides in seam.drawn:
                stages.setdefault(sides.order, min(drawn))
        places = [sides for seam in seams for sides in seam.drawn]
        for inner in places:
            for outer in places:
                if {*inner.first, *inner.second} < {*outer.first, *outer.second}:
                    assert stages[inner.order] <= stages[outer.order]


@pytest.mark.parametrize(("method", "way"), EVERY)
@pytest.mark.parametrize("rule", ["nest", "open"])
def test_the_words_of_a_step_say_how_its_free_seams_are_pressed(method: Method, way: dict[str, str], rule: str) -> None:
    plan = planned(method, way, rule)
    for language in ("en", "de"):
        scope = Scope(plan, {}, load_wording(language), EDITIONS["one-size"], (0,))
        for unit in plan.units:
            size = unit.sizes[0]
            assert size is not None
            for stage, found in zip(stages_of(unit), pressed_in(seams_of(plan, unit), stages_of(unit)), strict=True):
                free = [seam for seam in found if seam.pressed.reason != "fixed"]
                said = stage_press_words(scope, unit, stage)
                assert bool(said) == bool(free)
                assert said in inline_text(stage_words(scope, unit, size, stage)), stage.key
                assert ("open" in said or language == "de") or rule != "open" or not free


@pytest.mark.parametrize(("method", "way"), EVERY)
def test_arrows_point_to_the_side_that_the_plan_says(method: Method, way: dict[str, str]) -> None:
    """An arrow stands over every seam that a drawing presses; a spun one has two, and an open one has two heads."""
    plan = planned(method, way)
    figures = booklet_figures(plan, load_wording(), EvenLabels())
    for unit in plan.units:
        stages = stages_of(unit)
        for number, (stage, found) in enumerate(zip(stages, pressed_in(seams_of(plan, unit), stages), strict=True), 1):
            scene = figures[f"unit-{unit.id}-{number}-{stage.kind}"]
            arrows = [item for item in scene.items if isinstance(item, Line) and item.style == "press"]
            assert len(arrows) == sum(1 + (seam.pressed.way == "spun") for seam in found)
            straight = [seam for seam in found if seam.pressed.way != "spun"]
            if len(straight) == len(found):
                for seam, arrow in zip(straight, arrows, strict=True):
                    assert _is_toward(seam.mark.points, arrow, seam.halves(False)[0], unit.hand == "reversed")


def _is_toward(points: Polygon, arrow: Line, way: int, mirrored: bool) -> bool:
    """Whether an arrow runs to the left hand of a seam, or to the right hand where it lies the other way."""
    start, finish = points[0], points[-1]
    along = float(finish.x - start.x) * (-1 if mirrored else 1), float(finish.y - start.y)
    (x, y), (far_x, far_y) = arrow.points
    cross = along[0] * (far_y - y) - along[1] * (far_x - x)
    whole = hypot(*along) * hypot(far_x - x, far_y - y)
    return abs(abs(cross) - whole) < 1e-6 * whole and (cross < 0) == ((way > 0) != mirrored)


def test_pairs_are_told_before_they_are_sewn_over() -> None:
    """Common practice, no source: seams of an hourglass's halves are pressed before the halves are laid together."""
    plan = planned(BY_NAME["quarter-square"], {"make": "two-at-a-time"}, "open")
    unit = plan.units[0]
    stages = stages_of(unit)
    pressed = pressed_in(seams_of(plan, unit), stages)
    kinds = [stage.key.rpartition(".")[2] for stage, found in zip(stages, pressed, strict=True) if found]
    assert kinds == ["sew-pairs", "press"]  # The trial has four fabrics, so that it is made from cut triangles.
