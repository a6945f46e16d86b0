"""No input at all makes the reader of patterns fail, and every finding points into the text."""

from __future__ import annotations

from pathlib import Path
from time import process_time

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from cases.runner import CASES, base
from patchwright.core.codes import CODES
from patchwright.core.diagnostics import Diagnostic
from patchwright.core.report import github_text, gitlab_text, human_text, json_text, sarif_text, short_text
from patchwright.core.source import Source
from patchwright.dialect.allowances import allowed_codes
from patchwright.dialect.parse import read_house, read_pattern
from patchwright.dialect.reader import decode

_SNIPPETS = st.sampled_from([
    "{", "}", "[", "]", "\"", "'", "#", ": ", ":", "- ", "\n", "\n  ", "\t", "&a ", "*a", "!t ", "|\n", ">\n", "---\n",
    "?", "{{", "}}", "@90", "*3", "%", "`", "\\", "<<: ", "~", "null", "010", "½", "\u200b", "\ufeff", "\x00", "\ud800",
    "布", "turn*2@90", "#aabbcc", "2x", "x2", "deck 2x1", ",", "allow: x", "# allow: cut-off-text because x", "\r",
    "\x85",
])
_TEXTS = [base(), *(path.read_text(encoding="utf-8") for path in sorted(Path(CASES).glob("*.yaml")))]


@st.composite
def mutated(draw: st.DrawFn) -> str:
    """A pattern in which a few stretches are replaced."""
    text: str = draw(st.sampled_from(_TEXTS))
    for _ in range(draw(st.integers(1, 4))):
        start = draw(st.integers(0, len(text)))
        width = draw(st.integers(0, 12))
        text = text[:start] + draw(_SNIPPETS) + text[start + width :]
    return text


def _check(source: Source) -> tuple[Diagnostic, ...]:
    declared, found = read_pattern(source)
    _, of_house = read_house(source)
    _, of_allowances = allowed_codes(source)
    lines = source.text.count("\n") + source.text.count("\r") + 1
    for item in (*found, *of_house, *of_allowances):
        assert item.code in CODES
        for span in (item.span, *(note.span for note in item.notes)):
            assert 1 <= span.line <= lines
            assert span.column >= 1
            assert (span.end_line, span.end_column) >= (span.line, span.column)
    assert len(set(found)) == len(found)
    assert declared is not None or any(item.severity == "error" for item in found)
    sources = {source.path: source}
    for write in (github_text, gitlab_text, json_text, sarif_text, short_text):
        assert write(found).isprintable() or "\n" in write(found) or not found
    assert "\x1b" not in human_text(found, sources)
    return found


@given(st.text(max_size=200))
def test_any_text(text: str) -> None:
    _check(Source("any.yaml", text))


@given(st.lists(_SNIPPETS, max_size=30).map("".join))
def test_any_pieces_of_yaml(text: str) -> None:
    _check(Source("any.yaml", text))


@settings(max_examples=250, suppress_health_check=[HealthCheck.too_slow], deadline=None)
@given(mutated())
def test_mutated_pattern(text: str) -> None:
    _check(Source("any.yaml", text))


@given(st.binary(max_size=200))
def test_any_bytes(data: bytes) -> None:
    source, found = decode("any.yaml", data)
    assert (source is None) == bool(found)
    if source is not None:
        assert source.text.encode("utf-8") == data
        _check(source)


def test_bytes_in_other_encodings() -> None:
    for encoding, word in (("utf-16", "UTF-16"), ("latin-1", "UTF-8")):
        source, found = decode("p.yaml", "pattern: Små segel".encode(encoding))
        assert source is None
        assert [item.code for item in found] == ["not-utf-8"]
        assert word in found[0].message
    _, found = decode("p.yaml", "a: 1\nb: å".encode("latin-1"))
    assert (found[0].span.line, found[0].span.column) == (2, 4)


@pytest.mark.parametrize("text", ["[" * 100_000, "{" * 100_000, "- " * 50_000, "a: " + "[" * 100_000, "? " * 50_000])
def test_depth_is_bounded(text: str) -> None:
    assert _check(Source("deep.yaml", text))


@pytest.mark.parametrize(("text", "code"), [
    ("a: " + "[" * 45 + "]" * 45, "nested-too-deep"),
    ("a: [" + "b, " * 60_000 + "]", "too-many-values"),
    ("a: [" + "b, " * 501 + "]", "too-many-entries"),
    ("a: " + "b" * 20_001, "text-too-long"),
    ("a: " + "b " * 500_001, "file-too-large"),
    ("a: [" + "b: , " * 20_000 + "]", "too-many-mistakes"),
    ("fabrics: {" + "".join(f"A{number}: x, " for number in range(5_000)) + "}", "too-many-mistakes"),
])
def test_size_is_bounded(text: str, code: str) -> None:
    assert code in [item.code for item in _check(Source("large.yaml", text))]


@pytest.mark.parametrize("text", [
    "a: b #c\n" * 20_000, "#\n" * 100_000, "\n" * 300_000 + "@", 'a: "' + "\n" * 300_000, "- b #c\n" * 20_000,
    "a:\n" + "  - [b, #aabbcc\n" * 20_000, "\t\n" * 100_000, "\u200b" * 100_000, "# allow: x because y\n" * 20_000,
    "# allow: near-width because y\n" * 20_000 + "a: b", "fabrics:\n" + "  x y: #aabbcc\n" * 20_000,
])
def test_no_text_takes_long(text: str) -> None:
    start = process_time()
    read_pattern(Source("long.yaml", text))
    allowed_codes(Source("long.yaml", text))
    assert process_time() - start < 10
