"""How diagnostics look, asserted as whole texts, and the forms that tools read."""

from __future__ import annotations

import json
import re

from hypothesis import given
from hypothesis import strategies as st

from patchwright.core.diagnostics import Diagnostic, Note
from patchwright.core.report import (
    apply_allowances,
    github_text,
    gitlab_text,
    human_segments,
    human_text,
    json_text,
    raise_warnings,
    sarif_text,
    short_text,
    summary_text,
)
from patchwright.core.source import NOWHERE, Source, Span

SOURCE = Source(
    "patterns/sail.yaml",
    "dialect: 1\n"
    "fabrics:\n"
    "  rope: {color: a9482f}\n"
    "  rope: {colour: a9482f}\n"
    "  布:\t{color: ece7db, name: 'Tär'}\n"
    + "x" * 150 + " here " + "y" * 150 + "\n"
    "\x1b[31mred\n",
)
SOURCES = {SOURCE.path: SOURCE}


def _at(line: int, column: int, end: int, end_line: int = 0) -> Span:
    return Span(SOURCE.path, line, column, end_line or line, end)


TWICE = Diagnostic(
    "duplicate-key", "`rope` is here twice", _at(4, 3, 7), notes=(Note(_at(3, 3, 7), "first here"),),
    hints=("delete one of them, or give it another name",),
)
CUT_OFF = Diagnostic("cut-off-text", "the value ends before `#2`, since 50%", _at(5, 6, 12), "warning")


def test_for_people() -> None:
    assert human_text([TWICE, CUT_OFF], SOURCES) == (
        "patterns/sail.yaml:4:3: error[duplicate-key]: `rope` is here twice\n"
        "  4 |   rope: {colour: a9482f}\n"
        "    |   ^~~~\n"
        "note: patterns/sail.yaml:3:3: first here\n"
        "  3 |   rope: {color: a9482f}\n"
        "    |   ^~~~\n"
        "hint: delete one of them, or give it another name\n"
        "\n"
        "patterns/sail.yaml:5:6: warning[cut-off-text]: the value ends before `#2`, since 50%\n"
        "  5 |   布: " + "  {color: ece7db, name: 'Tär'}\n"
        "    |        " + " ^~~~~~\n"
    )


def test_wide_characters_and_tabs_stand_above_their_marks() -> None:
    wide = Diagnostic("invalid-name", "`布` is not a name", _at(5, 3, 4))
    assert human_text([wide], SOURCES).splitlines()[1:] == [
        "  5 |   布:   {color: ece7db, name: 'Tär'}",
        "    |   ^~",
    ]


def test_long_lines_are_cut_around_the_place() -> None:
    text = human_text([Diagnostic("tab", "there", _at(6, 152, 156))], SOURCES)
    line, marks = text.splitlines()[1:]
    assert line[line.index("here") :].startswith("here ")
    assert line.startswith("  6 | …x")
    assert line.endswith("y…")
    assert marks.index("^") == line.index("here")
    assert marks.endswith("^~~~")


def test_nothing_moves_the_cursor() -> None:
    text = human_text([Diagnostic("tab", "a \x1b[2J b", _at(7, 1, 2), hints=("\x07",))], SOURCES)
    assert "\x1b" not in text
    assert "\x07" not in text
    assert "\ufffd[31mred" in text


def test_places_outside_of_any_text() -> None:
    assert human_text([Diagnostic("theme-missing", "there is no theme", NOWHERE)], {}) == (
        "error[theme-missing]: there is no theme\n"
    )
    past = Diagnostic("tab", "past the end", _at(99, 7, 9))
    assert human_text([past], SOURCES) == "patterns/sail.yaml:99:7: error[tab]: past the end\n"
    whole = Diagnostic("no-entries", "many lines", _at(2, 1, 3, end_line=4))
    assert human_text([whole], SOURCES).splitlines()[1:] == ["  2 | fabrics:", "    | ^~~~~~~~"]


def test_roles_of_segments() -> None:
    roles = [segment.role for segment in human_segments(TWICE, SOURCES)]
    assert roles == [
        "place", "error", "message", "gutter", "source", "gutter", "underline",
        "note", "gutter", "source", "gutter", "underline", "hint",
    ]


