#!/usr/bin/env python3
"""Sets up a checkout and runs its commands, with nothing installed but Python and pip.

In: the lock files and `pyproject.toml` beside this file.
Out: a virtual environment in `.venv`, and the exit code of whatever was run in it.

It imports the standard library only, since it has to run before anything else is there.
It names no package index: pip's own configuration says where packages come from.
The last thing a set-up writes is its stamp, so that one cut short is never taken for a finished one.
"""

from __future__ import annotations

import ctypes.util
import difflib
import hashlib
import json
import os
import re
import shutil
import subprocess
import sys
import sysconfig
import tempfile
import venv
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

HELP = """\
Examples:
  python3 make.py build                    build every booklet of patterns/ into build/
  python3 make.py build --size throw       the same, with options of `patchwright build`
  python3 make.py test                     lint, check types and run every test
  python3 make.py test tests/setup -x      only these tests, with options of pytest

Each command first sets up what it needs in .venv, and skips that when nothing has changed.

Commands:
  build [OPTION...] set up, then run `patchwright build patterns`
  test [OPTION...]  set up with the test packages, then run ruff, mypy and pytest on two
                    processes; with options, only pytest, which gets them (-n 0 for one process)
  check             ruff and mypy only
  bench             run each script of tests/bench
  setup             set up only; the program is then .venv/bin/patchwright
  lock [--upgrade]  for maintainers: write the lock files again from pyproject.toml, keeping
                    the versions that still fit, or with --upgrade taking the newest
"""

OLDEST_PYTHON = (3, 11)
# The last Python for which every locked package has a ready-made file.
NEWEST_PYTHON = (3, 14)
# The first pip that can fill an environment from outside it (`pip --python`).
OLDEST_PIP = (22, 3)
TEST_PROCESSES = "2"

WRONG_USAGE = 2
INTERRUPTED = 130

LOCK_HEADER = "# Written by `python3 make.py lock` from pyproject.toml, for every platform. Do not edit.\n"


class SetupError(Exception):
    """Something that stops a set-up; its text says what is wrong and what to do about it."""


class UsageError(Exception):
    """A command line that cannot be meant."""


@dataclass(frozen=True)
class Checkout:
    """The places in one copy of the repository that a set-up reads and writes."""

    root: Path

    @property
    def environment(self) -> Path:
        return self.root / ".venv"

    @property
    def stamp(self) -> Path:
        """Lies inside the environment, so that deleting the one deletes the other."""
        return self.environment / "set-up.json"

    @property
    def lock(self) -> Path:
        return self.root / "requirements.lock"

    @property
    def test_lock(self) -> Path:
        """What the tests need beyond `lock`; no package is in both."""
        return self.root / "requirements-test.lock"

    def program(self, name: str) -> Path:
        """Where the environment keeps the program `name` on this system."""
        folder, ending = ("Scripts", ".exe") if os.name == "nt" else ("bin", "")
        return self.environment / folder / f"{name}{ending}"


@dataclass(frozen=True)
class Native:
    """Something that Python packages cannot bring, and that the project can do without."""

    name: str
    debian_packages: tuple[str, ...]
    is_found: Callable[[], bool]
    without_it: str
    elsewhere: str


CAIRO = Native(
    name="the cairo library",
    debian_packages=("libcairo2",),
    # The names under which the cairo binding itself looks for it on the three systems.
    is_found=lambda: any(ctypes.util.find_library(name) for name in ("cairo-2", "cairo", "libcairo-2")),
    without_it="PNG pictures and single-figure exports are left out; everything else works",
    elsewhere="put libcairo-2.dll on PATH" if os.name == "nt" else "install cairo with your package manager",
)
CHROMIUM = Native(
    name="Chromium",
    # The program that drives the browser comes as a Python package, but on Linux expects libatomic of the system.
    debian_packages=("chromium", "libatomic1"),
    is_found=lambda: bool(shutil.which("chromium") and (sys.platform != "linux" or ctypes.util.find_library("atomic"))),
    without_it="tests that open booklets in a browser are skipped; all others run",
    elsewhere="put a command `chromium` on PATH",
)


def main(arguments: Sequence[str]) -> int:
    """Run one command and return the exit code to end with."""
    if sys.version_info[:2] < OLDEST_PYTHON:
        return _fail("Python {}.{} or newer is needed, and this is {}.{}".format(*OLDEST_PYTHON, *sys.version_info))
    if not arguments or arguments[0] in ("-h", "--help", "help"):
        print(HELP, end="")
        return 0 if arguments else WRONG_USAGE
    name, options = arguments[0], list(arguments[1:])
    try:
        if name not in COMMANDS:
            raise UsageError(_unknown_command(name))
        return COMMANDS[name](Checkout(Path(__file__).resolve().parent), options)
    except UsageError as error:
        return _fail(str(error), WRONG_USAGE)
    except (SetupError, OSError) as error:
        return _fail(str(error))
    except KeyboardInterrupt:
        return _fail("interrupted; run the same command again to start over safely", INTERRUPTED)


