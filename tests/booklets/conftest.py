"""The booklets are built once for a session."""

from __future__ import annotations

import pytest

from booklets.built import PATTERNS, Built, build

_built: dict[str, Built] = {}


@pytest.fixture(scope="session", params=sorted(PATTERNS))
def built(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Built:
    """Each of the patterns, with all its booklets; a pattern that comes up again is not built again."""
    name = str(request.param)
    if name not in _built:
        _built[name] = build(name, tmp_path_factory.mktemp("booklets"))
    return _built[name]
