"""Authors' Markdown: what it may hold becomes blocks, what it may not stays text or is refused."""

from __future__ import annotations

import pytest

from content.compiled import SIZES, names_of, plan_of
from patchwright.planning.prose_values import value_names
from patchwright.typesetting.booklet import Bullets, Emphasis, Link, Paragraph, Strong, Subheading, Words
from patchwright.typesetting.content.plain import inline_text
from patchwright.typesetting.content.prose import ProseFault, parse_prose
from patchwright.typesetting.content.values import UnknownValue, fill, values_of
from patchwright.wording import load_wording


def only(text: str) -> object:
    """The one block of a text that has nothing to refuse."""
    parsed = parse_prose(text)
    assert parsed.faults == ()
    assert len(parsed.blocks) == 1
    return parsed.blocks[0]


def test_styles_links_and_lists() -> None:
    assert only("A *light* and **dark**\ncloth.") == Paragraph(
        (Words("A "), Emphasis((Words("light"),)), Words(" and "), Strong((Words("dark"),)), Words(" cloth."))
    )
    assert only("## Before *all*") == Subheading("Before all")
    assert only("- one\n- two **x**") == Bullets(((Words("one"),), (Words("two "), Strong((Words("x"),)))))
    assert only("[here](https://longshore.example/a)") == Paragraph(
        (Link("https://longshore.example/a", (Words("here"),)),)
    )
    assert only("<post@longshore.example>") == Paragraph(
        (Link("mailto:post@longshore.example", (Words("post@longshore.example"),)),)
    )


def test_numbered_lists_keep_their_numbers() -> None:
    blocks = parse_prose("3. cut\n4. sew").blocks
    assert [inline_text(block.inlines) for block in blocks if isinstance(block, Paragraph)] == ["3. cut", "4. sew"]


@pytest.mark.parametrize(
    "text",
    [
        "<script>alert(1)</script>",
        "<b>bold</b> and <img src=x onerror=y>",
        "a <!-- comment --> b",
        "&lt;b&gt;",
        "| a | b |\n|---|---|\n| 1 | 2 |",
        "~~gone~~",
    ],
)
def test_html_tables_and_other_markup_stay_visible_text(text: str) -> None:
    block = only(text)
    assert isinstance(block, Paragraph)
    assert all(isinstance(inline, Words) for inline in block.inlines)
    shown = text.replace("&lt;", "<").replace("&gt;", ">").replace("\n", " ")
    assert inline_text(block.inlines) == shown


@pytest.mark.parametrize("target", ["http://longshore.example", "ftp://x", "patterns/rope.yaml", "//x", "#top"])
def test_other_links_are_refused_and_leave_their_words(target: str) -> None:
    parsed = parse_prose(f"First.\n\nSee [there]({target}).")
    assert parsed.faults == (ProseFault("link", target, 2),)
    assert parsed.blocks[1] == Paragraph((Words("See there."),))


def test_script_links_are_never_links() -> None:
    parsed = parse_prose("[x](javascript:alert(1)) [y](data:text/html,z) [z](vbscript:q)")
    (block,) = parsed.blocks
    assert isinstance(block, Paragraph)
    assert not any(isinstance(inline, Link) for inline in block.inlines)


def test_pictures_are_refused() -> None:
    parsed = parse_prose("A ![quilt](https://longshore.example/a.png) here")
    assert parsed.faults == (ProseFault("picture", "https://longshore.example/a.png", 0),)
    assert parsed.blocks == (Paragraph((Words("A  here"),)),)


def test_values_are_filled_in_by_size() -> None:
    plan = plan_of("rope-walk")
    text = "{{ block.coil.size }}, {{unit.turn.count}}, {{ fabric.deck.name }}, {{ size.throw.finished }}"
    assert fill(text, plan, ("crib",)) == "8″ square, 40, Bleached deck, 68″\u00a0×\u00a077″"
    many = fill("{{ block.coil.size }}", plan, names_of(plan))
    assert many == r"8″ square \(Crib and Throw\); 9″ square \(Queen\)"
    assert fill("{{ pattern.title }} {{ release }}", plan, ("crib",)) == "Rope Walk 1"


def test_unknown_values_are_named_with_their_places() -> None:
    text = "a {{ block.coil.side }} b {{x}}"
    unknown = fill(text, plan_of("rope-walk"), ("crib",))
    assert unknown == (UnknownValue("block.coil.side", 5, 20), UnknownValue("x", 28, 29))
    assert [text[each.start : each.end] for each in unknown if isinstance(each, UnknownValue)] == [
        "block.coil.side",
        "x",
    ]


def test_a_value_is_looked_up_and_never_worked_out() -> None:
    for name in ("1 + 1", "block.coil.__class__", "quilt['across']", "release|upper", ""):
        assert isinstance(fill(f"{{{{ {name} }}}}", plan_of("rope-walk"), ("crib",)), tuple)


@pytest.mark.parametrize("name", SIZES)
def test_every_name_has_a_value_in_every_size(name: str) -> None:
    plan = plan_of(name)
    names = value_names(plan)
    assert {"pattern.title", "release", "quilt.finished", "house.seam"} <= names
    assert set(values_of(plan, names_of(plan), load_wording())) == names
    text = "\n".join(f"{{{{ {each} }}}}" for each in sorted(names))
    for sizes in (names_of(plan), *((size,) for size in names_of(plan))):
        filled = fill(text, plan, sizes)
        assert isinstance(filled, str)
        assert "{" not in filled


def test_a_value_cannot_become_markup() -> None:
    plan = plan_of("tide-pool")
    filled = fill("{{ quilt.finished }}", plan, names_of(plan))
    assert isinstance(filled, str)
    (block,) = parse_prose(filled).blocks
    assert isinstance(block, Paragraph)
    assert all(isinstance(inline, Words) for inline in block.inlines)
    assert "\\" not in inline_text(block.inlines)
