"""How long a build takes beside the page engine's own time for the same pages, and how much memory it needs.

Prints one row for each demo pattern: the whole build with one typesetter at a time, the time that the engine alone
spent on its pages, their ratio, the same build with all cores, and the peak memory of the build's own process and of
the largest typesetter.
A machine's speed drifts, so only the ratio of one run means anything.
"""

from __future__ import annotations

import json
import resource
import sys
import tempfile
import time
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from patchwright import driver, workers
from patchwright.files import Project, find_patterns
from patchwright.typesetting.engine import TypstEngine
from patchwright.typesetting.themes import Theme

PATTERNS = Path(__file__).resolve().parents[2] / "patterns"
_MEASURES = "measures of the job before"
"""The name under which a typesetter hands back what it measured."""

_compose = TypstEngine.compose
_typeset = workers.typeset


@dataclass(frozen=True, slots=True)
class MeasuredJob:
    """A job that also tells the engine's seconds and the peak memory of its process."""

    job: workers.Pages

    def make(self, theme: Theme) -> tuple[workers.Made, ...]:
        """Do the job and add its measures as one more file."""
        seconds = 0.0

        def compose(engine: TypstEngine, template: str, data: str) -> bytes:
            nonlocal seconds
            start = time.perf_counter()
            try:
                return _compose(engine, template, data)
            finally:
                seconds += time.perf_counter() - start

        setattr(TypstEngine, "compose", compose)  # noqa: B010
        made = self.job.make(theme)
        measures = json.dumps({"engine": seconds, "peak": _peak()}).encode()
        return (*made, (_MEASURES, measures, 0))


class Meter:
    """Stands in for `typeset` and gathers what the jobs measured."""

    def __init__(self) -> None:
        self.engine = 0.0
        self.peak = 0.0

    def typeset(
        self, theme: Theme, jobs: Sequence[workers.Pages], processes: int, web: Sequence[workers.WebPage] = ()
    ) -> Iterator[workers.Made]:
        """Typeset as ever, keeping the measures back."""
        measured: list[workers.Pages] = [MeasuredJob(job) for job in jobs]  # type: ignore[misc]
        for name, content, pages in _typeset(theme, measured, processes, web):
            if name == _MEASURES:
                one = json.loads(content)
                self.engine += one["engine"]
                self.peak = max(self.peak, one["peak"])
            else:
                yield name, content, pages


def _peak() -> float:
    """The most memory that this process has held, in megabytes."""
    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return most / (1024 if sys.platform != "darwin" else 1024**2)


SETS: tuple[tuple[str, tuple[str, ...]], ...] = (("all sizes", ("all-sizes",)), ("everything", ()))
"""What is built: the booklet of all sizes on both papers with the web page; and each size alone besides."""


def build(project: Project, editions: tuple[str, ...], jobs: int) -> tuple[float, int, Meter]:
    """Build one pattern; give the seconds, the pages and the measures."""
    meter = Meter()
    setattr(workers, "typeset", meter.typeset)  # noqa: B010
    with tempfile.TemporaryDirectory() as folder:
        start = time.perf_counter()
        built = driver.build_project(project, driver.BuildRequest(editions=editions, out=Path(folder), jobs=jobs))
        whole = time.perf_counter() - start
    if built.compiled.failed:
        sys.exit(f"{project.shown} does not build")
    return whole, sum(pages for _, pages in built.pages), meter


def main() -> None:
    """Build every demo pattern once to warm up, once with one typesetter at a time, and once with all cores."""
    heads = ("pattern", "set", "build s", "engine s", "ratio", "pages", "all cores s", "own MB", "typesetter MB")
    widths = (16, 10, 8, 9, 6, 6, 12, 7, 14)
    print(" ".join(f"{head:>{width}}" for head, width in zip(heads, widths, strict=True)))
    for project in find_patterns(tuple(Path(path) for path in sys.argv[1:]) or (PATTERNS,)):
        for name, editions in SETS:
            build(project, editions, driver.core_count())
            whole, pages, meter = build(project, editions, 1)
            fast, _, _ = build(project, editions, driver.core_count())
            values = (
                project.id, name, f"{whole:.2f}", f"{meter.engine:.2f}", f"{whole / meter.engine:.2f}", f"{pages}",
                f"{fast:.2f}", f"{_peak():.0f}", f"{meter.peak:.0f}",
            )  # fmt: skip
            print(" ".join(f"{value:>{width}}" for value, width in zip(values, widths, strict=True)))


if __name__ == "__main__":
    main()
