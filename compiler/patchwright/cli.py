"""The command line: its commands, exit codes, and what is said when something goes wrong.

stdout carries results, stderr messages; `commands/exit_codes.py` tells what the program ends with.
"""

from __future__ import annotations

import io
import os
import signal
import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from errno import ENOSPC
from threading import current_thread, main_thread
from typing import IO, Any, NoReturn

import click

from patchwright.commands.exit_codes import BROKEN, CLEAN, ENDED, INTERRUPTED, UNREAD
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

    def invoke(self, ctx: click.Context) -> Any:
        """Run a command; where nobody reads on, what is still to be said goes nowhere."""
        try:
            return super().invoke(ctx)
        except BrokenPipeError:
            _print_no_more(sys.stdout)
            _print_no_more(sys.stderr)
            raise click.exceptions.Exit(UNREAD) from None


@click.group(cls=_Program, context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(package_name="patchwright", message="%(prog)s %(version)s")
def program() -> None:
    """Compile quilt patterns, written as text, into instruction booklets."""


for _command in COMMANDS:
    program.add_command(_command)


def main(arguments: Sequence[str] | None = None) -> NoReturn:
    """Run the program; nothing a person can do ends in a traceback."""
    sys.exit(_run(arguments))


def _run(arguments: Sequence[str] | None) -> int | str | None:
    """Run the program and give what to end with."""
    _print_in_any_encoding()
    try:
        with _ending_like_an_interrupt():
            code = program.main(args=list(arguments) if arguments is not None else None, standalone_mode=False)
    except SystemExit as done:
        return done.code
    except click.ClickException as problem:
        problem.show()
        return BROKEN
    except _AskedToEnd:
        _say("asked to end; earlier output is unchanged")
        return ENDED
    except (click.exceptions.Abort, KeyboardInterrupt):
        _say("interrupted; earlier output is unchanged")
        return INTERRUPTED
    except FileTroubleError as trouble:
        _say(str(trouble))
        return BROKEN
    except Exception as fault:
        if "PATCHWRIGHT_TRACE" in environment():
            raise
        if isinstance(fault, OSError) and fault.errno == ENOSPC:
            _print_no_more(sys.stdout)
            _say("there is no room left to write to")
        else:
            _say(f"internal fault: {type(fault).__name__}: {fault}")
        return BROKEN
    return code if isinstance(code, int) else CLEAN


def _say(text: str) -> None:
    click.echo(f"patchwright: {text}", err=True)


def _print_no_more(stream: IO[str]) -> None:
    """Let what is still to be printed, when the program ends at the latest, go nowhere."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())


def _print_in_any_encoding() -> None:
    """A character that a terminal or file cannot take is written as its number, and is no fault."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")


class _AskedToEnd(BaseException):
    """The system, or another program, wants this one to end."""


@contextmanager
def _ending_like_an_interrupt() -> Iterator[None]:
    """Let a signal to end leave everything whole, as an interrupt from the keyboard does."""
    if current_thread() is not main_thread():
        yield
        return

    def end(number: int, frame: object) -> None:
        raise _AskedToEnd

    known = [getattr(signal, name) for name in ("SIGTERM", "SIGHUP") if hasattr(signal, name)]
    heard = [number for number in known if signal.getsignal(number) is signal.SIG_DFL]
    for number in heard:
        signal.signal(number, end)
    try:
        yield
    finally:
        for number in heard:
            signal.signal(number, signal.SIG_DFL)


if __name__ == "__main__":
    main()
