"""The command line as strangers use it: odd paths, full disks, pipes that close, signals, terminals of all kinds."""

from __future__ import annotations

import io
import json
import os
import shutil
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from driver.running import FAULTY, SMALL, command, contents, environment, exit_code, run

TRIES = 5
"""How often a signal may come too late on a busy machine."""
FAULTY_CODE = 1
"""What a build of a faulty pattern ends with."""
QUICK = ("--edition", "coloring", "--paper", "a4")
needs_posix = pytest.mark.skipif(sys.platform == "win32", reason="signals and limits of POSIX")


@pytest.fixture
def sails(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Two good patterns and a faulty one in a folder, beside the current one."""
    monkeypatch.chdir(tmp_path)
    folder = Path("two sails – größer")
    folder.mkdir()
    for name, text in (("a.yaml", SMALL), ("b.yaml", SMALL), ("torn.yaml", FAULTY)):
        (folder / name).write_text(text, encoding="utf-8")
    return folder


# -- paths ------------------------------------------------------------------------------------------------------------


def test_spaces_and_letters_of_all_kinds_in_paths(sails: Path, capsys: pytest.CaptureFixture[str]) -> None:
    out = Path("aus gabe ü")
    assert exit_code("build", sails / "a.yaml", sails / "b.yaml", "--out", out, *QUICK) == 0
    assert capsys.readouterr().out.splitlines() == [
        f"{out}/{name}/{name}-coloring-a4.pdf  1 pages" for name in ("a", "b")
    ]
    assert list(contents(out)) == ["a/a-coloring-a4.pdf", "b/b-coloring-a4.pdf"]


def test_an_empty_folder(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert exit_code("build", tmp_path) == 2
    assert "no pattern found" in capsys.readouterr().err


def test_a_folder_to_build_into_that_cannot_be_made(sails: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """One pattern's output in the way keeps no other from being built; the exit code tells."""
    Path("out").mkdir()
    (Path("out") / "a").write_text("mine")
    assert exit_code("build", sails / "a.yaml", sails / "b.yaml", "--out", "out", *QUICK) == 2
    out, err = capsys.readouterr()
    assert out == "out/b/b-coloring-a4.pdf  1 pages\n"
    assert "out/a: this is no folder" in err
    assert (Path("out") / "a").read_text() == "mine"


def test_a_link_out_of_the_folder_is_no_part_of_it(sails: Path) -> None:
    """A theme's file that leads outside is not read, whatever it holds."""
    (sails / "themes" / "harbor").mkdir(parents=True)
    Path("secret.css").write_text("/* secret */", encoding="utf-8")
    (sails / "themes" / "harbor" / "style.css").symlink_to(Path("secret.css").resolve())
    assert exit_code("build", sails / "a.yaml", "--edition", "all-sizes", "--paper", "a4") == 0
    assert b"secret" not in (Path("build") / "a" / "a.html").read_bytes()


# -- disks ------------------------------------------------------------------------------------------------------------


@needs_posix
def test_a_disk_that_fills_up(sails: Path) -> None:
    """Files end at eight kilobytes: what was there stays, and the message is one line."""
    assert exit_code("build", sails / "a.yaml", "--edition", "all-sizes", "--paper", "a4") == 0
    before = contents(Path("build"))
    (sails / "a.yaml").write_text(SMALL.replace("release: 1", "release: 2"), encoding="utf-8")
    done = subprocess.run(
        command("build", sails / "a.yaml", "--edition", "all-sizes", "--paper", "a4"),
        env=environment(PYTHONDONTWRITEBYTECODE="1"), capture_output=True, timeout=60, check=False,
        preexec_fn=_small_files,
    )
    assert done.returncode == 2
    assert done.stderr.decode().splitlines() == ["patchwright: build/a: file too large; what was there is unchanged"]
    assert contents(Path("build")) == before


def _small_files() -> None:
    import resource

    resource.setrlimit(resource.RLIMIT_FSIZE, (8192, 8192))


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="this system has no device that is always full")
@pytest.mark.parametrize("arguments", [("rules",), ("check",), ("plan",), ("build", *QUICK)], ids=lambda one: one[0])
def test_results_that_cannot_be_written(sails: Path, arguments: tuple[str, ...]) -> None:
    named = [] if arguments[0] == "rules" else [sails / "a.yaml"]
    with Path("/dev/full").open("w") as full:
        done = subprocess.run(
            command(arguments[0], *named, *arguments[1:]), env=environment(), stdout=full, stderr=subprocess.PIPE,
            timeout=60, check=False,
        )
    assert (done.returncode, done.stderr) == (2, b"patchwright: there is no room left to write to\n")


