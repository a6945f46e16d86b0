"""Every piecing method and way of making: its stages are drawn, fit, and show only its own fabrics and pieces."""

from __future__ import annotations

from functools import cache

import pytest

from diagrams.drawings import ROOM, areas, box_of, figures_of, labels
from diagrams.sample import plan_of
from patchwright.core.measure import plain_number
from patchwright.diagrams.scene import Area
from patchwright.methods.method import Method
from patchwright.methods.registry import METHODS
from patchwright.planning.plan import Plan

WAYS = [
    (method, choice)
    for method in METHODS
    if method.name != "patch"
    for choice in next((key.choices for key in method.keys if key.name == "make"), ("",))
]
FABRICS = ("one", "two", "three", "four", "five", "six", "seven", "eight")
IDS = [f"{method.name}-{choice}" for method, choice in WAYS]


@cache
def _plan(method: Method, choice: str) -> Plan:
    """A quilt of one block of one unit."""
    roles = [role.name for role in method.roles if role.required] or [method.roles[0].name]
    if method.name == "flipped-corners":
        roles.append("ne")
    fabrics = [FABRICS[place % len(FABRICS)] for place in range(len(roles))]
    pairs = ", ".join(f"{role}: {fabric}" for role, fabric in zip(roles, fabrics, strict=True))
    written = f"[{', '.join(fabrics)}]" if method.listed else f"{{{pairs}}}"
    make = f", make: {choice}" if choice else ""
    width, height = (plain_number(side * 3) for side in method.default_size)
    used = "\n".join(f"  {name}: {{name: Cloth {name}, color: \"#c9b79f\"}}" for name in dict.fromkeys(fabrics))
    return plan_of(
        f"""
dialect: 1
pattern: One
release: 1
lengths: inches
fabrics:
{used}
units:
  thing: {{{method.name}: {written}{make}, size: {width} in x {height} in}}
blocks:
  only:
    cell: 3 in
    rows:
      - [thing]
quilt:
  arrange: [[only]]
sizes:
  small: {{across: 2, down: 3}}
"""
    )


@pytest.mark.parametrize(("method", "choice"), WAYS, ids=IDS)
def test_stages_are_drawn_and_fit(method: Method, choice: str) -> None:
    plan = _plan(method, choice)
    scenes = figures_of(plan).of("steps")
    assert scenes
    for scene in scenes:
        assert scene.width <= ROOM.width + 1e-6
        assert scene.height <= ROOM.height + 1e-6
        for item in scene.items:
            left, top, right, bottom = box_of(item)
            assert min(left, top) >= -1e-6, (scene.id, item)
            assert right <= scene.width + 1e-6, (scene.id, item)
            assert bottom <= scene.height + 1e-6, (scene.id, item)


@pytest.mark.parametrize(("method", "choice"), WAYS, ids=IDS)
def test_letters_are_of_the_unit(method: Method, choice: str) -> None:
    plan = _plan(method, choice)
    known = {piece.piece for unit in plan.units for piece in unit.pieces} | {f.letter for f in plan.fabrics}
    for scene in figures_of(plan).of("steps"):
        assert {label.text for label in labels(scene) if label.over == "cloth"} <= known, scene.id
        assert all(isinstance(area, Area) and area.tone == "fabric" for area in areas(scene))
