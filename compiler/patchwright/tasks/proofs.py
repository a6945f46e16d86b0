"""Proofs of a pattern: every booklet built, looked at from the finished PDF, and shown as pictures of its pages.

In: a pattern, and which sizes, editions, papers and theme to prove.
Out: a folder of pictures for each pattern, and the faults of its pages.
Never: a booklet taken over from an earlier build; what is proved is what a build from nothing makes.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from patchwright import composing
from patchwright.composing import Composed
from patchwright.driver import BuildRequest, Compiled, Tell, compile_project, load_project_theme
from patchwright.files import Project, whole_folder, write_file
from patchwright.proofing.audit import PageFault, Promise, audit
from patchwright.proofing.fullness import scant_pages
from patchwright.proofing.pictures import contact_sheet, page_pictures, png
from patchwright.typesetting.booklet import Block, Booklet, Figure, FigureRow, Notice, Step
from patchwright.typesetting.content.editions import EDITIONS
from patchwright.typesetting.folding import PAGES_ENDING

if TYPE_CHECKING:
    from patchwright.diagrams.scene import Scene


@dataclass(frozen=True, slots=True)
class Proof:
    """One PDF that was proved."""

    file: str
    pages: int
    faults: tuple[PageFault, ...]
    scant: tuple[int, ...] = ()
    """Numbers of pages that are left less than half full, though no section ends on them."""


@dataclass(frozen=True, slots=True)
class Proved:
    """All proofs of one pattern."""

    compiled: Compiled
    folder: Path
    proofs: tuple[Proof, ...] = ()


def prove(project: Project, request: BuildRequest, tell: Tell = lambda step: None) -> Proved:
    """Build, audit and picture the booklets of one pattern, into a folder of its own for each theme."""
    from dataclasses import replace

    tell("plan")
    compiled = compile_project(project, "best", request.theme, colorway=request.colorway)
    if compiled.plan is None or compiled.failed:
        return Proved(compiled, request.out / project.id)
    name = compiled.plan.rules.theme
    folder = request.out / name / compiled.plan.id
    theme, mistakes = load_project_theme(project, name)
    if theme is None:
        return Proved(replace(compiled, plan=None, diagnostics=compiled.diagnostics + mistakes), folder)
    papers = tuple(request.papers or compiled.plan.rules.papers)
    proofs: list[Proof] = []
    with whole_folder(folder, request.is_partial) as fresh:
        booklets = composing.compose(
            compiled.plan, theme, request.sizes, request.editions, request.kits, pictures=compiled.pictures
        )
        for one in booklets:
            for proof, pictures in _proofs(one, papers):
                tell(proof.file)
                proofs.append(proof)
                for picture, content in pictures:
                    write_file(fresh / picture, content)
    return Proved(compiled, folder, tuple(proofs))


def _proofs(one: Composed, papers: tuple[str, ...]) -> Iterator[tuple[Proof, list[tuple[str, bytes]]]]:
    """The proofs of one booklet, and the pictures of its pages with the sheet of all of them."""
    from patchwright.workers import Pages

    drawings = tuple(drawings_of(one.booklet))
    for paper in papers:
        job = Pages.of(one.booklet, one.theme, (paper,), one.drawings, one.folded)
        promise = Promise(
            one.theme.tokens.paper(paper), one.theme.tokens.type.minimum, EDITIONS[one.edition].upright, drawings,
            one.booklet.cover.figure.scene.description,
        )
        for file, content, pages in job.make():
            is_sheet = one.folded and not file.endswith(PAGES_ENDING)
            pictures = page_pictures(content)
            stem = file.removesuffix(".pdf")
            named = [(f"{stem}-{number:03}.png", png(page)) for number, page in enumerate(pictures, 1)]
            named.append((f"{stem}-sheet.png", png(contact_sheet(pictures))))
            if is_sheet:
                yield Proof(file, pages, ()), named
            else:
                yield Proof(file, pages, audit(content, promise), scant_pages(content, promise.paper)), named


def drawings_of(booklet: Booklet) -> Iterator[Scene]:
    """Every drawing of a booklet that stands in it at its own size: all but the cover's picture."""
    for section in booklet.sections:
        for block in section.blocks:
            yield from _drawings_of(block)


def _drawings_of(block: Block) -> Iterator[Scene]:
    if isinstance(block, Figure):
        yield block.scene
    elif isinstance(block, FigureRow):
        yield from (figure.scene for figure in block.figures)
    elif isinstance(block, Step | Notice):
        for inner in block.blocks:
            yield from _drawings_of(inner)