# -- pipes ------------------------------------------------------------------------------------------------------------


@needs_posix
@pytest.mark.parametrize("arguments", [("rules",), ("check",), ("plan",), ("build", *QUICK)], ids=lambda one: one[0])
def test_a_reader_that_has_gone_away(sails: Path, arguments: tuple[str, ...]) -> None:
    """Silently, and with the code by which shells know it; not with one that says something about the pattern."""
    named = [] if arguments[0] == "rules" else [sails / "a.yaml"]
    reader, writer = os.pipe()
    os.close(reader)
    done = subprocess.run(
        command(arguments[0], *named, *arguments[1:]), env=environment(), stdout=writer, stderr=subprocess.PIPE,
        timeout=60, check=False,
    )
    os.close(writer)
    assert (done.returncode, done.stderr) == (141, b"")


@pytest.mark.parametrize("encoding", ["latin-1", "utf-8"])
def test_any_encoding_of_the_output(sails: Path, encoding: str) -> None:
    settings = {"PYTHONIOENCODING": encoding}
    plain = run("plan", sails / "a.yaml", settings=settings)
    assert plain.returncode == 0
    assert plain.stdout.decode(encoding).startswith("Small Sail, release 1")
    torn = run("check", sails / "torn.yaml", settings=settings)
    assert (torn.returncode, b"internal fault" in torn.stderr) == (1, False)
    numbers = json.loads(run("plan", sails / "a.yaml", "--json", settings=settings).stdout.decode(encoding))
    assert numbers["pattern"] == "a"


# -- for machines -----------------------------------------------------------------------------------------------------