def build(checkout: Checkout, options: list[str]) -> int:
    """Compile the patterns that come with the project."""
    prepare(checkout)
    provide(CAIRO)
    return _run(checkout, "patchwright", "build", "patterns", *options)


def test(checkout: Checkout, options: list[str]) -> int:
    """Lint, check types and run all tests, or run only pytest when it is given options.

    On a person's machine a missing native part skips the tests that need it.
    In continuous integration that would hide a fault, so there it fails.
    """
    prepare(checkout, testing=True)
    missing = [native.name for native in (CAIRO, CHROMIUM) if not provide(native)]
    if missing and os.environ.get("CI") == "true":
        raise SetupError(f"{' and '.join(missing)} could not be installed, and CI=true allows no skipped tests")
    code = 0 if options else _lint(checkout)
    return code or _run(checkout, "pytest", "-n", TEST_PROCESSES, "--dist", "loadgroup", *options)


def check(checkout: Checkout, options: list[str]) -> int:
    """Lint and check types, which needs neither cairo nor a browser."""
    _allow(options)
    prepare(checkout, testing=True)
    return _lint(checkout)


def bench(checkout: Checkout, options: list[str]) -> int:
    """Run all benchmark scripts, even after one that failed, and return the first failure."""
    _allow(options)
    prepare(checkout, testing=True)
    scripts = sorted((checkout.root / "tests" / "bench").glob("*.py"))
    codes = [_run(checkout, "python", str(script.relative_to(checkout.root))) for script in scripts]
    return next((code for code in codes if code), 0)


def setup(checkout: Checkout, options: list[str]) -> int:
    """Set up what the program itself needs, for someone who wants to call it directly."""
    _allow(options)
    prepare(checkout)
    provide(CAIRO)
    _say(f"Ready: {checkout.program('patchwright').relative_to(checkout.root)} --help")
    return 0


def lock(checkout: Checkout, options: list[str]) -> int:
    """Write both lock files for all platforms, with the hash of every file that could be chosen.

    The build backend is locked with the rest, since the project is installed without build isolation.
    """
    _allow(options, "--upgrade")
    with tempfile.TemporaryDirectory() as folder:
        uv = _install_uv(Path(folder))
        backend = "\n".join(_pyproject(checkout)["build-system"]["requires"])
        _compile(checkout, uv, checkout.lock, ["pyproject.toml", "-", *options], backend)
        known = [f"--no-emit-package={name}" for name in locked_names(checkout.lock)]
        within = ["--constraints", checkout.lock.name]
        _compile(checkout, uv, checkout.test_lock, ["pyproject.toml", "--group=test", *within, *known, *options])
    return 0


COMMANDS: dict[str, Callable[[Checkout, list[str]], int]] = {
    "build": build,
    "test": test,
    "check": check,
    "bench": bench,
    "setup": setup,
    "lock": lock,
}


def prepare(checkout: Checkout, *, testing: bool = False) -> None:
    """Make sure that the environment holds what the locks say, and return at once if it already does.

    A changed lock, Python or folder, or an environment that does not run, means a new environment:
    bringing an old one up to date would keep packages that are locked no more.
    """
    stamped = stamped_packages(checkout)
    if stamped == "all" or (stamped == "run" and not testing):
        return
    what = "Setting up .venv from the lock files" if stamped is None else "Adding the test packages to .venv"
    _say(f"{what}; this can take a minute or two ...")
    checkout.stamp.unlink(missing_ok=True)
    if stamped is None:
        _create_environment(checkout)
    pip = _find_pip(checkout)
    locks = [checkout.lock, checkout.test_lock] if testing else [checkout.lock]
    # Ready-made files only: a source file would bring a compiler's errors, and build packages that nobody locked.
    _install(pip, "--require-hashes", "--only-binary=:all:", *(f"--requirement={lock}" for lock in locks))
    _install(pip, "--no-deps", "--no-index", "--no-build-isolation", f"--editable={checkout.root}")
    write_stamp(checkout, "all" if testing else "run")


