"""`plan`: every number of a pattern."""

from __future__ import annotations

import json
import sys
from pathlib import Path

import click

from patchwright.commands.exit_codes import FAULTY
from patchwright.commands.messages import compiled
from patchwright.commands.options import Exampled, in_colorway, named_path


@click.command(cls=Exampled)
@named_path
@click.option("--size", metavar="NAME", default=None, help="Print only this size.")
@in_colorway
@click.option("--json", "as_json", is_flag=True, help="Print the numbers as JSON.")
@click.option("--keep-layouts", is_flag=True, help="Keep the layouts of all colorways in a file beside the pattern.")
def plan(path: Path, size: str | None, colorway: str, as_json: bool, keep_layouts: bool) -> None:
    """Print every number of a pattern: sizes, units, pieces, strips, yardage, finishing.

    \b
    Examples:
    patchwright plan patterns/rope-walk.yaml
    patchwright plan patterns/rope-walk.yaml --size throw
    patchwright plan patterns/rope-walk.yaml --colorway winter
    patchwright plan patterns/rope-walk.yaml --json
    patchwright plan patterns/rope-walk.yaml --keep-layouts
    """
    from patchwright import driver
    from patchwright.planning.dump import plan_json
    from patchwright.planning.summary import plan_lines

    pattern = compiled(path, colorway)
    made = pattern.plan
    if made is None:
        sys.exit(FAULTY)
    if keep_layouts:
        click.echo(f"{driver.keep_layouts(pattern)}: layouts kept", err=True)
    if size is not None and size not in {known.name for known in made.sizes}:
        raise click.UsageError(f"there is no size `{size}`; there are: {', '.join(s.name for s in made.sizes)}")
    numbers = plan_json(made, size)
    if as_json:
        click.echo(json.dumps(numbers, ensure_ascii=False, indent=1))
        return
    for line in plan_lines(numbers):
        click.echo(line)
