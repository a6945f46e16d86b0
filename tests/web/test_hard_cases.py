"""Titles without end, words without a break, twelve sizes and thirty fabrics: nothing is clipped, nothing overlaps."""

from __future__ import annotations

from typing import Any

import pytest

from web.browser import visiting
from web.pages import Made, made

pytestmark = [pytest.mark.slow, pytest.mark.xdist_group("web")]

LONG = "Donaudampfschifffahrtselektrizitätenhauptbetriebswerk"
FABRICS = "\n".join(
    f"  f{number}: {{name: {LONG if number == 3 else f'Cloth {number}'}, color: {40 + number * 7:02x}6080}}"
    for number in range(30)
)
ROWS = ", ".join("[" + ", ".join(f"f{row * 6 + column}" for column in range(6)) + "]" for row in range(5))
SIZES = "\n".join(
    f"  size-{number}: {{name: {LONG if number == 2 else f'Size {number}'}, across: 1, down: {number}}}"
    for number in range(1, 13)
)
PATTERN = f"""\
dialect: 1
pattern: {LONG * 2} and a title that goes on for a very long time
release: 1
summary: {"Word" * 40}
lengths: inches
fabrics:
{FABRICS}
blocks: {{patchwork: {{cell: 2 in, rows: [{ROWS}]}}}}
quilt: {{arrange: [[patchwork]], binding: {{fabric: f0}}, backing: {{}}}}
sizes:
{SIZES}
"""


@pytest.fixture(scope="module")
def hard(tmp_path_factory: pytest.TempPathFactory) -> Made:
    folder = tmp_path_factory.mktemp("hard")
    path = folder / "hard.yaml"
    path.write_text(PATTERN, encoding="utf-8")
    return made(path, folder, editions=("all-sizes",))


@pytest.mark.parametrize("width", [320, 1280])
@pytest.mark.parametrize("size", ["", "size-2", "size-12"])
def test_nothing_is_wider_than_the_screen_or_clipped(hard: Made, browser: Any, size: str, width: int) -> None:
    with visiting(browser, hard.path, f"size={size}", width=width) as visit:
        assert visit.page.evaluate("document.documentElement.scrollWidth") <= width
        clipped = visit.page.evaluate(
            """[...document.querySelectorAll('h1, h2, h3, p, li, td, th, dt, dd, caption, figcaption')]
               .filter(one => one.checkVisibility() && !one.closest('.panel'))
               .filter(one => one.scrollWidth > one.clientWidth + 1 && getComputedStyle(one).overflow !== 'visible')
               .map(one => one.outerHTML.slice(0, 90))"""
        )
        assert clipped == []


def test_numbers_are_in_sight_beside_a_long_name(hard: Made, browser: Any) -> None:
    """On a phone the column that stays in sight leaves at least half of a table's room to the numbers."""
    with visiting(browser, hard.path, "size=size-2", width=320) as visit:
        wide = visit.page.evaluate(
            """[...document.querySelectorAll('tbody th')].filter(one => one.checkVisibility())
               .map(one => one.getBoundingClientRect().width / one.closest('.scroll').clientWidth)"""
        )
        assert len(wide) > 30
        assert max(wide) <= 0.55


def test_twelve_sizes_can_be_chosen(hard: Made, browser: Any) -> None:
    with visiting(browser, hard.path) as visit:
        assert visit.page.locator("select[name=size] option").count() == 13
        for name in hard.sizes:
            visit.choose(size=name)
            heads = "#table-sizes thead th:visible, [id^='table-sizes--'] thead th:visible"
            assert visit.page.locator(heads).count() == 2
