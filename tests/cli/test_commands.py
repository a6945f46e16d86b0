"""The command line: exit codes, what goes to stdout and what to stderr, help, JSON."""

from __future__ import annotations

import json
import os
from pathlib import Path

import pytest

from driver.running import FAULTY, SMALL, exit_code, run

COMMANDS = ("check", "build", "plan", "explain", "rules", "schema", "new")
WARNED = SMALL.replace("[[rope, deck],", "[[rope, rope],")


@pytest.fixture
def sail(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A good pattern in the current folder."""
    monkeypatch.chdir(tmp_path)
    Path("sail.yaml").write_text(SMALL, encoding="utf-8")
    return Path("sail.yaml")


def written(text: str, name: str = "other.yaml") -> Path:
    Path(name).write_text(text, encoding="utf-8")
    return Path(name)


# -- exit codes -------------------------------------------------------------------------------------------------------


def test_a_good_pattern_is_clean(sail: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert exit_code("check", sail) == 0
    assert capsys.readouterr() == ("sail.yaml: good\n", "")


def test_a_faulty_pattern_is_1(sail: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert exit_code("check", written(FAULTY)) == 1
    out, err = capsys.readouterr()
    assert out == ""
    assert err.startswith("other.yaml:9:50: error[unknown-name]: ")
    assert "hint: did you mean `rope`" in err


def test_warnings_are_clean_unless_strict(sail: Path, capsys: pytest.CaptureFixture[str]) -> None:
    other = written(WARNED)
    assert exit_code("check", other) == 0
    assert "warning[needless-seam]" in capsys.readouterr().err
    assert exit_code("check", other, "--strict") == 1
    assert "error[needless-seam]" in capsys.readouterr().err


@pytest.mark.parametrize(
    "arguments",
    [
        ("check",), ("check", "missing.yaml"), ("check", "sail.yaml", "--format", "purple"), ("chekc", "sail.yaml"),
        ("plan", "sail.yaml", "--size", "queen"), ("explain", "sail.yaml"), ("explain", "sail.yaml", "Z9"),
        ("rules", "no-such-code"), ("build", "sail.yaml", "--edition", "gold"), ("build", "sail.yaml", "--jobs", "0"),
        ("build", "sail.yaml", "--size", "queen"), ("schema", "--out", "missing/schema.json"),
    ],
    ids=lambda arguments: " ".join(arguments).encode("ascii", "replace").decode(),
)
def test_wrong_usage_is_2_with_a_message(
    sail: Path, arguments: tuple[str, ...], capsys: pytest.CaptureFixture[str]
) -> None:
    assert exit_code(*arguments) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err
    assert "internal fault" not in err
    assert "Traceback" not in err


def test_no_arguments_show_the_help(capsys: pytest.CaptureFixture[str]) -> None:
    assert exit_code() == 2
    out, err = capsys.readouterr()
    assert "Examples" in out + err


# -- paths ------------------------------------------------------------------------------------------------------------


def test_several_paths_and_folders(sail: Path, capsys: pytest.CaptureFixture[str]) -> None:
    Path("deep").mkdir()
    written(SMALL, "deep/b.yaml")
    written(SMALL, "deep/a.yaml")
    assert exit_code("check", "deep", sail) == 0
    assert capsys.readouterr().out == "deep/a.yaml: good\ndeep/b.yaml: good\nsail.yaml: good\n"


def test_a_faulty_pattern_does_not_hide_the_others(sail: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert exit_code("check", written(FAULTY), sail) == 1
    out, err = capsys.readouterr()
    assert out == "sail.yaml: good\n"
    assert "other.yaml:9" in err


def test_two_patterns_of_one_name_are_not_built_over_each_other(
    sail: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    written(SMALL, "Sail.yml")
    assert exit_code("build", ".") == 2
    assert "would both be built to build/sail" in capsys.readouterr().err
    assert not Path("build").exists()


def test_a_plan_is_of_one_pattern(sail: Path, capsys: pytest.CaptureFixture[str]) -> None:
    written(SMALL)
    assert exit_code("plan", ".") == 2
    assert "2 patterns" in capsys.readouterr().err


def test_an_output_folder_that_cannot_be_made(sail: Path, capsys: pytest.CaptureFixture[str]) -> None:
    Path("out").write_text("a file")
    assert exit_code("build", sail, "--out", "out", "--paper", "a4", "--edition", "all-sizes") == 2
    assert "internal fault" not in capsys.readouterr().err
    assert Path("out").read_text() == "a file"


@pytest.mark.parametrize("name", ["pipe.yaml", "device.yaml"])
def test_what_is_no_file_is_refused_at_once(sail: Path, name: str, capsys: pytest.CaptureFixture[str]) -> None:
    if name == "pipe.yaml":
        os.mkfifo(name)
    else:
        Path(name).symlink_to("/dev/zero")
    assert exit_code("check", name) == 2
    assert capsys.readouterr().err == f"patchwright: {name}: this is no ordinary file\n"


def test_a_huge_file(sail: Path, capsys: pytest.CaptureFixture[str]) -> None:
    with Path("huge.yaml").open("wb") as stream:
        stream.truncate(1 << 33)
    assert exit_code("check", "huge.yaml") == 1
    assert "error[file-too-large]" in capsys.readouterr().err


@pytest.mark.parametrize(
    "content", [b"", b"\x00\xff" * 99, b"\xef\xbb\xbfdialect: 1\n", b"%PDF-1.7\n", b"[" * 9999, b"\t"]
)
def test_files_that_are_no_patterns(sail: Path, content: bytes, capsys: pytest.CaptureFixture[str]) -> None:
    Path("other.yaml").write_bytes(content)
    assert exit_code("check", "other.yaml") == 1
    assert capsys.readouterr().err.startswith("other.yaml:1:")


def test_a_theme_that_is_not_there(sail: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert exit_code("build", sail, "--theme", "harbour") == 1
    assert "error[theme-missing]" in capsys.readouterr().err
    assert not Path("build").exists()


@pytest.mark.parametrize("theme", ["../x", "/etc", "harbor/../harbor", ""])
def test_a_theme_is_a_name_and_no_path(sail: Path, theme: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert exit_code("check", sail, "--theme", theme) == (0 if theme == "" else 1)


# -- results ----------------------------------------------------------------------------------------------------------


def test_the_plan_as_json(sail: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert exit_code("plan", sail, "--json") == 0
    numbers = json.loads(capsys.readouterr().out)
    assert (numbers["format"], numbers["pattern"], numbers["unit"]) == (1, "sail", "in")
    assert numbers["sizes"][0]["finished"] == ["12", "12"]
    parts = {"size", "blocks", "units", "pieces", "fabrics", "binding", "backing", "batting"}
    assert parts <= numbers["sizes"][0].keys()


def test_the_plan_of_one_size(sail: Path, capsys: pytest.CaptureFixture[str]) -> None:
    other = written(SMALL.replace("sizes:\n", "sizes:\n  crib: {across: 3, down: 3}\n"))
    assert exit_code("plan", other, "--size", "throw", "--json") == 0
    assert [size["size"] for size in json.loads(capsys.readouterr().out)["sizes"]] == ["throw"]


def test_the_plan_as_text(sail: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert exit_code("plan", sail) == 0
    assert "12½″ x 12½″ unfinished" in capsys.readouterr().out


def test_explanations(sail: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert exit_code("explain", sail, "A1") == 0
    assert "A1, throw:" in capsys.readouterr().out
    assert exit_code("explain", sail, "rope", "--json") == 0
    assert json.loads(capsys.readouterr().out)


@pytest.mark.parametrize("name", ["A1", "coil", "rope", "batting", "size"])
def test_everything_can_be_explained(sail: Path, name: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert exit_code("explain", sail, name) == 0
    out, err = capsys.readouterr()
    assert out.startswith(f"{name}, throw:\n")
    assert err == ""


def test_messages_as_json_go_to_stdout(sail: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert exit_code("check", written(FAULTY), "--format", "json") == 1
    out, err = capsys.readouterr()
    assert json.loads(out)
    assert err == ""


def test_rules_of_a_code(capsys: pytest.CaptureFixture[str]) -> None:
    assert exit_code("rules", "row-width-mismatch") == 0
    assert capsys.readouterr().out.startswith("row-width-mismatch: ")


def test_all_codes(capsys: pytest.CaptureFixture[str]) -> None:
    from patchwright.core.codes import CODES

    assert exit_code("rules") == 0
    assert len(capsys.readouterr().out.splitlines()) == len(CODES)


@pytest.mark.parametrize("more", [(), ("--house",)])
def test_the_schema(more: tuple[str, ...], capsys: pytest.CaptureFixture[str]) -> None:
    assert exit_code("schema", *more) == 0
    assert "$schema" in json.loads(capsys.readouterr().out)


def test_a_new_pattern_is_good_and_never_written_over(sail: Path, capsys: pytest.CaptureFixture[str]) -> None:
    odd = ("--title", 'A "quoted" # title')
    for name, more in (("tide.yaml", ()), ("metric.yaml", ("--metric",)), ("odd.yaml", odd)):
        assert exit_code("new", name, *more) == 0
        assert exit_code("check", name) == 0
    assert exit_code("new", sail) == 2
    assert sail.read_text(encoding="utf-8") == SMALL
    assert "stays as it is" in capsys.readouterr().err


# -- help and color ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("command", COMMANDS)
def test_help_begins_with_examples(command: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert exit_code(command, "--help") == 0
    lines = capsys.readouterr().out.splitlines()
    assert lines[0] == "Examples:"
    assert lines[1].strip().startswith(f"patchwright {command}")


def test_the_help_of_the_program_begins_with_examples(capsys: pytest.CaptureFixture[str]) -> None:
    assert exit_code("--help") == 0
    out = capsys.readouterr().out
    assert out.startswith("Examples:\n")
    assert all(f"  {command} " in out for command in COMMANDS)


def test_no_color_where_nobody_watches(sail: Path) -> None:
    other = written(FAULTY)
    assert b"\x1b" not in run("check", other.resolve(), settings={"NO_COLOR": ""}).stderr
    assert b"\x1b" not in run("check", other.resolve()).stderr


def test_no_color_on_a_terminal_that_asks_for_none(sail: Path) -> None:
    pty = pytest.importorskip("pty")
    other = written(FAULTY).resolve()
    seen = {}
    for name, settings in (("color", {}), ("none", {"NO_COLOR": "1"})):
        seen[name] = _on_a_terminal(pty, other, settings)
    assert b"\x1b[" in seen["color"]
    assert b"\x1b[" not in seen["none"]


def _on_a_terminal(pty: object, pattern: Path, settings: dict[str, str]) -> bytes:
    import subprocess

    from driver.running import command, environment

    ours, theirs = os.openpty()
    child = subprocess.Popen(
        command("check", pattern), stderr=theirs, stdout=subprocess.DEVNULL, env=environment(TERM="xterm", **settings)
    )
    os.close(theirs)
    seen = b""
    while True:
        try:
            part = os.read(ours, 4096)
        except OSError:
            break
        if not part:
            break
        seen += part
    child.wait(timeout=30)
    os.close(ours)
    return seen


def test_a_file_name_in_another_encoding(sail: Path) -> None:
    for text, code in ((SMALL, 0), (FAULTY, 1)):
        name = os.fsencode(str(Path.cwd())) + b"/gr\xfcn.yaml"
        with open(name, "w", encoding="utf-8") as stream:
            stream.write(text)
        done = run("check", Path(os.fsdecode(name)))
        assert done.returncode == code
        assert b"internal fault" not in done.stderr


def test_the_module_runs_as_a_program(sail: Path) -> None:
    done = run("check", sail.resolve())
    assert (done.returncode, done.stderr) == (0, b"")
    assert done.stdout.endswith(b": good\n")


def test_a_reader_that_goes_away_is_no_fault(sail: Path) -> None:
    import subprocess

    from driver.running import command, environment

    child = subprocess.Popen(command("rules"), stdout=subprocess.PIPE, stderr=subprocess.PIPE, env=environment())
    assert child.stdout is not None
    child.stdout.close()
    assert child.stderr is not None
    assert b"Traceback" not in child.stderr.read()
    child.stderr.close()
    child.wait(timeout=30)
