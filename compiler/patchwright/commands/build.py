"""`build`: the booklets of patterns."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from patchwright.commands.exit_codes import CLEAN, FAULTY
from patchwright.commands.messages import report
from patchwright.commands.options import (
    Exampled,
    messages_style,
    named_paths,
    no_cache,
    only_editions,
    only_sizes,
    output_folder,
    strictly,
    theme_name,
)
from patchwright.commands.progress import progress


@click.command(cls=Exampled)
@named_paths
@only_sizes
@only_editions
@click.option("--paper", "papers", multiple=True, type=click.Choice(["letter", "a4"]), help="Build for this paper.")
@theme_name
@output_folder
@click.option("--kits", type=click.IntRange(1, 1000), default=None, help="Kits for a shop.  [default: the house's]")
@click.option("--jobs", type=click.IntRange(1, 64), default=None, help="Processes side by side.  [default: the cores]")
@no_cache
@messages_style
@strictly
def build(
    paths: tuple[Path, ...], sizes: tuple[str, ...], editions: tuple[str, ...], papers: tuple[str, ...], theme: str,
    out: Path, kits: int | None, jobs: int | None, no_cache: bool, style: str, strict: bool,
) -> None:
    """Build booklets: PDF for every paper, in all sizes and in each, and one web page.

    \b
    Examples:
    patchwright build patterns
    patchwright build patterns/rope-walk.yaml --size throw --paper a4
    patchwright build patterns --out booklets --jobs 2
    patchwright build patterns/rope-walk.yaml --edition large-print --edition kit --kits 24
    """
    from patchwright.driver import BuildRequest
    from patchwright.files import find_patterns
    from patchwright.tasks.building import SharedOutputError, build_all
    from patchwright.typesetting.content.editions import EDITIONS

    unknown = [name for name in editions if name not in EDITIONS]
    if unknown:
        raise click.UsageError(f"there is no edition `{unknown[0]}`; there are: {', '.join(EDITIONS)}")
    request = BuildRequest(sizes, editions, papers, theme, out, kits or 0, jobs or 0, not no_cache)
    projects = find_patterns(paths)
    try:
        with progress(len(projects)) as tell:
            built = build_all(projects, request, tell)
    except SharedOutputError as problem:
        raise click.UsageError(str(problem)) from None
    failed = report([one.compiled for one in built], style, strict)
    for one in built:
        for name in one.files:
            pages = dict(one.pages).get(name)
            click.echo(f"{one.folder / name}" + (f"  {pages} pages" if pages is not None else ""))
    sys.exit(FAULTY if failed else CLEAN)
