"""The merged tree: leaving out what a view does not show gives that view's booklet again, whatever was merged."""

from __future__ import annotations

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from patchwright.typesetting.booklet_tree import Tree
from patchwright.typesetting.web import write_html
from patchwright.typesetting.web_drawings import Pen
from patchwright.typesetting.web_merging import Views, merged
from patchwright.typesetting.web_views import web_tree
from web.pages import PATTERNS, views_of

_OF_THE_PAGE = ("shown", "hidden", "id", "anchor", "drawing")
LEAVES = st.sampled_from("abcdef").map(lambda text: {"kind": "paragraph", "text": text})
STEPS = st.tuples(st.integers(1, 3), st.lists(LEAVES, max_size=3)).map(
    lambda own: {"kind": "step", "number": own[0], "blocks": own[1]}
)
LISTS = st.lists(st.lists(st.one_of(LEAVES, STEPS), max_size=8), min_size=1, max_size=5)


@given(LISTS)
def test_every_view_comes_back(lists: list[list[Tree]]) -> None:
    together = merged([(nodes, frozenset({place})) for place, nodes in enumerate(lists)])
    for place, nodes in enumerate(lists):
        assert _of(together, place) == nodes


@given(LISTS)
def test_nothing_stands_where_no_view_shows_it(lists: list[list[Tree]]) -> None:
    for node, views in merged([(nodes, frozenset({place})) for place, nodes in enumerate(lists)]):
        assert views
        assert all(inner <= views for _, inner in node.get("parts", []))


def test_equal_lists_are_kept_once() -> None:
    nodes = [{"kind": "paragraph", "text": letter} for letter in "abc"]
    together = merged([(nodes, frozenset({place})) for place in range(9)])
    assert together == [(node, frozenset(range(9))) for node in nodes]


def test_a_step_that_differs_in_its_words_shares_its_drawing() -> None:
    def step(count: int) -> Tree:
        figure = {"kind": "figure", "drawing": "sew"}
        return {"kind": "step", "number": 1, "blocks": [{"kind": "paragraph", "text": f"Make {count}."}, figure]}

    (one,) = merged([([step(7)], frozenset({0})), ([step(9)], frozenset({1}))])
    shown = {node["text"] if "text" in node else node["drawing"]: views for node, views in one[0]["parts"]}
    assert shown == {"Make 7.": {0}, "Make 9.": {1}, "sew": {0, 1}}


@pytest.mark.slow
@pytest.mark.xdist_group("web")
@pytest.mark.parametrize("name", sorted(PATTERNS))
def test_the_views_of_a_pattern_come_back(name: str) -> None:
    """Every text of each view stands in what that view shows, in the same order, and no other text does."""
    views, theme, drawings = views_of(PATTERNS[name])
    pen = Pen(drawings, theme.tokens)
    tree = web_tree(views, pen)
    sets = [frozenset(map(int, own.split())) for own in tree.data["sets"].split(",")]
    assert tree.data["views"].split(" ") == [view.key for view in views]
    sizes = [view.size for view in views if view.edition == "whole"]
    for place, view in enumerate(views):
        if view.size not in ((sizes[0], sizes[1], sizes[-1]) if view.edition == "whole" else sizes[1:2]):
            continue  # The others are made of the same parts.
        alone = web_tree([view], pen).data
        assert _shown(tree.data["sections"], sets, place) == _shown(alone["sections"], [], 0)
        assert _shown(tree.data["cover_parts"], sets, place) == _shown(alone["cover_parts"], [], 0)


@pytest.mark.slow
@pytest.mark.xdist_group("web")
@pytest.mark.parametrize("name", sorted(PATTERNS))
def test_the_page_grows_by_what_differs(name: str) -> None:
    """A page for all views is much smaller than a page for each; every drawing stands in it once."""
    views, theme, drawings = views_of(PATTERNS[name])
    page = write_html(views, theme, drawings)
    whole = [view for view in views if view.edition == "whole"]
    apart = sum(len(write_html([view], theme, drawings)) for view in whole)
    assert len(write_html(whole, theme, drawings)) < 0.75 * apart
    insides = {drawing.inside for drawing in web_tree(views, Pen(drawings, theme.tokens)).drawings.values()}
    large = [inside for inside in insides if len(inside) > 2000]
    assert len(large) > 20
    lone = [inside for inside in large if not any(inside in other for other in large if other != inside)]
    assert all(page.count(inside) == 1 for inside in lone)


@pytest.mark.slow
@pytest.mark.xdist_group("web")
def test_sizes_keep_their_own_numbers() -> None:
    """Views of different sizes differ, so that choosing one matters."""
    views, _, _ = views_of(PATTERNS["rope-walk"])
    whole = [view.booklet for view in views if view.edition == "whole" and view.size]
    assert all(one.sections != other.sections for one, other in combinations(whole, 2))


def _of(together: list[tuple[Tree, Views]], place: int) -> list[Tree]:
    """What one view shows."""
    shown = []
    for node, views in together:
        if place in views:
            own = {name: value for name, value in node.items() if name != "parts"}
            shown.append({**own, "blocks": _of(node["parts"], place)} if "parts" in node else own)
    return shown


def _shown(nodes: list[Tree], sets: list[Views], place: int) -> list[Tree]:
    """The nodes that a view shows, without the marks that the page adds and the names it gives drawings and anchors."""
    kept = []
    for node in nodes:
        if not node["shown"] or place in sets[int(node["shown"])]:
            own = {key: value for key, value in node.items() if key not in _OF_THE_PAGE}
            if "blocks" in node and node.get("kind", "section") in ("section", "step", "notice"):
                own["blocks"] = _shown(node["blocks"], sets, place)
            if "figures" in node:
                own["figures"] = [{"alt": figure["alt"], "caption": figure["caption"]} for figure in node["figures"]]
            kept.append(own)
    return kept
