"""What commands share: how their help begins, and the arguments and options that several of them take."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from click.shell_completion import CompletionItem

FORMATS = ("human", "short", "json", "github", "gitlab", "sarif")


class Exampled(click.Command):
    """A command whose help begins with its examples, given as the last paragraph of its docstring."""

    def format_help(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        text = self.help or ""
        about, _, examples = text.partition("Examples:")
        with formatter.section("Examples"):
            formatter.write_dl([(line.strip(), "") for line in examples.strip().splitlines() if line.strip()])
        formatter.write_paragraph()
        formatter.write_text(about.strip())
        self.format_usage(ctx, formatter)
        self.format_options(ctx, formatter)


def _known_editions(ctx: click.Context, option: click.Parameter, names: tuple[str, ...]) -> tuple[str, ...]:
    """Refuse an edition that there is not."""
    if names:
        from patchwright.typesetting.content.editions import EDITIONS

        unknown = [name for name in names if name not in EDITIONS]
        if unknown:
            raise click.UsageError(f"there is no edition `{unknown[0]}`; there are: {', '.join(EDITIONS)}", ctx)
    return names


def _begun_editions(ctx: click.Context, option: click.Parameter, begun: str) -> list[CompletionItem]:
    """The editions that begin so, for the completion of shells."""
    from click.shell_completion import CompletionItem

    from patchwright.typesetting.content.editions import EDITIONS

    return [CompletionItem(name, help=edition.doc) for name, edition in EDITIONS.items() if name.startswith(begun)]


named_paths = click.argument("paths", nargs=-1, required=True, type=click.Path(path_type=Path))
named_path = click.argument("path", type=click.Path(path_type=Path))
messages_style = click.option(
    "--format", "style", type=click.Choice(FORMATS), default="human", show_default=True, help="How to print messages."
)
strictly = click.option("--strict", is_flag=True, help="Treat warnings as errors.")
theme_name = click.option("--theme", default="", metavar="NAME", help="Use this theme instead of the house's.")
only_sizes = click.option(
    "--size", "sizes", multiple=True, metavar="NAME", help="Build only this size (may be repeated)."
)
only_editions = click.option(
    "--edition", "editions", multiple=True, metavar="NAME", callback=_known_editions,
    shell_complete=_begun_editions, help="Build only this edition (repeatable).",
)
in_colorway = click.option("--colorway", default="", metavar="NAME", help="Take this colorway of the pattern.")
output_folder = click.option(
    "--out", type=click.Path(path_type=Path), default="build", show_default=True, help="Output folder."
)
no_cache = click.option(
    "--no-cache", is_flag=True, help="Make everything anew, whatever earlier builds left; it changes no byte."
)
