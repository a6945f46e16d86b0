"""The web booklet: one file, one policy, sound structure, and usable without script, color or room."""

from __future__ import annotations

import base64
import hashlib
import re
from dataclasses import replace
from functools import cache
from html.parser import HTMLParser
from itertools import pairwise

import pytest

from patchwright.typesetting.booklet import Figure, Section
from patchwright.typesetting.faults import WebTemplateError
from patchwright.typesetting.web import write_html
from patchwright.typesetting.web_template import render
from patchwright.typesetting.web_views import View
from typesetting.booklet_sample import harbor, paragraph, sample_booklet

LAUGHS = (
    "{% macro m0() %}{{ given }}{% endmacro %}"
    + "".join(f"{{% macro m{n} () %}}{f'{{{{ m{n - 1}() }}}}' * 40}{{% endmacro %}}" for n in range(1, 9))
    + "{{ m8() }}"
)
"""Macros that call each other, forty times at each of eight levels."""
VOID = {"meta", "link", "br", "hr", "img", "input", "use", "path", "circle", "rect"}


class Page(HTMLParser):
    """All start tags with their attributes, and whether tags are closed in order."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.open: list[str] = []
        self.feed(text)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def all(self, name: str) -> list[dict[str, str | None]]:
        return [attributes for tag, attributes in self.tags if tag == name]


@cache
def html() -> str:
    return write_html(sample_booklet(), harbor())


@cache
def page() -> Page:
    return Page(html())


def test_tags_are_closed_in_order() -> None:
    assert page().open == []


def test_ids_are_unique_and_every_reference_leads_somewhere() -> None:
    ids = [attributes["id"] for _, attributes in page().tags if "id" in attributes]
    assert len(ids) == len(set(ids))
    named = [attributes["aria-labelledby"] for _, attributes in page().tags if "aria-labelledby" in attributes]
    links = [(attributes.get("href") or "")[1:] for attributes in page().all("a") + page().all("use")]
    for name in " ".join(filter(None, named)).split() + [link for link in links if not link.startswith("ttps")]:
        assert name in ids, name


def test_headings_come_in_order() -> None:
    levels = [int(tag[1]) for tag, _ in page().tags if re.fullmatch(r"h[1-6]", tag)]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(there <= here + 1 for here, there in pairwise(levels))


def test_policy_names_style_and_script_by_hash() -> None:
    policy = next(one["content"] for one in page().all("meta") if one.get("http-equiv") == "Content-Security-Policy")
    assert policy is not None
    assert "default-src 'none'" in policy
    assert "unsafe" not in policy
    for tag in ("style", "script"):
        (content,) = re.findall(rf"<{tag}>(.*?)</{tag}>", html(), re.DOTALL)
        digest = base64.b64encode(hashlib.sha256(content.encode()).digest()).decode()
        assert f"{tag}-src 'sha256-{digest}'" in policy
    assert not [attributes for _, attributes in page().tags if "style" in attributes]
    assert not [key for _, attributes in page().tags for key in attributes if key.startswith("on")]


def test_nothing_is_fetched() -> None:
    assert not page().all("link") + page().all("img") + page().all("iframe")
    assert not [attributes for tag, attributes in page().tags if "src" in attributes]
    styles = "".join(re.findall(r"<style>(.*?)</style>", html(), re.DOTALL))
    assert all(address.startswith("data:font/woff;") for address in re.findall(r'url\("?([^")]*)', styles))
    assert "@import" not in styles
    outside = {one["href"] for one in page().all("a") if (one["href"] or "").startswith("http")}
    assert outside == {"https://example.com/corrections"}


def test_tables_have_scopes_and_scroll_by_themselves() -> None:
    regions = [one for one in page().all("div") if one.get("class") == "scroll"]
    assert len(page().all("table")) == 2
    assert len(regions) > 10, "drawings scroll too"
    assert all(one.get("aria-label") for one in regions if one.get("tabindex") == "0")
    assert sum(one.get("role") == "group" for one in regions) >= 2
    assert all(one.get("scope") in ("col", "row") for one in page().all("th"))


def test_parts_of_some_views_say_so() -> None:
    """Two booklets as two views: what only one has is named, and is hidden where the first does not have it."""
    booklet = sample_booklet()
    own = replace(booklet, sections=(*booklet.sections, Section("own", "Own", (paragraph("Of throw alone."),))))
    text = write_html([View(booklet), View(own, size="throw")], harbor())
    (form,) = Page(text).all("form")
    assert form["data-views"] == "whole// whole/throw/"
    parts = [attributes for _, attributes in Page(text).tags if "data-in" in attributes]
    assert {one.get("id") for one in parts} >= {"own"}
    sets = str(form["data-sets"]).split(",")
    assert all(sets[int(str(one["data-in"]))] == "1" and "hidden" in one for one in parts)


def test_controls_wait_for_the_script() -> None:
    controls = page().all("form") + page().all("input") + [one for one in page().all("button") if "name" not in one]
    assert len(controls) > 20
    assert all("live" in str(one.get("class")).split() for one in controls)


def test_drawings_are_named_pictures() -> None:
    drawings = [one for one in page().all("svg") if one.get("role") == "img"]
    assert len(drawings) >= 20
    assert all(one.get("aria-labelledby") for one in drawings)
    others = [one for one in page().all("svg") if one.get("role") != "img"]
    assert all(one.get("aria-hidden") == "true" for one in others)


def test_a_drawing_shown_twice_has_ids_of_its_own() -> None:
    booklet = sample_booklet()
    again = Section("again", "Again", (Figure(booklet.cover.figure.scene),))
    text = write_html(replace(booklet, sections=(*booklet.sections, again)), harbor())
    ids = re.findall(r' id="([^"]*)"', text)
    assert len(ids) == len(set(ids))


def test_words_of_authors_are_never_markup() -> None:
    booklet = sample_booklet()
    words = '<script>alert(1)</script> {{ 7*7 }} & "quoted"'
    text = write_html(replace(booklet, sections=(Section("s", "S", (paragraph(words),)),)), harbor())
    assert "&lt;script&gt;alert(1)&lt;/script&gt; {{ 7*7 }} &amp; &#34;quoted&#34;" in text


def test_same_text_every_time() -> None:
    assert write_html(sample_booklet(), harbor()) == html()


@pytest.mark.parametrize(
    "template",
    [
        "{{ 'a' * 999999999 }}", "{{ '%999999999d' % 1 }}", "{{ '{:>999999999}'.format(1) }}", "{{ 2 ** 999999999 }}",
        "{{ ''.__class__.__mro__ }}", "{{ range(9) | list }}", "{% include 'x' %}", "{% import 'x' as y %}",
        "{{ missing }}", "{{ given.__init__ }}", "{{ given | attr('x') }}",
        "{{ 'a' ~ 'b' }}", "{{ given + given }}", LAUGHS, "{% macro m() %}{{ m() }}{% endmacro %}{{ m() }}",
        "{% if %}", "{{ 'a'.center(999999999) }}", "{{ lipsum() }}", "{{ cycler.__init__ }}",
    ],
)  # fmt: skip
def test_templates_cannot_overstep(template: str) -> None:
    with pytest.raises(WebTemplateError):
        render(template, given="text")


def test_a_template_that_sets_no_policy_is_refused() -> None:
    with pytest.raises(WebTemplateError, match="policy"):
        write_html(sample_booklet(), replace(harbor(), web_template="<!doctype html><p>{{ booklet.title }}</p>"))