def stamped_packages(checkout: Checkout) -> str | None:
    """Return which packages a usable environment has, `run` or `all`, or None if there is no such environment."""
    try:
        stamp = json.loads(checkout.stamp.read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return None
    if not isinstance(stamp, dict) or stamp.get("digest") != digest(checkout):
        return None
    packages = stamp.get("packages")
    return packages if packages in ("run", "all") and _is_working(checkout) else None


def write_stamp(checkout: Checkout, packages: str) -> None:
    """Record a finished set-up, whole or not at all."""
    unfinished = checkout.stamp.with_suffix(".new")
    unfinished.write_text(json.dumps({"digest": digest(checkout), "packages": packages}), encoding="utf-8")
    unfinished.replace(checkout.stamp)


def digest(checkout: Checkout) -> str:
    """Return a hash of all that an environment depends on.

    The folder is part of it because programs in an environment carry its path.
    Of `pyproject.toml` only the project table is, so that a changed lint rule costs no set-up.
    """
    facts = [
        str(checkout.root),
        str(sys.implementation.cache_tag),
        sysconfig.get_platform(),
        checkout.lock.read_text(encoding="utf-8"),
        checkout.test_lock.read_text(encoding="utf-8"),
        json.dumps(_pyproject(checkout)["project"], sort_keys=True),
    ]
    return hashlib.sha256(json.dumps(facts).encode()).hexdigest()


def provide(native: Native) -> bool:
    """Return whether `native` is there, after installing it where this user may, or noting what is missing."""
    if native.is_found():
        return True
    as_root = _root_prefix() if shutil.which("apt-get") else None
    if as_root is not None:
        _say(f"Installing from Debian: {' '.join(native.debian_packages)} ...")
        _apt_install(as_root, native.debian_packages)
        if native.is_found():
            return True
    _say(f"note: {native.name} is missing, so {native.without_it}.\n      To add it, {_remedy(native)}.")
    return False


def locked_names(lock: Path) -> list[str]:
    """Return the names of the packages that a lock file pins, each once, in the file's order."""
    pins = re.findall(r"^([A-Za-z0-9._-]+)==", lock.read_text(encoding="utf-8"), flags=re.MULTILINE)
    return list(dict.fromkeys(pins))


def _create_environment(checkout: Checkout) -> None:
    """Make an empty environment without pip, which Debian's Python cannot put into one."""
    try:
        venv.EnvBuilder(clear=True, symlinks=os.name != "nt", with_pip=False).create(checkout.environment)
    except (OSError, ValueError) as error:
        raise SetupError(f"{checkout.environment} cannot be made: {error}\nDelete it, and try again") from error


def _is_working(checkout: Checkout) -> bool:
    """Return whether the environment's Python starts and finds the project, as it no longer does after an upgrade."""
    question = "import importlib.util, sys; sys.exit(importlib.util.find_spec('patchwright') is None)"
    command = [str(checkout.program("python")), "-I", "-c", question]
    try:
        answer = subprocess.run(command, capture_output=True, check=False)
    except OSError:
        return False
    return answer.returncode == 0 and checkout.program("patchwright").exists()


def _find_pip(checkout: Checkout) -> list[str]:
    """Return the start of a pip command that installs into the environment.

    The pip of the Python that runs this file is preferred; if that Python is itself a virtual
    environment without pip, such as ours when it is activated, the one that it was made from comes next.
    """
    inside = str(checkout.program("python"))
    outside = dict.fromkeys([sys.executable, getattr(sys, "_base_executable", sys.executable)])
    for python in outside:
        if _pip_version(python) >= OLDEST_PIP:
            return [python, "-m", "pip", "--python", inside]
    if subprocess.run([inside, "-m", "ensurepip"], capture_output=True, check=False).returncode == 0:
        return [inside, "-m", "pip"]
    remedy = "`apt-get install python3-pip` as root" if shutil.which("apt-get") else "pip for this Python"
    raise SetupError("pip {}.{} or newer is needed: install it ({}), and try again".format(*OLDEST_PIP, remedy))


def _pip_version(python: str) -> tuple[int, ...]:
    """Return the version of a Python's pip, or an empty tuple, which is lower than any, if it has none."""
    answer = subprocess.run([python, "-m", "pip", "--version"], capture_output=True, text=True, check=False)
    found = re.match(r"pip (\d+)\.(\d+)", answer.stdout)
    return tuple(int(part) for part in found.groups()) if found else ()


def _install(pip: list[str], *options: str) -> None:
    """Install with pip, whose own configuration and environment say where from."""
    command = [*pip, "install", "--quiet", "--disable-pip-version-check", "--no-user", *options]
    if subprocess.run(command, check=False).returncode != 0:
        raise SetupError(
            "the packages could not be installed; pip says why above\n"
            "Check that pip reaches a package index from this machine and that this Python is one of "
            "{}.{} to {}.{}, and try again".format(*OLDEST_PYTHON, *NEWEST_PYTHON)
        )


def _root_prefix() -> list[str] | None:
    """Return what to put before a command to run it as root without a password, or None if that is not allowed."""
    if hasattr(os, "geteuid") and os.geteuid() == 0:
        return []
    sudo = shutil.which("sudo")
    if sudo and subprocess.run([sudo, "-n", "true"], capture_output=True, check=False).returncode == 0:
        return [sudo, "-n"]
    return None


def _apt_install(as_root: list[str], packages: tuple[str, ...]) -> None:
    """Try to install Debian packages; on failure show the end of what was said, and leave the rest to the caller."""
    apt = [*as_root, "env", "DEBIAN_FRONTEND=noninteractive", "apt-get", "-qq", "-o", "DPkg::Lock::Timeout=120"]
    # Lists that cannot be brought up to date may still do, so only the installation counts.
    subprocess.run([*apt, "update"], capture_output=True, check=False)
    command = [*apt, "install", "--yes", "--no-install-recommends", *packages]
    answer = subprocess.run(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, check=False)
    if answer.returncode != 0:
        _say("\n".join(answer.stdout.splitlines()[-5:]))


def _remedy(native: Native) -> str:
    """Return how to add a native part by hand on this system."""
    if shutil.which("apt-get"):
        return f"run `apt-get install {' '.join(native.debian_packages)}` as root"
    if native is CAIRO and shutil.which("brew"):
        return "run `brew install cairo`"
    return native.elsewhere


def _lint(checkout: Checkout) -> int:
    """Run ruff and, if that finds nothing, mypy."""
    return _run(checkout, "ruff", "check") or _run(checkout, "mypy")


def _install_uv(folder: Path) -> Path:
    """Put uv, which resolves for all platforms at once, into a throw-away environment and return its path."""
    scratch = Checkout(folder)
    _create_environment(scratch)
    _install(_find_pip(scratch), "uv")
    return scratch.program("uv")


def _compile(checkout: Checkout, uv: Path, target: Path, options: list[str], stdin: str = "") -> None:
    """Resolve into one lock file; versions that the file already pins are kept where they still fit."""
    command = [str(uv), "pip", "compile", "--quiet", "--universal", "--generate-hashes", "--no-header", "--no-annotate"]
    command += ["--no-emit-index-url", "--no-emit-find-links", "--python-version={}.{}".format(*OLDEST_PYTHON)]
    command += [f"--output-file={target.name}", *options]
    answer = subprocess.run(command, cwd=checkout.root, input=stdin, text=True, stdout=subprocess.DEVNULL, check=False)
    if answer.returncode != 0:
        raise SetupError(f"{target.name} was not written; uv says why above")
    target.write_text(LOCK_HEADER + target.read_text(encoding="utf-8"), encoding="utf-8")


def _pyproject(checkout: Checkout) -> dict[str, Any]:
    """Return the tables of `pyproject.toml`."""
    import tomllib  # Not at the top, where an old Python would stop without saying that it is too old.

    return tomllib.loads((checkout.root / "pyproject.toml").read_text(encoding="utf-8"))


def _run(checkout: Checkout, name: str, *options: str) -> int:
    """Run a program of the environment in the checkout, and return its exit code.

    An interrupted program is waited for, so that it can say what it has done so far.
    """
    sys.stdout.flush()
    with subprocess.Popen([str(checkout.program(name)), *options], cwd=checkout.root) as process:
        try:
            code = process.wait()
        except KeyboardInterrupt:
            process.wait()
            raise
    # A program killed by a signal gets the code that a shell would report for it.
    return code if code >= 0 else 128 - code


def _allow(options: list[str], *known: str) -> None:
    """Refuse options that a command would otherwise ignore in silence."""
    unknown = [option for option in options if option not in known]
    if unknown:
        raise UsageError(f"`{unknown[0]}` is not an option here; `python3 make.py --help` lists what is")


def _unknown_command(name: str) -> str:
    nearest = difflib.get_close_matches(name, COMMANDS, n=1)
    hint = f"did you mean `{nearest[0]}`?" if nearest else "`python3 make.py --help` explains them"
    return f"`{name}` is not a command; there are {', '.join(COMMANDS)}\n{hint}"


def _say(message: str) -> None:
    """Print on stderr, since stdout belongs to the program that is run."""
    print(message, file=sys.stderr, flush=True)


def _fail(message: str, code: int = 1) -> int:
    _say(f"error: {message}")
    return code


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
