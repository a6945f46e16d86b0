"""No violation that axe knows of, on every page, in every theme and color scheme; and everything works by keyboard."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from patchwright.files import installed_themes, theme_names
from web.browser import visiting
from web.pages import PATTERNS, ROOT, Made, made

pytestmark = pytest.mark.slow

THEMES = theme_names(installed_themes())
LOOKS = ("light", "dark")
DEMOS = sorted(
    path for path in (ROOT / "patterns").glob("*.yaml") if path.name != "house.yaml" and path not in PATTERNS.values()
)
"""The demo patterns that are not looked into view by view."""


def test_axe_sees_what_is_wrong(rope_walk: Made, browser: Any) -> None:
    """A page that was made worse is found out, so that finding nothing means something."""
    with visiting(browser, rope_walk.path) as visit:
        visit.page.evaluate("document.documentElement.removeAttribute('lang')")
        visit.page.evaluate("document.querySelector('select').previousElementSibling.remove()")
        visit.page.evaluate("document.querySelector('main p').style.color = '#cccccc'")
        found = {one.partition(":")[0] for one in visit.violations()}
    assert {"html-has-lang", "select-name", "color-contrast"} <= found


@pytest.mark.parametrize("look", LOOKS)
def test_no_violations_in_any_view(page: Made, browser: Any, look: str) -> None:
    with visiting(browser, page.path, look=look) as visit:
        for view in page.views:
            if view.size in ("", page.sizes[0]) and (look == "light" or view.edition == "whole"):
                visit.choose(size=view.size, show=view.edition)
                assert visit.violations() == [], view.key


@pytest.mark.parametrize("theme", THEMES)
@pytest.mark.parametrize("look", LOOKS)
def test_no_violations_in_any_theme(browser: Any, tmp_path: Path, theme: str, look: str) -> None:
    own = made(PATTERNS["rope-walk"], tmp_path, theme)
    with visiting(browser, own.path, f"size={own.sizes[0]}", look=look) as visit:
        assert visit.violations() == []
        visit.page.locator("main .step input:visible").first.check()
        visit.page.locator(".more summary").click()
        assert visit.violations() == []
        visit.page.keyboard.press("Escape")
        visit.page.locator(".enlarge:visible").first.click()
        assert visit.page.is_visible("dialog")
        assert visit.violations() == []
    with visiting(browser, own.path, width=320, look=look) as visit:
        assert visit.violations() == []


@pytest.mark.parametrize("pattern", DEMOS, ids=lambda path: str(path.stem))
def test_no_violations_in_any_pattern(browser: Any, tmp_path: Path, pattern: Path) -> None:
    """All sizes in light colors, one size in dark ones; both patterns of the tests above are seen whole in both."""
    own = made(pattern, tmp_path)
    for look, shown in zip(LOOKS, ("", f"size={own.sizes[0]}"), strict=True):
        with visiting(browser, own.path, shown, look=look) as visit:
            assert visit.violations() == []
    with visiting(browser, own.path, script=True, width=320) as visit:
        assert visit.page.evaluate("document.documentElement.scrollWidth") <= 320


@pytest.mark.parametrize("look", LOOKS)
def test_the_reader_may_choose_light_or_dark(rope_walk: Made, browser: Any, look: str) -> None:
    """The choice wins over the device's, is kept, and gives exactly the colors of a device that is set so."""
    other = LOOKS[1 - LOOKS.index(look)]
    colors = "(s => [s.color, s.backgroundColor, s.colorScheme])(getComputedStyle(document.body))"
    with visiting(browser, rope_walk.path, look=other) as visit:
        wanted = visit.page.evaluate(colors)
    context = browser.new_context(color_scheme=look)
    with visiting(browser, rope_walk.path, context=context) as visit:
        assert visit.page.evaluate(colors) != wanted
        visit.page.locator(".more summary").click()
        visit.choose(look=other)
        assert visit.page.evaluate(colors) == wanted
        visit.page.reload()
        assert visit.page.evaluate(colors) == wanted
    context.close()


