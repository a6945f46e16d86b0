"""`check`: every mistake of patterns, without building anything."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from patchwright.commands.exit_codes import CLEAN, FAULTY
from patchwright.commands.messages import report
from patchwright.commands.options import Exampled, messages_style, named_paths, strictly, theme_name
from patchwright.commands.progress import waiting


@click.command(cls=Exampled)
@named_paths
@messages_style
@strictly
@theme_name
def check(paths: tuple[Path, ...], style: str, strict: bool, theme: str) -> None:
    """Read patterns and report every mistake, without building anything.

    \b
    Examples:
    patchwright check patterns
    patchwright check patterns/rope-walk.yaml --strict
    patchwright check patterns --format github
    """
    from patchwright import driver

    with waiting("check"):
        results = list(driver.check(paths, theme))
    failed = report(results, style, strict)
    if style == "human":
        for result in results:
            if not result.failed:
                click.echo(f"{result.project.shown}: good")
    sys.exit(FAULTY if failed else CLEAN)
