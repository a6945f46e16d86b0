"""Read this first: the way of a pattern from text to booklets, one function for each arrow.

    text → (read) Declared → (resolve) Design → (plan) Plan → (verify) Plan
         → (draw) Figures → (compose) Booklets → (typeset) bytes → files

The arrows before the last line are run here, `draw` and `compose` by `composing`, and `typeset` by `workers`.

In: paths and what a person asked for.
Out: results and diagnostics; files in the output folder.
Never: a word printed, or a decision that belongs to a pass.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import TYPE_CHECKING

from patchwright import beside, composing
from patchwright.beside import load_project_theme as load_project_theme
from patchwright.composing import draw as draw
from patchwright.composing import press as press
from patchwright.core.diagnostics import Diagnostic
from patchwright.core.packed import fingerprint
from patchwright.core.source import Source, Span
from patchwright.design.design import Design
from patchwright.design.resolve import make_design
from patchwright.dialect.declared import HouseDeclaration, PatternDeclaration
from patchwright.dialect.parse import read_house, read_pattern
from patchwright.files import (
    FileTroubleError,
    Project,
    find_patterns,
    folder_holds,
    read_source,
    replace_file,
    shown_path,
    whole_folder,
    write_file,
    written_files,
)
from patchwright.planning.kept import Kept, kept_text
from patchwright.planning.plan import Plan
from patchwright.reading import Read, content_digest, noted_reads, reads_the_same
from patchwright.remembering import NOTHING, Memory, WholeBuild, planned
from patchwright.typesetting.content.prose_checks import check_prose

if TYPE_CHECKING:
    from patchwright.planning.laying import Effort
    from patchwright.typesetting.booklet import Booklet
    from patchwright.typesetting.own_pictures import OwnPictures
    from patchwright.typesetting.themes import Theme
    from patchwright.workers import Made


@dataclass(frozen=True, slots=True)
class Compiled:
    """One pattern as far as it came: a plan, or none and the reasons."""

    project: Project
    plan: Plan | None
    diagnostics: tuple[Diagnostic, ...]
    sources: tuple[Source, ...] = ()
    kept: Kept = field(default_factory=Kept, compare=False)
    """The cutting layouts that were used."""
    pictures: OwnPictures | None = field(default=None, compare=False)
    """What stands on the cover instead of the drawn quilt."""

    @property
    def failed(self) -> bool:
        return self.plan is None or any(item.severity == "error" for item in self.diagnostics)


@dataclass(frozen=True, slots=True)
class BuildRequest:
    """What to build; empty tuples mean everything."""

    sizes: tuple[str, ...] = ()
    editions: tuple[str, ...] = ()
    papers: tuple[str, ...] = ()
    theme: str = ""
    out: Path = Path("build")
    colorway: str = ""
    """The colorway that is built; the pattern's own colors where none is named."""
    kits: int = 0
    """Kits that the sheet for shops is made for; 0 for as many as the house says."""
    jobs: int = 0
    """Processes that typeset side by side; 0 for as many as there are cores."""
    figures: tuple[str, ...] = ()
    """Formats in which every figure is written as a file of its own too."""
    remember: bool = False
    """Whether to take over what earlier builds into the same folder made; it changes no byte."""

    @property
    def is_partial(self) -> bool:
        return bool(self.sizes or self.editions or self.papers)


@dataclass(frozen=True, slots=True)
class Built:
    """What a build of one pattern made."""

    compiled: Compiled
    folder: Path
    files: tuple[str, ...] = ()
    pages: tuple[tuple[str, int], ...] = ()
    """(file, pages) of every PDF."""
    reads: tuple[tuple[Read, str], ...] = ()
    """All that was read, with digests of what was found."""


@dataclass(frozen=True, slots=True)
class Ready:
    """A pattern that is ready to be drawn and set."""

    plan: Plan
    theme: Theme
    request: BuildRequest
    memory: Memory
    pictures: OwnPictures | None = None
    ways: tuple[Plan, ...] = ()
    """The pattern in its colorways, for its web page."""


Tell = Callable[[str], None]
"""Takes the step that a build has come to."""


@dataclass(slots=True)
class _Pass:
    """Collects diagnostics over the passes of one pattern; an error ends the way after its pass."""

    found: list[Diagnostic] = field(default_factory=list)

    def add(self, diagnostics: tuple[Diagnostic, ...]) -> bool:
        """Add a pass's diagnostics; whether the way goes on."""
        self.found.extend(item for item in diagnostics if item not in self.found)
        return not any(item.severity == "error" for item in self.found)


