"""The program run as a person runs it, in a process of its own or in this one."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path

from patchwright.cli import main
from patchwright.store import FOLDER

COMPILER = Path(__file__).parents[2] / "compiler"
SMALL = """\
dialect: 1
pattern: Small Sail
release: 1
lengths: inches
fabrics:
  rope: {color: a9482f}
  deck: {color: ece7db}
blocks:
  coil: {cell: 3 in, rows: [[rope, deck], [deck, rope]]}
quilt:
  arrange: [[coil]]
sizes:
  throw: {across: 2, down: 2}
"""
FAULTY = SMALL.replace("[[rope, deck], [deck, rope]]", "[[rope, deck], [deck, ropes]]")


def command(*arguments: str | Path) -> list[str]:
    return [sys.executable, "-m", "patchwright.cli", *map(str, arguments)]


def environment(**more: str) -> dict[str, str]:
    kept = {name: os.environ[name] for name in ("PATH", "HOME", "TMPDIR") if name in os.environ}
    return kept | {"PYTHONPATH": str(COMPILER)} | more


def run(
    *arguments: str | Path, folder: Path | None = None, settings: Mapping[str, str] | None = None
) -> subprocess.CompletedProcess[bytes]:
    """Run the program in its own process, ended after a minute."""
    return subprocess.run(
        command(*arguments), cwd=folder, env=environment(**(settings or {})), capture_output=True, timeout=60,
        check=False,
    )


def exit_code(*arguments: str | Path) -> int:
    """Run the program in this process; what it prints goes where pytest captures it."""
    try:
        main([str(argument) for argument in arguments])
    except SystemExit as ended:
        return ended.code if isinstance(ended.code, int) else 1


def contents(folder: Path) -> dict[str, bytes]:
    """Every file below a folder, hidden ones too, with its bytes; but not what is remembered for further builds."""
    return {
        str(file.relative_to(folder)): file.read_bytes() for file in sorted(folder.rglob("*"))
        if file.is_file() and FOLDER not in file.parts
    }
