"""`rules`: explains messages by their codes."""

from __future__ import annotations

import click

from patchwright.commands.options import Exampled


@click.command(cls=Exampled)
@click.argument("code", required=False)
def rules(code: str | None) -> None:
    """Explain a message by its code, or list all codes.

    \b
    Examples:
    patchwright rules
    patchwright rules row-width-mismatch
    """
    from patchwright.core.codes import load_codes
    from patchwright.wording import read_package_file

    known = load_codes(read_package_file("codes-en.yaml"))
    if code is None:
        for name, entry in known.items():
            click.echo(f"{name}: {entry.summary}")
        return
    if code not in known:
        from patchwright.core.diagnostics import nearest_names

        raise click.UsageError("; ".join([f"there is no code `{code}`", *nearest_names(code, known)]))
    entry = known[code]
    click.echo(f"{code}: {entry.summary}\n\n{entry.explanation}\n")
    click.echo("Wrong:\n" + _indented(entry.wrong) + "\n\nRight:\n" + _indented(entry.right))


def _indented(text: str) -> str:
    return "\n".join(f"  {line}" if line else "" for line in text.rstrip().splitlines())