def compile_project(
    project: Project, effort: Effort = "best", theme: str = "", memory: Memory = NOTHING, colorway: str = "",
    own: Compiled | None = None,
) -> Compiled:
    """Take one pattern, in its own colors or in a colorway, as far as its plan, verified.

    Hand in what came of its `own` colors, so that what is alike in a colorway is worked out once.
    """
    source = read_source(project.pattern, project.shown)
    sources = [source]
    found = _Pass()
    declared, diagnostics = read_pattern(source)
    good = found.add(diagnostics)
    house = None
    if project.house is not None:
        house_source = read_source(project.house, shown_path(project.house))
        sources.append(house_source)
        house, diagnostics = read_house(house_source)
        good = found.add(diagnostics) and good
    kept = Kept({**own.kept.plans, **own.kept.used}) if own is not None else Kept()
    if own is None and effort == "best":
        kept, diagnostics = beside.kept_layouts(project)
        found.add(diagnostics)
    plan = None
    if good and declared is not None:
        like = own.plan if own is not None else None
        plan = _plan(project, declared, house, effort, theme, kept, memory, found, colorway, like)
    pictures = None
    if declared is not None:
        pictures, diagnostics = beside.own_pictures(project, declared, house)
        found.add(diagnostics)
    diagnostics = _without_allowed(found.found, sources)
    failed = any(item.severity == "error" for item in diagnostics)
    return Compiled(project, None if failed else plan, diagnostics, tuple(sources), kept, pictures)


def compile_colorways(
    project: Project, effort: Effort = "best", theme: str = "", memory: Memory = NOTHING, own: Compiled | None = None
) -> tuple[Compiled, tuple[Plan, ...]]:
    """Take one pattern as far as its plan in its own colors, unless that is there, and in each of its colorways.

    What is wrong in a colorway alone is reported with its name; the plans of the colorways are all or none.
    """
    own = own or compile_project(project, effort, theme, memory)
    if own.plan is None:
        return own, ()
    found, plans = list(own.diagnostics), []
    for way in own.plan.colorways:
        if not way.id:
            continue
        compiled = compile_project(project, effort, theme, memory, way.id, own)
        own.kept.used.update(compiled.kept.used)
        found += [
            replace(item, message=f"in the colorway `{way.id}`: {item.message}")
            for item in compiled.diagnostics if item not in own.diagnostics
        ]
        plans += [compiled.plan] if compiled.plan is not None else []
    whole = len(plans) == sum(1 for way in own.plan.colorways if way.id)
    compiled = replace(own, plan=own.plan if whole else None, diagnostics=tuple(found))
    return compiled, tuple(plans) if whole else ()


def _sources(project: Project) -> tuple[Source, ...]:
    """The texts that messages point into."""
    pattern = read_source(project.pattern, project.shown)
    return (pattern, read_source(project.house, shown_path(project.house))) if project.house is not None else (pattern,)


def keep_layouts(compiled: Compiled) -> Path:
    """Write the layouts of a pattern's plans, in all colorways, beside it; the earlier file is replaced as a whole."""
    if compiled.plan is not None and compiled.plan.colorway:
        compiled, _ = compile_colorways(compiled.project)
    else:
        compiled, _ = compile_colorways(compiled.project, own=compiled)
    path = compiled.project.layouts
    replace_file(path, kept_text(compiled.kept.used).encode("utf-8"))
    return Path(shown_path(path))


def _without_allowed(found: list[Diagnostic], sources: list[Source]) -> tuple[Diagnostic, ...]:
    """Leave out the warnings that comments in the texts allow; add what is wrong with those comments."""
    from patchwright.core.report import apply_allowances
    from patchwright.dialect.allowances import allowed_codes

    allowed = {}
    wrong: list[Diagnostic] = []
    for source in sources:
        allowed[source.path], mistakes = allowed_codes(source)
        wrong.extend(mistakes)
    return (*apply_allowances(found, allowed), *wrong)


def _plan(
    project: Project, declared: PatternDeclaration, house: HouseDeclaration | None, effort: Effort, theme: str,
    kept: Kept, memory: Memory, found: _Pass, colorway: str, like: Plan | None,
) -> Plan | None:
    known = [str(name) for name in declared.colorways]
    if colorway and colorway not in known:
        there = ", ".join(f"`{name}`" for name in known) or "none"
        raise FileTroubleError(f"{project.shown}: there is no colorway `{colorway}`; it has {there}")
    design, diagnostics = make_design(declared, house, project.id, colorway)
    if not found.add(diagnostics) or design is None:
        return None
    if theme:
        design = replace(design, rules=replace(design.rules, theme=theme))
    if not found.add(beside.theme_exists(project, design.rules.theme)):
        return None
    if like is not None and (recolored := _recolored(like, declared, house, project.id, design)) is not None:
        return recolored
    plan, diagnostics = planned(design, effort, kept, memory)
    if not found.add(diagnostics) or plan is None:
        return None
    faults = _added_up(plan)
    if faults:
        raise RuntimeError(f"{project.shown}: the plan does not add up: " + "; ".join(faults[:5]))
    return plan if found.add(check_prose(plan)) else None


