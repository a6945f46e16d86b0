"""The README and the changes page are true: commands, links, pictures, versions."""

from __future__ import annotations

import re
from importlib import util
from pathlib import Path
from types import ModuleType

import pytest
from click.testing import CliRunner

from docs.guide import GUIDE, ROOT
from patchwright.cli import program

README = ROOT / "README.md"
PAGES = (README, ROOT / "DEVELOPERS.md", ROOT / "CHANGES.md", GUIDE)
LARGEST_PICTURE = 200_000
UNSAID = re.compile(
    r"\bissues?\b|\bsessions?\b|\bagents?\b|(?<![\w.-])/(?:work|root|tmp|home)/|\bpypi\b|simple index", re.IGNORECASE
)


def _text(page: Path) -> str:
    return page.read_text(encoding="utf-8")


def _make() -> ModuleType:
    """`make.py`, which lies beside the package and not in it."""
    spec = util.spec_from_file_location("make_of_the_docs", ROOT / "make.py")
    assert spec is not None
    assert spec.loader is not None
    module = util.module_from_spec(spec)
    import sys

    sys.modules[spec.name] = module
    spec.loader.exec_module(module)
    return module


def test_every_command_is_in_the_table_and_no_other() -> None:
    table = _text(README).partition("## Commands")[2].partition("\n## ")[0]
    assert set(re.findall(r"^\| `patchwright ([a-z]+)", table, re.MULTILINE)) == set(program.commands)


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.name)
def test_commands_and_options_that_are_named_exist(page: Path) -> None:
    text = _text(page)
    named = set(re.findall(r"(?:`|^ *)patchwright ([a-z]+)", text, re.MULTILINE))
    assert named <= set(program.commands)
    known = {option for command in program.commands.values() for one in command.params for option in one.opts}
    assert set(re.findall(r"(?<![\w-])--[a-z][a-z-]*", text)) <= known | {"--help", "--upgrade", "--prefix"}
    assert set(re.findall(r"make\.py ([a-z]+)", text)) <= set(_make().COMMANDS)


def test_the_first_pattern_goes_as_the_readme_says(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """All commands of the ten minutes but the build, which other tests run."""
    monkeypatch.chdir(tmp_path)
    section = _text(README).partition("## A first pattern in ten minutes")[2].partition("\n## ")[0]
    lines = re.findall(r"^ +patchwright (.*)$", section, re.MULTILINE)
    assert [line.split()[0] for line in lines] == ["new", "check", "plan", "explain", "build"]
    for line in lines[:-1]:
        result = CliRunner().invoke(program, line.split())
        assert result.exit_code == 0, f"patchwright {line}: {result.output}"


def test_versions_are_those_that_the_set_up_checks() -> None:
    make = _make()
    oldest, newest = (".".join(map(str, version)) for version in (make.OLDEST_PYTHON, make.NEWEST_PYTHON))
    text = _text(README)
    assert text.count(f"Python {oldest} to {newest}") == 2
    assert "pip {}.{} or newer".format(*make.OLDEST_PIP) in text
    for native in (make.CAIRO, make.CHROMIUM):
        for package in native.debian_packages:
            assert f"`{package}`" in text


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.name)
def test_links_lead_somewhere(page: Path) -> None:
    for target in re.findall(r"\]\(([^)]+)\)", _text(page)):
        path, _, anchor = target.partition("#")
        assert "://" not in target, target
        linked = (page.parent / path) if path else page
        assert linked.exists(), target
        assert not anchor or anchor in _anchors(linked), target


def _anchors(page: Path) -> set[str]:
    """The anchors of a page's headings."""
    titles = re.findall(r"^#+ (.*)$", _text(page), re.MULTILINE)
    return {re.sub(r"[^\w\- ]", "", title.lower()).replace(" ", "-") for title in titles}


def test_pictures_are_small() -> None:
    pictures = [ROOT / name for name in re.findall(r"!\[[^]]+\]\(([^)]+)\)", _text(README))]
    assert pictures
    for picture in pictures:
        assert picture.read_bytes().startswith(b"\x89PNG")
        assert picture.stat().st_size < LARGEST_PICTURE


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.name)
def test_pages_speak_of_the_project_alone(page: Path) -> None:
    assert UNSAID.findall(_text(page)) == []


def test_the_newest_changes_are_those_of_this_version() -> None:
    import tomllib

    version = tomllib.loads(_text(ROOT / "pyproject.toml"))["project"]["version"]
    newest = re.findall(r"^## ([0-9.]+)$", _text(ROOT / "CHANGES.md"), re.MULTILINE)[0]
    assert version in (newest, f"{newest}.0")
