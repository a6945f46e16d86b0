"""`compare`: which numbers differ between two states of a pattern."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import click

from patchwright.commands.messages import planned
from patchwright.commands.options import Exampled


@click.command(cls=Exampled)
@click.argument("old", type=click.Path(path_type=Path))
@click.argument("new", type=click.Path(path_type=Path))
@click.option("--json", "as_json", is_flag=True, help="Print the differences as JSON.")
def compare(old: Path, new: Path, as_json: bool) -> None:
    """Tell which numbers differ between two states of a pattern; each is a pattern or a kept plan.json.

    \b
    Examples:
    patchwright compare old/rope-walk.yaml patterns/rope-walk.yaml
    patchwright compare build/rope-walk/plan.json patterns/rope-walk.yaml
    """
    from patchwright.proofing.comparison import compare as compare_plans

    differences = compare_plans(_numbers(old), _numbers(new))
    if as_json:
        rows = [{"place": list(one.place), "old": one.old, "new": one.new} for one in differences]
        click.echo(json.dumps(rows, ensure_ascii=False, indent=1))
        return
    for one in differences:
        click.echo(f"{' / '.join(one.place)}: {one.old or '(nothing)'} → {one.new or '(nothing)'}")
    if not differences:
        click.echo("no number differs")


def _numbers(path: Path) -> dict[str, Any]:
    """The numbers of a pattern, or of a plan that was written by a build."""
    from patchwright.files import read_plan
    from patchwright.planning.dump import plan_json

    return read_plan(path) if path.suffix == ".json" else plan_json(planned(path))
