"""Figures as files of their own: true size in every format, words for them, and names that stay."""

from __future__ import annotations

import io
from dataclasses import replace
from functools import cache
from pathlib import Path
from xml.etree import ElementTree

import pikepdf
import pytest
from PIL import Image

from driver.running import exit_code
from patchwright import composing, driver
from patchwright.diagrams.scene import Scene
from patchwright.files import find_patterns
from patchwright.tasks.proofs import drawings_of
from patchwright.typesetting import single_figures
from patchwright.typesetting.single_figures import FORMATS, TooManyFiguresError, figure_files
from typesetting.booklet_sample import block, harbor, quilt, strip_layout

SCENES = (block("block-coil"), quilt("layout-throw", 20, 24, 0.25), strip_layout("cutting/c strip"))


@cache
def made() -> dict[str, bytes]:
    return dict(figure_files(SCENES, harbor(), FORMATS, "en"))


def test_every_figure_is_there_in_every_format_under_its_own_name() -> None:
    stems = ("block-coil", "layout-throw", "cutting-c-strip")
    assert set(made()) == {f"{stem}.{format}" for stem in stems for format in FORMATS}
    assert dict(figure_files(SCENES * 2, harbor(), FORMATS, "en")) == made(), "the same bytes, and each once"


@pytest.mark.parametrize("scene", SCENES, ids=lambda scene: scene.id)
def test_all_formats_have_the_figure_s_true_size_and_words(scene: Scene) -> None:
    name = scene.id.replace("/", "-").replace(" ", "-")
    svg = ElementTree.fromstring(made()[f"{name}.svg"])
    assert float(svg.attrib["width"].removesuffix("in")) == pytest.approx(scene.width, abs=0.001)
    picture = Image.open(io.BytesIO(made()[f"{name}.png"])).convert("RGB")
    assert picture.size == pytest.approx((scene.width * 300, scene.height * 300), abs=1.5)
    assert len(picture.getcolors(1 << 24) or ()) > 4, "something is drawn"
    with pikepdf.open(io.BytesIO(made()[f"{name}.pdf"])) as pdf:
        (page,) = pdf.pages
        sides = [float(side) for side in page.MediaBox][2:]
        assert sides == pytest.approx([scene.width * 72, scene.height * 72], abs=0.1)
        assert str(pdf.Root.ViewerPreferences.PrintScaling) == "/None"
        words = {str(one.Alt) for one in pdf.objects if isinstance(one, pikepdf.Dictionary) and "/Alt" in one}
        assert words == {scene.description}


def test_a_large_figure_has_no_more_pixels_than_the_bound() -> None:
    large = replace(block("large"), width=60.0, height=40.0)
    picture = Image.open(io.BytesIO(dict(figure_files((large,), harbor(), ("png",), "en"))["large.png"]))
    assert max(picture.size) == pytest.approx(single_figures.MOST_PIXELS, abs=2)


def test_figures_are_bounded(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(single_figures, "MOST_FIGURES", 2)
    with pytest.raises(TooManyFiguresError, match="more than 2"):
        list(figure_files(SCENES, harbor(), ("svg",), "en"))


PATTERN = """\
dialect: 1
pattern: Buoy
release: 1
lengths: inches
fabrics: {a: {name: Chalk, color: ffffff}, b: {name: Ink, color: 202020}}
blocks: {yard: {cell: 4 in, rows: [[a, b], [b, a]]}}
quilt: {arrange: [[yard]], binding: {fabric: b}, backing: {}}
sizes: {lap: {across: 2, down: 3}, wall: {across: 1, down: 1}}
"""


def test_a_build_writes_figures_where_they_are_asked_for(tmp_path: Path) -> None:
    (tmp_path / "buoy.yaml").write_text(PATTERN, encoding="utf-8")
    wanted = ("--edition", "coloring", "--paper", "a4", "--size", "lap")
    assert exit_code("build", tmp_path / "buoy.yaml", "--out", tmp_path / "out", *wanted, "--figures", "svg,pdf") == 0
    names = {file.name for file in (tmp_path / "out" / "buoy" / "buoy-figures").iterdir()}
    assert {"layout-lap.svg", "layout-lap.pdf", "block-yard.svg", "block-yard.pdf"} <= names
    assert not any("wall" in name or name.endswith(".png") for name in names)
    assert exit_code("build", tmp_path / "buoy.yaml", "--out", tmp_path / "other", *wanted) == 0
    assert not (tmp_path / "other" / "buoy" / "buoy-figures").exists()


def test_an_unknown_format_is_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "buoy.yaml").write_text(PATTERN, encoding="utf-8")
    assert exit_code("build", tmp_path / "buoy.yaml", "--figures", "svg,tiff") == 2
    assert "there are: svg, png, pdf" in capsys.readouterr().err


def test_figures_of_every_booklet_are_written(tmp_path: Path) -> None:
    """Those that only booklets of one size show, too: every drawing of any booklet has a file."""
    (tmp_path / "buoy.yaml").write_text(PATTERN.replace("binding", "borders: [{width: 2 in, fabric: a}], binding"))
    (project,) = find_patterns((tmp_path / "buoy.yaml",))
    compiled = driver.compile_project(project)
    assert compiled.plan is not None
    shown = {
        scene.id
        for one in composing.compose(compiled.plan, harbor(), (), ("all-sizes", "one-size"), 0)
        for scene in drawings_of(one.booklet)
    }
    assert {"border-1-lap", "border-1-wall", "coloring-lap", "coloring-wall"} <= shown
    wanted = ("--edition", "coloring", "--paper", "a4", "--figures", "svg")
    assert exit_code("build", tmp_path / "buoy.yaml", "--out", tmp_path / "out", *wanted) == 0
    names = {file.name for file in (tmp_path / "out" / "buoy" / "buoy-figures").iterdir()}
    assert {f"{id}.svg" for id in shown} <= names
