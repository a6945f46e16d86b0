"""What a reader chooses is what stands on the page, all of it and nothing else; the address and the device keep it."""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest

from web.browser import visiting
from web.pages import Made

pytestmark = [pytest.mark.slow, pytest.mark.xdist_group("web")]

DENIED = (
    "Object.defineProperty(window, 'localStorage', "
    "{get() { throw new DOMException('denied', 'SecurityError'); }});"
)
NONSENSE = ("size=none&show=nothing", "size=", "%E0%A4%A", "at=nowhere", "=&=&=", "size=crib&size=throw")
FULL = "Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); };"


def test_every_view_shows_its_own_booklet(page: Made, browser: Any, tmp_path: Path) -> None:
    """The text seen in a view is, word for word, that of a page with this booklet alone."""
    with visiting(browser, page.path) as visit:
        shown = [view for view in page.views if view.edition != "whole" and view.size == page.sizes[0]]
        shown += [page.view("whole", ""), page.view("whole", page.sizes[-1])]
        for number, view in enumerate(shown):
            visit.choose(size=view.size, show=view.edition)
            alone = page.alone([view], tmp_path / f"{number}.html")
            with visiting(browser, alone) as other:
                for part in ("header", "main"):
                    assert visit.visible_text(part) == other.visible_text(part), view.key


def test_a_size_shows_no_number_of_another(page: Made, browser: Any) -> None:
    """The finished sizes that stand on the cover and in the first table are those of the chosen size."""
    with visiting(browser, page.path) as visit:
        for size in page.sizes:
            visit.choose(size=size)
            own = dict(page.view("whole", size).booklet.cover.sizes)
            others = {text for name in page.sizes if name != size for text in
                      dict(page.view("whole", name).booklet.cover.sizes).values()} - set(own.values())
            seen = "\n".join(visit.visible_text("body"))
            assert all(text.replace("\u00a0", " ") in seen for text in own.values())
            assert not [text for text in others if text.replace("\u00a0", " ") in seen]


def test_the_address_says_what_is_shown(page: Made, browser: Any) -> None:
    size = page.sizes[-1]
    with visiting(browser, page.path, f"size={size}&show=by-block&at=cutting") as visit:
        assert visit.page.input_value("select[name=size]") == size
        assert visit.page.input_value("select[name=show]") == "by-block"
        assert visit.page.is_visible(f"#bags-{size}")
        bar = visit.page.locator(".chooser").bounding_box()
        place = visit.page.locator("#cutting").bounding_box()
        assert bar["y"] + bar["height"] <= place["y"] < 300
        visit.choose(size=page.sizes[0], show="whole")
        assert visit.page.url.endswith(f"#size={page.sizes[0]}")
        visit.choose(size="")
        assert visit.page.url.endswith("#")


@pytest.mark.parametrize("fragment", NONSENSE)
def test_an_address_that_means_nothing_shows_the_page(rope_walk: Made, browser: Any, fragment: str) -> None:
    with visiting(browser, rope_walk.path, fragment) as visit:
        assert visit.page.is_visible("main section >> nth=1")


def test_links_lead_to_what_is_shown_and_back(rope_walk: Made, browser: Any) -> None:
    size = rope_walk.sizes[0]
    with visiting(browser, rope_walk.path, f"size={size}") as visit:
        links = visit.page.locator(".contents a:visible")
        names = [link.get_attribute("href")[1:] for link in links.all()]
        assert len(names) > 8
        for name in names:
            visit.page.evaluate("location.hash = 'size=" + size + "'")
            visit.page.locator(f'.contents a[href="#{name}"]').click()
            assert visit.page.evaluate("document.activeElement.id") == name
            assert visit.page.url.endswith(f"#size={size}&at={name}")
        visit.page.go_back()
        assert visit.page.input_value("select[name=size]") == size


def test_checks_stay_for_each_size(page: Made, browser: Any) -> None:
    context = browser.new_context()
    first, second = page.sizes[:2]
    with visiting(browser, page.path, f"size={first}", context=context) as visit:
        visit.page.locator("main .step input:visible").first.check()
        visit.page.locator("main .checklist input:visible").nth(2).check()
        assert _progress(visit.page)[0] == 2
        visit.choose(show="by-block")
        assert _progress(visit.page)[0] == 2, "another edition of the same size has the same steps"
        visit.choose(show="whole", size=second)
        assert _progress(visit.page)[0] == 0
    with visiting(browser, page.path, context=context) as visit:
        assert visit.page.input_value("select[name=size]") == second, "the choice is kept on the device"
        visit.choose(size=first)
        assert visit.page.locator("main .step input:visible").first.is_checked()
        assert visit.page.locator("main .checklist input:visible").nth(2).is_checked()
        visit.page.reload()
        assert _progress(visit.page)[0] == 2
        visit.page.locator(".more summary").click()
        visit.page.click("button[name=clear]")
        assert _progress(visit.page)[0] == 0
        visit.page.click("button[name=clear]")
        assert _progress(visit.page)[0] == 2, "the second press brings the checks back"
        visit.page.click("button[name=clear]")
        visit.page.reload()
        assert _progress(visit.page)[0] == 0
    context.close()


