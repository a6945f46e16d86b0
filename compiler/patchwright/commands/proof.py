"""`proof`: pictures of all pages, and what is wrong with them."""

from __future__ import annotations

import sys
from functools import partial
from pathlib import Path

import click

from patchwright.commands.exit_codes import CLEAN, FAULTY
from patchwright.commands.messages import report
from patchwright.commands.options import (
    Exampled,
    in_colorway,
    messages_style,
    named_paths,
    only_editions,
    only_sizes,
    theme_name,
)
from patchwright.commands.progress import progress


@click.command(cls=Exampled)
@named_paths
@only_sizes
@only_editions
@click.option("--paper", "papers", multiple=True, type=click.Choice(["letter", "a4"]), help="Prove for this paper.")
@in_colorway
@theme_name
@click.option(
    "--out", type=click.Path(path_type=Path), default="build/proofs", show_default=True, help="Folder of pictures."
)
@messages_style
def proof(
    paths: tuple[Path, ...], sizes: tuple[str, ...], editions: tuple[str, ...], papers: tuple[str, ...], colorway: str,
    theme: str, out: Path, style: str,
) -> None:
    """Show every page as a picture, and check finished pages.

    Type below the theme's least, words or drawings over the margins, drawings out of scale or without words for them,
    missing glyphs and fonts that are not embedded are read from the finished PDF; pages less than half full where no
    section ends are named.

    \b
    Examples:
    patchwright proof patterns/rope-walk.yaml
    patchwright proof patterns --edition large-print --edition fold --theme kiln
    patchwright proof patterns/rope-walk.yaml --colorway winter
    """
    from patchwright.driver import BuildRequest
    from patchwright.files import find_patterns
    from patchwright.tasks.proofs import prove

    request = BuildRequest(sizes, editions, papers, theme, out, colorway)
    projects = find_patterns(paths)
    with progress(len(projects)) as tell:
        proved = []
        for project in projects:
            proved.append(prove(project, request, partial(tell, project.id)))
            tell(project.id, "")
    failed = report([one.compiled for one in proved], style, False)
    for one in proved:
        for made in one.proofs:
            scant = f", scant: {', '.join(map(str, made.scant))}" if made.scant else ""
            click.echo(f"{one.folder / made.file.removesuffix('.pdf')}-sheet.png  {made.pages} pages{scant}")
            for fault in made.faults:
                failed = True
                place = f"page {fault.page}" if fault.page else "document"
                click.echo(f"  {place}: {fault.kind}: {fault.about}")
    sys.exit(FAULTY if failed else CLEAN)
