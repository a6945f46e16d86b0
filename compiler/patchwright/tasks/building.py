"""Builds several patterns, side by side where there are cores for them, and what stands over all of them.

In: patterns, and what a person asked for.
Out: what came of each, in the order of the patterns.
Never: one pattern kept from being built by another; a process that outlives an interrupt.
"""

from __future__ import annotations

import signal
import sys
from collections import deque
from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import replace
from functools import partial
from multiprocessing.connection import Connection, wait
from multiprocessing.process import BaseProcess

from patchwright.driver import BuildRequest, Built, build_project, core_count, earlier_build
from patchwright.files import FileTroubleError, Project
from patchwright.tasks.cataloguing import write_catalogue_page
from patchwright.workers import WorkerLostError, interrupts_left_to_us, process_context, warm_up

Tell = Callable[[str, str], None]
"""Takes a pattern's name and its step; an empty step says that the pattern is done."""


Outcome = Built | FileTroubleError
"""What a build made, or what was in its way."""


class SharedOutputError(Exception):
    """Two patterns would be built to one folder."""


class BuildFaultError(RuntimeError):
    """A build in a process of its own met a fault of the program."""


def build_all(projects: Sequence[Project], request: BuildRequest, tell: Tell) -> tuple[Outcome, ...]:
    """Build all patterns; raise the first fault of the program, if there is one, once all others are built."""
    _refuse_shared_outputs(projects, request)
    found: dict[int, Outcome | Exception] = {}
    for number, project in enumerate(projects):
        earlier = earlier_build(project, request)
        if earlier is not None:
            found[number] = earlier
            tell(project.id, "")
    changed = [(number, project) for number, project in enumerate(projects) if number not in found]
    jobs = request.jobs or core_count()
    if len(changed) < 2 or jobs < 2:
        found |= {number: _built_here(project, request, tell) for number, project in changed}
    else:
        shared = replace(request, jobs=max(1, jobs // len(changed)))
        found |= _SideBySide(changed, shared, jobs, tell).results()
    results = [found[number] for number in range(len(projects))]
    try:
        write_catalogue_page(projects, request)
    except FileTroubleError as trouble:
        results.append(trouble)
    for one in results:
        if not isinstance(one, Built | FileTroubleError):
            raise one
    return tuple(one for one in results if isinstance(one, Built | FileTroubleError))


def _built_here(project: Project, request: BuildRequest, tell: Tell) -> Outcome:
    try:
        return build_project(project, request, partial(tell, project.id))
    except FileTroubleError as trouble:
        return trouble
    finally:
        tell(project.id, "")


def _refuse_shared_outputs(projects: Sequence[Project], request: BuildRequest) -> None:
    """Two patterns of one name would overwrite each other's booklets."""
    seen: dict[str, str] = {}
    for project in projects:
        if project.id in seen:
            raise SharedOutputError(
                f"{project.shown} and {seen[project.id]} would both be built to {request.out / project.id}"
            )
        seen[project.id] = project.shown


class _SideBySide:
    """Patterns built in processes of their own, so many at a time."""

    def __init__(
        self, projects: Sequence[tuple[int, Project]], request: BuildRequest, most: int, tell: Tell
    ) -> None:
        self._waiting = deque(projects)
        self._request, self._most, self._tell = request, most, tell
        self._running: dict[Connection, tuple[int, Project, BaseProcess]] = {}
        self._results: dict[int, Outcome | Exception] = {}

    def results(self) -> dict[int, Outcome | Exception]:
        """Build all; give what came of each by its number."""
        warm_up()
        try:
            while self._waiting or self._running:
                while self._waiting and len(self._running) < self._most:
                    self._start(*self._waiting.popleft())
                for ready in wait(list(self._running)):
                    if isinstance(ready, Connection):
                        self._hear(ready)
        finally:
            for _, _, process in self._running.values():
                process.terminate()
            for _, _, process in self._running.values():
                process.join()
        return self._results

    def _start(self, number: int, project: Project) -> None:
        listener, speaker = process_context().Pipe(duplex=False)
        with interrupts_left_to_us():
            process = process_context().Process(target=_build, args=(project, self._request, speaker))
            process.start()
        speaker.close()
        self._running[listener] = (number, project, process)

    def _hear(self, listener: Connection) -> None:
        """A step, or the end, of one of the builds."""
        number, project, process = self._running[listener]
        try:
            said = listener.recv()
        except EOFError:
            process.join()
            said = WorkerLostError(f"the build of {project.shown} ended early, with exit code {process.exitcode}")
        if isinstance(said, str):
            self._tell(project.id, said)
            return
        self._results[number] = said
        del self._running[listener]
        listener.close()
        process.join()
        self._tell(project.id, "")


def _build(project: Project, request: BuildRequest, speaker: Connection) -> None:
    """A process's whole life: one pattern built, its steps told, and what came of it."""
    # Asked to end, it ends as if interrupted, so that nothing half-made is left.
    signal.signal(signal.SIGTERM, lambda *_: sys.exit(1))
    try:
        said: Outcome | Exception = build_project(project, request, speaker.send)
    except FileTroubleError as trouble:
        said = FileTroubleError(str(trouble))
    except Exception as fault:
        said = BuildFaultError(f"{project.shown}: {type(fault).__name__}: {fault}")
    with suppress(BrokenPipeError):  # Nobody waits for it any more.
        speaker.send(said)
