"""`rules`: explains messages by their codes."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import click

from patchwright.commands.options import Exampled

if TYPE_CHECKING:
    from patchwright.core.codes import Explained


@click.command(cls=Exampled)
@click.argument("code", required=False)
@click.option("--json", "as_json", is_flag=True, help="Print the explanations as JSON.")
def rules(code: str | None, as_json: bool) -> None:
    """Explain a message by its code, or list all codes.

    \b
    Examples:
    patchwright rules
    patchwright rules row-width-mismatch
    patchwright rules --json
    """
    from patchwright.core.codes import load_codes
    from patchwright.wording import read_package_file

    known = load_codes(read_package_file("codes-en.yaml"))
    if code is not None and code not in known:
        from patchwright.core.diagnostics import nearest_names

        raise click.UsageError("; ".join([f"there is no code `{code}`", *nearest_names(code, known)]))
    if as_json:
        wanted = {name: _as_json(entry) for name, entry in known.items() if code in (None, name)}
        click.echo(json.dumps(wanted, ensure_ascii=False, indent=1))
        return
    if code is None:
        for name, entry in known.items():
            click.echo(f"{name}: {entry.summary}")
        return
    entry = known[code]
    click.echo(f"{code}: {entry.summary}\n\n{entry.explanation}\n")
    click.echo("Wrong:\n" + _indented(entry.wrong) + "\n\nRight:\n" + _indented(entry.right))


def _as_json(entry: Explained) -> dict[str, str]:
    return {
        "summary": entry.summary, "explanation": entry.explanation, "wrong": entry.wrong, "right": entry.right,
    }


def _indented(text: str) -> str:
    return "\n".join(f"  {line}" if line else "" for line in text.rstrip().splitlines())
