"""The booklets are built once for a session."""

from __future__ import annotations

import pytest

from booklets.built import PATTERNS, Built, build


@pytest.fixture(scope="session", params=sorted(PATTERNS))
def built(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Built:
    """Each of the patterns, with all its booklets."""
    return build(str(request.param), tmp_path_factory.mktemp("booklets"))