def test_short() -> None:
    assert short_text([TWICE, CUT_OFF]) == (
        "patterns/sail.yaml:4:3: error[duplicate-key]: `rope` is here twice\n"
        "patterns/sail.yaml:5:6: warning[cut-off-text]: the value ends before `#2`, since 50%\n"
    )
    assert summary_text([TWICE, TWICE, CUT_OFF]) == "2 errors and 1 warning"
    assert summary_text([]) == ""


def test_json() -> None:
    assert json.loads(json_text([TWICE])) == {"format": 1, "diagnostics": [{
        "code": "duplicate-key", "severity": "error", "message": "`rope` is here twice", "path": "patterns/sail.yaml",
        "line": 4, "column": 3, "end-line": 4, "end-column": 7,
        "notes": [{
            "message": "first here", "path": "patterns/sail.yaml",
            "line": 3, "column": 3, "end-line": 3, "end-column": 7,
        }],
        "hints": ["delete one of them, or give it another name"],
    }]}


def test_workflow_commands() -> None:
    odd = Diagnostic("tab", "a\nb 50%", Span("a,b:c.yaml", 1, 1, 2, 3))
    assert github_text([TWICE, odd]) == (
        "::error file=patterns/sail.yaml,line=4,endLine=4,col=3,endColumn=6,title=duplicate-key"
        "::`rope` is here twice%0Ahint: delete one of them, or give it another name\n"
        "::error file=a%2Cb%3Ac.yaml,line=1,endLine=2,title=tab::a%0Ab 50%25\n"
    )


def test_code_quality_report() -> None:
    made = json.loads(gitlab_text([TWICE, TWICE, CUT_OFF]))
    assert [item["severity"] for item in made] == ["major", "major", "minor"]
    assert len({item["fingerprint"] for item in made}) == 3
    assert made[0]["location"] == {"path": "patterns/sail.yaml", "lines": {"begin": 4}}
    moved = Diagnostic("duplicate-key", "`rope` is here twice", _at(9, 3, 7))
    assert json.loads(gitlab_text([moved]))[0]["fingerprint"] == made[0]["fingerprint"]


def test_sarif() -> None:
    log = json.loads(sarif_text([CUT_OFF, TWICE], {"cut-off-text": "A text may be cut off."}, "0.1.0"))
    run = log["runs"][0]
    assert log["version"] == "2.1.0"
    assert run["tool"]["driver"]["rules"] == [
        {"id": "cut-off-text", "shortDescription": {"text": "A text may be cut off."}}, {"id": "duplicate-key"},
    ]
    for result in run["results"]:
        assert run["tool"]["driver"]["rules"][result["ruleIndex"]]["id"] == result["ruleId"]
    assert [result["level"] for result in run["results"]] == ["warning", "error"]
    assert run["results"][1]["locations"][0]["physicalLocation"] == {
        "artifactLocation": {"uri": "patterns/sail.yaml"},
        "region": {"startLine": 4, "startColumn": 3, "endLine": 4, "endColumn": 7},
    }
    assert run["results"][1]["relatedLocations"][0]["message"] == {"text": "first here"}


def test_allowances_silence_warnings_alone() -> None:
    allowed = {SOURCE.path: {4: frozenset({"duplicate-key"}), 5: frozenset({"cut-off-text"})}}
    assert apply_allowances([TWICE, CUT_OFF], allowed) == (TWICE,)
    assert apply_allowances([CUT_OFF], {SOURCE.path: {4: frozenset({"cut-off-text"})}}) == (CUT_OFF,)
    assert [item.severity for item in raise_warnings([TWICE, CUT_OFF])] == ["error", "error"]
    assert CUT_OFF.severity == "warning"


_PRINTABLE = st.characters(exclude_categories=("Cc", "Cs", "Zl", "Zp"))


@given(st.text(_PRINTABLE, max_size=300), st.integers(1, 310), st.integers(0, 30))
def test_any_place_in_any_line(text: str, column: int, width: int) -> None:
    source = Source("p.yaml", text)
    made = human_text([Diagnostic("tab", "m", Span("p.yaml", 1, column, 1, column + width))], {"p.yaml": source})
    lines = made.splitlines()
    assert re.fullmatch(r"    \|  *\^~*", lines[-1])
    assert len(lines[-1]) <= 6 + 2 * 125
