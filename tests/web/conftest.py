"""One browser for the session, and the pages of two patterns."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from web.browser import chromium
from web.pages import PATTERNS, Made, made


@pytest.fixture(scope="session")
def browser() -> Iterator[Any]:
    with chromium() as started:
        yield started


@pytest.fixture(scope="session")
def pages(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of all pages."""
    return tmp_path_factory.mktemp("web")


@pytest.fixture(scope="session", params=sorted(PATTERNS))
def page(request: pytest.FixtureRequest, pages: Path) -> Made:
    """The page of each pattern, in every edition."""
    return made(PATTERNS[str(request.param)], pages)


@pytest.fixture(scope="session")
def rope_walk(pages: Path) -> Made:
    return made(PATTERNS["rope-walk"], pages)
