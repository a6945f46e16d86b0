"""The command line: its commands, exit codes, and what is said when something goes wrong.

stdout carries results, stderr messages. Exit 0: clean; 1: the pattern has errors; 2: wrong usage or an internal fault.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from typing import NoReturn

import click

from patchwright.commands.exit_codes import BROKEN, CLEAN, INTERRUPTED
from patchwright.commands.registry import COMMANDS
from patchwright.files import FileTroubleError, environment


class _Program(click.Group):
    def format_help(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        with formatter.section("Examples"):
            formatter.write_dl([
                ("patchwright check patterns", ""),
                ("patchwright build patterns/rope-walk.yaml", ""),
                ("patchwright plan patterns/rope-walk.yaml --size throw", ""),
            ])
        super().format_help(ctx, formatter)


@click.group(cls=_Program, context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(package_name="patchwright", message="%(prog)s %(version)s")
def program() -> None:
    """Compile quilt patterns, written as text, into instruction booklets."""


for _command in COMMANDS:
    program.add_command(_command)


def main(arguments: Sequence[str] | None = None) -> NoReturn:
    """Run the program; nothing a person can do ends in a traceback."""
    try:
        program.main(args=list(arguments) if arguments is not None else None, standalone_mode=False)
        code = CLEAN
    except click.exceptions.Exit as done:
        code = done.exit_code
    except click.ClickException as problem:
        problem.show()
        code = BROKEN
    except (click.exceptions.Abort, KeyboardInterrupt):
        click.echo("patchwright: interrupted; earlier output is unchanged", err=True)
        code = INTERRUPTED
    except FileTroubleError as trouble:
        click.echo(f"patchwright: {trouble}", err=True)
        code = BROKEN
    except BrokenPipeError:
        sys.stderr.close()
        code = CLEAN
    except Exception as fault:
        if "PATCHWRIGHT_TRACE" in environment():
            raise
        click.echo(f"patchwright: internal fault: {type(fault).__name__}: {fault}", err=True)
        code = BROKEN
    sys.exit(code)


if __name__ == "__main__":
    main()
