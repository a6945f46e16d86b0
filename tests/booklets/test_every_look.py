"""One pattern in every edition and theme, read back from its PDFs: pages audited and pictured, structure walked.

The pictures, with a sheet of all pages for each booklet, stand in `build/proofs` afterwards, to be looked at.
"""

from __future__ import annotations

import io
from functools import cache
from pathlib import Path
from typing import Any

import pikepdf
import pytest

from editions.test_editions import PATTERN
from patchwright import composing
from patchwright.driver import BuildRequest, compile_project, load_project_theme
from patchwright.files import find_patterns, installed_themes, theme_names
from patchwright.tasks.proofs import Proved, prove
from patchwright.typesetting.content.editions import EDITIONS
from patchwright.typesetting.pdf import write_pdf
from typesetting.structure import elements

pytestmark = [pytest.mark.slow, pytest.mark.xdist_group("looks")]

ROOT = Path(__file__).resolve().parents[2]
PROOFS = ROOT / "build" / "proofs"
THEMES = theme_names(installed_themes())
CURVED = PATTERN.replace("half-square: [rope, deck]", "quarter-circle: [rope, deck]").replace(
    "[[turn, sail], [sail, turn@90]]", "[[turn, sail 2x2], [sail 2x2, turn@90]]"
)
"""The pattern of the editions' tests with templates, so that no edition is empty."""


def prove_all(path: Path, request: BuildRequest) -> Proved:
    (project,) = find_patterns((path,))
    proved = prove(project, request)
    assert not proved.compiled.failed, proved.compiled.diagnostics
    return proved


@pytest.mark.parametrize("theme", THEMES)
def test_pages_of_every_edition_are_sound_and_pictured(tmp_path: Path, theme: str) -> None:
    (tmp_path / "every-look.yaml").write_text(CURVED, encoding="utf-8")
    request = BuildRequest(("throw",), tuple(EDITIONS), ("letter",), theme, PROOFS)
    proved = prove_all(tmp_path / "every-look.yaml", request)
    faults = {proof.file: proof.faults for proof in proved.proofs if proof.faults}
    assert faults == {}
    assert len(proved.proofs) == len(EDITIONS) + 1, "the folded edition has two files"
    for proof in proved.proofs:
        stem = proof.file.removesuffix(".pdf")
        assert (proved.folder / f"{stem}-sheet.png").is_file()
        assert (proved.folder / f"{stem}-{proof.pages:03}.png").is_file()


@cache
def finished(theme: str) -> dict[str, tuple[bytes, tuple[str, ...], str]]:
    """By edition: a PDF, the titles of its sections, and the booklet's title."""
    folder = PROOFS / "source"
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "every-look.yaml").write_text(CURVED, encoding="utf-8")
    (project,) = find_patterns((folder / "every-look.yaml",))
    compiled = compile_project(project)
    loaded, mistakes = load_project_theme(project, theme)
    assert compiled.plan is not None
    assert loaded is not None, mistakes
    made = {}
    for one in composing.compose(compiled.plan, loaded, ("throw",), tuple(EDITIONS), 0):
        pdf = write_pdf(one.booklet, one.theme, "letter", one.drawings).content
        made[one.edition] = (pdf, tuple(section.title for section in one.booklet.sections), one.booklet.title)
    return made


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize("theme", THEMES)
def test_a_reader_of_the_structure_is_served(theme: str, edition: str) -> None:
    """Tags, language, title, bookmarks, headings in order, heads of tables with their scope, words for drawings."""
    content, sections, title = finished(theme)[edition]
    with pikepdf.open(io.BytesIO(content)) as pdf:
        assert pdf.Root.MarkInfo.Marked
        assert str(pdf.Root.Lang) == "en"
        assert str(pdf.docinfo.Title) == title
        assert pdf.Root.ViewerPreferences.DisplayDocTitle
        assert str(pdf.Root.ViewerPreferences.PrintScaling) == "/None"
        assert all(str(page.get("/Tabs", "/S")) == "/S" for page in pdf.pages)
        found = list(elements(pdf.Root.StructTreeRoot.K))
        kinds = [str(one.S) for one in found]
        assert kinds.count("/H1") == len(sections)
        assert kinds.count("/Title") + kinds.count("/P") > 0
        levels = [kind for kind in kinds if kind in ("/H1", "/H2", "/H3")]
        assert not levels or levels[0] == "/H1"
        for figure in (one for one in found if str(one.S) == "/Figure"):
            assert len(str(figure.get("/Alt", "")).strip()) > 15
        with pdf.open_outline() as outline:
            assert [item.title for item in outline.root] == list(sections)
        for table in (one for one in found if str(one.S) == "/Table"):
            check_table(table)


def check_table(table: Any) -> None:
    """The first row holds heads with the scope of their column, every other begins with the head of its row.

    Cells name no heads, since a reader that is told some of them looks for no others (ISO 32000-1, 14.8.5.7, from
    memory); so all are found by their scope. Rows are as long as each other.
    """
    rows = [one for one in elements(table.K) if str(one.S) == "/TR"]
    cells = [[one for one in elements(row.K) if str(one.S) in ("/TH", "/TD")] for row in rows]
    assert len({len(row) for row in cells}) == 1
    assert all(scopes(head) == {"/Column"} for head in cells[0])
    for first, *others in cells[1:]:
        assert scopes(first) == {"/Row"}
        assert all(str(cell.S) == "/TD" and scopes(cell) == set() for cell in others)
        assert all("/Headers" not in one for cell in (first, *others) for one in attributes(cell))


def attributes(cell: Any) -> list[Any]:
    return list(cell.A) if isinstance(cell.A, pikepdf.Array) else [cell.A]


def scopes(cell: Any) -> set[str]:
    """What a head of a table is the head of."""
    return {str(one.Scope) for one in attributes(cell) if "/Scope" in one}
