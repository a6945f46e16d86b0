"""Builds that end early, that fail, that are done again elsewhere: earlier output is whole, and bytes are the same."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from driver.running import FAULTY, SMALL, command, contents, environment, run

pytestmark = pytest.mark.slow


def project(folder: Path, text: str = SMALL) -> Path:
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "small-sail.yaml").write_text(text, encoding="utf-8")
    return folder


def visible(folder: Path) -> dict[str, bytes]:
    """The finished files, without what a killed run left under hidden names."""
    return {name: content for name, content in contents(folder).items() if not name.startswith(".")}


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, dict[str, bytes]]:
    """A project with its first build, and the files of it."""
    folder = project(tmp_path_factory.mktemp("whole"))
    done = run("build", "small-sail.yaml", folder=folder)
    assert done.returncode == 0, done.stderr
    return folder, contents(folder / "build")


def interrupted(folder: Path, after: float, how: signal.Signals) -> tuple[int, bytes]:
    """Start a build; so long after it began to write, stop it and what it started; give exit code and messages."""
    child = subprocess.Popen(
        command("build", "small-sail.yaml", "--no-cache"), cwd=folder, env=environment(), stdout=subprocess.DEVNULL,
        stderr=subprocess.PIPE, start_new_session=True,
    )
    while child.poll() is None and not list(folder.glob("build/.*.new-*")):
        time.sleep(0.01)
    time.sleep(after)
    if child.poll() is None:
        os.killpg(child.pid, how)
    _, messages = child.communicate(timeout=60)
    return child.returncode, messages


def test_a_build_writes_everything(built: tuple[Path, dict[str, bytes]]) -> None:
    _, files = built
    assert {"small-sail/small-sail.html", "small-sail/plan.json", "small-sail/small-sail-a4.pdf"} <= files.keys()
    assert all(files.values())
    assert not [name for name in files if name.startswith(".")]


def test_killed_builds_leave_the_earlier_output(built: tuple[Path, dict[str, bytes]]) -> None:
    folder, files = built
    for after in (0, 0.2, 0.4, 0.8):
        interrupted(folder, after, signal.SIGKILL)
        assert visible(folder / "build") == files
    done = run("build", "small-sail.yaml", folder=folder)
    assert done.returncode == 0, done.stderr
    assert contents(folder / "build") == files


@pytest.mark.skipif(sys.platform == "win32", reason="signals")
@pytest.mark.parametrize("after", [0, 0.3, 0.6])
def test_an_interrupted_build_leaves_nothing_half_made(
    built: tuple[Path, dict[str, bytes]], tmp_path: Path, after: float
) -> None:
    code, messages = interrupted(project(tmp_path), after, signal.SIGINT)
    assert b"Traceback" not in messages
    made = contents(tmp_path / "build")
    assert made == built[1] or (code and not made)


def test_a_failing_pattern_leaves_its_earlier_output(built: tuple[Path, dict[str, bytes]]) -> None:
    folder, files = built
    project(folder, FAULTY)
    assert run("build", "small-sail.yaml", folder=folder).returncode == 1
    assert contents(folder / "build") == files
    project(folder)


def test_a_faulty_pattern_does_not_keep_others_from_being_built(tmp_path: Path) -> None:
    project(tmp_path)
    (tmp_path / "bad.yaml").write_text(FAULTY, encoding="utf-8")
    done = run("build", ".", "--edition", "all-sizes", "--paper", "a4", folder=tmp_path)
    assert done.returncode == 1
    own = ["small-sail/small-sail-a4.pdf", "small-sail/small-sail.card.json", "small-sail/small-sail.html"]
    assert list(contents(tmp_path / "build")) == ["index.html", *own]


@pytest.mark.parametrize(
    "settings",
    [
        {"TZ": "Pacific/Auckland", "PYTHONHASHSEED": "1"}, {"LC_ALL": "C", "PYTHONHASHSEED": "2"},
        {"LC_ALL": "tr_TR.UTF-8", "TZ": "America/Lima", "COLUMNS": "40"},
    ],
    ids=["time zone", "plain locale", "other locale"],
)
def test_the_same_bytes_everywhere(
    built: tuple[Path, dict[str, bytes]], tmp_path: Path, settings: dict[str, str]
) -> None:
    folder = project(tmp_path / "some where else" / "ä")
    done = run("build", "small-sail.yaml", "--out", "made", folder=folder, settings=settings)
    assert done.returncode == 0, done.stderr
    made, files = contents(folder / "made"), built[1]
    assert made.keys() == files.keys()
    assert [name for name in files if made[name] != files[name]] == []


def test_the_same_bytes_however_many_are_built_at_once(built: tuple[Path, dict[str, bytes]], tmp_path: Path) -> None:
    folder = project(tmp_path)
    (folder / "other.yaml").write_text(SMALL.replace("Small Sail", "Other"), encoding="utf-8")
    assert run("build", ".", "--jobs", "2", folder=folder).returncode == 0
    made = contents(folder / "build")
    alone = {name: content for name, content in built[1].items() if name != "index.html"}
    assert {name: content for name, content in made.items() if name.startswith("small-sail/")} == alone
    assert b"Other" in made["index.html"], "the catalogue is over both"
