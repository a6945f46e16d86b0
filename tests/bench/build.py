"""How long a build takes beside the page engine's own time for the same pages, and how much memory it needs.

Prints one row for each demo pattern: whole build, engine alone, their ratio, and the peak memory of the process.
A machine's speed drifts, so only the ratio of one run means anything.
"""

from __future__ import annotations

import resource
import sys
import tempfile
import time
from pathlib import Path

from patchwright import driver
from patchwright.files import find_patterns
from patchwright.typesetting import engine as engines

PATTERNS = Path(__file__).resolve().parents[2] / "patterns"


class _Clock:
    """Adds up the time that the engine spends composing."""

    def __init__(self) -> None:
        self.seconds = 0.0
        self._compose = engines.TypstEngine.compose

    def compose(self, engine: engines.TypstEngine, source: str, data: str) -> bytes:
        """Compose as ever, and count the time."""
        start = time.perf_counter()
        try:
            return self._compose(engine, source, data)
        finally:
            self.seconds += time.perf_counter() - start


def main() -> None:
    """Build every demo pattern once to warm up and once to measure."""
    clock = _Clock()
    setattr(engines.TypstEngine, "compose", lambda *given: clock.compose(*given))  # noqa: B010
    print(f"{'pattern':16} {'build s':>8} {'engine s':>9} {'ratio':>6} {'pages':>6} {'peak MB':>8}")
    editions = ("all-sizes",)
    for project in find_patterns((PATTERNS,)):
        for measured in (False, True):
            with tempfile.TemporaryDirectory() as folder:
                clock.seconds = 0.0
                start = time.perf_counter()
                built = driver.build_project(project, driver.BuildRequest(editions=editions, out=Path(folder)))
                whole = time.perf_counter() - start
            if built.compiled.failed:
                sys.exit(f"{project.shown} does not build")
            if measured:
                pages = sum(count for _, count in built.pages)
                peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
                ratio = whole / clock.seconds
                print(f"{project.id:16} {whole:8.2f} {clock.seconds:9.2f} {ratio:6.2f} {pages:6} {peak:8.0f}")


if __name__ == "__main__":
    main()
