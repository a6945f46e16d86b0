"""No violation that axe knows of, on every page, in every theme and color scheme; and everything works by keyboard."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from patchwright.files import installed_themes, theme_names
from web.browser import COLORS, WIDTHS, visiting
from web.pages import PATTERNS, Made, made

pytestmark = [pytest.mark.slow, pytest.mark.xdist_group("web")]

THEMES = theme_names(installed_themes())
LOOKS = ("light", "dark")


def test_axe_sees_what_is_wrong(rope_walk: Made, browser: Any) -> None:
    """A page that was made worse is found out, so that finding nothing means something."""
    with visiting(browser, rope_walk.path) as visit:
        visit.page.evaluate("document.documentElement.removeAttribute('lang')")
        visit.page.evaluate("document.querySelector('select').previousElementSibling.remove()")
        visit.page.evaluate("document.querySelector('main p').style.color = '#cccccc'")
        wrong = ("html-has-lang", "select-name", "color-contrast")
        found = {one.partition(":")[0] for one in visit.violations(wrong)}
    assert found == set(wrong)


def test_no_violations_in_a_page_with_all_that_it_holds(page: Made, browser: Any) -> None:
    with visiting(browser, page.path) as visit:
        assert visit.violations(whole=True) == []


def test_no_violations_in_any_edition(rope_walk: Made, browser: Any) -> None:
    """Every edition of one size, since others differ in numbers alone; in the dark those whose parts differ."""
    with visiting(browser, rope_walk.path) as visit:
        for edition in dict.fromkeys(view.edition for view in rope_walk.views):
            visit.choose(size=rope_walk.sizes[0], show=edition)
            assert visit.violations() == [], edition
            if edition in ("whole", "labels"):
                visit.page.emulate_media(color_scheme="dark")
                assert visit.violations(COLORS) == [], edition
                visit.page.emulate_media(color_scheme="light")


@pytest.mark.parametrize("theme", THEMES)
@pytest.mark.parametrize("look", LOOKS)
def test_no_violations_in_any_theme(browser: Any, pages: Path, theme: str, look: str) -> None:
    """With a step that is done and the panel open; with a drawing enlarged; and on a narrow screen."""
    own = made(PATTERNS["rope-walk"], pages, theme)
    rules = () if look == "light" else COLORS
    with visiting(browser, own.path, f"size={own.sizes[0]}", look=look) as visit:
        visit.page.locator("main .step input:visible").first.check()
        visit.page.locator(".more summary").click()
        assert visit.violations(rules) == []
        visit.page.keyboard.press("Escape")
        visit.page.locator(".enlarge:visible").first.click()
        assert visit.page.is_visible("dialog")
        assert visit.violations(rules, within="dialog") == []
        visit.page.keyboard.press("Escape")
        visit.page.set_viewport_size({"width": 320, "height": 640})
        assert visit.violations(WIDTHS) == []


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