def _added_up(plan: Plan) -> list[str]:
    from patchwright.planning.verify import verify

    return list(verify(plan))


def _recolored(
    like: Plan, declared: PatternDeclaration, house: HouseDeclaration | None, id: str, design: Design
) -> Plan | None:
    """The plan of a colorway that looks otherwise and no more, from the verified plan of the pattern's own colors."""
    from patchwright.planning.recoloring import recolored_plan

    own, _ = make_design(declared, house, id)
    return None if own is None else recolored_plan(like, replace(own, rules=design.rules), design)


def check(paths: tuple[Path, ...], theme: str = "") -> Iterator[Compiled]:
    """Check patterns quickly, in all their colorways: plain strip layouts, no drawing."""
    for project in find_patterns(paths):
        yield compile_colorways(project, "plain", theme)[0]


def compose(plan: Plan, theme: Theme, request: BuildRequest) -> tuple[tuple[str, Booklet], ...]:
    """Plan → the booklets of the editions asked for, each with drawings for its own sizes, and the edition of each."""
    composed = composing.compose(plan, theme, request.sizes, request.editions, request.kits)
    return tuple((one.edition, one.booklet) for one in composed)


def build_project(project: Project, request: BuildRequest, tell: Tell = lambda step: None) -> Built:
    """Build one pattern, whole or not at all; what an earlier build left is taken where nothing has changed since."""
    earlier = earlier_build(project, request)
    if earlier is not None:
        return earlier
    memory = Memory(request.out if request.remember else None)
    with noted_reads() as reads:
        built, digests = _build_anew(project, request, memory, tell)
    built = replace(built, reads=tuple(reads.items()))
    plan = built.compiled.plan
    if memory.is_on and plan is not None and not built.compiled.failed:
        finished = WholeBuild(built.reads, digests, built.pages, plan, built.compiled.diagnostics)
        memory.keep("build", _build_key(project, request), finished)
        memory.trim()
    return built


def earlier_build(project: Project, request: BuildRequest) -> Built | None:
    """What an earlier build made, if all that it read and wrote is still as it was."""
    memory = Memory(request.out if request.remember else None)
    known: WholeBuild | None = memory.recall("build", _build_key(project, request)) if memory.is_on else None
    folder = _folder(project, request)
    if known is None or not reads_the_same(known.reads):
        return None
    if not folder_holds(folder, known.files, not request.is_partial):
        return None
    compiled = Compiled(project, known.plan, known.diagnostics, _sources(project))
    return Built(compiled, folder, written_files(folder), known.pages, known.reads)


def _with_colorways(compiled: Compiled, request: BuildRequest, memory: Memory) -> tuple[Compiled, tuple[Plan, ...]]:
    """The plans of the colorways too, where one web page is made for all of them."""
    if compiled.plan is None or request.colorway:
        return compiled, ()
    if not composing.has_web_page(compiled.plan, request.sizes, request.editions):
        return compiled, ()
    return compile_colorways(compiled.project, "best", request.theme, memory, compiled)


def _folder(project: Project, request: BuildRequest) -> Path:
    """Where a build goes: the pattern's name, and the colorway's."""
    return request.out / (f"{project.id}-{request.colorway}" if request.colorway else project.id)


def _build_key(project: Project, request: BuildRequest) -> str:
    """What tells a build from others, but for the content of what it reads."""
    places = (str(project.pattern), project.shown, str(project.root), str(project.house))
    return fingerprint(places, replace(request, out=Path(), jobs=0))


