"""`check`: every mistake of patterns, without building anything."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import click

from patchwright.commands.exit_codes import CLEAN, FAULTY
from patchwright.commands.messages import report
from patchwright.commands.options import Exampled, messages_style, named_paths, strictly, theme_name
from patchwright.commands.progress import waiting

if TYPE_CHECKING:
    from patchwright.planning.plan import Plan


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
                for line in _reached_beds(result.plan) if result.plan is not None else ():
                    click.echo(f"  {line}")
    sys.exit(FAULTY if failed else CLEAN)


def _reached_beds(plan: Plan) -> Iterator[str]:
    """For each size that is made for a bed, how far the quilt hangs down there and lies from what was asked for."""
    from patchwright.planning.workings import explain
    from patchwright.wording import load_explanations

    for working in explain(plan, "fit"):
        if working.rule == "fit-reached":
            template = load_explanations(plan.rules.language)[working.rule]
            yield f"{working.size}: {template.format_map(dict(working.values))}"
