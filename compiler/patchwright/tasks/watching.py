"""Builds patterns whenever one of their files changes."""

from __future__ import annotations

import time
from collections.abc import Callable
from functools import partial
from pathlib import Path

from patchwright.driver import BuildRequest, Built, build_project
from patchwright.files import FileTroubleError, find_patterns, watched_state
from patchwright.reading import Read
from patchwright.tasks.cataloguing import write_catalogue_page

State = tuple[tuple[str, int], ...]


def watch(
    paths: tuple[Path, ...],
    request: BuildRequest,
    done: Callable[[str, Built | FileTroubleError], None],
    tell: Callable[[str, str], None] = lambda name, step: None,
    every: float = 0.5,
) -> None:
    """Build patterns now and again whenever one of their files changes, until interrupted.

    A pattern with mistakes, or files that are in the way, do not end the watching: `done` is told what came of each,
    by the name that messages give it.
    """
    known: dict[str, tuple[State, tuple[Read, ...]]] = {}
    trouble = ""
    while True:
        try:
            projects = find_patterns(paths)
        except FileTroubleError as problem:
            # Told once, and looked for again: the files may come back.
            if str(problem) != trouble:
                done(", ".join(map(str, paths)), problem)
            trouble, projects = str(problem), ()
        else:
            trouble = ""
        for project in projects:
            state, reads = known.get(project.shown, ((), ()))
            if state and watched_state(project, reads) == state:
                continue
            built: Built | FileTroubleError
            before = watched_state(project, reads)
            try:
                built = build_project(project, request, partial(tell, project.id))
                write_catalogue_page(projects, request)
                reads = tuple(read for read, _ in built.reads)
            except FileTroubleError as problem:
                built = problem
            # A file that was changed while building is built again.
            now = watched_state(project, reads)
            known[project.shown] = (now if _agree(before, now) else before, reads)
            tell(project.id, "")
            done(project.shown, built)
        time.sleep(every)


def _agree(before: State, now: State) -> bool:
    """Whether no file that is in both states was changed between them."""
    then = dict(before)
    return all(then.get(name, time) == time for name, time in now)
