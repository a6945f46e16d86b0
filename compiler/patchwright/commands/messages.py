"""Prints what is wrong with patterns, for people or in the form that a tool reads.

People's messages go to stderr, a tool's to stdout.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from patchwright.commands.exit_codes import FAULTY
from patchwright.commands.progress import waiting
from patchwright.files import environment

if TYPE_CHECKING:
    from patchwright.core.diagnostics import Diagnostic
    from patchwright.core.source import Source
    from patchwright.driver import Compiled
    from patchwright.planning.plan import Plan


def planned(path: Path, colorway: str = "") -> Plan:
    """The plan of one pattern, in a colorway; prints its messages, and ends the program where there is none."""
    made = compiled(path, colorway).plan
    if made is None:
        sys.exit(FAULTY)
    return made


def compiled(path: Path, colorway: str = "") -> Compiled:
    """One pattern compiled, in its own colors or in a colorway, and its messages printed."""
    from patchwright import driver
    from patchwright.files import find_patterns

    projects = find_patterns((path,))
    if len(projects) != 1:
        raise click.UsageError(f"{path} holds {len(projects)} patterns; name one")
    with waiting(f"{projects[0].id} plan"):
        result = driver.compile_project(projects[0], colorway=colorway)
    report([result], "human", False)
    return result


def report(results: Sequence[Compiled], style: str, strict: bool) -> bool:
    """Print all messages of patterns in the chosen format; whether any pattern failed."""
    from patchwright.core.report import raise_warnings

    diagnostics = [item for result in results for item in result.diagnostics]
    if strict:
        diagnostics = list(raise_warnings(diagnostics))
    failed = print_messages(diagnostics, [source for result in results for source in result.sources], style)
    return failed or any(result.plan is None for result in results)


def print_messages(diagnostics: Sequence[Diagnostic], sources: Sequence[Source], style: str) -> bool:
    """Print messages in the chosen format; whether there are errors among them."""
    from patchwright.core import report

    if style == "human":
        _print_human(diagnostics, {source.path: source for source in sources})
    else:
        formats: dict[str, Callable[[Sequence[Diagnostic]], str]] = {
            "short": report.short_text, "json": report.json_text, "github": report.github_text,
            "gitlab": report.gitlab_text, "sarif": report.sarif_text,
        }
        click.echo(formats[style](diagnostics), nl=False)
    return any(item.severity == "error" for item in diagnostics)


def _print_human(diagnostics: Sequence[Diagnostic], sources: Mapping[str, Source]) -> None:
    from patchwright.core import report

    colored = sys.stderr.isatty() and "NO_COLOR" not in environment()
    for item in diagnostics:
        for segment in report.human_segments(item, sources):
            text = click.style(segment.text, **_STYLES.get(segment.role, {})) if colored else segment.text
            click.echo(text, err=True, nl=False)
        click.echo("", err=True)
    if diagnostics:
        click.echo(report.summary_text(diagnostics), err=True)


_STYLES: dict[str, dict[str, Any]] = {
    "error": {"fg": "red", "bold": True}, "warning": {"fg": "yellow", "bold": True}, "hint": {"fg": "cyan"},
    "place": {"bold": True}, "underline": {"fg": "red"}, "note": {"fg": "blue"}, "gutter": {"dim": True},
}
