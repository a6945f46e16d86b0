"""Colorways: other cloths laid over a pattern's own, shown in every booklet, and built on their own."""

from __future__ import annotations

from pathlib import Path

import pytest

from driver.running import SMALL, exit_code
from patchwright.core.source import Source
from patchwright.design.design import Design
from patchwright.design.resolve import make_design
from patchwright.dialect.parse import read_pattern
from patchwright.driver import Compiled, check, compile_colorways, compile_project
from patchwright.files import find_patterns
from patchwright.planning import cutting
from patchwright.planning.build import make_plan
from patchwright.planning.dump import plan_json
from patchwright.planning.verify import verify

COLORED = SMALL + """\
colorways:
  winter: {name: Winter harbor, fabrics: {rope: {name: Ice, color: 9fb8c4}}}
  regatta: {fabrics: {rope: {color: b5523b}, deck: {name: Flags, color: d9a441, fussy: 4 in x 5 in}}}
"""


def design_of(text: str, colorway: str = "") -> Design:
    declared, found = read_pattern(Source("sail.yaml", text))
    assert declared is not None
    assert not found
    design, _ = make_design(declared, None, "sail", colorway)
    assert design is not None
    return design


def numbers(colorway: str) -> dict[str, object]:
    """The plan's numbers of one colorway, without names."""
    plan, _ = make_plan(design_of(COLORED, colorway), "plain")
    assert plan is not None
    assert verify(plan) == ()
    (size,) = plan_json(plan)["sizes"]
    for fabric in size["fabrics"]:
        del fabric["name"]
    return size  # type: ignore[no-any-return]


def test_a_colorway_changes_what_it_names_and_nothing_else() -> None:
    own, winter = design_of(COLORED), design_of(COLORED, "winter")
    assert (winter.fabrics[0].name, winter.fabrics[0].colors) == ("Ice", ("#9fb8c4",))
    assert winter.fabrics[1] == own.fabrics[1]
    assert winter.id == "sail-winter"
    assert winter.colorways == own.colorways


def test_all_colorways_stand_in_every_one() -> None:
    ways = design_of(COLORED).colorways
    assert [(way.id, way.label) for way in ways] == [("", ""), ("winter", "Winter harbor"), ("regatta", "Regatta")]
    assert [fabric.name for fabric in ways[2].fabrics] == ["Rope", "Flags"]
    assert design_of(SMALL).colorways == ()


def test_numbers_differ_only_where_a_print_does() -> None:
    assert numbers("winter") == numbers("")
    assert numbers("regatta")["fabrics"] != numbers("")["fabrics"]
    assert numbers("regatta")["blocks"] == numbers("")["blocks"]


def test_new_colors_take_the_place_of_old_ones() -> None:
    text = COLORED.replace("rope: {color: a9482f}", "rope: {colors: [a9482f, 22344c], value: dark}")
    assert design_of(text, "winter").fabrics[0].colors == ("#9fb8c4",)
    assert design_of(text, "winter").fabrics[0].value == "light"


@pytest.mark.parametrize(
    ("wrong", "code"),
    [("{sail: {color: 9fb8c4}}", "unknown-fabric"), ("{rope: {color: 9fb8c4, colors: [22344c]}}", "color-count"),
     ("{rope: {fussy: 90 in x 4 in}}", "size-out-of-range")],
)
def test_mistakes_in_a_colorway_are_found_before_it_is_built(wrong: str, code: str) -> None:
    declared, _ = read_pattern(Source("sail.yaml", f"{SMALL}colorways: {{winter: {{fabrics: {wrong}}}}}\n"))
    assert declared is not None
    _, found = make_design(declared, None, "sail")
    assert code in [item.code for item in found]


