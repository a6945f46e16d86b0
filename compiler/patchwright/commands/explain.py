"""`explain`: why a number is what it is."""

from __future__ import annotations

import json
from pathlib import Path

import click

from patchwright.commands.messages import planned
from patchwright.commands.options import Exampled, in_colorway, named_path


@click.command(cls=Exampled)
@named_path
@click.argument("about", required=False)
@click.option("--size", metavar="NAME", default=None, help="Explain only this size.")
@in_colorway
@click.option("--json", "as_json", is_flag=True, help="Print the workings as JSON.")
def explain(path: Path, about: str | None, size: str | None, colorway: str, as_json: bool) -> None:
    """Tell why a number is what it is: of a piece, unit, block, fabric, pack, finishing, pressing, kits, or a class.

    \b
    Examples:
    patchwright explain patterns/rope-walk.yaml A1
    patchwright explain patterns/rope-walk.yaml deck --size throw
    patchwright explain patterns/rope-walk.yaml binding
    patchwright explain patterns/rope-walk.yaml sea --colorway winter
    """
    from patchwright.planning.workings import explain as explain_plan
    from patchwright.planning.workings import known_names
    from patchwright.wording import load_explanations

    made = planned(path, colorway)
    names = known_names(made)
    if about is None or about not in names:
        problem = "name what to explain" if about is None else f"there is no `{about}` to explain"
        raise click.UsageError(f"{problem}; there are: {', '.join(names)}")
    workings = explain_plan(made, about, size)
    if as_json:
        rows = [
            {"about": w.about, "size": w.size, "rule": w.rule, "values": dict(w.values), "at": str(w.span)}
            for w in workings
        ]
        click.echo(json.dumps(rows, ensure_ascii=False, indent=1))
        return
    templates = load_explanations(made.rules.language)
    shown = ""
    for working in workings:
        if working.size != shown:
            shown = working.size
            click.echo(f"{working.about}, {shown}:")
        place = f"  ({working.span})" if working.span.path else ""
        click.echo(f"  {templates[working.rule].format_map(dict(working.values))}{place}")
