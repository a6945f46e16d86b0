"""The command line: arguments, exit codes, and everything that is printed.

stdout carries results, stderr messages. Exit 0: clean; 1: the pattern has errors; 2: wrong usage or an internal fault.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any, NoReturn

import click

from patchwright.files import FileTroubleError, environment

if TYPE_CHECKING:
    from patchwright.core.diagnostics import Diagnostic
    from patchwright.core.source import Source
    from patchwright.driver import BuildRequest, Built, Compiled
    from patchwright.planning.plan import Plan

CLEAN, FAULTY, BROKEN, INTERRUPTED = 0, 1, 2, 130
FORMATS = ("human", "short", "json", "github", "gitlab", "sarif")


class _Examples(click.Command):
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


class _Program(click.Group):
    command_class = _Examples

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


_paths = click.argument("paths", nargs=-1, required=True, type=click.Path(path_type=Path))
_path = click.argument("path", type=click.Path(path_type=Path))
_format = click.option(
    "--format", "style", type=click.Choice(FORMATS), default="human", show_default=True, help="How to print messages."
)
_strict = click.option("--strict", is_flag=True, help="Treat warnings as errors.")
_theme = click.option("--theme", default="", metavar="NAME", help="Use this theme instead of the house's.")


@program.command()
@_paths
@_format
@_strict
@_theme
def check(paths: tuple[Path, ...], style: str, strict: bool, theme: str) -> None:
    """Read patterns and report every mistake, without building anything.

    \b
    Examples:
    patchwright check patterns
    patchwright check patterns/rope-walk.yaml --strict
    patchwright check patterns --format github
    """
    from patchwright import driver

    results = list(driver.check(paths, theme))
    failed = _report(results, style, strict)
    if style == "human":
        for result in results:
            if not result.failed:
                click.echo(f"{result.project.shown}: good")
    sys.exit(FAULTY if failed else CLEAN)


@program.command()
@_paths
@click.option("--size", "sizes", multiple=True, metavar="NAME", help="Build only this size (may be repeated).")
@click.option("--edition", "editions", multiple=True, metavar="NAME", help="Build only this edition (repeatable).")
@click.option("--paper", "papers", multiple=True, type=click.Choice(["letter", "a4"]), help="Build for this paper.")
@_theme
@click.option("--out", type=click.Path(path_type=Path), default="build", show_default=True, help="Output folder.")
@click.option("--kits", type=click.IntRange(1, 1000), default=None, help="Kits for a shop.  [default: the house's]")
@click.option("--jobs", type=click.IntRange(1, 64), default=None, help="Processes side by side.  [default: the cores]")
@_format
@_strict
def build(
    paths: tuple[Path, ...], sizes: tuple[str, ...], editions: tuple[str, ...], papers: tuple[str, ...], theme: str,
    out: Path, kits: int | None, jobs: int | None, style: str, strict: bool,
) -> None:
    """Build booklets: PDF for every paper, in all sizes and in each, and one web page.

    \b
    Examples:
    patchwright build patterns
    patchwright build patterns/rope-walk.yaml --size throw --paper a4
    patchwright build patterns --out booklets --jobs 2
    patchwright build patterns/rope-walk.yaml --edition large-print --edition kit --kits 24
    """
    from patchwright import driver
    from patchwright.typesetting.content.editions import EDITIONS

    unknown = [name for name in editions if name not in EDITIONS]
    if unknown:
        raise click.UsageError(f"there is no edition `{unknown[0]}`; there are: {', '.join(EDITIONS)}")
    request = driver.BuildRequest(sizes, editions, papers, theme, out, kits or 0, jobs or 0)
    built = _build_all(paths, request)
    failed = _report([one.compiled for one in built], style, strict)
    for one in built:
        for name in one.files:
            pages = dict(one.pages).get(name)
            click.echo(f"{one.folder / name}" + (f"  {pages} pages" if pages is not None else ""))
    sys.exit(FAULTY if failed else CLEAN)


@program.command()
@_paths
@click.option("--size", "sizes", multiple=True, metavar="NAME", help="Build only this size (may be repeated).")
@click.option("--edition", "editions", multiple=True, metavar="NAME", help="Build only this edition (repeatable).")
@click.option("--out", type=click.Path(path_type=Path), default="build", show_default=True, help="Output folder.")
def watch(paths: tuple[Path, ...], sizes: tuple[str, ...], editions: tuple[str, ...], out: Path) -> None:
    """Build patterns whenever they change, until interrupted with Ctrl-C.

    \b
    Examples:
    patchwright watch patterns
    patchwright watch patterns/rope-walk.yaml --size throw
    """
    from patchwright import driver

    def done(built: Built) -> None:
        failed = _report([built.compiled], "human", False)
        state = "not built" if failed else f"{len(built.files)} files"
        click.echo(f"{built.compiled.project.shown}: {state}")

    driver.watch(paths, driver.BuildRequest(sizes, editions, (), "", out), done)


@program.command()
@_path
@click.option("--size", metavar="NAME", default=None, help="Print only this size.")
@click.option("--json", "as_json", is_flag=True, help="Print the numbers as JSON.")
@click.option("--keep-layouts", is_flag=True, help="Keep the cutting layouts in a file beside the pattern.")
def plan(path: Path, size: str | None, as_json: bool, keep_layouts: bool) -> None:
    """Print every number of a pattern: sizes, units, pieces, strips, yardage, finishing.

    \b
    Examples:
    patchwright plan patterns/rope-walk.yaml
    patchwright plan patterns/rope-walk.yaml --size throw
    patchwright plan patterns/rope-walk.yaml --json
    patchwright plan patterns/rope-walk.yaml --keep-layouts
    """
    from patchwright import driver
    from patchwright.planning.dump import plan_json
    from patchwright.planning.summary import plan_lines

    compiled = _compiled(path)
    made = compiled.plan
    if made is None:
        sys.exit(FAULTY)
    if keep_layouts:
        click.echo(f"{driver.keep_layouts(compiled)}: layouts kept", err=True)
    if size is not None and size not in {known.name for known in made.sizes}:
        raise click.UsageError(f"there is no size `{size}`; there are: {', '.join(s.name for s in made.sizes)}")
    numbers = plan_json(made, size)
    if as_json:
        click.echo(json.dumps(numbers, ensure_ascii=False, indent=1))
        return
    for line in plan_lines(numbers):
        click.echo(line)


@program.command()
@_path
@click.option("--json", "as_json", is_flag=True, help="Print the plans as JSON.")
@click.option("--out", type=click.Path(path_type=Path), default=None, help="Draw the layouts as SVG into this folder.")
@_format
def cut(path: Path, as_json: bool, out: Path | None, style: str) -> None:
    """Plan the cutting of bare lists of pieces, without a pattern: least cloth, strips, layouts.

    \b
    Examples:
    patchwright cut pieces.yaml
    patchwright cut pieces.yaml --json
    patchwright cut pieces.yaml --out build/pieces
    """
    from patchwright import driver
    from patchwright.planning.cutlist import list_json
    from patchwright.planning.summary import list_lines

    lists = driver.cut_lists(path)
    failed = _messages(lists.diagnostics, lists.sources, style)
    if as_json:
        click.echo(json.dumps([list_json(made) for made in lists.plans], ensure_ascii=False, indent=1))
    else:
        for made in lists.plans:
            for line in list_lines(list_json(made)):
                click.echo(line)
    if out is not None and lists.plans:
        for name in driver.draw_lists(lists, out):
            click.echo(f"{out / name}", err=as_json)
    sys.exit(FAULTY if failed else CLEAN)


@program.command()
@_path
@click.argument("about", required=False)
@click.option("--size", metavar="NAME", default=None, help="Explain only this size.")
@click.option("--json", "as_json", is_flag=True, help="Print the workings as JSON.")
def explain(path: Path, about: str | None, size: str | None, as_json: bool) -> None:
    """Tell why a number is what it is: of a piece, unit, block, fabric, pack, the finishing, or a shop's kits.

    \b
    Examples:
    patchwright explain patterns/rope-walk.yaml A1
    patchwright explain patterns/rope-walk.yaml deck --size throw
    patchwright explain patterns/rope-walk.yaml binding
    """
    from patchwright import driver
    from patchwright.planning.workings import explain as explain_plan
    from patchwright.planning.workings import known_names
    made = _planned(path)
    names = known_names(made)
    if about is None or about not in names:
        problem = "name what to explain" if about is None else f"there is no `{about}` to explain"
        raise click.UsageError(f"{problem}; there are: {', '.join(names)}")
    workings = explain_plan(made, about, size)
    if as_json:
        rows = [
            {"about": w.about, "size": w.size, "rule": w.rule, "values": dict(w.values), "at": str(w.span)}
            for w in workings
        ]
        click.echo(json.dumps(rows, ensure_ascii=False, indent=1))
        return
    templates = driver.explanation_templates(made.rules.language)
    shown = ""
    for working in workings:
        if working.size != shown:
            shown = working.size
            click.echo(f"{working.about}, {shown}:")
        place = f"  ({working.span})" if working.span.path else ""
        click.echo(f"  {templates[working.rule].format_map(dict(working.values))}{place}")


@program.command()
@click.argument("old", type=click.Path(path_type=Path))
@click.argument("new", type=click.Path(path_type=Path))
@click.option("--json", "as_json", is_flag=True, help="Print the differences as JSON.")
def compare(old: Path, new: Path, as_json: bool) -> None:
    """Tell which numbers differ between two states of a pattern; each is a pattern or a kept plan.json.

    \b
    Examples:
    patchwright compare old/rope-walk.yaml patterns/rope-walk.yaml
    patchwright compare build/rope-walk/plan.json patterns/rope-walk.yaml
    """
    from patchwright.proofing.comparison import compare as compare_plans

    differences = compare_plans(_numbers(old), _numbers(new))
    if as_json:
        rows = [{"place": list(one.place), "old": one.old, "new": one.new} for one in differences]
        click.echo(json.dumps(rows, ensure_ascii=False, indent=1))
        return
    for one in differences:
        click.echo(f"{' / '.join(one.place)}: {one.old or '(nothing)'} → {one.new or '(nothing)'}")
    if not differences:
        click.echo("no number differs")


@program.command()
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


@program.command()
@click.option("--house", is_flag=True, help="The schema of house.yaml instead of patterns.")
@click.option("--out", type=click.Path(path_type=Path), default=None, help="Write to a file instead of printing.")
def schema(house: bool, out: Path | None) -> None:
    """Print the JSON Schema by which editors complete and check patterns while typing.

    \b
    Examples:
    patchwright schema --out pattern.schema.json
    patchwright schema --house --out house.schema.json
    """
    from patchwright.dialect.schema import house_json_schema, json_schema, schema_text

    text = schema_text(house_json_schema() if house else json_schema())
    if out is None:
        click.echo(text, nl=False)
        return
    try:
        out.write_text(text, encoding="utf-8")
    except OSError as trouble:
        raise FileTroubleError(f"{out}: {trouble.strerror}") from None


@program.command()
@_path
@click.option("--title", default=None, help="Title of the pattern.  [default: from the file's name]")
@click.option("--metric", is_flag=True, help="Design it in centimeters.")
def new(path: Path, title: str | None, metric: bool) -> None:
    """Write a small pattern to start from; an existing file is never touched.

    \b
    Examples:
    patchwright new patterns/harbor-lights.yaml
    patchwright new patterns/harbor-lights.yaml --title "Harbor Lights" --metric
    """
    from patchwright.driver import start_pattern

    written = start_pattern(path, title or path.stem.replace("-", " ").replace("_", " ").title(), metric)
    click.echo(f"{written}: written")


def _planned(path: Path) -> Plan:
    """The plan of one pattern; reports its messages, and ends the program where there is none."""
    made = _compiled(path).plan
    if made is None:
        sys.exit(FAULTY)
    return made


def _numbers(path: Path) -> dict[str, Any]:
    """The numbers of a pattern, or of a plan that was written by a build."""
    from patchwright.files import read_plan
    from patchwright.planning.dump import plan_json

    return read_plan(path) if path.suffix == ".json" else plan_json(_planned(path))


def _compiled(path: Path) -> Compiled:
    """One pattern compiled, and its messages reported."""
    from patchwright import driver
    from patchwright.files import find_patterns

    projects = find_patterns((path,))
    if len(projects) != 1:
        raise click.UsageError(f"{path} holds {len(projects)} patterns; name one")
    compiled = driver.compile_project(projects[0])
    _report([compiled], "human", False)
    return compiled


def _build_all(paths: tuple[Path, ...], request: BuildRequest) -> list[Built]:
    """Build patterns one after another, in the order named; their pages are typeset side by side."""
    from patchwright import driver
    from patchwright.files import find_patterns

    projects = find_patterns(paths)
    _refuse_shared_outputs(projects, request)
    built = []
    with _progress(len(projects)) as advance:
        for project in projects:
            built.append(driver.build_project(project, request, partial(advance, project.id)))
            advance(project.id, "")
    return built


def _refuse_shared_outputs(projects: Sequence[Any], request: BuildRequest) -> None:
    """Two patterns of one name would overwrite each other's booklets."""
    seen: dict[str, str] = {}
    for project in projects:
        if project.id in seen:
            raise click.UsageError(
                f"{project.shown} and {seen[project.id]} would both be built to {request.out / project.id}"
            )
        seen[project.id] = project.shown


