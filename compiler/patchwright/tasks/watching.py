"""Builds patterns whenever one of their files changes."""

from __future__ import annotations

import time
from collections.abc import Callable
from pathlib import Path

from patchwright.driver import BuildRequest, Built, build_project
from patchwright.files import find_patterns, watched_state


def watch(
    paths: tuple[Path, ...], request: BuildRequest, done: Callable[[Built], None], every: float = 0.5
) -> None:
    """Build patterns now and again whenever one of their files changes, until interrupted.

    A pattern with mistakes, or files that are in the way, do not end the watching: `done` is told what came of each.
    """
    known: dict[str, tuple[tuple[str, int], ...]] = {}
    while True:
        for project in find_patterns(paths):
            state = watched_state(project)
            if known.get(project.shown) != state:
                known[project.shown] = state
                done(build_project(project, request))
        time.sleep(every)