def _build_anew(
    project: Project, request: BuildRequest, memory: Memory, tell: Tell
) -> tuple[Built, tuple[tuple[str, str], ...]]:
    """Build one pattern; give the digests of its files too."""
    from patchwright.typesetting.faults import MissingGlyphError
    from patchwright.workers import warm_up

    folder = _folder(project, request)
    tell("plan")
    warm_up()
    compiled = compile_project(project, "best", request.theme, memory, request.colorway)
    compiled, ways = _with_colorways(compiled, request, memory)
    if compiled.plan is None or compiled.failed:
        return Built(compiled, folder), ()
    unknown = [size for size in request.sizes if size not in {known.name for known in compiled.plan.sizes}]
    if unknown:
        raise FileTroubleError(f"{project.shown}: there is no size {', '.join(f'`{name}`' for name in unknown)}")
    theme, mistakes = load_project_theme(project, compiled.plan.rules.theme)
    if theme is None:
        return Built(replace(compiled, plan=None, diagnostics=compiled.diagnostics + mistakes), folder), ()
    try:
        with whole_folder(folder, request.is_partial) as fresh:
            ready = Ready(compiled.plan, theme, request, memory, compiled.pictures, ways)
            written = sorted(_write_all(ready, fresh, tell))
            files = written_files(fresh)
    except MissingGlyphError as fault:
        missing = (_missing_glyph(compiled, fault.character, fault.text),)
        return Built(replace(compiled, plan=None, diagnostics=compiled.diagnostics + missing), folder), ()
    pages = tuple((name, pages) for name, _, pages in written if pages)
    return Built(compiled, folder, files, pages), tuple((name, digest) for name, digest, _ in written)


def _missing_glyph(compiled: Compiled, character: str, text: str) -> Diagnostic:
    """A character that no font of the theme can print, at its first place in the pattern or the house file."""
    span = Span(compiled.project.shown, 1, 1, 1, 1)
    for source in compiled.sources:
        before, found, _ = source.text.partition(character)
        if found:
            line, column = before.count("\n") + 1, len(before) - before.rfind("\n")
            span = Span(source.path, line, column, line, column + 1)
            break
    return Diagnostic(
        "missing-glyph", f"no font of the theme has the character `{character}` (U+{ord(character):04X})", span,
        "error", (), ("write it in other characters", f"it is needed for: {text[:60]}"),
    )


def _write_all(ready: Ready, folder: Path, tell: Tell) -> Iterator[tuple[str, str, int]]:
    """Write each file into the fresh folder; give its name, the digest of its content, and its pages."""
    for output in OUTPUTS:
        for name, content, pages in output(ready, tell):
            tell(name)
            write_file(folder / name, content)
            yield name, content_digest(content), pages


def _booklets(ready: Ready, tell: Tell) -> Iterator[Made]:
    """The booklets of the editions asked for: PDFs, and web pages."""
    from patchwright.workers import typeset

    tell("draw")
    request, memory = ready.request, ready.memory
    composed = composing.compose(
        ready.plan, ready.theme, request.sizes, request.editions, request.kits, memory, ready.pictures, ready.ways
    )
    jobs = composing.page_jobs(composed, tuple(request.papers or ready.plan.rules.papers))
    for job, made in typeset(jobs, request.jobs or core_count(), lambda job: memory.recall("pages", job.key())):
        if job is not None:
            memory.keep("pages", job.key(), made)
        yield from made


def _numbers(ready: Ready, tell: Tell) -> Iterator[Made]:
    """Every number of a whole build, for comparing releases."""
    import json

    from patchwright.planning.dump import plan_json

    if not ready.request.is_partial:
        text = json.dumps(plan_json(ready.plan), ensure_ascii=False, indent=1) + "\n"
        yield "plan.json", text.encode("utf-8"), 0


def _figures(ready: Ready, tell: Tell) -> Iterator[Made]:
    """Every figure as a file of its own, in the formats asked for."""
    from patchwright.typesetting.single_figures import TooManyFiguresError, figure_files

    plan, request = ready.plan, ready.request
    if not request.figures:
        return
    tell("figures")
    sizes = request.sizes or tuple(size.name for size in plan.sizes)
    pressing = press(plan)
    # What booklets of one size alone have comes after what they share with those of all.
    shown = [sizes, *((size,) for size in sizes if len(sizes) > 1)]
    scenes = (
        drawn.scene for own in shown for drawn in composing.draw(plan, ready.theme, own, pressing=pressing).drawn
    )
    try:
        for name, content in figure_files(scenes, ready.theme, request.figures, plan.rules.language):
            yield f"{plan.id}-figures/{name}", content, 0
    except TooManyFiguresError as trouble:
        raise FileTroubleError(f"{plan.id}: {trouble}") from None


OUTPUTS: tuple[Callable[[Ready, Tell], Iterator[Made]], ...] = (_booklets, _numbers, _figures)
"""What a build writes into a pattern's folder; each gives files' names, bytes, and pages (0 for what is no PDF)."""


def core_count() -> int:
    """Cores that this process may use."""
    import os

    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
