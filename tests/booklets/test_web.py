"""The web booklet: one file that fetches nothing, and stays within the narrowest screen."""

from __future__ import annotations

import os
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any, cast

import pytest

from booklets.built import Built

pytestmark = pytest.mark.slow

CHROMIUM = Path("/usr/bin/chromium")


def test_the_page_holds_everything(built: Built) -> None:
    web = re.sub(r'xmlns(:\w+)?="[^"]*"', "", built.web)
    assert not re.search(r'(src|srcset|data|poster)="(?!data:)', web)
    assert not re.search(r"url\((?!['\"]?(data:|#))", web)
    assert "@import" not in web
    assert not re.search(r"<(script|link|iframe|object|embed)[^>]+(src|href)=", web)
    for target in re.findall(r'href="([^"]*)"', web):
        assert target.startswith(("#", "https:", "mailto:"))


def test_the_policy_lets_nothing_in(built: Built) -> None:
    policy = re.search(r'http-equiv="Content-Security-Policy" content="([^"]*)"', built.web)
    assert policy is not None
    assert "default-src 'none'" in policy[1].replace("&#39;", "'")
    assert "unsafe" not in policy[1]


def test_links_lead_somewhere(built: Built) -> None:
    ids = re.findall(r'\bid="([^"]*)"', built.web)
    assert len(ids) == len(set(ids))
    assert {target for target in re.findall(r'href="#([^"]*)"', built.web) if target} <= set(ids)


@pytest.mark.parametrize("width", [320, 360, 1280])
def test_nothing_is_wider_than_the_screen(built: Built, width: int) -> None:
    playwright = _playwright()
    with playwright() as session:
        browser = session.chromium.launch(executable_path=str(CHROMIUM), args=["--no-sandbox"])
        page = browser.new_page(viewport={"width": width, "height": 800})
        problems: list[str] = []
        page.on("console", lambda message: problems.append(message.text) if message.type == "error" else None)
        page.on("request", lambda request: problems.append(request.url) if request.url.startswith("http") else None)
        page.goto((built.folder / f"{built.id}.html").as_uri())
        reached = page.evaluate("document.documentElement.scrollWidth")
        sizes = page.evaluate(
            "[...document.querySelectorAll('p, td, li')].map(one => parseFloat(getComputedStyle(one).fontSize))"
        )
        browser.close()
    assert problems == []
    assert reached <= width
    assert min(sizes) >= 12


def test_choosing_a_size_hides_the_others(built: Built) -> None:
    playwright = _playwright()
    first, other = built.plan["sizes"][0], built.plan["sizes"][1]
    with playwright() as session:
        browser = session.chromium.launch(executable_path=str(CHROMIUM), args=["--no-sandbox"])
        page = browser.new_page(viewport={"width": 800, "height": 800})
        page.goto((built.folder / f"{built.id}.html").as_uri())
        page.select_option("select", str(first["size"]))
        assert page.is_visible(f"#layout-{first['size']}")
        assert not page.is_visible(f"#layout-{other['size']}")
        page.select_option("select", "")
        assert page.is_visible(f"#layout-{other['size']}")
        browser.close()


def _playwright() -> Callable[[], Any]:
    """The browser's driver; where it is missing, that is a reason to skip, unless the whole run must be complete."""
    try:
        from playwright.sync_api import sync_playwright
    except (ImportError, OSError) as reason:
        missing = str(reason)
    else:
        if CHROMIUM.exists():
            return cast(Callable[[], Any], sync_playwright)
        missing = f"{CHROMIUM} is missing"
    if os.environ.get("CI") == "true":
        pytest.fail(missing)
    pytest.skip(missing)
