"""Builds several patterns, and what stands over all of them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial

from patchwright.driver import BuildRequest, Built, build_project
from patchwright.files import Project

Tell = Callable[[str, str], None]
"""Takes a pattern's name and its step; an empty step says that the pattern is done."""


class SharedOutputError(Exception):
    """Two patterns would be built to one folder."""


def build_all(projects: Sequence[Project], request: BuildRequest, tell: Tell) -> tuple[Built, ...]:
    """Build patterns in the order named; the pages of each are typeset side by side."""
    _refuse_shared_outputs(projects, request)
    built = []
    for project in projects:
        built.append(build_project(project, request, partial(tell, project.id)))
        tell(project.id, "")
    return tuple(built)


def _refuse_shared_outputs(projects: Sequence[Project], request: BuildRequest) -> None:
    """Two patterns of one name would overwrite each other's booklets."""
    seen: dict[str, str] = {}
    for project in projects:
        if project.id in seen:
            raise SharedOutputError(
                f"{project.shown} and {seen[project.id]} would both be built to {request.out / project.id}"
            )
        seen[project.id] = project.shown
