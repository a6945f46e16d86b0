"""The catalogue over an output folder: whole, steady, kept by partial builds, and fit for every reader."""

from __future__ import annotations

import json
import re
import shutil
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from driver.running import exit_code
from patchwright.files import installed_themes, theme_names
from patchwright.typesetting.catalogue import CardError, Listed, card_text, make_card, read_card, write_catalogue
from patchwright.wording import load_wording
from web.browser import COLORS, visiting
from web.pages import PATTERNS, views_of

pytestmark = [pytest.mark.slow, pytest.mark.xdist_group("web")]

PATTERN = """\
dialect: 1
pattern: {title}
release: 1
summary: One sail, many ways.
skill: beginner
lengths: inches
fabrics: {{rope: {{name: Rope, color: a9482f}}, deck: {{name: Deck, color: 2b2f36}}}}
units: {{turn: {{half-square: [rope, deck]}}}}
blocks: {{coil: {{cell: 3 in, rows: [[turn, rope], [deck, turn@90]]}}}}
quilt: {{arrange: [[coil]], binding: {{fabric: deck}}, backing: {{}}}}
sizes: {{lap: {{across: 4, down: 5}}, throw: {{across: 6, down: 7}}}}
colorways: {{dusk: {{name: Dusk & dawn, fabrics: {{rope: {{color: 5c5470}}}}}}}}
"""
SCRIPT = "<script>alert(1)</script>"


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The output folder of two patterns."""
    folder = tmp_path_factory.mktemp("catalogue")
    _write(folder, "bow", "Bow Line")
    _write(folder, "anchor", "Anchor Row")
    assert exit_code("build", folder / "patterns", "--out", folder / "out", "--paper", "a4") == 0
    return folder


def test_every_pattern_is_there_with_links_that_lead_somewhere(built: Path) -> None:
    page = (built / "out/index.html").read_text("utf-8")
    assert re.findall(r"<h2><a [^>]*>([^<]*)</a></h2>", page) == ["Anchor Row", "Bow Line"]
    links = [link for link in re.findall(r'href="([^"]*)"', page) if not link.startswith("#")]
    assert len(links) == 2 * (1 + 2 + 2 + 3), "the page, its sizes, its colorways, and three PDF files of each"
    for link in links:
        assert (built / "out" / link.partition("#")[0]).is_file()
    assert {"anchor/anchor.html#size=lap", "anchor/anchor-throw-a4.pdf"} <= set(links)
    assert {"anchor/anchor.html#color=", "anchor/anchor.html#color=dusk"} <= set(links)
    assert len(re.findall(r"<span>Dusk &amp; dawn</span></a>", page)) == 2
    assert page.count("#5c5470") >= 2, "pictures of the colorways have their colors"
    assert "All sizes, A4" in page
    assert "Throw, A4" in page


def test_a_partial_build_keeps_the_others_and_a_repeated_one_the_bytes(built: Path) -> None:
    before = (built / "out/index.html").read_bytes()
    for arguments in (["--size", "lap"], ["--no-cache"], []):
        assert exit_code("build", built / "patterns/bow.yaml", "--out", built / "out", "--paper", "a4", *arguments) == 0
        assert (built / "out/index.html").read_bytes() == before
    assert exit_code("build", built / "patterns", "--out", built / "again", "--paper", "a4", "--jobs", "1") == 0
    assert (built / "again/index.html").read_bytes() == before


def test_a_pattern_that_is_gone_or_broken_is_left_out(built: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    shutil.copytree(built / "out", out)
    (out / "anchor/anchor.card.json").write_text('{"format": 2}', encoding="utf-8")
    assert exit_code("build", built / "patterns/bow.yaml", "--out", out, "--paper", "a4") == 0
    assert re.findall(r"<h2><a [^>]*>([^<]*)</a></h2>", (out / "index.html").read_text("utf-8")) == ["Bow Line"]


def test_a_page_of_another_is_never_replaced(built: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    out.mkdir()
    (out / "index.html").write_text("<p>My own page", encoding="utf-8")
    assert exit_code("build", built / "patterns/bow.yaml", "--out", out, "--paper", "a4") != 0
    assert (out / "index.html").read_text("utf-8") == "<p>My own page"
    assert (out / "bow/bow.html").is_file(), "the booklets are built all the same"


@pytest.mark.parametrize("look", ["light", "dark"])
def test_it_is_fit_for_every_reader(built: Path, browser: Any, look: str) -> None:
    with visiting(browser, built / "out/index.html", look=look) as visit:
        visit.page.locator("details summary").first.click()
        assert visit.violations() == []
    with visiting(browser, built / "out/index.html", look=look, width=320) as visit:
        assert visit.violations() == []
        assert visit.page.evaluate("document.documentElement.scrollWidth") <= 320


@pytest.mark.parametrize("name", theme_names(installed_themes()))
@pytest.mark.parametrize("look", ["light", "dark"])
def test_it_is_fit_in_every_theme(browser: Any, tmp_path: Path, name: str, look: str) -> None:
    views, theme, drawings = views_of(PATTERNS["rope-walk"], name)
    card = make_card(views, theme, drawings)
    other = replace(card, id="other", publisher="Another House", title="Word" * 60, summary="", facts=())
    page = tmp_path / "index.html"
    listed = [Listed(card, (("rope-walk.html", 2_000_000), ("rope-walk-a4.pdf", 1_234_567))), Listed(other, ())]
    page.write_text(write_catalogue(listed, theme, load_wording("en")), encoding="utf-8")
    with visiting(browser, page, look=look) as visit:
        for width in (320, 1280):
            visit.page.set_viewport_size({"width": width, "height": 900})
            assert visit.violations(() if look == "light" else COLORS) == []
            assert visit.page.evaluate("document.documentElement.scrollWidth") <= width


def test_the_choice_of_light_or_dark_is_the_booklets(built: Path, browser: Any) -> None:
    context = browser.new_context(color_scheme="light")
    with visiting(browser, built / "out/index.html", context=context) as visit:
        visit.choose(look="dark")
        dark = visit.page.evaluate("getComputedStyle(document.body).backgroundColor")
    with visiting(browser, built / "out/bow/bow.html", context=context) as visit:
        assert visit.page.evaluate("getComputedStyle(document.body).backgroundColor") == dark
    context.close()


def test_without_the_script_every_link_is_there(built: Path, browser: Any) -> None:
    with visiting(browser, built / "out/index.html", script=False) as visit:
        assert visit.page.locator("h2 a:visible").count() == 2
        assert visit.page.locator("select:visible").count() == 0


def test_cards_come_back_and_others_are_refused() -> None:
    views, theme, drawings = views_of(PATTERNS["rope-walk"])
    card = make_card(views, theme, drawings)
    text = card_text(card)
    assert read_card(text) == card
    loaded = json.loads(text)
    for wrong in (
        "", "[]", "7", "{}", "[" * 100_000, json.dumps(loaded | {"format": 1}), json.dumps(loaded | {"title": 7}),
        json.dumps(loaded | {"sizes": [["a", "b"]]}),
        json.dumps(loaded | {"colorways": [["", "Own", SCRIPT, 'viewBox="0 0 1 1"', "A quilt."]]}),
        json.dumps(loaded | {"colorways": [["", "Own", "", 'viewBox="0 0 1 1" onload="x"', "A quilt."]]}),
        json.dumps(loaded | {"colorways": [["", "Own", ""]]}), json.dumps(loaded | {"more": "x"}),
        json.dumps(loaded | {"picture": SCRIPT}), json.dumps(loaded | {"picture": '<path onload="x"/><g>'}),
        json.dumps(loaded | {"picture": '<image href="https://example.com"/>'}),
        json.dumps(loaded | {"box": 'viewBox="0 0 1 1" onload="x"'}),
    ):
        with pytest.raises(CardError):
            read_card(wrong)


def test_words_on_a_card_are_never_markup() -> None:
    views, theme, drawings = views_of(PATTERNS["rope-walk"])
    card = replace(make_card(views, theme, drawings), title=SCRIPT, summary=SCRIPT, alt='"' + SCRIPT)
    page = write_catalogue([Listed(card, ())], theme, load_wording("en"))
    assert SCRIPT not in page
    assert page.count("&lt;script&gt;") >= 3


def _write(folder: Path, name: str, title: str) -> None:
    (folder / "patterns").mkdir(exist_ok=True)
    (folder / "patterns" / f"{name}.yaml").write_text(PATTERN.format(title=title), encoding="utf-8")
