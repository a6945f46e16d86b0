"""`watch`: builds patterns whenever they change."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from patchwright.commands.messages import report
from patchwright.commands.options import Exampled, named_paths, only_editions, only_sizes, output_folder
from patchwright.commands.progress import progress
from patchwright.files import FileTroubleError

if TYPE_CHECKING:
    from patchwright.driver import Built


@click.command(cls=Exampled)
@named_paths
@only_sizes
@only_editions
@output_folder
def watch(paths: tuple[Path, ...], sizes: tuple[str, ...], editions: tuple[str, ...], out: Path) -> None:
    """Build patterns whenever they change, until interrupted with Ctrl-C.

    \b
    Examples:
    patchwright watch patterns
    patchwright watch patterns/rope-walk.yaml --size throw
    """
    from patchwright.driver import BuildRequest
    from patchwright.tasks.watching import watch as watch_patterns

    def done(shown: str, built: Built | FileTroubleError) -> None:
        if isinstance(built, FileTroubleError):
            click.echo(f"patchwright: {built}", err=True)
            return
        failed = report([built.compiled], "human", False)
        click.echo(f"{shown}: " + ("not built" if failed else f"{len(built.files)} files"))

    with progress() as tell:
        watch_patterns(paths, BuildRequest(sizes, editions, out=out, remember=True), done, tell)
