"""Every language says everything: the same keys with the same values, and no word of another in its booklets."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest
import yaml

from content.compiled import EvenLabels, compiled, names_of, plan_of
from content.test_every_method import pattern_of, ways
from patchwright.core.source import Source
from patchwright.diagrams.figures import booklet_figures
from patchwright.methods.registry import METHODS
from patchwright.planning.plan import Plan
from patchwright.typesetting.content.editions import EDITIONS
from patchwright.typesetting.content.make import make_booklet
from patchwright.typesetting.content.plain import to_text
from patchwright.wording import LANGUAGES, load_wording, read_package_file
from patchwright.wording.templates import Choice, Hole, Template, hole_names

OTHERS = [language for language in LANGUAGES if language != "en"]
RUN = re.compile(r"[^\W\d_]+(?:[ ’-][^\W\d_]+){2,}")
"""Three words or more in a row, which no two languages share by chance."""


@pytest.mark.parametrize("language", OTHERS)
def test_a_language_has_every_key_of_english_and_no_other(language: str) -> None:
    english, other = load_wording("en"), load_wording(language)
    assert set(other.keys()) == set(english.keys())


@pytest.mark.parametrize("language", OTHERS)
def test_a_translation_says_every_value_and_no_other(language: str) -> None:
    english, other = load_wording("en").templates, load_wording(language).templates
    wrong = {key for key in english if key in other and hole_names(english[key]) != hole_names(other[key])}
    assert wrong == set()


@pytest.mark.parametrize("language", OTHERS)
def test_what_a_unit_needs_is_the_same_in_every_language(language: str) -> None:
    english, other = load_wording("en").templates, load_wording(language).templates
    lists = [key for key in english if ".supplies." in key]
    assert lists
    assert [key for key in lists if english[key] != other[key]] == []


@pytest.mark.parametrize("language", OTHERS)
def test_explanations_are_translated(language: str) -> None:
    english, other = (yaml.safe_load(read_package_file(f"explain-{name}.yaml")) for name in ("en", language))
    assert set(other) == set(english)
    holes = re.compile(r"\{([a-z_]+)\}")
    assert [key for key in english if set(holes.findall(english[key])) != set(holes.findall(other[key]))] == []


def _runs(template: Template) -> Iterator[str]:
    """The runs of words that a template is sure to say, parted where a value stands."""
    for part in template:
        if isinstance(part, str):
            yield from RUN.findall(part)
        elif isinstance(part, Choice):
            for form in part.forms:
                yield from _runs(form)
        else:
            assert isinstance(part, Hole)


ENGLISH = frozenset(run for template in load_wording("en").templates.values() for run in _runs(template))


def _booklet_text(plan: Plan, language: str, edition: str) -> str:
    wording = load_wording(language).measured_in(plan.system)
    drawn = booklet_figures(plan, wording, EvenLabels()).drawn
    figures = {drawing.scene.id: drawing.scene for drawing in drawn}
    told = " ".join(f"{scene.title} {scene.description}" for scene in figures.values())
    return told + to_text(make_booklet(plan, figures, load_wording(language), EDITIONS[edition], names_of(plan)))


def _english_in(text: str) -> list[str]:
    found = set(RUN.findall(text))
    return sorted(run for run in found if any(known in run for known in ENGLISH if len(known) > 12))


def test_english_is_found_where_it_stands() -> None:
    assert _english_in(_booklet_text(plan_of("four-patch"), "en", "all-sizes"))


@pytest.mark.parametrize("language", OTHERS)
@pytest.mark.parametrize("edition", ["all-sizes", "by-block", "kit", "labels", "class"])
def test_no_english_is_left_in_a_booklet(language: str, edition: str) -> None:
    assert _english_in(_booklet_text(plan_of("rope-walk"), language, edition)) == []


@pytest.mark.parametrize("language", OTHERS)
@pytest.mark.parametrize("method", [method for method in METHODS if method.name != "patch"], ids=lambda m: str(m.name))
def test_no_english_is_left_in_the_steps_of_a_method(language: str, method: object) -> None:
    found = next(known for known in METHODS if known is method)
    for way in ways(found):
        plan = compiled(Source("trial.yaml", pattern_of(found, way)), None, "trial")
        assert _english_in(_booklet_text(plan, language, "all-sizes")) == []
