"""The developers' page is true: its code map names every module, and its dumps are what the stages give."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest

from docs.guide import ROOT
from docs.modules import PACKAGE, modules
from patchwright import driver
from patchwright.core.source import Source
from patchwright.design.resolve import make_design
from patchwright.dialect.parse import read_pattern
from patchwright.files import find_patterns
from patchwright.planning.build import make_plan

PAGE = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
NAME = "gull-street.yaml"
_ENTRY = re.compile(r"^- \*\*(?P<folder>[a-z/ ]+)\*\*:(?P<text>.*?)(?=^- \*\*|^$)", re.MULTILINE | re.DOTALL)


def _map() -> set[str]:
    """Every module that the code map names, dotted."""
    _, _, text = PAGE.partition("\n## Code map\n")
    text = text.partition("\n## ")[0]
    named = set()
    for entry in _ENTRY.finditer(text):
        folder = "" if entry["folder"] == "top level" else entry["folder"].replace("/", ".")
        named |= {f"{folder}{name}" for name in re.findall(r"`([a-z_]+)`", entry["text"])}
    return named


def test_the_code_map_names_every_module_and_no_other() -> None:
    known = {name for name, path in modules().items() if path.name != "__init__.py"}
    assert sorted(known - _map()) == [], "missing in the code map of DEVELOPERS.md"
    assert sorted(_map() - known) == [], "named in the code map of DEVELOPERS.md, but not there"


def test_the_code_map_has_an_entry_for_every_folder() -> None:
    folders = {path.parent.relative_to(PACKAGE).as_posix() for path in modules().values()} - {"."}
    assert {f"{folder}/" for folder in folders} == {entry["folder"] for entry in _ENTRY.finditer(PAGE)} - {"top level"}


def _source() -> Source:
    match = re.search(r"^```yaml\n(.*?)^```$", PAGE, re.MULTILINE | re.DOTALL)
    assert match is not None
    return Source(NAME, match[1])


@cache
def _stages() -> dict[str, str]:
    """What each stage gives for the page's own pattern, as text."""
    declared, found = read_pattern(_source())
    assert declared is not None
    assert not found
    design, found = make_design(declared, None, "gull-street")
    assert design is not None
    assert not found
    plan, found = make_plan(design, "plain")
    assert plan is not None
    assert not found
    return {"declared": repr(declared), "design": repr(design), "plan": f"{plan.units}{plan.pieces}{plan.assemblies}"}


@pytest.mark.parametrize("stage", ["declared", "design", "plan"])
def test_dumps_are_what_the_stages_give(stage: str) -> None:
    for line in _dump(stage):
        assert _holds(_stages()[stage], line), line


def test_scene_and_booklet_are_what_the_stages_give(tmp_path: Path) -> None:
    from patchwright.typesetting.content.plain import to_text

    path = tmp_path / NAME
    path.write_text(_source().text, encoding="utf-8")
    project = find_patterns((path,))[0]
    plan = driver.compile_project(project, "plain").plan
    assert plan is not None
    theme, mistakes = driver.load_project_theme(project, plan.rules.theme)
    assert theme is not None, mistakes
    figures = driver.draw(plan, theme)
    (scene,) = _dump("scene")
    assert _holds(repr(figures["block-street"]), scene)
    booklet = next(iter(driver.compose(plan, theme, driver.BuildRequest())))[1]
    assert _holds(to_text(booklet), "".join(_dump("booklet")))


def _dump(stage: str) -> list[str]:
    match = re.search(rf"^```text dump {stage}\n(.*?)^```$", PAGE, re.MULTILINE | re.DOTALL)
    assert match is not None
    return match[1].splitlines()


def _holds(text: str, shortened: str) -> bool:
    """Whether a text has all parts of a shortened one in their order, however its lines are broken."""
    wanted = [re.escape("".join(part.split())) for part in shortened.split("…")]
    return re.search(".*?".join(wanted), "".join(text.split())) is not None


def test_files_that_the_page_names_are_there() -> None:
    """A name with a slash or an ending is a path, from the repository or from the package."""
    for name in re.findall(r"`([a-z0-9_./-]+)`", PAGE):
        is_path = "/" in name or name.endswith((".py", ".yaml", ".lock", ".toml"))
        if is_path and name not in ("build/", "-en.yaml"):
            places = (ROOT / name, ROOT / "compiler/patchwright" / name, ROOT / "themes/harbor" / name,
                      ROOT / "themes/shared" / name)
            in_folders = [path for folder in ("typesetting", "wording", "patterns")
                          for path in (ROOT / "compiler/patchwright" / folder, ROOT / folder) if (path / name).exists()]
            assert in_folders or any(place.exists() for place in places), name


def test_dependencies_are_all_explained() -> None:
    import tomllib

    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    needed = [*project["project"]["dependencies"], *project["build-system"]["requires"]]
    table = PAGE.partition("## Dependencies")[2].partition("\n## ")[0]
    rows = re.findall(r"^\| ([a-z0-9, -]+) \|", table, re.MULTILINE)
    named = {name.strip() for row in rows for name in row.split(",")}
    assert {re.split(r"[<>=]", name)[0] for name in needed} <= named


def test_it_stays_short_enough_to_read() -> None:
    assert PAGE.count("\n") < 250
