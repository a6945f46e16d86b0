"""Themes: every token is asked for, every mistake is a value, and nothing outside is read."""

from __future__ import annotations

from pathlib import Path

import pytest

from patchwright.core.theme import TokenMistake
from patchwright.files import installed_themes, theme_names, theme_reader
from patchwright.typesetting.themes import SHARED_FILES, load_theme
from patchwright.typesetting.tokens import read_tokens
from typesetting.booklet_sample import THEME


def tokens_text() -> str:
    return (installed_themes() / THEME / "theme.yaml").read_text(encoding="utf-8")


def mistakes(old: str, new: str) -> list[tuple[str, str]]:
    text = tokens_text()
    assert old in text
    tokens, found = read_tokens(text.replace(old, new, 1), "theme.yaml")
    assert (tokens is None) == bool(found)
    return [(one.problem, one.token) for one in found]


@pytest.mark.parametrize("name", theme_names(installed_themes()))
def test_installed_themes_are_sound(name: str) -> None:
    theme, found = load_theme(name, theme_reader(installed_themes()))
    assert theme is not None
    assert not found
    widths = {round(paper.text_width, 2) for _, paper in theme.tokens.papers}
    assert len(widths) == 1, "a drawing that fits one paper fits the other"


@pytest.mark.parametrize(
    ("old", "new", "expected"),
    [
        ("  leading: 1.42\n", "", [("missing", "type.leading")]),
        ("  leading:", "  laeding:", [("missing", "type.leading"), ("unknown", "type.laeding")]),
        ('ink: "#1c2a35"', "ink: navy", [("wrong", "light.ink")]),
        ("body: 10.5", "body: 5", [("wrong", "type.body")]),
        ("body: 10.5", "body: ten", [("wrong", "type.body")]),
        ("body: 10.5", "body: [10]", [("wrong", "type.body")]),
        ("  thickness: 0.004\n", "", [("missing", "folds.thickness")]),
        ("  sheets: 8", "  sheets: 2.5", [("wrong", "folds.sheets")]),
        ("letter: {width: 5.5,", "letter: {width: 8.5,", [("wrong", "folds.letter")]),
        ("theme: 1", "theme: 2", [("wrong", "theme")]),
        ("family: Spectral, ", "", [("missing", "fonts.text.family")]),
        ("cap: round", "cap: square", [("wrong", "drawing.strokes.outline.cap")]),
        ("dash: 5 2.5", "dash: 5 x", [("wrong", "drawing.strokes.cut.dash")]),
        ("- {name: plain}", "- plain", [("wrong", "drawing.hatches")]),
        ("theme: 1", "theme: 1\ntheme: 1", [("wrong", "theme")]),
        ("theme: 1", "theme: [[[[[[[[[[", [("unreadable", "")]),
        ("theme: 1", "theme: &one 1", [("unreadable", "")]),
        ("theme: 1", "theme: {", [("unreadable", "")]),
    ],
)
def test_mistakes_in_tokens_are_values(old: str, new: str, expected: list[tuple[str, str]]) -> None:
    assert mistakes(old, new) == expected


def test_mistakes_say_where_and_what_was_expected() -> None:
    _, found = read_tokens(tokens_text().replace("body: 10.5", "body: 200"), "mine/theme.yaml")
    (one,) = found
    assert (one.span.path, one.found, one.expected) == ("mine/theme.yaml", "200", "a number from 7 to 96")
    assert tokens_text().splitlines()[one.span.line - 1].strip().startswith("body:")


def test_all_mistakes_come_together() -> None:
    assert len(read_tokens("theme: 1\n", "theme.yaml")[1]) == 9


def folder_of(tmp_path: Path) -> Path:
    """A theme of its own that overrides one file of the installed one."""
    (tmp_path / "themes" / THEME).mkdir(parents=True)
    return tmp_path / "themes"


def test_any_one_file_can_be_overridden(tmp_path: Path) -> None:
    themes = folder_of(tmp_path)
    (themes / THEME / "theme.yaml").write_text(tokens_text().replace('"#1c2a35"', '"#112233"'), encoding="utf-8")
    theme, found = load_theme(THEME, theme_reader(themes, installed_themes()))
    assert theme is not None, found
    assert theme.tokens.light.ink == "#112233"


@pytest.mark.parametrize("name", ["none", "../harbor", "", "Harbor", "harbor/../harbor"])
def test_an_unknown_theme_is_a_mistake(name: str) -> None:
    assert load_theme(name, theme_reader(installed_themes())) == (
        None,
        (TokenMistake("unknown-theme", name, "a theme's name"),),
    )


def test_links_out_of_the_folder_are_not_followed(tmp_path: Path) -> None:
    themes = folder_of(tmp_path)
    secret = tmp_path / "secret"
    secret.write_text("theme: 9", encoding="utf-8")
    (themes / THEME / "theme.yaml").symlink_to(secret)
    (themes / "elsewhere").symlink_to(installed_themes() / THEME)
    read = theme_reader(themes)
    assert read(f"{THEME}/theme.yaml") is None
    assert read("elsewhere/theme.yaml") is None
    assert read("../secret") is None


@pytest.mark.parametrize(
    "source", ['#import "@preview/x:0.1.0"', '#include "x"', '#eval("1")', "#std.at", '#plugin("x")']
)
def test_page_templates_that_reach_out_are_refused(tmp_path: Path, source: str) -> None:
    themes = folder_of(tmp_path)
    (themes / THEME / "booklet.typ").write_text(f"// fine\n{source}\n", encoding="utf-8")
    theme, found = load_theme(THEME, theme_reader(themes, installed_themes()))
    assert theme is None
    assert [(one.problem, one.span.line) for one in found] == [("wrong", 2)]


def test_missing_files_and_fonts_are_mistakes(tmp_path: Path) -> None:
    themes = folder_of(tmp_path)
    text = tokens_text().replace("package: lato", "package: nowhere")
    (themes / THEME / "theme.yaml").write_text(text, encoding="utf-8")
    _, alone = load_theme(THEME, theme_reader(themes))
    files = {one.token for one in alone if one.problem == "missing-file"}
    shared = {f"shared/{file}" for file in SHARED_FILES}
    assert files == {f"{THEME}/booklet.typ", f"{THEME}/style.css"} | shared
    _, found = load_theme(THEME, theme_reader(themes, installed_themes()))
    assert [(one.problem, one.token) for one in found] == [("wrong", "fonts.label.package")]