def test_another_release_has_checks_of_its_own(rope_walk: Made, browser: Any, tmp_path: Path) -> None:
    context = browser.new_context()
    later = tmp_path / "later.html"
    text = rope_walk.path.read_text("utf-8")
    assert 'data-release="1"' in text
    later.write_text(text.replace('data-release="1"', 'data-release="2"'), encoding="utf-8")
    with visiting(browser, rope_walk.path, context=context) as visit:
        visit.page.locator("main .step input:visible").first.check()
    with visiting(browser, later, context=context) as visit:
        assert _progress(visit.page)[0] == 0
    context.close()


@pytest.mark.parametrize("trouble", [DENIED, FULL])
def test_a_browser_that_keeps_nothing_still_works(rope_walk: Made, browser: Any, trouble: str) -> None:
    first, second = rope_walk.sizes[:2]
    with visiting(browser, rope_walk.path, before=trouble) as visit:
        visit.choose(size=first)
        visit.page.locator("main .step input:visible").first.check()
        visit.choose(size=second)
        assert _progress(visit.page)[0] == 0
        visit.choose(size=first)
        assert _progress(visit.page)[0] == 1
        visit.page.locator(".more summary").click()
        note = visit.page.locator(".kept")
        assert note.inner_text() == note.get_attribute("data-lost")


def test_what_was_kept_may_be_nonsense(rope_walk: Made, browser: Any) -> None:
    rubbish = "for (const key of ['choices', 'checks/']) localStorage.setItem('patchwright/rope-walk/1/' + key, VALUE);"
    for value in ("'{'", "'[1, 2'", "'7'", "'null'", "'{\"size\": 3}'", "'[\"__proto__\"]'"):
        with visiting(browser, rope_walk.path, before=rubbish.replace("VALUE", value)) as visit:
            assert visit.page.is_visible("main section >> nth=1")
            assert _progress(visit.page)[0] == 0


def test_without_the_script_it_is_a_plain_document_for_all_sizes(page: Made, browser: Any, tmp_path: Path) -> None:
    alone = page.alone([page.view("whole", "")], tmp_path / "alone.html")
    with visiting(browser, page.path, script=False) as visit, visiting(browser, alone, script=False) as other:
        assert visit.visible_text("body") == other.visible_text("body")
        assert visit.page.locator("input:visible, select:visible, button:visible, dialog:visible").count() == 0
        size = page.sizes[0]
        assert visit.page.is_visible(f"#layouts-{size}")


def test_headings_stay_in_order_in_every_view(page: Made, browser: Any) -> None:
    with visiting(browser, page.path) as visit:
        for view in page.views:
            visit.choose(size=view.size, show=view.edition)
            levels = visit.page.evaluate(
                "[...document.querySelectorAll('h1,h2,h3')].filter(h => h.checkVisibility()).map(h => +h.tagName[1])"
            )
            assert levels[0] == 1
            assert levels.count(1) == 1
            assert all(there <= here + 1 for here, there in pairwise(levels))


def _progress(page: Any) -> tuple[int, int]:
    done, _, rest = page.locator(".progress").text_content().partition(" of ")
    return int(done), int(rest.split()[0])


def test_measures_of_the_other_system_can_be_left_out(page: Made, browser: Any) -> None:
    """They are marked, so that only they go; the pattern's own amounts stay."""
    with visiting(browser, page.path, f"size={page.sizes[0]}") as visit:
        asides = visit.page.locator(".also")
        shown = [text.replace("\u00a0", " ") for text in asides.all_inner_texts() if text]
        assert len(shown) > 5
        before = visit.visible_text("#table-buy, [id^='table-buy--']")
        visit.page.locator(".more summary").click()
        visit.choose(measures="own")
        assert visit.page.locator(".also:visible").count() == 0
        after = visit.visible_text("#table-buy, [id^='table-buy--']")
        assert after == [text for text in before if text not in shown]
        assert visit.page.url.endswith("measures=own")
        visit.page.reload()
        assert visit.page.locator(".also:visible").count() == 0
