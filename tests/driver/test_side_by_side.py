"""Several patterns at once, and patterns that are watched."""

from __future__ import annotations

import time
from pathlib import Path
from typing import Any

import pytest

from driver.running import FAULTY, SMALL, contents
from patchwright import driver
from patchwright.driver import BuildRequest, Built
from patchwright.files import FileTroubleError, Project, find_patterns
from patchwright.tasks import building
from patchwright.tasks.building import SharedOutputError, build_all
from patchwright.tasks.watching import watch

NAMES = ("anchor", "buoy", "cable", "torn")


@pytest.fixture
def sails(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Three patterns that differ, and a faulty one."""
    monkeypatch.chdir(tmp_path)
    for number, name in enumerate(NAMES):
        text = FAULTY if name == "torn" else SMALL.replace("release: 1", f"release: {number + 1}")
        Path(f"{name}.yaml").write_text(text, encoding="utf-8")
    return tmp_path


def request(out: str, **asked: Any) -> BuildRequest:
    return BuildRequest(editions=("all-sizes",), papers=("a4",), out=Path(out), **asked)


def silent(name: str, step: str) -> None:
    """Nobody watches."""


def test_side_by_side_gives_the_same_bytes_in_the_same_order(sails: Path) -> None:
    projects = find_patterns((sails,))
    alone = build_all(projects, request("alone", jobs=1), silent)
    together = build_all(projects, request("together", jobs=3), silent)
    assert contents(Path("alone")) == contents(Path("together"))
    assert len(contents(Path("alone"))) == 10
    for one, other in zip(alone, together, strict=True):
        assert isinstance(one, Built)
        assert isinstance(other, Built)
        assert (one.files, one.pages, one.compiled) == (other.files, other.pages, other.compiled)
    assert [one.compiled.failed for one in together if isinstance(one, Built)] == [False, False, False, True]


@pytest.mark.parametrize("jobs", [1, 2])
def test_every_pattern_is_told_once_as_done(sails: Path, jobs: int) -> None:
    told: list[tuple[str, str]] = []
    build_all(find_patterns((sails,)), request("out", jobs=jobs), lambda name, step: told.append((name, step)))
    assert sorted(name for name, step in told if not step) == sorted(NAMES)
    assert {step for name, step in told if name == "torn"} == {"plan", ""}
    assert {"plan", "draw", "buoy-a4.pdf"} <= {step for name, step in told if name == "buoy"}


def test_what_is_in_the_way_of_one_is_in_the_way_of_no_other(sails: Path) -> None:
    Path("out").mkdir()
    (Path("out") / "buoy").write_text("mine")
    results = build_all(find_patterns((sails,)), request("out", jobs=2), silent)
    assert [isinstance(one, FileTroubleError) for one in results] == [False, True, False, False]
    assert set(contents(Path("out"))) == {
        "anchor/anchor-a4.pdf", "anchor/anchor.card.json", "anchor/anchor.html", "buoy", "cable/cable-a4.pdf",
        "cable/cable.card.json", "cable/cable.html", "index.html",
    }


def test_only_what_has_changed_is_built_again(sails: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    projects = find_patterns((Path("anchor.yaml"), Path("buoy.yaml")))
    build_all(projects, request("out", remember=True), silent)
    started: list[str] = []

    def counted(project: Project, *rest: Any) -> Built:
        started.append(project.id)
        return driver.build_project(project, *rest)

    monkeypatch.setattr(building, "build_project", counted)
    Path("buoy.yaml").write_text(SMALL.replace("a9482f", "a9482e"), encoding="utf-8")
    build_all(projects, request("out", remember=True, jobs=2), silent)
    assert started == ["buoy"]


def test_patterns_of_one_name_are_refused_before_anything_is_built(sails: Path) -> None:
    Path("Anchor.yml").write_text(SMALL, encoding="utf-8")
    with pytest.raises(SharedOutputError):
        build_all(find_patterns((sails,)), request("out"), silent)
    assert not Path("out").exists()


def test_a_fault_of_the_program_is_raised_after_the_others_are_built(
    sails: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def faulty(project: Project, *rest: Any) -> Built:
        if project.id == "buoy":
            raise ZeroDivisionError
        return driver.build_project(project, *rest)

    monkeypatch.setattr(building, "build_project", faulty)
    with pytest.raises(ZeroDivisionError):
        build_all(find_patterns((sails,)), request("out", jobs=1), silent)


# -- watching ---------------------------------------------------------------------------------------------------------


class StopError(Exception):
    """Ends the watching at the end of a script."""


def watched(monkeypatch: pytest.MonkeyPatch, *steps: Any) -> list[str]:
    """Watch the current folder; after each round without news, take the next step. Give what was told."""
    said: list[str] = []
    script = iter(steps)

    def next_step(seconds: float) -> None:
        step = next(script, None)
        if step is None:
            raise StopError
        said.append("--")
        step()

    def done(shown: str, built: Built | FileTroubleError) -> None:
        state = "trouble" if isinstance(built, FileTroubleError) else "failed" if built.compiled.failed else "built"
        said.append(f"{shown} {state}")

    monkeypatch.setattr(time, "sleep", next_step)
    with pytest.raises(StopError):
        watch((Path("."),), request("out", remember=True), done)
    return said


@pytest.fixture
def buoy(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    Path("buoy.yaml").write_text(SMALL, encoding="utf-8")
    return Path("buoy.yaml")


def rewrite(path: Path, text: str) -> Any:
    """A step that writes a file, its time certainly another."""
    import os

    def step() -> None:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
        os.utime(path, ns=(1, hash(text) % 10**15))

    return step


def test_watching_builds_what_changes(buoy: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    other = SMALL.replace("down: 2", "down: 3")
    said = watched(
        monkeypatch, lambda: None, rewrite(buoy, other), rewrite(Path("anchor.yaml"), SMALL),
        rewrite(Path("house.yaml"), "name: Quay\n"),
    )
    assert said == [
        "buoy.yaml built", "--", "--", "buoy.yaml built", "--", "anchor.yaml built", "--", "anchor.yaml built",
        "buoy.yaml built",
    ]


def test_mistakes_do_not_end_the_watching_nor_the_earlier_output(buoy: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    kept: list[dict[str, bytes]] = []
    said = watched(
        monkeypatch, lambda: kept.append(contents(Path("out"))), rewrite(buoy, FAULTY),
        lambda: kept.append(contents(Path("out"))), rewrite(buoy, SMALL), buoy.unlink, lambda: None,
        rewrite(buoy, SMALL + "\n"),
    )
    assert said == [
        "buoy.yaml built", "--", "--", "buoy.yaml failed", "--", "--", "buoy.yaml built", "--", ". trouble", "--",
        "--", "buoy.yaml built",
    ]
    assert kept[0] == kept[1]


def test_files_in_the_way_do_not_end_the_watching(buoy: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    Path("out").mkdir()
    way = Path("out") / "buoy"
    way.write_text("mine")
    said = watched(monkeypatch, way.unlink, rewrite(buoy, SMALL + "\n"))
    assert said == ["buoy.yaml trouble", "--", "--", "buoy.yaml built"]


def test_a_theme_of_one_s_own_is_watched(buoy: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    own = Path("themes") / "harbor" / "style.css"
    assert watched(monkeypatch, rewrite(own, "/* ours */")) == ["buoy.yaml built", "--", "buoy.yaml built"]
