"""Checks of the set-up that need no network: what the locks promise, when a set-up is skipped, what is refused."""

import ast
import json
import os
import re
import subprocess
import sys
import tomllib
from pathlib import Path

import make
import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

ROOT = Path(make.__file__).parent
HERE = make.Checkout(ROOT)
LOCKS = [HERE.lock, HERE.test_lock]
PYPROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))

PIN = re.compile(r"(?P<name>[a-z0-9-]+)==(?P<version>[^ ]+)(?P<marker> ; .+)?")
HASH = re.compile(r"--hash=sha256:[0-9a-f]{64}")


def _entries(lock: Path) -> list[list[str]]:
    """Return a lock's entries, each as its pin followed by its hashes."""
    text = lock.read_text(encoding="utf-8").replace("\\\n", "\0")
    lines = [line for line in text.splitlines() if line and not line.startswith("#")]
    return [[part.strip() for part in line.split("\0")] for line in lines]


def _pins(lock: Path) -> dict[str, list[str]]:
    """Return the versions that a lock pins for each package; more than one where a marker chooses."""
    pins: dict[str, list[str]] = {}
    for entry in _entries(lock):
        match = PIN.fullmatch(entry[0])
        assert match, entry[0]
        pins.setdefault(match["name"], []).append(match["version"])
    return pins


@pytest.fixture
def checkout(tmp_path: Path) -> make.Checkout:
    """A copy of all that a stamp depends on, with an environment that only its stamp calls ready."""
    for path in (*LOCKS, ROOT / "pyproject.toml"):
        (tmp_path / path.name).write_bytes(path.read_bytes())
    copy = make.Checkout(tmp_path)
    copy.environment.mkdir()
    return copy


@pytest.fixture
def working(monkeypatch: pytest.MonkeyPatch) -> None:
    """Stands in for asking the environment's Python, which these tests do not make."""
    monkeypatch.setattr(make, "_is_working", lambda checkout: True)


@pytest.mark.parametrize("lock", LOCKS, ids=lambda lock: lock.name)
def test_every_locked_package_is_pinned_with_hashes(lock: Path) -> None:
    entries = _entries(lock)
    assert entries
    for pin, *hashes in entries:
        assert PIN.fullmatch(pin), pin
        assert hashes, f"{pin} has no hash"
        assert all(HASH.fullmatch(part) for part in hashes), pin


@pytest.mark.parametrize("path", [*LOCKS, ROOT / "make.py", ROOT / ".ci" / "run"], ids=lambda path: path.name)
def test_no_file_of_the_set_up_names_a_registry(path: Path) -> None:
    """Where packages come from is for each machine to say."""
    text = path.read_text(encoding="utf-8")
    assert not re.search(r"\w+://|--(extra-)?index-url|--find-links|--trusted-host", text)


def test_locks_share_no_package() -> None:
    assert not _pins(HERE.lock).keys() & _pins(HERE.test_lock).keys()


@pytest.mark.parametrize(
    ("requirements", "locks"),
    [
        (PYPROJECT["project"]["dependencies"], [HERE.lock]),
        (PYPROJECT["build-system"]["requires"], [HERE.lock]),
        (PYPROJECT["dependency-groups"]["test"], LOCKS),
    ],
    ids=["program", "build", "test"],
)
def test_locked_versions_satisfy_what_the_project_asks_for(requirements: list[str], locks: list[Path]) -> None:
    """The project is installed without resolving, so nothing else would notice a lock left behind."""
    pins = {name: versions for lock in locks for name, versions in _pins(lock).items()}
    for requirement in map(Requirement, requirements):
        versions = pins[canonicalize_name(requirement.name)]
        assert all(requirement.specifier.contains(version) for version in versions), str(requirement)


def test_locked_names_lists_each_package_once() -> None:
    assert make.locked_names(HERE.lock) == list(_pins(HERE.lock))


def test_make_imports_the_standard_library_only() -> None:
    tree = ast.parse((ROOT / "make.py").read_text(encoding="utf-8"))
    imported = {name.name for node in ast.walk(tree) if isinstance(node, ast.Import) for name in node.names}
    imported |= {str(node.module) for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)}
    assert {name.split(".")[0] for name in imported} <= sys.stdlib_module_names


