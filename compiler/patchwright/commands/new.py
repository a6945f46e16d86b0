"""`new`: a small pattern to start from."""

from __future__ import annotations

from pathlib import Path

import click

from patchwright.commands.options import Exampled, named_path


@click.command(cls=Exampled)
@named_path
@click.option("--title", default=None, help="Title of the pattern.  [default: from the file's name]")
@click.option("--metric", is_flag=True, help="Design it in centimeters.")
def new(path: Path, title: str | None, metric: bool) -> None:
    """Write a small pattern to start from; an existing file is never touched.

    \b
    Examples:
    patchwright new patterns/harbor-lights.yaml
    patchwright new patterns/harbor-lights.yaml --title "Harbor Lights" --metric
    """
    from patchwright.tasks.starting import start_pattern

    written = start_pattern(path, title or path.stem.replace("-", " ").replace("_", " ").title(), metric)
    click.echo(f"{written}: written")
