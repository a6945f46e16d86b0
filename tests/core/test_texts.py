"""Texts that keep their places, and the table of codes."""

from __future__ import annotations

import subprocess
import sys

from hypothesis import given
from hypothesis import strategies as st

from patchwright.core.codes import CODES, laid_over
from patchwright.core.source import NOWHERE, Span, Text, span_of
from patchwright.core.tree import Lost, TreeList, TreeMap


@given(st.text(max_size=20), st.integers(1, 99), st.integers(1, 99))
def test_a_text_is_its_string_and_keeps_its_place(value: str, line: int, column: int) -> None:
    span = Span("p.yaml", line, column, line, column + 1)
    text = Text(value, span)
    assert text == value
    assert hash(text) == hash(value)
    assert len({text, value}) == 1
    assert span_of(text) == span
    assert span_of(value) == NOWHERE


def test_trees_are_plain_containers_with_places() -> None:
    span = Span("p.yaml", 1, 1, 2, 3)
    mapping, entries = TreeMap(span), TreeList(span)
    mapping[Text("key", span)] = entries
    entries.append(Lost("", span))
    assert mapping == {"key": [""]}
    assert span_of(mapping) == span_of(entries) == span_of(mapping.key("key")) == span
    assert mapping.key("other") is None


def test_codes_are_names() -> None:
    for name, code in CODES.items():
        assert name == code.name
        assert name.replace("-", "").isalnum()
        assert name == name.lower()


def test_the_table_needs_no_yaml() -> None:
    code = "import sys, patchwright.core.codes; sys.exit('yaml' in sys.modules)"
    subprocess.run([sys.executable, "-c", f"import sys; sys.path[:0] = {sys.path!r}; {code}"], check=True)


def test_fragments_replace_top_level_keys() -> None:
    base = "a: 1\nb:\n  c: 2\n"
    assert laid_over("b: 3\n", base) == "a: 1\nb: 3\n"
    assert laid_over("# note\nd:\n  - 1\n", base) == "a: 1\nb:\n  c: 2\n# note\nd:\n  - 1\n"
    assert laid_over("a: 1\na: 2\n", base) == "a: 1\nb:\n  c: 2\na: 2\n"
