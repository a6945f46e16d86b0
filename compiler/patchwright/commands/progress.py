"""How far a long command has come, on stderr where a person watches; nothing otherwise."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from threading import Timer

from patchwright.files import environment

Tell = Callable[[str, str], None]
"""Takes a pattern's name and its step; an empty step says that the pattern is done."""


PATIENCE = 1.0
"""Seconds after which a person is told what takes so long."""


@contextmanager
def waiting(what: str) -> Iterator[None]:
    """Say what is being done, once it has taken a while."""
    if not sys.stderr.isatty():
        yield
        return
    with ExitStack() as shown:

        def show() -> None:
            from rich.console import Console

            console = Console(stderr=True, no_color="NO_COLOR" in environment())
            shown.enter_context(console.status(what))

        timer = Timer(PATIENCE, show)
        timer.daemon = True
        timer.start()
        try:
            yield
        finally:
            timer.cancel()
            timer.join()


@contextmanager
def progress(total: int = 0) -> Iterator[Tell]:
    """A bar over so many patterns; without a number, one over each that shows only while it is at work."""
    if not sys.stderr.isatty():
        yield lambda name, step: None
        return
    from rich.console import Console
    from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn

    console = Console(stderr=True, no_color="NO_COLOR" in environment())
    columns = (TextColumn("{task.description}"), BarColumn(), *([MofNCompleteColumn()] if total else []))
    with Progress(*columns, console=console, transient=True) as bar:
        task = bar.add_task("", total=total or None)

        def advance(name: str, step: str) -> None:
            # The bar goes away before anything else is printed.
            if not total and not step:
                bar.stop()
                return
            bar.start()
            bar.update(task, description=f"{name} {step}".strip(), advance=0 if step or not total else 1)

        if not total:
            bar.stop()
        yield advance
