"""Keeping layouts, comparing two states, and cutting bare lists, on the command line."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from driver.running import SMALL, exit_code

LIST = """\
name: hearts
precut: 10 in
count: 42
items: [[2 1/2, 4 1/2, 36], [4 1/2, 4 1/2, 9]]
"""


@pytest.fixture
def sail(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A good pattern in the current folder."""
    monkeypatch.chdir(tmp_path)
    Path("sail.yaml").write_text(SMALL, encoding="utf-8")
    return Path("sail.yaml")


def test_layouts_are_kept_beside_the_pattern_and_used_again(sail: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert exit_code("plan", sail, "--json", "--keep-layouts") == 0
    first = capsys.readouterr().out
    assert Path("sail.layouts.json").is_file()
    assert exit_code("plan", sail, "--json") == 0
    assert capsys.readouterr().out == first


def test_damaged_layouts_are_an_error_at_their_place(sail: Path, capsys: pytest.CaptureFixture[str]) -> None:
    Path("sail.layouts.json").write_text("{", encoding="utf-8")
    assert exit_code("plan", sail) == 1
    assert capsys.readouterr().err.startswith("sail.layouts.json:1:1: error[kept-layouts]")


def test_compare_tells_what_differs(sail: Path, capsys: pytest.CaptureFixture[str]) -> None:
    Path("new.yaml").write_text(SMALL.replace("release: 1", "release: 2"), encoding="utf-8")
    assert exit_code("compare", sail, "new.yaml") == 0
    assert capsys.readouterr().out.splitlines() == ["pattern: sail → new", "release: 1 → 2"]


def test_a_list_is_planned_as_text_and_as_json(sail: Path, capsys: pytest.CaptureFixture[str]) -> None:
    Path("hearts.yaml").write_text(LIST, encoding="utf-8")
    assert exit_code("cut", "hearts.yaml") == 0
    assert "7 precuts of 10″ x 10″ used, 35 left" in capsys.readouterr().out
    assert exit_code("cut", "hearts.yaml", "--json") == 0
    (made,) = json.loads(capsys.readouterr().out)
    assert (made["used"], made["needed-bound"], made["left"]) == (7, 7, 35)
    pieces = [part["piece"] for sheet in made["sheets"] for part in sheet["cuts"] * sheet["count"]]
    assert (pieces.count("A1"), pieces.count("A2")) == (36, 9)


def test_a_list_is_drawn(sail: Path, capsys: pytest.CaptureFixture[str]) -> None:
    Path("hearts.yaml").write_text(LIST, encoding="utf-8")
    assert exit_code("cut", "hearts.yaml", "--out", "drawn") == 0
    drawn = sorted(Path("drawn").iterdir())
    assert drawn
    assert all(file.read_text(encoding="utf-8").startswith("<svg") for file in drawn)


@pytest.mark.parametrize(("text", "code"), [
    ("items: [[2, 2, 4]]\n", "missing-key"),
    ("width: 40 in\nitems: [[41, 42, 4]]\n", "piece-too-wide"),
    ("width: 40 in\nturn: no\nitems: [[41, 4, 4]]\n", "piece-too-wide"),
    ("precut: 5 in\ncount: 2\nitems: [[4, 4, 3]]\n", "pack-not-enough"),
    ("width: 40 in\nitems: [[4, 4]]\n", "wrong-shape"),
    ("width: 40 in\nitems: [[0, 4, 2]]\n", "size-out-of-range"),
    ("width: 40 in\n", "no-entries"),
    ("width: 40 in\nitem: [[4, 4, 2]]\n", "unknown-key"),
])
def test_what_cannot_be_cut_is_told_where_it_stands(
    sail: Path, capsys: pytest.CaptureFixture[str], text: str, code: str
) -> None:
    Path("list.yaml").write_text(text, encoding="utf-8")
    assert exit_code("cut", "list.yaml") == 1
    err = capsys.readouterr().err
    assert f"error[{code}]" in err
    assert err.startswith("list.yaml:")
