"""Every demo pattern in both themes, read back from its PDFs: pages audited and pictured.

The pictures, with a sheet of all pages for each booklet, stand in `build/proofs` afterwards, to be looked at.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from booklets.test_every_look import PROOFS, THEMES, prove_all
from demos import DEMOS, compiled, in_theme
from patchwright.driver import BuildRequest, Compiled
from patchwright.files import Project
from patchwright.tasks import proofs

pytestmark = [pytest.mark.slow, pytest.mark.xdist_group("demos")]

PAGES = {
    "harbor-twelve": (57, 40, 55), "lantern-row": (34, 21, 29), "molenfeuer": (28, 21, 28),
    "mooring-chain": (26, 17, 23), "net-loft": (28, 20, 28), "tidemark": (33, 21, 29), "twelve-berths": (55, 46, 55),
}
"""The most pages that a demo's booklets of all sizes on Letter, of its last size on A4, and of that size's half pages
have; what a buyer prints is no longer."""
MOST = (54, 46, 55)
"""The same for a demo whose figures are not stated."""
SCANT = {"net-loft": 1, "twelve-berths": 1}
"""Pages left less than half full within sections, where a demo has any."""


@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_every_demo_has_sound_pages(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """All sizes in one theme on one paper, and further editions of one size in the other on the other."""

    def compiled_before(project: Project, effort: str, theme: str, colorway: str) -> Compiled:
        assert (project.pattern, effort, colorway) == (path, "best", "")
        return in_theme(path, theme)

    monkeypatch.setattr(proofs, "compile_project", compiled_before)
    made, _ = compiled(path)
    assert made.plan is not None
    whole = BuildRequest((), ("all-sizes",), ("letter",), THEMES[0], PROOFS)
    single = BuildRequest((made.plan.sizes[-1].name,), ("one-size", "fold"), ("a4",), THEMES[1], PROOFS)
    counts = []
    for request in (whole, single):
        proved = prove_all(path, request)
        assert {proof.file: proof.faults for proof in proved.proofs if proof.faults} == {}
        scant = {proof.file: proof.scant for proof in proved.proofs if proof.scant}
        assert sum(map(len, scant.values())) <= SCANT.get(path.stem, 0), scant
        sheets = f"{made.plan.id}-fold-{made.plan.sizes[-1].name}-a4.pdf"
        counts += [proof.pages for proof in proved.proofs if proof.file != sheets]
    assert all(count <= most for count, most in zip(counts, PAGES.get(path.stem, MOST), strict=True)), counts
