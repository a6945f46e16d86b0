"""How far a long command has come, on stderr where a person watches; nothing otherwise."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager

from patchwright.files import environment

Tell = Callable[[str, str], None]
"""Takes a pattern's name and its step; an empty step says that the pattern is done."""


@contextmanager
def progress(total: int) -> Iterator[Tell]:
    """A bar over so many patterns."""
    if not sys.stderr.isatty():
        yield lambda name, step: None
        return
    from rich.console import Console
    from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn

    console = Console(stderr=True, no_color="NO_COLOR" in environment())
    columns = (TextColumn("{task.description}"), BarColumn(), MofNCompleteColumn())
    with Progress(*columns, console=console, transient=True) as bar:
        task = bar.add_task("", total=total)

        def advance(name: str, step: str) -> None:
            bar.update(task, description=f"{name} {step}".strip(), advance=0 if step else 1)

        yield advance