@pytest.fixture
def sail(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    Path("sail.yaml").write_text(COLORED, encoding="utf-8")
    return Path("sail.yaml")


def test_a_colorway_is_built_into_a_folder_of_its_own(sail: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for colorway in ("winter", "winter"):
        assert exit_code("build", sail, "--colorway", colorway, "--edition", "all-sizes", "--paper", "letter") == 0
    page = Path("build/sail-winter/sail-winter.html").read_text(encoding="utf-8")
    assert "Winter harbor" in page
    assert "Regatta" in page
    assert not Path("build/sail").exists()


def test_a_colorway_that_there_is_not_is_refused(sail: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert exit_code("build", sail, "--colorway", "summer") == 2
    assert "`winter`, `regatta`" in capsys.readouterr().err


FAULTY_IN_ONE = COLORED.replace("arrange: [[coil]]", "arrange: [[coil]]\n  binding: {fabric: rope}") + (
    "  moons: {fabrics: {rope: {fussy: 4 in x 5 in}}}\n"
)
"""In one colorway the cloth of the binding, whose strips are joined, is cut around its motifs."""


def _checked(text: str, folder: Path) -> Compiled:
    (folder / "sail.yaml").write_text(text, encoding="utf-8")
    (checked,) = check((folder / "sail.yaml",))
    return checked


def test_check_and_build_look_into_every_colorway(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """What is wrong in one alone is told with its name, and once; a pattern without such a colorway is good."""
    assert not _checked(COLORED, tmp_path).failed
    faulty = _checked(FAULTY_IN_ONE, tmp_path)
    assert faulty.failed
    assert faulty.plan is None
    assert [item.message.partition(":")[0] for item in faulty.diagnostics] == ["in the colorway `moons`"]
    out = tmp_path / "out"
    assert exit_code("build", tmp_path / "sail.yaml", "--out", out) == 1
    assert "in the colorway `moons`" in capsys.readouterr().err
    assert not (out / "sail").exists()


@pytest.mark.parametrize("rule", ["nest", "dark"])
def test_all_colorways_are_planned_as_they_are_alone(sail: Path, rule: str) -> None:
    """What colorways have alike is worked out once; each plan is still that of the colorway by itself.

    One changes a name and a color that stays as dark as it was, one trades light for dark, one has a print to match.
    """
    ways = "  rust: {fabrics: {rope: {name: Rust, color: a8472e}}}\n  dusk: {fabrics: {deck: {color: 22344c}}}\n"
    sail.write_text(f"{COLORED}{ways}house: {{pressing: {rule}}}\n", encoding="utf-8")
    (project,) = find_patterns((sail,))
    own, others = compile_colorways(project)
    assert own.plan is not None
    assert [plan.colorway for plan in others] == ["winter", "regatta", "rust", "dusk"]
    pressed = {own.plan.pressing}
    for plan in others:
        alone = compile_project(project, colorway=plan.colorway)
        assert alone.plan == plan
        assert alone.plan.colorways == own.plan.colorways
        pressed.add(plan.pressing)
    assert len(pressed) > 1 or rule != "dark", "light and dark play a part"


def test_commands_take_a_colorway(sail: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for words in (("plan", sail), ("explain", sail, "deck")):
        outputs = []
        for colorway in ("", "regatta"):
            assert exit_code(*words, *(("--colorway", colorway) if colorway else ())) == 0
            outputs.append(capsys.readouterr().out)
        assert outputs[0] != outputs[1], words
        assert exit_code(*words, "--colorway", "summer") == 2
        assert "it has `winter`, `regatta`" in capsys.readouterr().err
    assert exit_code(
        "proof", sail, "--colorway", "winter", "--edition", "coloring", "--paper", "a4", "--out", tmp_path / "proofs"
    ) == 0
    assert list((tmp_path / "proofs").glob("*/sail-winter/sail-winter-coloring-a4-sheet.png"))


def test_kept_layouts_serve_every_colorway(
    sail: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    (project,) = find_patterns((sail,))
    texts = []
    for colorway in ((), ("--colorway", "regatta")):
        assert exit_code("plan", sail, "--keep-layouts", *colorway) == 0
        texts.append(project.layouts.read_text("utf-8"))
    assert texts[0] == texts[1]
    own = compile_project(project)
    regatta = compile_project(project, colorway="regatta")
    assert {*own.kept.used, *regatta.kept.used} <= set(own.kept.plans)

    def solved(problem: object) -> None:
        raise AssertionError("a layout that is kept is laid out anew")

    monkeypatch.setattr(cutting, "best", solved)
    whole, others = compile_colorways(project)
    assert (whole.plan, others[1]) == (own.plan, regatta.plan)