def test_the_keyboard_reaches_everything(rope_walk: Made, browser: Any) -> None:
    """The Tab key alone goes through every control that is shown, in the order of the page, and is never caught."""
    with visiting(browser, rope_walk.path, f"size={rope_walk.sizes[0]}") as visit:
        page = visit.page
        wanted = page.evaluate(
            """window.stops = [...document.querySelectorAll(
                   'a[href], select, summary, input, button, [tabindex="0"]')]
                   .filter(one => one.checkVisibility() && !one.closest('[hidden], dialog, .panel')), stops.length"""
        )
        assert wanted > 40
        reached = []
        for _ in range(wanted):
            page.keyboard.press("Tab")
            reached.append(page.evaluate("stops.indexOf(document.activeElement)"))
            assert page.evaluate("document.activeElement.matches(':focus-visible')")
        assert reached == list(range(wanted))


def test_what_has_the_focus_is_never_covered(rope_walk: Made, browser: Any) -> None:
    """WCAG 2.2, 2.4.11: the bar at the top covers no control that the Tab key reaches, forward or back."""
    with visiting(browser, rope_walk.path, f"size={rope_walk.sizes[0]}", width=390, height=700) as visit:
        page = visit.page
        page.evaluate("document.querySelector('#finishing a, #finishing input, #about').scrollIntoView()")
        page.locator("main input:visible").last.focus()
        bar = "document.querySelector('.chooser').getBoundingClientRect().bottom"
        for _ in range(40):
            page.keyboard.press("Shift+Tab")
            top = page.evaluate("document.activeElement.getBoundingClientRect().bottom")
            inside = page.evaluate("!!document.activeElement.closest('main')")
            assert not inside or top > page.evaluate(bar)


def test_the_skip_link_leads_to_the_instructions(rope_walk: Made, browser: Any) -> None:
    with visiting(browser, rope_walk.path) as visit:
        visit.page.keyboard.press("Tab")
        assert visit.page.evaluate("document.activeElement.className") == "skip"
        visit.page.keyboard.press("Enter")
        assert visit.page.evaluate("document.activeElement.id") == "instructions"


def test_drawings_are_enlarged_by_keyboard(rope_walk: Made, browser: Any) -> None:
    with visiting(browser, rope_walk.path, f"size={rope_walk.sizes[0]}") as visit:
        page = visit.page
        button = page.locator("#cutting .enlarge:visible").first
        label = button.inner_text()
        button.focus()
        page.keyboard.press("Enter")
        assert page.is_visible("dialog")
        assert page.evaluate("document.activeElement.name") == "close"
        width = "document.querySelector('.enlarged-sheet svg').getBoundingClientRect().width"
        first = page.evaluate(width)
        assert first > 500, "a drawing fills the room at once"
        page.keyboard.press("+")
        assert page.evaluate(width) == pytest.approx(first * 1.5, abs=2)
        page.keyboard.press("-")
        assert page.evaluate(width) == pytest.approx(first, abs=2)
        for _ in range(12):
            page.keyboard.press("Tab")
            assert page.evaluate("document.activeElement.matches('body, dialog *')")
        page.keyboard.press("Escape")
        assert not page.is_visible("dialog")
        assert page.evaluate("document.activeElement.innerText") == label
        name = page.locator("#cutting figure:visible svg[role=img]").first
        assert name.get_attribute("aria-labelledby"), "the drawing itself is as it was"


def test_the_panel_closes_by_escape_and_by_leaving(rope_walk: Made, browser: Any) -> None:
    with visiting(browser, rope_walk.path) as visit:
        page = visit.page
        page.locator(".more summary").focus()
        page.keyboard.press("Enter")
        assert page.is_visible(".panel")
        page.keyboard.press("Tab")
        page.keyboard.press("Escape")
        assert not page.is_visible(".panel")
        assert page.evaluate("document.activeElement.tagName") == "SUMMARY"
        page.keyboard.press("Enter")
        page.locator("main h2 >> nth=0").click()
        assert not page.is_visible(".panel")
