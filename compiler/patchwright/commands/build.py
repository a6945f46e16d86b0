"""`build`: the booklets of patterns."""

from __future__ import annotations

import json
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from patchwright.commands.exit_codes import BROKEN, CLEAN, FAULTY
from patchwright.commands.messages import report
from patchwright.commands.options import (
    Exampled,
    in_colorway,
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

if TYPE_CHECKING:
    from patchwright.driver import Built


@click.command(cls=Exampled)
@named_paths
@only_sizes
@only_editions
@click.option("--paper", "papers", multiple=True, type=click.Choice(["letter", "a4"]), help="Build for this paper.")
@in_colorway
@theme_name
@output_folder
@click.option("--kits", type=click.IntRange(1, 1000), default=None, help="Kits for a shop.  [default: the house's]")
@click.option("--jobs", type=click.IntRange(1, 64), default=None, help="Processes side by side.  [default: the cores]")
@click.option(
    "--figures", default="", metavar="FORMATS", help="Write every figure too: svg, png, pdf, with commas between them."
)
@no_cache
@click.option("--json", "as_json", is_flag=True, help="Print what was built as JSON.")
@messages_style
@strictly
def build(
    paths: tuple[Path, ...], sizes: tuple[str, ...], editions: tuple[str, ...], papers: tuple[str, ...],
    colorway: str, theme: str, out: Path, kits: int | None, jobs: int | None, figures: str, no_cache: bool,
    as_json: bool, style: str, strict: bool,
) -> None:
    """Build booklets: PDF for every paper, in all sizes and in each, and one web page.

    \b
    Examples:
    patchwright build patterns
    patchwright build patterns/rope-walk.yaml --size throw --paper a4
    patchwright build patterns --out booklets --jobs 2
    patchwright build patterns/rope-walk.yaml --colorway winter
    patchwright build patterns --json
    patchwright build patterns/rope-walk.yaml --figures svg,png
    patchwright build patterns/rope-walk.yaml --edition large-print --edition kit --kits 24
    """
    from patchwright.driver import BuildRequest
    from patchwright.files import FileTroubleError, find_patterns
    from patchwright.tasks.building import SharedOutputError, build_all

    if as_json and style not in ("human", "short"):
        raise click.UsageError("--json and --format both print to the standard output; take one of them")
    request = BuildRequest(
        sizes, editions, papers, theme, out, colorway, kits or 0, jobs or 0, _formats(figures), not no_cache
    )
    projects = find_patterns(paths)
    try:
        with progress(len(projects)) as tell:
            results = build_all(projects, request, tell)
    except SharedOutputError as problem:
        raise click.UsageError(str(problem)) from None
    troubles = [one for one in results if isinstance(one, FileTroubleError)]
    built = [one for one in results if not isinstance(one, FileTroubleError)]
    failed = report([one.compiled for one in built], style, strict)
    if as_json:
        told = {"format": 1, "patterns": [_as_json(one) for one in built]}
        click.echo(json.dumps(told, ensure_ascii=False, indent=1))
    elif style in ("human", "short"):
        _print_files(built)
    for trouble in troubles:
        click.echo(f"patchwright: {trouble}", err=True)
    sys.exit(BROKEN if troubles else FAULTY if failed else CLEAN)


def _as_json(built: Built) -> dict[str, Any]:
    """What was made of one pattern; pages of PDFs only."""
    pages = dict(built.pages)
    return {
        "pattern": built.compiled.project.id,
        "path": built.compiled.project.shown,
        "built": not built.compiled.failed,
        "folder": str(built.folder),
        "files": [{"file": name} | ({"pages": pages[name]} if name in pages else {}) for name in built.files],
    }


def _print_files(built: Sequence[Built]) -> None:
    """What was made, a line for each file."""
    for one in built:
        pages = dict(one.pages)
        for name in one.files:
            click.echo(f"{one.folder / name}" + (f"  {pages[name]} pages" if name in pages else ""))


def _formats(written: str) -> tuple[str, ...]:
    """The formats of figures asked for, each once."""
    from patchwright.typesetting.single_figures import FORMATS

    named = tuple(dict.fromkeys(word.strip() for word in written.split(",") if word.strip()))
    unknown = [name for name in named if name not in FORMATS]
    if unknown:
        raise click.BadParameter(f"`{unknown[0]}` is no format of figures; there are: {', '.join(FORMATS)}",
                                 param_hint="--figures")  # fmt: skip
    return named
