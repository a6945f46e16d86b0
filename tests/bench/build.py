"""How long builds take beside the page engine's own time for the same pages, and how much memory they need.

Prints for each demo pattern: the seconds that the engine alone spends on all its pages, one after another; a whole
build with nothing remembered, with one typesetter at a time and with all cores; their ratios to the engine, and that
of the processor time of all processes to the engine's; the build after one line of prose has changed, with the start
of the program, and what it takes beyond the engine's time in that same build; the build when nothing has changed, as a
whole process; and the peak memory of the build's own process and of the largest typesetter.
A machine's speed drifts, so only the ratios of one run mean anything.
"""

from __future__ import annotations

import json
import os
import resource
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import dataclass, fields, replace
from pathlib import Path

from patchwright import driver, workers
from patchwright.files import Project, find_patterns
from patchwright.typesetting.engine import TypstEngine

ROOT = Path(__file__).resolve().parents[2]
PATTERNS = ROOT / "patterns"
_MEASURES = "measures of the job before"
"""The name under which a typesetter hands back what it measured."""

_compose = TypstEngine.compose
_make = workers.Pages.make


@dataclass(slots=True)
class Meter:
    """What the typesetters of one build measured."""

    engine: float = 0.0
    engine_cpu: float = 0.0
    cpu: float = 0.0
    """Processor seconds of all typesetters and of the build's own process."""
    peak: float = 0.0


def _measured(job: workers.Pages) -> tuple[workers.Made, ...]:
    """Do a job, and add the engine's seconds and the peak memory of this process as one more file."""
    seconds = cpu = 0.0

    def compose(engine: TypstEngine, template: str, data: str) -> bytes:
        nonlocal seconds, cpu
        start, cpu_start = time.perf_counter(), time.process_time()
        try:
            return _compose(engine, template, data)
        finally:
            seconds += time.perf_counter() - start
            cpu += time.process_time() - cpu_start

    setattr(TypstEngine, "compose", compose)  # noqa: B010
    made = _make(job)
    measures = {"engine": seconds, "engine_cpu": cpu, "cpu": time.process_time(), "peak": _peak()}
    return (*made, (_MEASURES, json.dumps(measures).encode(), 0))


@dataclass(frozen=True, slots=True)
class MeasuredPages(workers.Pages):
    """A job that measures itself in its own process."""

    def make(self) -> tuple[workers.Made, ...]:
        return _measured(self)


def _with_measures(job: workers.Pages) -> MeasuredPages:
    return MeasuredPages(*(getattr(job, field.name) for field in fields(job)))


def measured_build(project: Project, request: driver.BuildRequest) -> tuple[float, driver.Built, Meter]:
    """Build one pattern; give the seconds, and what the typesetters measured."""
    meter = Meter()
    typeset = workers.typeset

    def metered(
        jobs: workers.Jobs, processes: int, known: Callable[[workers.Pages], tuple[workers.Made, ...] | None]
    ) -> workers.Results:
        wrapped = (_with_measures(job) if isinstance(job, workers.Pages) else job for job in jobs)
        for job, made in typeset(wrapped, processes, known):
            for name, content, _ in made:
                if name == _MEASURES:
                    one = json.loads(content)
                    meter.engine += one["engine"]
                    meter.engine_cpu += one["engine_cpu"]
                    meter.cpu += one["cpu"]
                    meter.peak = max(meter.peak, one["peak"])
            yield job, tuple(one for one in made if one[0] != _MEASURES)

    setattr(workers, "typeset", metered)  # noqa: B010
    try:
        start, cpu = time.perf_counter(), time.process_time()
        built = driver.build_project(project, request)
        seconds = time.perf_counter() - start
        meter.cpu += time.process_time() - cpu
    finally:
        setattr(workers, "typeset", typeset)  # noqa: B010
    if built.compiled.failed:
        sys.exit(f"{project.shown} does not build")
    return seconds, built, meter


def _peak() -> float:
    """The most memory that this process has held, in megabytes."""
    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return most / (1024 if sys.platform != "darwin" else 1024**2)


def process_seconds(pattern: Path, out: Path) -> tuple[float, float]:
    """Seconds and processor seconds of a build in a process of its own, start included."""
    command = [sys.executable, "-m", "patchwright.cli", "build", str(pattern), "--out", str(out)]
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    start = time.perf_counter()
    subprocess.run(
        command, check=True, env={**os.environ, "PYTHONPATH": str(ROOT / "compiler")}, stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return time.perf_counter() - start, after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def changed_prose(pattern: Path) -> None:
    """Add a sentence to the introduction, as an author would, or write a first one."""
    text = pattern.read_text(encoding="utf-8")
    mark = "introduction: |\n"
    if mark not in text:
        pattern.write_text(f"{text}\ntext:\n  introduction: |\n    A line of prose.\n", encoding="utf-8")
        return
    before, _, after = text.partition(mark)
    indent = after[: len(after) - len(after.lstrip(" "))]
    pattern.write_text(f"{before}{mark}{indent}One line of prose more.\n{after}", encoding="utf-8")


HEADS = (
    ("pattern", 16), ("pages", 6), ("engine s", 9), ("one by one s", 13), ("ratio", 6), ("all cores s", 12),
    ("ratio", 6), ("cpu ratio", 9), ("prose s", 8), ("beyond engine s", 16), ("unchanged s", 12), ("cpu s", 6),
    ("own MB", 7), ("typesetter MB", 14),
)  # fmt: skip


def row(project: Project) -> tuple[str, ...]:
    """All measurements of one pattern, in a copy of its folder."""
    with tempfile.TemporaryDirectory() as folder:
        copy = Path(folder) / "patterns"
        shutil.copytree(project.root, copy)
        pattern = copy / project.pattern.relative_to(project.root)
        (own,) = find_patterns((pattern,))
        request = driver.BuildRequest(out=Path(folder) / "out", jobs=driver.core_count())
        measured_build(own, request)
        single, built, meter = measured_build(own, replace(request, jobs=1))
        fast, _, _ = measured_build(own, request)
        process_seconds(pattern, request.out)
        unchanged, cpu = process_seconds(pattern, request.out)
        changed_prose(pattern)
        after, _, anew = measured_build(own, replace(request, remember=True))
    pages = sum(count for _, count in built.pages)
    # What an unchanged build takes is nearly all the start of the program, which the build in this process lacks.
    prose = after + unchanged
    values = (
        meter.engine, single, single / meter.engine, fast, fast / meter.engine, meter.cpu / meter.engine_cpu, prose,
        prose - anew.engine, unchanged, cpu,
    )  # fmt: skip
    return project.id, f"{pages}", *(f"{value:.2f}" for value in values), f"{_peak():.0f}", f"{meter.peak:.0f}"


def main() -> None:
    """Measure every demo pattern, or those that are named."""
    print(" ".join(f"{head:>{width}}" for head, width in HEADS))
    for project in find_patterns(tuple(Path(path) for path in sys.argv[1:]) or (PATTERNS,)):
        print(" ".join(f"{value:>{width}}" for value, (_, width) in zip(row(project), HEADS, strict=True)), flush=True)


if __name__ == "__main__":
    main()
