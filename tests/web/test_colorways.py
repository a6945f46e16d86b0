"""Colorways on a page: what is chosen has its own colors, names and numbers; what is drawn alike stands once."""

from __future__ import annotations

import io
import re
from pathlib import Path
from typing import Any

import pytest
from PIL import Image, ImageChops

from driver.running import SMALL
from patchwright.typesetting.booklet_tree import booklet_tree
from patchwright.typesetting.drawings import Drawings
from patchwright.typesetting.web_drawings import Pen, drawn
from patchwright.typesetting.web_views import View, web_tree
from web.browser import visiting
from web.pages import Made, made

pytestmark = [pytest.mark.slow, pytest.mark.xdist_group("web")]

PATTERN = SMALL + """\
  twin: {across: 4, down: 5}
colorways:
  winter: {name: Winter harbor, fabrics: {rope: {name: Ice, color: 22344c}}}
  regatta: {fabrics: {rope: {color: d9a441}, deck: {name: Flags, color: b5523b, fussy: 4 in x 5 in}}}
"""
WAYS = ("", "winter", "regatta")


@pytest.fixture(scope="module")
def colored(tmp_path_factory: pytest.TempPathFactory) -> Made:
    folder = tmp_path_factory.mktemp("colored")
    (folder / "sail.yaml").write_text(PATTERN, encoding="utf-8")
    return made(folder / "sail.yaml", folder)


def _view(page: Made, colorway: str, size: str = "") -> View:
    return next(v for v in page.views if (v.edition, v.size, v.colorway) == ("whole", size, colorway))


def test_names_of_colors_mean_the_colors_of_each_colorway(colored: Made) -> None:
    """Each view's drawings, with the colors that its colorway gives to the names, are those of that view alone."""
    pen = Pen(Drawings(colored.theme.look), colored.theme.tokens)
    tree = web_tree(colored.views, pen)
    rules = dict(re.findall(r":root([^{]*)\{([^}]*)\}", tree.colors))
    assert list(rules) == ["", '[data-color="winter"]', '[data-color="regatta"]']
    values = {way: dict(re.findall(r"(--c\d+):(#\w{6});", rules[rule])) for way, rule in zip(WAYS, rules, strict=True)}
    shown = {drawing.inside for drawing in (*tree.drawings.values(), *tree.swatches.values())}
    found = 0
    for view in colored.views:
        given = {_with_colors(inside, values[view.colorway]) for inside in shown}
        for scene in booklet_tree(view.booklet).scenes.values():
            assert drawn(scene, pen.drawings).inside in given, (view.key, scene.id)
            found += 1
    assert found > 100


def _with_colors(inside: str, colors: dict[str, str]) -> str:
    return re.sub(r"var\((--c\d+)\)", lambda name: colors[name[1]], inside)


def test_a_page_of_all_colorways_is_hardly_larger(colored: Made) -> None:
    """What differs is told by color alone, but for the colorway whose cloth is cut by its motifs."""
    plain = [view for view in colored.views if view.colorway != "regatta"]
    one = [view for view in plain if not view.colorway]
    drawings = [web_tree(views, Pen(Drawings(colored.theme.look), colored.theme.tokens)).drawings
                for views in (one, plain, colored.views)]
    assert len(drawings[0]) == len(drawings[1]), "no drawing stands twice"
    assert len(drawings[0]) < len(drawings[2]) < 2 * len(drawings[0])


@pytest.mark.parametrize("colorway", WAYS)
def test_a_colorway_shows_its_own_booklet(colored: Made, browser: Any, tmp_path: Path, colorway: str) -> None:
    """Text and pictures, also enlarged, are those of a page of this booklet alone."""
    alone = tmp_path / "alone.html"
    with visiting(browser, colored.path) as visit:
        for size in ("", "twin"):
            colored.alone([_view(colored, colorway, size)], alone)
            visit.page.locator(".more summary").click()
            visit.choose(size=size, color=colorway)
            visit.page.keyboard.press("Escape")
            with visiting(browser, alone) as other:
                for part in ("header", "main"):
                    assert visit.visible_text(part) == other.visible_text(part)
                for number in (0, 3):
                    difference = ImageChops.difference(_enlarged(visit.page, number), _enlarged(other.page, number))
                    assert max(difference.tobytes()) < 16, (size, number)
        colors = "getComputedStyle(document.documentElement).getPropertyValue('--c0')"
        on_screen = visit.page.evaluate(colors)
        visit.page.emulate_media(media="print")
        assert visit.page.evaluate(colors) == on_screen != ""


def _enlarged(page: Any, number: int) -> Image.Image:
    """A picture of one of the drawings, where it lies alike on every page; edges may be smoothed otherwise."""
    page.locator(".drawing:visible .enlarge").nth(number).click()
    picture = page.locator(".enlarged-sheet").screenshot()
    page.keyboard.press("Escape")
    return Image.open(io.BytesIO(picture)).convert("RGB")


def test_the_choice_is_kept_and_told_in_the_address(colored: Made, browser: Any) -> None:
    context = browser.new_context()
    with visiting(browser, colored.path, context=context) as visit:
        visit.page.locator("select[name=color]").focus()
        visit.page.keyboard.press("ArrowDown")
        assert visit.page.input_value("select[name=color]") == "winter"
        assert visit.page.url.endswith("#color=winter")
        assert "Ice" in " ".join(visit.visible_text("main"))
        visit.page.reload()
        assert visit.page.input_value("select[name=color]") == "winter"
    with visiting(browser, colored.path, "color=regatta", context=context) as visit:
        assert visit.page.evaluate("document.documentElement.dataset.color") == "regatta"
        options = visit.page.locator("select[name=color] option").all_inner_texts()
        assert options == ["Original colors", "Winter harbor", "Regatta"]
    context.close()


def test_without_the_script_the_own_colors_are_shown(colored: Made, browser: Any, tmp_path: Path) -> None:
    alone = colored.alone([_view(colored, "")], tmp_path / "alone.html")
    with visiting(browser, colored.path, script=False) as visit, visiting(browser, alone, script=False) as other:
        assert visit.visible_text("body") == other.visible_text("body")
        colors = "getComputedStyle(document.documentElement).getPropertyValue('--c0')"
        assert visit.page.evaluate(colors) == "#a9482f"


@pytest.mark.parametrize("look", ["light", "dark"])
def test_it_is_fit_for_every_reader(colored: Made, browser: Any, look: str) -> None:
    with visiting(browser, colored.path, "color=regatta", look=look, width=320, height=640) as visit:
        assert visit.violations() == []
        assert visit.page.locator(".chooser").bounding_box()["height"] <= 80
        assert visit.page.evaluate("document.documentElement.scrollWidth") <= 320
        visit.page.locator(".more summary").click()
        visit.choose(show="by-block")
        assert visit.violations() == []
