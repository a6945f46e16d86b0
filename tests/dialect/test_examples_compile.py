"""The examples of every code, taken through the whole compiler as files."""

from __future__ import annotations

from pathlib import Path

import pytest

from dialect.test_codes import BOOK, misfits
from patchwright.core.codes import CODES
from patchwright.core.diagnostics import Diagnostic
from patchwright.driver import BuildRequest, build_project, compile_project
from patchwright.files import find_patterns


@pytest.mark.parametrize("code", [code for code in CODES if BOOK[code].kind != "theme"])
def test_examples_of_the_whole_compiler(code: str, tmp_path: Path) -> None:
    def compile_all(data: bytes, house: bool) -> tuple[Diagnostic, ...]:
        if BOOK[code].kind == "layouts":
            (tmp_path / "sail.layouts.json").write_bytes(data)
            (tmp_path / "sail.yaml").write_bytes(BOOK["unknown-key"].right_bytes)
            (project,) = find_patterns((tmp_path / "sail.yaml",))
            return compile_project(project, "best").diagnostics
        if BOOK[code].kind == "build":
            (tmp_path / "sail.yaml").write_bytes(data)
            (project,) = find_patterns((tmp_path / "sail.yaml",))
            request = BuildRequest(papers=("a4",), editions=("all-sizes",), out=tmp_path / "build")
            return build_project(project, request).compiled.diagnostics
        (tmp_path / "house.yaml").write_bytes(data if house else b"name: Longshore Patterns\n")
        (tmp_path / "sail.yaml").write_bytes(BOOK["unknown-key"].right_bytes if house else data)
        (project,) = find_patterns((tmp_path / "sail.yaml",))
        return compile_project(project, "plain").diagnostics

    assert misfits(BOOK[code], compile_all) == []