def test_what_was_built_as_json(sails: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert exit_code("build", sails, "--json", *QUICK) == 1
    out, err = capsys.readouterr()
    told = json.loads(out)
    assert "error[unknown-name]" in err
    assert [(one["pattern"], one["built"]) for one in told["patterns"]] == [("a", True), ("b", True), ("torn", False)]
    assert told["patterns"][0]["files"] == [{"file": "a-coloring-a4.pdf", "pages": 1}]
    assert Path(told["patterns"][0]["folder"], "a-coloring-a4.pdf").is_file()


@pytest.mark.parametrize("style", ["json", "sarif", "gitlab"])
def test_messages_for_machines_are_alone_in_the_output(
    sails: Path, style: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert exit_code("build", sails, "--format", style, *QUICK) == 1
    out, err = capsys.readouterr()
    assert json.loads(out)
    assert err == ""


def test_two_results_do_not_mix(sails: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert exit_code("build", sails, "--json", "--format", "sarif") == 2
    assert "take one of them" in capsys.readouterr().err


def test_explanations_of_codes_as_json(capsys: pytest.CaptureFixture[str]) -> None:
    assert exit_code("rules", "row-width-mismatch", "--json") == 0
    told = json.loads(capsys.readouterr().out)
    assert list(told) == ["row-width-mismatch"]
    assert {"summary", "explanation", "wrong", "right"} <= told["row-width-mismatch"].keys()
    assert exit_code("rules", "--json") == 0
    assert len(json.loads(capsys.readouterr().out)) > 50


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_completion_for_shells(shell: str) -> None:
    done = subprocess.run(
        [sys.executable, "-c", "from patchwright.cli import program; program(prog_name='patchwright')"],
        env=environment(_PATCHWRIGHT_COMPLETE=f"{shell}_source"), capture_output=True, timeout=60, check=False,
    )
    # Asks the shell for its version, which may be missing or old.
    assert b"patchwright" in done.stdout or b"shell" in done.stderr.lower()


def test_editions_are_completed() -> None:
    done = subprocess.run(
        [sys.executable, "-c", "from patchwright.cli import program; program(prog_name='patchwright')"],
        env=environment(
            _PATCHWRIGHT_COMPLETE="fish_complete", COMP_WORDS="patchwright build --edition la", COMP_CWORD="la"
        ),
        capture_output=True, timeout=60, check=False,
    )
    assert [line.split()[0] for line in done.stdout.splitlines()] == [b"plain,large-print", b"plain,labels"]


# -- people who wait ---------------------------------------------------------------------------------------------------


class Terminal(io.StringIO):
    """A stream that says it is a terminal."""

    def isatty(self) -> bool:
        return True


@pytest.mark.parametrize(("patience", "told"), [(0.0, True), (60.0, False)])
def test_what_takes_long_is_said_and_taken_away_again(
    monkeypatch: pytest.MonkeyPatch, patience: float, told: bool
) -> None:
    from patchwright.commands import progress

    terminal = Terminal()
    monkeypatch.setenv("TERM", "xterm")
    monkeypatch.setattr(sys, "stderr", terminal)
    monkeypatch.setattr(progress, "PATIENCE", patience)
    with progress.waiting("buoy plan"):
        deadline = time.monotonic() + 20
        while told and "buoy plan" not in terminal.getvalue() and time.monotonic() < deadline:
            time.sleep(0.01)
    assert ("buoy plan" in terminal.getvalue()) == told


def test_a_bar_shows_each_step_and_goes_away_between_patterns(monkeypatch: pytest.MonkeyPatch) -> None:
    from patchwright.commands import progress

    terminal = Terminal()
    monkeypatch.setenv("TERM", "xterm")
    monkeypatch.setattr(sys, "stderr", terminal)
    with progress.progress() as tell:
        for step in ("plan", "draw"):
            tell("buoy", step)
        tell("buoy", "")
        shown = terminal.getvalue()
        print("buoy.yaml: 14 files", file=terminal)
        assert terminal.getvalue() == shown + "buoy.yaml: 14 files\n"
        tell("anchor", "plan")
        tell("anchor", "")
    assert "buoy draw" in shown
    assert "anchor plan" in terminal.getvalue()


# -- signals ----------------------------------------------------------------------------------------------------------


@needs_posix
@pytest.mark.slow
@pytest.mark.parametrize(("how", "code"), [(signal.SIGINT, 130), (signal.SIGTERM, 143), (signal.SIGHUP, 143)])
def test_many_builds_end_together(sails: Path, how: signal.Signals, code: int) -> None:
    """Patterns side by side, of which earlier output is there: nothing is half-made, and no process is left."""
    for _ in range(TRIES):
        shutil.rmtree("build", ignore_errors=True)
        assert exit_code("build", sails / "a.yaml", *QUICK) == 0
        before = contents(Path("build"))
        child = subprocess.Popen(
            command("build", sails, "--no-cache", "--jobs", "2"), env=environment(), stdout=subprocess.DEVNULL,
            stderr=subprocess.PIPE,
        )
        while child.poll() is None and not list(Path("build").glob(".*.new-*")):
            time.sleep(0.01)
        child.send_signal(how)
        _, messages = child.communicate(timeout=60)
        if child.returncode != FAULTY_CODE:  # Else all was built, but for the faulty pattern, before the signal came.
            break
    assert child.returncode == code, messages.decode()
    assert messages.decode().endswith("; earlier output is unchanged\n")
    assert b"Traceback" not in messages
    assert contents(Path("build")) == before
    assert [path.name for path in Path("build").iterdir() if ".new-" in path.name] == []
