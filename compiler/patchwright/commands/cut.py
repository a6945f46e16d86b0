"""`cut`: cutting plans of bare lists of pieces."""

from __future__ import annotations

import json
import sys
from pathlib import Path

import click

from patchwright.commands.exit_codes import CLEAN, FAULTY
from patchwright.commands.messages import print_messages
from patchwright.commands.options import Exampled, messages_style, named_path
from patchwright.commands.progress import waiting


@click.command(cls=Exampled)
@named_path
@click.option("--json", "as_json", is_flag=True, help="Print the plans as JSON.")
@click.option("--out", type=click.Path(path_type=Path), default=None, help="Draw the layouts as SVG into this folder.")
@messages_style
def cut(path: Path, as_json: bool, out: Path | None, style: str) -> None:
    """Plan the cutting of bare lists of pieces, without a pattern: least cloth, strips, layouts.

    \b
    Examples:
    patchwright cut pieces.yaml
    patchwright cut pieces.yaml --json
    patchwright cut pieces.yaml --out build/pieces
    """
    from patchwright.planning.cutlist import list_json
    from patchwright.planning.summary import list_lines
    from patchwright.tasks.cut_lists import cut_lists, draw_lists

    with waiting("cut"):
        lists = cut_lists(path)
    failed = print_messages(lists.diagnostics, lists.sources, style)
    if as_json:
        click.echo(json.dumps([list_json(made) for made in lists.plans], ensure_ascii=False, indent=1))
    else:
        for made in lists.plans:
            for line in list_lines(list_json(made)):
                click.echo(line)
    if out is not None and lists.plans:
        for name in draw_lists(lists, out):
            click.echo(f"{out / name}", err=as_json)
    sys.exit(FAULTY if failed else CLEAN)
