"""The patterns that show the units: the gallery has every way of making, the sampler twelve methods on point."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest
from click.testing import CliRunner

from patchwright.cli import program
from patchwright.core.source import Source
from patchwright.design.resolve import make_design
from patchwright.dialect.parse import read_house, read_pattern
from patchwright.methods.registry import METHODS
from patchwright.planning.build import make_plan
from patchwright.planning.plan import Plan

PATTERNS = Path(__file__).parent.parent.parent / "patterns"
SHOWN = (
    "gallery/chandlery.yaml", "gallery/pilings.yaml", "gallery/lamp-room.yaml",
    "gallery/watch-cap.yaml", "gallery/night-watch.yaml",
    "twelve-berths.yaml", "mooring-chain.yaml",
)


@cache
def plan_of(name: str) -> Plan:
    path = PATTERNS / name
    house, _ = read_house(Source("house.yaml", (PATTERNS / "house.yaml").read_text("utf-8")))
    declared, found = read_pattern(Source(path.name, path.read_text("utf-8")))
    assert declared is not None, found
    design, found = make_design(declared, house, path.stem)
    assert design is not None, found
    plan, found = make_plan(design, "plain")
    assert plan is not None, found
    return plan


@pytest.mark.parametrize("name", SHOWN)
def test_nothing_is_left_to_say(name: str) -> None:
    result = CliRunner().invoke(program, ["check", "--strict", str(PATTERNS / name)])
    assert result.exit_code == 0, result.output


def test_the_gallery_shows_every_way_of_making() -> None:
    units = plan_of("gallery/chandlery.yaml").units
    shown = {(unit.method, unit.how) for unit in units}
    makes = {
        (method.name, choice) for method in METHODS for key in method.keys if key.name == "make"
        for choice in key.choices
    }
    strips = {(method.name, "strips") for method in METHODS if method.strip_sets is not None}
    assert {method.name for method in METHODS} == {method for method, _ in shown}
    assert (makes | strips) - shown == set()
    assert {len(unit.fabrics) for unit in units if unit.method == "quarter-square"} == {2, 3, 4}
    assert {unit.hand for unit in units if unit.method == "half-rectangle"} == {"as-drawn", "reversed"}
    assert any(unit.row_of[0] for unit in units)


def test_the_sampler_has_twelve_methods_on_point() -> None:
    plan = plan_of("twelve-berths.yaml")
    assert len({unit.method for unit in plan.units}) >= 12
    assert {size.setting for size in plan.sizes} == {"on-point"}
    assert len({assembly.block for assembly in plan.assemblies if not assembly.nested}) == 12


def test_the_chain_is_sewn_from_strips_in_five_sizes() -> None:
    plan = plan_of("mooring-chain.yaml")
    assert len(plan.sizes) == 5
    assert len(plan.fabrics) == 2
    assert {(unit.method, unit.how) for unit in plan.units} == {("strip-set", "strips")}


def test_the_chain_proposes_sizes_that_keep_it_symmetric(tmp_path: Path) -> None:
    text = (PATTERNS / "mooring-chain.yaml").read_text("utf-8")
    (tmp_path / "chain.yaml").write_text(text.replace("{across: 5, down: 7}", "{across: 4, down: 6}"), "utf-8")
    result = CliRunner().invoke(program, ["check", str(tmp_path / "chain.yaml")])
    assert "not-symmetric" in result.output
    assert "3 by 5, 3 by 7, 5 by 5 or 5 by 7" in result.output