def test_an_old_python_reads_make_far_enough_to_be_refused(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    ast.parse((ROOT / "make.py").read_text(encoding="utf-8"), feature_version=(3, 8))
    monkeypatch.setattr(sys, "version_info", (3, 9, 2))
    assert make.main(["build"]) == 1
    assert capsys.readouterr().err == "error: Python 3.11 or newer is needed, and this is 3.9\n"


def test_oldest_python_is_the_projects() -> None:
    assert PYPROJECT["project"]["requires-python"] == ">={}.{}".format(*make.OLDEST_PYTHON)


def test_help_begins_with_examples_and_explains_every_command(capsys: pytest.CaptureFixture[str]) -> None:
    assert make.main(["--help"]) == 0
    text = capsys.readouterr().out
    assert text.startswith("Examples:\n  python3 make.py build")
    for command in make.COMMANDS:
        assert re.search(rf"^  {command} ", text.split("Commands:")[1], flags=re.MULTILINE), command


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (["biuld"], "did you mean `build`?"),
        (["deploy"], "there are build, test,"),
        (["check", "tests"], "`tests` is not an option here"),
        (["lock", "--downgrade"], "`--downgrade` is not an option here"),
    ],
)
def test_wrong_usage_is_explained(arguments: list[str], message: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert make.main(arguments) == make.WRONG_USAGE
    assert message in capsys.readouterr().err


def test_no_command_prints_the_help_but_is_wrong_usage(capsys: pytest.CaptureFixture[str]) -> None:
    assert make.main([]) == make.WRONG_USAGE
    assert capsys.readouterr().out == make.HELP


@pytest.mark.usefixtures("working")
@pytest.mark.parametrize("packages", ["run", "all"])
def test_a_finished_set_up_is_recognized(checkout: make.Checkout, packages: str) -> None:
    assert make.stamped_packages(checkout) is None
    make.write_stamp(checkout, packages)
    assert make.stamped_packages(checkout) == packages


@pytest.mark.usefixtures("working")
@pytest.mark.parametrize("name", ["requirements.lock", "requirements-test.lock", "pyproject.toml"])
def test_a_changed_requirement_makes_the_set_up_stale(checkout: make.Checkout, name: str) -> None:
    make.write_stamp(checkout, "all")
    path = checkout.root / name
    changed = path.read_text(encoding="utf-8").replace("6.0.4", "6.0.5").replace("pytest==", "pytest===")
    assert changed != path.read_text(encoding="utf-8")
    path.write_text(changed, encoding="utf-8")
    assert make.stamped_packages(checkout) is None


@pytest.mark.usefixtures("working")
def test_a_changed_lint_rule_does_not_make_the_set_up_stale(checkout: make.Checkout) -> None:
    make.write_stamp(checkout, "all")
    path = checkout.root / "pyproject.toml"
    path.write_text(path.read_text(encoding="utf-8") + "\n[tool.other]\nkey = 1\n", encoding="utf-8")
    assert make.stamped_packages(checkout) == "all"


@pytest.mark.usefixtures("working")
def test_a_moved_checkout_makes_the_set_up_stale(checkout: make.Checkout) -> None:
    make.write_stamp(checkout, "all")
    moved = checkout.root.rename(checkout.root.with_name("moved"))
    assert make.stamped_packages(make.Checkout(moved)) is None


@pytest.mark.usefixtures("working")
@pytest.mark.parametrize("text", ["", "[]", '{"packages": "all"}', json.dumps({"digest": 1})])
def test_a_spoiled_stamp_is_no_stamp(checkout: make.Checkout, text: str) -> None:
    checkout.stamp.write_text(text, encoding="utf-8")
    assert make.stamped_packages(checkout) is None


def test_an_environment_that_does_not_run_is_not_ready(checkout: make.Checkout) -> None:
    make.write_stamp(checkout, "all")
    assert make.stamped_packages(checkout) is None


def test_a_failed_installation_leaves_no_stamp(checkout: make.Checkout, monkeypatch: pytest.MonkeyPatch) -> None:
    def fail(pip: list[str], *options: str) -> None:
        raise make.SetupError

    make.write_stamp(checkout, "run")
    monkeypatch.setattr(make, "_find_pip", lambda checkout: ["pip"])
    monkeypatch.setattr(make, "_install", fail)
    with pytest.raises(make.SetupError):
        make.prepare(checkout)
    assert checkout.program("python").exists()
    assert not checkout.stamp.exists()


def test_a_missing_native_part_is_noted_and_no_failure(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    absent = make.Native("a part", ("part",), lambda: False, "less is done", "find it")
    monkeypatch.setattr("shutil.which", lambda name: None)
    assert not make.provide(absent)
    assert capsys.readouterr().err == "note: a part is missing, so less is done.\n      To add it, find it.\n"


def test_continuous_integration_refuses_to_skip_tests(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(make, "prepare", lambda checkout, testing: None)
    monkeypatch.setattr(make, "provide", lambda native: native is make.CAIRO)
    monkeypatch.setattr(make, "_run", lambda *command: 0)
    monkeypatch.delenv("CI", raising=False)
    assert make.main(["test"]) == 0
    monkeypatch.setenv("CI", "true")
    assert make.main(["test"]) == 1
    assert "Chromium could not be installed" in capsys.readouterr().err


def test_options_for_tests_go_to_pytest_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    commands: list[tuple[str, ...]] = []

    def record(checkout: make.Checkout, *command: str) -> int:
        commands.append(command)
        return 0

    monkeypatch.setattr(make, "prepare", lambda checkout, testing: None)
    monkeypatch.setattr(make, "provide", lambda native: True)
    monkeypatch.setattr(make, "_run", record)
    assert make.main(["test"]) == 0
    assert commands == [("ruff", "check"), ("mypy",), ("pytest", "-n", "2", "--dist", "loadgroup")]
    commands.clear()
    assert make.main(["test", "tests/setup"]) == 0
    assert commands == [("pytest", "-n", "2", "--dist", "loadgroup", "tests/setup")]


@pytest.mark.skipif(os.name == "nt", reason="Windows has neither these links nor these signals")
def test_exit_codes_pass_through(checkout: make.Checkout) -> None:
    program = checkout.program("python")
    program.parent.mkdir()
    program.symlink_to(sys.executable)
    assert make._run(checkout, "python", "-c", "raise SystemExit(3)") == 3
    assert make._run(checkout, "python", "-c", "import os; os.kill(os.getpid(), 9)") == 128 + 9


def test_make_runs_as_a_script_from_any_folder(tmp_path: Path) -> None:
    command = [sys.executable, "-I", str(ROOT / "make.py"), "--help"]
    answer = subprocess.run(command, cwd=tmp_path, capture_output=True, text=True, check=False)
    assert (answer.returncode, answer.stdout, answer.stderr) == (0, make.HELP, "")
