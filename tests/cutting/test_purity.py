"""Easy problems are planned without the solver, and the package imports nothing heavy by itself."""

from __future__ import annotations

import subprocess
import sys


def run(code: str) -> str:
    return subprocess.run(
        [sys.executable, "-c", code],
        env={"PYTHONPATH": ":".join(filter(None, sys.path))},
        capture_output=True,
        text=True,
        check=True,
    ).stdout.strip()


def test_an_easy_list_needs_no_solver() -> None:
    code = (
        "import sys\n"
        "from patchwright.planning.cutting import Part, Yardage, best\n"
        "print('numpy' in sys.modules)\n"
        "parts = Part('a', 5, 5, 70, True), Part('b', 9, 5, 16, True)\n"
        "plan = best(Yardage(80, parts, (), tuple(range(9, 900, 9))))\n"
        "print(plan.proof, 'highspy' in sys.modules)"
    )
    assert run(code).split() == ["False", "proven", "False"]
