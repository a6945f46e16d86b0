"""Contrast of themes, against the formula of a general color library (coloraide) and WCAG's own limits."""

from __future__ import annotations

import pytest
from coloraide import Color
from hypothesis import given
from hypothesis import strategies as st

from patchwright.files import installed_themes, theme_names, theme_reader
from patchwright.typesetting.changes import changed_theme
from patchwright.typesetting.content.editions import EDITIONS
from patchwright.typesetting.contrast import contrast, over, weak_pairs
from patchwright.typesetting.themes import Theme, load_theme
from patchwright.typesetting.tokens import read_tokens

THEMES = theme_names(installed_themes())
colors = st.integers(0, 0xFFFFFF).map(lambda number: f"#{number:06x}")


def theme(name: str) -> Theme:
    made, mistakes = load_theme(name, theme_reader(installed_themes()))
    assert made is not None, mistakes
    return made


@given(colors, colors)
def test_the_ratio_is_that_of_wcag(one: str, other: str) -> None:
    """The library's `wcag21` is the ratio of WCAG 2.1 and 2.2."""
    expected = Color(one).contrast(Color(other), method="wcag21")
    assert contrast(one, other) == pytest.approx(expected, abs=0.01)
    assert contrast(one, other) == contrast(other, one)


def test_black_on_white_is_21_to_1() -> None:
    """The range of the ratio by WCAG's definition."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#777777", "#ffffff") < 4.5 < contrast("#767676", "#ffffff"), "the well-known limit of gray"
    assert over("#ffffff", "#000000", 0.5) in ("#7f7f7f", "#808080")


def test_there_are_two_themes_that_look_unlike_each_other() -> None:
    assert len(THEMES) >= 2
    one, other = (theme(name).tokens for name in THEMES[:2])
    assert one.light.accent != other.light.accent
    assert one.text_face != other.text_face
    assert one.papers != other.papers
    assert [hatch.lines for hatch in one.drawing.hatches] != [hatch.lines for hatch in other.drawing.hatches]
    assert theme(THEMES[0]).web_style != theme(THEMES[1]).web_style


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize("name", THEMES)
def test_every_edition_of_every_theme_keeps_its_contrast(name: str, edition: str) -> None:
    """Text on its ground by the library, and every pair that the program knows."""
    tokens = changed_theme(theme(name), EDITIONS[edition].changes).tokens
    for palette in (tokens.light, tokens.dark):
        for front in ("ink", "quiet", "accent", "caution", "check", "tip"):
            assert Color(getattr(palette, front)).contrast(Color(palette.paper), method="wcag21") >= 4.5
    assert [(pair.token, pair.behind) for pair in weak_pairs(tokens)] == []


@pytest.mark.parametrize(
    ("old", "new", "expected"),
    [
        ('  quiet: "#566874"', '  quiet: "#8a98a1"', {("light.quiet", "light.paper")}),
        ('  rule: "#607a8a"', '  rule: "#2a3f4c"', {("dark.rule", "dark.paper")}),
        ('  label: "#1c2a35"', '  label: "#8a98a1"', {("drawing.label", "drawing.backing")}),
        ('grain:     {width: 0.7, color: "#566874"}', 'grain:     {width: 0.7, color: "#d0d0d0"}',
         {("drawing.strokes", "drawing.paper")}),
    ],
)  # fmt: skip
def test_colors_too_much_alike_are_mistakes_with_their_place(
    old: str, new: str, expected: set[tuple[str, str]]
) -> None:
    text = (installed_themes() / "harbor" / "theme.yaml").read_text(encoding="utf-8")
    assert old in text
    tokens, mistakes = read_tokens(text.replace(old, new, 1), "theme.yaml")
    assert tokens is None
    found = {(one.token, behind) for one in mistakes for _, behind in expected if f"`{behind}`" in one.expected}
    assert expected <= found
    assert all("contrast of at least" in one.expected and one.span.line > 1 for one in mistakes)
