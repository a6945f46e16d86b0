"""The page of every demo pattern is fit for every reader; two of them are looked into view by view elsewhere."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from demos import DEMOS
from web.browser import COLORS, visiting
from web.pages import PATTERNS, made

pytestmark = [pytest.mark.slow, pytest.mark.xdist_group("demos")]


LARGE = ("harbor-twelve", "twelve-berths")
"""Pages of so many drawings that looking at all of them takes long; their dark colors are those of the other pages."""


@pytest.mark.parametrize("path", [one for one in DEMOS if one not in PATTERNS.values()], ids=lambda path: path.stem)
def test_no_violations_and_nothing_wider_than_the_screen(browser: Any, pages: Path, path: Path) -> None:
    """All rules in light colors, and those that depend on colors in dark ones.

    The page has one size, since further ones differ in numbers alone.
    """
    own = made(path, pages, sizes=1, editions=("all-sizes",))
    with visiting(browser, own.path) as visit:
        assert visit.violations() == []
        if path.stem not in LARGE:
            visit.page.emulate_media(color_scheme="dark")
            assert visit.violations(COLORS) == []
        visit.page.set_viewport_size({"width": 320, "height": 640})
        assert visit.page.evaluate("document.documentElement.scrollWidth") <= 320