@contextmanager
def _progress(total: int) -> Iterator[Callable[[str, str], None]]:
    """A progress bar on stderr where a person watches; nothing otherwise."""
    if not sys.stderr.isatty():
        yield lambda name, step: None
        return
    from rich.console import Console
    from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn

    console = Console(stderr=True, no_color="NO_COLOR" in environment())
    columns = (TextColumn("{task.description}"), BarColumn(), MofNCompleteColumn())
    with Progress(*columns, console=console, transient=True) as bar:
        task = bar.add_task("", total=total)

        def advance(name: str, step: str) -> None:
            bar.update(task, description=f"{name} {step}".strip(), advance=0 if step else 1)

        yield advance


def _report(results: Sequence[Compiled], style: str, strict: bool) -> bool:
    """Print all messages of patterns in the chosen format; whether any pattern failed."""
    from patchwright.core import report

    diagnostics = [item for result in results for item in result.diagnostics]
    if strict:
        diagnostics = list(report.raise_warnings(diagnostics))
    failed = _messages(diagnostics, [source for result in results for source in result.sources], style)
    return failed or any(result.plan is None for result in results)


def _messages(diagnostics: Sequence[Diagnostic], sources: Sequence[Source], style: str) -> bool:
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


def _indented(text: str) -> str:
    return "\n".join(f"  {line}" if line else "" for line in text.rstrip().splitlines())


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
