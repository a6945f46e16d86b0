"""A pattern as far as its plan: layers of files, values in prose, themes; and any text at all without a fault."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from driver.running import FAULTY, SMALL
from patchwright.driver import Compiled, compile_project
from patchwright.files import find_patterns
from planning.compiling import PATTERNS

EXAMPLE = (PATTERNS / "rope-walk.yaml").read_text(encoding="utf-8")


def compiled(folder: Path, content: str | bytes, theme: str = "") -> Compiled:
    file = folder / "sail.yaml"
    file.write_bytes(content if isinstance(content, bytes) else content.encode("utf-8", "surrogatepass"))
    return compile_project(find_patterns((file,))[0], "plain", theme)


def codes(result: Compiled) -> list[str]:
    return [item.code for item in result.diagnostics]


def test_a_good_pattern_has_a_plan(tmp_path: Path) -> None:
    result = compiled(tmp_path, SMALL)
    assert not result.failed
    assert codes(result) == []


def test_a_faulty_pattern_has_none(tmp_path: Path) -> None:
    result = compiled(tmp_path, FAULTY)
    assert result.failed
    assert result.plan is None
    assert codes(result) == ["unknown-name"]


def test_mistakes_of_pattern_and_house_are_told_together(tmp_path: Path) -> None:
    (tmp_path / "house.yaml").write_text("inchs: {}\n")
    result = compiled(tmp_path, SMALL.replace("release: 1", "release: none"))
    assert {item.span.path.rpartition("/")[2] for item in result.diagnostics} == {"sail.yaml", "house.yaml"}


@pytest.mark.parametrize("house", [b"\xff\xfe\x00", b"- a list\n", b"name: [\n", b"", b"\x00" * 50])
def test_any_bytes_as_house(tmp_path: Path, house: bytes) -> None:
    (tmp_path / "house.yaml").write_bytes(house)
    result = compiled(tmp_path, SMALL)
    assert result.failed == bool(result.diagnostics)
    assert all(item.span.path.endswith("house.yaml") for item in result.diagnostics)


def test_a_theme_that_is_not_there(tmp_path: Path) -> None:
    result = compiled(tmp_path, SMALL, theme="harbour")
    assert codes(result) == ["theme-missing"]
    assert any("harbor" in hint for hint in result.diagnostics[0].hints)


@pytest.mark.parametrize(
    ("text", "code"), [("{{ quilt.acros }}", "unknown-value"), ("{{ quilt.across", "unfinished-value")]
)
def test_values_in_prose(tmp_path: Path, text: str, code: str) -> None:
    assert codes(compiled(tmp_path, f"{SMALL}text:\n  introduction: |\n    So wide: {text}\n")) == [code]


def test_a_warning_may_be_allowed_with_a_reason(tmp_path: Path) -> None:
    doubled = SMALL.replace("[[rope, deck],", "[[rope, rope],")
    assert codes(compiled(tmp_path, doubled)) == ["needless-seam"]
    line = next(line for line in doubled.splitlines() if "[[rope, rope]" in line)
    allowed = doubled.replace(line, f"{line}  # allow: needless-seam because the seam is wanted")
    assert codes(compiled(tmp_path, allowed)) == []


anything = settings(
    max_examples=20, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow]
)


@anything
@given(st.binary(max_size=400))
def test_any_bytes_as_pattern(tmp_path: Path, content: bytes) -> None:
    assert compiled(tmp_path, content).failed


@anything
@given(st.data())
def test_a_pattern_with_a_word_changed(tmp_path: Path, data: st.DataObject) -> None:
    """Every word of a good pattern is put in place of every other: a located mistake, or a good pattern."""
    words = EXAMPLE.replace("[", " [ ").replace("]", " ] ").replace(",", " , ").split(" ")
    place = data.draw(st.integers(0, len(words) - 1))
    words[place] = data.draw(st.sampled_from([*words, "", "0", "-1", "1000000", "½", "rope", "@90", "*3"]))
    result = compiled(tmp_path, " ".join(words))
    assert result.failed == (result.plan is None)
    assert all(item.span.line >= 1 for item in result.diagnostics)


@anything
@given(st.integers(0, len(EXAMPLE)), st.integers(0, 60))
def test_a_pattern_with_a_stretch_missing(tmp_path: Path, start: int, length: int) -> None:
    result = compiled(tmp_path, EXAMPLE[:start] + EXAMPLE[start + length :])
    assert result.failed == (result.plan is None)
